//! The documents against the tree: commands exist, paths exist, every crate is on the map.

use std::{collections::BTreeSet, fs};

use lowside_session::{Scenario, library};
use lowside_tests::root;

const DOCUMENTS: &[&str] = &[
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "doc/model.md",
    "doc/takes.md",
];

/// Endings by which a name without a slash is known to be a file.
const ENDINGS: &[&str] = &[
    "rs", "md", "toml", "mjs", "json", "csv", "py", "html", "css", "png",
];

fn text(path: &str) -> String {
    let path = root().join(path);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Lines of a text's fenced blocks, without their comments; a line that ends in a backslash goes on in the next.
fn commands(markdown: &str) -> Vec<String> {
    let fenced: Vec<&str> = markdown.split("```").skip(1).step_by(2).collect();
    let lines = fenced.join("\n").replace("\\\n", " ");
    lines
        .lines()
        .map(|line| {
            let line = line.trim().trim_start_matches("$ ");
            line.split(" #")
                .next()
                .unwrap_or_default()
                .trim()
                .to_owned()
        })
        .collect()
}

/// What stands in back quotes outside the fenced blocks.
fn quoted(markdown: &str) -> Vec<String> {
    markdown
        .split("```")
        .step_by(2)
        .flat_map(|prose| prose.split('`').skip(1).step_by(2))
        .map(str::to_owned)
        .collect()
}

/// The targets of links and pictures, without those on the web and within the page.
fn links(markdown: &str) -> Vec<String> {
    markdown
        .split("](")
        .skip(1)
        .filter_map(|rest| rest.split(')').next())
        .map(|target| target.split('#').next().unwrap_or_default())
        .filter(|target| !target.is_empty() && !target.contains("://"))
        .map(str::to_owned)
        .collect()
}

/// Whether a quoted word is meant as a path of this tree. What is built (`target/`) is not in the tree.
fn is_path(word: &str) -> bool {
    let plain = word
        .chars()
        .all(|c| c.is_ascii_alphanumeric() || "._-/".contains(c));
    let first = word.split('/').next().unwrap_or_default();
    let below = word.contains('/') && root().join(first).is_dir();
    let file = word
        .rsplit_once('.')
        .is_some_and(|(stem, ending)| !stem.is_empty() && ENDINGS.contains(&ending));
    plain && first != "target" && (below || file)
}

/// The words after `cargo xtask` in its usage text.
fn xtask_knows() -> BTreeSet<String> {
    let source = text("crates/xtask/src/main.rs");
    let words = source
        .lines()
        .filter_map(|line| line.trim().strip_prefix("cargo xtask "))
        .filter_map(|rest| rest.split_whitespace().next());
    words.map(str::to_owned).collect()
}

#[test]
fn every_xtask_command_shown_is_in_its_usage() {
    let known = xtask_knows();
    for document in DOCUMENTS {
        for line in commands(&text(document)) {
            let Some(rest) = line.strip_prefix("cargo xtask ") else {
                continue;
            };
            let word = rest.split_whitespace().next().unwrap_or_default();
            assert!(
                known.contains(word),
                "{document}: `{line}` is not among {known:?}"
            );
        }
    }
    let readme = commands(&text("README.md"));
    for told in ["cargo xtask serve", "cargo xtask test"] {
        assert!(
            readme.iter().any(|line| line == told),
            "README.md does not show `{told}`"
        );
    }
}

/// A run that a document shows names a shipped scenario, and its overrides are understood.
#[test]
fn every_run_shown_can_be_read() {
    let mut seen = 0;
    for document in DOCUMENTS {
        for line in commands(&text(document)) {
            let told = line
                .split_once(" -- run ")
                .or_else(|| line.split_once("lowside run "));
            let Some((_, rest)) = told else {
                continue;
            };
            let words: Vec<&str> = rest.split_whitespace().collect();
            let scenario = library::scenario(words[0])
                .unwrap_or_else(|| panic!("{document}: `{line}`: no scenario {}", words[0]));
            let after = |option: &str| {
                let pairs = words.windows(2).filter(move |pair| pair[0] == option);
                pairs.map(|pair| pair[1].to_owned()).collect::<Vec<_>>()
            };
            let mut sets = after("--set");
            sets.extend(after("--until").iter().map(|t| format!("until={t}")));
            if let Err(error) = Scenario::parse(scenario, &sets) {
                panic!("{document}: `{line}`: {error}");
            }
            seen += 1;
        }
    }
    assert!(seen >= 2, "only {seen} runs shown");
}

#[test]
fn every_path_named_exists() {
    let mut wrong = Vec::new();
    let mut named = 0;
    for document in DOCUMENTS {
        let markdown = text(document);
        let home = root().join(document);
        let home = home.parent().expect("a document stands in a directory");
        for word in quoted(&markdown).into_iter().filter(|word| is_path(word)) {
            named += 1;
            if !root().join(&word).exists() {
                wrong.push(format!("{document}: `{word}` does not exist"));
            }
        }
        for target in links(&markdown) {
            if !home.join(&target).exists() {
                wrong.push(format!("{document}: the link to {target} leads nowhere"));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
    assert!(named > 40, "only {named} paths found in the documents");
}

#[test]
fn every_crate_is_on_the_map() {
    let developers = text("DEVELOPERS.md");
    let mut rooms: Vec<String> = fs::read_dir(root().join("crates"))
        .expect("crates/ is there")
        .map(|entry| entry.expect("an entry").file_name())
        .map(|name| format!("crates/{}", name.to_string_lossy()))
        .collect();
    rooms.extend(["web", "tests"].map(str::to_owned));
    assert!(rooms.len() > 5, "{rooms:?}");
    for room in rooms {
        let row = format!("| `{room}` |");
        assert!(
            developers.lines().any(|line| line.starts_with(&row)),
            "DEVELOPERS.md: the map has no row {row}"
        );
    }
}
