//! What flows in the tubes: dashes that move with the speed of the flow, long and thick for liquid, dots for vapour.
use lowside_present::{palette::Theme, parts::Tubes};
use web_sys::{HtmlCanvasElement, Path2d};

use super::{SIZE, tubes};
use crate::sheet;

/// Travel on the drawing for each m/s, units/s: one factor for every tube, so that speeds compare.
const TRAVEL: f64 = 9.0;

/// How far the dashes of each tube have moved, and the tubes as the browser draws them.
#[derive(Default)]
pub(crate) struct Flows {
    phase: [f64; 8],
    paths: Vec<Path2d>,
}

impl Flows {
    /// Draws one frame; `dt` is the wall time since the last, s, 0 when nothing is to move.
    pub(crate) fn draw(
        &mut self,
        canvas: &HtmlCanvasElement,
        theme: &Theme,
        flows: &Tubes,
        dt: f64,
    ) {
        let Some((pen, w, _)) = sheet::open(canvas) else {
            return;
        };
        let tubes = tubes(flows);
        if self.paths.is_empty() {
            let made: Result<Vec<_>, _> = tubes
                .iter()
                .map(|(path, ..)| Path2d::new_with_path_string(path))
                .collect();
            self.paths = made.unwrap_or_default();
        }
        let scale = w / SIZE.0;
        drop(pen.c.scale(scale, scale));
        pen.c.set_line_cap("round");
        for ((phase, (_, width, tube)), path) in self.phase.iter_mut().zip(tubes).zip(&self.paths) {
            *phase = (*phase + tube.speed * TRAVEL * dt) % 1200.0;
            if tube.flow.abs() < 0.02 {
                continue;
            }
            let wet = tube.liquid > 0.5;
            let pattern: &[f64] = if wet { &[11.0, 9.0] } else { &[0.5, 9.5] };
            let thick = if wet {
                width * 0.4
            } else {
                (width * 0.34).max(2.6)
            };
            pen.stroke(theme.ink, thick)
                .alpha(0.85)
                .dashes(pattern, *phase);
            pen.c.stroke_with_path(path);
            // A wet vapour carries drops: long dashes between the dots.
            if !wet && tube.liquid > 0.05 {
                pen.alpha(0.7).dashes(&[7.0, 33.0], *phase);
                pen.c.stroke_with_path(path);
            }
        }
        pen.dashes(&[], 0.0).alpha(1.0);
    }
}
