//! Opens a scenario: one of those shipped, by name, or a file, with its vehicle's file and the overrides.

use crate::{failure::Failure, files};
use lowside_session::{Scenario, ScenarioError, library, scenario::LARGEST};
use std::path::{Path, PathBuf};

/// A shipped scenario by name or a file by path; a name without a file ending is looked up among the shipped first.
///
/// # Errors
/// [`Failure::Asked`] naming the file, the field and what is allowed.
pub(crate) fn scenario(asked: &Path, overrides: &[String]) -> Result<Scenario, Failure> {
    let shipped = asked.to_str().and_then(library::scenario);
    let (text, folder) = match shipped {
        Some(text) => (text.to_owned(), PathBuf::new()),
        None => (
            read(asked)?,
            asked.parent().map(Path::to_owned).unwrap_or_default(),
        ),
    };
    let place = asked.display().to_string();
    with_vehicle(&place, &folder, overrides, |overrides, vehicle| {
        Scenario::parse_with(&text, overrides, vehicle)
    })
}

/// A scenario with overrides that the option `option` gives.
///
/// # Errors
/// [`Failure::Asked`] naming the option, the field and what is allowed.
pub(crate) fn changed(
    scenario: &Scenario,
    option: &str,
    overrides: &[String],
) -> Result<Scenario, Failure> {
    with_vehicle(option, Path::new(""), overrides, |overrides, vehicle| {
        scenario.with(overrides, vehicle)
    })
}

/// Reads a scenario with overrides, `place` being what a message is about and `folder` where a vehicle's file is looked for.
fn with_vehicle(
    place: &str,
    folder: &Path,
    overrides: &[String],
    parse: impl FnOnce(
        &[String],
        &mut dyn FnMut(&str) -> Option<String>,
    ) -> Result<Scenario, ScenarioError>,
) -> Result<Scenario, Failure> {
    let overrides: Vec<String> = overrides.iter().map(|o| from_here(o)).collect();
    // a vehicle's file says itself what is wrong with it, under its own name
    let mut trouble = None;
    let mut from = String::new();
    let parsed = parse(&overrides, &mut |name| {
        if is_file_name(name) {
            from = format!(" (vehicle from {})", folder.join(name).display());
        }
        vehicle(name, folder).unwrap_or_else(|failure| {
            trouble = Some(failure);
            None
        })
    });
    match (parsed, trouble) {
        (Ok(scenario), _) => Ok(scenario),
        (Err(ScenarioError::Vehicle { .. }), Some(failure)) => {
            Err(Failure::Asked(format!("{place}: vehicle: {failure}")))
        }
        (Err(e), _) => {
            let e = e.to_string();
            let from = if e.starts_with("vehicle") { &from } else { "" };
            Err(Failure::Asked(format!("{place}: {e}{from}")))
        }
    }
}

/// The text of a vehicle: a file of the folder, or else a shipped one.
///
/// # Errors
/// [`Failure::Asked`] naming the file.
pub(crate) fn vehicle(name: &str, folder: &Path) -> Result<Option<String>, Failure> {
    if is_file_name(name) {
        files::read(&folder.join(name), LARGEST, "a vehicle").map(Some)
    } else {
        Ok(library::vehicle(name).map(str::to_owned))
    }
}

fn read(path: &Path) -> Result<String, Failure> {
    let bare = path.extension().is_none() && path.components().count() == 1;
    if bare && !path.exists() {
        let names: Vec<&str> = library::scenario_names().collect();
        return Err(Failure::Asked(format!(
            "{}: there is no such file and no such shipped scenario; shipped are {}",
            path.display(),
            names.join(", ")
        )));
    }
    files::read(path, LARGEST, "a scenario")
}

fn is_file_name(vehicle: &str) -> bool {
    Path::new(vehicle)
        .extension()
        .is_some_and(|e| e.eq_ignore_ascii_case("toml"))
}

/// A vehicle's file named on the command line is meant from where the command is given, not from the scenario's folder.
fn from_here(text: &str) -> String {
    match text.split_once('=') {
        Some((key, value)) if key.trim() == "vehicle" => {
            let value = value.trim().trim_matches('"');
            match std::path::absolute(value) {
                Ok(path) if is_file_name(value) => format!("vehicle={}", path.display()),
                _ => text.to_owned(),
            }
        }
        _ => text.to_owned(),
    }
}
