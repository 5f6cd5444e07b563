//! The sheet under the drawing of levels: where things stand on it, and a canvas that is sharp on every screen.
use lowside_present::palette::Rgb;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, MouseEvent};

use crate::host;

/// Where a pointer is on a drawing, in the drawing's own pixels.
pub(crate) fn pointed(e: &MouseEvent) -> (f64, f64) {
    let larger = host::enlarged();
    (
        f64::from(e.offset_x()) / larger,
        f64::from(e.offset_y()) / larger,
    )
}

/// A canvas ready to be drawn on, cleared, with its size, in CSS pixels or larger ones for a class.
pub(crate) fn open(canvas: &HtmlCanvasElement) -> Option<(Pen, f64, f64)> {
    let ratio = host::pixel_ratio();
    let (w, h) = (
        f64::from(canvas.client_width()),
        f64::from(canvas.client_height()),
    );
    if w < 1.0 || h < 1.0 {
        return None;
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a screen's size"
    )]
    let (pw, ph) = ((w * ratio).round() as u32, (h * ratio).round() as u32);
    if canvas.width() != pw || canvas.height() != ph {
        canvas.set_width(pw);
        canvas.set_height(ph);
    }
    let context = canvas
        .get_context("2d")
        .ok()
        .flatten()?
        .dyn_into::<CanvasRenderingContext2d>()
        .ok()?;
    let larger = host::enlarged();
    let scale = ratio * larger;
    drop(context.set_transform(scale, 0.0, 0.0, scale, 0.0, 0.0));
    let (w, h) = (w / larger, h / larger);
    context.clear_rect(0.0, 0.0, w, h);
    Some((Pen { c: context }, w, h))
}

/// A pen on a canvas.
pub(crate) struct Pen {
    pub(crate) c: CanvasRenderingContext2d,
}

impl Pen {
    pub(crate) fn fill(&self, colour: Rgb) -> &Self {
        self.c.set_fill_style_str(&colour.to_string());
        self
    }

    pub(crate) fn stroke(&self, colour: Rgb, width: f64) -> &Self {
        self.c.set_stroke_style_str(&colour.to_string());
        self.c.set_line_width(width);
        self
    }

    pub(crate) fn alpha(&self, alpha: f64) -> &Self {
        self.c.set_global_alpha(alpha);
        self
    }

    pub(crate) fn rect(&self, x: f64, y: f64, w: f64, h: f64) {
        self.c.fill_rect(x, y, w, h);
    }

    pub(crate) fn line(&self, points: &[(f64, f64)]) {
        self.path(points);
        self.c.stroke();
    }

    pub(crate) fn path(&self, points: &[(f64, f64)]) {
        self.c.begin_path();
        for (k, &(x, y)) in points.iter().enumerate() {
            if k == 0 {
                self.c.move_to(x, y);
            } else {
                self.c.line_to(x, y);
            }
        }
    }

    /// An S-shaped hose from one point to another.
    pub(crate) fn hose(&self, from: (f64, f64), to: (f64, f64)) {
        let bend = (to.0 - from.0) * 0.5;
        self.c.begin_path();
        self.c.move_to(from.0, from.1);
        self.c
            .bezier_curve_to(from.0 + bend, from.1, to.0 - bend, to.1, to.0, to.1);
        self.c.stroke();
    }

    pub(crate) fn circle(&self, x: f64, y: f64, r: f64) {
        self.c.begin_path();
        // A full turn is always a sound arc.
        drop(self.c.arc(x, y, r, 0.0, core::f64::consts::TAU));
    }

    /// A path around a rectangle with rounded corners.
    pub(crate) fn rounded(&self, x: f64, y: f64, w: f64, h: f64, r: f64) {
        self.c.begin_path();
        let r = r.min(w / 2.0).min(h / 2.0).max(0.0);
        self.c.move_to(x + r, y);
        drop(self.c.arc_to(x + w, y, x + w, y + h, r));
        drop(self.c.arc_to(x + w, y + h, x, y + h, r));
        drop(self.c.arc_to(x, y + h, x, y, r));
        drop(self.c.arc_to(x, y, x + w, y, r));
        self.c.close_path();
    }

    /// Dashes that have moved by `phase`; none for solid.
    pub(crate) fn dashes(&self, pattern: &[f64], phase: f64) -> &Self {
        let list: js_sys::Array = pattern.iter().map(|x| JsValue::from_f64(*x)).collect();
        drop(self.c.set_line_dash(&list));
        self.c.set_line_dash_offset(-phase);
        self
    }

    pub(crate) fn font(&self, size: f64, bold: bool) -> &Self {
        self.c.set_font(&format!(
            "{}{size}px system-ui, sans-serif",
            if bold { "600 " } else { "" }
        ));
        self
    }

    /// Width of a text in the font that was set last, px.
    pub(crate) fn width(&self, text: &str) -> f64 {
        self.c.measure_text(text).map_or(0.0, |m| m.width())
    }

    /// Text at a place; `align` is "left", "center" or "right"; vertically in the middle.
    pub(crate) fn text(&self, text: &str, x: f64, y: f64, align: &str) {
        self.c.set_text_align(align);
        self.c.set_text_baseline("middle");
        drop(self.c.fill_text(text, x, y));
    }
}

/// Where things stand on the sheet, px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Sheet {
    pub(crate) wide: bool,
    pub(crate) w: f64,
    top: f64,
    floor: f64,
    /// Right end of the axis.
    pub(crate) axis: f64,
    /// Left and width of the can.
    pub(crate) can: (f64, f64),
    /// Height of the can.
    pub(crate) can_h: f64,
    /// Left and right of the service hose's bar.
    pub(crate) service: (f64, f64),
    /// Left and right of the two hoses' bars.
    pub(crate) hose: (f64, f64),
    /// Left end of the loop.
    pub(crate) start: f64,
    /// Right end of the compressor's shaft.
    pub(crate) shaft: f64,
    /// Right end of the accumulator, left end of the evaporator.
    pub(crate) basin: f64,
    /// Right end of both shelves.
    pub(crate) end: f64,
    /// Height of the high shelf's blocks.
    pub(crate) high_h: f64,
    /// Depths below the low line: evaporator, accumulator; height of the suction above it.
    pub(crate) evaporator_d: f64,
    pub(crate) accumulator_d: f64,
    pub(crate) suction_h: f64,
    /// Square pixels a litre: all volumes of the loop and the can are drawn to it.
    pub(crate) litre: f64,
}

/// Room beside the names of the column at the right: the leaders to their lines and the margins, px.
const COLUMN: f64 = 40.0;

impl Sheet {
    /// Lays out a sheet of a size for volumes in litres: high blocks in all, evaporator, accumulator, suction, can.
    /// `depth` 1 leaves room for a loop that lies on the floor, 0 takes it away while everything runs well above the atmosphere.
    /// `names` is the width of the longest name in the column at the right, px.
    pub(crate) fn new(w: f64, h: f64, volumes: [f64; 5], depth: f64, names: f64) -> Self {
        let wide = w >= 560.0;
        let s = (w / 760.0).clamp(0.9, 1.35);
        let pick = |a: f64, b: f64| {
            if wide {
                a * s
            } else {
                b * (w / 358.0).clamp(0.85, 1.5)
            }
        };
        let axis = pick(92.0, 57.0);
        let can_w = pick(46.0, 27.0);
        let can = axis + pick(16.0, 4.0);
        let service = can + can_w + pick(30.0, 15.0);
        let service_end = service + pick(28.0, 10.0);
        let hose = service_end + pick(36.0, 19.0);
        let hose_end = hose + pick(34.0, 12.0);
        let start = hose_end + pick(36.0, 19.0);
        let shaft = start + pick(46.0, 30.0);
        let basin = start + pick(88.0, 56.0);
        let column = if wide { names + COLUMN } else { 0.0 };
        let end = w - pick(118.0, 22.0).max(column);
        let [high, evaporator, accumulator, suction, can_v] = volumes;
        let high_h = pick(38.0, 26.0);
        let litre = high_h * (end - shaft) / high;
        let accumulator_d = accumulator * litre / (basin - start);
        Self {
            wide,
            w,
            top: high_h + pick(28.0, 28.0),
            floor: h - depth * (accumulator_d + pick(18.0, 14.0)) - pick(14.0, 12.0),
            axis,
            can: (can, can_w),
            can_h: can_v * litre / can_w,
            service: (service, service_end),
            hose: (hose, hose_end),
            start,
            shaft,
            basin,
            end,
            high_h,
            evaporator_d: evaporator * litre / (end - basin),
            accumulator_d,
            suction_h: suction * litre / (shaft - start),
            litre,
        }
    }

    /// Where a height on the axis (0 to 1) is.
    pub(crate) fn y(&self, height: f64) -> f64 {
        self.floor - height * (self.floor - self.top)
    }

    /// Centre and radius of the valve glyphs: tap, low valve, high valve, low port, high port, purge.
    pub(crate) fn radius(&self) -> f64 {
        if self.wide { 11.0 } else { 8.0 }
    }
}
