//! The controls that a person can work, as the advice names them.

/// A control that a person can work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Control {
    /// Low-side coupler.
    LowCoupler,
    /// High-side coupler.
    HighCoupler,
    /// Low hand valve.
    LowValve,
    /// High hand valve.
    HighValve,
    /// Purge at the manifold.
    Purge,
    /// Take a can.
    TakeCan,
    /// Take the can off.
    RemoveCan,
    /// Tap of the can.
    Tap,
    /// Turn the can over.
    Invert,
    /// Rock the can.
    Rock,
    /// Water bath around the can.
    Bath,
    /// Engine.
    Engine,
    /// Engine speed.
    Rpm,
    /// A/C button.
    Ac,
    /// Blower.
    Blower,
    /// Recirculation door.
    Recirculation,
    /// Windows and doors.
    Windows,
    /// Fan in front of the grille.
    RoadSpeed,
    /// Temperature of the day.
    Ambient,
    /// Relative humidity of the day.
    Humidity,
}
