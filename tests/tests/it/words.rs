//! Words stand in the Fluent files and nowhere else, and every one of them is used.
use std::{
    collections::BTreeSet,
    fs,
    path::{Path, PathBuf},
};

use lowside_lessons::challenge;
use lowside_session::Bay;
use lowside_shop::fault;
use lowside_tests::{root, runs::scenario};
use lowside_words::Language;

fn sources(dir: &Path, found: &mut Vec<(PathBuf, String)>) {
    for entry in fs::read_dir(dir).unwrap_or_else(|e| panic!("{}: {e}", dir.display())) {
        let path = entry.expect("a directory entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            let text = fs::read_to_string(&path).expect("readable");
            found.push((path, text));
        }
    }
}

/// The string literals of shipped code with their lines: comments and what follows `#[cfg(test)]` are left out.
fn literals(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let shipped = text.split("#[cfg(test)]").next().unwrap_or("");
    for (number, line) in shipped.lines().enumerate() {
        let mut chars = line.char_indices().peekable();
        let mut inside: Option<String> = None;
        while let Some((at, c)) = chars.next() {
            match (&mut inside, c) {
                (None, '/') if line[at..].starts_with("//") => break,
                (None, '\'') if line[at..].starts_with("'\"'") => {
                    chars.next();
                    chars.next();
                }
                (None, '"') => inside = Some(String::new()),
                (Some(text), '"') => {
                    found.push((number + 1, std::mem::take(text)));
                    inside = None;
                }
                (Some(text), '\\') => {
                    text.push(c);
                    text.extend(chars.next().map(|(_, c)| c));
                }
                (Some(text), c) => text.push(c),
                (None, _) => {}
            }
        }
    }
    found
}

/// Would a person read this as words? A capitalised word, or three words in a row. Names of keys, refrigerants and units are
/// no prose; neither are class names and paths, which are lower case and short.
fn prose(text: &str) -> bool {
    let words: Vec<&str> = text
        .split(|c: char| !c.is_alphabetic())
        .filter(|w| w.len() > 1)
        .collect();
    let capital = text.chars().next().is_some_and(char::is_uppercase)
        && text.chars().nth(1).is_some_and(char::is_lowercase)
        && !KEYS.contains(&text);
    let code = text.contains(['{', '#', '<', '=', ';', '_', '(', '/']) && !text.contains(". ");
    let sentence = words.len() > 3 && text.contains(' ') && !code;
    capital && !code || sentence
}

/// Names of keys, errors and units as the browser and SI spell them.
const KEYS: &[&str] = &[
    "Enter",
    "Escape",
    "Home",
    "End",
    "PageUp",
    "PageDown",
    "ArrowLeft",
    "ArrowRight",
    "ArrowUp",
    "ArrowDown",
    "Shift",
    "Tab",
    "Control+Z",
    "Control+Y",
    "QuotaExceededError",
    "CompressionStream",
    "DecompressionStream",
    "Pa",
    "Btu/h",
    "Lowside",
];

#[test]
fn no_prose_in_the_code() {
    let mut files = Vec::new();
    for dir in ["web/src", "crates/present/src", "crates/units/src/display"] {
        sources(&root().join(dir), &mut files);
    }
    // Tests in a file of their own, as those at the end of a file.
    files.retain(|(path, _)| !path.ends_with("tests.rs"));
    let mut wrong = Vec::new();
    for (path, text) in &files {
        let lines: Vec<&str> = text.lines().collect();
        for (line, literal) in literals(text) {
            let at = lines[line - 1];
            // For whoever changes or debugs the code, never shown to people.
            let inner = at.contains("reason =") || at.contains("expect(") || at.contains("panic!(");
            let class = at.contains("class=") || at.contains("classes!(");
            if !inner && !class && prose(&literal) {
                wrong.push(format!("{}:{line}: \"{literal}\"", path.display()));
            }
        }
    }
    assert!(files.len() > 30, "the code is there: {}", files.len());
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn the_check_for_prose_can_fail() {
    assert!(prose("Take care"));
    assert!(prose("Run"));
    assert!(prose("the can is empty now"));
    for code in [
        "switch needed",
        "psig",
        "(prefers-reduced-motion: reduce)",
        "Enter",
        "control-tap",
    ] {
        assert!(!prose(code), "{code}");
    }
    let found = literals("let a = \"One\"; // \"not this\"\n#[cfg(test)]\nlet b = \"Nor this\";");
    assert_eq!(found, [(1, "One".to_owned())]);
}

#[test]
fn every_message_is_said_somewhere() {
    let mut code = Vec::new();
    for dir in ["web/src", "crates/cli/src"] {
        sources(&root().join(dir), &mut code);
    }
    let code: String = code.into_iter().map(|(_, text)| text).collect();
    let mut unused = Vec::new();
    let mut count = 0;
    // Asked for by the rest of their ids, which stand in data.
    let families = [
        ("fault-", "words::fault(", faults()),
        ("halt-place-", "halt_place(", halts()),
        ("challenge-", "words::challenge(", challenges()),
    ];
    for entry in fs::read_dir(root().join("crates/words/en")).expect("the English files") {
        let text = fs::read_to_string(entry.expect("an entry").path()).expect("readable");
        let mut message = "";
        for line in text.lines() {
            let Some((id, value)) = line.split_once('=') else {
                continue;
            };
            let id = id.trim_end();
            let name = match id.strip_prefix("    .") {
                Some(attribute) => format!("{message}-{attribute}"),
                None if id.starts_with([' ', '-', '#']) || id.contains(' ') => continue,
                None => {
                    message = id;
                    // A message may consist of attributes alone.
                    if value.trim().is_empty() {
                        continue;
                    }
                    id.to_owned()
                }
            };
            count += 1;
            let family = families.iter().find(|(head, ..)| name.starts_with(head));
            if let Some((head, asked, known)) = family {
                if !code.contains(asked) || !known.contains(&name[head.len()..].to_owned()) {
                    unused.push(name);
                }
                continue;
            }
            let function = format!("{}(", name.replace('-', "_"));
            let reference = format!("::{}", name.replace('-', "_"));
            if !code.contains(&function) && !code.contains(&reference) {
                unused.push(name);
            }
        }
    }
    assert!(count > 200, "the messages are there: {count}");
    assert!(unused.is_empty(), "never said: {unused:?}");
}

/// Ids of what is said of faults, with dashes.
fn faults() -> BTreeSet<String> {
    let said = |id: &str| ["", "-sign", "-cure"].map(|more| format!("{id}{more}"));
    fault::all().flat_map(|fault| said(fault.id)).collect()
}

/// What is said of each challenge: what it asks, and why it comes as it does.
fn challenges() -> BTreeSet<String> {
    let said = |id: &str| ["", "-why"].map(|more| format!("{id}{more}"));
    challenge::ALL.iter().flat_map(|c| said(c.id)).collect()
}

/// Ids of the places where a bay can halt: volumes, links, and what is neither.
fn halts() -> BTreeSet<String> {
    let leak = r#"condition.leak=[{at="shaft-seal",rate="40 g/yr"}]"#;
    let muffler = "vehicle.discharge_line.muffler=100cm3";
    let bay = Bay::new(&scenario("healthy", &[leak, muffler]));
    let net = &bay.plant().network;
    let nodes = net.nodes().iter().map(|node| node.name);
    let links = net.links().iter().map(|link| link.name);
    let all = nodes.chain(links).chain(["loop", "vehicle"]);
    all.map(|name| name.replace(' ', "-")).collect()
}

/// What stands in data has words in every language.
#[test]
fn every_fault_and_every_place_of_a_halt_has_words() {
    for (language, texts) in [
        (Language::English, None),
        (Language::Spanish, Some(&lowside_words::ES[..])),
    ] {
        lowside_words::set(language, texts);
        for fault in fault::all() {
            for more in ["", ".sign", ".cure"] {
                let id = format!("{}{more}", fault.id);
                assert!(lowside_words::fault(&id).is_some(), "{id}");
            }
        }
        for place in halts() {
            assert!(lowside_words::halt_place(&place).is_some(), "{place}");
        }
    }
    let spanish = lowside_words::halt_place("discharge-line");
    assert_eq!(spanish, Some("línea de descarga"));
}

#[test]
fn the_shell_speaks_both_languages() {
    let shell = fs::read_to_string(root().join("web/index.html")).expect("the shell");
    let count = |mark: &str| shell.matches(mark).count();
    assert!(count("lang=\"en\">") > 5);
    // The root element carries English until the script has looked.
    assert_eq!(count("lang=\"en\">") - 1, count("lang=\"es\">"));
}
