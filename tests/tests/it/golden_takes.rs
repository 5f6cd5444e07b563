//! Every take in `tests/takes` still ends, to the bit, where it ended when it was made.
//!
//! A take holds its own end hash, so any change of the physics, wanted or not, shows here. A wanted one is followed by
//! making the takes anew (the command stands in DEVELOPERS.md, "Golden takes") and by an entry under "Physics changed" in
//! CHANGELOG.md. Whether browser and native code agree is another question: `tests/browser/bits.test.mjs` asks it of the
//! same takes.

use std::{
    fs,
    path::{Path, PathBuf},
};

use lowside_session::{
    Action, Bay, Take, TakeError, VesselAct,
    take::{PHYSICS, physics_of},
};
use lowside_tests::root;

fn dir() -> PathBuf {
    root().join("tests/takes")
}

fn replayed(file: &Path) -> Bay {
    let name = file.display();
    let text = fs::read_to_string(file).unwrap_or_else(|e| panic!("{name}: {e}"));
    let mut take = Take::parse(&text).unwrap_or_else(|e| panic!("{name}: {e}"));
    // Whatever physics it names, it has to end there under this one.
    take.physics = None;
    assert!(take.is_comparable(), "{name}: its end cannot be compared");
    match take.resume() {
        Ok(bay) => bay,
        Err(e @ TakeError::Differs { .. }) => panic!(
            "{name}: {e}. If the physics was meant to change, make the takes anew (DEVELOPERS.md, \"Golden takes\") and \
             say so in CHANGELOG.md"
        ),
        Err(e) => panic!("{name}: {e}"),
    }
}

fn files() -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = fs::read_dir(dir())
        .expect("tests/takes is there")
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.sort();
    files
}

#[test]
fn every_take_ends_where_it_says() {
    let files = files();
    assert!(files.len() >= 2, "only {} takes", files.len());
    for file in &files {
        replayed(file);
    }
}

/// The physics that takes are recorded under is that of the golden takes' ends, which the test above holds to the engine.
#[test]
fn the_physics_is_named_after_the_golden_takes() {
    let ends: Vec<String> = files()
        .iter()
        .map(|file| {
            let text = fs::read_to_string(file).expect("a take");
            Take::parse(&text).expect("a take").hash
        })
        .collect();
    let ends: Vec<&str> = ends.iter().map(String::as_str).collect();
    assert_eq!(
        PHYSICS,
        physics_of(ends.iter().copied()),
        "the golden takes were made anew: run `cargo xtask physics`"
    );
    let mut others = ends;
    others.reverse();
    assert_ne!(PHYSICS, physics_of(others));
}

/// The takes hold what their names say, so that together they pass through vacuum, a can, purging and cycling.
#[test]
fn the_takes_hold_what_their_names_say() {
    let bay = replayed(&dir().join("charge-from-cans-6min.json"));
    assert!((bay.seconds() - 360.0).abs() < 1e-9, "{} s", bay.seconds());
    let taken = |(_, act): &&(u64, Action)| *act == VesselAct::TakeCan.into();
    assert!(bay.log().iter().filter(taken).count() >= 1, "no can taken");
    assert!(bay.charge() > 0.2, "{:.3} kg in the loop", bay.charge());

    let bay = replayed(&dir().join("healthy-cycling-4min.json"));
    assert!((bay.seconds() - 240.0).abs() < 1e-9, "{} s", bay.seconds());
    let cycles = bay.plant().drive.cycles;
    assert!(cycles >= 3, "the clutch pulled in {cycles} times");
}
