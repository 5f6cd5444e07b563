//! Why an act was not taken.

use std::borrow::Cow;

use lowside_fluids::{Apart, Refrigerant};
use lowside_plant::loose::Lead;
use lowside_shop::{fixings::JointTool, identifier::NoSample, joints::Joint, parts::Part};
use lowside_units::UnitError;
use thiserror::Error;

use super::{FaultId, Meter};

/// Why an act was not taken. Nothing has changed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Refused {
    /// A number outside what can be set.
    #[error(transparent)]
    OutOfRange(#[from] UnitError),
    /// The bay has halted: nothing that is done reaches it any more.
    #[error("the bay has stopped ({place}): undo, go back in time or start over")]
    Halted {
        /// Where that was found.
        place: Cow<'static, str>,
    },
    /// An end is entered, and nothing has begun.
    #[error("no performance test is under way")]
    NoTest,
    /// What the loop holds, or how a joint is made up, is no fault that comes about by itself.
    #[error("fault = {} comes about by hands alone: put in, let out, or made up", .0.key())]
    ByHand(FaultId),
    /// There is no can on the hose.
    #[error("there is no can on the service hose")]
    NoCan,
    /// The can is burst.
    #[error("the can has burst: take it off")]
    CanBurst,
    /// A gas that the model cannot mix with what the loop is made for. (A small can fits any hose with an adapter.)
    #[error("gas: {0}")]
    NoMixture(#[from] Apart),
    /// The refrigerant identifier takes no sample.
    #[error(transparent)]
    Identifier(#[from] NoSample),
    /// Nothing hangs on the service hose.
    #[error("nothing hangs on the service hose")]
    NothingAttached,
    /// There is no charging cylinder on the hose.
    #[error("there is no charging cylinder on the service hose")]
    NoCylinder,
    /// The recovery machine is not on the hose.
    #[error("the recovery machine is not on the service hose")]
    NoMachine,
    /// The nitrogen is not on the hose.
    #[error("the nitrogen regulator is not on the service hose")]
    NoNitrogen,
    /// There is no pump on the hose.
    #[error("there is no vacuum pump on the service hose")]
    NoPump,
    /// The pump turns.
    #[error("the vacuum pump is running: stop it first")]
    PumpRuns,
    /// A fitting for another gas.
    #[error("a fitting for {fitting} does not mate with hoses for {hose}")]
    WrongFitting {
        /// What was brought.
        fitting: Refrigerant,
        /// What the gauge set is for.
        hose: Refrigerant,
    },
    /// A hose for one gas at another's port.
    #[error("a coupler for {hose} does not go onto a port for {port}")]
    WrongPort {
        /// What the gauge set is for.
        hose: Refrigerant,
        /// What the port is for.
        port: Refrigerant,
    },
    /// The gauge set for that gas is in hand already.
    #[error("gas: the gauge set in hand is the one for {0}")]
    SetInHand(Refrigerant),
    /// There is one low-side port only.
    #[error("this vehicle has one low-side port, at the accumulator")]
    OnePort,
    /// Something hangs on the service hose.
    #[error("something hangs on the service hose: take it off first")]
    HoseTaken,
    /// A port that takes no conversion fitting.
    #[error("the fitting for {fitting} stays on: no other goes over it")]
    FittingLocked {
        /// What it is for.
        fitting: Refrigerant,
    },
    /// There is a cut-out.
    #[error("there is a high-pressure cut-out already")]
    CutOutFitted,
    /// The switch's screw is at its end.
    #[error("quarters: the switch's screw goes two turns either way and no further")]
    ScrewAtEnd,
    /// The recovery cylinder is at its filling limit.
    #[error("the recovery cylinder is at its limit, 80 % liquid at 54 degC: change it")]
    CylinderFull,
    /// A joint that has to be apart first.
    #[error("the {} is not apart", .0.name())]
    JointMade(Joint),
    /// A joint that is apart.
    #[error("the {} is apart already", .0.name())]
    JointApart(Joint),
    /// A part that is out.
    #[error("the {} is out", .0.name())]
    PartOut(Part),
    /// A part that is in.
    #[error("the {} is in the vehicle: take it out first", .0.name())]
    PartIn(Part),
    /// The engine runs.
    #[error("the engine is running: stop it first")]
    EngineRuns,
    /// Nothing electrical works.
    #[error("the battery's lead is off: nothing electrical works")]
    BatteryOff,
    /// There is no cut-out to pull a plug off.
    #[error("there is no high-pressure cut-out")]
    NoCutOut,
    /// No wire goes across it.
    #[error("state: no wire is put across the plug of the {}", .0.name())]
    NotBridged(Lead),
    /// Its bolts are out.
    #[error("the {}'s bolts are out", .0.name())]
    Unbolted(Part),
    /// Its lines alone hold it.
    #[error("part: no bolts hold the {}", .0.name())]
    NoBolts(Part),
    /// The belt is on.
    #[error("the belt is on the pulley: take it off first")]
    BeltOn,
    /// A joint that does not come apart with what is in hand.
    #[error("the {} does not come apart with the {}", .joint.name(), .tool.name())]
    WrongTool {
        /// What is in hand.
        tool: JointTool,
        /// The joint.
        joint: Joint,
    },
    /// No room for so much oil.
    #[error("so much oil does not go into the {}", .0.name())]
    NoRoom(Part),
    /// A part that no solvent and no blast may go through: it would stay in there, or push the dirt on.
    #[error("the {} is not flushed: drain it, or put a new one in", .0.name())]
    NotFlushed(Part),
    /// The low-side coupler is off.
    #[error("the low-side coupler is off its port")]
    NotCoupled,
    /// The coupler sits on the port.
    #[error("the coupler is on the port: take it off first")]
    Coupled,
    /// A cap is on the port.
    #[error("the cap is on the port: take it off first")]
    CapOn,
    /// Whoever works here has no hand free.
    #[error("hands are busy for {left:.0} s more")]
    Busy {
        /// For how long, s.
        left: f64,
    },
    /// There is nothing to read on an instrument.
    #[error("the {} shows nothing: it is not connected, not there, or has no result", .0.name())]
    NotConnected(Meter),
    /// A reading that was not taken.
    #[error("evidence: there is no reading {asked}, {taken} have been taken")]
    NoReading {
        /// Its number, from 1.
        asked: u32,
        /// How many there are.
        taken: u32,
    },
    /// More than the cylinder holds.
    #[error("mass: {asked_g:.0} g is more than the {held_g:.0} g in the cylinder")]
    CylinderTooEmpty {
        /// What was asked for, g.
        asked_g: f64,
        /// What there is, g.
        held_g: f64,
    },
}
