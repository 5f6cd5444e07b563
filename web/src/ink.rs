//! A chart as a list of marks, and the list put onto the page and into files by plotters.
//!
//! The list is made once and not per target, which keeps the program small; what the screen shows is what the file holds. The page
//! shows it as SVG: sharp at any size and in print, and the browser paints it beside the page's own thread, which a canvas keeps busy
//! each frame even while nothing is drawn on it.
use lowside_present::palette::Rgb;
use plotters::{
    backend::{DrawingBackend, SVGBackend},
    coord::Shift,
    drawing::{DrawingArea, IntoDrawingArea},
    element::{Circle, PathElement, Polygon, Text},
    style::{
        Color, FontDesc, FontFamily, FontStyle, RGBAColor, ShapeStyle,
        text_anchor::{HPos, Pos, VPos},
    },
};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlCanvasElement};

use crate::host;

/// Where a text stands to its place.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Side {
    Left,
    Centre,
    Right,
}

/// A mark, in CSS pixels.
pub(crate) enum Mark {
    /// A line of some width.
    Path(Vec<(f64, f64)>, Rgb, f64),
    /// A filled shape with an opacity.
    Fill(Vec<(f64, f64)>, Rgb, f64),
    /// A disc: centre, radius, fill, rim.
    Disc((f64, f64), f64, Rgb, Rgb),
    /// A text: place, size, which side of the place it stands, bold.
    Text(String, (f64, f64), f64, Side, Rgb),
}

/// A list of marks with a few ways to make them.
#[derive(Default)]
pub(crate) struct Marks(pub(crate) Vec<Mark>);

impl Marks {
    pub(crate) fn line(&mut self, points: Vec<(f64, f64)>, colour: Rgb, width: f64) {
        if points.len() > 1 {
            self.0.push(Mark::Path(points, colour, width));
        }
    }

    /// A broken line: lengths of dash and gap.
    pub(crate) fn dashed(
        &mut self,
        points: &[(f64, f64)],
        colour: Rgb,
        width: f64,
        dash: [f64; 2],
    ) {
        let mut left = dash[0];
        let mut on = true;
        let mut piece = points.first().map(|p| vec![*p]).unwrap_or_default();
        for w in points.windows(2) {
            let ((x0, y0), (x1, y1)) = (w[0], w[1]);
            let length = (x1 - x0).hypot(y1 - y0);
            let mut at = 0.0;
            while length - at > left {
                at += left;
                let p = (x0 + (x1 - x0) * at / length, y0 + (y1 - y0) * at / length);
                if on {
                    piece.push(p);
                    self.line(core::mem::take(&mut piece), colour, width);
                }
                on = !on;
                left = dash[usize::from(!on)];
                piece = vec![p];
            }
            left -= length - at;
            if on {
                piece.push((x1, y1));
            }
        }
        if on {
            self.line(piece, colour, width);
        }
    }

    pub(crate) fn text(
        &mut self,
        text: impl Into<String>,
        at: (f64, f64),
        size: f64,
        side: Side,
        colour: Rgb,
    ) {
        self.0.push(Mark::Text(text.into(), at, size, side, colour));
    }

    pub(crate) fn fill(&mut self, points: Vec<(f64, f64)>, colour: Rgb, alpha: f64) {
        self.0.push(Mark::Fill(points, colour, alpha));
    }
}

/// Puts marks onto an area; letters `letters` times their size.
fn paint<B: DrawingBackend>(
    area: &DrawingArea<B, Shift>,
    marks: &[Mark],
    letters: f64,
) -> Option<()> {
    let scale = FINE;
    #[expect(clippy::cast_possible_truncation, reason = "a place on a screen")]
    let px = |v: f64| (v * scale).round() as i32;
    let at = |p: &(f64, f64)| (px(p.0), px(p.1));
    let colour = |c: Rgb, alpha: f64| RGBAColor(c.0, c.1, c.2, alpha);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few pixels"
    )]
    let width = |w: f64| (w * scale).round().max(1.0) as u32;
    for mark in marks {
        match mark {
            Mark::Path(points, c, w) => {
                let style = ShapeStyle::from(&colour(*c, 1.0)).stroke_width(width(*w));
                let points: Vec<_> = points.iter().map(at).collect();
                area.draw(&PathElement::new(points, style)).ok()?;
            }
            Mark::Fill(points, c, alpha) => {
                let points: Vec<_> = points.iter().map(at).collect();
                area.draw(&Polygon::new(points, colour(*c, *alpha).filled()))
                    .ok()?;
            }
            Mark::Disc(p, r, fill, rim) => {
                area.draw(&Circle::new(at(p), px(*r), colour(*rim, 1.0).filled()))
                    .ok()?;
                area.draw(&Circle::new(
                    at(p),
                    px(*r - 1.5),
                    colour(*fill, 1.0).filled(),
                ))
                .ok()?;
            }
            Mark::Text(text, p, size, side, c) => {
                let h = match side {
                    Side::Left => HPos::Left,
                    Side::Centre => HPos::Center,
                    Side::Right => HPos::Right,
                };
                // Not by its name: reading that takes a table of lower-case letters, 12 kB.
                let size = *size * scale * letters;
                let font = FontDesc::new(FontFamily::SansSerif, size, FontStyle::Normal);
                let style = font.color(&colour(*c, 1.0)).pos(Pos::new(h, VPos::Center));
                area.draw(&Text::new(text.as_str(), at(p), style)).ok()?;
            }
        }
    }
    area.present().ok()
}

/// Size of a chart's place, in CSS pixels or larger ones for a class; none while it is hidden.
pub(crate) fn place(sheet: &Element) -> Option<(f64, f64)> {
    let larger = host::enlarged();
    let (w, h) = (
        f64::from(sheet.client_width()) / larger,
        f64::from(sheet.client_height()) / larger,
    );
    (w >= 80.0 && h >= 60.0).then_some((w, h))
}

/// Puts marks onto the page instead of what was there.
pub(crate) fn on_page(sheet: &Element, marks: &Marks, size: (f64, f64)) {
    sheet.set_inner_html(&as_svg(marks, size));
}

/// Marks as the text of an SVG file, drawn finer than they are shown, since plotters rounds to whole pixels.
pub(crate) fn as_svg(marks: &Marks, size: (f64, f64)) -> String {
    let mut text = String::new();
    {
        let area = SVGBackend::with_string(&mut text, fine(size)).into_drawing_area();
        // What cannot be drawn is left out.
        let _ = paint(&area, &marks.0, SMALLER);
    }
    text
}

/// Pixels of a drawing in one of the page.
const FINE: f64 = 2.0;
/// By how much plotters makes letters smaller in SVG than on a canvas; to be undone.
const SMALLER: f64 = 1.24;

fn fine((w, h): (f64, f64)) -> (u32, u32) {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a screen's size"
    )]
    let pixels = |css: f64| (css * FINE).round() as u32;
    (pixels(w), pixels(h))
}

/// Marks as a PNG image, as an address that holds it; none where the browser has no canvas.
pub(crate) fn as_png(marks: &Marks, size: (f64, f64)) -> Option<String> {
    let canvas = host::document()
        .create_element("canvas")
        .ok()?
        .dyn_into::<HtmlCanvasElement>()
        .ok()?;
    let (w, h) = fine(size);
    canvas.set_width(w);
    canvas.set_height(h);
    let area = CanvasBackend::with_canvas_object(canvas.clone())?.into_drawing_area();
    paint(&area, &marks.0, 1.0)?;
    canvas.to_data_url().ok()
}

/// Kinds of file that a chart can be saved as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Svg,
    Png,
    Csv,
}

impl Kind {
    pub(crate) const ALL: [Self; 3] = [Self::Svg, Self::Png, Self::Csv];

    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Svg => "SVG",
            Self::Png => "PNG",
            Self::Csv => "CSV",
        }
    }
}

/// Saves a chart: its marks on a ground, or its numbers.
pub(crate) fn save(
    kind: Kind,
    stem: &str,
    marks: Marks,
    ground: Rgb,
    (w, h): (f64, f64),
    csv: impl Fn() -> String,
) {
    let mut all = Marks::default();
    all.fill(vec![(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)], ground, 1.0);
    all.0.extend(marks.0);
    let name = format!("lowside-{stem}.{}", kind.name().to_ascii_lowercase());
    match kind {
        Kind::Svg => host::save_text(&name, "image/svg+xml", &as_svg(&all, (w, h))),
        Kind::Csv => host::save_text(&name, "text/csv", &csv()),
        Kind::Png => {
            if let Some(address) = as_png(&all, (w, h)) {
                host::save_address(&name, &address);
            }
        }
    }
}
