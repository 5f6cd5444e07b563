//! What the drawing shows beside the loop: the can or tool on the service hose, and joints that stand open.

use lowside_plant::species::REFRIGERANT;
use lowside_session::Bay;
use lowside_shop::{
    Attached,
    can::Stance,
    cylinder,
    detect::Spot,
    joints::{Fit, Joint, Seal},
};
use lowside_units::{
    AbsolutePressure, GaugePressure, Mass, MassFlow, Quantity, Temperature,
    display::{self, Shown, UnitSystem},
};

use super::{Block, block, boils};

/// The can on the drawing.
#[expect(
    clippy::struct_excessive_bools,
    reason = "four things that are or are not the case"
)]
#[derive(Debug, Clone, PartialEq)]
pub struct CanLevel {
    /// What is in it.
    pub block: Block,
    /// Which can of the job, from 1.
    pub number: u32,
    /// Temperature of what is in it, as shown.
    pub shown: Shown,
    /// Valve down.
    pub inverted: bool,
    /// Tap open.
    pub open: bool,
    /// Stands in water.
    pub bath: bool,
    /// Burst.
    pub burst: bool,
}

/// What hangs on the service hose and is no can.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tool {
    /// The vacuum pump.
    Pump,
    /// The charging cylinder.
    Cylinder,
    /// The bottle of nitrogen.
    Nitrogen,
    /// The recovery machine.
    Machine,
}

impl Tool {
    pub(crate) fn of(attached: &Attached) -> Option<Self> {
        Some(match attached {
            Attached::Nothing | Attached::Can(_) => return None,
            Attached::Pump(_) => Self::Pump,
            Attached::Cylinder(_) => Self::Cylinder,
            Attached::Nitrogen(_) => Self::Nitrogen,
            Attached::Machine(_) => Self::Machine,
        })
    }
}

/// How it hangs there.
#[derive(Debug, Clone, PartialEq)]
pub struct Hung {
    /// What it holds, at its own pressure: a cylinder's content, the gas after the regulator, that at the pump's inlet.
    pub block: Block,
    /// Its valve is open.
    pub open: bool,
    /// The pump turns, the machine runs.
    pub runs: bool,
    /// A cylinder stands valve down.
    pub inverted: bool,
    /// Share of the recovery cylinder that liquid may fill at its temperature of now, 0 to 1.
    pub limit: Option<f64>,
    /// Its figure: what a cylinder holds, what the regulator is set to, the vacuum at the pump.
    pub shown: Shown,
}

/// A joint that is not as it should be.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Which.
    pub joint: Joint,
    /// Both ends are capped.
    pub capped: bool,
    /// What leaves by it, g/s; what falls in is negative.
    pub flow: f64,
    /// The same as shown.
    pub shown: Shown,
}

/// What is in the vessel on the service hose.
pub(super) fn vessel(bay: &Bay) -> Block {
    let (plant, q) = (bay.plant(), bay.shop().manifold);
    let node = plant.network.node(q.can);
    let vapour = plant.network.link(q.tap_vapour).flow - plant.network.link(q.machine).flow;
    let latent = node.state.h_gas - node.state.h_liq;
    Block {
        boils: boils(node, vapour * latent),
        ..block(node, plant.day().p)
    }
}

pub(super) fn can(bay: &Bay, vessel: &Block, units: UnitSystem) -> Option<CanLevel> {
    let c = bay.shop().hands.attached.can()?;
    Some(CanLevel {
        block: *vessel,
        number: c.number,
        shown: display::temperature(Temperature::from_deg_c(vessel.t), units),
        inverted: c.stance == Stance::Inverted,
        open: c.open(),
        bath: c.bath.is_some(),
        burst: c.burst,
    })
}

/// How a tool hangs on the service hose, and what it holds.
pub(super) fn hung(bay: &Bay, block: &Block, units: UnitSystem) -> Option<Hung> {
    let (plant, shop) = (bay.plant(), bay.shop());
    let node = plant.network.node(shop.manifold.can);
    let holds = display::mass(Mass::from_kg(node.content.whole()[REFRIGERANT]), units);
    let (open, runs, inverted, limit, shown) = match &shop.hands.attached {
        Attached::Nothing | Attached::Can(_) => return None,
        Attached::Pump(pump) => {
            let at = AbsolutePressure::from_pa(node.state.p);
            (
                pump.valve_open,
                pump.on,
                false,
                None,
                display::vacuum(at, units),
            )
        }
        Attached::Cylinder(c) => (c.open, false, c.stance == Stance::Inverted, None, holds),
        Attached::Nitrogen(n) => {
            let set = GaugePressure::from_pa(n.set);
            (
                n.open,
                false,
                false,
                None,
                display::gauge_pressure(set, units),
            )
        }
        Attached::Machine(m) => {
            let table = plant.network.table_of(shop.manifold.can);
            let full = node.state.rho_liq * node.volume;
            let limit = (cylinder::limit(table) / full).min(1.0);
            (true, m.running, false, Some(limit), holds)
        }
    };
    Some(Hung {
        block: *block,
        open,
        runs,
        inverted,
        limit,
        shown,
    })
}

/// Joints that are apart or were made up without their O-ring, with what passes them.
pub(super) fn openings(bay: &Bay, units: UnitSystem) -> Vec<Opening> {
    let (net, shop) = (&bay.plant().network, bay.shop());
    let coupled = [shop.hands.low_coupled, shop.hands.high_coupled];
    let draws = shop.openings.draws(net, coupled);
    let opening = |joint: Joint| {
        let fit = shop.openings.fit(joint);
        let inward = match draws {
            Some((Spot::Joint(at), flow)) if at == joint => flow,
            _ => 0.0,
        };
        let flow = shop.openings.escapes(net, joint, coupled).all - inward;
        Opening {
            joint,
            capped: fit == Fit::Capped,
            flow: flow * 1e3,
            shown: display::mass_flow(MassFlow::from_si(flow.abs()), units),
        }
    };
    let apart = |joint: &Joint| {
        let fit = shop.openings.fit(*joint);
        matches!(fit, Fit::Open | Fit::Capped | Fit::Made(Seal::Missing))
    };
    Joint::ALL.into_iter().filter(apart).map(opening).collect()
}
