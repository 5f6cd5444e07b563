//! A channel: what a row of volumes holds, along its line and fading away from it.
use lowside_present::{levels::Block, parts::Part};

use super::{Brush, Side};

/// Share of a channel's reach that a brim-full volume fills.
const BRIM: f64 = 0.76;
/// Share of its reach at which a channel that hangs has its ground.
const GROUND: f64 = 0.9;
/// How far liquid on such a ground fades out below it, px.
const SEEPS: f64 = 9.0;

/// Width of the pillar that stands for air, px.
const PILLAR: f64 = 20.0;

/// A stretch of a channel.
pub(super) struct Cell<'a> {
    pub(super) part: Part,
    pub(super) block: &'a Block,
    pub(super) x: f64,
    pub(super) w: f64,
    /// Where its line is.
    pub(super) y: f64,
}

/// The liquid of a stretch: where its ground is, and its surface at the left end, the middle and the right end.
pub(super) struct Pool {
    pub(super) ground: f64,
    pub(super) surface: [f64; 3],
}

impl Brush<'_> {
    /// How far a channel reaches from its line.
    pub(super) fn reach(&self, cells: &[Cell], side: Side) -> f64 {
        let lines = cells.iter().map(|c| c.y);
        match side {
            Side::Above => self.sheet.above(lines.fold(f64::INFINITY, f64::min)),
            Side::Below => self.sheet.below(lines.fold(0.0, f64::max)),
        }
    }

    /// The liquid of stretch `k`: the surface runs from the middle of one stretch to the middle of the next.
    fn pool(cells: &[Cell], k: usize, side: Side, reach: f64) -> Pool {
        let fill = cells[k].block.fill;
        let beside = |n: Option<usize>| {
            n.and_then(|n| cells.get(n))
                .map_or(fill, |c| f64::midpoint(fill, c.block.fill))
        };
        let lowest = cells.iter().map(|c| c.y).fold(0.0, f64::max);
        let ground = match side {
            Side::Above => cells[k].y,
            Side::Below => lowest + reach * GROUND,
        };
        let mut ends = [beside(k.checked_sub(1)), beside(Some(k + 1))];
        // Cells of the low side run from right to left.
        if cells.len() > 1 && cells[1].x < cells[0].x {
            ends.swap(0, 1);
        }
        Pool {
            ground,
            surface: [ends[0], fill, ends[1]].map(|f| ground - f * reach * BRIM),
        }
    }

    /// What a row of volumes holds.
    pub(super) fn channel(&self, cells: &[Cell], side: Side) {
        let (pen, t) = (self.pen, self.theme);
        let reach = self.reach(cells, side);
        let pools: Vec<Pool> = (0..cells.len())
            .map(|k| Self::pool(cells, k, side, reach))
            .collect();
        for (c, pool) in cells.iter().zip(&pools) {
            let top = if side == Side::Above {
                c.y - reach
            } else {
                c.y
            };
            pen.fill(t.sheet).rect(c.x, top, c.w, reach);
            pen.fill(t.heat(c.block.t))
                .alpha(0.3 + 0.25 * c.block.haze.sqrt())
                .rect(c.x, top, c.w, reach);
            pen.alpha(1.0);
            let room = match side {
                Side::Above => (top, pool.surface[1]),
                Side::Below => (c.y + 6.0, pool.surface[1]),
            };
            self.vapour(c.block, (c.x, c.w), room);
            self.drops(c.block, (c.x, c.w), room);
        }
        self.fade(cells, side, reach);
        for (c, pool) in cells.iter().zip(&pools) {
            self.pool_body(c, pool, side);
        }
        for (c, pool) in cells.iter().zip(&pools) {
            self.surface(c, pool);
            self.bubbles(c.block, (c.x, c.w), pool);
            self.water(c.block, (c.x, c.w), pool.ground);
        }
    }

    /// Lets a channel end in nothing.
    fn fade(&self, cells: &[Cell], side: Side, reach: f64) {
        for c in cells {
            let (from, to, top) = match side {
                Side::Above => (c.y - reach * 0.5, c.y - reach, c.y - reach - 0.5),
                Side::Below => (c.y + reach * 0.55, c.y + reach, c.y),
            };
            self.pen
                .fade(self.theme.sheet, (from, 0.0), (to, 1.0))
                .rect(c.x, top, c.w, reach + 0.5);
        }
    }

    fn pool_body(&self, c: &Cell, pool: &Pool, side: Side) {
        let [left, middle, right] = pool.surface;
        if pool.ground - left.min(middle).min(right) < 0.4 {
            return;
        }
        let ground = pool.ground;
        let colour = self.theme.heat(c.block.t);
        self.pen.fill(colour).path(&[
            (c.x, ground),
            (c.x, left),
            (c.x + c.w / 2.0, middle),
            (c.x + c.w, right),
            (c.x + c.w, ground),
        ]);
        self.pen.c.fill();
        if side == Side::Below {
            // It has no far edge either.
            self.pen
                .fade(colour, (ground, 1.0), (ground + SEEPS, 0.0))
                .rect(c.x, ground, c.w, SEEPS);
        }
    }

    /// The surface of a stretch's liquid, with the oil on it.
    fn surface(&self, c: &Cell, pool: &Pool) {
        let [left, middle, right] = pool.surface;
        if pool.ground - left.min(middle).min(right) < 0.4 {
            return;
        }
        let (pen, t) = (self.pen, self.theme);
        let line = [(c.x, left), (c.x + c.w / 2.0, middle), (c.x + c.w, right)];
        pen.stroke(t.soft, 1.4).dashes(&[], 0.0).line(&line);
        if c.block.oil > FILM {
            pen.stroke(t.oil, film(c.block.oil))
                .line(&line.map(|(x, y)| (x, y - 1.0)));
        }
    }

    /// What air adds to a side, where it adds most: a hatched pillar down to where that would stand without, at the broken line.
    pub(super) fn air<'a>(&self, cells: impl Iterator<Item = Cell<'a>>) {
        let without = |c: &Cell| self.sheet.y(c.block.without_air);
        let adds = |c: &Cell| if c.block.below { 0.0 } else { without(c) - c.y };
        let Some(most) = cells.max_by(|a, b| adds(a).total_cmp(&adds(b))) else {
            return;
        };
        let (top, bottom) = (most.y, without(&most).min(self.sheet.h));
        if adds(&most) < 2.0 {
            return;
        }
        let (pen, t) = (self.pen, self.theme);
        let (x, w) = (most.x + most.w / 2.0 - PILLAR / 2.0, PILLAR);
        pen.fill(t.sheet).rect(x, top, w, bottom - top);
        pen.stroke(t.service, 1.4).dashes(&[4.0, 3.0], 0.0);
        pen.line(&[(x - 16.0, bottom), (x + w + 16.0, bottom)]);
        pen.dashes(&[], 0.0);
        pen.c.save();
        pen.c.begin_path();
        pen.c.rect(x, top, w, bottom - top);
        pen.c.clip();
        let mut at = top;
        while at < bottom + w {
            pen.line(&[(x, at), (x + w, at - w)]);
            at += 8.0;
        }
        pen.c.restore();
        pen.line(&[(x, bottom), (x, top)]);
        pen.line(&[(x + w, bottom), (x + w, top)]);
    }
}

/// Least share of a volume that is drawn as a film of oil.
pub(super) const FILM: f64 = 5e-4;

/// How thick a film of oil is drawn that fills such a share of its volume, px.
fn film(share: f64) -> f64 {
    (1.5 + 60.0 * share).min(7.0)
}
