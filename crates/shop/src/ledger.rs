//! The ledger: where every gram is now.

use lowside_plant::{
    plant::Plant,
    species::{Content, DISSOLVED, WATER},
};

use crate::shop::Shop;

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
    /// Used cans.
    Shelf,
    /// The room: vented.
    Room,
}

/// Every place in the order of the flow, then what is outside the loop.
pub fn ledger(plant: &Plant, shop: &Shop, vented: Content) -> [Entry; 10] {
    let p = plant.places;
    let sum = |place, range: core::ops::RangeInclusive<usize>| {
        let mut content = Content::default();
        let (mut liquid, mut bound, mut dissolved) = (0.0, 0.0, 0.0);
        for i in range {
            let node = plant.network.node(i);
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
        sum(Place::DischargeLine, p.discharge..=p.discharge),
        sum(Place::Condenser, p.condenser..=p.liquid - 1),
        sum(Place::LiquidLine, p.liquid..=p.liquid),
        sum(Place::Evaporator, p.evaporator..=p.accumulator - 1),
        sum(Place::Accumulator, p.accumulator..=p.accumulator),
        sum(Place::SuctionLine, p.suction..=p.suction),
        sum(
            Place::Hoses,
            shop.places.low_hose..=shop.places.service_hose,
        ),
        sum(Place::Can, shop.places.can..=shop.places.can),
        Entry {
            place: Place::Shelf,
            content: shop.shelf,
            liquid: 0.0,
            bound: 0.0,
            dissolved: 0.0,
        },
        Entry {
            place: Place::Room,
            content: vented,
            liquid: 0.0,
            bound: 0.0,
            dissolved: 0.0,
        },
    ]
}
