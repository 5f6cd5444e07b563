//! Written by `cargo xtask physics`: do not edit.

/// The physics of this program: a hash over the ends of the golden takes.
pub const PHYSICS: &str = "cbed55ef6ef6280c";
