//! Passages of the circuit that something can restrict: a kink, a dent, dirt.
//!
//! Each link has one sound law from the data sheet and an open share. A passage names the place, and knows which links it is.

use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

use crate::{assembly, circuit::Circuit, network::Network, vehicle::Vehicle};

/// A passage of the circuit. The orifice tube has an open share of its own in [`crate::condition::Condition`], since ice fills what is
/// left of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Passage {
    /// Discharge line.
    DischargeLine,
    /// Tubes of the condenser.
    Condenser,
    /// Liquid line.
    LiquidLine,
    /// Tubes of the evaporator.
    Evaporator,
    /// Pick-up tube of the accumulator, ahead of its bleed hole.
    PickUp,
    /// Bleed hole of the accumulator with its screen, through which oil comes back.
    OilBleed,
    /// Suction line.
    SuctionLine,
}

/// How many passages there are.
pub const PASSAGES: usize = 7;

impl Passage {
    /// All of them, in the order of the flow.
    pub const ALL: [Self; PASSAGES] = [
        Self::DischargeLine,
        Self::Condenser,
        Self::LiquidLine,
        Self::Evaporator,
        Self::PickUp,
        Self::OilBleed,
        Self::SuctionLine,
    ];

    /// Returns its name in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::DischargeLine => "discharge-line",
            Self::Condenser => "condenser",
            Self::LiquidLine => "liquid-line",
            Self::Evaporator => "evaporator",
            Self::PickUp => "pick-up",
            Self::OilBleed => "oil-bleed",
            Self::SuctionLine => "suction-line",
        }
    }
}

/// Open share of every passage, 0 (blocked) to 1 (sound).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(crate) struct OpenShares([f64; PASSAGES]);

impl Default for OpenShares {
    fn default() -> Self {
        Self([1.0; PASSAGES])
    }
}

impl OpenShares {
    /// Returns the open share of a passage.
    pub(crate) fn of(&self, at: Passage) -> f64 {
        self.0[at as usize]
    }

    /// Restricts a passage to an open share of its flow area.
    pub(crate) fn set(
        &mut self,
        net: &mut Network,
        c: &Circuit,
        v: &Vehicle,
        at: Passage,
        open: f64,
    ) {
        self.0[at as usize] = open;
        let mut all = |links: &[_], open| links.iter().for_each(|link| net.set_open(*link, open));
        match at {
            Passage::DischargeLine => all(c.discharge_line.links(), open),
            Passage::Condenser => all(c.condenser.inner(), open),
            Passage::LiquidLine => {
                all(&[c.condenser.out()], open);
                all(c.liquid_line.inner(), open);
            }
            Passage::Evaporator => all(c.evaporator.links(), open),
            Passage::SuctionLine => {
                all(c.suction_line.inner(), open);
                all(&[c.pick_up()], self.pick_up(c, v));
            }
            Passage::PickUp => all(&[c.pick_up()], self.pick_up(c, v)),
            Passage::OilBleed => {}
        }
        let (tube, bleed) = (self.of(Passage::PickUp), self.of(Passage::OilBleed));
        let draw = assembly::pick_up(net.table(), v, tube, bleed);
        net.set_offtake(c.pick_up(), draw);
    }

    /// Returns the open share of the pick-up tube and the first stretch of the suction line together. They are one link: their drops
    /// add, and each goes with one over the square of its own share.
    fn pick_up(&self, c: &Circuit, v: &Vehicle) -> f64 {
        let squared = |at| self.of(at) * self.of(at);
        let tube = v.accumulator.pressure_loss.si();
        let line = v.suction_line.pressure_loss.si() / c.suction_line.nodes().len() as f64;
        let restricted = tube / squared(Passage::PickUp) + line / squared(Passage::SuctionLine);
        ((tube + line) / restricted).sqrt()
    }
}
