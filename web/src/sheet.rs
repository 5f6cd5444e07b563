//! The sheet under the drawing of levels: where things stand on it, and a canvas that is sharp on every screen.
use lowside_present::{levels::CELLAR, palette::Rgb};
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

    /// Fills from a colour's `from` share at one height to its `to` share at another.
    pub(crate) fn fade(&self, colour: Rgb, (y0, from): (f64, f64), (y1, to): (f64, f64)) -> &Self {
        let gradient = self.c.create_linear_gradient(0.0, y0, 0.0, y1);
        let Rgb(r, g, b) = colour;
        for (at, alpha) in [(0.0, from), (1.0, to)] {
            drop(gradient.add_color_stop(at, &format!("rgba({r},{g},{b},{alpha})")));
        }
        self.c.set_fill_style_canvas_gradient(&gradient);
        self
    }

    /// Fills from one colour at one height through others to the last at another, evenly.
    pub(crate) fn blend(&self, colours: &[Rgb], y0: f64, y1: f64) -> &Self {
        let gradient = self.c.create_linear_gradient(0.0, y0, 0.0, y1);
        let (mut at, step) = (0.0, 1.0 / (colours.len() - 1) as f32);
        for colour in colours {
            drop(gradient.add_color_stop(f32::min(at, 1.0), &colour.to_string()));
            at += step;
        }
        self.c.set_fill_style_canvas_gradient(&gradient);
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

/// Where things stand on the sheet of levels, px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Sheet {
    pub(crate) wide: bool,
    pub(crate) w: f64,
    pub(crate) h: f64,
    /// Where the highest pressure of the axis is, the atmosphere, and the lowest.
    top: f64,
    atmosphere: f64,
    pub(crate) floor: f64,
    /// Right end of the axis.
    pub(crate) axis: f64,
    /// Left and width of a vessel on the service hose.
    pub(crate) vessel: (f64, f64),
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
    /// Right end of both lines.
    pub(crate) end: f64,
    /// Right end of the fall.
    pub(crate) fall: f64,
    /// Left end of the flags.
    pub(crate) flag: f64,
    /// How far a channel reaches from its line where there is room.
    reach: f64,
}

/// What a sheet of levels is laid out for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Room {
    /// Room below the atmosphere: 1 with something down there, 0 while all runs above.
    pub(crate) depth: f64,
    /// Room at the left for what hangs on the service hose, 0 to 1.
    pub(crate) hangs: f64,
    /// Width of the longest name in the column at the right, px.
    pub(crate) names: f64,
}

/// Room beside the names of the column at the right: the leaders to their lines and the margins, px.
const COLUMN: f64 = 6.0;
/// Room that a name under a channel or over it needs, px.
const NAME: f64 = 16.0;

impl Sheet {
    /// Lays out a sheet of a size.
    pub(crate) fn new(w: f64, h: f64, room: Room) -> Self {
        let wide = w >= 560.0;
        let s = if wide {
            (w / 830.0).clamp(0.85, 1.3)
        } else {
            (w / 358.0).clamp(0.85, 1.5)
        };
        let pick = |a: f64, b: f64| s * if wide { a } else { b };
        let hangs = room.hangs;
        let axis = pick(72.0, 52.0);
        let vessel = axis + pick(6.0, 4.0);
        let vessel_w = pick(66.0, 34.0);
        let service = vessel + hangs * (vessel_w + pick(34.0, 12.0));
        let service_end = service + pick(10.0, 4.0);
        let hose = service_end + pick(31.0, 20.0) + hangs * pick(8.0, 0.0);
        let hose_end = hose + pick(4.0, 2.0);
        let start = hose_end + pick(30.0, 20.0) + hangs * pick(8.0, 0.0);
        let column = if wide { room.names + COLUMN } else { 0.0 };
        let flag = pick(56.0, 42.0);
        let fall = w - column.max(flag + pick(10.0, 4.0));
        let (top, reach) = (pick(26.0, 24.0), (h * 0.32).clamp(60.0, 230.0));
        let floor = h - 10.0 - room.depth * (reach.min(h * 0.25) + NAME);
        let shallow = h - NAME - 10.0;
        let deep = floor - CELLAR * (floor - top);
        Self {
            wide,
            w,
            h,
            top,
            atmosphere: shallow + room.depth * (deep - shallow),
            floor,
            axis,
            vessel: (vessel, vessel_w),
            service: (service, service_end),
            hose: (hose, hose_end),
            start,
            shaft: (start + pick(56.0, 32.0)).round(),
            basin: (start + pick(124.0, 62.0)).round(),
            end: (fall - pick(42.0, 30.0)).round(),
            fall,
            flag: w - flag,
            reach,
        }
    }

    /// Where a height on the axis (0 to 1) is.
    pub(crate) fn y(&self, height: f64) -> f64 {
        if height < CELLAR {
            self.floor - height / CELLAR * (self.floor - self.atmosphere)
        } else {
            self.atmosphere - (height - CELLAR) / (1.0 - CELLAR) * (self.atmosphere - self.top)
        }
    }

    /// The height on the axis (0 to 1) at a place of the sheet.
    pub(crate) fn height(&self, y: f64) -> f64 {
        let (top, atmosphere, floor) = (self.top, self.atmosphere, self.floor);
        let height = if y > atmosphere {
            CELLAR * (floor - y) / (floor - atmosphere).max(1.0)
        } else {
            CELLAR + (1.0 - CELLAR) * (atmosphere - y) / (atmosphere - top)
        };
        height.clamp(0.0, 1.0)
    }

    /// How far a channel or a vessel reaches up from a line at `y`.
    pub(crate) fn above(&self, y: f64) -> f64 {
        self.reach.min(y - 3.0).max(18.0)
    }

    /// How far one reaches down from it.
    pub(crate) fn below(&self, y: f64) -> f64 {
        self.reach.min(self.h - NAME - y).max(18.0)
    }

    /// Radius of the handles of valves and couplers.
    pub(crate) fn radius(&self) -> f64 {
        if self.wide { 11.0 } else { 8.0 }
    }
}
