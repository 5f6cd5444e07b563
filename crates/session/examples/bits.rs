//! Prints the state hash of each take named on the command line, one a line: the native half of the bit check.
#![expect(clippy::print_stdout, reason = "the hashes are this program's output")]

use std::{env, fs, io};

#[path = "../../../web/src/toy.rs"]
mod toy;

fn main() -> io::Result<()> {
    for file in env::args_os().skip(1) {
        println!("{}", toy::hash_after(&fs::read_to_string(file)?));
    }
    Ok(())
}
