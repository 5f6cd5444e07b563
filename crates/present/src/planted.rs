//! What an instructor can plant while a bay runs, and what is planted in it.

use lowside_session::{Action, Bay, InstructorAct, action::FaultId};
use lowside_shop::fault;

/// Faults that can come about while a bay runs, in the order of the registry.
pub fn faults() -> Vec<FaultId> {
    let live = fault::all().filter(|fault| fault.comes_about());
    live.map(FaultId::from).collect()
}

/// A fault that was planted and not taken away; one that was put right since is still among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Planted {
    /// Which.
    pub fault: FaultId,
    /// Nothing is told of it.
    pub secret: bool,
}

/// What is planted in a bay, in the order of the planting.
pub fn planted(bay: &Bay) -> Vec<Planted> {
    let mut all: Vec<Planted> = Vec::new();
    for (_, action) in bay.log() {
        match *action {
            Action::Instructor(InstructorAct::PlantFault { fault, secret, .. }) => {
                all.retain(|p| p.fault != fault);
                all.push(Planted { fault, secret });
            }
            Action::Instructor(InstructorAct::ClearFault { fault, .. }) => {
                all.retain(|p| p.fault != fault);
            }
            _ => {}
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use lowside_session::library;
    use lowside_shop::fault::Severity;
    use lowside_units::{Duration, Quantity};

    #[test]
    fn what_was_planted_last_counts_until_it_is_taken_away() {
        let mut bay = Bay::new(&library::shipped("healthy").expect("shipped"));
        let faults = faults();
        assert!(faults.iter().all(|id| id.key() != "low-charge"));
        let none = Duration::from_si(0.0);
        let plant = |fault, secret| InstructorAct::PlantFault {
            fault,
            severity: Severity::Severe,
            after: none,
            over: none,
            secret,
        };
        for (fault, secret) in [(faults[0], false), (faults[1], true), (faults[0], true)] {
            bay.apply(plant(fault, secret)).expect("it can be planted");
        }
        let of = |n: usize| Planted {
            fault: faults[n],
            secret: true,
        };
        assert_eq!(planted(&bay), [of(1), of(0)]);
        let (fault, secret) = (faults[1], false);
        bay.apply(InstructorAct::ClearFault { fault, secret })
            .expect("it can be taken away");
        assert_eq!(planted(&bay), [of(0)]);
    }
}
