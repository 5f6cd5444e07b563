//! Cuts the program in parts: the first, which the page opens with, and those it fetches later.
//!
//! `web/src/later.rs` and `web/src/speech.rs` mark where. A part holds what only its mark leads to; it shares the memory and the function
//! table of the first.
use std::{
    fs,
    path::{Path, PathBuf},
};

use anyhow::{Context, Result, anyhow};
use wasm_split_cli_support::{Options, transform};

/// Is this file fetched with a later part? The parts are named `split_`, what several of them need `chunk_`.
pub(crate) fn is_later(file: &str) -> bool {
    file.starts_with("split_") || file.starts_with("chunk_")
}

/// Writes the first part to `first` and the others, with the script that fetches them, into `dir`.
pub(crate) fn cut(wasm: &Path, first: &Path, dir: &Path) -> Result<()> {
    let whole = fs::read(wasm).with_context(|| format!("reading {}", wasm.display()))?;
    let mut options = Options::new(&whole);
    options.output_dir = dir;
    options.main_out_path = first;
    options.main_module = "./lowside.js";
    options.link_name = "./later.js";
    let made = transform(options).map_err(|e| anyhow!("cutting the program: {e:#}"))?;
    for part in &made.split_modules {
        compact(part)?;
    }
    Ok(())
}

/// Numbers in a part are written at full length, so that they could be changed in place; written anew they are a fifth shorter.
fn compact(part: &PathBuf) -> Result<()> {
    let bytes = fs::read(part).with_context(|| format!("reading {}", part.display()))?;
    let mut module = walrus::ModuleConfig::new()
        .generate_name_section(false)
        .generate_producers_section(false)
        .parse(&bytes)
        .with_context(|| format!("reading {}", part.display()))?;
    fs::write(part, module.emit_wasm()).with_context(|| format!("writing {}", part.display()))
}
