//! The native half of the bit check: the state hash of every committed take, as this machine's own code computes it.
//!
//! The other half is the page itself: the browser test `bits.test.mjs` hands the same takes to `window.lowsideHash` and
//! compares. So what is checked is the very module that is served, optimised as it is served, in a real browser.
use std::{fs, path::PathBuf, process::Command};

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};

use crate::place::{Place, read, run};

/// Every take of `tests/takes`, by name.
fn takes(place: &Place) -> Result<Vec<PathBuf>> {
    let dir = place.root.join("tests/takes");
    let mut files = Vec::new();
    for entry in fs::read_dir(&dir).with_context(|| format!("reading {}", dir.display()))? {
        files.push(entry?.path());
    }
    files.sort();
    if files.is_empty() {
        bail!("{} holds no take: nothing would be checked", dir.display());
    }
    Ok(files)
}

/// What an example of the session prints about takes.
fn example(place: &Place, name: &str, files: &[PathBuf]) -> Result<String> {
    // The workspace's selection of features, as the native tests have it: with the package alone chosen, the engine would
    // be compiled a second time.
    run(place
        .cargo(&["build", "--quiet", "--workspace", "--exclude=lowside-web"])
        .arg(format!("--example={name}")))?;
    let mut example = Command::new(place.target.join("debug/examples").join(name));
    read(example.args(files)).context("replaying the takes natively")
}

/// Writes the file that names the physics, from the ends of the golden takes.
pub(crate) fn write_physics(place: &Place) -> Result<()> {
    let text = example(place, "physics", &takes(place)?)?;
    let file = place.root.join("crates/session/src/take/physics.rs");
    fs::write(&file, text).with_context(|| format!("writing {}", file.display()))
}

/// For each take of `tests/takes`: its name, its text, and the hash that `crates/session/examples/bits.rs` prints for it.
pub(crate) fn native(place: &Place) -> Result<Value> {
    let files = takes(place)?;
    let printed = example(place, "bits", &files)?;
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
