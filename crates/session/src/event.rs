//! What happened in the bay by itself, in order: the page and the marker read these, the bay never does.

use lowside_shop::detect::Spot;
use serde::{Deserialize, Serialize};

/// Something that happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Event {
    /// The clutch pulled in.
    ClutchIn,
    /// The clutch let go on the low-side switch.
    LowSwitchOpened,
    /// The high-pressure cut-out opened.
    CutOutOpened,
    /// The engine got too hot: its control let the clutch go.
    EngineTooHot,
    /// The engine's temperature gauge went into the red.
    GaugeRed,
    /// The coolant boils over.
    CoolantBoils,
    /// The engine stopped: its coolant has boiled away.
    EngineStalled,
    /// The clutch slips and smells.
    ClutchSmells,
    /// The relief valve lifted.
    ReliefLifted,
    /// The relief valve seated again.
    ReliefSeated,
    /// Heat and pressure burst the discharge hose.
    HoseBurst,
    /// A can burst.
    CanBurst,
    /// The can on the hose is empty: no liquid is left in it.
    CanEmpty,
    /// Liquid reaches the compressor.
    LiquidAtCompressor,
    /// Liquid no longer reaches the compressor.
    LiquidGone,
    /// Use has worn the compressor by another tenth.
    CompressorHurt,
    /// The compressor got so hot that it seized.
    CompressorSeized,
    /// The clutch has slipped until its facing burnt away.
    ClutchBurnt,
    /// Refrigerant went into the room from a hose or a can that hands had left open.
    LetOut,
    /// Air was drawn in where hands had left the loop open while it stood below the atmosphere.
    AirDrawnIn(Spot),
    /// Air was drawn in through the open end of the service hose.
    AirByTheHose,
    /// Pressure has blown oil out of the vacuum pump.
    PumpOilBlown,
    /// Somebody was hurt: a joint or port was opened under pressure.
    Injury,
    /// The charging cylinder's valve shut itself: the set mass has left it.
    Dosed,
    /// The recovery machine stopped itself at the set vacuum.
    MachineAtVacuum,
    /// The recovery machine stopped itself: its cylinder is at the filling limit.
    CylinderFull,
}
