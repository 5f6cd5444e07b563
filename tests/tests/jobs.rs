//! Every job card is done well once and badly at least twice, by scripts in `tests/data/jobs`; what the bad ones do to the
//! vehicle is asserted here. Outcomes are common practice where no source is named.

use std::{collections::BTreeMap, fs, path::Path};

use lowside_lessons::{JobCard, Progress, library};
use lowside_session::{Bay, Event, scenario::script, script::Player};

/// A minute and a half after the last act.
const THEN: u32 = 4500;

fn texts() -> BTreeMap<String, String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/jobs");
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
        bay.step();
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
        let path = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../scenarios/lessons")
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
    let (card, _, progress) = work(&format!("{name}.good"));
    let steps = progress.steps(&card);
    assert!(progress.passed(&card), "{name}: {steps:?}");
    assert_eq!(harms(&card, &progress), Vec::<String>::new(), "{name}");
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
    let can = &bay.plant().network.node(bay.shop().places.can).state;
    assert!(can.m_liq > 0.1, "{:.3} kg fell into the can", can.m_liq);
}

#[test]
fn first_charge_with_six_cans() {
    let (card, bay, progress) = work("1-first-charge.bad-six-cans");
    assert!(!progress.passed(&card));
    assert!(seen(&bay, Event::LiquidAtCompressor));
    assert!(bay.charge() > 1.6, "{:.2} kg", bay.charge());
}
