//! Tools a bare machine lacks: looked for, installed where that is possible, named exactly where it is not.
use std::{env, path::PathBuf, process::Command};

use anyhow::{Context, Result, bail};

use crate::place::{on_path, read, run, works};

const WASM: &str = "wasm32-unknown-unknown";

/// Makes sure that rustc can compile for the browser.
pub(crate) fn ensure_wasm_target() -> Result<()> {
    if wasm_target_present()? {
        return Ok(());
    }
    println!("the {WASM} target is missing: rustup adds it");
    run(Command::new("rustup").args(["target", "add", WASM]))
        .with_context(|| format!("the page needs the {WASM} target: rustup target add {WASM}"))?;
    if !wasm_target_present()? {
        bail!("rustup added {WASM}, but to another toolchain than the one in use here");
    }
    Ok(())
}

/// rustc names the directory whether or not it is there, so only looking tells.
fn wasm_target_present() -> Result<bool> {
    let dir = read(Command::new("rustc").args(["--print", "target-libdir", "--target", WASM]))?;
    Ok(PathBuf::from(dir.trim()).is_dir())
}

/// Makes sure that rustfmt and clippy are there; a minimal toolchain comes without them.
pub(crate) fn ensure_component(cargo_name: &str, component: &str) -> Result<()> {
    if works("cargo", &[cargo_name, "--version"]) {
        return Ok(());
    }
    run(Command::new("rustup").args(["component", "add", component]))
        .with_context(|| format!("cargo {cargo_name} is missing: rustup component add {component}"))
}

/// Makes sure that a node new enough for the browser tests is there.
pub(crate) fn ensure_node() -> Result<()> {
    const NEEDS: &str =
        "the browser tests need node 20 or newer and npm (Debian: apt-get install nodejs npm)";
    let version = read(Command::new("node").arg("--version")).context(NEEDS)?;
    let major = version
        .trim()
        .trim_start_matches('v')
        .split('.')
        .next()
        .and_then(|part| part.parse::<u32>().ok());
    match major {
        Some(20..) if works("npm", &["--version"]) => Ok(()),
        Some(20..) => bail!("{NEEDS}; npm is missing"),
        _ => bail!("{NEEDS}; this one is {}", version.trim()),
    }
}

/// The browser to test in: the one `LOWSIDE_BROWSER` names, else the first on the path, else Debian's, installed now.
pub(crate) fn ensure_browser() -> Result<PathBuf> {
    if let Some(named) = env::var_os("LOWSIDE_BROWSER") {
        let file = PathBuf::from(named);
        if !file.is_file() {
            bail!("LOWSIDE_BROWSER names {}, which is no file", file.display());
        }
        return Ok(file);
    }
    if let Some(found) = find_browser() {
        return Ok(found);
    }
    install_browser()?;
    find_browser().context("chromium was installed, but no program of that name is on the path")
}

fn find_browser() -> Option<PathBuf> {
    on_path(&[
        "chromium",
        "chromium-browser",
        "google-chrome-stable",
        "google-chrome",
    ])
}

/// The fonts come along because without one every text, and so every picture and contrast check, is blank.
const PACKAGES: [&str; 2] = ["chromium", "fonts-dejavu-core"];

fn install_browser() -> Result<()> {
    let wanted = PACKAGES.join(" ");
    let by_hand = format!(
        "no browser found. As root: apt-get update && apt-get install -y --no-install-recommends {wanted}\n\
         or set LOWSIDE_BROWSER to a Chromium of your own"
    );
    if on_path(&["apt-get"]).is_none() {
        bail!("{by_hand}");
    }
    let root = read(Command::new("id").arg("-u")).is_ok_and(|uid| uid.trim() == "0");
    if !root && !works("sudo", &["-n", "true"]) {
        bail!("{by_hand}");
    }
    println!("no browser found: apt-get installs {wanted}");
    let apt = |args: &[&str]| {
        let mut command = Command::new(if root { "env" } else { "sudo" });
        if !root {
            command.args(["-n", "env"]);
        }
        command
            .arg("DEBIAN_FRONTEND=noninteractive")
            .arg("apt-get")
            .args(args);
        run(&mut command)
    };
    apt(&["update"]).with_context(|| by_hand.clone())?;
    apt(&[
        &["install", "-y", "--no-install-recommends"][..],
        &PACKAGES[..],
    ]
    .concat())
    .with_context(|| by_hand.clone())
}
