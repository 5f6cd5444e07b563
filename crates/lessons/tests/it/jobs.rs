//! Every job card is done well once and badly at least twice, by scripts in `tests/data/jobs`; what the bad ones do to the
//! vehicle is asserted here. Outcomes are common practice where no source is named.

use std::{collections::BTreeMap, fs};

use lowside_fluids::Refrigerant;
use lowside_lessons::{JobCard, Progress, library};
use lowside_plant::species::{OIL, WATER};
use lowside_session::{
    Bay, Event, TICKS_PER_SECOND, VehicleAct, acts, predicate::Predicate, scenario::script,
    script::Player,
};
use lowside_shop::{
    conversion::{Breach, breaches},
    label::Line,
    ledger::Place,
    record::Prices,
};

/// A minute and a half after the last act.
const THEN: u32 = 4500;

fn texts() -> BTreeMap<String, String> {
    let folder = lowside_tests::data().join("jobs");
    let files = fs::read_dir(folder).expect("the scripts are there");
    files
        .map(|f| f.expect("a file").path())
        .map(|f| {
            let name = f
                .file_stem()
                .expect("a name")
                .to_string_lossy()
                .into_owned();
            (name, fs::read_to_string(f).expect("text"))
        })
        .collect()
}

/// Plays a script on a card.
fn work(name: &str) -> (JobCard, Bay, Progress) {
    let card = name.split('.').next().expect("a card's name");
    let card = library::card(card).unwrap_or_else(|| panic!("{card} is shipped and reads"));
    let text = &texts()[name];
    let acts = script(text).unwrap_or_else(|e| panic!("{name}: {e}"));
    let mut bay = Bay::new(&card.scenario);
    let mut progress = Progress::new(&card);
    let mut player = Player::new(&acts);
    let mut rest = THEN;
    while rest > 0 {
        player.play(&mut bay).unwrap_or_else(|(i, why)| {
            panic!("{name}: act {} at {} s: {why}", i + 1, bay.seconds())
        });
        rest -= u32::from(player.done());
        bay.step().expect("the engine goes on");
        progress.look(&card, &bay);
    }
    // every gram is found again, whatever was done
    assert!(bay.mass_error() < 1e-9, "{name}: {}", bay.mass_error());
    assert!(bay.energy_error() < 1e-9, "{name}: {}", bay.energy_error());
    (card, bay, progress)
}

/// English titles of the harms that happened.
fn harms(card: &JobCard, progress: &Progress) -> Vec<String> {
    let happened = card.harm.iter().zip(progress.harms());
    happened
        .filter(|(_, t)| t.is_some())
        .map(|(h, _)| h.title.en.clone())
        .collect()
}

fn seen(bay: &Bay, event: Event) -> bool {
    bay.events().iter().any(|(_, e)| *e == event)
}

#[test]
fn every_card_reads_and_has_one_good_script_and_two_bad_ones() {
    let texts = texts();
    for name in library::names() {
        let card = library::card(name).unwrap_or_else(|| panic!("{name} reads"));
        let path = lowside_tests::root()
            .join("scenarios/lessons")
            .join(format!("{name}.toml"));
        let written = JobCard::parse(&fs::read_to_string(path).expect("text"));
        assert_eq!(written, Ok(card), "{name}");
        let with = |kind: &str| {
            texts
                .keys()
                .filter(|k| k.starts_with(&format!("{name}.{kind}")))
                .count()
        };
        assert_eq!(with("good"), 1, "{name}");
        assert!(with("bad-") >= 2, "{name}");
    }
}

fn well_done(name: &str) {
    let (card, bay, progress) = work(&format!("{name}.good"));
    let steps = progress.steps(&card);
    assert!(progress.passed(&card), "{name}: {steps:?}");
    assert_eq!(harms(&card, &progress), Vec::<String>::new(), "{name}");
    takes_as_long_as_it_says(name, &card, &bay);
}

/// The minutes on a card are those of whoever knows how: the script's, rounded.
fn takes_as_long_as_it_says(name: &str, card: &JobCard, bay: &Bay) {
    let took = (bay.tick() - u64::from(THEN)) as f64 / TICKS_PER_SECOND as f64 / 60.0;
    let says = f64::from(card.minutes);
    assert!(
        (0.75 * took..=1.35 * took).contains(&says),
        "{name}: the card says {says} min, the script took {took:.0}"
    );
}

#[test]
fn first_charge_done_well() {
    well_done("1-first-charge");
}

/// With the low valve shut and the high one open the running loop pushes its gas back into the can.
#[test]
fn first_charge_by_the_wrong_valve() {
    let (card, bay, progress) = work("1-first-charge.bad-high-valve");
    assert!(!progress.passed(&card));
    assert!(harms(&card, &progress)[0].starts_with("High hand valve"));
    // it was given up as empty of liquid
    let can = &bay.plant().network.node(bay.shop().manifold.can).state;
    assert!(can.m_liq > 0.1, "{:.3} kg fell into the can", can.m_liq);
}

#[test]
fn first_charge_with_six_cans() {
    let (card, bay, progress) = work("1-first-charge.bad-six-cans");
    assert!(!progress.passed(&card));
    assert!(seen(&bay, Event::LiquidAtCompressor));
    assert!(bay.charge() > 1.6, "{:.2} kg", bay.charge());
}

/// A bad script does not pass, and leaves the bay as it says.
fn badly_done(name: &str, outcome: &[&str]) -> (JobCard, Bay, Progress) {
    let (card, bay, progress) = work(name);
    assert!(!progress.passed(&card), "{name} passed");
    for text in outcome {
        let condition: Predicate = text.parse().expect("a condition");
        let value = condition.reading.value(&bay);
        assert!(condition.holds(&bay), "{name}: not {text}, but {value}");
    }
    (card, bay, progress)
}

/// Water anywhere in the loop, be it bound, kg.
fn water(bay: &Bay) -> f64 {
    let entries = bay.ledger();
    let inside = entries.iter().filter(|e| {
        matches!(
            e.place,
            Place::DischargeLine
                | Place::Condenser
                | Place::LiquidLine
                | Place::Evaporator
                | Place::Accumulator
                | Place::SuctionLine
        )
    });
    inside.map(|e| e.content[WATER]).sum()
}

#[test]
fn low_charge_well_and_badly() {
    well_done("2-low-charge");
    badly_done("2-low-charge.bad-top-up", &["charge > 1.1 kg"]);
    badly_done("2-low-charge.bad-vent", &["vented > 300 g"]);
    // 70 g a year for six years are what was gone: so will they be again.
    let leak = ["leaks > 69 g/yr", "leaks < 71 g/yr", "charge > 34 oz"];
    badly_done("2-low-charge.bad-leak-left", &leak);
}

/// Of the 3.6 g of air that a never-evacuated loop holds, a standing pressure shows what blowing off does not cure.
#[test]
fn air_inside_well_and_badly() {
    well_done("3-air-inside");
    let (_, bay, _) = badly_done("3-air-inside.bad-leave-it", &["air > 3.5 g"]);
    let over = bay.plant().volumes().map(|n| n.state.p_air);
    let over = over.fold(0.0, f64::max);
    assert!(over > 50e3, "{over:.0} Pa of air over what boils");
    badly_done(
        "3-air-inside.bad-purge-by-feel",
        &["air > 1 g", "vented > 90 g"],
    );
}

/// 20 inHg of vacuum leave more than nine tenths of the water: it would boil there at 72 degC (IAPWS).
#[test]
fn drying_well_and_badly() {
    well_done("4-vacuum-that-dries");
    let (_, bay, _) = badly_done("4-vacuum-that-dries.bad-20-inhg", &[]);
    assert!(water(&bay) > 4.5e-3, "{:.2} g of water", water(&bay) * 1e3);
    let (_, bay, _) = badly_done("4-vacuum-that-dries.bad-too-short", &[]);
    assert!(water(&bay) > 1e-3, "{:.2} g of water", water(&bay) * 1e3);
    // The bag that comes first drinks; the old one keeps nearly all of its ten grams.
    badly_done(
        "4-vacuum-that-dries.bad-accumulator-first",
        &["desiccant_water > 300 mg"],
    );
    badly_done(
        "4-vacuum-that-dries.bad-old-bag",
        &["desiccant_water > 10 g"],
    );
}

/// No vacuum dries a full desiccant (a trade association's article on it); an accumulator that is changed without one leaves air.
#[test]
fn left_open_well_and_badly() {
    well_done("5-left-open");
    badly_done("5-left-open.bad-only-vacuum", &["desiccant_water > 5 g"]);
    badly_done("5-left-open.bad-no-vacuum", &["air > 3 g"]);
    // Two of its eight ounces went out with the old accumulator.
    badly_done("5-left-open.bad-no-oil", &["oil_volume < 6.5 fl oz"]);
}

/// A dry O-ring leaks under pressure and not in vacuum.
#[test]
fn dry_o_ring_well_and_badly() {
    well_done("6-dry-o-ring");
    badly_done(
        "6-dry-o-ring.bad-vacuum-only",
        &["leaks > 300 g/yr", "air < 60 mg"],
    );
    badly_done("6-dry-o-ring.bad-dry-again", &["leaks > 100 g/yr"]);
    // Tight, and not proved; then a leak that a search in the fan's wind does not find, which proves nothing.
    let (card, bay, progress) = badly_done("6-dry-o-ring.bad-no-search-after", &["leaks < 4 g/yr"]);
    assert_eq!(progress.next(&card), Some(5));
    assert!(!bay.shop().repairs_cleared());
    let (_, bay, _) = badly_done("6-dry-o-ring.bad-search-in-draught", &["leaks > 100 g/yr"]);
    let shop = bay.shop();
    assert!(shop.search.iter().flatten().all(|f| !f.found));
    assert!(!shop.repairs_cleared());
    badly_done(
        "6-dry-o-ring.bad-under-pressure",
        &["hurt is on", "vented > 5 g"],
    );
}

#[test]
fn clogged_screen_well_and_badly() {
    well_done("7-clogged-screen");
    badly_done("7-clogged-screen.bad-more-gas", &["charge > 1.4 kg"]);
    // All of the job is done, and liquid goes past the tube: the one step that says so stays open.
    let (card, _, progress) = badly_done("7-clogged-screen.bad-no-rings", &[]);
    assert_eq!(progress.next(&card), Some(6));
    // It cools at the end, and an afternoon's driving later the new screen is closed again.
    let name = "7-clogged-screen.bad-cause-not-found";
    let (card, mut bay, progress) = badly_done(name, &["loose_beads > 40 g"]);
    assert_eq!(progress.next(&card), Some(3));
    let open = bay.plant().orifice_clean();
    for act in acts![
        VehicleAct::Engine { on: true },
        VehicleAct::AirConditioning { on: true },
    ] {
        bay.apply(act).expect("a van that starts");
    }
    for _ in 0..90 * 60 * TICKS_PER_SECOND {
        bay.step().expect("the engine goes on");
    }
    let later = bay.plant().orifice_clean();
    assert!(open > 0.9 && later < 0.5, "open {open:.2}, then {later:.2}");
}

#[test]
fn overfilled_well_and_badly() {
    well_done("8-overfilled");
    badly_done("8-overfilled.bad-let-some-out", &["vented > 90 g"]);
    let (_, bay, _) = badly_done("8-overfilled.bad-run-on", &["charge > 1.6 kg"]);
    assert!(seen(&bay, Event::LiquidAtCompressor));
}

/// Four faults that no gas cures; a card passes on what is read after the repair, and a can is told as harm. Without its fan a condenser
/// has the wind alone, a hot day asks more of a sound loop, a blend door mixes behind the coil: common practice, no source.
#[test]
fn no_gas_missing_well_and_badly() {
    for name in ["look-first", "hot-day", "fine-then-nothing", "cold-pipes"] {
        well_done(name);
    }
    for name in [
        "look-first.bad-more-gas",
        "hot-day.bad-a-can",
        "fine-then-nothing.bad-more-gas",
        "cold-pipes.bad-more-gas",
    ] {
        let (card, _, progress) = badly_done(name, &["charge > 1.2 kg"]);
        let told = harms(&card, &progress);
        assert!(told.iter().any(|h| h.starts_with("Gas added")), "{name}");
    }
    // The wind hides the fan, a minute says nothing of a day, five minutes nothing of ice, and a cold pipe nothing of the air.
    for (name, open) in [
        ("look-first.bad-road-test", 0),
        ("hot-day.bad-no-test", 0),
        ("fine-then-nothing.bad-five-minutes", 1),
        ("cold-pipes.bad-neighbour", 1),
    ] {
        let (card, _, progress) = badly_done(name, &["charge < 1.04 kg"]);
        assert_eq!(progress.next(&card), Some(open), "{name}");
    }
}

/// At rest the gauges of a van with three fifths of its charge stand at the vapour pressure of R-134a at 30 degC, 669 kPa gauge
/// (CoolProp 8.0.0, as below).
#[test]
fn pressure_at_rest_well_and_badly() {
    well_done("pressure-is-fine");
    let (card, bay, progress) = badly_done("pressure-is-fine.bad-gauges-only", &["charge < 620 g"]);
    assert_eq!(progress.next(&card), Some(2));
    let noted = bay.shop().noted[0].expect("noted");
    for gauge in [noted.low, noted.high] {
        assert!((gauge - 669e3).abs() < 20e3, "{gauge:.0} Pa");
    }
    let (card, _, progress) = badly_done("pressure-is-fine.bad-top-up", &["charge > 900 g"]);
    assert_eq!(progress.next(&card), Some(1));
}

/// What is left at zero on the gauge comes back: the rebound after recovery, common practice.
#[test]
fn recovery_well_and_badly() {
    well_done("take-it-out");
    let (card, _, progress) = badly_done("take-it-out.bad-stops-at-zero", &["low > 3 psig"]);
    assert_eq!(progress.next(&card), Some(1));
    let (card, _, progress) = badly_done("take-it-out.bad-vent", &["vented > 800 g"]);
    assert!(harms(&card, &progress)[0].starts_with("Refrigerant let out"));
}

#[test]
fn mixture_well_and_badly() {
    well_done("bought-used");
    let (card, _, progress) = badly_done("bought-used.bad-recovered", &["recovered > 900 g"]);
    assert!(harms(&card, &progress)[0].starts_with("A mixture"));
    let (card, _, progress) = badly_done("bought-used.bad-topped-up", &["charge > 1.2 kg"]);
    assert_eq!(progress.next(&card), Some(0));
}

/// Sixteen rungs, none twice, each with the belief it is for.
#[test]
fn the_ladder_has_sixteen_rungs() {
    let cards: Vec<JobCard> = library::names().filter_map(library::card).collect();
    let rungs: Vec<u32> = cards.iter().map(|c| c.rung).collect();
    assert_eq!(rungs, (1..=16).collect::<Vec<u32>>());
    assert!(cards.iter().all(|c| c.misconception.is_some()));
}

/// What the card's identifier shows at the end, and pressure over the room's at rest, Pa.
fn sample(bay: &Bay) -> (f64, f64) {
    let (net, c) = (&bay.plant().network, &bay.plant().circuit);
    let shares = bay.shop().identifier.result().expect("a result");
    let low = net.node(c.low_side()).state.p - bay.plant().day().p;
    (shares.purity(), low)
}

/// Standing pressures at 30 degC: R-12 643 and R-134a 669 kPa gauge, the two in equal shares 836 (CoolProp 8.0.0, between the rows
/// of `tests/data/r12_r134a_saturation.csv`). 75 to 85 % of the R-12 mass is common practice (SAE J1661; from memory): the whole of it
/// is an over-charge. R-134a does not carry mineral oil back, and the compressor runs dry.
#[test]
fn retrofit_well_and_badly() {
    let (card, good, progress) = work("9-retrofit.good");
    takes_as_long_as_it_says("9-retrofit", &card, &good);
    assert!(progress.passed(&card), "{:?}", progress.steps(&card));
    assert_eq!(harms(&card, &progress), Vec::<String>::new());
    let record = good.record(&Prices::default());
    assert_eq!(
        (record.built_for, record.gas),
        (Refrigerant::R12, Refrigerant::R134a)
    );
    assert_eq!(breaches(&record), []);
    assert!(record.other_gas < 0.02, "{}", record.other_gas);
    let wear = good.plant().wear();
    assert!(wear < 0.02, "{wear}");

    let (card, bay, progress) = badly_done(
        "9-retrofit.bad-on-top",
        &["r12 > 30 %", "hurt is on", "vented > 30 g"],
    );
    let (purity, standing) = sample(&bay);
    assert!(purity < 0.9, "{purity}");
    assert!((standing - 836e3).abs() < 15e3, "{standing:.0} Pa");
    assert!(harms(&card, &progress)[0].starts_with("Two gases"));
    assert!(breaches(&bay.record(&Prices::default())).contains(&Breach::OldGas));

    // What US rules ask of the label: 40 CFR 82 subpart G, appendix D.
    let (_, bay, _) = badly_done(
        "9-retrofit.bad-half-a-label",
        // Half a label is none: it takes no tick of its own.
        &["conversion_in_order is off", "label is off"],
    );
    let lines = [
        Line::Technician,
        Line::Shop,
        Line::Date,
        Line::OilMaker,
        Line::OilVolume,
        Line::OldCovered,
    ];
    let lacks = breaches(&bay.record(&Prices::default()));
    assert_eq!(lacks, lines.map(Breach::LabelLine));

    let (_, full, _) = badly_done("9-retrofit.bad-full-mass", &["charge > 1200 g"]);
    let head = |bay: &Bay| bay.shop().noted[1].expect("noted").high;
    let over = head(&full) - head(&good);
    assert!(over > 40e3, "{over:.0} Pa more head");

    let (_, bay, _) = badly_done("9-retrofit.bad-old-oil", &["wear > 50 %"]);
    let plant = bay.plant();
    let cells = plant.circuit.evaporator.nodes().iter();
    let parked: f64 = cells.map(|id| plant.network.node(*id).content[OIL]).sum();
    assert!(
        parked > 0.1,
        "{parked:.3} kg of mineral oil lie in the evaporator"
    );
    let lacks = breaches(&bay.record(&Prices::default()));
    assert!(lacks.contains(&Breach::CutOut), "{lacks:?}");
}
