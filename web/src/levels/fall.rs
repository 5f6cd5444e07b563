//! The orifice: a fall from the end of the high line to the low one.
use lowside_present::{levels::Levels, palette::Rgb};

use super::{Brush, REST, wrapped};

/// Flow whose fall is as wide as there is room, g/s.
const WIDEST: f64 = 60.0;
/// The white of the flash.
const FLASH: Rgb = Rgb(0xff, 0xff, 0xff);

impl Brush<'_> {
    /// Warm liquid, the white of the flash, cold spray; as wide as it flows.
    pub(super) fn fall(&self, l: &Levels, phase: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (y0, y1) = (s.y(l.liquid.height), s.y(l.evaporator[0].height));
        let room = s.fall - s.end;
        let middle = s.end + room * 0.52;
        if y1 - y0 > 16.0 {
            let share = (l.orifice.flow / WIDEST).clamp(0.0, 1.0).sqrt();
            let runs = l.orifice.flow > REST;
            let (narrow, broad) = if runs {
                (2.0 + 3.0 * share, 4.0 + (room * 0.42 - 4.0) * share)
            } else {
                (1.5, 1.5)
            };
            let waist = y0 + (y1 - y0) * 0.35;
            let c = &pen.c;
            c.begin_path();
            c.move_to(s.end + 12.0, y0 - narrow);
            c.bezier_curve_to(
                middle + narrow,
                y0 - narrow,
                middle + narrow,
                y0,
                middle + narrow,
                waist,
            );
            let knee = waist + (y1 - waist) * 0.45;
            c.bezier_curve_to(
                middle + narrow,
                knee,
                middle + broad,
                knee,
                middle + broad,
                y1 - 16.0,
            );
            c.quadratic_curve_to(middle + broad, y1 + 22.0, s.end, y1 + 24.0);
            c.line_to(s.end, y1 + 2.0);
            c.quadratic_curve_to(
                middle - broad * 0.7,
                y1 + 2.0,
                middle - broad * 0.7,
                y1 - 18.0,
            );
            c.bezier_curve_to(
                middle - broad * 0.7,
                knee,
                middle - narrow,
                knee,
                middle - narrow,
                waist,
            );
            c.bezier_curve_to(
                middle - narrow,
                y0 + 8.0,
                middle - narrow,
                y0 + narrow,
                s.end + 12.0,
                y0 + narrow,
            );
            c.close_path();
            if runs {
                let [warm, cold] = [l.liquid.t, l.evaporator[0].t].map(|deg| t.heat(deg));
                pen.blend(&[warm, warm, FLASH, cold, cold], y0, y1 + 12.0);
            } else {
                pen.fill(t.sheet);
            }
            c.fill();
            pen.stroke(t.edge, 1.2).dashes(&[], 0.0);
            c.stroke();
            if runs {
                self.spray(l, phase, (middle, waist, y1), (narrow, broad));
            }
        }
        self.nozzle(l, y0);
    }

    /// Flakes of the flash and drops of the spray, and bubbles above where the liquid brings some along.
    fn spray(
        &self,
        l: &Levels,
        phase: f64,
        (middle, waist, y1): (f64, f64, f64),
        (narrow, broad): (f64, f64),
    ) {
        let (pen, t) = (self.pen, self.theme);
        let y0 = self.sheet.y(l.liquid.height);
        for k in 0..34 {
            let k = f64::from(k);
            let (u, v) = ((k * 0.754_877_666).fract(), (k * 0.569_840_291).fract());
            let fallen = (v + wrapped(phase, 1200.0) / 1200.0 * 12.0).fract();
            let y = y0 + 10.0 + fallen * fallen * (y1 - y0 - 6.0);
            let spread = ((y - waist) / (y1 - waist)).clamp(0.0, 1.0);
            let half = narrow + (broad * 0.75 - narrow).max(0.0) * spread;
            let x = middle + (u - 0.5) * 2.0 * (half - 1.0);
            if y > waist {
                pen.fill(if wrapped(k, 3.0) < 1.0 { t.soft } else { FLASH })
                    .circle(x, y, 1.6);
                pen.c.fill();
            } else if l.orifice.liquid < 0.98 {
                pen.stroke(t.soft, 1.0).circle(x, y, 1.6);
                pen.c.stroke();
            }
        }
    }

    /// The orifice tube with its screen; ice takes from its bore.
    fn nozzle(&self, l: &Levels, y: f64) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        pen.fill(t.sheet)
            .stroke(t.ink, 1.8)
            .dashes(&[], 0.0)
            .rounded(s.end, y - 10.0, 12.0, 20.0, 2.0);
        pen.c.fill();
        pen.c.stroke();
        pen.stroke(t.ink, 1.0);
        for x in [4.0, 8.0] {
            pen.line(&[(s.end + x, y - 8.0), (s.end + x, y + 8.0)]);
        }
        if l.ice > 0.01 {
            pen.stroke(t.frost, 1.8);
            for (dx, dy) in [(14.0, -12.0), (20.0, -2.0), (13.0, 13.0)] {
                self.star(s.end + dx, y + dy, 3.0 + 6.0 * l.ice);
            }
        }
    }
}
