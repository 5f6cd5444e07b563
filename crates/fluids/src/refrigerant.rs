//! The refrigerants that can be in the system.

use crate::eos::{Helmholtz, r12, r134a, r1234yf};
use crate::table::Table;
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;
use std::sync::{Arc, LazyLock};
use thiserror::Error;

/// A pure refrigerant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Gas {
    /// 1,1,1,2-tetrafluoroethane.
    #[serde(rename = "R-134a")]
    R134a,
    /// Dichlorodifluoromethane.
    #[serde(rename = "R-12")]
    R12,
    /// 2,3,3,3-tetrafluoroprop-1-ene.
    #[serde(rename = "R-1234yf")]
    R1234yf,
}

static EQ_R134A: LazyLock<Helmholtz> = LazyLock::new(|| Helmholtz::new(&r134a::COEFFICIENTS));
static EQ_R12: LazyLock<Helmholtz> = LazyLock::new(|| Helmholtz::new(&r12::COEFFICIENTS));
static EQ_R1234YF: LazyLock<Helmholtz> = LazyLock::new(|| Helmholtz::new(&r1234yf::COEFFICIENTS));
static TABLE_R134A: LazyLock<Arc<Table>> = LazyLock::new(|| Arc::new(Table::build(&EQ_R134A)));
static TABLE_R12: LazyLock<Arc<Table>> = LazyLock::new(|| Arc::new(Table::build(&EQ_R12)));
static TABLE_R1234YF: LazyLock<Arc<Table>> = LazyLock::new(|| Arc::new(Table::build(&EQ_R1234YF)));

impl Gas {
    /// Every gas, in order.
    pub const ALL: [Gas; 3] = [Gas::R134a, Gas::R12, Gas::R1234yf];

    /// The trade name, as it is written in files.
    pub const fn name(self) -> &'static str {
        match self {
            Gas::R134a => "R-134a",
            Gas::R12 => "R-12",
            Gas::R1234yf => "R-1234yf",
        }
    }

    /// The published equation of state.
    pub fn equation(self) -> &'static Helmholtz {
        match self {
            Gas::R134a => &EQ_R134A,
            Gas::R12 => &EQ_R12,
            Gas::R1234yf => &EQ_R1234YF,
        }
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
        match self {
            Gas::R134a => &TABLE_R134A,
            Gas::R12 => &TABLE_R12,
            Gas::R1234yf => &TABLE_R1234YF,
        }
    }
}

impl fmt::Display for Gas {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

/// A name that is no refrigerant of ours.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("refrigerant {name:?} is not one of R-134a, R-12, R-1234yf")]
pub struct UnknownGas {
    /// What was asked for.
    pub name: String,
}

impl FromStr for Gas {
    type Err = UnknownGas;

    /// Reads the name with or without its hyphen, in either case.
    fn from_str(s: &str) -> Result<Self, UnknownGas> {
        let plain = |x: &str| x.replace('-', "").to_ascii_lowercase();
        let wanted = plain(s);
        Self::ALL
            .into_iter()
            .find(|g| plain(g.name()) == wanted)
            .ok_or_else(|| UnknownGas { name: s.to_owned() })
    }
}
