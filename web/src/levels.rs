//! Draws the levels: pressure is height, and everything flows downhill.
use lowside_present::{
    controls::Control,
    levels::{FlowMark, Levels, Tick, Tool},
    notes::{self, Note, Spot},
    palette::{Rgb, Theme},
    parts::Part,
};
use lowside_session::{Action, Bay};
use lowside_units::display::UnitSystem;
use web_sys::HtmlCanvasElement;

use crate::sheet::{self, Pen, Room, Sheet};

mod channels;
pub(crate) mod drag;
mod fall;
mod flags;
mod hoses;
mod names;
mod openings;
mod phases;
mod shelves;
mod surroundings;
pub(crate) mod ties;
mod tools;
mod valves;

/// Dash travel, px/s for each g/s of flow: one factor for every stream, so that speeds can be compared.
const TRAVEL: f64 = 2.4;
/// Flow below which a stream counts as at rest, g/s.
const REST: f64 = 0.02;
/// Thickness of the line that is a side's pressure, px.
const LINE: f64 = 5.0;
/// How far from its line the flow is drawn, px.
const RIDE: f64 = 9.0;

/// Heights of the lowest thing below which the room beneath is shown, and above which it is taken away again.
const DEEP: [f64; 2] = [0.24, 0.29];
/// Time in which room is made or taken away, s.
const MOVES: f64 = 0.8;

/// Radius of the number of a note, px.
const NUMBER: f64 = 9.0;

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
    /// The bay, to say where a hand would move it, and the units for that.
    pub(crate) bay: (&'a Bay, UnitSystem),
}

/// A share that goes to 0 or 1 in its time.
#[derive(Default)]
struct Opening(f64);

impl Opening {
    /// Goes on for `dt`, s; at once where nothing moves.
    fn turn(&mut self, open: bool, dt: f64) {
        let step = if dt > 0.0 { dt / MOVES } else { 1.0 };
        self.0 += (f64::from(u8::from(open)) - self.0).clamp(-step, step);
    }

    /// The share, eased at both ends.
    fn share(&self) -> f64 {
        self.0 * self.0 * (3.0 - 2.0 * self.0)
    }
}

/// The painter: it remembers how far each stream's dashes have moved.
#[derive(Default)]
pub(crate) struct Painter {
    phase: [f64; STREAMS],
    /// What can be pressed on the drawing, and where.
    pub(crate) spots: Vec<(Control, f64, f64)>,
    /// Which part lies where: left, top, width, height.
    pub(crate) zones: Vec<(Part, f64, f64, f64, f64)>,
    /// Height of each flag on the sheet, px: low, high; none without one.
    pub(crate) flags: [Option<f64>; 2],
    drift: f64,
    /// Room below the atmosphere.
    depth: Opening,
    deep: bool,
    /// Room for what hangs on the service hose.
    hangs: Opening,
    taken: names::Room,
    /// The hand on the drawing.
    pub(crate) hand: drag::Shared,
    /// The sheet as it was laid out last.
    sheet: Option<Sheet>,
}

/// What is drawn with.
struct Brush<'a> {
    pen: &'a Pen,
    theme: &'a Theme,
    sheet: &'a Sheet,
    /// Size of lettering.
    size: f64,
    drift: f64,
    taken: &'a names::Room,
}

/// On which side of its line a channel lies.
#[derive(Clone, Copy, PartialEq)]
enum Side {
    Above,
    Below,
}

/// A number that runs on, brought back to 0 up to `round`. The operator `%` on such is 1 kB of the program as sent.
fn wrapped(x: f64, round: f64) -> f64 {
    x - round * (x / round).floor()
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
            bay,
        } = *scene;
        let Some((pen, w, h)) = sheet::open(canvas) else {
            return;
        };
        self.move_on(levels, dt);
        pen.font(WIDE, false);
        let column = surroundings::column_names().map(|name| pen.width(name));
        let sheet = Sheet::new(
            w,
            h,
            Room {
                depth: self.depth.share(),
                hangs: self.hangs.share(),
                names: column.into_iter().fold(0.0, f64::max),
            },
        );
        let b = Brush {
            pen: &pen,
            theme,
            sheet: &sheet,
            size: if sheet.wide { WIDE } else { 10.5 },
            drift: self.drift,
            taken: &self.taken,
        };
        b.clear(levels);
        let numbers = b.numbers(notes);
        b.axis(ticks, names);
        b.atmosphere(levels);
        b.low_side(levels, &self.phase);
        b.high_side(levels, &self.phase);
        b.ground(levels);
        b.surroundings(levels);
        b.heat(levels);
        b.shaft(levels, self.phase[0]);
        b.airs(levels);
        b.lines(levels);
        b.fall(levels, self.phase[2]);
        b.openings(levels);
        self.flags = b.flags(levels);
        b.names(levels);
        b.hoses(levels, &self.phase);
        b.can(levels);
        b.part_names(levels);
        self.zones = b.zones(levels);
        b.lit(&self.zones, lit);
        self.spots = b.valves(levels, needed);
        b.offer(levels, &mut self.hand.borrow_mut(), &self.spots);
        b.ghost(levels, &self.hand.borrow(), bay);
        b.badges(&numbers);
        self.sheet = Some(sheet);
    }

    /// The act of a hand that has let go.
    pub(crate) fn hand_act(&self, bay: &Bay) -> Option<Action> {
        let sheet = self.sheet?;
        self.hand.borrow_mut().act(bay, |y| sheet.height(y))
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
            *phase = wrapped(*phase + s.flow * TRAVEL * dt, 1200.0);
        }
        self.drift = wrapped(self.drift + dt, 1000.0);
        let lowest = l.lowest();
        // The pump's pit lies there too.
        self.deep =
            lowest < if self.deep { DEEP[1] } else { DEEP[0] } || l.tool == Some(Tool::Pump);
        self.depth.turn(self.deep, dt);
        self.hangs.turn(l.can.is_some() || l.tool.is_some(), dt);
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
        self.take_text(text, x, y, align);
        pen.fill(colour).text(text, x, y, align);
    }

    /// Where each part lies.
    fn zones(&self, l: &Levels) -> Vec<(Part, f64, f64, f64, f64)> {
        let s = self.sheet;
        let mut out = Vec::new();
        let (high, low) = (self.high_cells(l), self.low_cells(l));
        let up = self.reach(&high, Side::Above);
        for c in &high {
            out.push((c.part, c.x, c.y - up, c.w, up));
        }
        let down = self.reach(&low, Side::Below);
        for c in &low {
            out.push((c.part, c.x, c.y, c.w, down));
        }
        let y = s.y(l.accumulator.height);
        out.push((Part::Accumulator, s.start, y, s.basin - s.start, s.below(y)));
        let (bottom, foot) = (s.y(l.suction.height), self.foot(l));
        let top = s.y(l.discharge.height);
        let width = s.shaft - s.start;
        out.push((Part::Suction, s.start, bottom - foot, width, foot));
        if bottom - foot - top > 4.0 {
            out.push((Part::Compressor, s.start, top, width, bottom - foot - top));
        }
        let (y0, y1) = (s.y(l.liquid.height), s.y(l.evaporator[0].height));
        if y1 - y0 > 4.0 {
            out.push((
                Part::Orifice,
                s.end,
                y0 - 10.0,
                s.fall - s.end,
                y1 - y0 + 20.0,
            ));
        }
        for (part, b, at) in [
            (Part::LowHose, &l.low_hose, (s.hose.0, s.start)),
            (Part::HighHose, &l.high_hose, (s.hose.0, s.start)),
            (Part::ServiceHose, &l.service_hose, s.service),
        ] {
            out.push((part, at.0, s.y(b.height) - 7.0, at.1 - at.0, 14.0));
        }
        let can = l.can.as_ref().map(|c| (&c.block, c.inverted));
        let hung = l.hung.as_ref().map(|h| (&h.block, h.inverted));
        if let Some((block, stands)) = can.or(hung) {
            let (top, h) = self.hung(block, stands);
            out.push((Part::Can, s.vessel.0, top, s.vessel.1, h));
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

    /// Where the numbers of the notes stand: at what they speak of.
    fn numbers(&self, notes: &[Note]) -> [Option<(f64, f64)>; notes::SHOWN] {
        let s = self.sheet;
        core::array::from_fn(|k| {
            let n = notes.get(k)?;
            let y = s.y(n.height);
            let (x, y) = match n.spot {
                // Beside the name, which is nearer where there is little room.
                Spot::High => (s.shaft + (s.end - s.shaft) * 0.14, y - s.above(y) + 13.0),
                Spot::Low => (s.basin + 18.0, y + s.below(y) - 13.0),
                Spot::Orifice => (s.fall - 10.0, y + 14.0),
                Spot::Compressor => (s.start - 13.0, y + 20.0),
                Spot::Can => (s.vessel.0 + s.vessel.1 + 4.0, y - 16.0),
                Spot::Hose => (s.service.0 + 8.0, y - 18.0),
            };
            let y = y.clamp(NUMBER + 1.0, s.h - NUMBER - 1.0);
            self.take(x, y, (NUMBER + 1.0, NUMBER + 1.0));
            Some((x, y))
        })
    }

    fn badges(&self, numbers: &[Option<(f64, f64)>]) {
        let (pen, t) = (self.pen, self.theme);
        for (name, place) in ["1", "2", "3"].into_iter().zip(numbers) {
            let &Some((x, y)) = place else { continue };
            pen.fill(t.accent).circle(x, y, NUMBER);
            pen.c.fill();
            pen.font(11.5, true).fill(t.on_accent);
            pen.text(name, x, y + 0.5, "center");
        }
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
