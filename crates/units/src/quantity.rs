//! What every quantity has in common: an SI number, a table of units, text in and out.

use crate::UnitError;
use crate::error::shortened;
use crate::number::split_number;

/// One unit of a quantity: SI value = (number + `shift`) x `scale` / `per`.
///
/// Two factors instead of one keep decimal fractions exact (850 g is 850 / 1000 kg, not 850 x 0.001).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Names understood; the first is the one printed, empty for none. Spaces inside a name do not count.
    pub names: &'static [&'static str],
    /// Multiplier.
    pub scale: f64,
    /// Divisor.
    pub per: f64,
    /// Added to the number first (temperature scales).
    pub shift: f64,
}

impl Unit {
    /// A number in this unit, in SI.
    #[must_use]
    pub const fn to_si(self, number: f64) -> f64 {
        (number + self.shift) * self.scale / self.per
    }

    /// An SI value, in this unit.
    #[must_use]
    pub const fn of_si(self, si: f64) -> f64 {
        si * self.per / self.scale - self.shift
    }
}

/// A physical quantity kept as an `f64` in SI.
pub trait Quantity: Copy + PartialOrd + core::fmt::Display + 'static {
    /// What it is called in messages, e.g. "absolute pressure".
    const NAME: &'static str;
    /// Units understood; the first is the SI unit.
    const UNITS: &'static [Unit];
    /// The least value there is, SI; minus infinity if there is none.
    const LOWEST: f64;
    /// May the unit be left out in text?
    const BARE: bool;

    /// From the SI value.
    fn from_si(si: f64) -> Self;

    /// The SI value.
    fn si(self) -> f64;

    /// Reads text such as `36 oz` or `35degC`.
    ///
    /// # Errors
    /// [`UnitError`] naming the text, the quantity and the units allowed.
    fn parse(text: &str) -> Result<Self, UnitError> {
        read(text, Self::BARE)
    }

    /// As [`Quantity::parse`], but a number without a unit is taken as SI.
    ///
    /// # Errors
    /// [`UnitError`] naming the text, the quantity and the units allowed.
    fn parse_or_si(text: &str) -> Result<Self, UnitError> {
        read(text, true)
    }
}

fn read<Q: Quantity>(text: &str, bare: bool) -> Result<Q, UnitError> {
    let Some((number, unit)) = split_number(text) else {
        return Err(UnitError::NotANumber {
            text: shortened(text),
            quantity: Q::NAME,
            allowed: allowed(Q::UNITS),
        });
    };
    let si = if unit.is_empty() {
        if !bare {
            return Err(UnitError::NoUnit {
                text: shortened(text),
                quantity: Q::NAME,
                allowed: allowed(Q::UNITS),
            });
        }
        number
    } else {
        let Some(u) = find(Q::UNITS, unit) else {
            return Err(UnitError::UnknownUnit {
                text: shortened(text),
                unit: shortened(unit),
                quantity: Q::NAME,
                allowed: allowed(Q::UNITS),
            });
        };
        u.to_si(number)
    };
    if !si.is_finite() {
        return Err(UnitError::NotANumber {
            text: shortened(text),
            quantity: Q::NAME,
            allowed: allowed(Q::UNITS),
        });
    }
    if si < Q::LOWEST {
        return Err(UnitError::BelowLeast {
            text: shortened(text),
            quantity: Q::NAME,
            lowest: Q::from_si(Q::LOWEST).to_string(),
        });
    }
    // -0.0 + 0.0 is +0.0: one zero only
    Ok(Q::from_si(si + 0.0))
}

fn find(units: &'static [Unit], name: &str) -> Option<Unit> {
    let same = |a: &str| {
        a.chars()
            .filter(|c| *c != ' ')
            .eq(name.chars().filter(|c| !c.is_whitespace()))
    };
    units
        .iter()
        .find(|u| u.names.iter().any(|n| same(n)))
        .copied()
}

pub(crate) fn allowed(units: &[Unit]) -> String {
    let names: Vec<&str> = units
        .iter()
        .map(|u| u.names[0])
        .filter(|n| !n.is_empty())
        .collect();
    names.join(", ")
}

/// Defines a quantity: newtype, constructors and getters by unit, text, serde.
macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $name:ident, $called:literal, lowest $lowest:expr, bare $bare:literal {
            $( $from:ident, $as:ident, $words:literal, [$($text:literal),+], $scale:expr, $per:expr, $shift:expr; )+
        }
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            $(
                #[doc = concat!("From a number of ", $words, ".")]
                #[must_use]
                pub const fn $from(number: f64) -> Self {
                    Self((number + $shift) * $scale / $per)
                }

                #[doc = concat!("As a number of ", $words, ".")]
                #[must_use]
                pub const fn $as(self) -> f64 {
                    self.0 * $per / $scale - $shift
                }
            )+
        }

        impl $crate::Quantity for $name {
            const NAME: &'static str = $called;
            const UNITS: &'static [$crate::Unit] = &[
                $( $crate::Unit { names: &[$($text),+], scale: $scale, per: $per, shift: $shift } ),+
            ];
            const LOWEST: f64 = $lowest;
            const BARE: bool = $bare;

            fn from_si(si: f64) -> Self {
                Self(si)
            }

            fn si(self) -> f64 {
                self.0
            }
        }

        impl core::fmt::Display for $name {
            /// The SI number, shortest form that reads back to the same bits, and the SI unit.
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                match <Self as $crate::Quantity>::UNITS[0].names[0] {
                    "" => write!(f, "{}", self.0),
                    unit => write!(f, "{} {unit}", self.0),
                }
            }
        }

        impl core::str::FromStr for $name {
            type Err = $crate::UnitError;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                <Self as $crate::Quantity>::parse(text)
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
                if s.is_human_readable() { s.collect_str(self) } else { s.serialize_f64(self.0) }
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                $crate::serde_text::deserialize(d)
            }
        }
    };
}
pub(crate) use quantity;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Mass, Ratio, Temperature, Volume};

    #[test]
    fn decimal_fractions_stay_exact() {
        assert_eq!(Mass::parse("850 g"), Ok(Mass::from_kg(0.85)));
        assert_eq!(
            Temperature::parse("35degC"),
            Ok(Temperature::from_k(308.15))
        );
        assert_eq!(Volume::parse("8 fl oz"), Volume::parse("8floz"));
        assert_eq!(Ratio::parse("40 %"), Ratio::parse("0.4"));
    }

    #[test]
    fn errors_name_text_quantity_and_units() {
        let e = Mass::parse("36 psi").unwrap_err().to_string();
        assert_eq!(
            e,
            "\"36 psi\": \"psi\" is not a unit of mass, use one of kg, g, mg, oz, lb"
        );
        let e = Mass::parse("36").unwrap_err().to_string();
        assert_eq!(
            e,
            "\"36\" has no unit: a mass needs one of kg, g, mg, oz, lb"
        );
        let e = Temperature::parse("-300 degC").unwrap_err().to_string();
        assert_eq!(
            e,
            "\"-300 degC\" is below 0 K, the least temperature there is"
        );
        assert_eq!(Mass::parse_or_si("0.85"), Ok(Mass::from_kg(0.85)));
    }
}
