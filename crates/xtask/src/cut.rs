//! Cuts the program in parts: the first, which the page opens with, and those it fetches later.
//!
//! `web/src/later.rs` and `web/src/speech.rs` mark where. The library makes a module of what only one mark leads to, and one of what each set of
//! marks shares; here they are put together to one file a part, so that a part is one request and its modules are packed as one. All share the
//! memory and the function table of the first.
use std::{
    collections::{BTreeMap, BTreeSet},
    fmt::Write as _,
    fs,
    path::Path,
};

use anyhow::{Context, Result, anyhow, bail};
use wasm_split_cli_support::{Options, transform};

/// A file of later parts.
pub(crate) struct Later {
    pub(crate) name: &'static str,
    /// The sets of marks that all need what is in it.
    marks: &'static [&'static [&'static str]],
    /// What it may weigh as sent, bytes.
    pub(crate) most: usize,
}

const fn later(
    name: &'static str,
    marks: &'static [&'static [&'static str]],
    most: usize,
) -> Later {
    Later { name, marks, most }
}

/// The files. A module goes into the first of whose sets one is among the marks that need it. What hands and keeping need comes by itself, and so
/// is in their files whoever else needs it; the same file has the little that doors share besides. What is large and shared has a file of its own,
/// so that no door fetches another.
pub(crate) const FILES: [Later; 15] = [
    later("hands", &[&["hands"]], 70_000),
    later(
        "state",
        &[
            &["keeping", "diagnose"],
            &["keeping", "jobs"],
            &["keeping", "sheet"],
            &["keeping", "desk"],
            &["desk", "diagnose"],
            &["desk", "jobs"],
            &["desk", "sheet"],
            &["diagnose", "jobs"],
            &["diagnose", "sheet"],
            &["diagnose", "reading"],
            &["parts", "charts"],
            &["parts", "sheet"],
            &["charts", "sheet"],
            &["charts", "jobs"],
        ],
        64_000,
    ),
    later("keeping", &[&["keeping"]], 45_000),
    later("desk", &[&["desk"]], 20_000),
    later(
        "scenarios",
        &[
            &["reading", "jobs"],
            &["links", "reading"],
            &["links", "jobs"],
        ],
        68_000,
    ),
    later("jobs", &[&["jobs"]], 45_000),
    later("links", &[&["links"]], 22_000),
    later("reading", &[&["reading"]], 44_000),
    later("sheet", &[&["sheet"]], 45_000),
    later(
        "figures",
        &[
            &["class", "charts"],
            &["class", "diagnose"],
            &["class", "parts"],
            &["class", "sheet"],
            &["class", "jobs"],
        ],
        30_000,
    ),
    later("diagnose", &[&["diagnose"]], 45_000),
    later("class", &[&["class"]], 40_000),
    later("parts", &[&["parts"]], 52_000),
    later("charts", &[&["charts"]], 40_000),
    later("spanish", &[&["spanish"]], 24_000),
];

/// Name of a part's file.
pub(crate) fn file_name(part: &str) -> String {
    format!("part_{part}.bin")
}

/// The part that a file of the page is.
pub(crate) fn part_of(file: &str) -> Option<&str> {
    file.strip_prefix("part_")?.strip_suffix(".bin")
}

/// The script that fetches the parts.
const SCRIPT: &str = "later.js";

/// Writes the first part to `first` and the others, with the script that fetches them, into `dir`; `scratch` is room for the library.
pub(crate) fn cut(wasm: &Path, first: &Path, scratch: &Path, dir: &Path) -> Result<()> {
    let whole = fs::read(wasm).with_context(|| format!("reading {}", wasm.display()))?;
    let mut options = Options::new(&whole);
    options.output_dir = scratch;
    options.main_out_path = first;
    options.main_module = "./lowside.js";
    options.link_name = "./later.js";
    let made = transform(options).map_err(|e| anyhow!("cutting the program: {e:#}"))?;
    let link = fs::read_to_string(scratch.join(SCRIPT)).context("reading the library's script")?;

    let mut needs: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    let mut files: BTreeMap<&str, (Vec<u8>, Vec<usize>)> = BTreeMap::new();
    let mut modules: Vec<&Path> = made.split_modules.iter().map(AsRef::as_ref).collect();
    modules.sort_unstable();
    for module in modules {
        let stem = module.file_stem().and_then(|stem| stem.to_str());
        let stem = stem.context("a module without a name")?;
        let needing = |part: &&str| made.prefetch_map[*part].iter().any(|m| m == stem);
        let users: Vec<&str> = made
            .prefetch_map
            .keys()
            .map(String::as_str)
            .filter(needing)
            .collect();
        let home = |file: &&Later| {
            let among = |set: &&[&str]| set.iter().all(|mark| users.contains(mark));
            file.marks.iter().any(among)
        };
        let Some(Later { name: home, .. }) = FILES.iter().find(home) else {
            bail!("what {users:?} need has no file in crates/xtask/src/cut.rs");
        };
        for user in users {
            needs.entry(user).or_default().insert(home);
        }
        let (bytes, lengths) = files.entry(home).or_default();
        let module = compact(module)?;
        lengths.push(module.len());
        bytes.extend(module);
    }
    for (part, (bytes, _)) in &files {
        let file = dir.join(file_name(part));
        fs::write(&file, bytes).with_context(|| format!("writing {}", file.display()))?;
    }
    let lengths = files.iter().map(|(part, (_, lengths))| (*part, lengths));
    let script = script(lengths, &needs, canary(&link));
    fs::write(dir.join(SCRIPT), script).context("writing the script of the later parts")
}

/// The script: the lengths of each file's modules, and for each part the files that it needs. A file that failed is asked for anew the next time.
fn script<'a>(
    lengths: impl Iterator<Item = (&'a str, &'a Vec<usize>)>,
    needs: &BTreeMap<&str, BTreeSet<&str>>,
    canary: Option<&str>,
) -> String {
    let mut script = String::from("import { initSync } from \"./lowside.js\";\nconst MODULES = {");
    for (part, lengths) in lengths {
        let _ = write!(script, "{part}:{lengths:?},");
    }
    // A development build's modules ask for a number by which they know that they belong to this program.
    let canary = canary.map_or_else(String::new, |name| format!(", {name}: ~0xdead"));
    let _ = write!(
        script,
        "}};
const imports = () => ({{ __wasm_split: {{ ...initSync(){canary} }} }});
const fetched = {{}};
async function fetchPart(part) {{
  const response = await fetch(new URL(`./part_${{part}}.bin`, import.meta.url));
  if (!response.ok) throw new Error(`${{part}}: ${{response.status}}`);
  const bytes = await response.arrayBuffer();
  let at = 0;
  await Promise.all(MODULES[part].map((length) => WebAssembly.instantiate(bytes.slice(at, (at += length)), imports())));
}}
const bring = (part) => (fetched[part] ??= fetchPart(part).catch((error) => {{
  delete fetched[part];
  throw error;
}}));
const loader = (...parts) => async (callback, data) => {{
  let come = true;
  try {{
    await Promise.all(parts.map(bring));
  }} catch (error) {{
    console.error(error);
    come = false;
  }}
  initSync().__indirect_function_table.get(callback)(data, come);
}};
"
    );
    for (part, files) in needs {
        let _ = writeln!(
            script,
            "export const __wasm_split_load_{part} = loader({});",
            files
                .iter()
                .map(|file| format!("{file:?}"))
                .collect::<Vec<_>>()
                .join(", ")
        );
    }
    script
}

/// The name of that number in the library's own script.
fn canary(link: &str) -> Option<&str> {
    link.find("__canary_")
        .and_then(|at| link[at..].split(':').next())
}

/// Numbers in a part are written at full length, so that they could be changed in place; written anew they are a fifth shorter.
fn compact(part: &Path) -> Result<Vec<u8>> {
    let bytes = fs::read(part).with_context(|| format!("reading {}", part.display()))?;
    let mut module = walrus::ModuleConfig::new()
        .generate_name_section(false)
        .generate_producers_section(false)
        .parse(&bytes)
        .with_context(|| format!("reading {}", part.display()))?;
    Ok(module.emit_wasm())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_is_fetched_with_the_files_that_it_shares() {
        let lengths = [("hands", vec![3, 4]), ("jobs", vec![5])];
        let needs = BTreeMap::from([
            ("hands", BTreeSet::from(["hands"])),
            ("jobs", BTreeSet::from(["hands", "jobs"])),
        ]);
        let script = script(
            lengths.iter().map(|(p, l)| (*p, l)),
            &needs,
            Some("__canary_1"),
        );
        for line in [
            "const MODULES = {hands:[3, 4],jobs:[5],};",
            "export const __wasm_split_load_jobs = loader(\"hands\", \"jobs\");",
            "...initSync(), __canary_1: ~0xdead }",
        ] {
            assert!(script.contains(line), "{line}: {script}");
        }
        assert_eq!(part_of(&file_name("jobs")), Some("jobs"));
        assert_eq!(part_of("lowside_bg.wasm"), None);
    }
}
