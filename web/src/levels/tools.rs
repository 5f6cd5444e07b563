//! What hangs on the service hose and is no can: a pit, a lift, a cylinder, a step.
use lowside_present::levels::{Hung, Levels, Tool};

use super::{Brush, LINE, names::At};
use crate::words;

/// How far the hose's end at a tool lies above a vessel's line, px.
const NECK: f64 = 8.0;
/// Width of the recovery machine's lift, px.
const LIFT: f64 = 24.0;
/// From one chevron of it to the next, px.
const CHEVRONS: f64 = 14.0;
/// From one line of a name to the next, px.
const ROW: f64 = 14.0;

impl Brush<'_> {
    /// Where the service hose ends at a tool.
    pub(super) fn tool_mouth(&self, l: &Levels, tool: Tool, hung: &Hung) -> (f64, f64) {
        let s = self.sheet;
        let (x, w) = s.vessel;
        let y = s.y(hung.block.height);
        match tool {
            Tool::Cylinder if hung.inverted => (x + w / 2.0, y + NECK),
            Tool::Cylinder => (x + w / 2.0, y - NECK),
            Tool::Machine => (x + w + LIFT, s.y(l.service_hose.height)),
            Tool::Nitrogen => (x + w, y),
            Tool::Pump => (x + w * 0.5, s.floor - 6.0),
        }
    }

    /// Draws what hangs there, with its name and its figure.
    pub(super) fn tool(&self, l: &Levels) {
        let (Some(tool), Some(hung)) = (l.tool, &l.hung) else {
            return;
        };
        match tool {
            Tool::Pump => self.pit(hung),
            Tool::Cylinder => self.cylinder(hung, true),
            Tool::Machine => {
                self.cylinder(hung, false);
                self.machine(l, hung);
            }
            Tool::Nitrogen => self.step(hung),
        }
        self.tool_name(tool, hung);
    }

    /// The name in one or two lines, and the figure under it.
    fn tool_name(&self, tool: Tool, hung: &Hung) {
        let (s, t) = (self.sheet, self.theme);
        let name = words::hangs(Some(tool))[0];
        // Broken at the space next to the middle.
        let half = name.len() / 2;
        let cut = name
            .char_indices()
            .filter(|(_, c)| *c == ' ')
            .min_by_key(|(k, _)| k.abs_diff(half))
            .map_or(name.len(), |(k, _)| k);
        let (first, rest) = name.split_at(cut);
        let figure = hung.shown.to_string();
        let rows = [first, rest.trim_start(), figure.as_str()];
        let rows = rows.iter().filter(|row| !row.is_empty());
        let tall = ROW * (rows.clone().count() as f64 - 1.0);
        let y = match tool {
            Tool::Pump => s.h - tall - 8.0,
            Tool::Nitrogen => s.y(hung.block.height) + 14.0,
            Tool::Cylinder | Tool::Machine => {
                let (top, long) = self.hung(&hung.block, hung.inverted);
                if top + long + tall + 20.0 > s.h {
                    top - tall - 24.0
                } else {
                    top + long + 12.0
                }
            }
        };
        let x = s.axis + if s.wide { 6.0 } else { 2.0 };
        let mut y = y;
        for row in rows {
            let held = *row == figure;
            let colour = if held { t.ink } else { t.soft };
            let align = "left";
            y = self.put(row, At { x, y, align }, held, colour).unwrap_or(y) + ROW;
        }
    }

    /// The vacuum pump: a pit under the floor, into which everything falls; its valve is the lid.
    fn pit(&self, hung: &Hung) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (x, w) = s.vessel;
        let (top, bottom) = (s.floor, s.h - 3.0 * ROW - 6.0);
        let deep = (bottom - top).max(20.0);
        pen.fill(t.rule).rect(x, top, w, deep);
        pen.stroke(t.ink, 2.2).dashes(&[], 0.0);
        pen.line(&[
            (x - 10.0, top),
            (x, top),
            (x, top + deep),
            (x + w, top + deep),
            (x + w, top),
            (x + w + 10.0, top),
        ]);
        let r = (deep * 0.36).min(w * 0.38);
        let (cx, cy) = (x + w / 2.0, top + deep - r - 5.0);
        pen.fill(t.sheet).stroke(t.ink, 2.0).circle(cx, cy, r);
        pen.c.fill();
        pen.c.stroke();
        // The rotor sits off the middle and turns with its two vanes.
        let turn = if hung.runs { self.drift * 9.0 } else { 0.6 };
        let (dx, dy) = (
            js_sys::Math::cos(turn) * r * 0.8,
            js_sys::Math::sin(turn) * r * 0.8,
        );
        pen.stroke(if hung.runs { t.ink } else { t.edge }, 2.4)
            .line(&[(cx - dx, cy - dy), (cx + dx, cy + dy)]);
        pen.fill(t.soft).circle(cx, cy, r * 0.42);
        pen.c.fill();
        // The hose's end.
        pen.c.set_line_join("round");
        pen.stroke(t.service, 7.0).line(&[
            (cx + 6.0, top - 6.0),
            (cx, top - 6.0),
            (cx, top + 14.0),
        ]);
        pen.stroke(t.ink, 4.0);
        if hung.open {
            pen.line(&[(x, top), (x - 5.0, top - w * 0.5)]);
        } else {
            pen.line(&[(x - 4.0, top), (x + w + 4.0, top)]);
        }
    }

    /// A cylinder at its own pressure: with the marks of the one for charging, or with its filling limit.
    fn cylinder(&self, hung: &Hung, marks: bool) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (x, w) = s.vessel;
        let y = s.y(hung.block.height);
        let (top, long) = self.hung(&hung.block, hung.inverted);
        self.vessel(&hung.block, (x, w), (y, long), hung.inverted);
        pen.stroke(t.ink, LINE)
            .line(&[(x - 2.0, y), (x + w + 2.0, y)]);
        if marks {
            pen.stroke(t.ink, 1.2);
            for k in 1..10 {
                let at = top + long * f64::from(k) / 10.0;
                pen.line(&[
                    (x + w - if k % 5 == 0 { 14.0 } else { 8.0 }, at),
                    (x + w, at),
                ]);
            }
            let neck = if hung.inverted { y } else { y - NECK };
            pen.fill(t.ink).rect(x + w / 2.0 - 4.0, neck, 8.0, NECK);
        }
        if let Some(limit) = hung.limit {
            let at = top + long * (1.0 - limit);
            pen.stroke(t.high, 2.0)
                .dashes(&[6.0, 3.0], 0.0)
                .line(&[(x - 6.0, at), (x + w + 6.0, at)]);
            pen.dashes(&[], 0.0);
            let align = "center";
            let place = At {
                x: x + w / 2.0,
                y: at - 9.0,
                align,
            };
            self.put(words::limit(), place, true, t.high);
        }
    }

    /// The recovery machine: a lift from the service hose to its cylinder's line.
    fn machine(&self, l: &Levels, hung: &Hung) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let x = s.vessel.0 + s.vessel.1 + 4.0;
        let (cylinder, hose) = (s.y(hung.block.height), s.y(l.service_hose.height));
        let (top, bottom) = (cylinder.min(hose - 34.0), hose.max(cylinder) + 8.0);
        let w = LIFT - 6.0;
        pen.fill(t.panel)
            .stroke(t.ink, 1.8)
            .dashes(&[], 0.0)
            .rounded(x, top, w, bottom - top, 3.0);
        pen.c.fill();
        pen.c.stroke();
        pen.stroke(if hung.runs { t.ink } else { t.edge }, 2.2);
        let moved = if hung.runs { self.drift * 26.0 } else { 0.0 };
        let mut y = bottom - 4.0 - moved.rem_euclid(CHEVRONS);
        while y > top + 8.0 {
            pen.line(&[(x + 4.0, y), (x + w / 2.0, y - 5.0), (x + w - 4.0, y)]);
            y -= CHEVRONS;
        }
        pen.stroke(t.service, 5.0)
            .line(&[(s.vessel.0 + s.vessel.1, cylinder), (x, cylinder)]);
    }

    /// Nitrogen: the regulator lets it down from the bottle, which stands far above the sheet, to what is set.
    fn step(&self, hung: &Hung) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let (x, w) = s.vessel;
        let (y, tread) = (s.y(hung.block.height), x + w * 0.55);
        pen.fill(t.rule).alpha(0.8).rect(x, 0.0, tread - x, y);
        pen.alpha(1.0);
        pen.fade(t.sheet, (0.0, 1.0), (40.0, 0.0))
            .rect(x, 0.0, tread - x, 40.0);
        pen.stroke(t.ink, 2.2).dashes(&[], 0.0);
        pen.line(&[(x, 30.0), (x, y)]);
        pen.line(&[(tread, 30.0), (tread, y)]);
        let mid = f64::midpoint(x, tread);
        pen.line(&[(mid - 6.0, 20.0), (mid, 10.0), (mid + 6.0, 20.0)]);
        pen.stroke(t.ink, LINE).line(&[(x - 2.0, y), (x + w, y)]);
        // The regulator with its knob.
        pen.fill(t.sheet)
            .stroke(t.ink, 2.0)
            .circle(tread, y - 13.0, 9.0);
        pen.c.fill();
        pen.c.stroke();
        pen.line(&[(tread, y - 13.0), (tread + 5.0, y - 18.0)]);
        if !hung.open {
            pen.stroke(t.service, 3.0)
                .line(&[(x + w - 3.0, y - 8.0), (x + w - 3.0, y + 8.0)]);
        }
    }
}
