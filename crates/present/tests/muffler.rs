//! One more volume and link in the suction line, a muffler, changes no meaning of what is shown: every gauge, label, part, leak site and
//! record line stands for the same place as without it.

use lowside_lessons::Shown;
use lowside_plant::{circuit::Section, leak::Site, network::NodeId, species::REFRIGERANT};
use lowside_present::{
    UnitSystem,
    ledger::Ledger,
    levels::Levels,
    notes,
    parts::{
        Coat, Part, Parts, Tubes,
        inside::{self, Figure},
    },
    plot::Plot,
    readout::Readout,
};
use lowside_session::{Bay, Scenario, library};
use lowside_shop::{
    joints::Side,
    ledger::Place,
    meters::{self, Point},
    record::Prices,
};
use lowside_units::Quantity;

const UNITS: UnitSystem = UnitSystem::SI;
const MUFFLER: f64 = 200e-6;

fn healthy(overrides: &[&str], seconds: u32) -> Bay {
    let overrides: Vec<String> = overrides.iter().map(|o| (*o).to_owned()).collect();
    let text = library::scenario("healthy").expect("shipped");
    let mut bay = Bay::new(&Scenario::parse(text, &overrides).expect("sound"));
    for _ in 0..50 * seconds {
        bay.step().expect("the engine goes on");
    }
    bay
}

/// The same bay as it is shipped and with a muffler in the suction line, after so many seconds.
fn both(seconds: u32) -> [Bay; 2] {
    [&[][..], &["vehicle.suction_line.muffler=200cm3"]].map(|set| healthy(set, seconds))
}

fn name(bay: &Bay, node: NodeId) -> &'static str {
    bay.plant().network.node(node).name
}

fn held(bay: &Bay, section: &Section) -> f64 {
    let net = &bay.plant().network;
    let of = |id: &NodeId| net.node(*id).content.whole()[REFRIGERANT];
    section.nodes().iter().map(of).sum()
}

#[test]
fn it_is_one_volume_and_one_link_more() {
    let [plain, muffled] = both(0);
    let count = |bay: &Bay| {
        let net = &bay.plant().network;
        [net.nodes().len(), net.links().len()]
    };
    assert_eq!(count(&muffled), count(&plain).map(|n| n + 1));
    let line = &muffled.plant().circuit.suction_line;
    assert_eq!(line.nodes().len(), 2);
    assert_eq!(name(&muffled, line.inlet()), "muffler");
    assert_eq!(name(&muffled, line.outlet()), "suction line");
}

#[test]
fn gauges_ports_leaks_and_clamps_are_where_they_were() {
    let [plain, muffled] = both(60);
    for site in Site::ALL {
        let at = |bay: &Bay| name(bay, site.node(&bay.plant().circuit));
        assert_eq!(at(&muffled), at(&plain), "{site:?}");
    }
    for side in [Side::Low, Side::High] {
        let at = |bay: &Bay| name(bay, bay.shop().openings.port_node(side));
        assert_eq!(at(&muffled), at(&plain), "{side:?}");
    }
    let (plant, dials) = (muffled.plant(), &muffled.shop().instruments);
    let gauge = |id| plant.network.node(id).state.p - plant.day().p;
    let (low, high) = (
        gauge(plant.circuit.low_side()),
        gauge(plant.circuit.high_side()),
    );
    assert_eq!(name(&muffled, plant.circuit.low_side()), "accumulator");
    assert!(
        (dials.low.pointer() - low).abs() < 5e3,
        "{} {low}",
        dials.low.pointer()
    );
    assert!(
        (dials.high.pointer() - high).abs() < 20e3,
        "{} {high}",
        dials.high.pointer()
    );
    // The clamp sits at the compressor, behind the muffler, and misreads by 3 % of the gap to the hood.
    let t = plant.network.node(plant.circuit.compressor_inlet()).state.t;
    let read = meters::felt(plant, Point::Suction);
    assert!(
        (read - t - 0.03 * (plant.hood_t - t)).abs() < 1e-9,
        "{read} for {t}"
    );
}

#[test]
fn the_ledger_has_the_same_places_and_the_muffler_counts_as_suction_line() {
    let [plain, muffled] = both(60);
    let places = |bay: &Bay| -> Vec<Place> { bay.ledger().iter().map(|e| e.place).collect() };
    assert_eq!(places(&muffled), places(&plain));
    let ledger = muffled.ledger();
    let of = |place| {
        let entry = ledger.iter().find(|e| e.place == place);
        entry.expect("there").content[REFRIGERANT]
    };
    let c = &muffled.plant().circuit;
    let sections = [
        (Place::DischargeLine, &c.discharge_line),
        (Place::Condenser, &c.condenser),
        (Place::LiquidLine, &c.liquid_line),
        (Place::Evaporator, &c.evaporator),
        (Place::Accumulator, &c.accumulator),
        (Place::SuctionLine, &c.suction_line),
    ];
    let mut sum = 0.0;
    for (place, section) in sections {
        assert!(
            (of(place) - held(&muffled, section)).abs() < 1e-15,
            "{place:?}"
        );
        sum += of(place);
    }
    assert!((sum - muffled.charge()).abs() < 1e-12);
    assert!(muffled.ledger_gap() < 1e-9 && muffled.mass_error() < 1e-9);
    let muffler = muffled.plant().network.node(c.suction_line.inlet());
    assert!(muffler.content[REFRIGERANT] > 1e-4, "it holds gas");
    assert_eq!(
        Ledger::of(&muffled, UNITS).rows.len(),
        Ledger::of(&plain, UNITS).rows.len()
    );
}

#[test]
fn the_drawings_show_the_same_parts_at_the_same_places() {
    let [plain, muffled] = both(120);
    let (a, b) = (Levels::of(&plain, UNITS), Levels::of(&muffled, UNITS));
    let high = |l: &Levels| -> Vec<Part> { l.high_side().map(|(part, _)| part).collect() };
    assert_eq!(high(&b), high(&a));
    assert_eq!(b.evaporator.len(), a.evaporator.len());
    assert!((b.suction.volume - a.suction.volume - MUFFLER * 1e3).abs() < 1e-9);
    let plant = muffled.plant();
    let inlet = plant.network.node(plant.circuit.compressor_inlet());
    assert!((b.suction.t - (inlet.state.t - 273.15)).abs() < 1e-9);
    // What stands on the drawing stands within a hundredth of its height where it stood.
    for (a, b) in [
        (&a.suction, &b.suction),
        (&a.accumulator, &b.accumulator),
        (&a.liquid, &b.liquid),
    ] {
        assert!((a.height - b.height).abs() < 0.01, "{a:?} {b:?}");
    }
    let (a, b) = (Parts::of(&plain, UNITS), Parts::of(&muffled, UNITS));
    assert_eq!(
        (a.condenser.len(), a.evaporator.len()),
        (b.condenser.len(), b.evaporator.len())
    );
    // Frost is seen where the named place is below 0 degC: the day's dew point is 19.4 degC.
    for (bay, parts) in [(&plain, &a), (&muffled, &b)] {
        let c = &bay.plant().circuit;
        let Tubes {
            discharge,
            liquid,
            behind,
            cold,
            suction,
            ..
        } = parts.tubes;
        for (tube, node) in [
            (discharge, c.discharge_line.outlet()),
            (liquid, c.liquid_line.outlet()),
            (behind, c.evaporator.inlet()),
            (cold, c.evaporator.outlet()),
            (suction, c.compressor_inlet()),
        ] {
            let t = bay.plant().network.node(node).state.t - 273.15;
            assert!((tube.t - t).abs() < 1e-9, "{} for {t}", tube.t);
            assert_eq!(tube.coat == Coat::Frost, t < 0.01, "{tube:?}");
        }
    }
    let flow = plant.network.link(plant.circuit.pick_up()).flow * 1e3;
    assert!((b.tubes.suction.flow - flow).abs() < 1e-12);
    for part in Part::ALL {
        let (a, b) = (
            inside::open(&plain, part, UNITS),
            inside::open(&muffled, part, UNITS),
        );
        assert_eq!(
            (b.fill.len(), b.leaving.len()),
            (a.fill.len(), a.leaving.len()),
            "{part:?}"
        );
        // Superheat is told where there is some: that is the state's to say.
        let figures = |o: &inside::Opened| -> Vec<_> {
            let kinds = o.figures.iter().map(|f| f.0);
            kinds
                .filter(|kind| !matches!(kind, Figure::Superheat | Figure::Subcooling))
                .collect()
        };
        assert_eq!(figures(&b), figures(&a), "{part:?}");
    }
}

#[test]
fn charts_notes_readings_and_record_say_the_same() {
    let [plain, muffled] = both(120);
    for plot in Plot::ALL {
        let named = |bay: &Bay| -> Vec<_> {
            let dots = plot.live(bay, UNITS).dots;
            dots.iter().map(|d| (d.name, d.part)).collect()
        };
        assert_eq!(named(&muffled), named(&plain), "{plot:?}");
    }
    let ideas = |bay: &Bay| -> Vec<_> {
        notes::of(bay, UNITS)
            .iter()
            .map(|n| (n.idea, n.spot))
            .collect()
    };
    assert_eq!(ideas(&muffled), ideas(&plain));
    let numbers = |bay: &Bay| {
        let r = Readout::of(&Shown::of(bay), UNITS);
        [r.low, r.high, r.vent].map(|shown| shown.number.parse::<f64>().expect("a number"))
    };
    let (a, b) = (numbers(&plain), numbers(&muffled));
    for ((a, b), within) in a.into_iter().zip(b).zip([10.0, 30.0, 1.0]) {
        assert!((a - b).abs() < within, "{a} without, {b} with");
    }
    let keys = |bay: &Bay| -> Vec<String> {
        let record = bay.record(&Prices::default());
        let text = format!("{record:#?}");
        text.lines()
            .filter_map(|line| Some(line.split_once(':')?.0.to_owned()))
            .collect()
    };
    assert_eq!(keys(&muffled), keys(&plain));
    let label = |bay: &Bay| bay.plant().vehicle.label_charge.si();
    assert!((label(&muffled) - label(&plain)).abs() < 1e-12);
}
