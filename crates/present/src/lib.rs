//! What is shown, as text and numbers: view models of a bay, ready to draw.
//!
//! Plain values with numbers already chosen and formatted; words are not here, only ids for them. Nothing in this crate
//! changes a bay, and no page computes what is computed here.
//!
//! What somebody in the bay can know comes in as [`lowside_lessons::Shown`], called `Known` where texts are [`Shown`]. A bay that is worked in
//! with closed eyes is shown by models of that alone, those of [`closed`] among them.

pub mod ahead;
pub mod ask;
pub mod bench;
pub mod caution;
pub mod challenge;
pub mod closed;
pub mod compare;
pub mod controls;
pub mod dial;
pub mod drill;
pub mod history;
pub mod ledger;
pub mod levels;
pub mod mark_names;
pub mod notes;
pub mod opened;
pub mod palette;
pub mod parts;
pub mod planted;
pub mod plot;
pub mod qr;
pub mod readout;
pub mod record;
pub mod record_file;
pub mod retrofit;
pub mod statement;
pub mod toll;
pub mod tools;
pub mod whatif;

pub use lowside_shop::ledger::Place;
pub use lowside_units::display::{Shown, UnitSystem};
