//! What stands around the loop: the axis, the air outside and in the cabin, the atmosphere, and the heat that runs down.
use lowside_present::levels::{Levels, Tick};

use super::Brush;
use crate::words;

/// How far beyond the loop's right end the lines of the surroundings run before their leaders begin, px.
const LEAD: f64 = 22.0;

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
    /// The cellar below the atmosphere.
    pub(super) fn ground(&self, l: &Levels, h: f64) {
        let (pen, s) = (self.pen, self.sheet);
        let y = s.y(l.atmosphere);
        pen.fill(self.theme.rule)
            .alpha(0.28)
            .rect(s.axis, y, s.w - s.axis, h - y);
        pen.alpha(1.0);
    }

    pub(super) fn axis(&self, ticks: &[Tick], names: [&str; 2]) {
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

    pub(super) fn surroundings(&self, l: &Levels) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let end = if s.wide { s.end + LEAD } else { s.w - 4.0 };
        for (line, dash) in [(&l.outside, [9.0, 4.0]), (&l.cabin, [3.0, 4.0])] {
            let y = s.y(line.height);
            pen.stroke(t.soft, 1.4).dashes(&dash, 0.0);
            pen.line(&[(s.shaft, y), (end, y)]);
        }
        let y = s.y(l.atmosphere);
        pen.stroke(t.ink, 1.2).dashes(&[], 0.0);
        pen.line(&[(s.axis, y), (s.w, y)]);
    }

    /// The names of the lines, upon everything else.
    pub(super) fn names(&self, l: &Levels) {
        if self.sheet.wide {
            self.column(l);
        } else {
            self.between(l);
        }
    }

    /// Names in a column to the right, each at its line as far as the others leave it room, with a leader to it.
    fn column(&self, l: &Levels) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (outside, cabin) = (l.outside.shown.to_string(), l.cabin.shown.to_string());
        let [opens, closes] = l.switch;
        let [n_outside, n_cabin, n_in, n_out, n_atmosphere] = column_names();
        let mut labels = [
            (l.outside.height, n_outside, outside.as_str()),
            (l.cabin.height, n_cabin, cabin.as_str()),
            (closes, n_in, ""),
            (opens, n_out, ""),
            (l.atmosphere, n_atmosphere, ""),
        ]
        .map(|(height, name, value)| {
            let y = s.y(height);
            let half = if value.is_empty() { 7.5 } else { 15.0 };
            // The atmosphere's name stands on its line, which runs on to the edge.
            let leads = name != words::atmosphere();
            (if leads { y } else { y - 9.0 }, half, y, leads, name, value)
        });
        // The highest first; then those that overlap give way to each other by halves.
        for k in 1..labels.len() {
            for i in (1..=k).rev() {
                if labels[i].0 < labels[i - 1].0 {
                    labels.swap(i, i - 1);
                }
            }
        }
        for _ in 0..24 {
            for k in 1..labels.len() {
                let over = labels[k - 1].1 + labels[k].1 - (labels[k].0 - labels[k - 1].0);
                if over > 0.0 {
                    labels[k - 1].0 -= over / 2.0;
                    labels[k].0 += over / 2.0;
                }
            }
        }
        let right = s.w - 6.0;
        for (y, _, line, leads, name, value) in labels {
            if leads {
                pen.font(self.size, true);
                let text = right - 4.0 - pen.width(name).max(pen.width(value));
                let from = s.end + LEAD;
                pen.stroke(t.soft, 1.0).dashes(&[], 0.0);
                pen.line(&[(from, line), (from + 8.0, y), (text.max(from + 8.0), y)]);
            }
            if value.is_empty() {
                pen.font(self.size - 1.0, false);
                self.letters(name, right, y, "right", t.soft);
            } else {
                self.halo(name, right, y - 7.0, "right", t.soft);
                self.bold(value, right, y + 7.0, "right", t.ink);
            }
        }
    }

    /// Names at the lines, where there is no room beside: between the two as far as there is room, since heat leaves that free
    /// while the outside is the warmer; else above the upper and below the lower one.
    fn between(&self, l: &Levels) {
        let (s, t) = (self.sheet, self.theme);
        let (outside, cabin) = (s.y(l.outside.height), s.y(l.cabin.height));
        let gap = cabin - outside;
        let side = |below: bool| if below { 8.0 } else { -8.0 };
        let upper = gap < 0.0;
        for (line, name, y) in [
            (
                &l.outside,
                words::outside(),
                outside + side(upper || gap > 17.0),
            ),
            (&l.cabin, words::cabin(), cabin + side(!upper && gap < 32.0)),
        ] {
            let text = format!("{name} {}", line.shown);
            self.halo(&text, s.end - 4.0, y, "right", t.ink);
        }
        let y = s.y(l.atmosphere) - 9.0;
        self.halo(words::atmosphere(), s.w - 6.0, y, "right", t.soft);
    }

    /// Heat running down: from the condenser to the outside air, from the cabin air into the evaporator.
    pub(super) fn heat(&self, l: &Levels) {
        let s = self.sheet;
        let cells = &l.condenser_cells;
        let mut x = s.shaft + l.discharge.volume * s.litre / s.high_h;
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
}
