//! Prints the file that names this program's physics, from the ends of the takes named on the command line: `cargo xtask physics` writes it.
#![expect(clippy::print_stdout, reason = "the file is this program's output")]

use std::{env, error::Error, fs};

use lowside_session::{
    Take,
    take::{fingerprint, physics_of},
};

fn main() -> Result<(), Box<dyn Error>> {
    let mut ends = Vec::new();
    for file in env::args_os().skip(1) {
        let take = Take::parse(&fs::read_to_string(file)?)?;
        let mut replay = take.replay();
        while !replay.run(u64::MAX)? {}
        ends.push(fingerprint(replay.bay()));
    }
    let physics = physics_of(ends.iter().map(String::as_str));
    print!(
        "//! Written by `cargo xtask physics`: do not edit.\n\n\
         /// The physics of this program: a hash over the ends of the golden takes.\n\
         pub const PHYSICS: &str = \"{physics}\";\n"
    );
    Ok(())
}
