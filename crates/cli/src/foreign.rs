//! What is told of a take that was recorded under another physics.

use std::io::{Write, stderr};
use std::path::Path;

use lowside_session::{Take, take::Replay};

/// Refused acts that are named.
const TOLD: usize = 5;

/// Says on one line of stderr that the take's end cannot be compared and which acts were left out; nothing where it can.
pub(crate) fn tell(name: &Path, take: &Take, replay: &Replay<'_>) {
    if take.is_comparable() {
        return;
    }
    let why = match (take.is_own_physics(), &take.physics) {
        (true, _) => "a number in its end is none",
        (false, None) => "an earlier version recorded it",
        (false, Some(_)) => "it was recorded under another physics",
    };
    let mut line = format!("{why}, so its end cannot be compared with this one");
    let skipped = replay.skipped();
    if !skipped.is_empty() {
        let first = skipped.iter().take(TOLD);
        let first: Vec<String> = first
            .map(|s| format!("act {} ({})", s.index + 1, s.why))
            .collect();
        let more = match skipped.len().saturating_sub(TOLD) {
            0 => String::new(),
            more => format!("; and {more} more"),
        };
        line += &format!(
            "; acts that are refused here and were left out: {}: {}{more}",
            skipped.len(),
            first.join("; ")
        );
    }
    // A closed stderr is no reason to withhold the answer.
    let _ = writeln!(stderr().lock(), "lowside: {}: {line}", name.display());
}
