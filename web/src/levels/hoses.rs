//! What the shop has connected: hoses, and the can.
use lowside_present::{
    levels::{Block, FlowMark, Levels},
    palette::Rgb,
};

use super::{Brush, REST, STREAMS, names::At};
use crate::words;

/// Height of a vessel on the service hose, px.
const VESSEL: f64 = 130.0;

impl Brush<'_> {
    pub(super) fn hoses(&self, l: &Levels, phase: &[f64; STREAMS]) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let y_service = s.y(l.service_hose.height);
        let (y_low, y_high) = self.hose_heights(l);
        let thick = if s.wide { 7.0 } else { 5.0 };
        let bar = |x: (f64, f64), y: f64, colour: Rgb| {
            pen.stroke(colour, thick)
                .dashes(&[], 0.0)
                .line(&[(x.0, y), (x.1, y)]);
        };
        let run = |from: (f64, f64), to: (f64, f64), colour: Rgb, st: FlowMark, ph: f64| {
            pen.stroke(colour, thick).dashes(&[], 0.0).hose(from, to);
            if st.flow.abs() >= REST {
                let pattern: &[f64] = if st.liquid > 0.5 {
                    &[7.0, 4.0]
                } else {
                    &[3.0, 7.0]
                };
                pen.stroke(t.sheet, 2.4).dashes(pattern, ph).hose(from, to);
                pen.dashes(&[], 0.0);
            }
        };
        pen.c.set_line_cap("round");
        let high_end = (s.start, s.y(l.discharge.height));
        let low_end = (s.start, s.y(l.accumulator.height));
        run(
            (s.service.1, y_service),
            (s.hose.0, y_high),
            t.high,
            l.high_valve,
            phase[8],
        );
        bar(s.hose, y_high, t.high);
        if l.coupled[1] {
            run((s.hose.1, y_high), high_end, t.high, l.high_port, phase[9]);
        } else {
            run(
                (s.hose.1, y_high),
                (s.hose.1 + 14.0, y_high + 9.0),
                t.high,
                FlowMark::default(),
                0.0,
            );
        }
        run(
            (s.service.1, y_service),
            (s.hose.0, y_low),
            t.low,
            l.low_valve,
            phase[6],
        );
        bar(s.hose, y_low, t.low);
        if l.coupled[0] {
            run((s.hose.1, y_low), low_end, t.low, l.low_port, phase[7]);
        } else {
            run(
                (s.hose.1, y_low),
                (s.hose.1 + 14.0, y_low + 9.0),
                t.low,
                FlowMark::default(),
                0.0,
            );
        }
        bar(s.service, y_service, t.service);
        if let Some(c) = &l.can {
            let y = s.y(c.block.height);
            let x = s.vessel.0 + s.vessel.1 / 2.0;
            let mouth = if c.inverted { y + 8.0 } else { y - 8.0 };
            run(
                (x, mouth),
                (s.service.0, y_service),
                t.service,
                l.tap,
                phase[5],
            );
        } else {
            let (end, stream, phase) = match (l.tool, &l.hung) {
                (Some(tool), Some(hung)) => (self.tool_mouth(l, tool, hung), l.tap, phase[5]),
                _ => ((s.service.0 - 12.0, self.mouth(l)), l.hose_end, -phase[10]),
            };
            run(end, (s.service.0, y_service), t.service, stream, phase);
        }
        if l.purging {
            let x = s.service.0 + 4.0;
            pen.stroke(t.service, 2.0)
                .dashes(&[3.0, 4.0], phase[10].abs());
            for k in -1..=1 {
                pen.line(&[
                    (x, y_service - 6.0),
                    (x + f64::from(k) * 9.0, y_service - 24.0),
                ]);
            }
            pen.dashes(&[], 0.0);
        }
        pen.c.set_line_cap("butt");
    }

    /// Where the two hoses lie: at their pressures, kept apart where those are the same.
    pub(super) fn hose_heights(&self, l: &Levels) -> (f64, f64) {
        let [low, high] = [&l.low_hose, &l.high_hose].map(|b| self.sheet.y(b.height));
        let apart = (4.0 - (low - high).abs() / 2.0).max(0.0);
        (low + apart, high - apart)
    }

    /// Top and height of a vessel that hangs from its line, or, upside down, stands on it.
    pub(super) fn hung(&self, b: &Block, stands: bool) -> (f64, f64) {
        let y = self.sheet.y(b.height);
        let long = VESSEL
            .min(if stands {
                y - 16.0
            } else {
                self.sheet.h - 24.0 - y
            })
            .max(40.0);
        (if stands { y - long } else { y }, long)
    }

    pub(super) fn can(&self, l: &Levels) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (x, w) = s.vessel;
        let y_burst = s.y(l.burst);
        let zig: Vec<_> = (0..=6)
            .map(|k| {
                (
                    x + w * f64::from(k) / 6.0,
                    y_burst + if k % 2 == 0 { 3.0 } else { -3.0 },
                )
            })
            .collect();
        let Some(c) = &l.can else {
            return self.tool(l);
        };
        let y = s.y(c.block.height);
        let (top, long) = self.hung(&c.block, c.inverted);
        if c.bath {
            pen.alpha(0.3).fill(t.heat(45.0)).rounded(
                x - 7.0,
                top + long * 0.3,
                w + 14.0,
                long * 0.7 + 7.0,
                5.0,
            );
            pen.c.fill();
            pen.alpha(1.0).stroke(t.edge, 1.4).line(&[
                (x - 7.0, top + long * 0.3),
                (x - 7.0, top + long + 7.0),
                (x + w + 7.0, top + long + 7.0),
                (x + w + 7.0, top + long * 0.3),
            ]);
        }
        self.vessel(&c.block, (x, w), (y, long), c.inverted);
        let neck = if c.inverted { y } else { y - 8.0 };
        pen.fill(t.ink).rect(x + w / 2.0 - 4.0, neck, 8.0, 8.0);
        if c.burst {
            pen.stroke(t.high, 3.0).line(&[
                (x + 4.0, top + 8.0),
                (x + w * 0.6, top + long * 0.4),
                (x + w * 0.4, top + long * 0.55),
                (x + w - 4.0, top + long - 8.0),
            ]);
        }
        pen.stroke(t.high, 1.6).line(&zig);
        let left = |x: f64, y: f64| At {
            x,
            y,
            align: "left",
        };
        self.put(words::bursts(), left(x, y_burst - 10.0), false, t.high);
        let label_y = if c.inverted {
            y + 26.0
        } else {
            top + long + if c.bath { 18.0 } else { 12.0 }
        };
        let label = if s.wide {
            words::can_label(c.number, &c.shown)
        } else {
            c.shown.to_string()
        };
        // From the axis on, so that it never runs into the axis's figures.
        let from = s.axis + if s.wide { 5.0 } else { 2.0 };
        self.put(&label, left(from, label_y), false, t.ink);
    }

    /// Where the service hose ends while no can is on it: a little below its other end, as far as the drawing goes.
    fn mouth(&self, l: &Levels) -> f64 {
        let s = self.sheet;
        (s.y(l.service_hose.height) + 12.0).clamp(s.y(1.0), s.y(0.0))
    }
}
