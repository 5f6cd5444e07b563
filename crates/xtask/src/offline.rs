//! What makes the page installable: icons drawn here, and the service worker with its list of files.
use std::{collections::BTreeMap, fmt::Write as _};

use anyhow::Result;
use png::{ColorType, Compression};

/// The icon that every view of the page asks for.
pub(crate) const ICON: &str = "icon.svg";

/// Sides of the icons, px: what browsers ask of an installable page.
const SIDES: [u32; 2] = [192, 512];

/// Bottle green, the page's accent; paper; high-side red; low-side blue.
const GREEN: [u8; 3] = [0x0b, 0x6a, 0x64];
const PAPER: [u8; 3] = [0xfd, 0xfb, 0xf7];
const RED: [u8; 3] = [0xf0, 0x8a, 0x80];
const BLUE: [u8; 3] = [0x7f, 0xb4, 0xf2];

/// The icon: two shelves, the lift on the left, the fall on the right. Rectangles `(x, y, width, height, colour)` on a square of
/// 100, within the middle 80 % that a mask leaves.
const SHAPES: [(u32, u32, u32, u32, [u8; 3]); 6] = [
    (24, 26, 52, 9, RED),
    (24, 35, 52, 4, PAPER),
    (24, 61, 52, 4, PAPER),
    (24, 65, 52, 9, BLUE),
    (24, 39, 7, 22, PAPER),
    (71, 39, 3, 22, PAPER),
];

/// The icons by file name.
pub(crate) fn icons() -> Result<BTreeMap<String, Vec<u8>>> {
    let mut made = BTreeMap::from([(ICON.to_owned(), svg().into_bytes())]);
    for side in SIDES {
        made.insert(format!("icon-{side}.png"), png(side)?);
    }
    Ok(made)
}

fn svg() -> String {
    let colour = |[r, g, b]: [u8; 3]| format!("#{r:02x}{g:02x}{b:02x}");
    let mut shapes = String::new();
    for (x, y, w, h, c) in SHAPES {
        let _ = write!(
            shapes,
            "<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" fill=\"{}\"/>",
            colour(c)
        );
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 100\"><rect width=\"100\" height=\"100\" rx=\"18\" fill=\"{}\"/>{shapes}</svg>",
        colour(GREEN)
    )
}

/// A PNG of the icon, truecolour without alpha.
fn png(side: u32) -> Result<Vec<u8>> {
    let mut pixels = Vec::new();
    for y in 0..side {
        for x in 0..side {
            let (u, v) = (x * 100 / side, y * 100 / side);
            let inside = |&&(sx, sy, w, h, _): &&(u32, u32, u32, u32, [u8; 3])| {
                (sx..sx + w).contains(&u) && (sy..sy + h).contains(&v)
            };
            pixels.extend(SHAPES.iter().rev().find(inside).map_or(GREEN, |s| s.4));
        }
    }
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, side, side);
    encoder.set_color(ColorType::Rgb);
    encoder.set_compression(Compression::High);
    encoder.write_header()?.write_image_data(&pixels)?;
    Ok(file)
}

/// The service worker with its version and files put in. A development build gets one that takes itself away, so that a change
/// is seen at the next reload.
pub(crate) fn worker(template: &str, version: &str, files: &[String], dev: bool) -> String {
    if dev {
        return "self.addEventListener(\"install\", () => self.skipWaiting());\n\
                self.addEventListener(\"activate\", () => self.registration.unregister());\n"
            .to_owned();
    }
    template
        .replace("{{version}}", version)
        .replace("{{files}}", &files.join("\", \""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_worker_lists_its_files() {
        let files = ["./".to_owned(), "v1/a.js".to_owned()];
        let made = worker(
            "v = \"{{version}}\"; f = [\"{{files}}\"];",
            "v1",
            &files,
            false,
        );
        assert_eq!(made, "v = \"v1\"; f = [\"./\", \"v1/a.js\"];");
        assert!(worker("{{files}}", "v1", &files, true).contains("unregister"));
    }

    /// Read back, the icons are of the size that their names say and of the colours of the drawing.
    #[test]
    fn icons_are_whole_files() {
        for (name, file) in icons().expect("drawn") {
            let Some(side) = name
                .strip_prefix("icon-")
                .and_then(|n| n.strip_suffix(".png"))
            else {
                continue;
            };
            assert!(file.len() < 4000, "{} bytes", file.len());
            let mut reader = png::Decoder::new(std::io::Cursor::new(file))
                .read_info()
                .expect("a head");
            let mut pixels = vec![0; reader.output_buffer_size().expect("small")];
            let info = reader.next_frame(&mut pixels).expect("whole");
            assert_eq!(
                (info.width.to_string(), info.height),
                (side.to_owned(), info.width)
            );
            let at = |x: u32, y: u32| {
                let k = 3 * (y * info.width / 100 * info.width + x * info.width / 100) as usize;
                [pixels[k], pixels[k + 1], pixels[k + 2]]
            };
            assert_eq!([at(2, 2), at(50, 30), at(50, 70)], [GREEN, RED, BLUE]);
        }
    }
}
