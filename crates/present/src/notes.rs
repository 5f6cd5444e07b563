//! What the drawing of levels has to say now: one idea each, with the height it points at.
//!
//! Each note is a fact of the moment (pressures compared with the surroundings, with the can, with the room); the sentences are the
//! page's. The most urgent come first; a drawing shows three at most.

use lowside_fluids::water;
use lowside_session::Bay;
use lowside_shop::can;
use lowside_units::{
    AbsolutePressure, GaugePressure, Quantity, Temperature,
    display::{self, Shown, UnitSystem},
};

use crate::{levels::height, parts::inside};

/// What is to be noticed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Idea {
    /// The high side falls into the can through the open high valve.
    FallsIntoCan,
    /// The high side stands above the mark at which a can bursts, and a can is on.
    AboveBurst,
    /// Air flows in from the room.
    AirFallsIn,
    /// A running low side stands below the atmosphere: a leak would draw air in.
    BelowAtmosphere,
    /// Refrigerant escapes into the room.
    Escapes,
    /// Air lifts the high side or the loop at rest by so much.
    AirOnTop,
    /// Water boils at this depth at such a temperature, below that of the day: the loop dries.
    Dries,
    /// Nearly nothing is in the loop, but water would not yet boil.
    NotDryYet,
    /// The loop at rest stands at the outside air's line: a thermometer.
    Static,
    /// The loop at rest holds no liquid and stands below that line.
    AllVapour,
    /// The can stands above the low side, which drives its gas.
    CanAbove,
    /// The can has sunk to the low side.
    CanSunk,
    /// Ice closes so much of the orifice tube.
    IceGrows,
    /// Use has worn the compressor by so much.
    Worn,
    /// The high side stands above the outside air, down to which its heat runs.
    HighAbove,
    /// The low side hangs below the cabin air, whose heat runs down into it.
    LowBelow,
}

/// Where a note points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// At the high shelf.
    High,
    /// At the low shelf.
    Low,
    /// At the orifice tube.
    Orifice,
    /// At the compressor.
    Compressor,
    /// At the can.
    Can,
    /// At the service hose.
    Hose,
}

/// A note.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// What it says.
    pub idea: Idea,
    /// Where it points.
    pub spot: Spot,
    /// At which height, 0 to 1.
    pub height: f64,
    /// The figure in it.
    pub shown: Shown,
}

/// Most notes shown at a time.
pub const SHOWN: usize = 3;
/// Flow from which something runs, kg/s.
const RUNS: f64 = 2e-5;
/// Share of the pressure from which air is worth a word.
const AIR_COUNTS: f64 = 0.02;
/// Share from which ice and wear are worth a word.
const COUNTS: f64 = 0.03;
/// Pressure below which a loop is nearly empty, Pa absolute.
const NEARLY_EMPTY: f64 = 20e3;
/// Difference of heights below which two things stand level.
const LEVEL: f64 = 0.012;

/// Notes of the moment, the most urgent first.
pub fn of(bay: &Bay, units: UnitSystem) -> Vec<Note> {
    let mut notes = Vec::new();
    shop(bay, units, &mut notes);
    vehicle(bay, units, &mut notes);
    notes.sort_by_key(|n| n.idea);
    notes
}

fn difference(pa: f64, units: UnitSystem) -> Shown {
    display::gauge_pressure(GaugePressure::from_pa(pa.max(0.0)), units)
}

/// What concerns can, hoses and room.
fn shop(bay: &Bay, units: UnitSystem, notes: &mut Vec<Note>) {
    let (plant, shop) = (bay.plant(), bay.shop());
    let (net, p, q) = (&plant.network, plant.places, shop.places);
    let air = plant.day().p;
    let (high, low) = (
        net.node(p.discharge).state.p,
        net.node(p.accumulator).state.p,
    );
    let at = |pa: f64| height(pa, air);
    let mut put = |idea, spot, pa: f64, shown| {
        notes.push(Note {
            idea,
            spot,
            height: at(pa),
            shown,
        });
    };
    let end = net.link(q.hose_end).flow;
    let hose = net.node(q.service_hose).state.p;
    if end < -RUNS {
        put(
            Idea::AirFallsIn,
            Spot::Hose,
            hose,
            difference(air - hose, units),
        );
    } else if end > RUNS {
        put(
            Idea::Escapes,
            Spot::Hose,
            hose,
            difference(hose - air, units),
        );
    }
    let Some(_) = shop.hands.attached.can().filter(|c| !c.burst) else {
        return;
    };
    let inside = net.node(q.can).state.p;
    if net.link(q.high_valve).flow < -RUNS && high > inside {
        put(
            Idea::FallsIntoCan,
            Spot::Can,
            inside,
            difference(high - inside, units),
        );
    } else if high - air > can::BURST {
        put(
            Idea::AboveBurst,
            Spot::High,
            high,
            difference(high - air - can::BURST, units),
        );
    }
    let holds = net.node(q.can).state.m_liq > 1e-4;
    if holds && at(inside) - at(low) > LEVEL {
        put(
            Idea::CanAbove,
            Spot::Can,
            inside,
            difference(inside - low, units),
        );
    } else if holds {
        let t = display::temperature(Temperature::from_k(net.node(q.can).state.t), units);
        put(Idea::CanSunk, Spot::Can, inside, t);
    }
}

/// What concerns the loop.
fn vehicle(bay: &Bay, units: UnitSystem, notes: &mut Vec<Note>) {
    let plant = bay.plant();
    let (net, p, day) = (&plant.network, plant.places, plant.day());
    let table = net.table();
    let (top, bottom) = (
        &net.node(p.liquid - 1).state,
        &net.node(p.accumulator).state,
    );
    let at = |pa: f64| height(pa, day.p);
    let warmth = |k: f64| display::temperature(Temperature::from_k(k), units);
    let mut put = |idea, spot, pa: f64, shown| {
        notes.push(Note {
            idea,
            spot,
            height: at(pa),
            shown,
        });
    };
    let ratio = |x: f64| display::ratio(lowside_units::Ratio::from_si(x));
    let ice = inside::ice_share(bay);
    if ice > COUNTS {
        put(Idea::IceGrows, Spot::Orifice, top.p, ratio(ice));
    }
    if plant.damage.wear() > COUNTS {
        put(
            Idea::Worn,
            Spot::Compressor,
            top.p,
            ratio(plant.damage.wear()),
        );
    }
    let runs = net.link(p.compressor).flow > 1e-3;
    if !runs && top.p.max(bottom.p) < NEARLY_EMPTY {
        let boils = water::boiling_temperature(bottom.p.max(5.0));
        let idea = if boils < day.t {
            Idea::Dries
        } else {
            Idea::NotDryYet
        };
        put(idea, Spot::Low, bottom.p, warmth(boils));
        return;
    }
    if runs && bottom.p < day.p {
        let shown = display::vacuum(AbsolutePressure::from_pa(bottom.p), units);
        put(Idea::BelowAtmosphere, Spot::Low, bottom.p, shown);
    }
    let level = (at(top.p) - at(bottom.p)).abs() < LEVEL;
    if top.p_air > AIR_COUNTS * top.p && (runs || level) {
        put(
            Idea::AirOnTop,
            Spot::High,
            top.p,
            difference(top.p_air, units),
        );
    } else if !runs && level {
        let liquid: f64 = (p.discharge..=p.suction)
            .map(|id| net.node(id).state.m_liq)
            .sum();
        let outside = at(table.p_sat(day.t));
        if liquid < 1e-4 {
            put(
                Idea::AllVapour,
                Spot::Low,
                bottom.p,
                difference(bottom.p - day.p, units),
            );
        } else if (at(bottom.p) - outside).abs() < 2.0 * LEVEL {
            put(Idea::Static, Spot::Low, bottom.p, warmth(day.t));
        }
    }
    if runs && plant.condenser.duty > 300.0 && top.p > table.p_sat(day.t) {
        let over = table.t_sat(top.p) - day.t;
        let shown = display::temperature_difference(
            lowside_units::TemperatureDifference::from_si(over),
            units,
        );
        put(Idea::HighAbove, Spot::High, top.p, shown);
    }
    if runs && plant.evaporator.duty > 300.0 && bottom.p < table.p_sat(plant.cabin.air.t) {
        let under = plant.cabin.air.t - table.t_sat(bottom.p);
        let shown = display::temperature_difference(
            lowside_units::TemperatureDifference::from_si(under),
            units,
        );
        put(Idea::LowBelow, Spot::Low, bottom.p, shown);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{Action, Scenario, library};

    fn ideas(bay: &Bay) -> Vec<Idea> {
        of(bay, UnitSystem::US).iter().map(|n| n.idea).collect()
    }

    fn opened(name: &str, set: &[&str], seconds: u32) -> Bay {
        let set: Vec<String> = set.iter().map(|s| (*s).to_owned()).collect();
        let text = library::scenario(name).expect("shipped");
        let mut scenario = Scenario::parse(text, &set).expect("sound");
        scenario.act.clear();
        let mut bay = Bay::new(&scenario);
        for _ in 0..50 * seconds {
            bay.step().expect("the engine goes on");
        }
        bay
    }

    #[test]
    fn a_parked_loop_is_a_thermometer_whatever_it_holds() {
        for charge in ["300 g", "1000 g"] {
            let charge = format!("start.charge={charge}");
            let bay = opened(
                "healthy",
                &["engine.on=false", "controls.ac=false", &charge],
                1,
            );
            assert_eq!(ideas(&bay), [Idea::Static], "{charge}");
        }
        let bay = opened(
            "healthy",
            &["engine.on=false", "controls.ac=false", "start.charge=20 g"],
            1,
        );
        assert_eq!(ideas(&bay), [Idea::AllVapour]);
    }

    #[test]
    fn a_running_loop_sheds_heat_above_and_takes_it_below() {
        assert_eq!(
            ideas(&opened("healthy", &[], 120)),
            [Idea::HighAbove, Idea::LowBelow]
        );
    }

    #[test]
    fn a_vacuum_dries_only_if_water_boils_in_it() {
        let bay = bay("charge-from-cans");
        let p = bay
            .plant()
            .network
            .node(bay.plant().places.accumulator)
            .state
            .p;
        // 35 degC water boils at 5.6 kPa (IAPWS steam tables).
        let want = if p < 5.6e3 {
            Idea::Dries
        } else {
            Idea::NotDryYet
        };
        assert_eq!(ideas(&bay), [want]);
    }

    #[test]
    fn the_can_and_the_open_hose_are_told() {
        let mut bay = bay("charge-from-cans");
        bay.apply(Action::LowValve {
            open: lowside_units::Ratio::from_si(1.0),
        })
        .unwrap();
        for _ in 0..25 {
            bay.step().expect("the engine goes on");
        }
        assert_eq!(
            ideas(&bay)[0],
            Idea::AirFallsIn,
            "the room stands above an empty loop"
        );
        let mut bay = self::bay("charge-from-cans");
        bay.apply(Action::TakeCan).unwrap();
        assert!(ideas(&bay).contains(&Idea::CanAbove));
    }

    #[test]
    fn an_open_high_valve_on_a_running_vehicle_is_the_first_thing_told() {
        let mut bay = opened("healthy", &[], 60);
        bay.apply(Action::TakeCan).unwrap();
        bay.apply(Action::Tap { on: true }).unwrap();
        bay.apply(Action::HighValve {
            open: lowside_units::Ratio::from_si(0.5),
        })
        .unwrap();
        for _ in 0..100 {
            bay.step().expect("the engine goes on");
        }
        assert_eq!(ideas(&bay)[0], Idea::FallsIntoCan);
    }
}
