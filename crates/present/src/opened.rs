//! What tools, bench and record show besides in an open bay: what nobody at work there can know.

use lowside_lessons::{Shown as Known, senses::Look};
use lowside_plant::species::REFRIGERANT;
use lowside_session::{Bay, scenario::Altered};
use lowside_shop::{
    Attached,
    conversion::{self, breaches, converted_to},
    cylinder,
    parts::{Part, look},
    record::Prices,
};
use lowside_units::{
    AbsolutePressure, Mass, Quantity,
    display::{self, Style, UnitSystem},
};

use crate::{
    bench::{self, PartState, sights},
    record::{self, RecordView},
    tools::{Hung, Tools},
};

/// The tools: vessels hold what they hold, and the new label is held against what is in the loop.
pub fn tools(bay: &Bay, units: UnitSystem) -> Tools {
    let mut tools = Tools::of(&Known::of(bay), units);
    let (plant, shop) = (bay.plant(), bay.shop());
    let mass = |kg: f64| display::mass(Mass::from_kg(kg), units);
    let held = plant.network.node(shop.manifold.can).content.whole()[REFRIGERANT];
    match (&mut tools.hung, &shop.hands.attached) {
        (Hung::Cylinder { dose, holds, .. }, Attached::Cylinder(c)) => {
            let left = c.shuts_at.filter(|_| c.open).map(|at| held - at);
            (*dose, *holds) = (left.map(|kg| mass(kg.max(0.0))), mass(held));
        }
        (
            Hung::Machine {
                recovered, full, ..
            },
            _,
        ) => {
            let share = held / cylinder::limit(plant.network.table());
            *recovered = mass(shop.recovered(plant));
            *full = Style::new(0, "%").show(100.0 * share);
        }
        _ => {}
    }
    if shop.label.is_some() {
        tools.label_lacks = conversion::label_lacks(&bay.record(&Prices::default()));
        tools.labelled = tools.label_lacks.is_empty();
    }
    tools
}

/// What is known of a part: shares as they are.
pub fn part(bay: &Bay, part: Part, units: UnitSystem) -> PartState {
    let mut state = bench::part(&Known::of(bay), part, units);
    if !state.seen.is_empty() {
        let on_bench = bay.shop().bench[part as usize].as_ref();
        let seen = on_bench.map_or_else(|| look(bay.plant(), part), |out| out.seen);
        state.seen = sights(part, &Look::from(&seen), [seen.blocked, seen.face]);
    }
    state
}

/// The record: what really happened.
pub fn record(bay: &Bay, units: UnitSystem) -> RecordView {
    let r = bay.record(&Prices::default());
    let mut view = record::record(&Known::of(bay), units);
    let mass = |kg| display::mass(Mass::from_kg(kg), units);
    let co2 = display::large_mass(Mass::from_kg(r.co2_equivalent.1), units);
    view.gas = r.gas.name();
    (view.recovered, view.charged) = (mass(r.recovered), mass(r.charged));
    view.vented = Some([mass(r.vented), co2]);
    view.ventings = Some(r.ventings);
    view.converted = converted_to(&r).is_some();
    view.lacks = Some(breaches(&r));
    let scenario = bay.scenario();
    view.faults = Some(scenario.faults().map(|fault| fault.id).collect());
    let altered = scenario.altered.iter().flat_map(Altered::list);
    view.altered = altered.map(|a| a.field.clone()).collect();
    if let Some((hold, held)) = view.hold.as_mut().zip(r.hold) {
        let p = |pa| display::vacuum(AbsolutePressure::from_si(pa), units);
        hold.pressures = Some([held.from, held.to].map(p));
    }
    view
}
