//! Compressor oils: density, heat capacity, viscosity.
//!
//! ISO 3448 fixes the grade (46, 100, 150 mm2/s at 40 degC, 10 % either way). Everything else is recalled from makers'
//! data sheets of the class, not read from one: standing "from memory", with the range such sheets spread over.

use serde::{Deserialize, Serialize};

mod mixture;
mod solution;

pub use mixture::Oils;

pub use solution::{MOST, NU_LIQUID, Solution, TOP, activity, miscible};

/// A compressor oil.
#[derive(
    Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub enum Oil {
    /// Polyalkylene glycol, ISO VG 46 (R-134a).
    #[default]
    #[serde(rename = "PAG 46")]
    Pag46,
    /// Polyalkylene glycol, ISO VG 100 (R-134a).
    #[serde(rename = "PAG 100")]
    Pag100,
    /// Polyalkylene glycol, ISO VG 150 (R-134a).
    #[serde(rename = "PAG 150")]
    Pag150,
    /// Naphthenic mineral oil, ISO VG 100.
    #[serde(rename = "mineral")]
    Mineral,
    /// Polyol ester, ISO VG 100 (retrofit).
    #[serde(rename = "ester")]
    Ester,
}

/// What is known of one oil.
struct Data {
    /// Density at 15 degC, kg/m3.
    rho_15: f64,
    /// Volume expansion, 1/K.
    expansion: f64,
    /// Heat capacity at 20 degC, J/(kg K), and its rise, J/(kg K2).
    cp_20: f64,
    cp_rise: f64,
    /// Kinematic viscosity at 40 and 100 degC, mm2/s.
    nu_40: f64,
    nu_100: f64,
}

impl Oil {
    /// Every oil, in order.
    pub const ALL: [Self; 5] = [
        Self::Pag46,
        Self::Pag100,
        Self::Pag150,
        Self::Mineral,
        Self::Ester,
    ];

    /// The name it is written by.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pag46 => "PAG 46",
            Self::Pag100 => "PAG 100",
            Self::Pag150 => "PAG 150",
            Self::Mineral => "mineral",
            Self::Ester => "ester",
        }
    }

    /// From memory. Ranges over the class: density 2 %, heat capacity 8 %, viscosity at 100 degC 15 %.
    const fn data(self) -> Data {
        let pag = Data {
            rho_15: 995.0,
            expansion: 7.8e-4,
            cp_20: 1_900.0,
            cp_rise: 3.0,
            nu_40: 46.0,
            nu_100: 9.8,
        };
        match self {
            Self::Pag46 => pag,
            Self::Pag100 => Data {
                rho_15: 1_000.0,
                nu_40: 100.0,
                nu_100: 19.5,
                ..pag
            },
            Self::Pag150 => Data {
                rho_15: 1_000.0,
                nu_40: 150.0,
                nu_100: 27.0,
                ..pag
            },
            Self::Mineral => Data {
                rho_15: 915.0,
                expansion: 7.0e-4,
                cp_20: 1_850.0,
                cp_rise: 3.7,
                nu_40: 100.0,
                nu_100: 8.5,
            },
            Self::Ester => Data {
                rho_15: 975.0,
                expansion: 7.5e-4,
                cp_20: 1_900.0,
                cp_rise: 2.6,
                nu_40: 100.0,
                nu_100: 11.4,
            },
        }
    }

    /// Water the oil holds in saturated air, kg/kg. PAG takes up 2.3 to 5.6 % and mineral oil 0.005 % (a maker's service
    /// text); ester about 0.2 % (from memory).
    #[must_use]
    pub const fn water_at_saturation(self) -> f64 {
        match self {
            Self::Pag46 | Self::Pag100 | Self::Pag150 => 0.04,
            Self::Mineral => 5e-5,
            Self::Ester => 2e-3,
        }
    }

    /// Density, kg/m3: rho_15 (1 - b (T - 288.15 K)). From memory, 2 %. Held to 220..430 K.
    #[must_use]
    pub fn density(self, t_k: f64) -> f64 {
        let d = self.data();
        d.rho_15 * (1.0 - d.expansion * (t_k.clamp(220.0, 430.0) - 288.15))
    }

    /// Heat capacity, J/(kg K): linear in temperature. From memory, 8 %. Held to 220..430 K.
    #[must_use]
    pub fn cp(self, t_k: f64) -> f64 {
        let d = self.data();
        d.cp_20 + d.cp_rise * (t_k.clamp(220.0, 430.0) - 293.15)
    }

    /// Kinematic viscosity of the pure oil, m2/s: log log(nu + 0.7) is linear in log T (ASTM D341), through the grade at
    /// 40 degC (ISO 3448) and the value at 100 degC (from memory, 15 %). Held to 243..430 K.
    #[must_use]
    pub fn kinematic_viscosity(self, t_k: f64) -> f64 {
        let d = self.data();
        let walther = |nu: f64| libm::log(libm::log(nu + 0.7));
        let (a, b) = (walther(d.nu_40), walther(d.nu_100));
        let (la, lb, l) = (
            libm::log(313.15),
            libm::log(373.15),
            libm::log(t_k.clamp(243.0, 430.0)),
        );
        (libm::exp(libm::exp(a + (b - a) * (l - la) / (lb - la))) - 0.7) * 1e-6
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 3448: kinematic viscosity at 40 degC within 10 % of the grade.
    #[test]
    fn grades_are_iso_3448() {
        for (oil, grade) in [
            (Oil::Pag46, 46.0),
            (Oil::Pag100, 100.0),
            (Oil::Pag150, 150.0),
            (Oil::Mineral, 100.0),
            (Oil::Ester, 100.0),
        ] {
            let nu = oil.kinematic_viscosity(313.15) * 1e6;
            assert!((nu / grade - 1.0).abs() < 0.1, "{}: {nu}", oil.name());
        }
    }

    /// From memory: every such oil is lighter than 1.05 and heavier than 0.8 kg/L in service, thins by heat, and holds
    /// 1.6 to 2.4 kJ/(kg K).
    #[test]
    fn figures_stay_within_the_class() {
        for oil in Oil::ALL {
            let mut thicker = f64::INFINITY;
            for t in (230..=420).step_by(10).map(f64::from) {
                assert!((800.0..1_050.0).contains(&oil.density(t)), "{}", oil.name());
                assert!(
                    (1_600.0..2_400.0).contains(&oil.cp(t)),
                    "{} {t} {}",
                    oil.name(),
                    oil.cp(t)
                );
                let nu = oil.kinematic_viscosity(t);
                assert!(nu < thicker || t < 243.0, "{}", oil.name());
                thicker = nu;
            }
        }
    }
}
