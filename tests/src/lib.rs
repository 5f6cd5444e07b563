//! Helpers shared by the checks: bays by name, runs, and random acts.

pub mod acts;
pub mod runs;
