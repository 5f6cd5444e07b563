//! What spans rooms: every test of this room in one binary, so that they are linked once and share the cores.

mod architecture;
mod documents;
mod golden_takes;
mod main_job;
mod palette;
mod sight;
mod sight_pairs;
mod words;
