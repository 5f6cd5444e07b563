//! Draws the levels: pressure is height, and everything flows downhill.
use lowside_present::{
    controls::Control,
    levels::{Block, CanLevel, Levels, Line, Stream, Tick},
    palette::{Rgb, Theme},
};
use web_sys::HtmlCanvasElement;

use crate::sheet::{self, Pen, Sheet};

/// Dash travel, px/s for each g/s of flow: one factor for every stream, so that speeds can be compared.
const TRAVEL: f64 = 2.4;
/// Flow below which a stream counts as at rest, g/s.
const REST: f64 = 0.02;

/// Heights of the lowest thing below which the room beneath is shown, and above which it is taken away again.
const DEEP: [f64; 2] = [0.24, 0.29];

/// Streams whose dashes move.
const STREAMS: usize = 11;

/// The painter: it remembers how far each stream's dashes have moved.
#[derive(Default)]
pub(crate) struct Painter {
    phase: [f64; STREAMS],
    /// What can be pressed on the drawing, and where.
    pub(crate) spots: Vec<(Control, f64, f64)>,
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
    /// Draws everything; `dt` is the wall time since the last frame, 0 when nothing is to move.
    pub(crate) fn draw(
        &mut self,
        canvas: &HtmlCanvasElement,
        theme: &Theme,
        levels: &Levels,
        ticks: &[Tick],
        names: &[&str; 2],
        needed: Option<Control>,
        dt: f64,
    ) {
        let Some((pen, w, h)) = sheet::open(canvas) else {
            return;
        };
        let high: f64 = levels.high.iter().map(|b| b.volume).sum();
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
        let sheet = Sheet::new(
            w,
            h,
            volumes,
            self.depth * self.depth * (3.0 - 2.0 * self.depth),
        );
        let b = Brush {
            pen: &pen,
            theme,
            sheet: &sheet,
            size: if sheet.wide { 12.0 } else { 10.5 },
            drift: self.drift,
        };
        b.ground(levels, h);
        b.axis(ticks, names, h);
        b.surroundings(levels);
        b.heat(levels);
        b.fall(levels, self.phase[2]);
        b.shaft(levels, self.phase[0]);
        b.low_shelf(levels, &self.phase);
        b.high_shelf(levels, &self.phase);
        b.hoses(levels, &self.phase);
        b.can(levels.can.as_ref(), levels.burst);
        self.spots = b.valves(levels, needed);
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
    /// The cellar below the atmosphere.
    fn ground(&self, l: &Levels, h: f64) {
        let (pen, s) = (self.pen, self.sheet);
        let y = s.y(l.atmosphere);
        pen.fill(self.theme.rule)
            .alpha(0.28)
            .rect(s.axis, y, s.w - s.axis, h - y);
        pen.alpha(1.0);
    }

    fn axis(&self, ticks: &[Tick], names: &[&str; 2], _h: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (outer, inner) = if s.wide {
            (s.axis - 46.0, s.axis - 8.0)
        } else {
            (s.axis - 31.0, s.axis - 2.0)
        };
        // The atmosphere keeps its number; others give way where they would touch.
        let zero = ticks
            .iter()
            .find(|t| t.pressure == "0")
            .map_or(f64::NEG_INFINITY, |t| s.y(t.height));
        let mut last = f64::INFINITY;
        for tick in ticks {
            let y = s.y(tick.height);
            pen.alpha(0.7)
                .stroke(t.rule, 1.0)
                .dashes(&[], 0.0)
                .line(&[(s.axis, y), (s.w, y)]);
            pen.alpha(1.0);
            let crowds_zero = (y - zero).abs() < 12.0 && tick.pressure != "0";
            if last - y < 12.0 || crowds_zero {
                continue;
            }
            last = y;
            pen.font(self.size - 0.5, false)
                .fill(t.ink)
                .text(&tick.pressure, outer, y, "right");
            pen.fill(t.soft).text(&tick.saturation, inner, y, "right");
        }
        pen.font(self.size - 1.0, true)
            .fill(t.ink)
            .text(names[0], outer, 12.0, "right");
        pen.fill(t.soft).text(names[1], inner, 12.0, "right");
    }

    fn surroundings(&self, l: &Levels) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let across = |line: &Line, dash: &[f64], name: &str, dy: f64| {
            let y = s.y(line.height);
            pen.stroke(t.soft, 1.4)
                .dashes(dash, 0.0)
                .line(&[(s.shaft, y), (s.w - 4.0, y)]);
            pen.dashes(&[], 0.0);
            if s.wide {
                pen.font(self.size, false).fill(t.soft).text(
                    name,
                    s.w - 6.0,
                    y + dy - 7.0,
                    "right",
                );
                pen.font(self.size, true).fill(t.ink).text(
                    &line.shown.to_string(),
                    s.w - 6.0,
                    y + dy + 7.0,
                    "right",
                );
            } else {
                let text = format!("{name} {}", line.shown);
                self.halo(&text, s.w - 5.0, y + dy.signum() * 8.0, "right", t.soft);
            }
        };
        across(&l.outside, &[9.0, 4.0], "outside air", -16.0);
        let close = (s.y(l.outside.height) - s.y(l.cabin.height)).abs() < 36.0;
        across(
            &l.cabin,
            &[3.0, 4.0],
            "cabin air",
            if close { 16.0 } else { -16.0 },
        );
        let y = s.y(l.atmosphere);
        pen.stroke(t.ink, 1.2).line(&[(s.axis, y), (s.w, y)]);
        if s.wide {
            pen.font(self.size, false)
                .fill(t.soft)
                .text("atmosphere", s.w - 6.0, y - 9.0, "right");
            for (k, (h, name)) in l.switch.iter().zip(["clutch out", "clutch in"]).enumerate() {
                let y = s.y(*h);
                pen.stroke(t.soft, 1.2)
                    .line(&[(s.end + 18.0, y), (s.end + 30.0, y)]);
                pen.font(self.size - 1.0, false).fill(t.soft);
                pen.text(
                    name,
                    s.end + 34.0,
                    y + if k == 0 { 4.0 } else { -1.0 },
                    "left",
                );
            }
        } else {
            self.halo("atmosphere", s.w - 5.0, y - 8.0, "right", t.soft);
        }
    }

    fn halo(&self, text: &str, x: f64, y: f64, align: &str, colour: Rgb) {
        let (pen, t) = (self.pen, self.theme);
        pen.font(self.size, false);
        pen.c.set_text_align(align);
        pen.c.set_text_baseline("middle");
        pen.stroke(t.sheet, 3.0).dashes(&[], 0.0);
        drop(pen.c.stroke_text(text, x, y));
        pen.fill(colour).text(text, x, y, align);
    }

    /// Heat running down: from the condenser to the outside air, from the cabin air into the evaporator.
    fn heat(&self, l: &Levels) {
        let s = self.sheet;
        let cells = &l.high[1..l.high.len() - 1];
        let mut x = s.shaft + l.high[0].volume * s.litre / s.high_h;
        let each = l.shed / cells.len() as f64;
        for cell in cells {
            let w = cell.volume * s.litre / s.high_h;
            self.arrow(
                x + w / 2.0,
                s.y(cell.height) + 3.0,
                s.y(l.outside.height) - 1.0,
                each / 500.0,
            );
            x += w;
        }
        let w = (s.end - s.basin) / l.evaporator.len() as f64;
        let each = l.taken / l.evaporator.len() as f64;
        for (k, cell) in l.evaporator.iter().enumerate() {
            self.arrow(
                s.end - (k as f64 + 0.5) * w,
                s.y(l.cabin.height) + 1.0,
                s.y(cell.height) - 3.0,
                each / 500.0,
            );
        }
    }

    /// An arrow of heat; `size` 1 is strong. Nothing if it does not run downhill.
    fn arrow(&self, x: f64, from: f64, to: f64, size: f64) {
        if to - from < 9.0 || size < 0.02 {
            return;
        }
        let (pen, t) = (self.pen, self.theme);
        let half = (1.0 + 5.0 * size.min(1.4)).min(7.5);
        let head = (half * 1.8).min(to - from - 3.0);
        pen.alpha(0.75).fill(t.heat(62.0));
        pen.path(&[
            (x - half * 0.5, from),
            (x + half * 0.5, from),
            (x + half * 0.5, to - head),
            (x + half * 1.3, to - head),
            (x, to),
            (x - half * 1.3, to - head),
            (x - half * 0.5, to - head),
        ]);
        pen.c.fill();
        pen.alpha(1.0);
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
    fn flow(&self, s: Stream, phase: f64, draw: impl Fn()) {
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

    fn high_shelf(&self, l: &Levels, phase: &[f64; STREAMS]) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let mut x = s.shaft;
        let mut middle = Vec::new();
        for b in &l.high {
            let w = b.volume * s.litre / s.high_h;
            self.block(b, x, w, s.high_h, Side::Above);
            middle.push((x + w / 2.0, s.y(b.height) - s.high_h / 2.0));
            x += w;
        }
        x = s.shaft;
        for (k, b) in l.high.iter().enumerate() {
            let w = b.volume * s.litre / s.high_h;
            self.walls(b, x, w, s.high_h, Side::Above);
            let y = s.y(b.height);
            let part = k == 1 || k + 1 == l.high.len() || k == 0;
            pen.stroke(t.edge, if part { 1.0 } else { 0.5 })
                .line(&[(x, y - s.high_h), (x, y)]);
            x += w;
        }
        let y = s.y(l.high[l.high.len() - 1].height);
        pen.stroke(t.edge, 1.0).line(&[(x, y - s.high_h), (x, y)]);
        let half = middle.len() / 2;
        self.flow(l.compressor, phase[0], || pen.line(&middle[..=half]));
        self.flow(l.condenser, phase[1], || {
            pen.line(&middle[half..middle.len() - 1])
        });
        let mut out = middle[middle.len() - 2..].to_vec();
        out.push((s.end, middle[middle.len() - 1].1));
        self.flow(l.orifice, phase[2], || pen.line(&out));
        let y = s.y(l.high[3].height) - s.high_h - 10.0;
        self.halo("condenser", (s.shaft + s.end) / 2.0, y, "center", t.soft);
    }

    fn low_shelf(&self, l: &Levels, phase: &[f64; STREAMS]) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let w = (s.end - s.basin) / l.evaporator.len() as f64;
        let mut path = vec![];
        for (k, b) in l.evaporator.iter().enumerate() {
            let x = s.end - (k as f64 + 1.0) * w;
            self.block(b, x, w, s.evaporator_d, Side::Below);
            path.push((x + w / 2.0, s.y(b.height) + s.evaporator_d / 2.0));
        }
        for (k, b) in l.evaporator.iter().enumerate() {
            let x = s.end - (k as f64 + 1.0) * w;
            self.walls(b, x, w, s.evaporator_d, Side::Below);
            let y = s.y(b.height);
            pen.stroke(t.edge, if k == 0 { 1.0 } else { 0.5 })
                .line(&[(x + w, y), (x + w, y + s.evaporator_d)]);
        }
        let a = &l.accumulator;
        let y = s.y(a.height);
        self.block(a, s.start, s.basin - s.start, s.accumulator_d, Side::Below);
        self.walls(a, s.start, s.basin - s.start, s.accumulator_d, Side::Below);
        pen.stroke(t.edge, 1.0)
            .line(&[(s.start, y), (s.start, y + s.accumulator_d)]);
        pen.line(&[(s.basin, y), (s.basin, y + s.accumulator_d)]);
        let b = &l.suction;
        self.block(b, s.start, s.shaft - s.start, s.suction_h, Side::Above);
        self.walls(b, s.start, s.shaft - s.start, s.suction_h, Side::Above);
        let ys = s.y(b.height);
        pen.stroke(t.edge, 1.0)
            .line(&[(s.start, ys), (s.start, ys - s.suction_h)]);
        pen.line(&[(s.shaft, ys), (s.shaft, ys - s.suction_h)]);
        let first = path[0];
        path.insert(0, (s.end, first.1));
        path.push((s.basin, path[path.len() - 1].1));
        self.flow(l.evaporated, phase[3], || pen.line(&path));
        let x = (s.start + s.shaft) / 2.0;
        self.flow(l.pick_up, phase[4], || {
            pen.line(&[
                (s.basin, y + s.evaporator_d / 2.0),
                (x, y + s.evaporator_d / 2.0),
                (x, ys - s.suction_h),
            ]);
        });
        self.halo(
            "evaporator",
            (s.basin + s.end) / 2.0,
            s.y(l.evaporator[2].height) + s.evaporator_d + 10.0,
            "center",
            t.soft,
        );
        self.halo(
            "accumulator",
            (s.start + s.basin) / 2.0,
            y + s.accumulator_d + 10.0,
            "center",
            t.soft,
        );
    }

    /// The compressor: a shaft that lifts gas from the low line to the high line.
    fn shaft(&self, l: &Levels, phase: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let bottom = s.y(l.suction.height) - s.suction_h;
        let top = s.y(l.high[0].height) - s.high_h;
        if top >= bottom - 4.0 {
            return;
        }
        let (x0, x1) = (s.start + 5.0, s.shaft);
        pen.fill(t.sheet).rect(x0, top, x1 - x0, bottom - top);
        pen.alpha(if l.clutch { 1.0 } else { 0.45 });
        pen.stroke(t.ink, 1.6)
            .dashes(&[], 0.0)
            .line(&[(x0, bottom), (x0, top), (x1, top)]);
        pen.line(&[(x1, bottom), (x1, s.y(l.high[0].height))]);
        let gap = 16.0;
        let mut y = bottom - phase.rem_euclid(gap);
        let mid = (x0 + x1) / 2.0;
        pen.stroke(if l.clutch { t.accent } else { t.edge }, 2.2);
        while y > top + 6.0 {
            if y < bottom - 5.0 {
                pen.line(&[(x0 + 7.0, y), (mid, y - 6.0), (x1 - 7.0, y)]);
            }
            y -= gap;
        }
        pen.alpha(1.0);
        self.halo("compressor", x0 + 2.0, top - 10.0, "center", t.soft);
    }

    /// The orifice: the fall from the high shelf's end to the low one.
    fn fall(&self, l: &Levels, phase: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let y0 = s.y(l.high[l.high.len() - 1].height) - s.high_h / 2.0;
        let y1 = s.y(l.evaporator[0].height) + s.evaporator_d / 2.0;
        let x = s.end + if s.wide { 12.0 } else { 8.0 };
        let shape = [(s.end, y0), (x, y0 + 8.0), (x, y1 - 8.0), (s.end, y1)];
        pen.c.set_line_join("round");
        pen.stroke(t.edge, 9.0).dashes(&[], 0.0).line(&shape);
        pen.stroke(t.sheet, 7.0).line(&shape);
        let mid = (y0 + y1) / 2.0;
        pen.stroke(t.ink, 2.0)
            .line(&[(x - 8.0, mid - 6.0), (x - 1.5, mid), (x - 8.0, mid + 6.0)]);
        pen.line(&[(x + 8.0, mid - 6.0), (x + 1.5, mid), (x + 8.0, mid + 6.0)]);
        self.flow(l.orifice, phase, || pen.line(&shape));
        if s.wide {
            self.halo("orifice", x - 13.0, mid, "right", t.soft);
        }
    }

    fn hoses(&self, l: &Levels, phase: &[f64; STREAMS]) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let ride = 4.0;
        let y_service = s.y(l.service_hose.height);
        let y_low = s.y(l.low_hose.height) + ride;
        let y_high = s.y(l.high_hose.height) - ride;
        let thick = if s.wide { 7.0 } else { 5.0 };
        let bar = |x: (f64, f64), y: f64, colour: Rgb| {
            pen.stroke(colour, thick)
                .dashes(&[], 0.0)
                .line(&[(x.0, y), (x.1, y)]);
        };
        let run = |from: (f64, f64), to: (f64, f64), colour: Rgb, st: Stream, ph: f64| {
            pen.stroke(colour, thick).dashes(&[], 0.0).hose(from, to);
            if st.flow.abs() >= REST {
                let pattern: &[f64] = if st.liquid > 0.5 {
                    &[7.0, 4.0]
                } else {
                    &[3.0, 7.0]
                };
                pen.stroke(t.sheet, 2.4).dashes(pattern, ph).hose(from, to);
                pen.dashes(&[], 0.0);
            }
        };
        pen.c.set_line_cap("round");
        let high_end = (s.shaft, s.y(l.high[0].height) - s.high_h * 0.4);
        let low_end = (s.start, s.y(l.accumulator.height) + 10.0);
        let gap = |on: bool, x: f64| if on { 0.0 } else { x };
        run(
            (s.service.1, y_service),
            (s.hose.0, y_high),
            t.high,
            l.high_valve,
            phase[8],
        );
        bar(s.hose, y_high, t.high);
        if l.coupled[1] {
            run((s.hose.1, y_high), high_end, t.high, l.high_port, phase[9]);
        } else {
            run(
                (s.hose.1, y_high),
                (s.hose.1 + 14.0, y_high + 9.0),
                t.high,
                Stream::default(),
                0.0,
            );
        }
        run(
            (s.service.1, y_service),
            (s.hose.0, y_low),
            t.low,
            l.low_valve,
            phase[6],
        );
        bar(s.hose, y_low, t.low);
        if l.coupled[0] {
            run((s.hose.1, y_low), low_end, t.low, l.low_port, phase[7]);
        } else {
            run(
                (s.hose.1, y_low),
                (s.hose.1 + 14.0, y_low + 9.0),
                t.low,
                Stream::default(),
                0.0,
            );
        }
        bar(s.service, y_service, t.service);
        if let Some(c) = &l.can {
            let y = s.y(c.block.height);
            let x = s.can.0 + s.can.1 / 2.0;
            let mouth = if c.inverted { y + 8.0 } else { y - 8.0 };
            run(
                (x, mouth),
                (s.service.0, y_service),
                t.service,
                l.tap,
                phase[5],
            );
        } else {
            run(
                (s.can.0 + s.can.1, y_service + 12.0),
                (s.service.0, y_service),
                t.service,
                l.hose_end,
                -phase[10],
            );
        }
        if l.purging {
            let x = s.service.0 + 4.0 - gap(true, 0.0);
            pen.stroke(t.service, 2.0)
                .dashes(&[3.0, 4.0], phase[10].abs());
            for k in -1..=1 {
                pen.line(&[
                    (x, y_service - 6.0),
                    (x + f64::from(k) * 9.0, y_service - 24.0),
                ]);
            }
            pen.dashes(&[], 0.0);
        }
        pen.c.set_line_cap("butt");
    }

    fn can(&self, can: Option<&CanLevel>, burst: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (x, w) = s.can;
        let y_burst = s.y(burst);
        let zig: Vec<_> = (0..=6)
            .map(|k| {
                (
                    x + w * f64::from(k) / 6.0,
                    y_burst + if k % 2 == 0 { 3.0 } else { -3.0 },
                )
            })
            .collect();
        let Some(c) = can else {
            let y = s.y(0.6);
            pen.stroke(t.edge, 1.2)
                .dashes(&[4.0, 4.0], 0.0)
                .rounded(x, y, w, s.can_h, 7.0);
            pen.c.stroke();
            pen.dashes(&[], 0.0);
            self.halo("no can", x + w / 2.0, y + s.can_h / 2.0, "center", t.soft);
            return;
        };
        let y = s.y(c.block.height);
        let (top, side) = if c.inverted {
            (y - s.can_h, Side::Above)
        } else {
            (y, Side::Below)
        };
        if c.bath {
            pen.alpha(0.3).fill(t.heat(45.0)).rounded(
                x - 7.0,
                top + s.can_h * 0.3,
                w + 14.0,
                s.can_h * 0.7 + 7.0,
                5.0,
            );
            pen.c.fill();
            pen.alpha(1.0).stroke(t.edge, 1.4).line(&[
                (x - 7.0, top + s.can_h * 0.3),
                (x - 7.0, top + s.can_h + 7.0),
                (x + w + 7.0, top + s.can_h + 7.0),
                (x + w + 7.0, top + s.can_h * 0.3),
            ]);
        }
        pen.c.save();
        pen.rounded(x, top, w, s.can_h, 7.0);
        pen.c.clip();
        self.block(&c.block, x, w, s.can_h, side);
        pen.c.restore();
        pen.stroke(t.ink, 1.8).rounded(x, top, w, s.can_h, 7.0);
        pen.c.stroke();
        let neck = if c.inverted { y } else { y - 8.0 };
        pen.fill(t.ink).rect(x + w / 2.0 - 4.0, neck, 8.0, 8.0);
        if c.burst {
            pen.stroke(t.high, 3.0).line(&[
                (x + 4.0, top + 8.0),
                (x + w * 0.6, top + s.can_h * 0.4),
                (x + w * 0.4, top + s.can_h * 0.55),
                (x + w - 4.0, top + s.can_h - 8.0),
            ]);
        }
        pen.stroke(t.high, 1.6).line(&zig);
        self.halo("bursts", x + w / 2.0, y_burst - 10.0, "center", t.high);
        let label_y = if c.inverted {
            top - 12.0
        } else {
            top + s.can_h + if c.bath { 18.0 } else { 12.0 }
        };
        let label = if s.wide {
            format!("can {}, {}", c.number, c.shown)
        } else {
            c.shown.to_string()
        };
        self.halo(&label, x + w / 2.0, label_y, "center", t.ink);
    }

    /// The valves, as handles: along the hose is open, across is shut. Returns where each can be pressed.
    fn valves(&self, l: &Levels, needed: Option<Control>) -> Vec<(Control, f64, f64)> {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let r = s.radius();
        let y_service = s.y(l.service_hose.height);
        let (y_low, y_high) = (s.y(l.low_hose.height) + 4.0, s.y(l.high_hose.height) - 4.0);
        let mid = |a: f64, b: f64| (a + b) / 2.0;
        let valve_x = mid(s.service.1, s.hose.0);
        let port_x = mid(s.hose.1, s.start);
        let (mut yl, mut yh) = (mid(y_service, y_low), mid(y_service, y_high));
        // Kept apart where the hoses run together.
        if yl - yh < 2.0 * r + 4.0 {
            let c = mid(yl, yh);
            (yl, yh) = (c + r + 2.0, c - r - 2.0);
        }
        let acc = s.y(l.accumulator.height) + 10.0;
        let dis = s.y(l.high[0].height) - s.high_h * 0.4;
        let mut ports = (
            mid(y_low, if l.coupled[0] { acc } else { y_low + 8.0 }),
            mid(y_high, if l.coupled[1] { dis } else { y_high - 8.0 }),
        );
        if ports.0 - ports.1 < 2.0 * r + 4.0 {
            let c = mid(ports.0, ports.1);
            ports = (c + r + 2.0, c - r - 2.0);
        }
        let mut spots = vec![
            (Control::LowValve, valve_x, yl, l.valves[0], t.low, "L"),
            (Control::HighValve, valve_x, yh, l.valves[1], t.high, "H"),
            (
                Control::LowCoupler,
                port_x,
                ports.0,
                f64::from(u8::from(l.coupled[0])),
                t.low,
                "",
            ),
            (
                Control::HighCoupler,
                port_x,
                ports.1,
                f64::from(u8::from(l.coupled[1])),
                t.high,
                "",
            ),
        ];
        if let Some(c) = &l.can {
            let y = s.y(c.block.height) + if c.inverted { 8.0 } else { -8.0 };
            spots.push((
                Control::Tap,
                mid(s.can.0 + s.can.1 / 2.0, s.service.0),
                mid(y, y_service),
                f64::from(u8::from(c.open)),
                t.service,
                "T",
            ));
        }
        for &(control, x, y, open, colour, _) in &spots {
            if needed == Some(control) {
                let pulse = 4.0 + 2.0 * (self.drift * 4.0).sin();
                pen.stroke(t.accent, 3.0).circle(x, y, r + pulse);
                pen.c.stroke();
            }
            let coupler = matches!(control, Control::LowCoupler | Control::HighCoupler);
            pen.fill(if open > 0.0 { colour } else { t.sheet });
            if coupler {
                pen.rounded(x - r * 0.85, y - r * 0.85, r * 1.7, r * 1.7, 3.0)
            } else {
                pen.circle(x, y, r)
            }
            pen.c.fill();
            pen.stroke(colour, 2.0).dashes(&[], 0.0);
            pen.c.stroke();
            let turn = (1.0 - open) * core::f64::consts::FRAC_PI_2;
            let (dx, dy) = (turn.cos() * r * 0.7, turn.sin() * r * 0.7);
            pen.stroke(if open > 0.0 { t.sheet } else { colour }, 3.0)
                .line(&[(x - dx, y - dy), (x + dx, y + dy)]);
        }
        spots.into_iter().map(|(c, x, y, ..)| (c, x, y)).collect()
    }
}
