//! The loop itself: what stands on the high line, what hangs from the low one, and the lift between them.
use lowside_present::{
    levels::{Block, Levels},
    parts::{Coat, Part},
};

use super::{
    Brush, LINE, RIDE, STREAMS, Side,
    channels::{Cell, FILM, Pool},
    names::At,
};
use crate::words;

/// Height of the suction line's foot under the lift, px.
const FOOT: f64 = 30.0;
/// From one chevron of the lift to the next, px.
const CHEVRONS: f64 = 24.0;

impl Brush<'_> {
    /// The volumes of the high side in the order of the flow.
    pub(super) fn high_cells<'a>(&self, l: &'a Levels) -> Vec<Cell<'a>> {
        let s = self.sheet;
        let all: f64 = l.high_side().map(|(_, b)| b.volume).sum();
        let mut before = 0.0;
        l.high_side()
            .map(|(part, block)| {
                // On whole pixels, so that no seam shows between them.
                let at = |volume: f64| (s.shaft + volume / all * (s.end - s.shaft)).round();
                let x = at(before);
                before += block.volume;
                Cell {
                    part,
                    block,
                    x,
                    w: at(before) - x,
                    y: s.y(block.height),
                }
            })
            .collect()
    }

    /// The cells of the evaporator in the order of the flow, from right to left.
    pub(super) fn low_cells<'a>(&self, l: &'a Levels) -> Vec<Cell<'a>> {
        let s = self.sheet;
        let w = (s.end - s.basin) / l.evaporator.len() as f64;
        let at = |k: usize| (s.end - k as f64 * w).round();
        let cell = |(k, block): (usize, &'a Block)| Cell {
            part: Part::Evaporator,
            block,
            x: at(k + 1),
            w: at(k) - at(k + 1),
            y: s.y(block.height),
        };
        l.evaporator.iter().enumerate().map(cell).collect()
    }

    pub(super) fn high_side(&self, l: &Levels, phase: &[f64; STREAMS]) {
        let (pen, s) = (self.pen, self.sheet);
        let cells = self.high_cells(l);
        self.channel(&cells, Side::Above);
        let mut way: Vec<_> = cells
            .iter()
            .map(|c| (c.x + c.w / 2.0, c.y - RIDE))
            .collect();
        way.insert(0, (s.shaft, way[0].1));
        way.push((s.end, way[way.len() - 1].1));
        let half = way.len() / 2;
        let last = way.len() - 3;
        self.flow(l.compressor, phase[0], || pen.line(&way[..=half]));
        self.flow(l.condenser, phase[1], || pen.line(&way[half..=last]));
        self.flow(l.orifice, phase[2], || pen.line(&way[last..]));
    }

    pub(super) fn low_side(&self, l: &Levels, phase: &[f64; STREAMS]) {
        let (pen, s) = (self.pen, self.sheet);
        let cells = self.low_cells(l);
        self.channel(&cells, Side::Below);
        for (c, frost) in cells.iter().zip(l.frost) {
            self.hairs((c.x, c.w), c.y - LINE / 2.0, frost);
            let wet = if frost > 0.01 {
                0.0
            } else {
                l.held * c.w / 11.0
            };
            self.sweat(wet, |u, _| {
                (c.x + 4.0 + u * (c.w - 8.0), c.y - LINE / 2.0 - 3.0)
            });
        }
        let a = &l.accumulator;
        let y = s.y(a.height);
        let deep = s.below(y);
        self.vessel(a, (s.start, s.basin - s.start), (y, deep), false);
        self.coat(l.coats[0], (s.start, s.basin - s.start), (y, deep));
        let mut way: Vec<_> = cells
            .iter()
            .map(|c| (c.x + c.w / 2.0, c.y + RIDE))
            .collect();
        way.insert(0, (s.end, way[0].1));
        way.push((s.basin, way[way.len() - 1].1));
        self.flow(l.evaporated, phase[3], || pen.line(&way));
        let x = f64::midpoint(s.start, s.shaft);
        self.flow(l.pick_up, phase[4], || {
            pen.line(&[
                (s.basin, y + RIDE),
                (x, y + RIDE),
                (x, s.y(l.suction.height) - self.foot(l)),
            ]);
        });
    }

    /// A vessel with walls that hangs from its line at `y`, or stands on it, `deep` px.
    pub(super) fn vessel(
        &self,
        b: &Block,
        (x, w): (f64, f64),
        (y, deep): (f64, f64),
        stands: bool,
    ) {
        let (pen, t) = (self.pen, self.theme);
        let top = if stands { y - deep } else { y };
        let liquid = deep * b.fill * (1.0 - b.oil);
        let pool = Pool {
            ground: top + deep,
            surface: [top + deep - liquid; 3],
        };
        let surface = pool.surface[1];
        pen.c.save();
        pen.rounded(x, top, w, deep, 12.0);
        pen.c.clip();
        pen.fill(t.sheet).rect(x, top, w, deep);
        pen.fill(t.heat(b.t))
            .alpha(0.18 + 0.25 * b.haze.sqrt())
            .rect(x, top, w, deep);
        pen.alpha(1.0);
        self.vapour(b, (x, w), (top + 4.0, surface));
        if liquid > 0.0 {
            pen.fill(t.heat(b.t)).rect(x, surface, w, liquid);
            pen.stroke(t.soft, 1.4)
                .dashes(&[], 0.0)
                .line(&[(x, surface), (x + w, surface)]);
        }
        if b.oil > FILM {
            let thick = (deep * b.oil).max(3.0);
            pen.fill(t.oil).rect(x, surface - thick, w, thick);
        }
        self.bubbles(b, (x, w), &pool);
        self.water(b, (x, w), pool.ground);
        pen.c.restore();
        pen.stroke(t.ink, 1.8)
            .dashes(&[], 0.0)
            .rounded(x, top, w, deep, 12.0);
        pen.c.stroke();
    }

    /// What clings to a vessel's walls.
    fn coat(&self, coat: Coat, (x, w): (f64, f64), (y, deep): (f64, f64)) {
        match coat {
            Coat::Dry => {}
            Coat::Dew => self.sweat(deep / 15.0, |u, v| {
                (if u < 0.5 { x } else { x + w }, y + 6.0 + v * (deep - 12.0))
            }),
            Coat::Frost => {
                let pen = self.pen;
                pen.stroke(self.theme.frost, 1.5).dashes(&[], 0.0);
                let mut at = y + 6.0;
                while at < y + deep - 4.0 {
                    pen.line(&[(x, at), (x - 6.0, at - 2.0)]);
                    pen.line(&[(x + w, at), (x + w + 6.0, at - 2.0)]);
                    at += 5.0;
                }
            }
        }
    }

    /// Height of the suction line's foot, px.
    pub(super) fn foot(&self, l: &Levels) -> f64 {
        let gap = self.sheet.y(l.suction.height) - self.sheet.y(l.discharge.height);
        FOOT.min(gap * 0.3).max(0.0)
    }

    /// The compressor: a lift from the low line to the high one, as warm as the gas in it.
    pub(super) fn shaft(&self, l: &Levels, phase: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (low, top, foot) = (s.y(l.suction.height), s.y(l.discharge.height), self.foot(l));
        if top >= low - 8.0 {
            return;
        }
        let (x, w, bottom) = (s.start, s.shaft - s.start, low - foot);
        pen.fill(t.sheet).rect(x, top, w, low - top);
        let warm = [l.suction.t, l.discharge.t].map(|deg| t.heat(deg));
        pen.alpha(0.45)
            .blend(&[warm[1], warm[0]], top, low)
            .rect(x, top, w, low - top);
        pen.alpha(1.0);
        self.vapour(&l.suction, (x, w), (bottom, low));
        self.slugs(l, phase, (x, w), (top, low));
        pen.stroke(if l.clutch { t.ink } else { t.edge }, 3.0)
            .dashes(&[], 0.0);
        let mid = x + w / 2.0;
        let half = w * 0.28;
        let mut y = bottom - phase.rem_euclid(CHEVRONS);
        while y > top + 10.0 {
            pen.line(&[(mid - half, y), (mid, y - half * 0.7), (mid + half, y)]);
            y -= CHEVRONS;
        }
        pen.stroke(t.ink, 2.2);
        pen.line(&[(x, low), (x, top)]);
        pen.line(&[(x + w, low), (x + w, top)]);
        pen.stroke(t.edge, 1.0)
            .line(&[(x, bottom), (x + w, bottom)]);
        self.coat(l.coats[1], (x, w), (bottom, foot));
    }

    /// Slugs of liquid that ride the lift, as much of it as the compressor draws.
    fn slugs(&self, l: &Levels, phase: f64, (x, w): (f64, f64), (top, low): (f64, f64)) {
        let share = l.compressor.liquid;
        if l.compressor.flow <= 0.0 || share < 0.01 {
            return;
        }
        let (pen, t) = (self.pen, self.theme);
        let thick = (CHEVRONS * share.sqrt()).clamp(3.0, CHEVRONS - 5.0);
        pen.fill(t.heat(l.suction.t))
            .stroke(t.soft, 1.2)
            .dashes(&[], 0.0);
        let mut y = low - phase.rem_euclid(CHEVRONS);
        while y > top + thick {
            pen.rounded(x + 5.0, y - thick, w - 10.0, thick, 5.0);
            pen.c.fill();
            pen.c.stroke();
            y -= CHEVRONS;
        }
    }

    /// What air adds to each side.
    pub(super) fn airs(&self, l: &Levels) {
        let s = self.sheet;
        self.air(self.high_cells(l).into_iter());
        let accumulator = Cell {
            part: Part::Accumulator,
            block: &l.accumulator,
            x: s.start,
            w: s.basin - s.start,
            y: s.y(l.accumulator.height),
        };
        self.air(self.low_cells(l).into_iter().chain([accumulator]));
    }

    /// The two lines: each side's pressure, on which everything meets.
    pub(super) fn lines(&self, l: &Levels) {
        let (pen, s) = (self.pen, self.sheet);
        pen.c.set_line_join("round");
        pen.stroke(self.theme.ink, LINE).dashes(&[], 0.0);
        let mut high = vec![(s.start, s.y(l.discharge.height))];
        high.extend(self.high_cells(l).iter().map(|c| (c.x + c.w / 2.0, c.y)));
        high.push((s.end, s.y(l.liquid.height)));
        pen.line(&high);
        let mut low = vec![(s.end, s.y(l.evaporator[0].height))];
        low.extend(self.low_cells(l).iter().map(|c| (c.x + c.w / 2.0, c.y)));
        let y = s.y(l.accumulator.height);
        low.extend([(s.basin, y), (s.start, y)]);
        pen.line(&low);
    }

    /// The names of its parts.
    pub(super) fn part_names(&self, l: &Levels) {
        let (s, t) = (self.sheet, self.theme);
        let name = |text: &str, x: f64, y: f64| {
            let align = "center";
            self.put(text, At { x, y, align }, false, t.soft);
        };
        let cells = self.high_cells(l);
        let mut coil = cells.iter().filter(|c| c.part == Part::Condenser);
        if let (Some(first), Some(last)) = (coil.next(), coil.next_back()) {
            let y = first.y - self.reach(&cells, Side::Above) + 12.0;
            name(
                words::condenser(),
                f64::midpoint(first.x, last.x + last.w),
                y,
            );
        }
        let cells = self.low_cells(l);
        let y = cells[0].y + self.reach(&cells, Side::Below) + 6.0;
        name(words::evaporator(), f64::midpoint(s.basin, s.end), y);
        let y = s.y(l.accumulator.height);
        name(
            words::accumulator(),
            f64::midpoint(s.start, s.basin),
            y + s.below(y) + 8.0,
        );
        let (low, high) = (y, s.y(l.discharge.height));
        if s.wide && low - high > 90.0 {
            let at = |y: f64| At {
                x: s.shaft + 8.0,
                y,
                align: "left",
            };
            let under = self.put(words::compressor(), at(low - 40.0), false, t.ink);
            if let Some(y) = under {
                if l.loose {
                    self.put(words::drive_loose(), at(y + 15.0), true, t.high);
                } else if l.clutch {
                    self.put(&words::lifts(&l.lift), at(y + 15.0), false, t.soft);
                }
            }
        }
    }
}
