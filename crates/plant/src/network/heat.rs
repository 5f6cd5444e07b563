//! Heat into a volume, implicit in its temperature.

use crate::state::State;

/// Heat that a volume takes up in a step: `drive - hold T`, with its temperature T (K) at the end of the step.
///
/// A wall of temperature `T_w` behind a conductance `K` for `dt` seconds is `drive = K dt T_w`, `hold = K dt`. So a settled volume takes the
/// same heat whatever the length of the step, and one with little in it comes up to the wall and not past it.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Heat {
    /// What it would take at 0 K, J.
    pub drive: f64,
    /// What it takes less for each kelvin, J/K.
    pub hold: f64,
}

impl Heat {
    /// Heat that comes whatever the temperature, J.
    pub fn fixed(joules: f64) -> Self {
        Self {
            drive: joules,
            hold: 0.0,
        }
    }

    /// Adds heat that comes whatever the temperature, J.
    pub fn add(&mut self, joules: f64) {
        self.drive += joules;
    }

    /// Adds the heat of a body at `t` (K) behind `hold` J/K.
    pub fn touch(&mut self, hold: f64, t: f64) {
        self.drive += hold * t;
        self.hold += hold;
    }

    /// Returns how a share of this heat answers in a volume whose state was `s` as the step began.
    pub(super) fn answer(self, s: &State, share: f64) -> Answer {
        let per_joule = if self.hold > 0.0 && s.heat_capacity > 0.0 {
            share * self.hold / s.heat_capacity
        } else {
            0.0
        };
        Answer {
            at_rest: share * (self.drive - self.hold * s.t) / (1.0 + per_joule),
            gives_way: per_joule / (1.0 + per_joule),
        }
    }
}

/// Heat of a step as a line of what the flows bring.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Answer {
    /// Heat were nothing to flow, J.
    pub at_rest: f64,
    /// Share by which it falls of what flows bring above what the volume's own temperature asks for, 0 to 1.
    pub gives_way: f64,
}
