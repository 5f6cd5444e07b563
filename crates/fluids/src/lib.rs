//! What the substances are: refrigerants, water, moist air, oil. SI throughout.

pub mod air;
pub mod blend;
pub mod eos;
pub mod flash;
pub mod helmholtz;
pub mod moist_air;
pub mod moisture;
pub mod oil;
pub mod refrigerant;
pub mod saturation;
pub mod table;
pub mod transport;
pub mod water;
mod water_table;

pub use blend::{Apart, Blend, NoBlend};
pub use oil::Oil;
pub use refrigerant::Refrigerant;
pub use table::{Eval, SatPoint, State, Table};
pub use transport::{Transport, VapourTransport};
