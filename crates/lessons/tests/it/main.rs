//! Job cards: every test of this room in one binary, so that they are linked once and share the cores.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    reason = "a test may compute with the standard library"
)]

mod card_texts;
mod drill;
mod jobs;
mod kinked_hose;
mod performance_test;
mod senses;
mod signs;
mod toll;
