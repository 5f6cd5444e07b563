//! The ledger: where every gram is now.

use lowside_plant::{
    network::NodeId,
    plant::Plant,
    species::{Content, DISSOLVED, OIL, WATER},
};

use crate::{attached::Attached, shop::Shop};

/// One line of the ledger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// Place.
    pub place: Place,
    /// What is there, kg; for [`Place::Room`] what has left to it since the start (air taken in counts negative).
    pub content: Content,
    /// How much of the refrigerant there is liquid, kg.
    pub liquid: f64,
    /// How much of the water there is bound, kg: in the desiccant (accumulator) or as ice in the orifice tube (evaporator). What
    /// the oil has taken up is in `content` alone.
    pub bound: f64,
    /// How much of the refrigerant there is dissolved in oil, kg.
    pub dissolved: f64,
}

/// A place where matter can be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Discharge line.
    DischargeLine,
    /// Condenser.
    Condenser,
    /// Liquid line.
    LiquidLine,
    /// Evaporator.
    Evaporator,
    /// Accumulator.
    Accumulator,
    /// Suction line and compressor.
    SuctionLine,
    /// The three hoses.
    Hoses,
    /// The can on the hose.
    Can,
    /// Used cans and cylinders put back.
    Shelf,
    /// The room: vented.
    Room,
    /// The charging cylinder on the hose, or the space behind the nitrogen regulator.
    Cylinder,
    /// The recovery machine's cylinder.
    RecoveryCylinder,
    /// The recovery machine's oil separator.
    Separator,
    /// Parts on the bench: their oil with its water, and what a desiccant there holds.
    Bench,
    /// The waste can and scrapped parts.
    Waste,
    /// Lost into the room from what was taken off open.
    Lost,
}

/// How many places there are.
pub const PLACES: usize = 16;

/// Every place in the order of the flow, then what is outside the loop.
pub fn ledger(plant: &Plant, shop: &Shop, vented: Content) -> [Entry; PLACES] {
    let c = &plant.circuit;
    let vessel = plant.network.node(shop.manifold.can);
    let aside = |place, content: Content| Entry {
        place,
        content: content.whole(),
        liquid: 0.0,
        bound: 0.0,
        dissolved: 0.0,
    };
    // The vessel's node counts where it belongs, with the water that oil in it has taken up.
    let mut in_vessel = vessel.content.whole();
    in_vessel[WATER] += vessel.bound + vessel.oil_water;
    let vessel_as = |place, here| Entry {
        place,
        content: if here { in_vessel } else { Content::default() },
        liquid: if here { vessel.state.m_liq } else { 0.0 },
        bound: 0.0,
        dissolved: if here { vessel.content[DISSOLVED] } else { 0.0 },
    };
    let attached = &shop.hands.attached;
    let mut separated = Content::default();
    separated[OIL] = shop.station.separator + shop.other_station.map_or(0.0, |s| s.separator);
    let mut bench = Content::default();
    let mut bench_bound = 0.0;
    for part in shop.bench.iter().flatten() {
        bench[OIL] += part.oil;
        bench[WATER] += part.bound + part.oil_water;
        bench_bound += part.bound;
    }
    let mut waste = shop.scrap;
    waste[OIL] += shop.oil.waste;
    let sum = |place, nodes: &[NodeId]| {
        let mut content = Content::default();
        let (mut liquid, mut bound, mut dissolved) = (0.0, 0.0, 0.0);
        for id in nodes {
            let node = plant.network.node(*id);
            content.add(&node.content.whole(), 1.0);
            content[WATER] += node.bound + node.oil_water;
            bound += node.bound;
            dissolved += node.content[DISSOLVED];
            liquid += node.state.m_liq;
        }
        Entry {
            place,
            content,
            liquid,
            bound,
            dissolved,
        }
    };
    [
        sum(Place::DischargeLine, c.discharge_line.nodes()),
        sum(Place::Condenser, c.condenser.nodes()),
        sum(Place::LiquidLine, c.liquid_line.nodes()),
        sum(Place::Evaporator, c.evaporator.nodes()),
        sum(Place::Accumulator, c.accumulator.nodes()),
        sum(Place::SuctionLine, c.suction_line.nodes()),
        {
            let mut hoses = sum(Place::Hoses, &shop.manifold.hoses());
            for on_wall in shop.other_set.iter().flatten() {
                hoses.content.add(&on_wall.content.whole(), 1.0);
            }
            hoses
        },
        vessel_as(
            Place::Can,
            matches!(
                attached,
                Attached::Nothing | Attached::Can(_) | Attached::Pump(_)
            ),
        ),
        aside(Place::Shelf, shop.shelf),
        aside(Place::Room, vented),
        vessel_as(
            Place::Cylinder,
            matches!(attached, Attached::Cylinder(_) | Attached::Nitrogen(_)),
        ),
        {
            let mut cylinders = if attached.machine().is_some() {
                vessel_as(Place::RecoveryCylinder, true)
            } else {
                aside(Place::RecoveryCylinder, shop.station.away.content)
            };
            if let Some(other) = &shop.other_station {
                cylinders.content.add(&other.away.content.whole(), 1.0);
            }
            cylinders
        },
        aside(Place::Separator, separated),
        Entry {
            bound: bench_bound,
            ..aside(Place::Bench, bench)
        },
        aside(Place::Waste, waste),
        aside(Place::Lost, shop.lost),
    ]
}
