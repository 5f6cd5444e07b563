//! Pressure: absolute and gauge, two types so that they cannot be mixed up.

use crate::factor::{INCH_OF_MERCURY_PA, MICRON_PA, PSI_PA, STANDARD_ATMOSPHERE_PA, TORR_PA};
use crate::quantity::{allowed, quantity};
use crate::{Quantity, UnitError};

quantity! {
    /// Absolute pressure, Pa: above perfect vacuum. `inHg` and `micron` here are absolute readings.
    AbsolutePressure, "absolute pressure", lowest 0.0, bare false {
        from_pa, pa, "pascals absolute", ["Pa", "Paa"], 1.0, 1.0, 0.0;
        from_kpa, kpa, "kilopascals absolute", ["kPa", "kPaa"], 1e3, 1.0, 0.0;
        from_mpa, mpa, "megapascals absolute", ["MPa", "MPaa"], 1e6, 1.0, 0.0;
        from_bar, bar, "bars absolute", ["bar", "bara"], 1e5, 1.0, 0.0;
        from_mbar, mbar, "millibars absolute", ["mbar", "hPa"], 100.0, 1.0, 0.0;
        from_psi, psi, "pounds per square inch absolute", ["psia", "PSIA"], PSI_PA, 1.0, 0.0;
        from_in_hg, in_hg, "inches of mercury absolute", ["inHg", "inHga"], INCH_OF_MERCURY_PA, 1.0, 0.0;
        from_torr, torr, "torr", ["torr", "Torr"], TORR_PA, 1.0, 0.0;
        from_micron, micron, "microns of mercury absolute", ["micron", "microns"], MICRON_PA, 1.0, 0.0;
        from_atm, atm, "standard atmospheres", ["atm"], STANDARD_ATMOSPHERE_PA, 1.0, 0.0;
    }
}

quantity! {
    /// Gauge pressure, Pa: above the surrounding atmosphere, negative in vacuum.
    ///
    /// `inHgvac` is the reading of the vacuum half of a compound gauge: inches of mercury below the atmosphere, counted
    /// positive. Plain `inHg` is refused here because it is read both ways.
    GaugePressure, "gauge pressure", lowest f64::NEG_INFINITY, bare false {
        from_pa, pa, "pascals gauge", ["Pag"], 1.0, 1.0, 0.0;
        from_kpa, kpa, "kilopascals gauge", ["kPag"], 1e3, 1.0, 0.0;
        from_mpa, mpa, "megapascals gauge", ["MPag"], 1e6, 1.0, 0.0;
        from_bar, bar, "bars gauge", ["barg"], 1e5, 1.0, 0.0;
        from_psi, psi, "pounds per square inch gauge", ["psig", "PSIG"], PSI_PA, 1.0, 0.0;
        from_in_hg_vacuum, in_hg_vacuum, "inches of mercury below the atmosphere",
            ["inHgvac"], -INCH_OF_MERCURY_PA, 1.0, 0.0;
    }
}

quantity! {
    /// Difference of two pressures, Pa: neither absolute nor gauge.
    PressureDifference, "pressure difference", lowest f64::NEG_INFINITY, bare false {
        from_pa, pa, "pascals", ["Pa"], 1.0, 1.0, 0.0;
        from_kpa, kpa, "kilopascals", ["kPa"], 1e3, 1.0, 0.0;
        from_bar, bar, "bars", ["bar"], 1e5, 1.0, 0.0;
        from_psi, psi, "pounds per square inch", ["psi", "PSI"], PSI_PA, 1.0, 0.0;
    }
}

impl AbsolutePressure {
    /// The standard atmosphere, 101 325 Pa.
    pub const STANDARD_ATMOSPHERE: Self = Self::from_pa(STANDARD_ATMOSPHERE_PA);

    /// What a gauge standing in `atmosphere` shows.
    #[must_use]
    pub const fn gauge(self, atmosphere: Self) -> GaugePressure {
        GaugePressure::from_pa(self.pa() - atmosphere.pa())
    }
}

impl GaugePressure {
    /// The absolute pressure behind a reading taken in `atmosphere`.
    ///
    /// Below perfect vacuum there is nothing: the result is held at zero.
    #[must_use]
    pub const fn absolute(self, atmosphere: AbsolutePressure) -> AbsolutePressure {
        AbsolutePressure::from_pa((self.pa() + atmosphere.pa()).max(0.0))
    }
}

/// A pressure as written by a person, absolute or gauge by its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pressure {
    /// Above perfect vacuum.
    Absolute(AbsolutePressure),
    /// Above the atmosphere.
    Gauge(GaugePressure),
}

impl Pressure {
    /// The absolute pressure in `atmosphere`.
    ///
    /// # Errors
    /// [`UnitError::BelowLeast`] for a gauge reading below perfect vacuum.
    pub fn absolute(self, atmosphere: AbsolutePressure) -> Result<AbsolutePressure, UnitError> {
        match self {
            Self::Absolute(p) => Ok(p),
            Self::Gauge(p) => absolute_of(&p.to_string(), p, atmosphere),
        }
    }

    /// As [`Pressure::parse_or_si`], made absolute in `atmosphere`.
    ///
    /// # Errors
    /// [`UnitError`] naming the text; also for a gauge reading below perfect vacuum.
    pub fn parse_absolute(
        text: &str,
        atmosphere: AbsolutePressure,
    ) -> Result<AbsolutePressure, UnitError> {
        match Self::parse_or_si(text)? {
            Self::Absolute(p) => Ok(p),
            Self::Gauge(p) => absolute_of(text, p, atmosphere),
        }
    }

    /// Reads `22 psig`, `250kPag`, `29 inHgvac`, `500 micron`, `3 bar` (absolute); a bare number is Pa absolute.
    ///
    /// # Errors
    /// [`UnitError`] naming the text and all units of both kinds.
    pub fn parse_or_si(text: &str) -> Result<Self, UnitError> {
        match GaugePressure::parse(text) {
            Ok(p) => Ok(Self::Gauge(p)),
            Err(_) => AbsolutePressure::parse_or_si(text)
                .map(Self::Absolute)
                .map_err(|e| both_kinds(text, e)),
        }
    }
}

fn absolute_of(
    text: &str,
    p: GaugePressure,
    atmosphere: AbsolutePressure,
) -> Result<AbsolutePressure, UnitError> {
    if p.pa() >= -atmosphere.pa() {
        return Ok(p.absolute(atmosphere));
    }
    Err(UnitError::BelowLeast {
        text: crate::error::shortened(text),
        quantity: GaugePressure::NAME,
        lowest: GaugePressure::from_pa(-atmosphere.pa()).to_string(),
    })
}

/// The same error with the units of both kinds.
fn both_kinds(text: &str, error: UnitError) -> UnitError {
    let kinds = || {
        format!(
            "{}, {}",
            allowed(AbsolutePressure::UNITS),
            allowed(GaugePressure::UNITS)
        )
    };
    match error {
        UnitError::UnknownUnit { unit, .. } => UnitError::UnknownUnit {
            text: crate::error::shortened(text),
            unit,
            quantity: "pressure",
            allowed: kinds(),
        },
        UnitError::NotANumber { text, .. } => UnitError::NotANumber {
            text,
            quantity: "pressure",
            allowed: kinds(),
        },
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gauge_and_absolute_differ_by_the_atmosphere() {
        let denver = AbsolutePressure::from_kpa(84.0);
        let p = GaugePressure::parse("250kPag").unwrap();
        assert!((p.absolute(denver).kpa() - 334.0).abs() < 1e-9);
        assert!((p.absolute(denver).gauge(denver).kpa() - 250.0).abs() < 1e-9);
    }

    #[test]
    fn inches_of_mercury_are_never_guessed() {
        assert!(GaugePressure::parse("29 inHg").is_err());
        let vac = GaugePressure::parse("29 inHg vac").unwrap();
        assert_eq!(vac, GaugePressure::parse("29 inHgvac").unwrap());
        assert!((vac.pa() + 29.0 * INCH_OF_MERCURY_PA).abs() < 1e-9);
        let abs = AbsolutePressure::parse("29 inHg").unwrap();
        assert!((abs.pa() - 29.0 * INCH_OF_MERCURY_PA).abs() < 1e-9);
        assert!(AbsolutePressure::parse("29 inHgvac").is_err());
        assert!(
            AbsolutePressure::parse("30 psi").is_err(),
            "psi alone does not say which"
        );
    }

    #[test]
    fn either_kind_by_unit() {
        let atm = AbsolutePressure::STANDARD_ATMOSPHERE;
        let p = Pressure::parse_or_si("250kPag")
            .unwrap()
            .absolute(atm)
            .unwrap();
        assert!((p.pa() - 351_325.0).abs() < 1e-9);
        assert_eq!(
            Pressure::parse_or_si("2e5"),
            Ok(Pressure::Absolute(AbsolutePressure::from_pa(2e5)))
        );
        assert!(
            Pressure::parse_or_si("-200 kPag")
                .unwrap()
                .absolute(atm)
                .is_err()
        );
        let e = Pressure::parse_or_si("30 psi").unwrap_err().to_string();
        assert!(
            e.contains("psia") && e.contains("psig") && e.contains("30 psi"),
            "{e}"
        );
    }
}
