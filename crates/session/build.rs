//! Takes in every scenario and vehicle of `scenarios/`, so that adding a file is all it takes to ship it.
//!
//! Scenarios are kept twice: as written, for tools that read and change them, and as data (`src/library/data.rs`) with the vehicle put in,
//! numbers in SI and without the acts, so that the page need carry neither a reader of text nor a script that it does not play.

use std::{env, error::Error, fmt::Write as _, fs, path::Path};

use lowside_units::{
    AbsolutePressure, Area, Conductance, Density, Duration, GaugePressure, HeatCapacity, Length,
    Mass, MassFlow, Power, PressureDifference, Quantity, Ratio, RotationSpeed, SpecificEnergy,
    SpecificEntropy, Speed, Temperature, Volume, VolumeFlow,
};

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
    let mut out = String::new();
    for (constant, list) in [("VEHICLES", &vehicles), ("SCENARIOS", &scenarios)] {
        writeln!(out, "const {constant}: &[(&str, &str)] = &[")?;
        for (name, text) in list {
            writeln!(out, "    ({name:?}, {text:?}),")?;
        }
        writeln!(out, "];")?;
    }
    writeln!(out, "const DATA: &[(&str, Data)] = &[")?;
    for (name, text) in &scenarios {
        let data = data(text, &vehicles).map_err(|e| format!("scenarios/{name}.toml: {e}"))?;
        writeln!(out, "    ({name:?}, {data}),")?;
    }
    writeln!(out, "];")?;
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

/// A scenario as Rust source of its data, its vehicle put in and its acts left out.
fn data(text: &str, vehicles: &Files) -> Result<String, Box<dyn Error>> {
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
    source(&table.into())
}

/// A value as Rust source.
fn source(value: &toml::Value) -> Result<String, Box<dyn Error>> {
    Ok(match value {
        toml::Value::Boolean(on) => format!("Data::Switch({on})"),
        toml::Value::Integer(n) => format!("Data::Count({n})"),
        toml::Value::Float(x) => format!("Data::Number({x:?})"),
        toml::Value::String(text) => match si(text)? {
            Some(si) => format!("Data::Number({si:?})"),
            None => format!("Data::Text({text:?})"),
        },
        toml::Value::Array(list) => {
            let items = list.iter().map(source).collect::<Result<Vec<_>, _>>()?;
            format!("Data::List(&[{}])", items.join(", "))
        }
        toml::Value::Table(table) => {
            let entry =
                |(key, value)| Ok::<_, Box<dyn Error>>(format!("({key:?}, {})", source(value)?));
            let entries = table.iter().map(entry).collect::<Result<Vec<_>, _>>()?;
            format!("Data::Table(&[{}])", entries.join(", "))
        }
        toml::Value::Datetime(_) => return Err("a scenario has no dates".into()),
    })
}

/// The SI value of a text that is a quantity; an error where two quantities read it differently. A difference of temperatures is written in K,
/// which a temperature reads alike.
fn si(text: &str) -> Result<Option<f64>, Box<dyn Error>> {
    macro_rules! read {
        ($($quantity:ident)+) => { [$($quantity::parse(text).ok().map(Quantity::si)),+] };
    }
    let mut read = read![
        AbsolutePressure Area Conductance Density Duration GaugePressure HeatCapacity Length Mass MassFlow Power
        PressureDifference Ratio RotationSpeed SpecificEnergy SpecificEntropy Speed Temperature
        Volume VolumeFlow
    ]
    .into_iter()
    .flatten();
    let first = read.next();
    if let Some(other) = read.find(|si| first.map(f64::to_bits) != Some(si.to_bits())) {
        return Err(format!("\"{text}\" may be {first:?} or {other}").into());
    }
    Ok(first)
}
