//! Everything a person can do to a bay. A log of these, with ticks, is the whole history.
//!
//! Acts stand in groups, each in its own file with what it does. An act is written as its group's value and turns
//! into an [`Action`] where one is asked for.

use lowside_plant::plant::Plant;
use lowside_shop::{Shop, record::Performance};

mod bench;
mod fixing;
mod hose;
mod instructor;
mod instrument;
mod learner;
mod machine;
mod record;
mod refused;
mod retrofit;
mod text;
mod vehicle;
mod vessel;

pub use bench::BenchAct;
pub use fixing::FixingAct;
pub use hose::HoseAct;
pub use instructor::InstructorAct;
pub use instrument::InstrumentAct;
pub(crate) use learner::takes;
pub use learner::{Evidence, FaultId, LearnerAct, MOST_EVIDENCE, Meter, Wheel};
pub use machine::MachineAct;
pub use record::RecordAct;
pub use refused::Refused;
pub use vehicle::VehicleAct;
pub use vessel::VesselAct;

/// Makes the enum of the groups, the way from each group into it, and the list of their readers.
macro_rules! groups {
    ($($(#[$doc:meta])* $group:ident($act:ident),)+) => {
        /// An act of any group. In text form `{"do":"engine","on":true}`, without the group.
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub enum Action {
            $($(#[$doc])* $group($act),)+
        }

        $(impl From<$act> for Action {
            fn from(act: $act) -> Self {
                Self::$group(act)
            }
        })+

        /// How the acts of every group are read.
        const GROUPS: &[text::Group] = &[$(text::Group::of::<$act>()),+];
    };
}

groups! {
    /// At the vehicle's controls, or on the day.
    Vehicle(VehicleAct),
    /// On the gauge set and its hoses.
    Hose(HoseAct),
    /// On the can, charging cylinder or nitrogen at the service hose.
    Vessel(VesselAct),
    /// On the vacuum pump or the recovery machine.
    Machine(MachineAct),
    /// On joints, parts, ports and oil.
    Bench(BenchAct),
    /// On what drives, holds and feeds a part.
    Fixing(FixingAct),
    /// With an instrument.
    Instrument(InstrumentAct),
    /// In the job record.
    Record(RecordAct),
    /// Beside the work: read, suspect, commit, put protection on.
    Learner(LearnerAct),
    /// To the vehicle, by whoever teaches.
    Instructor(InstructorAct),
}

/// An array of [`Action`]s from acts of any groups: `acts![VehicleAct::Engine { on: true }, VesselAct::TakeCan]`.
#[macro_export]
macro_rules! acts {
    ($($act:expr),* $(,)?) => {
        [$($crate::Action::from($act)),*]
    };
}

/// What an act leads to beyond plant and shop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Outcome {
    /// Nothing.
    Done,
    /// Somebody was hurt.
    Hurt,
    /// The performance test begins.
    TestBegins,
    /// The test under way ends, with what it found; without, if it was broken off.
    TestEnds(Option<Performance>),
}

impl Action {
    /// Returns whether it is an entry by whoever watches the bay ([`crate::observe`]), and no hand does it.
    pub fn is_entry(self) -> bool {
        matches!(
            self,
            Self::Record(RecordAct::PerformanceResult { .. } | RecordAct::PerformanceBrokenOff)
        )
    }

    /// Returns whether nothing is told of it.
    pub fn is_secret(self) -> bool {
        matches!(self, Self::Instructor(act) if act.secret())
    }

    /// Returns whether it is whoever teaches that does it, and nobody at work on the vehicle.
    pub fn is_instructors(self) -> bool {
        matches!(self, Self::Instructor(_))
    }

    /// Returns whether it puts something else on the end of the service hose, or takes off what hangs there.
    pub fn changes_hose(self) -> bool {
        match self {
            Self::Hose(act) => match act {
                HoseAct::Disconnect => true,
                HoseAct::GaugeSet { .. }
                | HoseAct::LowCoupler { .. }
                | HoseAct::LowPort { .. }
                | HoseAct::HighCoupler { .. }
                | HoseAct::LowValve { .. }
                | HoseAct::HighValve { .. }
                | HoseAct::Purge { .. } => false,
            },
            Self::Vessel(act) => match act {
                VesselAct::TakeCan
                | VesselAct::TakeCanOf { .. }
                | VesselAct::TakeSelfSealingCan
                | VesselAct::RemoveCan
                | VesselAct::TakeCylinder { .. }
                | VesselAct::TakeNitrogen => true,
                VesselAct::Tap { .. }
                | VesselAct::TapScrew { .. }
                | VesselAct::Invert { .. }
                | VesselAct::Bath { .. }
                | VesselAct::Rock { .. }
                | VesselAct::Dose { .. }
                | VesselAct::Regulator { .. } => false,
            },
            Self::Machine(act) => match act {
                MachineAct::TakePump { .. } | MachineAct::TakeRecoveryMachine { .. } => true,
                MachineAct::Pump { .. }
                | MachineAct::Isolation { .. }
                | MachineAct::Ballast { .. }
                | MachineAct::PumpOil
                | MachineAct::RecoveryMachine { .. }
                | MachineAct::RecoveryStop { .. }
                | MachineAct::ChangeCylinder { .. } => false,
            },
            Self::Vehicle(_)
            | Self::Bench(_)
            | Self::Fixing(_)
            | Self::Instrument(_)
            | Self::Record(_)
            | Self::Learner(_)
            | Self::Instructor(_) => false,
        }
    }

    /// Returns whether it reads an instrument.
    pub fn reads(self) -> bool {
        matches!(self, Self::Learner(LearnerAct::Read { .. }))
    }

    /// Does the act, or refuses and changes nothing. `readings` have been taken so far.
    ///
    /// # Errors
    /// [`Refused`], naming the field and its limits or what is missing.
    pub(crate) fn apply(
        self,
        plant: &mut Plant,
        shop: &mut Shop,
        readings: impl FnOnce() -> usize,
    ) -> Result<Outcome, Refused> {
        let mut outcome = Outcome::Done;
        match self {
            Self::Vehicle(act) => act.apply(plant, shop)?,
            Self::Hose(act) => act.apply(plant, shop)?,
            Self::Vessel(act) => act.apply(plant, shop)?,
            Self::Machine(act) => act.apply(plant, shop)?,
            Self::Bench(act) => {
                if act.apply(plant, shop)? {
                    outcome = Outcome::Hurt;
                }
            }
            Self::Fixing(act) => act.apply(plant, shop)?,
            Self::Instrument(act) => act.apply(plant, shop)?,
            Self::Record(act) => outcome = act.apply(plant, shop)?,
            Self::Learner(act) => act.apply(shop, readings())?,
            Self::Instructor(act) => act.apply(plant, shop)?,
        }
        shop.set_laws(plant);
        Ok(outcome)
    }
}
