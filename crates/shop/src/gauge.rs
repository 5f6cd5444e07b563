//! Pressure gauges and thermometers: what a dial shows of the truth.

use lowside_plant::lag;
use serde::{Deserialize, Serialize};

/// An instrument with a lag of first order, a resolution and a range. SI units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Instrument {
    /// What it shows before rounding.
    value: f64,
    /// The truth when it was looked at last.
    truth: f64,
    /// Time constant, s.
    lag: f64,
    /// Smallest step it can show.
    pub resolution: f64,
    /// Least value it can show.
    pub least: f64,
    /// Greatest value it can show.
    pub most: f64,
}

impl Instrument {
    /// An instrument that starts at `value`.
    pub fn new(value: f64, lag: f64, resolution: f64, least: f64, most: f64) -> Self {
        Self {
            value,
            truth: value,
            lag,
            resolution,
            least,
            most,
        }
    }

    /// Puts the pointer where it has long come to rest.
    pub fn rest_at(&mut self, truth: f64) {
        (self.value, self.truth) = (truth, truth);
    }

    /// Lets `dt` seconds pass, the truth going to `truth` meanwhile.
    pub fn follow(&mut self, truth: f64, dt: f64) {
        self.value = lag::follow(self.value, self.truth, truth, self.lag, dt);
        self.truth = truth;
    }

    /// The truth lies above what it can show.
    pub fn over_range(&self) -> bool {
        self.value > self.most
    }

    /// The pointer: within the range, not rounded.
    pub fn pointer(&self) -> f64 {
        self.value.clamp(self.least, self.most)
    }

    /// The reading: the pointer rounded to the resolution.
    pub fn reading(&self) -> f64 {
        ((self.pointer() / self.resolution).round() * self.resolution).clamp(self.least, self.most)
    }
}

/// Compound gauge on the low hose, Pa gauge: full vacuum to 1 720 kPa (250 psi, the retarded end of a common dial), to
/// 2 kPa, a quarter second behind.
pub fn compound() -> Instrument {
    Instrument::new(0.0, 0.25, 2e3, -101_325.0, 1.72e6)
}

/// High-pressure gauge on the high hose, Pa gauge: from the pin at zero, vacuum or not, to 3 500 kPa, to 10 kPa.
pub fn high_pressure() -> Instrument {
    Instrument::new(0.0, 0.25, 10e3, 0.0, 3.5e6)
}

/// Thermometer in the air stream, K: to 0.1 K, six seconds behind.
pub fn vent_thermometer(t: f64) -> Instrument {
    Instrument::new(t, 6.0, 0.1, 223.15, 423.15)
}

/// Scale under the can, kg: to 2 g, half a second behind.
pub fn scale() -> Instrument {
    Instrument::new(0.0, 0.5, 2e-3, -5.0, 50.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gauge_lags_then_arrives_and_rounds() {
        let mut g = compound();
        g.follow(300e3, 0.25);
        assert!(
            g.pointer() > 100e3 && g.pointer() < 200e3,
            "half way after one time constant"
        );
        for _ in 0..200 {
            g.follow(301.2e3, 0.1);
        }
        assert!(
            (g.reading() - 302e3).abs() < 1.0,
            "rounded to 2 kPa: {}",
            g.reading()
        );
        g.follow(9e9, 100.0);
        assert!(
            (g.pointer() - 1.72e6).abs() < 1.0,
            "the pointer stops at its pin"
        );
    }
}
