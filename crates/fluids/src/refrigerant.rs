//! The refrigerants that can be in the system: one file each, listed here.

mod data;
mod r12;
mod r1234yf;
mod r134a;

pub use data::{Data, Fitting, Gwp, InOil, Retrofit, Safety, WaterIn};

use crate::eos::Helmholtz;
use crate::table::Table;
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;
use std::sync::{Arc, OnceLock};
use thiserror::Error;

/// Makes the enum from the list of all refrigerants: name in the code, file, designation of ASHRAE Standard 34 as files have it.
macro_rules! refrigerants {
    ($($gas:ident $file:ident $name:literal,)+) => {
        /// A pure refrigerant.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Refrigerant {
            $(#[doc = $name] #[serde(rename = $name)] $gas,)+
        }

        impl Refrigerant {
            /// Every refrigerant, in order.
            pub const ALL: [Self; [$($name),+].len()] = [$(Self::$gas),+];

            /// The designation, as it is written in files.
            pub const fn name(self) -> &'static str {
                match self {
                    $(Self::$gas => $name,)+
                }
            }

            /// What is known of it.
            pub const fn data(self) -> &'static Data {
                match self {
                    $(Self::$gas => &$file::DATA,)+
                }
            }
        }
    };
}

refrigerants! {
    R134a r134a "R-134a",
    R12 r12 "R-12",
    R1234yf r1234yf "R-1234yf",
}

/// What is made of a refrigerant's data at first use.
struct Made {
    equation: OnceLock<Helmholtz>,
    table: OnceLock<Arc<Table>>,
}

static MADE: [Made; Refrigerant::ALL.len()] = [const {
    Made {
        equation: OnceLock::new(),
        table: OnceLock::new(),
    }
}; Refrigerant::ALL.len()];

impl Refrigerant {
    fn made(self) -> &'static Made {
        &MADE[self as usize]
    }

    /// The published equation of state.
    pub fn equation(self) -> &'static Helmholtz {
        self.made()
            .equation
            .get_or_init(|| Helmholtz::new(&self.data().equation))
    }

    /// The fast tables, built from the equation at first use (some milliseconds).
    pub fn table(self) -> &'static Table {
        self.kept()
    }

    /// The same tables, to hold beside those of a [blend](crate::blend).
    pub fn shared_table(self) -> Arc<Table> {
        Arc::clone(self.kept())
    }

    fn kept(self) -> &'static Arc<Table> {
        self.made()
            .table
            .get_or_init(|| Arc::new(Table::build(self.equation())))
    }
}

impl fmt::Display for Refrigerant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

/// A name that is no refrigerant of ours.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("refrigerant {name:?} is not one of {}", Refrigerant::ALL.map(Refrigerant::name).join(", "))]
pub struct UnknownRefrigerant {
    /// What was asked for.
    pub name: String,
}

impl FromStr for Refrigerant {
    type Err = UnknownRefrigerant;

    /// Reads the name with or without its hyphen, in either case.
    fn from_str(s: &str) -> Result<Self, UnknownRefrigerant> {
        let plain = |x: &str| x.replace('-', "").to_ascii_lowercase();
        let wanted = plain(s);
        Self::ALL
            .into_iter()
            .find(|g| plain(g.name()) == wanted)
            .ok_or_else(|| UnknownRefrigerant { name: s.to_owned() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::oil::Oil;
    use crate::saturation::{at_pressure, at_temperature};

    /// What a file says beside its equation is what its equation says: within the last digit given, and 0.05 K for a boiling point from
    /// another equation.
    #[test]
    fn a_file_agrees_with_its_equation() {
        for gas in Refrigerant::ALL {
            let (data, eq) = (gas.data(), gas.equation());
            let near = |what: &str, said: f64, found: f64, by: f64| {
                assert!(
                    (said - found).abs() < by,
                    "{gas}: {what} {said}, by the equation {found}"
                );
            };
            let boils = at_pressure(eq, 101_325.0).expect("between triple and critical point");
            near("boiling point", data.boiling_point, boils.t, 0.05);
            let liquid = at_temperature(eq, 298.15).expect("liquid at 25 degC").rho_l;
            near("liquid", data.in_oil.liquid_density, liquid, 1.0);
            let mass = data.in_oil.molar_mass;
            near("molar mass", mass, 1e3 * eq.molar_mass(), 0.011);
            near(
                "critical point",
                data.transport.t_critical,
                eq.t_crit(),
                0.01,
            );
        }
    }

    /// ASHRAE Standard 34 (from memory): R-12 and R-134a do not burn, R-1234yf does with slow flames.
    #[test]
    fn classes_are_those_of_the_standard() {
        let classes = Refrigerant::ALL.map(|gas| (gas, gas.data().safety));
        for (gas, class) in [
            (Refrigerant::R12, Safety::A1),
            (Refrigerant::R134a, Safety::A1),
            (Refrigerant::R1234yf, Safety::A2L),
        ] {
            assert!(classes.contains(&(gas, class)), "{gas}: {classes:?}");
            assert_eq!(class.burns(), gas == Refrigerant::R1234yf);
        }
    }

    /// Common practice, no source: mineral oil with R-12, PAG with the others, ester with each; vehicles are converted from R-12 alone.
    #[test]
    fn oils_and_conversions_are_those_of_the_trade() {
        for gas in Refrigerant::ALL {
            let (data, old) = (gas.data(), gas == Refrigerant::R12);
            assert!(data.takes(Oil::Ester) && data.takes(data.oil), "{gas}");
            assert_eq!(data.takes(Oil::Mineral), old, "{gas}");
            for pag in [Oil::Pag46, Oil::Pag100, Oil::Pag150] {
                assert_eq!(data.takes(pag), !old, "{gas}");
            }
            assert_eq!(
                data.retrofit.map(|r| r.to),
                old.then_some(Refrigerant::R134a)
            );
            assert_eq!(data.port == Fitting::Threaded, old, "{gas}");
        }
    }

    /// No pair of refrigerants is taken for another: what does not mix is an error that names both.
    #[test]
    fn only_one_pair_mixes() {
        use crate::blend::{Apart, Blend, NoBlend};
        let pair = [Refrigerant::R12, Refrigerant::R134a];
        for gas in Refrigerant::ALL {
            for other in Refrigerant::ALL {
                let may = gas == other || pair.contains(&gas) && pair.contains(&other);
                let said = Blend::mixes(gas, other);
                assert_eq!(
                    said,
                    if may {
                        Ok(())
                    } else {
                        Err(Apart { gas, other })
                    }
                );
            }
            let blend = Blend::with(gas, 0.1);
            if pair.contains(&gas) {
                let own =
                    1.0 - (Blend::r12_in(gas) - blend.expect("of the pair").mass_share()).abs();
                assert!((own - 0.9).abs() < 1e-12, "{gas}: {own}");
            } else {
                assert_eq!(blend, Err(NoBlend::Alone(gas)));
            }
        }
        assert!(matches!(
            Blend::with(Refrigerant::R12, 1.5),
            Err(NoBlend::Share(_))
        ));
    }
}
