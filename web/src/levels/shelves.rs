//! The loop itself: two shelves, the lift between them and the fall.
use lowside_present::levels::Levels;

use super::{Brush, STREAMS, Side};
use crate::words;

impl Brush<'_> {
    pub(super) fn high_shelf(&self, l: &Levels, phase: &[f64; STREAMS]) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let mut x = s.shaft;
        let mut middle = Vec::new();
        for (_, b) in l.high_side() {
            let w = b.volume * s.litre / s.high_h;
            self.block(b, x, w, s.high_h, Side::Above);
            middle.push((x + w / 2.0, s.y(b.height) - s.high_h / 2.0));
            x += w;
        }
        x = s.shaft;
        let mut before = None;
        for (part, b) in l.high_side() {
            let w = b.volume * s.litre / s.high_h;
            self.walls(b, x, w, s.high_h, Side::Above);
            self.air(b, x, w);
            let y = s.y(b.height);
            let begins = before.replace(part) != Some(part);
            pen.stroke(t.edge, if begins { 1.0 } else { 0.5 })
                .line(&[(x, y - s.high_h), (x, y)]);
            x += w;
        }
        let y = s.y(l.liquid.height);
        pen.stroke(t.edge, 1.0).line(&[(x, y - s.high_h), (x, y)]);
        let half = middle.len() / 2;
        self.flow(l.compressor, phase[0], || pen.line(&middle[..=half]));
        self.flow(l.condenser, phase[1], || {
            pen.line(&middle[half..middle.len() - 1]);
        });
        let mut out = middle[middle.len() - 2..].to_vec();
        out.push((s.end, middle[middle.len() - 1].1));
        self.flow(l.orifice, phase[2], || pen.line(&out));
    }

    pub(super) fn low_shelf(&self, l: &Levels, phase: &[f64; STREAMS]) {
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
            self.air(b, x, w);
            let y = s.y(b.height);
            pen.stroke(t.edge, if k == 0 { 1.0 } else { 0.5 })
                .line(&[(x + w, y), (x + w, y + s.evaporator_d)]);
        }
        let a = &l.accumulator;
        let y = s.y(a.height);
        self.block(a, s.start, s.basin - s.start, s.accumulator_d, Side::Below);
        self.walls(a, s.start, s.basin - s.start, s.accumulator_d, Side::Below);
        self.air(a, s.start, s.basin - s.start);
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
        let x = f64::midpoint(s.start, s.shaft);
        self.flow(l.pick_up, phase[4], || {
            pen.line(&[
                (s.basin, y + s.evaporator_d / 2.0),
                (x, y + s.evaporator_d / 2.0),
                (x, ys - s.suction_h),
            ]);
        });
    }

    /// The compressor: a shaft that lifts gas from the low line to the high line.
    pub(super) fn shaft(&self, l: &Levels, phase: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let bottom = s.y(l.suction.height) - s.suction_h;
        let top = s.y(l.discharge.height) - s.high_h;
        if top >= bottom - 4.0 {
            return;
        }
        let (x0, x1) = (s.start + 5.0, s.shaft);
        pen.fill(t.sheet).rect(x0, top, x1 - x0, bottom - top);
        pen.alpha(if l.clutch { 1.0 } else { 0.45 });
        pen.stroke(t.ink, 1.6)
            .dashes(&[], 0.0)
            .line(&[(x0, bottom), (x0, top), (x1, top)]);
        pen.line(&[(x1, bottom), (x1, s.y(l.discharge.height))]);
        let gap = 16.0;
        let mut y = bottom - phase.rem_euclid(gap);
        let mid = f64::midpoint(x0, x1);
        pen.stroke(if l.clutch { t.accent } else { t.edge }, 2.2);
        while y > top + 6.0 {
            if y < bottom - 5.0 {
                pen.line(&[(x0 + 7.0, y), (mid, y - 6.0), (x1 - 7.0, y)]);
            }
            y -= gap;
        }
        pen.alpha(1.0);
    }

    /// The orifice: the fall from the high shelf's end to the low one.
    pub(super) fn fall(&self, l: &Levels, phase: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let y0 = s.y(l.liquid.height) - s.high_h / 2.0;
        let y1 = s.y(l.evaporator[0].height) + s.evaporator_d / 2.0;
        let x = s.end + if s.wide { 12.0 } else { 8.0 };
        let shape = [(s.end, y0), (x, y0 + 8.0), (x, y1 - 8.0), (s.end, y1)];
        pen.c.set_line_join("round");
        pen.stroke(t.edge, 9.0).dashes(&[], 0.0).line(&shape);
        pen.stroke(t.sheet, 7.0).line(&shape);
        let mid = f64::midpoint(y0, y1);
        pen.stroke(t.ink, 2.0)
            .line(&[(x - 8.0, mid - 6.0), (x - 1.5, mid), (x - 8.0, mid + 6.0)]);
        pen.line(&[(x + 8.0, mid - 6.0), (x + 1.5, mid), (x + 8.0, mid + 6.0)]);
        self.flow(l.orifice, phase, || pen.line(&shape));
    }

    /// The names of its parts, above the hoses that run by.
    pub(super) fn part_names(&self, l: &Levels) {
        let (s, t) = (self.sheet, self.theme);
        let name = |text: &str, x: f64, y: f64| self.halo(text, x, y, "center", t.soft);
        let top = |height: f64| s.y(height) - s.high_h;
        let middle = l.condenser_cells[l.condenser_cells.len() / 2].height;
        let condenser = self.off(l, top(middle) - 10.0, -9.0);
        name(words::condenser(), f64::midpoint(s.shaft, s.end), condenser);
        let middle = l.evaporator[l.evaporator.len() / 2].height;
        let evaporator = s.y(middle) + s.evaporator_d + 10.0;
        let (middle, under) = (f64::midpoint(s.basin, s.end), self.off(l, evaporator, 9.0));
        name(words::evaporator(), middle, under);
        let accumulator = s.y(l.accumulator.height) + s.accumulator_d + 10.0;
        let under = self.off(l, accumulator, 9.0);
        name(words::accumulator(), f64::midpoint(s.start, s.basin), under);
        let suction = s.y(l.suction.height) - s.suction_h;
        let discharge = top(l.discharge.height);
        if discharge < suction - 4.0 {
            name(words::compressor(), s.start + 7.0, discharge - 10.0);
        }
        if s.wide {
            self.orifice_name(l, middle);
        }
    }

    /// The orifice's name: between the shelves; or, where they leave no room, under them, below the evaporator's if it would touch that.
    fn orifice_name(&self, l: &Levels, evaporator: f64) {
        let (s, t) = (self.sheet, self.theme);
        let (high, low) = (s.y(l.liquid.height), s.y(l.evaporator[0].height));
        let half = s.high_h / 2.0;
        let mut y = f64::midpoint(high - half, low + s.evaporator_d / 2.0);
        if low - high < 44.0 {
            let right = s.end + 16.0;
            let width = |text: &str| self.pen.width(text);
            self.pen.font(self.size, false);
            let left = right - width(words::orifice());
            let touches = left < evaporator + width(words::evaporator()) / 2.0 + 6.0;
            let under = low + s.evaporator_d + if touches { 23.0 } else { 10.0 };
            return self.halo(words::orifice(), right, under, "right", t.soft);
        }
        for line in [&l.outside, &l.cabin] {
            let line = s.y(line.height);
            if (y - line).abs() < 10.0 {
                y = line + 10.0;
            }
        }
        self.halo(words::orifice(), s.end - 1.0, y, "right", t.soft);
    }
}
