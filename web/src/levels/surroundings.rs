//! What stands around the loop: the axis, the air outside and in the cabin, the atmosphere, and the heat that runs down.
use lowside_present::levels::{Levels, Tick};

use super::{
    Brush, LINE, REST,
    drag::{GRIP_AT, GRIP_HALF},
    flags::FLAG,
    names::{At, CLEAR},
};
use crate::words;

/// How far beyond the loop's right end the lines of the surroundings run before their leaders begin, px.
const LEAD: f64 = 4.0;
/// Room for the figure of the heat beside its arrows, px.
const FIGURE: f64 = 70.0;
/// How many arrows carry it.
const ARROWS: f64 = 5.0;
/// Power that makes the arrows as wide as there is room, W.
const STRONGEST: f64 = 9e3;

/// The names that stand in the column at the right of a wide sheet.
pub(super) fn column_names() -> [&'static str; 5] {
    let [out, in_] = words::switch();
    [
        words::outside(),
        words::cabin(),
        in_,
        out,
        words::atmosphere(),
    ]
}

impl Brush<'_> {
    /// The cellar below the atmosphere, over channels that reach into it, so that they end in it too.
    pub(super) fn ground(&self, l: &Levels) {
        let (pen, s) = (self.pen, self.sheet);
        let y = s.y(l.atmosphere);
        pen.fill(self.theme.rule)
            .alpha(0.25)
            .rect(s.axis, y, s.w - s.axis, s.h - y);
        pen.alpha(1.0);
    }

    pub(super) fn axis(&self, ticks: &[Tick], names: [&str; 2]) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (outer, inner) = if s.wide {
            (s.axis - 43.0, s.axis - 7.0)
        } else {
            (s.axis - 31.0, s.axis - 2.0)
        };
        // The atmosphere keeps its number; others give way where they would touch it or the heading.
        let zero = ticks
            .iter()
            .find(|t| t.pressure == "0")
            .map_or(f64::NEG_INFINITY, |t| s.y(t.height));
        let mut last = f64::INFINITY;
        for tick in ticks {
            let y = s.y(tick.height);
            if y > s.h {
                continue;
            }
            let crowds_zero = (y - zero).abs() < 14.0 && tick.pressure != "0";
            if last - y < 14.0 || crowds_zero || y < 24.0 || y > s.h - 6.0 {
                continue;
            }
            last = y;
            pen.alpha(0.7)
                .stroke(t.rule, 1.0)
                .dashes(&[], 0.0)
                .line(&[(s.axis, y), (s.w, y)]);
            pen.alpha(1.0);
            // What is below zero is longer than a phone's margin.
            let long = !s.wide && tick.pressure.chars().count() > 3;
            let size = if long { self.size - 2.0 } else { self.size };
            pen.font(size, !long)
                .fill(t.ink)
                .text(&tick.pressure, outer, y, "right");
            pen.font(self.size - 0.5, false)
                .fill(t.soft)
                .text(&tick.saturation, inner, y, "right");
        }
        pen.font(self.size - 1.0, true)
            .fill(t.ink)
            .text(names[0], outer, 11.0, "right");
        pen.fill(t.soft).text(names[1], inner, 11.0, "right");
    }

    /// The line of the atmosphere, under the loop.
    pub(super) fn atmosphere(&self, l: &Levels) {
        let y = self.sheet.y(l.atmosphere);
        self.pen.stroke(self.theme.ink, 1.4).dashes(&[], 0.0);
        self.pen.line(&[(self.sheet.axis, y), (self.sheet.w, y)]);
    }

    /// The lines of the air outside and in the cabin.
    pub(super) fn surroundings(&self, l: &Levels) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let end = if s.wide { s.fall + LEAD } else { s.w - 4.0 };
        for (line, dash, colour) in [
            (&l.outside, [12.0, 3.0], t.heat_edge),
            (&l.cabin, [3.0, 4.0], t.low),
        ] {
            let y = s.y(line.height);
            pen.stroke(colour, 1.8).dashes(&dash, 0.0);
            pen.line(&[(s.shaft, y), (end, y)]);
        }
        pen.dashes(&[], 0.0);
    }

    /// The names of the lines, upon everything else.
    pub(super) fn names(&self, l: &Levels) {
        if self.sheet.wide {
            self.column(l);
        } else {
            self.between(l);
        }
    }

    /// Names in a column to the right, each at its line as far as the others and the flags leave it room, with a leader to it.
    fn column(&self, l: &Levels) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (outside, cabin) = (l.outside.shown.to_string(), l.cabin.shown.to_string());
        let [opens, closes] = l.switch;
        let [n_outside, n_cabin, n_in, n_out, n_atmosphere] = column_names();
        let mut labels: Vec<Label> = [
            (l.outside.height, n_outside, outside.as_str()),
            (l.cabin.height, n_cabin, cabin.as_str()),
            (closes, n_in, ""),
            (opens, n_out, ""),
            (l.atmosphere, n_atmosphere, ""),
        ]
        .map(|(height, name, value)| {
            let line = s.y(height);
            // The atmosphere's name stands on its line, which runs on to the edge.
            let leads = name != words::atmosphere();
            Label {
                y: if leads { line } else { line - 9.0 },
                half: if value.is_empty() { 7.5 } else { 15.0 },
                line,
                leads,
                name,
                value,
                held: false,
            }
        })
        .into();
        labels.extend(self.flag_labels(l));
        let [from, to] = [&l.liquid, &l.evaporator[0]].map(|b| s.y(b.height));
        let falls = words::falls(&l.lift);
        if to - from > 60.0 && l.orifice.flow > REST {
            labels.push(Label {
                y: f64::midpoint(from, to),
                half: 15.0,
                name: words::orifice(),
                value: &falls,
                ..Label::default()
            });
        }
        // The highest first, put in order by insertion (the library's sort of a list as short as this is 1 kB as sent); then those that
        // overlap give way to each other by halves, and to what is held by itself.
        for last in 1..labels.len() {
            let mut k = last;
            while k > 0 && labels[k].y < labels[k - 1].y {
                labels.swap(k - 1, k);
                k -= 1;
            }
        }
        for _ in 0..40 {
            for k in 1..labels.len() {
                let over = labels[k - 1].half + labels[k].half - (labels[k].y - labels[k - 1].y);
                if over > 0.0 {
                    let (up, down) = match (labels[k - 1].held, labels[k].held) {
                        (true, true) => (0.0, 0.0),
                        (true, false) => (0.0, over),
                        (false, true) => (over, 0.0),
                        (false, false) => (over / 2.0, over / 2.0),
                    };
                    labels[k - 1].y -= up;
                    labels[k].y += down;
                }
            }
        }
        let right = s.w - 6.0;
        for l in labels.iter().filter(|l| !l.name.is_empty()) {
            if l.leads {
                pen.font(self.size, true);
                let text = right - 4.0 - pen.width(l.name).max(pen.width(l.value));
                let from = s.fall + LEAD;
                pen.stroke(t.soft, 1.0).dashes(&[], 0.0);
                pen.line(&[
                    (from, l.line),
                    (from + 8.0, l.y),
                    (text.max(from + 8.0), l.y),
                ]);
            }
            if l.value.is_empty() {
                pen.font(self.size - 1.0, false);
                self.letters(l.name, right, l.y, "right", t.soft);
            } else {
                self.halo(l.name, right, l.y - 7.0, "right", t.soft);
                self.bold(l.value, right, l.y + 7.0, "right", t.ink);
            }
        }
    }

    /// The room of the flags, which give way to nothing; one for both where no name has room between them.
    fn flag_labels<'a>(&self, l: &Levels) -> impl Iterator<Item = Label<'a>> + use<'a> {
        let half = FLAG / 2.0 + 2.0;
        let held = |y: f64, half: f64| Label {
            y,
            half,
            held: true,
            ..Label::default()
        };
        let [low, high] = self.flag_places(l);
        let labels = match low.zip(high) {
            Some((low, high)) if low - high < FLAG + 34.0 => {
                let both = held(f64::midpoint(low, high), (low - high) / 2.0 + half);
                [Some(both), None]
            }
            _ => [low, high].map(|y| y.map(|y| held(y, half))),
        };
        labels.into_iter().flatten()
    }

    /// Names at the lines, where there is no room beside: between the two as far as there is room, since heat leaves that free
    /// while the outside is the warmer, the one to the right, the other to the left; else outside them.
    fn between(&self, l: &Levels) {
        let (s, t) = (self.sheet, self.theme);
        let (outside, cabin) = (s.y(l.outside.height), s.y(l.cabin.height));
        let gap = cabin - outside;
        let inward = if (0.0..17.0).contains(&gap) {
            -CLEAR
        } else {
            CLEAR * gap.signum()
        };
        for (line, name, y, x, align) in [
            (
                &l.outside,
                words::outside(),
                outside + inward,
                s.end - 4.0,
                "right",
            ),
            (
                &l.cabin,
                words::cabin(),
                cabin - inward,
                // Clear of the grip on the line beside it.
                s.shaft + GRIP_AT + GRIP_HALF + 4.0,
                "left",
            ),
        ] {
            let text = format!("{name} {}", line.shown);
            self.put(&text, At { x, y, align }, false, t.ink);
        }
        let at = At {
            x: s.w - 6.0,
            y: s.y(l.atmosphere) - CLEAR,
            align: "right",
        };
        self.put(words::atmosphere(), at, false, t.soft);
    }

    /// Heat running down: from the high line to the outside air, from the cabin air to the low line. The figure stands at the end away
    /// from the other's, so that neither stands over it.
    pub(super) fn heat(&self, l: &Levels) {
        let s = self.sheet;
        let first = s.shaft + (s.end - s.shaft) * 0.14;
        let figure = if s.wide { FIGURE } else { 0.0 };
        let middle = l.condenser_cells[l.condenser_cells.len() / 2].height;
        let high = (s.y(middle) + LINE / 2.0, s.y(l.outside.height));
        self.arrows((first, s.end - figure - 6.0), high, l.shed);
        let middle = l.evaporator[l.evaporator.len() / 2].height;
        let low = (s.y(l.cabin.height), s.y(middle) - LINE / 2.0);
        let from = s.basin + if s.wide { 12.0 } else { 0.0 };
        // Where the lines lie on each other the arrows would run through what the high side holds.
        if low.1 - high.0 > 40.0 {
            self.arrows((from, s.end - figure - 6.0), low, l.taken);
        }
        if s.wide {
            for ((from, to), power) in [high, low].into_iter().zip(&l.heat) {
                if to - from > 44.0 && low.1 - high.0 > 40.0 && power.number != "0" {
                    let (x, y) = (s.end - 8.0, f64::midpoint(from, to));
                    self.bold(&power.number, x, y - 7.0, "right", self.theme.ink);
                    self.halo(power.unit, x, y + 8.0, "right", self.theme.soft);
                }
            }
        }
    }

    /// Arrows of heat side by side, as wide as it is strong; nothing where it would have to run uphill.
    fn arrows(&self, (x0, x1): (f64, f64), (from, to): (f64, f64), watts: f64) {
        let long = to - from - 5.0;
        if long < 10.0 || watts < 20.0 {
            return;
        }
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        // A wash over the whole breadth that gives or takes it, the stronger the more.
        pen.alpha(0.07 + 0.08 * (watts / STRONGEST).min(1.0))
            .fill(t.heat(75.0))
            .rect(x0, from, s.end - x0, to - from);
        pen.alpha(1.0);
        let each = (x1 - x0) / ARROWS;
        let half = (each * 0.5 * (watts / STRONGEST).min(0.94)).max(1.5);
        let head = (half * 1.1).min(long * 0.45);
        let (neck, tip) = (from + 2.0 + long - head, from + 2.0 + long);
        for k in 0..5 {
            let x = x0 + each * (f64::from(k) + 0.5);
            let body = half * 0.72;
            pen.fill(t.heat(58.0)).alpha(0.85).path(&[
                (x - body, from + 2.0),
                (x + body, from + 2.0),
                (x + body, neck),
                (x + half, neck),
                (x, tip),
                (x - half, neck),
                (x - body, neck),
            ]);
            pen.c.close_path();
            pen.c.fill();
            pen.alpha(1.0).stroke(t.heat_edge, 1.2).dashes(&[], 0.0);
            pen.c.stroke();
        }
    }
}

/// A name in the column at the right.
#[derive(Default)]
struct Label<'a> {
    /// Where it stands, and half its height, px.
    y: f64,
    half: f64,
    /// Where its line is.
    line: f64,
    leads: bool,
    name: &'a str,
    value: &'a str,
    /// It gives way to nothing.
    held: bool,
}
