//! The vehicle as it runs: every test of this room in one binary, so that they are linked once and share the cores.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    reason = "a test may compute with the standard library"
)]

mod answers;
mod coils_published;
mod damage;
mod drive_faults;
mod frost;
mod loop_laws;
mod moisture;
mod oil;
mod orifice_published;
mod relief;
mod restrictions;
mod three_gases;
mod void_fraction;
mod worn;
