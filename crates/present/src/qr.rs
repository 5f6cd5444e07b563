//! A text as a QR code (ISO/IEC 18004), to be read off a wall or from paper.

use core::fmt::Write;

use qrcodegen::{QrCode, QrCodeEcc};

/// Light modules that a reader needs around it (ISO/IEC 18004: four).
const QUIET: i32 = 4;

/// A code, drawn in squares of side 1.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Qr {
    /// Side of the whole, quiet margin and all.
    pub side: i32,
    /// The dark squares as an SVG path.
    pub path: String,
}

impl Qr {
    /// Draws a text; none if it is longer than a code can be. Least correction: a screen has no dirt, and the squares are larger.
    pub fn of(text: &str) -> Option<Self> {
        let code = QrCode::encode_text(text, QrCodeEcc::Low).ok()?;
        let mut path = String::new();
        for y in 0..code.size() {
            let mut x = 0;
            while x < code.size() {
                let dark = (x..code.size()).take_while(|x| code.get_module(*x, y));
                let run = i32::try_from(dark.count()).unwrap_or_default();
                if run > 0 {
                    // Writing into a string does not fail.
                    let _ = write!(path, "M{} {}h{run}v1h-{run}z", x + QUIET, y + QUIET);
                }
                x += run.max(1);
            }
        }
        let side = code.size() + 2 * QUIET;
        Some(Self { side, path })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the path paints, four dots a square.
    fn painted(qr: &Qr) -> Vec<Vec<bool>> {
        let side = usize::try_from(qr.side).expect("a size");
        let mut dots = vec![vec![false; 4 * side]; 4 * side];
        for run in qr.path.split('M').skip(1) {
            let (at, rest) = run.split_once('h').expect("a run");
            let (x, y) = at.split_once(' ').expect("a place");
            let length = rest.split('v').next().expect("a length");
            let [x, y, length]: [usize; 3] = [x, y, length].map(|n| n.parse().expect("a number"));
            for row in &mut dots[4 * y..4 * (y + 1)] {
                row[4 * x..4 * (x + length)].fill(true);
            }
        }
        dots
    }

    /// Read by a reader of its own (rqrr): a short address, and the longest link.
    #[test]
    fn a_code_is_read_as_what_was_written() {
        let longest = "https://example.org/bay/#k=".to_owned() + &"xY3-_z".repeat(250);
        for text in ["https://example.org/#s=healthy", &longest] {
            let qr = Qr::of(text).expect("short enough");
            let dots = painted(&qr);
            let shade = |x: usize, y: usize| if dots[y][x] { 0 } else { 255 };
            let mut seen =
                rqrr::PreparedImage::prepare_from_greyscale(dots.len(), dots.len(), shade);
            let found = seen.detect_grids();
            assert_eq!(found.len(), 1);
            let (_, read) = found[0].decode().expect("it can be read");
            assert_eq!(read, text);
        }
    }

    #[test]
    fn what_no_code_can_hold_has_none() {
        assert_eq!(Qr::of(&"a".repeat(3_000)), None);
    }
}
