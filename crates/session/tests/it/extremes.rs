//! Every field of a scenario at both ends of what its reader allows: nothing halts, nothing is no number, the books close.

use lowside_session::{Bay, Scenario, TICKS_PER_SECOND, library};
use lowside_shop::fault;

const TABLE: &str = include_str!("../../../../scenarios/README.md");
/// Bay time of each run, s.
const SECONDS: u64 = 20;
/// A loop with its charge and an evacuated one, both asked to run.
const STARTS: [&[&str]; 2] = [
    &["engine.on=true", "controls.ac=true", "controls.blower=4"],
    &[
        "engine.on=true",
        "controls.ac=true",
        "start.charge=0 g",
        "start.air=0 g",
    ],
];

/// Field and one end of its range, as the table of fields has them: "`start.air` | ... | 0 g to 20 g".
fn ends() -> Vec<String> {
    let rows = TABLE.lines().filter_map(|line| {
        let cells: Vec<&str> = line
            .split(" | ")
            .map(|c| c.trim_matches(['|', ' ']))
            .collect();
        let field = cells.first()?.strip_prefix('`')?.strip_suffix('`')?;
        let group = field.split_once('.')?.0;
        let settable =
            ["start", "day", "engine", "controls", "condition", "vehicle"].contains(&group);
        // Fields of a list are no fields of their own.
        let listed = ["restriction", "leak", "joint"]
            .iter()
            .any(|list| field.starts_with(&format!("condition.{list}.")));
        let range = cells.last()?.trim_start_matches("each ");
        let (least, most) = range.split_once(" to ")?;
        (settable && !listed && least.starts_with(|c: char| c.is_ascii_digit() || c == '-'))
            .then(|| [format!("{field}={least}"), format!("{field}={most}")])
    });
    // The least that a restriction may leave open, at each place; the most is a sound passage.
    let restrictions = fault::passages().map(|at| {
        let at = at.key();
        format!("condition.restriction=[{{at=\"{at}\",open=\"1 %\"}}]")
    });
    rows.flatten().chain(restrictions).collect()
}

#[test]
fn every_field_at_its_ends_is_sound() {
    let ends = ends();
    assert!(
        ends.len() > 150,
        "the table of fields is read: {}",
        ends.len()
    );
    let text = library::scenario("healthy").expect("shipped");
    let mut ran = 0;
    for end in &ends {
        for start in STARTS {
            let mut set: Vec<String> = start.iter().map(|s| (*s).to_owned()).collect();
            set.push(end.clone());
            // An end that other fields forbid is refused by name: a pressure switch that closes below where it opens.
            let Ok(scenario) = Scenario::parse(text, &set) else {
                continue;
            };
            ran += 1;
            let mut bay = Bay::new(&scenario);
            for _ in 0..SECONDS * TICKS_PER_SECOND {
                if let Err(halt) = bay.step() {
                    panic!("{set:?} at {} s: {halt}", bay.seconds());
                }
            }
            let (mass, energy) = (bay.mass_error(), bay.energy_error());
            assert!(mass < 1e-9 && energy < 1e-9, "{set:?}: {mass}, {energy}");
            for (part, t) in [
                ("vent", bay.plant().cabin.vent.t),
                ("hood", bay.plant().hood_t),
            ] {
                assert!((223.0..500.0).contains(&t), "{set:?}: {part} at {t} K");
            }
        }
    }
    assert!(ran > 280, "{ran} of {} ran", 2 * ends.len());
}
