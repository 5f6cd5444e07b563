//! Where the checkout and its target directory are, and how a command is run from there.
use std::{
    env,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

use anyhow::{Context, Result, bail};

/// The checkout this run works on.
pub(crate) struct Place {
    /// The workspace's root directory.
    pub(crate) root: PathBuf,
    /// Cargo's target directory, wherever the user has put it.
    pub(crate) target: PathBuf,
}

impl Place {
    /// Asks cargo, so that a moved target directory is respected.
    pub(crate) fn find() -> Result<Self> {
        let text = read(cargo().args(["metadata", "--no-deps", "--format-version=1"]))?;
        let meta: serde_json::Value =
            serde_json::from_str(&text).context("reading cargo metadata")?;
        let path = |key: &str| {
            meta[key]
                .as_str()
                .map(PathBuf::from)
                .with_context(|| format!("cargo metadata names no {key}"))
        };
        Ok(Self {
            root: path("workspace_root")?,
            target: path("target_directory")?,
        })
    }

    /// A cargo command that runs in the workspace's root.
    pub(crate) fn cargo(&self, args: &[&str]) -> Command {
        let mut command = cargo();
        command.current_dir(&self.root).args(args);
        command
    }
}

/// The cargo that runs this program.
fn cargo() -> Command {
    Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// Runs a command with its output shown; a failure names the command.
pub(crate) fn run(command: &mut Command) -> Result<()> {
    let status = command
        .status()
        .with_context(|| format!("cannot start {}", line(command)))?;
    if !status.success() {
        bail!("{} failed ({status})", line(command));
    }
    Ok(())
}

/// Runs a command and returns what it prints.
pub(crate) fn read(command: &mut Command) -> Result<String> {
    let out = command
        .stderr(Stdio::inherit())
        .output()
        .with_context(|| format!("cannot start {}", line(command)))?;
    if !out.status.success() {
        bail!("{} failed ({})", line(command), out.status);
    }
    String::from_utf8(out.stdout).with_context(|| format!("{} printed no text", line(command)))
}

/// Whether a command can be run and succeeds; its output is dropped.
pub(crate) fn works(program: &str, args: &[&str]) -> bool {
    Command::new(program)
        .args(args)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

/// The first of `names` that stands in a directory of the search path.
pub(crate) fn on_path(names: &[&str]) -> Option<PathBuf> {
    let path = env::var_os("PATH")?;
    let dirs: Vec<PathBuf> = env::split_paths(&path).collect();
    names
        .iter()
        .flat_map(|name| dirs.iter().map(move |dir| dir.join(name)))
        .find(|file| is_program(file))
}

#[cfg(unix)]
fn is_program(file: &Path) -> bool {
    use std::os::unix::fs::PermissionsExt;
    file.metadata()
        .is_ok_and(|meta| meta.is_file() && meta.permissions().mode() & 0o111 != 0)
}

#[cfg(not(unix))]
fn is_program(file: &Path) -> bool {
    file.is_file()
}

fn line(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    words
        .map(|word| word.to_string_lossy().into_owned())
        .collect::<Vec<_>>()
        .join(" ")
}
