//! The handles on the hoses, and where each can be pressed.
use js_sys::Math;
use lowside_present::{controls::Control, levels::Levels};

use super::Brush;

impl Brush<'_> {
    /// The valves, as handles: along the hose is open, across is shut. Returns where each can be pressed.
    pub(super) fn valves(&self, l: &Levels, needed: Option<Control>) -> Vec<(Control, f64, f64)> {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let r = s.radius();
        let y_service = s.y(l.service_hose.height);
        let (y_low, y_high) = self.hose_heights(l);
        let mid = f64::midpoint;
        let valve_x = mid(s.service.1, s.hose.0);
        let port_x = mid(s.hose.1, s.start);
        let (mut yl, mut yh) = (mid(y_service, y_low), mid(y_service, y_high));
        // Kept apart where the hoses run together.
        if yl - yh < 2.0 * r + 4.0 {
            let c = mid(yl, yh);
            (yl, yh) = (c + r + 2.0, c - r - 2.0);
        }
        let [acc, dis] = [&l.accumulator, &l.discharge].map(|b| s.y(b.height));
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
                mid(s.vessel.0 + s.vessel.1 / 2.0, s.service.0),
                mid(y, y_service),
                f64::from(u8::from(c.open)),
                t.service,
                "T",
            ));
        }
        for &(control, x, y, open, colour, _) in &spots {
            if needed == Some(control) {
                let pulse = 4.0 + 2.0 * Math::sin(self.drift * 4.0);
                pen.stroke(t.accent, 3.0).circle(x, y, r + pulse);
                pen.c.stroke();
            }
            let coupler = matches!(control, Control::LowCoupler | Control::HighCoupler);
            pen.fill(if open > 0.0 { colour } else { t.sheet });
            if coupler {
                pen.rounded(x - r * 0.85, y - r * 0.85, r * 1.7, r * 1.7, 3.0);
            } else {
                pen.circle(x, y, r);
            }
            pen.c.fill();
            pen.stroke(colour, 2.0).dashes(&[], 0.0);
            pen.c.stroke();
            let turn = (1.0 - open) * core::f64::consts::FRAC_PI_2;
            let (dx, dy) = (Math::cos(turn) * r * 0.7, Math::sin(turn) * r * 0.7);
            pen.stroke(if open > 0.0 { t.sheet } else { colour }, 3.0)
                .line(&[(x - dx, y - dy), (x + dx, y + dy)]);
        }
        spots.into_iter().map(|(c, x, y, ..)| (c, x, y)).collect()
    }
}
