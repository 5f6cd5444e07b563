//! R-12 and R-134a together: what stays when a loop is converted and the old gas not wholly taken out.
//!
//! **The mixture model** is that of Kunz & Wagner, *The GERG-2008 wide-range equation of state*, J. Chem. Eng. Data 57
//! (2012) 3032: the components' own Helmholtz energies at reduced variables common to both, with reducing temperature and density
//! from the composition and four binary parameters. Bell & Lemmon, *Automatic fitting of binary interaction parameters for
//! multi-fluid Helmholtz-energy-explicit mixture models*, J. Chem. Eng. Data 61 (2016) 3752, fitted two of them for this pair
//! and set the others to 1; it has no departure function. The same are in CoolProp 8.0.0.
//!
//! **One composition.** The mixture is held at one composition in both phases, as if it were a pure fluid: equal pressure and
//! equal Gibbs energy of liquid and vapour. That pressure lies between bubble and dew pressure. The pair forms a positive azeotrope
//! near equal shares, where the three are one; at 10 mol % of R-12 and room temperature they are 3 % of the pressure apart, which is
//! a glide of about 1 K. What is lost is that vapour there is a little richer in R-12 than the liquid it stands over.

use crate::eos::Helmholtz;
use crate::refrigerant::Refrigerant;
use crate::table::Table;
use serde::{Deserialize, Serialize};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
use thiserror::Error;

/// R-12 first, R-134a second: factors of the reducing temperature (Bell & Lemmon 2016).
const BETA_T: f64 = 1.0075;
const GAMMA_T: f64 = 0.941;
/// Factors of the reducing volume (Bell & Lemmon 2016: not fitted).
const BETA_V: f64 = 1.0;
const GAMMA_V: f64 = 1.0;
/// Mass share up to which the lesser gas counts as none: less than any refrigerant holds as an impurity, and the mixture's equation, which
/// has its logarithm, is not asked where rounding has the last word.
const TRACE: f64 = 1e-12;

/// R-12 and R-134a in one composition; either of them alone at its ends.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Blend {
    r12: f64,
}

/// Tables that are in use, by the share of R-12 they are for. Bays that begin with the same blend so share one.
static IN_USE: Mutex<Vec<(f64, Weak<Table>)>> = Mutex::new(Vec::new());

fn in_use() -> MutexGuard<'static, Vec<(f64, Weak<Table>)>> {
    IN_USE.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A share that is none.
#[derive(Debug, Clone, Copy, PartialEq, Error, Serialize, Deserialize)]
#[error("share of R-12 {value} is outside 0 to 1")]
pub struct NoShare {
    /// What was given.
    pub value: f64,
}

/// Two refrigerants that cannot be reckoned with in one loop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("{other} does not mix with {gas} here; only R-12 and R-134a do")]
pub struct Apart {
    /// What there is.
    pub gas: Refrigerant,
    /// What would come to it.
    pub other: Refrigerant,
}

/// Why a refrigerant with a share of another is no blend.
#[derive(Debug, Clone, Copy, PartialEq, Error, Serialize, Deserialize)]
pub enum NoBlend {
    /// The share is none.
    #[error(transparent)]
    Share(#[from] NoShare),
    /// No other mixes with it.
    #[error("nothing mixes with {0} here; only R-12 and R-134a do")]
    Alone(Refrigerant),
}

impl TryFrom<f64> for Blend {
    type Error = NoShare;

    fn try_from(share: f64) -> Result<Self, NoShare> {
        Self::by_mass(share)
    }
}

impl From<Blend> for f64 {
    fn from(blend: Blend) -> Self {
        blend.r12
    }
}

impl Blend {
    /// The blend with the mass share `share` of R-12.
    ///
    /// # Errors
    /// When `share` is not between 0 and 1.
    pub fn by_mass(share: f64) -> Result<Self, NoShare> {
        if (0.0..=1.0).contains(&share) {
            Ok(Self { r12: share })
        } else {
            Err(NoShare { value: share })
        }
    }

    /// The blend with the mole share `share` of R-12.
    ///
    /// # Errors
    /// When `share` is not between 0 and 1.
    pub fn by_mole(share: f64) -> Result<Self, NoShare> {
        Self::by_mass(share)?;
        let (a, b) = masses();
        let (r12, other) = (share * a, (1.0 - share) * b);
        Self::by_mass(r12 / (r12 + other))
    }

    /// `gas` with the mass share `other` of the other one of the pair.
    ///
    /// # Errors
    /// When `gas` is not of the pair, or the share is not between 0 and 1.
    pub fn with(gas: Refrigerant, other: f64) -> Result<Self, NoBlend> {
        Self::partner(gas).ok_or(NoBlend::Alone(gas))?;
        let r12 = if gas == Refrigerant::R12 {
            1.0 - other
        } else {
            other
        };
        Ok(Self::by_mass(r12)?)
    }

    /// Mass share of R-12 in a refrigerant alone.
    pub fn r12_in(gas: Refrigerant) -> f64 {
        if gas == Refrigerant::R12 { 1.0 } else { 0.0 }
    }

    /// The one there is more of; R-134a where they are equal.
    pub fn mostly(self) -> Refrigerant {
        if self.r12 > 0.5 {
            Refrigerant::R12
        } else {
            Refrigerant::R134a
        }
    }

    /// The other one of the pair; none where `gas` is not of it.
    pub fn partner(gas: Refrigerant) -> Option<Refrigerant> {
        let pair = [Refrigerant::R12, Refrigerant::R134a];
        let at = pair.iter().position(|g| *g == gas)?;
        Some(pair[1 - at])
    }

    /// Whether `other` may come to `gas`: the same, or the other one of the pair.
    ///
    /// # Errors
    /// [`Apart`] where it may not.
    pub fn mixes(gas: Refrigerant, other: Refrigerant) -> Result<(), Apart> {
        if gas == other || Self::partner(gas) == Some(other) {
            Ok(())
        } else {
            Err(Apart { gas, other })
        }
    }

    /// Mass share of R-12.
    pub fn mass_share(self) -> f64 {
        self.r12
    }

    /// Mole share of R-12.
    pub fn mole_share(self) -> f64 {
        let (a, b) = masses();
        let (r12, other) = (self.r12 / a, (1.0 - self.r12) / b);
        r12 / (r12 + other)
    }

    /// The only gas in it, if there is one only, but for traces.
    pub fn pure(self) -> Option<Refrigerant> {
        if self.r12 <= TRACE {
            Some(Refrigerant::R134a)
        } else if self.r12 >= 1.0 - TRACE {
            Some(Refrigerant::R12)
        } else {
            None
        }
    }

    /// The mixture's equation at this composition; the pure gas's own at either end.
    pub fn equation(self) -> Helmholtz {
        if let Some(gas) = self.pure() {
            return gas.equation().clone();
        }
        let (first, second) = (Refrigerant::R12.equation(), Refrigerant::R134a.equation());
        let (a, b) = (first.coefficients(), second.coefficients());
        let x = self.mole_share();
        let third = |rho: f64| 1.0 / libm::cbrt(rho);
        let edge = third(a.rho_red) + third(b.rho_red);
        let volume = reducing(
            x,
            1.0 / a.rho_red,
            1.0 / b.rho_red,
            edge * edge * edge / 8.0,
            (BETA_V, GAMMA_V),
        );
        let t_red = reducing(
            x,
            a.t_red,
            b.t_red,
            (a.t_red * b.t_red).sqrt(),
            (BETA_T, GAMMA_T),
        );
        Helmholtz::mixture(first, second, 1.0 - x, t_red, 1.0 / volume)
    }

    /// Returns its fast tables: the pure gas's at either end, those that are in use for this very composition, or new ones (several
    /// milliseconds).
    pub fn table(self) -> Arc<Table> {
        if let Some(gas) = self.pure() {
            return gas.shared_table();
        }
        if let Some(table) = self.table_in_use() {
            return table;
        }
        let table = Arc::new(Table::build(&self.equation()));
        let mut in_use = in_use();
        in_use.retain(|(_, table)| table.strong_count() > 0);
        in_use.push((self.r12, Arc::downgrade(&table)));
        table
    }

    fn table_in_use(self) -> Option<Arc<Table>> {
        let in_use = in_use();
        let same = |r12: f64| r12.to_bits() == self.r12.to_bits();
        in_use.iter().find(|(r12, _)| same(*r12))?.1.upgrade()
    }
}

/// Molar masses of R-12 and R-134a, kg/mol.
fn masses() -> (f64, f64) {
    (
        Refrigerant::R12.equation().molar_mass(),
        Refrigerant::R134a.equation().molar_mass(),
    )
}

/// Reducing quantity at the mole share `x` of the first component: Kunz & Wagner (2012), equations 16 and 17.
fn reducing(x: f64, first: f64, second: f64, pair: f64, (beta, gamma): (f64, f64)) -> f64 {
    let y = 1.0 - x;
    x * x * first + y * y * second + 2.0 * x * y * beta * gamma / (beta * beta * x + y) * pair
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tables of one composition are built once while somebody uses them, and let go after.
    #[test]
    fn one_composition_has_one_table() {
        let blend = |share| Blend::by_mass(share).expect("a share");
        let table = blend(0.123).table();
        assert!(Arc::ptr_eq(&table, &blend(0.123).table()));
        assert!(!Arc::ptr_eq(&table, &blend(0.124).table()));
        let gone = Arc::downgrade(&table);
        drop(table);
        assert!(gone.upgrade().is_none());
    }
}
