//! What the tests of the command share: starting it, a folder of its own for each test.
#![allow(dead_code, reason = "each test binary uses its own part")]

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// Runs `lowside` in a folder.
pub(crate) fn lowside_in(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_lowside"))
        .args(args)
        .current_dir(folder)
        .output()
        .expect("lowside starts")
}

/// What it prints, after a success without a word on stderr.
pub(crate) fn answer_in(folder: &Path, args: &[&str]) -> String {
    let out = lowside_in(folder, args);
    let err = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success() && err.is_empty(), "{args:?}: {err}");
    String::from_utf8(out.stdout).expect("UTF-8")
}

/// The one JSON object it prints.
pub(crate) fn object_in(folder: &Path, args: &[&str]) -> Value {
    let text = answer_in(folder, args);
    assert_eq!(text.lines().count(), 1, "one object on one line: {text}");
    serde_json::from_str(&text).expect("JSON")
}

/// An empty folder for the files of one test.
pub(crate) fn folder(test: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(test);
    // left from an earlier run, or not there
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).expect("a folder for the test");
    path
}

/// Asserts a refusal: exit code 2, nothing on stdout, one bounded line on stderr with all `parts`.
pub(crate) fn assert_refused(out: &Output, args: &[&str], parts: &[&str]) {
    let err = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(2), "{args:?}: {err}");
    let printed = String::from_utf8_lossy(&out.stdout);
    assert!(printed.is_empty(), "{args:?} prints {printed}");
    assert_eq!(err.lines().count(), 1, "{args:?}: {err}");
    assert!(err.chars().count() < 700, "{args:?}: {err}");
    for part in parts {
        assert!(err.contains(part), "{args:?}: {part:?} is missing in {err}");
    }
}

/// A take's text without its seal, so that it can be changed and is read as it stands.
pub(crate) fn unsealed(take: &str) -> String {
    let (head, seal) = take.split_once(",\"seal\":").expect("it is sealed");
    assert!(seal.ends_with("\"}"), "the seal stands last: {seal}");
    format!("{head}}}")
}
