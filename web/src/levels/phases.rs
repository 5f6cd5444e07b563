//! Vapour, drops, bubbles, water, frost and sweat: small marks, each placed by its number, so that none jumps from frame to frame.
use lowside_present::levels::Block;

use super::{Brush, channels::Pool, wrapped};

/// Steps that scatter numbers evenly over a square (the plastic number's powers).
const SCATTER: [f64; 2] = [0.754_877_666, 0.569_840_291];
/// Marks of boiling or condensing for each kilowatt.
const MARKS: f64 = 14.0;

/// How many marks a number stands for, `most` at the most.
fn count(n: f64, most: u32) -> impl Iterator<Item = f64> {
    (0..most).map(f64::from).take_while(move |k| *k < n)
}

fn scatter(k: f64) -> (f64, f64) {
    (
        (k * SCATTER[0] + 0.31).fract(),
        (k * SCATTER[1] + 0.17).fract(),
    )
}

impl Brush<'_> {
    /// Dots of vapour: as many as it is dense, drifting.
    pub(super) fn vapour(&self, b: &Block, (x, w): (f64, f64), (top, bottom): (f64, f64)) {
        if b.haze < 2e-4 || bottom - top < 3.0 {
            return;
        }
        let pen = self.pen;
        let dots = w * (bottom - top) * (0.0025 + 0.017 * b.haze.sqrt());
        pen.fill(self.theme.soft).c.begin_path();
        for k in count(dots, 150) {
            let (u, v) = scatter(k);
            let u = (u + self.drift * 0.013 * (1.0 + wrapped(k, 3.0))).fract();
            let v = (v + x * 0.0137).fract();
            pen.c
                .rect(x + u * (w - 1.6), top + v * (bottom - top - 1.6), 1.6, 1.6);
        }
        pen.c.fill();
    }

    /// Drops that fall where vapour condenses.
    pub(super) fn drops(&self, b: &Block, (x, w): (f64, f64), (top, bottom): (f64, f64)) {
        if b.boils >= 0.0 || bottom - top < 8.0 {
            return;
        }
        let (pen, t) = (self.pen, self.theme);
        pen.fill(t.heat(b.t))
            .stroke(t.heat_edge, 1.0)
            .dashes(&[], 0.0);
        for k in count(-b.boils * MARKS, 16) {
            let (u, v) = scatter(k);
            let from = top + (0.25 + 0.4 * scatter(k + 5.0).0) * (bottom - top);
            let fallen = (v + self.drift * 0.55).fract();
            let y = from + fallen * fallen * (bottom - from);
            pen.circle(x + 3.0 + u * (w - 6.0), y, 1.6 + 0.8 * v);
            pen.c.fill();
            pen.c.stroke();
        }
    }

    /// Rings that rise where liquid boils.
    pub(super) fn bubbles(&self, b: &Block, (x, w): (f64, f64), pool: &Pool) {
        let deep = pool.ground - pool.surface[1];
        if b.boils <= 0.0 || deep < 3.0 {
            return;
        }
        let (pen, t) = (self.pen, self.theme);
        pen.stroke(t.sheet, 1.4).dashes(&[], 0.0);
        for k in count((b.boils * MARKS).min(w / 9.0), 16) {
            let (u, v) = scatter(k);
            let risen = (v + self.drift * 0.8).fract();
            let r = (1.2 + 2.0 * risen).min(deep / 2.0);
            pen.circle(x + 4.0 + u * (w - 8.0), pool.ground - risen * deep, r);
            pen.c.stroke();
        }
    }

    /// Water that lies on the ground of a volume: drops, a gram or so each, and stars of ice.
    pub(super) fn water(&self, b: &Block, (x, w): (f64, f64), ground: f64) {
        let (pen, t) = (self.pen, self.theme);
        let [liquid, ice] = b
            .water
            .map(|g| if g > 0.05 { (g * 1.5).ceil() } else { 0.0 });
        pen.fill(t.water);
        for k in count(liquid, 8) {
            pen.circle(x + 5.0 + scatter(k).0 * (w - 10.0), ground - 4.0, 2.8);
            pen.c.fill();
        }
        pen.stroke(t.frost, 1.6).dashes(&[], 0.0);
        for k in count(ice, 8) {
            self.star(x + 5.0 + scatter(k + 9.0).0 * (w - 10.0), ground - 6.0, 3.6);
        }
    }

    /// A star of ice in the colour of the pen.
    pub(super) fn star(&self, x: f64, y: f64, r: f64) {
        for (dx, dy) in [(r, 0.0), (0.5 * r, 0.87 * r), (-0.5 * r, 0.87 * r)] {
            self.pen.line(&[(x - dx, y - dy), (x + dx, y + dy)]);
        }
    }

    /// Frost as hairs on a surface from `x` on, `share` of its full length; `up` is the way they grow.
    pub(super) fn hairs(&self, (x, w): (f64, f64), y: f64, share: f64) {
        if share < 0.01 {
            return;
        }
        let pen = self.pen;
        let long = 3.0 + 15.0 * share;
        pen.stroke(self.theme.frost, 1.5)
            .dashes(&[], 0.0)
            .c
            .begin_path();
        for k in count(w / 4.0, 200) {
            let (u, v) = scatter(k);
            let at = x + 2.0 + k * 4.0;
            pen.c.move_to(at, y);
            pen.c
                .line_to(at + 3.0 * (u - 0.5), y - long * (0.6 + 0.4 * v));
        }
        pen.c.stroke();
    }

    /// Sweat: drops that hang on a wall.
    pub(super) fn sweat(&self, n: f64, place: impl Fn(f64, f64) -> (f64, f64)) {
        let pen = self.pen;
        pen.fill(self.theme.water);
        for k in count(n, 14) {
            let (u, v) = scatter(k);
            let (x, y) = place(u, v);
            pen.circle(x, y, 2.2);
            pen.c.fill();
        }
    }
}
