//! Prints the state hash of each take named on the command line, one a line: the native half of the bit check.
#![expect(clippy::print_stdout, reason = "the hashes are this program's output")]

use std::{env, fs, io};

use lowside_session::{Take, take::hex};

fn main() -> io::Result<()> {
    for file in env::args_os().skip(1) {
        let text = fs::read_to_string(file)?;
        match Take::parse(&text).and_then(|take| take.resume()) {
            Ok(bay) => println!("{}", hex(bay.state_hash())),
            Err(error) => println!("{error}"),
        }
    }
    Ok(())
}
