//! Frost on the fins: its thickness, what it keeps of the heat and of the air.

/// Density of frost, kg/m3 (650 exp(0.277 T) for surfaces of -10 to 0 degC after Hayashi et al. 1977 gives 160-650; from memory).
pub const DENSITY: f64 = 250.0;
/// Conductivity of frost of that density, W/(m K): 0.001202 rho^0.963 (Yonko & Sepsy 1967, from memory).
pub const CONDUCTIVITY: f64 = 0.245;
/// Freezing point, K.
pub const T_FREEZE: f64 = 273.15;
/// Share of the blower's pressure that a clean coil takes; the rest goes into ducts, doors and vents (own figure, 0.2-0.5).
const COIL_SHARE: f64 = 0.3;
/// Share of a passage that frost leaves open for ever: tanks, edges, seams (own figure).
const LEAST_OPEN: f64 = 0.04;

/// Fins of one cell on which frost can grow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bed {
    /// Surface, m2.
    pub area: f64,
    /// Clear distance between two fins, m.
    pub gap: f64,
}

impl Bed {
    /// Thickness of `mass` kg of frost, m.
    pub fn thickness(&self, mass: f64) -> f64 {
        mass / (DENSITY * self.area)
    }

    /// Share of the passage that `mass` leaves open, 0.04 to 1: both of its walls grow.
    pub fn open(&self, mass: f64) -> f64 {
        (1.0 - 2.0 * self.thickness(mass) / self.gap).max(LEAST_OPEN)
    }

    /// Resistance of `mass` to heat on its way to the fin, K/W.
    pub fn resistance(&self, mass: f64) -> f64 {
        self.thickness(mass) / (CONDUCTIVITY * self.area)
    }
}

/// Air flow over that through a clean coil, when a share `open` of its passages is left.
///
/// The coil's loss grows with the square of the velocity in what is left; ducts lose with the square of the flow, and the blower
/// gives what both ask: flow = (1 + r (1/open^2 - 1))^(-1/2), r the coil's share of the loss when clean.
pub fn air_left(open: f64) -> f64 {
    1.0 / (1.0 + COIL_SHARE * (1.0 / (open * open) - 1.0)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn frost_insulates_and_blocks() {
        let bed = Bed {
            area: 0.6,
            gap: 1.8e-3,
        };
        // 60 g on 0.6 m2: 0.4 mm on each face of a gap of 1.8 mm.
        assert!((bed.thickness(0.06) - 0.4e-3).abs() < 1e-9);
        assert!((bed.open(0.06) - 5.0 / 9.0).abs() < 1e-9);
        assert!((bed.resistance(0.06) - 0.4e-3 / (0.245 * 0.6)).abs() < 1e-9);
        assert!((air_left(1.0) - 1.0).abs() < 1e-15);
        assert!(air_left(bed.open(0.06)) < 0.8);
        assert!(air_left(bed.open(9.0)) < 0.1);
    }
}
