//! The native half of the bit check: the state hash of every committed take, as this machine's own code computes it.
//!
//! The other half is the page itself: the browser test `bits.test.mjs` hands the same takes to `window.lowsideHash` and
//! compares. So what is checked is the very module that is served, optimised as it is served, in a real browser.
use std::{fs, process::Command};

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};

use crate::place::{Place, read, run};

/// For each take of `tests/takes`: its name, its text, and the hash that `crates/session/examples/bits.rs` prints for it.
pub(crate) fn native(place: &Place) -> Result<Value> {
    let dir = place.root.join("tests/takes");
    let mut files = Vec::new();
    for entry in fs::read_dir(&dir).with_context(|| format!("reading {}", dir.display()))? {
        files.push(entry?.path());
    }
    files.sort();
    if files.is_empty() {
        bail!(
            "{} holds no take, so the bit check would check nothing",
            dir.display()
        );
    }
    // The workspace's selection of features, as the native tests have it: with the package alone chosen, the engine would
    // be compiled a second time.
    run(&mut place.cargo(&[
        "build",
        "--quiet",
        "--workspace",
        "--exclude=lowside-web",
        "--example=bits",
    ]))?;
    let mut example = Command::new(place.target.join("debug/examples/bits"));
    let printed = read(example.args(&files)).context("hashing the takes natively")?;
    let hashes: Vec<&str> = printed.lines().collect();
    if hashes.len() != files.len() {
        bail!(
            "the example \"bits\" must print one line for each of {} takes; it printed:\n{printed}",
            files.len()
        );
    }
    let mut takes = Vec::new();
    for (file, hash) in files.iter().zip(hashes) {
        let text =
            fs::read_to_string(file).with_context(|| format!("reading {}", file.display()))?;
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        takes.push(json!({ "name": name, "text": text, "native": hash }));
    }
    Ok(Value::Array(takes))
}
