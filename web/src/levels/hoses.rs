//! What the shop has connected: hoses, and the can.
use lowside_present::{
    levels::{FlowMark, Levels},
    palette::Rgb,
};

use super::{Brush, REST, STREAMS, Side};
use crate::words;

/// From one line of a name to the next, px.
const LINE: f64 = 13.0;
/// Half the height of the box that stands for a tool, px.
const TOOL: f64 = 13.0;

impl Brush<'_> {
    pub(super) fn hoses(&self, l: &Levels, phase: &[f64; STREAMS]) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let ride = 4.0;
        let y_service = s.y(l.service_hose.height);
        let y_low = s.y(l.low_hose.height) + ride;
        let y_high = s.y(l.high_hose.height) - ride;
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
        let high_end = (s.shaft, s.y(l.discharge.height) - s.high_h * 0.4);
        let low_end = (s.start, s.y(l.accumulator.height) + 10.0);
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
            let x = s.can.0 + s.can.1 / 2.0;
            let mouth = if c.inverted { y + 8.0 } else { y - 8.0 };
            run(
                (x, mouth),
                (s.service.0, y_service),
                t.service,
                l.tap,
                phase[5],
            );
        } else {
            let (stream, phase) = if l.tool.is_some() {
                (l.tap, phase[5])
            } else {
                (l.hose_end, -phase[10])
            };
            let end = (s.can.0 + s.can.1, self.mouth(l));
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

    pub(super) fn can(&self, l: &Levels) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (x, w) = s.can;
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
            return self.no_can(l);
        };
        let y = s.y(c.block.height);
        let (top, side) = if c.inverted {
            (y - s.can_h, Side::Above)
        } else {
            (y, Side::Below)
        };
        if c.bath {
            pen.alpha(0.3).fill(t.heat(45.0)).rounded(
                x - 7.0,
                top + s.can_h * 0.3,
                w + 14.0,
                s.can_h * 0.7 + 7.0,
                5.0,
            );
            pen.c.fill();
            pen.alpha(1.0).stroke(t.edge, 1.4).line(&[
                (x - 7.0, top + s.can_h * 0.3),
                (x - 7.0, top + s.can_h + 7.0),
                (x + w + 7.0, top + s.can_h + 7.0),
                (x + w + 7.0, top + s.can_h * 0.3),
            ]);
        }
        pen.c.save();
        pen.rounded(x, top, w, s.can_h, 7.0);
        pen.c.clip();
        self.block(&c.block, x, w, s.can_h, side);
        pen.c.restore();
        pen.stroke(t.ink, 1.8).rounded(x, top, w, s.can_h, 7.0);
        pen.c.stroke();
        let neck = if c.inverted { y } else { y - 8.0 };
        pen.fill(t.ink).rect(x + w / 2.0 - 4.0, neck, 8.0, 8.0);
        if c.burst {
            pen.stroke(t.high, 3.0).line(&[
                (x + 4.0, top + 8.0),
                (x + w * 0.6, top + s.can_h * 0.4),
                (x + w * 0.4, top + s.can_h * 0.55),
                (x + w - 4.0, top + s.can_h - 8.0),
            ]);
        }
        pen.stroke(t.high, 1.6).line(&zig);
        self.halo(words::bursts(), x, y_burst - 10.0, "left", t.high);
        let label_y = if c.inverted {
            y + 26.0
        } else {
            top + s.can_h + if c.bath { 18.0 } else { 12.0 }
        };
        let label = if s.wide {
            words::can_label(c.number, &c.shown)
        } else {
            c.shown.to_string()
        };
        // From the axis on, so that it never runs into the axis's figures.
        let from = s.axis + if s.wide { 5.0 } else { 2.0 };
        self.halo(&label, from, self.off(l, label_y, 9.0), "left", t.ink);
    }

    /// Where the service hose ends while no can is on it: a little below its other end, as far as the drawing goes.
    fn mouth(&self, l: &Levels) -> f64 {
        let s = self.sheet;
        (s.y(l.service_hose.height) + 12.0).clamp(s.y(1.0), s.y(0.0))
    }

    /// A place for a can; or what hangs there instead, at the hose's end, since only a can is drawn at its own pressure.
    fn no_can(&self, l: &Levels) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (x, w) = s.can;
        let lines: Vec<&str> = words::hangs(l.tool)[0].split(' ').collect();
        let height = LINE * (lines.len() as f64 - 1.0);
        let (first, from, align, colour) = if l.tool.is_some() {
            let y = self.mouth(l);
            pen.fill(t.sheet).rounded(x, y - TOOL, w, 2.0 * TOOL, 4.0);
            pen.c.fill();
            pen.stroke(t.ink, 1.8).dashes(&[], 0.0);
            pen.c.stroke();
            // Below, where there is room.
            let first = if y + TOOL + LINE + height > s.y(0.0) {
                self.off(l, y - TOOL - 9.0, -9.0) - height
            } else {
                self.off(l, y + TOOL + LINE, 9.0)
            };
            (
                first,
                s.axis + if s.wide { 5.0 } else { 2.0 },
                "left",
                t.ink,
            )
        } else {
            let y = s.y(0.6);
            pen.stroke(t.edge, 1.2)
                .dashes(&[4.0, 4.0], 0.0)
                .rounded(x, y, w, s.can_h, 7.0);
            pen.c.stroke();
            pen.dashes(&[], 0.0);
            (y + (s.can_h - height) / 2.0, x + w / 2.0, "center", t.soft)
        };
        for (k, line) in lines.into_iter().enumerate() {
            self.halo(line, from, first + LINE * k as f64, align, colour);
        }
    }
}
