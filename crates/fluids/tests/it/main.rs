//! Properties of fluids: every test of this room in one binary, so that they are linked once and share the cores.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    reason = "a test may compute with the standard library"
)]

mod blend;
mod equation;
mod flash;
mod moist_air_ashrae;
mod moisture_published;
mod state_properties;
mod tables;
mod transport_coolprop;
mod water_iapws;
