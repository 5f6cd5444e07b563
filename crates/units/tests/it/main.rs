//! Units: every test of this room in one binary, so that they are linked once and share the cores.

mod nist_sp811;
mod text;
