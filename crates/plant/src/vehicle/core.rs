//! Tubes and fins of a coil: the geometry from which its conductances follow.

use lowside_units::{Length, Quantity, UnitError};
use serde::{Deserialize, Serialize};

use super::check::{number, within};
use crate::louver::Fins;

/// Flat tubes with several channels each, laid out in passes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TubesSpec {
    /// Tubes in the core.
    pub count: u16,
    /// Channels in a tube.
    pub channels: u16,
    /// Hydraulic diameter of a channel.
    pub bore: Length,
    /// Length of a tube.
    pub length: Length,
    /// Times the refrigerant crosses the core, all passes taken as equally wide.
    pub passes: u16,
}

/// Louvred fins between the tubes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FinsSpec {
    /// Distance from fin to fin.
    pub pitch: Length,
    /// From tube to tube.
    pub height: Length,
    /// Depth of the core.
    pub depth: Length,
    /// Thickness.
    pub thickness: Length,
    /// Distance from louvre to louvre.
    pub louver_pitch: Length,
    /// Length of a louvre.
    pub louver_length: Length,
    /// Angle of the louvres, whole degrees.
    pub louver_angle: u16,
    /// Thickness of a tube (plate); with the height it makes the distance from tube to tube.
    pub tube_thickness: Length,
}

impl TubesSpec {
    /// Cross-section of the channels of one pass, m2: it sets the mass flux.
    pub fn flow_area(&self) -> f64 {
        let d = self.bore.si();
        let channels = f64::from(self.count) * f64::from(self.channels);
        channels / f64::from(self.passes) * core::f64::consts::FRAC_PI_4 * d * d
    }

    /// Inside surface, m2.
    pub fn surface(&self) -> f64 {
        let channels = f64::from(self.count) * f64::from(self.channels);
        channels * core::f64::consts::PI * self.bore.si() * self.length.si()
    }

    /// Volume of the channels without headers, m3.
    pub fn volume(&self) -> f64 {
        self.surface() * self.bore.si() / 4.0
    }

    /// Length of all tubes together, m.
    pub fn metres(&self) -> f64 {
        f64::from(self.count) * self.length.si()
    }

    pub(super) fn check(&self, part: &str) -> Result<(), UnitError> {
        number(&format!("{part}.count"), self.count, 1, 200)?;
        number(&format!("{part}.channels"), self.channels, 1, 60)?;
        within(&format!("{part}.bore"), self.bore, 0.4e-3, 12e-3)?;
        within(&format!("{part}.length"), self.length, 0.05, 1.5)?;
        number(&format!("{part}.passes"), self.passes, 1, 40)
    }
}

impl FinsSpec {
    /// The fins in SI.
    pub fn fins(&self) -> Fins {
        Fins {
            pitch: self.pitch.si(),
            height: self.height.si(),
            depth: self.depth.si(),
            thickness: self.thickness.si(),
            louver_pitch: self.louver_pitch.si(),
            louver_length: self.louver_length.si(),
            louver_angle: f64::from(self.louver_angle),
            tube_pitch: self.height.si() + self.tube_thickness.si(),
        }
    }

    pub(super) fn check(&self, part: &str) -> Result<(), UnitError> {
        let length = |key: &str, value, lo, hi| within(&format!("{part}.{key}"), value, lo, hi);
        length("pitch", self.pitch, 0.5e-3, 4e-3)?;
        length("height", self.height, 3e-3, 20e-3)?;
        length("depth", self.depth, 10e-3, 120e-3)?;
        length("thickness", self.thickness, 0.05e-3, 0.3e-3)?;
        length("louver_pitch", self.louver_pitch, 0.5e-3, 3e-3)?;
        length("louver_length", self.louver_length, 2e-3, 20e-3)?;
        number(&format!("{part}.louver_angle"), self.louver_angle, 8, 40)?;
        length("tube_thickness", self.tube_thickness, 0.5e-3, 10e-3)
    }
}
