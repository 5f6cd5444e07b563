//! What is shown, as text and numbers: view models of a bay, ready to draw.
//!
//! Plain values with numbers already chosen and formatted; words are not here, only ids for them. Nothing in this crate
//! changes a bay, and no page computes what is computed here.

pub mod ask;
pub mod bench;
pub mod caution;
pub mod controls;
pub mod dial;
pub mod history;
pub mod ledger;
pub mod levels;
pub mod mark_names;
pub mod notes;
pub mod palette;
pub mod parts;
pub mod plot;
pub mod readout;
pub mod record;
pub mod record_file;
pub mod retrofit;
pub mod statement;
pub mod toll;
pub mod tools;

pub use lowside_shop::ledger::Place;
pub use lowside_units::display::{Shown, UnitSystem};
