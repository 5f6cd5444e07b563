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
    let skipped = replay.skipped();
    let first: Vec<String> = skipped
        .iter()
        .take(TOLD)
        .map(|s| format!("act {} ({})", s.index + 1, s.why))
        .collect();
    let left = match (skipped.len(), skipped.len().saturating_sub(TOLD)) {
        (0, _) => String::new(),
        (all, 0) => format!(
            "; left out, since they are refused here: {all}: {}",
            first.join("; ")
        ),
        (all, more) => format!(
            "; left out, since they are refused here: {all}: {}; and {more} more",
            first.join("; ")
        ),
    };
    // A closed stderr is no reason to withhold the answer.
    let _ = writeln!(
        stderr().lock(),
        "lowside: {}: {why}, so its end cannot be compared with this one{left}",
        name.display()
    );
}
