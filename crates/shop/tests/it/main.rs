//! The technician's hands and instruments: every test of this room in one binary, so that they are linked once and share the cores.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    reason = "a test may compute with the standard library"
)]

mod debris;
mod faults;
mod hands;
mod old_seals;
mod parts;
mod recovery;
mod retrofit;
mod taps;
mod tools;
mod vacuum;
mod vacuum_and_heat;
mod wrong_gas;
