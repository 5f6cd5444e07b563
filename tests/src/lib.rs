//! Helpers shared by the tests of every room: bays by name, runs, random acts and the reference tables.

pub mod acts;
pub mod csv;
pub mod runs;
pub mod worst;

use std::path::{Path, PathBuf};

/// The workspace.
///
/// # Panics
/// Never: this package stands in a folder of it.
pub fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().expect("a folder of the workspace").to_owned()
}

/// Where reference tables and scripts of jobs lie.
pub fn data() -> PathBuf {
    root().join("tests/data")
}
