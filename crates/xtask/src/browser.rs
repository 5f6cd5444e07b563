//! Browser tests and pictures: node runs the scripts of `tests/browser` against a page served here.
//!
//! Why playwright-core under node and not a WebDriver client in Rust: it finds elements by role, label and text as a
//! screen reader would and waits until they are ready, it emulates a phone, and it costs nothing to compile, where an
//! async WebDriver client costs a minute on two cores. It talks to the browser over a pipe, so no driver of matching
//! version is needed, and a browser whose node has died ends itself. `-core` never downloads a browser.
use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use anyhow::{Context, Result, bail};

use crate::{
    bits,
    page::Site,
    place::{Place, run},
    site::Server,
    tools,
};

/// Runs the browser tests, all or the files named.
pub(crate) fn test(place: &Place, site: Site, names: &[String]) -> Result<()> {
    let scripts = place.root.join("tests/browser");
    let files = if names.is_empty() {
        all_tests(&scripts)?
    } else {
        named_tests(&scripts, names)?
    };
    play(place, site, &files, &[])
}

/// Presses so many keys at random.
pub(crate) fn press_keys(place: &Place, site: Site, keys: u32) -> Result<()> {
    let file = place.root.join("tests/browser/access.test.mjs");
    play(place, site, &[file], &[("LOWSIDE_KEYS", keys.to_string())])
}

fn play(place: &Place, site: Site, files: &[PathBuf], vars: &[(&str, String)]) -> Result<()> {
    let stage = Stage::prepare(place, site)?;
    let takes = stage.dir.join("bits.json");
    fs::write(&takes, bits::native(place)?.to_string())?;
    let mut node = stage.node();
    node.arg(place.root.join("tests/browser/run.mjs"))
        .args(files);
    for (name, value) in vars {
        node.env(name, value);
    }
    run(node.env("LOWSIDE_BITS", &takes))
}

/// Takes pictures of the page into `target/shots`.
pub(crate) fn shots(place: &Place, site: Site) -> Result<()> {
    let stage = Stage::prepare(place, site)?;
    let out = place.target.join("shots");
    fs::create_dir_all(&out)?;
    run(stage
        .node()
        .arg(place.root.join("tests/browser/shots.mjs"))
        .env("LOWSIDE_SHOTS", &out))
}

/// Plays takes in the browser and prints their speed beside the native one.
pub(crate) fn speed(place: &Place, site: Site, takes: &serde_json::Value) -> Result<()> {
    let stage = Stage::prepare(place, site)?;
    let list = stage.dir.join("takes.json");
    fs::write(&list, takes.to_string())?;
    run(stage
        .node()
        .arg(place.root.join("tests/browser/speed.mjs"))
        .env("LOWSIDE_TAKES", &list))
}

fn all_tests(scripts: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(scripts).with_context(|| format!("reading {}", scripts.display()))? {
        let path = entry?.path();
        if path.to_string_lossy().ends_with(".test.mjs") {
            files.push(path);
        }
    }
    files.sort();
    if files.is_empty() {
        bail!("{} holds no *.test.mjs", scripts.display());
    }
    Ok(files)
}

fn named_tests(scripts: &Path, names: &[String]) -> Result<Vec<PathBuf>> {
    let find = |name: &String| {
        let file = scripts.join(name);
        if file.is_file() {
            Ok(file)
        } else {
            bail!("there is no browser test {}", file.display())
        }
    };
    names.iter().map(find).collect()
}

/// A served page, a browser and the node packages, ready for a script.
struct Stage {
    server: Server,
    browser: PathBuf,
    /// Where the node packages are installed and failures leave their pictures.
    dir: PathBuf,
}

impl Stage {
    fn prepare(place: &Place, site: Site) -> Result<Self> {
        tools::ensure_node()?;
        let browser = tools::ensure_browser()?;
        let dir = place.target.join("browser");
        install_packages(&place.root.join("tests/browser"), &dir)?;
        Ok(Self {
            server: Server::start(site, 0)?,
            browser,
            dir,
        })
    }

    fn node(&self) -> Command {
        let mut node = Command::new("node");
        node.env("LOWSIDE_URL", self.server.address());
        node.env("LOWSIDE_BROWSER", &self.browser)
            .env("LOWSIDE_NODE", &self.dir);
        node
    }
}

/// Installs what `package-lock.json` pins, unless exactly that is installed already.
fn install_packages(from: &Path, to: &Path) -> Result<()> {
    const LOCK: &str = "package-lock.json";
    let wanted = fs::read(from.join(LOCK))
        .with_context(|| format!("reading {}", from.join(LOCK).display()))?;
    let done = to.join("installed.json");
    if fs::read(&done).is_ok_and(|installed| installed == wanted) {
        return Ok(());
    }
    fs::create_dir_all(to)?;
    for name in ["package.json", LOCK] {
        fs::copy(from.join(name), to.join(name)).with_context(|| format!("copying {name}"))?;
    }
    let mut npm = Command::new("npm");
    run(npm
        .current_dir(to)
        .args(["ci", "--ignore-scripts", "--no-audit", "--no-fund"]))?;
    fs::write(&done, wanted).context("noting what is installed")
}
