//! The command line: every test of this room in one binary, so that they are linked once and share the cores.

mod beside;
mod check;
mod common;
mod handout;
mod hostile;
mod job_takes;
mod link;
mod mark;
mod mutations;
mod props;
mod readme;
mod run;
mod run_refusals;
mod sight;
mod sweep;
