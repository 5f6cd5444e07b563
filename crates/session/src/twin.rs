//! A bay beside a bay: another start or other acts, the same log, in step with the first.
//!
//! A twin answers "what if": how the visit would stand with another fault, another charge, one act left out. It takes nothing from the
//! bay it goes beside but reads its log and its clock, so any number can go beside one bay and none can stop it. What is equal is
//! shared: property tables, the data sheet, the scenario.

use std::sync::Arc;

use lowside_plant::halt::Halt;
use thiserror::Error;

use crate::{
    action::Action,
    bay::{Bay, Entered, Tick},
    scenario::Scenario,
};

mod abreast;
mod sound;

pub use abreast::Abreast;

/// One thing in which a twin differs from its bay.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// It starts as another scenario says: other faults, another charge, another day. [`Scenario::with`] makes one of `key=value`.
    Start(Box<Scenario>),
    /// It leaves out an act of the log, counted from 0; entries by whoever watches the bay do not count.
    LeaveOut(usize),
    /// It does one act more, at this tick, after those of the log.
    Add(Tick, Action),
}

/// A change that a twin cannot have.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum TwinError {
    /// A twin does the acts of its bay.
    #[error("act: a twin does the acts of the bay it goes beside; leave one out or add one")]
    Script,
    /// A twin runs as long as its bay.
    #[error("until: a twin runs as long as the bay it goes beside")]
    Until,
}

/// A bay that goes beside another.
///
/// It does the acts of the first at the same ticks. A script's `when` is looked at in the first alone. Acts that the twin's bay
/// refuses are skipped and counted. What was entered by whoever watches the first is of the first alone. A first bay that goes back in time
/// needs a new twin.
#[derive(Debug, Clone)]
pub struct Twin {
    bay: Bay,
    /// Tick of the first bay at which the twin's time begins.
    since: Tick,
    /// How much of the first bay's log is behind it, and the acts in that, without the entries.
    seen: usize,
    acts: usize,
    left_out: Vec<usize>,
    /// Acts of its own, the next one last.
    added: Vec<Entered>,
    refused: usize,
    /// It has no fault whatever is planted in the first.
    sound: bool,
}

impl Twin {
    /// Opens a twin at the start of the first bay's visit. [`Twin::follow`] brings it up to where the first is.
    ///
    /// # Errors
    /// [`TwinError`] when a scenario is to change what a twin takes from the first.
    pub fn new(first: &Bay, changes: &[Change]) -> Result<Self, TwinError> {
        let mut start = first.shared_scenario();
        let (mut left_out, mut added) = (Vec::new(), Vec::new());
        for change in changes {
            match change {
                Change::Start(scenario) => start = changed(first.scenario(), scenario)?,
                Change::LeaveOut(act) => left_out.push(*act),
                Change::Add(tick, action) => added.push((*tick, *action)),
            }
        }
        // Of two at one tick the first stated is done first.
        added.reverse();
        added.sort_by_key(|(tick, _)| core::cmp::Reverse(*tick));
        Ok(Self {
            bay: Bay::open(start),
            since: 0,
            seen: 0,
            acts: 0,
            left_out,
            added,
            refused: 0,
            sound: false,
        })
    }

    /// Opens a twin whose vehicle is sound from now: of the first's kind, without faults, with the label's charge, on the same day,
    /// at the same settings, its cabin and hood as warm. It does the acts that come from now on.
    ///
    /// Its scenario says what vehicle it is and not that it was put into a warm cabin, so a take of it does not replay.
    pub fn sound(first: &Bay) -> Self {
        Self {
            bay: Bay::open_beside(
                Arc::new(sound::scenario(first.scenario(), first.converted())),
                first,
            ),
            since: first.tick(),
            seen: first.log().len(),
            acts: 0,
            left_out: Vec::new(),
            added: Vec::new(),
            refused: 0,
            sound: true,
        }
    }

    /// Goes on to where the first bay is: does the acts that it has done, and lets as much time pass. Stops for good where its own
    /// engine halts (see [`Twin::halt`]).
    pub fn follow(&mut self, first: &Bay) {
        while self.advance(first) {}
    }

    /// Does what the first bay has done by now, and lets one tick pass if it is behind; false if it is not, or has halted.
    fn advance(&mut self, first: &Bay) -> bool {
        if self.halt().is_some() {
            return false;
        }
        while let Some((tick, action)) = first.log().get(self.seen)
            && *tick <= self.now()
        {
            if !action.is_entry() {
                if !self.left_out.contains(&self.acts) {
                    self.act(*action);
                }
                self.acts += 1;
            }
            self.seen += 1;
        }
        if self.now() >= first.tick() {
            return false;
        }
        let now = self.now();
        while let Some((_, action)) = self.added.pop_if(|(tick, _)| *tick <= now) {
            self.act(action);
        }
        self.step().is_ok()
    }

    /// Lets one tick pass without any act.
    ///
    /// # Errors
    /// [`Halt`] as [`Bay::step`] has it.
    pub fn step(&mut self) -> Result<(), Halt> {
        self.bay.step()
    }

    fn act(&mut self, action: Action) {
        if self.sound && action.is_instructors() {
            return;
        }
        if self.bay.apply(action).is_err() {
            self.refused += 1;
        }
    }

    /// Where it is in the first bay's time.
    fn now(&self) -> Tick {
        self.since + self.bay.tick()
    }

    /// Its bay, to read.
    pub fn bay(&self) -> &Bay {
        &self.bay
    }

    /// Acts that its bay refused.
    pub fn refused(&self) -> usize {
        self.refused
    }

    /// Why it stands still for good, if it does.
    pub fn halt(&self) -> Option<Halt> {
        self.bay.halt()
    }
}

/// The scenario a twin starts from, with the first's data sheet where it is the same.
fn changed(first: &Scenario, other: &Scenario) -> Result<Arc<Scenario>, TwinError> {
    if other.act != first.act {
        return Err(TwinError::Script);
    }
    if other.until != first.until {
        return Err(TwinError::Until);
    }
    let mut scenario = other.clone();
    if scenario.vehicle == first.vehicle {
        scenario.vehicle = Arc::clone(&first.vehicle);
    }
    Ok(Arc::new(scenario))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::library;

    fn van() -> Bay {
        Bay::new(&library::shipped("healthy").expect("shipped"))
    }

    /// What is equal is there once.
    #[test]
    fn a_twin_shares_scenario_data_sheet_and_tables() {
        let first = van();
        let same = Twin::new(&first, &[]).expect("no change");
        assert!(Arc::ptr_eq(
            &same.bay.shared_scenario(),
            &first.shared_scenario()
        ));
        // A scenario that was read anew, as from a file.
        let mut scenario = library::shipped("healthy").expect("shipped");
        scenario.day.sun = lowside_units::Ratio::from_percent(50.0);
        let changes = [Change::Start(Box::new(scenario))];
        let sunny = Twin::new(&first, &changes).expect("another day");
        for twin in [&sunny, &Twin::sound(&first)] {
            let (ours, theirs) = (twin.bay.plant(), first.plant());
            assert!(Arc::ptr_eq(
                &ours.vehicle.shared(),
                &theirs.vehicle.shared()
            ));
            assert!(core::ptr::eq(ours.network.table(), theirs.network.table()));
        }
    }

    /// Acts are the first bay's own, and so is the time.
    #[test]
    fn what_a_twin_takes_from_its_bay_cannot_be_changed() {
        let first = van();
        let change = |change: fn(&mut Scenario)| {
            let mut scenario = first.scenario().clone();
            change(&mut scenario);
            Twin::new(&first, &[Change::Start(Box::new(scenario))]).map(|_| ())
        };
        let longer = |s: &mut Scenario| s.until = lowside_units::Duration::from_h(1.0);
        assert_eq!(change(longer), Err(TwinError::Until));
        let wait: fn(&mut Scenario) = |s| {
            s.act.push(crate::script::Act {
                after: lowside_units::Duration::from_s(1.0),
                when: None,
                at_most: None,
                act: None,
            });
        };
        assert_eq!(change(wait), Err(TwinError::Script));
        assert_eq!(change(|s| s.name.push('x')), Ok(()));
    }
}
