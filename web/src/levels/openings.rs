//! Joints that stand open: the hole, what leaves by it or falls in, and how much.
use lowside_present::{
    bench::Joint,
    levels::{Levels, Opening},
    parts::Part,
};

use super::{Brush, names::At};

/// Flow from which a plume is drawn, g/s.
const SEEN: f64 = 2e-3;
/// Radius of a hole, px.
const HOLE: f64 = 7.0;
/// Length of a plume, px.
const PLUME: f64 = 54.0;

impl Brush<'_> {
    pub(super) fn openings(&self, l: &Levels) {
        for opening in &l.openings {
            self.opening(opening, self.joint(l, opening.joint));
        }
    }

    /// Where a joint is, and which way is out: up or down.
    fn joint(&self, l: &Levels, joint: Joint) -> ((f64, f64), f64) {
        let s = self.sheet;
        let high = self.high_cells(l);
        let first = |part: Part| high.iter().find(|c| c.part == part);
        let at = |part: Part| first(part).map_or((s.shaft, 0.0), |c| (c.x, c.y));
        let low = s.y(l.accumulator.height);
        match joint {
            Joint::CompressorOut => ((s.start, s.y(l.discharge.height)), -1.0),
            Joint::ReliefThread => {
                let (a, b) = (at(Part::Discharge), at(Part::Condenser));
                ((f64::midpoint(a.0, b.0), a.1), -1.0)
            }
            Joint::CondenserIn => (at(Part::Condenser), -1.0),
            Joint::CondenserOut => (at(Part::Liquid), -1.0),
            Joint::EvaporatorIn => ((s.end, s.y(l.evaporator[0].height)), 1.0),
            Joint::EvaporatorOut => ((s.basin, low), 1.0),
            Joint::AccumulatorOut => ((f64::midpoint(s.start, s.shaft), low), 1.0),
            Joint::CompressorIn => ((s.start, low - self.foot(l)), -1.0),
        }
    }

    fn opening(&self, o: &Opening, ((x, y), out): ((f64, f64), f64)) {
        let (pen, t) = (self.pen, self.theme);
        if o.flow > SEEN {
            self.plume((x, y), out, o.flow);
        } else if o.flow < -SEEN {
            // Air that falls in.
            let from = y + out * PLUME;
            pen.stroke(t.service, 3.0)
                .dashes(&[5.0, 4.0], self.drift * 30.0)
                .line(&[(x, from), (x, y + out * 14.0)]);
            pen.dashes(&[], 0.0).line(&[
                (x - 6.0, y + out * 22.0),
                (x, y + out * 12.0),
                (x + 6.0, y + out * 22.0),
            ]);
        }
        pen.fill(if o.capped { t.ink } else { t.sheet })
            .stroke(t.ink, 2.4)
            .dashes(&[], 0.0)
            .circle(x, y, HOLE);
        pen.c.fill();
        pen.c.stroke();
        if o.flow.abs() > SEEN {
            let y = y + out * (PLUME + 10.0);
            let y = y.clamp(10.0, self.sheet.h - 10.0);
            let align = "center";
            self.put(&o.shown.to_string(), At { x, y, align }, true, t.ink);
        }
    }

    /// Dots that fly out in a cone, the more the more leaves.
    fn plume(&self, (x, y): (f64, f64), out: f64, flow: f64) {
        let pen = self.pen;
        pen.fill(self.theme.soft).c.begin_path();
        let dots = (8.0 + 14.0 * flow.sqrt()).min(60.0);
        let mut k = 0.0;
        while k < dots {
            let (u, v) = (
                (k * 0.754_877_666).fract(),
                (k * 0.569_840_291 + self.drift * 1.4).fract(),
            );
            let far = v * PLUME;
            let size = 1.4 + 1.6 * (1.0 - v);
            pen.c.rect(
                x + (u - 0.5) * (8.0 + far * 0.9),
                y + out * (HOLE + far),
                size,
                size,
            );
            k += 1.0;
        }
        pen.c.fill();
    }
}
