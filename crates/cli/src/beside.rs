//! `--beside`: the same bay with changes, run beside the first.

use crate::{failure::Failure, open, text::quoted};
use lowside_session::{
    Bay, Change, Twin,
    script::Act,
    summary::{Summary, Window},
};

/// Option by which a run gets a bay beside it.
const OPTION: &str = "--beside";
/// Key of the change that leaves out an act.
const WITHOUT: &str = "without";

/// What numbers an act.
#[derive(Debug, Clone, Copy)]
pub(crate) enum ActsOf<'a> {
    /// Its place in a script.
    Script(&'a [Act]),
    /// Its place in a log of so many.
    Log(usize),
}

impl ActsOf<'_> {
    /// The place in the log, from 0, of an act numbered from 1.
    fn in_log(self, number: &str) -> Result<usize, String> {
        let most = match self {
            Self::Script(acts) => acts.len(),
            Self::Log(acts) => acts,
        };
        let index = number.parse().ok().and_then(|n: usize| n.checked_sub(1));
        let Some(index) = index.filter(|i| *i < most) else {
            let number = quoted(number);
            return Err(if most == 0 {
                format!("{WITHOUT}: {number} names no act; there is none")
            } else {
                format!("{WITHOUT}: {number} is outside 1 to {most}, the number of acts")
            });
        };
        let Self::Script(acts) = self else {
            return Ok(index);
        };
        if acts[index].act.is_none() {
            let number = index + 1;
            return Err(format!(
                "{WITHOUT}: act {number} only waits; nothing is left out"
            ));
        }
        // An act that only waits is not in the log.
        Ok(acts[..index].iter().filter(|a| a.act.is_some()).count())
    }
}

/// A bay beside the one that runs.
#[derive(Debug)]
pub(crate) struct Beside {
    /// Its changes, as they were asked for.
    pub(crate) changes: String,
    pub(crate) twin: Twin,
    window: Window,
}

impl Beside {
    /// Opens one with the changes of a text: `PATH=VALUE` or `without=N`, parted by commas.
    ///
    /// # Errors
    /// [`Failure::Asked`] naming the change and what is allowed.
    pub(crate) fn open(first: &Bay, changes: &str, acts: ActsOf<'_>) -> Result<Self, Failure> {
        let (mut list, mut sets) = (Vec::new(), Vec::new());
        for change in parts(changes) {
            match change.split_once('=') {
                Some((key, number)) if key.trim() == WITHOUT => {
                    let act = acts
                        .in_log(number.trim())
                        .map_err(|e| Failure::Asked(format!("{OPTION}: {e}")))?;
                    list.push(Change::LeaveOut(act));
                }
                _ => sets.push(change.to_owned()),
            }
        }
        let scenario = open::changed(first.scenario(), OPTION, &sets)?;
        list.push(Change::Start(Box::new(scenario)));
        let twin = Twin::new(first, &list).map_err(|e| Failure::Asked(format!("{OPTION}: {e}")))?;
        Ok(Self {
            changes: changes.trim().to_owned(),
            twin,
            window: Window::default(),
        })
    }

    /// Goes on to where the first bay is; call it after each of its ticks.
    pub(crate) fn follow(&mut self, first: &Bay) {
        let before = self.twin.bay().tick();
        self.twin.follow(first);
        if self.twin.bay().tick() > before {
            self.window.take(self.twin.bay());
        }
    }

    /// Its numbers; none when it halted and stands at another time than the first.
    pub(crate) fn summary(&self) -> Option<Summary> {
        (self.twin.halt().is_none()).then(|| self.window.summary(self.twin.bay()))
    }
}

/// Parts a text at its commas, but for those inside brackets or quotes.
fn parts(text: &str) -> impl Iterator<Item = &str> {
    let (mut depth, mut quote) = (0_usize, false);
    text.split(move |c| {
        match c {
            '"' => quote = !quote,
            '[' | '{' if !quote => depth += 1,
            ']' | '}' if !quote => depth = depth.saturating_sub(1),
            _ => {}
        }
        c == ',' && depth == 0 && !quote
    })
    .map(str::trim)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn commas_inside_a_value_part_nothing() {
        let text = "a=1, b=[{at=\"x, y\",rate=\"2\"}],name=\"c, d\"";
        let found: Vec<&str> = parts(text).collect();
        assert_eq!(
            found,
            ["a=1", "b=[{at=\"x, y\",rate=\"2\"}]", "name=\"c, d\""]
        );
        assert_eq!(parts("]]a,b").collect::<Vec<_>>(), ["]]a", "b"]);
    }
}
