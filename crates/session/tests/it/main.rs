//! A bay and its history: every test of this room in one binary, so that they are linked once and share the cores.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    reason = "a test may compute with the standard library"
)]

mod bay_random;
mod extremes;
mod healthy_bands;
mod longest_take;
mod planted;
mod readings;
mod state;
mod strides;
mod takes;
mod timeline;
mod twins;
