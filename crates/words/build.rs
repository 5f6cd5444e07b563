//! Makes `words.rs` of the Fluent files; a string that one language lacks ends the build.
use std::{env, fs, path::Path};

#[path = "build/compile.rs"]
mod compile;

fn read(language: &str) -> Result<Vec<(String, String)>, std::io::Error> {
    println!("cargo::rerun-if-changed={language}");
    let mut files = Vec::new();
    for entry in fs::read_dir(language)? {
        let path = entry?.path();
        if path.extension().is_some_and(|e| e == "ftl") {
            println!("cargo::rerun-if-changed={}", path.display());
            files.push((path.display().to_string(), fs::read_to_string(&path)?));
        }
    }
    files.sort();
    Ok(files)
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    println!("cargo::rerun-if-changed=build");
    let made = compile::compile(&[("en", read("en")?), ("es", read("es")?)]);
    let code = match made {
        Ok(code) => code,
        Err(faults) => {
            for fault in &faults {
                println!("cargo::error={fault}");
            }
            return Err(format!("{} faults in the words", faults.len()).into());
        }
    };
    fs::write(Path::new(&env::var("OUT_DIR")?).join("words.rs"), code)?;
    Ok(())
}
