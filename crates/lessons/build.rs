//! Takes in every job card of `scenarios/lessons/` as JSON with its vehicle put in, so that the page needs no TOML reader.

use std::{env, error::Error, fmt::Write as _, fs, path::Path};

fn main() -> Result<(), Box<dyn Error>> {
    let root = Path::new(&env::var("CARGO_MANIFEST_DIR")?).join("../../scenarios");
    let lessons = root.join("lessons");
    println!("cargo::rerun-if-changed={}", lessons.display());
    println!(
        "cargo::rerun-if-changed={}",
        root.join("vehicles").display()
    );
    let mut cards = Vec::new();
    for entry in fs::read_dir(&lessons)? {
        let path = entry?.path();
        if path.extension().is_none_or(|e| e != "toml") {
            continue;
        }
        println!("cargo::rerun-if-changed={}", path.display());
        let (rung, text) = bake(&fs::read_to_string(&path)?, &root)
            .map_err(|e| format!("{}: {e}", path.display()))?;
        let name = path.file_stem().ok_or("a file without a name")?;
        cards.push((rung, name.to_string_lossy().into_owned(), text));
    }
    cards.sort();
    let mut out = String::from("const BAKED: &[(&str, &str)] = &[\n");
    for (_, name, text) in &cards {
        writeln!(out, "    ({name:?}, {text:?}),")?;
    }
    out.push_str("];\n");
    fs::write(Path::new(&env::var("OUT_DIR")?).join("shipped.rs"), out)?;
    Ok(())
}

/// A card's rung, and the card as JSON with its vehicle put in.
fn bake(text: &str, root: &Path) -> Result<(i64, String), Box<dyn Error>> {
    let mut card: toml::Table = toml::from_str(text)?;
    let rung = card.get("rung").and_then(toml::Value::as_integer);
    let rung = rung.ok_or("no rung")?;
    let scenario = card
        .get_mut("scenario")
        .and_then(toml::Value::as_table_mut)
        .ok_or("no [scenario]")?;
    if let Some(toml::Value::String(name)) = scenario.get("vehicle") {
        let path = root.join("vehicles").join(name).with_extension("toml");
        let vehicle: toml::Table = toml::from_str(&fs::read_to_string(path)?)?;
        scenario.insert("vehicle".into(), vehicle.into());
    }
    Ok((rung, serde_json::to_string(&card)?))
}
