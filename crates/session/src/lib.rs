//! One bay and its history: scenario, acts, events, log, state hash, takes and replay.
//!
//! Nothing but [`Bay::apply`] and [`Bay::step`] changes a bay; the same log of acts gives the same bits everywhere.

pub mod action;
mod bay;
#[cfg(feature = "checkpoint")]
pub mod checkpoint;
pub mod event;
mod event_detector;
pub mod library;
mod limits;
pub mod observe;
pub mod predicate;
pub mod reading;
pub mod scenario;
pub mod scramble;
pub mod script;
pub mod sight;
pub mod state;
pub mod summary;
pub mod take;
pub mod timeline;
pub mod twin;
pub mod wait;

pub use action::{
    Action, BenchAct, FixingAct, HoseAct, InstructorAct, InstrumentAct, LearnerAct, MachineAct,
    RecordAct, Refused, VehicleAct, VesselAct,
};
pub use bay::{Bay, Entered, TICKS_PER_SECOND, Tick};
pub use event::Event;
pub use limits::size;
pub use lowside_plant::halt::{Halt, greater};
pub use lowside_shop::identifier::{NoSample, Port, Shares};
pub use lowside_shop::protection::Protection;
pub use observe::Observer;
pub use reading::Reading;
pub use scenario::{Scenario, ScenarioError};
pub use sight::Sight;
pub use state::StateError;
pub use take::{Sitting, Take, TakeError};
pub use timeline::Timeline;
pub use twin::{Abreast, Change, Twin, TwinError};
