//! What is fitted in the loop: the orifice tube in its seat, and the parts that can be taken out.

use serde::{Deserialize, Serialize};

use crate::{flow::k_from_hole, network::Law, orifice::Orifice, vehicle::OrificeSpec};
use lowside_units::Quantity;

/// Bore of the liquid line where the tube sits, m2 (8 mm; common practice): what is open when there is no tube.
const LINE: f64 = 50e-6;
/// Gap past a tube without its O-rings, m2 (own figure: about as much again as the tube passes).
const GAP: f64 = 2.0e-6;
/// Share of its flow that a tube turned round still passes: its short outlet screen now faces the flow (trade: a few percent).
const TURNED: f64 = 0.95;
/// Discharge coefficient of both (common practice).
const CD: f64 = 0.7;

/// The orifice tube as it sits.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Seat {
    /// There is one.
    pub fitted: bool,
    /// Bore, m.
    pub bore: f64,
    /// Length, m.
    pub length: f64,
    /// It sits the wrong way round.
    pub turned: bool,
    /// Its O-rings seal it in the line.
    pub sealed: bool,
}

impl Seat {
    /// The vehicle's own tube, sound and the right way round.
    pub fn of(spec: &OrificeSpec) -> Self {
        Self {
            fitted: true,
            bore: spec.bore.si(),
            length: spec.length.si(),
            turned: false,
            sealed: true,
        }
    }

    /// The tube's passage, given the share of it that is clean.
    pub fn tube(&self, clean: f64) -> Orifice {
        let turned = if self.turned { TURNED } else { 1.0 };
        Orifice {
            bore: self.bore,
            length: self.length,
            open: if self.fitted { clean * turned } else { 0.0 },
        }
    }

    /// Law of the way past the tube.
    pub fn bypass(&self) -> Law {
        if self.fitted {
            Law::Passage(k_from_hole(CD, if self.sealed { 0.0 } else { GAP }))
        } else {
            Law::Line(k_from_hole(CD, LINE))
        }
    }
}

/// Parts without which the loop does not do what it does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fitted {
    /// The compressor is in.
    pub compressor: bool,
    /// The accumulator with its desiccant is in.
    pub accumulator: bool,
}
