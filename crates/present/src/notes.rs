//! What the drawing of levels has to say now: one idea each, with the height it points at.
//!
//! Each note is a fact of the moment (pressures compared with the surroundings, with the can, with the room); the sentences are the
//! page's. The most urgent come first; a drawing shows three at most.

use lowside_fluids::{table::Table, water};
use lowside_plant::state::State;
use lowside_session::Bay;
use lowside_shop::can::BURST;
use lowside_units::{
    AbsolutePressure, GaugePressure, PressureDifference, Quantity, Temperature,
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
    /// Air flows into the loop through what stands open on it.
    AirIntoLoop,
    /// A running low side stands below the atmosphere: a leak would draw air in.
    BelowAtmosphere,
    /// Refrigerant escapes into the room.
    Escapes,
    /// Air holds the high side, or the loop at rest, so far above what the refrigerant alone has at its temperature.
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
    /// Boiling has cooled the can down to the low side.
    CanSunk,
    /// The can stands no higher than the low side, and not because it is cold.
    CanLevel,
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
/// A can this much colder than the day has been cooled by boiling, K.
const COOLED: f64 = 3.0;
/// Difference of heights below which two things stand level.
pub(crate) const LEVEL: f64 = 0.012;

/// Notes of the moment, the most urgent first.
pub fn of(bay: &Bay, units: UnitSystem) -> Vec<Note> {
    let mut notes = Vec::new();
    shop(bay, units, &mut notes);
    vehicle(bay, units, &mut notes);
    notes
}

/// Puts a note where its urgency has it.
pub(crate) fn add(notes: &mut Vec<Note>, note: Note) {
    let at = notes.partition_point(|n| n.idea <= note.idea);
    notes.insert(at, note);
}

fn difference(pa: f64, units: UnitSystem) -> Shown {
    display::pressure_difference(PressureDifference::from_pa(pa.max(0.0)), units)
}

/// What concerns can, hoses and room.
fn shop(bay: &Bay, units: UnitSystem, notes: &mut Vec<Note>) {
    let (plant, shop) = (bay.plant(), bay.shop());
    let (net, c, q) = (&plant.network, &plant.circuit, shop.manifold);
    let air = plant.day().p;
    let (high, low) = (
        net.node(c.high_side()).state.p,
        net.node(c.low_side()).state.p,
    );
    let at = |pa: f64| height(pa, air);
    let mut put = |idea, spot, pa: f64, shown| {
        let height = at(pa);
        add(
            notes,
            Note {
                idea,
                spot,
                height,
                shown,
            },
        );
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
    let coupled = [shop.hands.low_coupled, shop.hands.high_coupled];
    if shop
        .openings
        .draws(net, coupled)
        .is_some_and(|(_, kg_s)| kg_s > RUNS)
    {
        put(
            Idea::AirIntoLoop,
            Spot::Low,
            low,
            difference(air - low, units),
        );
    }
    let Some(can) = shop.hands.attached.can().filter(|c| !c.burst) else {
        return;
    };
    let inside = net.node(q.can).state.p;
    if can.open() && net.link(q.high_valve).flow < -RUNS && high > inside {
        put(
            Idea::FallsIntoCan,
            Spot::Can,
            inside,
            difference(high - inside, units),
        );
    } else if high - air > BURST {
        put(
            Idea::AboveBurst,
            Spot::High,
            high,
            difference(high - air - BURST, units),
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
        let t = net.node(q.can).state.t;
        let cooled = can.bath.is_none() && t < plant.day().t - COOLED;
        let idea = if cooled {
            Idea::CanSunk
        } else {
            Idea::CanLevel
        };
        put(
            idea,
            Spot::Can,
            inside,
            display::temperature(Temperature::from_k(t), units),
        );
    }
}

/// How far a volume's pressure stands above what its refrigerant alone has at its temperature, Pa.
fn over_refrigerant(s: &State, table: &Table) -> f64 {
    if s.m_liq > 0.0 {
        s.p - table.p_sat(s.t)
    } else {
        s.p_air
    }
}

/// What concerns the loop.
fn vehicle(bay: &Bay, units: UnitSystem, notes: &mut Vec<Note>) {
    let plant = bay.plant();
    let (net, c, day) = (&plant.network, &plant.circuit, plant.day());
    let table = net.table();
    let (top, bottom) = (
        &net.node(c.condenser.outlet()).state,
        &net.node(c.low_side()).state,
    );
    let at = |pa: f64| height(pa, day.p);
    let warmth = |k: f64| display::temperature(Temperature::from_k(k), units);
    let mut put = |idea, spot, pa: f64, shown| {
        let height = at(pa);
        add(
            notes,
            Note {
                idea,
                spot,
                height,
                shown,
            },
        );
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
    let runs = net.link(c.compressor()).flow > 1e-3;
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
            difference(over_refrigerant(top, table), units),
        );
    } else if !runs && level {
        let liquid: f64 = plant.volumes().map(|n| n.state.m_liq).sum();
        let outside = at(table.p_sat(day.t));
        if liquid < 1e-4 {
            put(
                Idea::AllVapour,
                Spot::Low,
                bottom.p,
                display::gauge_pressure(GaugePressure::from_pa(bottom.p - day.p), units),
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
    use lowside_session::{HoseAct, Scenario, VesselAct, acts, library};

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
            .node(bay.plant().circuit.low_side())
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
        bay.apply(HoseAct::LowValve {
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
        bay.apply(VesselAct::TakeCan).unwrap();
        assert!(ideas(&bay).contains(&Idea::CanAbove));
    }

    #[test]
    fn an_open_high_valve_on_a_running_vehicle_is_the_first_thing_told() {
        let mut bay = opened("healthy", &[], 60);
        bay.apply(VesselAct::TakeCan).unwrap();
        bay.apply(VesselAct::Tap { on: true }).unwrap();
        bay.apply(HoseAct::HighValve {
            open: lowside_units::Ratio::from_si(0.5),
        })
        .unwrap();
        for _ in 0..100 {
            bay.step().expect("the engine goes on");
        }
        assert_eq!(ideas(&bay)[0], Idea::FallsIntoCan);
        // With its tap shut nothing falls into it.
        bay.apply(VesselAct::Tap { on: false }).unwrap();
        for _ in 0..10 {
            bay.step().expect("the engine goes on");
        }
        assert!(
            !ideas(&bay).contains(&Idea::FallsIntoCan),
            "{:?}",
            ideas(&bay)
        );
    }

    /// At rest at 35 degC a can in the shade, one in warm water and the loop stand by their own temperatures: none was cooled by boiling.
    #[test]
    fn a_can_that_boiling_has_not_cooled_is_not_told_to_be_warmed() {
        let parked = ["engine.on=false", "controls.ac=false"];
        for bath in [None, Some(35.0)] {
            let mut bay = opened("healthy", &parked, 1);
            bay.apply(VesselAct::TakeCan).unwrap();
            let temperature = bath.map(Temperature::from_deg_c);
            bay.apply(VesselAct::Bath { temperature }).unwrap();
            for _ in 0..100 {
                bay.step().expect("the engine goes on");
            }
            let told = ideas(&bay);
            assert!(told.contains(&Idea::CanLevel), "{bath:?}: {told:?}");
            assert!(!told.contains(&Idea::CanSunk), "{bath:?}: {told:?}");
        }
    }

    /// Dalton: at rest at one temperature air adds its own pressure, so the gauge of a loop with air stands as much higher than one without
    /// as the note says, in psi.
    #[test]
    fn trapped_air_is_told_by_what_the_gauge_shows_of_it() {
        let parked = ["engine.on=false", "controls.ac=false"];
        let gauge = |air: &str| {
            let bay = opened("healthy", &[&parked[..], &[air]].concat(), 120);
            let outlet = bay.plant().circuit.condenser.outlet();
            let node = bay.plant().network.node(outlet);
            let note = of(&bay, UnitSystem::US)
                .into_iter()
                .find(|n| n.idea == Idea::AirOnTop);
            (node.state.p, note)
        };
        let ((with, told), (without, none)) = (gauge("start.air=4 g"), gauge("start.air=1 mg"));
        assert_eq!(none, None);
        let shown = told.expect("air is told").shown;
        assert_eq!(shown.unit, "psi");
        let said: f64 = shown.number.parse().expect("a number");
        let rise = (with - without) / 6894.757;
        assert!(rise > 10.0, "{rise} psi");
        assert!((said - rise).abs() <= 1.5, "{said} told, {rise} risen");
    }

    #[test]
    fn no_difference_is_told_in_a_gauge_s_unit() {
        let mut bay = opened("healthy", &[], 60);
        let mut told = Vec::new();
        let acts = acts![
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            HoseAct::Purge { on: true },
            HoseAct::HighValve {
                open: lowside_units::Ratio::from_si(0.5),
            },
        ];
        for act in acts {
            bay.apply(act).unwrap();
            for _ in 0..50 {
                bay.step().expect("the engine goes on");
                told.extend(of(&bay, UnitSystem::US));
            }
        }
        let differs = [
            Idea::FallsIntoCan,
            Idea::AboveBurst,
            Idea::AirFallsIn,
            Idea::Escapes,
            Idea::AirOnTop,
            Idea::CanAbove,
        ];
        let differences: Vec<_> = told.iter().filter(|n| differs.contains(&n.idea)).collect();
        assert!(differences.iter().any(|n| n.idea == Idea::Escapes));
        assert!(
            differences.iter().all(|n| n.shown.unit == "psi"),
            "{told:?}"
        );
    }
}
