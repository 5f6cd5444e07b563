//! Makes short what binds the program to the browser: it is sent before anything runs.
use std::{collections::HashMap, fs, path::Path};

use anyhow::{Context, Result, anyhow};

/// The module that the program takes its functions of the browser from, as the bindings call it.
const BROWSER: &str = "./lowside_bg.js";

/// Gives the functions that pass between `wasm` and its `script` short names: the ones they come with end in random numbers, which no packing
/// shortens, and stand in both files.
pub(crate) fn shorten(wasm: &Path, script: &Path) -> Result<()> {
    let bytes = fs::read(wasm).with_context(|| format!("reading {}", wasm.display()))?;
    let text =
        fs::read_to_string(script).with_context(|| format!("reading {}", script.display()))?;
    let mut module = walrus::ModuleConfig::new()
        .generate_name_section(false)
        .generate_producers_section(false)
        .parse(&bytes)
        .with_context(|| format!("reading {}", wasm.display()))?;
    let mut names = HashMap::new();
    let mut short = |name: &mut String| {
        let next = format!("_{:x}", names.len());
        let long = core::mem::take(name);
        name.clone_from(names.entry(long).or_insert(next));
    };
    for import in module.imports.iter_mut().filter(|i| i.module == BROWSER) {
        "_".clone_into(&mut import.module);
        short(&mut import.name);
    }
    for export in module.exports.iter_mut() {
        if export.name.starts_with("wasm_bindgen__") {
            short(&mut export.name);
        }
    }
    fs::write(wasm, module.emit_wasm()).with_context(|| format!("writing {}", wasm.display()))?;
    let text = renamed(&text, &names).replace(&format!("\"{BROWSER}\""), "\"_\"");
    fs::write(script, text).with_context(|| format!("writing {}", script.display()))
}

/// The script with other names for these.
fn renamed(script: &str, names: &HashMap<String, String>) -> String {
    let word = |c: char| c.is_ascii_alphanumeric() || c == '_' || c == '$';
    let mut out = String::with_capacity(script.len());
    let mut rest = script;
    while !rest.is_empty() {
        let end = rest.find(|c| !word(c)).unwrap_or(rest.len());
        let (found, after) = rest.split_at(end);
        out.push_str(names.get(found).map_or(found, String::as_str));
        let next = after.find(word).unwrap_or(after.len());
        out.push_str(&after[..next]);
        rest = &after[next..];
    }
    out
}

/// A style sheet or a script without comments and room; any other file as it is.
pub(crate) fn minified(name: &str, bytes: Vec<u8>) -> Result<Vec<u8>> {
    let text = |bytes| String::from_utf8(bytes).with_context(|| format!("{name} is text"));
    match name.rsplit_once('.') {
        Some((_, "css")) => {
            let text = text(bytes)?;
            let sheet = minifier::css::minify(&text).map_err(|e| anyhow!("{name}: {e}"))?;
            Ok(sheet.to_string().into_bytes())
        }
        Some((_, "js")) => {
            // The bindings end their imports with the line.
            let text = text(bytes)?.replace("from \"./later.js\"\n", "from \"./later.js\";\n");
            Ok(minifier::js::minify(&text).to_string().into_bytes())
        }
        _ => Ok(bytes),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_names_are_changed_and_no_others() {
        let names = HashMap::from([("__wbg_now_1".to_owned(), "_0".to_owned())]);
        let script = "__wbg_now_1: () => wasm.__wbg_now_12(\"__wbg_now_1\") + __wbg_now_1()";
        let expected = "_0: () => wasm.__wbg_now_12(\"_0\") + _0()";
        assert_eq!(renamed(script, &names), expected);
    }

    #[test]
    fn what_is_made_short_still_says_the_same() {
        let css = "/* a note */\n.a > .b { width: calc(1px + 2px); margin: 0 auto }\n";
        let made = minified("lowside.css", css.as_bytes().to_vec()).expect("a sheet");
        let made = String::from_utf8(made).expect("text");
        assert!(
            made.contains("calc(1px + 2px)") && !made.contains("note"),
            "{made}"
        );
        let js = "// a note\nimport * as a from \"./later.js\"\nimport * as b from \"./later.js\"\nconst c = /[^/]*$/;\n";
        let made = minified("boot.js", js.as_bytes().to_vec()).expect("a script");
        let made = String::from_utf8(made).expect("text");
        assert!(made.contains("\"./later.js\";import"), "{made}");
        assert!(
            made.contains("/[^/]*$/") && !made.contains("note"),
            "{made}"
        );
        assert_eq!(minified("a.bin", vec![47, 47]).expect("as it is"), [47, 47]);
    }
}
