//! Draws the levels: pressure is height, and everything flows downhill.
use lowside_present::{
    controls::Control,
    levels::{Block, FlowMark, Levels, Tick},
    notes::{self, Note, Spot},
    palette::{Rgb, Theme},
    parts::Part,
};
use web_sys::HtmlCanvasElement;

use crate::sheet::{self, Pen, Sheet};

mod hoses;
mod shelves;
mod surroundings;
mod valves;

/// Dash travel, px/s for each g/s of flow: one factor for every stream, so that speeds can be compared.
const TRAVEL: f64 = 2.4;
/// Flow below which a stream counts as at rest, g/s.
const REST: f64 = 0.02;

/// Heights of the lowest thing below which the room beneath is shown, and above which it is taken away again.
const DEEP: [f64; 2] = [0.24, 0.29];

/// Size of lettering on a wide sheet, px.
const WIDE: f64 = 12.0;

/// Streams whose dashes move.
const STREAMS: usize = 11;

/// What is to be drawn.
pub(crate) struct Scene<'a> {
    pub(crate) levels: &'a Levels,
    /// Marks of the axis.
    pub(crate) ticks: &'a [Tick],
    /// Units of pressure and temperature.
    pub(crate) names: [&'a str; 2],
    /// The control that the next step refers to.
    pub(crate) needed: Option<Control>,
    /// The part pointed at.
    pub(crate) lit: Option<Part>,
    /// What is to be noticed, numbered from 1.
    pub(crate) notes: &'a [Note],
}

/// The painter: it remembers how far each stream's dashes have moved.
#[derive(Default)]
pub(crate) struct Painter {
    phase: [f64; STREAMS],
    /// What can be pressed on the drawing, and where.
    pub(crate) spots: Vec<(Control, f64, f64)>,
    /// Which part lies where: left, top, width, height.
    pub(crate) zones: Vec<(Part, f64, f64, f64, f64)>,
    drift: f64,
    /// How much of the room below is shown, 0 to 1.
    depth: f64,
    deep: bool,
}

/// What is drawn with.
struct Brush<'a> {
    pen: &'a Pen,
    theme: &'a Theme,
    sheet: &'a Sheet,
    /// Size of lettering.
    size: f64,
    drift: f64,
}

/// Which way a block stands on its line.
#[derive(Clone, Copy, PartialEq)]
enum Side {
    Above,
    Below,
}

impl Painter {
    /// Draws a scene; `dt` is the wall time since the last frame, s, 0 when nothing is to move.
    pub(crate) fn draw(
        &mut self,
        canvas: &HtmlCanvasElement,
        theme: &Theme,
        scene: &Scene,
        dt: f64,
    ) {
        let Scene {
            levels,
            ticks,
            names,
            needed,
            lit,
            notes,
        } = *scene;
        let Some((pen, w, h)) = sheet::open(canvas) else {
            return;
        };
        let high: f64 = levels.high_side().map(|(_, b)| b.volume).sum();
        let evaporator: f64 = levels.evaporator.iter().map(|b| b.volume).sum();
        let can = levels.can.as_ref().map_or(0.385, |c| c.block.volume);
        self.move_on(levels, dt);
        let volumes = [
            high,
            evaporator,
            levels.accumulator.volume,
            levels.suction.volume,
            can,
        ];
        pen.font(WIDE, false);
        let column = surroundings::column_names().map(|name| pen.width(name));
        let sheet = Sheet::new(
            w,
            h,
            volumes,
            self.depth * self.depth * (3.0 - 2.0 * self.depth),
            column.into_iter().fold(0.0, f64::max),
        );
        let b = Brush {
            pen: &pen,
            theme,
            sheet: &sheet,
            size: if sheet.wide { WIDE } else { 10.5 },
            drift: self.drift,
        };
        b.ground(levels, h);
        b.axis(ticks, names);
        b.surroundings(levels);
        b.heat(levels);
        b.fall(levels, self.phase[2]);
        b.shaft(levels, self.phase[0]);
        b.low_shelf(levels, &self.phase);
        b.high_shelf(levels, &self.phase);
        b.hoses(levels, &self.phase);
        b.can(levels);
        b.part_names(levels);
        b.names(levels);
        self.zones = b.zones(levels);
        b.lit(&self.zones, lit);
        self.spots = b.valves(levels, needed);
        b.badges(notes);
    }

    fn move_on(&mut self, l: &Levels, dt: f64) {
        let streams = [
            l.compressor,
            l.condenser,
            l.orifice,
            l.evaporated,
            l.pick_up,
            l.tap,
            l.low_valve,
            l.low_port,
            l.high_valve,
            l.high_port,
            l.hose_end,
        ];
        for (phase, s) in self.phase.iter_mut().zip(streams) {
            *phase = (*phase + s.flow * TRAVEL * dt) % 1200.0;
        }
        self.drift = (self.drift + dt) % 1000.0;
        let lowest = l.lowest();
        self.deep = lowest < if self.deep { DEEP[1] } else { DEEP[0] };
        let goal = f64::from(u8::from(self.deep));
        // Without motion the sheet is at once as it has to be.
        let step = if dt > 0.0 { dt / 0.8 } else { 1.0 };
        self.depth += (goal - self.depth).clamp(-step, step);
    }
}

impl Brush<'_> {
    fn halo(&self, text: &str, x: f64, y: f64, align: &str, colour: Rgb) {
        self.pen.font(self.size, false);
        self.letters(text, x, y, align, colour);
    }

    fn bold(&self, text: &str, x: f64, y: f64, align: &str, colour: Rgb) {
        self.pen.font(self.size, true);
        self.letters(text, x, y, align, colour);
    }

    /// Text with a rim of the ground's colour, so that it can be read upon lines.
    fn letters(&self, text: &str, x: f64, y: f64, align: &str, colour: Rgb) {
        let (pen, t) = (self.pen, self.theme);
        pen.c.set_text_align(align);
        pen.c.set_text_baseline("middle");
        pen.stroke(t.sheet, 3.0).dashes(&[], 0.0);
        drop(pen.c.stroke_text(text, x, y));
        pen.fill(colour).text(text, x, y, align);
    }

    /// A name's height, moved off a line across that would run through it, to the line's other side or this by `step`.
    fn off(&self, l: &Levels, y: f64, step: f64) -> f64 {
        let lines = [l.atmosphere, l.outside.height, l.cabin.height].map(|h| self.sheet.y(h));
        let near = lines.into_iter().find(|line| (y - line).abs() < 8.0);
        near.map_or(y, |line| line + step)
    }

    /// A block of the loop: outline, vapour as fine dots, liquid as a body with a surface.
    fn block(&self, b: &Block, x: f64, w: f64, size: f64, side: Side) {
        let (pen, t) = (self.pen, self.theme);
        let y = self.sheet.y(b.height);
        let top = if side == Side::Above { y - size } else { y };
        let heat = t.heat(b.t);
        pen.fill(t.sheet).rect(x, top, w, size);
        pen.fill(heat)
            .alpha(0.22 + 0.2 * b.haze.sqrt())
            .rect(x, top, w, size);
        pen.alpha(1.0);
        let liquid = b.fill * size;
        if liquid > 0.4 {
            pen.fill(heat).rect(x, top + size - liquid, w, liquid);
            pen.alpha(0.55)
                .stroke(t.ink, 1.0)
                .line(&[(x, top + size - liquid), (x + w, top + size - liquid)]);
            pen.alpha(1.0);
        }
        // Dots of vapour: as many as it is dense, drifting.
        let gas = size - liquid;
        let dots = (w * gas * (0.004 + 0.028 * b.haze.sqrt()) * f64::from(u8::from(b.haze > 2e-4)))
            .min(160.0);
        pen.fill(t.ink).alpha(0.34);
        let mut k = 0.0;
        while k < dots {
            let u = (k * 0.754_877_666 + self.drift * 0.013 * (1.0 + (k % 3.0))) % 1.0;
            let v = (k * 0.569_840_291 + x * 0.137) % 1.0;
            pen.rect(x + u * (w - 1.5), top + v * (gas - 1.5).max(0.0), 1.5, 1.5);
            k += 1.0;
        }
        pen.alpha(1.0);
    }

    /// Where each part lies.
    fn zones(&self, l: &Levels) -> Vec<(Part, f64, f64, f64, f64)> {
        let s = self.sheet;
        let mut out = Vec::new();
        let mut x = s.shaft;
        for (part, b) in l.high_side() {
            let w = b.volume * s.litre / s.high_h;
            out.push((part, x, s.y(b.height) - s.high_h, w, s.high_h));
            x += w;
        }
        let w = (s.end - s.basin) / l.evaporator.len() as f64;
        for (k, b) in l.evaporator.iter().enumerate() {
            let x = s.end - (k as f64 + 1.0) * w;
            out.push((Part::Evaporator, x, s.y(b.height), w, s.evaporator_d));
        }
        let y = s.y(l.accumulator.height);
        out.push((
            Part::Accumulator,
            s.start,
            y,
            s.basin - s.start,
            s.accumulator_d,
        ));
        let (bottom, top) = (s.y(l.suction.height), s.y(l.discharge.height) - s.high_h);
        out.push((
            Part::Suction,
            s.start,
            bottom - s.suction_h,
            s.shaft - s.start,
            s.suction_h,
        ));
        if bottom - s.suction_h - top > 4.0 {
            out.push((
                Part::Compressor,
                s.start,
                top,
                s.shaft - s.start,
                bottom - s.suction_h - top,
            ));
        }
        let (y0, y1) = (s.y(l.liquid.height), s.y(l.evaporator[0].height));
        if y1 - y0 > 4.0 {
            out.push((
                Part::Orifice,
                s.end,
                y0 - s.high_h / 2.0,
                22.0,
                y1 - y0 + s.high_h / 2.0,
            ));
        }
        for (part, b, at) in [
            (Part::LowHose, &l.low_hose, s.hose),
            (Part::HighHose, &l.high_hose, s.hose),
            (Part::ServiceHose, &l.service_hose, s.service),
        ] {
            out.push((part, at.0, s.y(b.height) - 7.0, at.1 - at.0, 14.0));
        }
        if let Some(c) = &l.can {
            let top = s.y(c.block.height) - if c.inverted { s.can_h } else { 0.0 };
            out.push((Part::Can, s.can.0, top, s.can.1, s.can_h));
        }
        out
    }

    /// A frame round the part that is pointed at.
    fn lit(&self, zones: &[(Part, f64, f64, f64, f64)], lit: Option<Part>) {
        let Some(lit) = lit else { return };
        self.pen.stroke(self.theme.accent, 3.0).dashes(&[], 0.0);
        for &(_, x, y, w, h) in zones.iter().filter(|z| z.0 == lit) {
            self.pen.rounded(x - 1.0, y - 1.0, w + 2.0, h + 2.0, 3.0);
            self.pen.c.stroke();
        }
    }

    /// Numbers of the notes, at what they speak of.
    fn badges(&self, notes: &[Note]) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        for (k, n) in notes.iter().take(notes::SHOWN).enumerate() {
            let y = s.y(n.height);
            let (x, y) = match n.spot {
                Spot::High => {
                    // Beside the condenser's name, which is nearer where there is little room.
                    let share = if s.wide { 0.25 } else { 0.15 };
                    (s.shaft + (s.end - s.shaft) * share, y - s.high_h - 12.0)
                }
                Spot::Low => (s.basin + 16.0, y + s.evaporator_d + 14.0),
                Spot::Orifice => (s.end + 24.0, y + 12.0),
                Spot::Compressor => (s.start - 12.0, y - s.high_h + 8.0),
                Spot::Can => (s.can.0 + s.can.1 + 2.0, y - 16.0),
                Spot::Hose => (s.service.0 + 8.0, y - 18.0),
            };
            pen.fill(t.accent).circle(x, y, 9.0);
            pen.c.fill();
            pen.font(11.5, true).fill(t.on_accent);
            pen.text(&format!("{}", k + 1), x, y + 0.5, "center");
        }
    }

    /// What air in a block adds to its height: a hatched band down to where it would stand without, over `w` px.
    fn air(&self, b: &Block, x: f64, w: f64) {
        let (top, bottom) = (self.sheet.y(b.height), self.sheet.y(b.without_air));
        if b.below || bottom - top < 2.0 {
            return;
        }
        let (pen, t) = (self.pen, self.theme);
        pen.stroke(t.service, 1.4).dashes(&[4.0, 3.0], 0.0);
        pen.line(&[(x, bottom), (x + w, bottom)]);
        pen.dashes(&[], 0.0);
        let mut at = x - (bottom - top);
        while at < x + w {
            let (mut a, mut b) = ((at, bottom), (at + bottom - top, top));
            if a.0 < x {
                a = (x, bottom - (x - at));
            }
            if b.0 > x + w {
                b = (x + w, bottom - (x + w - at));
            }
            pen.line(&[a, b]);
            at += 8.0;
        }
    }

    /// The walls and the level line of a row of blocks.
    fn walls(&self, b: &Block, x: f64, w: f64, size: f64, side: Side) {
        let (pen, t) = (self.pen, self.theme);
        let y = self.sheet.y(b.height);
        let far = if side == Side::Above {
            y - size
        } else {
            y + size
        };
        pen.stroke(t.edge, 1.0)
            .dashes(&[], 0.0)
            .line(&[(x, far), (x + w, far)]);
        pen.stroke(t.ink, 2.6)
            .line(&[(x - 0.5, y), (x + w + 0.5, y)]);
    }

    /// Moving dashes along a path that the pen holds.
    fn flow(&self, s: FlowMark, phase: f64, draw: impl Fn()) {
        if s.flow.abs() < REST {
            return;
        }
        let pen = self.pen;
        let thick = if s.liquid > 0.5 { 3.2 } else { 1.8 };
        let pattern: &[f64] = if s.liquid > 0.5 {
            &[9.0, 6.0]
        } else {
            &[3.0, 9.0]
        };
        pen.stroke(self.theme.ink, thick)
            .alpha(0.85)
            .dashes(pattern, phase);
        draw();
        pen.dashes(&[], 0.0).alpha(1.0);
    }
}
