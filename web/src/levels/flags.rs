//! The flags at the ends of the lines: the figure of each gauge.
use lowside_present::{levels::Levels, palette::Rgb};

use super::Brush;

/// Height of a flag, px.
pub(super) const FLAG: f64 = 24.0;
/// Least distance of the two flags, px.
const APART: f64 = FLAG + 4.0;

/// How the unit of a vacuum on a gauge begins.
const IN_HG: &str = "inHg";

impl Brush<'_> {
    /// Where each side's flag stands, low and high; none where no gauge is on it. They keep off each other.
    pub(super) fn flag_places(&self, l: &Levels) -> [Option<f64>; 2] {
        let s = self.sheet;
        let [low, high] = [&l.evaporator[0], &l.liquid].map(|b| s.y(b.height));
        let places =
            [(low, &l.gauges[0]), (high, &l.gauges[1])].map(|(y, gauge)| gauge.as_ref().map(|_| y));
        if let [Some(low), Some(high)] = places
            && (low - high).abs() < APART
        {
            let middle = f64::midpoint(low, high).clamp(APART, s.h - APART);
            return [Some(middle + APART / 2.0), Some(middle - APART / 2.0)];
        }
        places.map(|y| y.map(|y| y.clamp(FLAG / 2.0 + 1.0, s.h - FLAG / 2.0 - 1.0)))
    }

    /// Draws them; returns where they stand.
    pub(super) fn flags(&self, l: &Levels) -> [Option<f64>; 2] {
        let (s, t) = (self.sheet, self.theme);
        let places = self.flag_places(l);
        let lines = [s.y(l.evaporator[0].height), s.y(l.liquid.height)];
        for (k, colour) in [t.low, t.high].into_iter().enumerate() {
            if let (Some(y), Some(gauge)) = (places[k], &l.gauges[k]) {
                // Inches of mercury by the sign of the trade, as on the axis.
                let inches = if gauge.unit.starts_with(IN_HG) {
                    "\u{2033}"
                } else {
                    ""
                };
                self.flag((lines[k], y), colour, &format!("{}{inches}", gauge.number));
            }
        }
        places
    }

    fn flag(&self, (line, y): (f64, f64), colour: Rgb, figure: &str) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        pen.stroke(colour, 1.4).dashes(&[], 0.0);
        pen.line(&[(s.fall, line), (s.flag - 6.0, y), (s.w, y)]);
        pen.fill(colour)
            .rounded(s.flag, y - FLAG / 2.0, s.w - s.flag - 4.0, FLAG, 4.0);
        pen.c.fill();
        self.take(
            f64::midpoint(s.flag, s.w),
            y,
            ((s.w - s.flag) / 2.0, FLAG / 2.0 + 1.0),
        );
        pen.font(self.size + 3.0, true).fill(t.sheet);
        pen.text(figure, f64::midpoint(s.flag, s.w - 4.0), y + 1.0, "center");
    }
}
