//! Prints the state hash at the end of each take named on the command line, one a line: the native half of the bit check.
#![expect(clippy::print_stdout, reason = "the hashes are this program's output")]

use std::{env, fs, io};

use lowside_session::{Take, TakeError, take::fingerprint};

/// The hash reached, whatever the take itself claims.
fn reached(text: &str) -> Result<String, TakeError> {
    let take = Take::parse(text)?;
    let mut replay = take.replay();
    while !replay.run(u64::MAX)? {}
    Ok(fingerprint(replay.bay()))
}

fn main() -> io::Result<()> {
    for file in env::args_os().skip(1) {
        println!(
            "{}",
            reached(&fs::read_to_string(file)?).unwrap_or_else(|error| error.to_string())
        );
    }
    Ok(())
}
