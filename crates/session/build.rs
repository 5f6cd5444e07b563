//! Takes in every scenario and vehicle of `scenarios/`, so that adding a file is all it takes to ship it.
//!
//! Scenarios are kept twice: as written, for tools that read and change them, and as JSON with the vehicle put in and without the acts,
//! so that the page need carry neither a TOML reader nor a script that it does not play.

use std::{env, error::Error, fmt::Write as _, fs, path::Path};

type Files = Vec<(String, String)>;

fn main() -> Result<(), Box<dyn Error>> {
    let root = Path::new(&env::var("CARGO_MANIFEST_DIR")?).join("../../scenarios");
    println!("cargo::rerun-if-changed={}", root.display());
    println!(
        "cargo::rerun-if-changed={}",
        root.join("vehicles").display()
    );
    let scenarios = files(&root)?;
    let vehicles = files(&root.join("vehicles"))?;
    let mut baked = Files::new();
    for (name, text) in &scenarios {
        baked.push((
            name.clone(),
            bake(text, &vehicles).map_err(|e| format!("scenarios/{name}.toml: {e}"))?,
        ));
    }
    let mut out = String::new();
    for (constant, list) in [
        ("VEHICLES", &vehicles),
        ("SCENARIOS", &scenarios),
        ("BAKED", &baked),
    ] {
        writeln!(out, "const {constant}: &[(&str, &str)] = &[")?;
        for (name, text) in list {
            writeln!(out, "    ({name:?}, {text:?}),")?;
        }
        writeln!(out, "];")?;
    }
    fs::write(Path::new(&env::var("OUT_DIR")?).join("shipped.rs"), out)?;
    Ok(())
}

/// Name and text of each TOML file in a folder, by name.
fn files(folder: &Path) -> Result<Files, Box<dyn Error>> {
    let mut found = Files::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.extension().is_some_and(|e| e == "toml") {
            println!("cargo::rerun-if-changed={}", path.display());
            let name = path
                .file_stem()
                .ok_or("a file without a name")?
                .to_string_lossy()
                .into_owned();
            found.push((name, fs::read_to_string(&path)?));
        }
    }
    found.sort();
    Ok(found)
}

/// A scenario as JSON, its vehicle put in and its acts left out.
fn bake(text: &str, vehicles: &Files) -> Result<String, Box<dyn Error>> {
    let mut table: toml::Table = toml::from_str(text)?;
    if let Some(toml::Value::String(name)) = table.get("vehicle") {
        let (_, text) = vehicles
            .iter()
            .find(|(n, _)| n == name)
            .ok_or_else(|| format!("no vehicle {name}"))?;
        let vehicle: toml::Table = toml::from_str(text)?;
        table.insert("vehicle".into(), vehicle.into());
    }
    table.remove("act");
    Ok(serde_json::to_string(&table)?)
}
