//! Headless.
fn main() {}
