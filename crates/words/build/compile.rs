//! From Fluent files to Rust: a function for each message with its text in the reference language, and a table of encoded patterns for each other
//! one. A program that is cut in parts so carries the words of a part with it.
//!
//! A pattern is text with four marks in it, which `src/say.rs` reads: `\u{1}k` stands for the k-th variable; `\u{2}k` begins a
//! choice by it, each variant being `\u{3}key\u{4}pattern` (the default's key begins with `*`), and `\u{5}` ends the choice.
use std::{
    collections::{BTreeMap, BTreeSet},
    fmt::Write,
};

use fluent_syntax::{ast, parser};

/// Names and texts of a language's files.
pub(crate) type Files = Vec<(String, String)>;

type Pattern = ast::Pattern<String>;

/// What a language's files hold.
#[derive(Default)]
struct Book {
    /// By id, attributes as `id.attribute`.
    messages: BTreeMap<String, Pattern>,
    terms: BTreeMap<String, Pattern>,
}

/// Messages that are asked for by the rest of their id, since what they name stands in data: `fault-leak.sign` by "leak.sign". They have no
/// variables.
const FAMILIES: [&str; 3] = ["challenge", "fault", "halt-place"];

/// Compiles the languages, the first of which is the reference.
///
/// # Errors
/// Everything that is wrong: what does not parse, messages or variables that one language has and another lacks.
pub(crate) fn compile(languages: &[(&str, Files)]) -> Result<String, Vec<String>> {
    let mut faults = Vec::new();
    let books: Vec<(&str, Book)> = languages
        .iter()
        .map(|(name, files)| (*name, read(files, &mut faults)))
        .collect();
    let all: BTreeSet<&String> = books.iter().flat_map(|(_, b)| b.messages.keys()).collect();
    let mut code = String::new();
    let mut tables = vec![String::new(); books.len()];
    for (index, id) in all.iter().enumerate() {
        let mut variables: Option<Vec<String>> = None;
        for (name, book) in &books {
            let Some(pattern) = book.messages.get(*id) else {
                faults.push(format!("{name}: the message \"{id}\" is missing"));
                continue;
            };
            let mut used = Vec::new();
            collect(pattern, book, &mut used, 0);
            match &variables {
                None => variables = Some(used),
                Some(first) if set(first) != set(&used) => faults.push(format!(
                    "{name}: \"{id}\" uses the variables {used:?}, the first language {first:?}"
                )),
                Some(_) => {}
            }
        }
        let variables = variables.unwrap_or_default();
        let mut reference = String::new();
        for ((name, book), table) in books.iter().zip(&mut tables) {
            let Some(pattern) = book.messages.get(*id) else {
                continue;
            };
            let mut text = String::new();
            if let Err(why) = encode(pattern, book, &variables, &mut text, 0) {
                faults.push(format!("{name}: \"{id}\": {why}"));
            }
            if text.trim().is_empty() {
                faults.push(format!("{name}: \"{id}\" is empty"));
            }
            let _ = writeln!(table, "    {text:?},");
            if *name == books[0].0 {
                reference = text;
            }
        }
        function(&mut code, id, (index, &reference), &variables, &books[0].1);
    }
    for family in FAMILIES {
        lookup(&mut code, family, &all);
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    for ((name, _), table) in books.iter().zip(&tables).skip(1) {
        let _ = writeln!(
            code,
            "/// Every message in this language (`{name}`).\npub static {}: [&str; {}] = [\n{table}];",
            name.to_uppercase(),
            all.len()
        );
    }
    Ok(code)
}

fn read(files: &Files, faults: &mut Vec<String>) -> Book {
    let mut book = Book::default();
    for (file, text) in files {
        let resource = match parser::parse(text.clone()) {
            Ok(resource) => resource,
            Err((resource, errors)) => {
                for e in errors {
                    let line = text[..e.pos.start.min(text.len())].matches('\n').count() + 1;
                    faults.push(format!("{file}:{line}: {}", e.kind));
                }
                resource
            }
        };
        for entry in resource.body {
            match entry {
                ast::Entry::Message(m) => {
                    let id = m.id.name;
                    let mut put = |id: String, pattern| {
                        if book.messages.insert(id.clone(), pattern).is_some() {
                            faults.push(format!("{file}: \"{id}\" is there twice"));
                        }
                    };
                    for a in m.attributes {
                        put(format!("{id}.{}", a.id.name), a.value);
                    }
                    if let Some(value) = m.value {
                        put(id, value);
                    }
                }
                ast::Entry::Term(t) => {
                    book.terms.insert(t.id.name, t.value);
                }
                _ => {}
            }
        }
    }
    book
}

/// References deeper than this go in a circle.
const DEEPEST: u32 = 8;

/// The pattern that a reference means.
fn referred<'a>(book: &'a Book, e: &ast::InlineExpression<String>) -> Option<&'a Pattern> {
    match e {
        ast::InlineExpression::MessageReference { id, attribute } => {
            let name = attribute
                .as_ref()
                .map_or_else(|| id.name.clone(), |a| format!("{}.{}", id.name, a.name));
            book.messages.get(&name)
        }
        ast::InlineExpression::TermReference { id, .. } => book.terms.get(&id.name),
        _ => None,
    }
}

fn set(names: &[String]) -> BTreeSet<&String> {
    names.iter().collect()
}

/// Adds the variables of a pattern in the order in which they first appear.
fn collect(pattern: &Pattern, book: &Book, used: &mut Vec<String>, depth: u32) {
    if depth > DEEPEST {
        return;
    }
    let inline = |e: &ast::InlineExpression<String>, used: &mut Vec<String>| {
        if let ast::InlineExpression::VariableReference { id } = e
            && !used.contains(&id.name)
        {
            used.push(id.name.clone());
        }
        if let Some(pattern) = referred(book, e) {
            collect(pattern, book, used, depth + 1);
        }
    };
    for element in &pattern.elements {
        match element {
            ast::PatternElement::TextElement { .. } => {}
            ast::PatternElement::Placeable { expression } => match expression {
                ast::Expression::Inline(e) => inline(e, used),
                ast::Expression::Select { selector, variants } => {
                    inline(selector, used);
                    for v in variants {
                        collect(&v.value, book, used, depth + 1);
                    }
                }
            },
        }
    }
}

fn encode(
    pattern: &Pattern,
    book: &Book,
    variables: &[String],
    out: &mut String,
    depth: u32,
) -> Result<(), String> {
    if depth > DEEPEST {
        return Err("its references go in a circle".into());
    }
    let number = |id: &ast::Identifier<String>| {
        let k = variables.iter().position(|v| *v == id.name).unwrap_or(0);
        char::from(b'0' + u8::try_from(k.min(9)).unwrap_or(9))
    };
    for element in &pattern.elements {
        match element {
            ast::PatternElement::TextElement { value } => {
                if value.chars().any(|c| c < '\u{6}') {
                    return Err("it holds a control character".into());
                }
                out.push_str(value);
            }
            ast::PatternElement::Placeable { expression } => match expression {
                ast::Expression::Inline(ast::InlineExpression::VariableReference { id }) => {
                    out.push('\u{1}');
                    out.push(number(id));
                }
                ast::Expression::Inline(
                    ast::InlineExpression::StringLiteral { value }
                    | ast::InlineExpression::NumberLiteral { value },
                ) => fluent_syntax::unicode::unescape_unicode(out, value)
                    .map_err(|_| "an escape that means nothing".to_owned())?,
                ast::Expression::Inline(e) => match referred(book, e) {
                    Some(other) => encode(other, book, variables, out, depth + 1)?,
                    None => {
                        return Err("it refers to what is not there, or calls a function".into());
                    }
                },
                ast::Expression::Select { selector, variants } => {
                    let ast::InlineExpression::VariableReference { id } = selector else {
                        return Err("it chooses by something else than a variable".into());
                    };
                    out.push('\u{2}');
                    out.push(number(id));
                    for v in variants {
                        let (ast::VariantKey::Identifier { name: key }
                        | ast::VariantKey::NumberLiteral { value: key }) = &v.key;
                        out.push('\u{3}');
                        out.push_str(if v.default { "*" } else { "" });
                        out.push_str(key);
                        out.push('\u{4}');
                        encode(&v.value, book, variables, out, depth + 1)?;
                    }
                    out.push('\u{5}');
                }
            },
        }
    }
    Ok(())
}

/// The function that says a message of a family by the rest of its id.
fn lookup(code: &mut String, family: &str, all: &BTreeSet<&String>) {
    let mut arms = String::new();
    for id in all {
        if let Some(rest) = id.strip_prefix(family).and_then(|r| r.strip_prefix('-')) {
            let _ = write!(arms, "{rest:?} => {}(), ", snake(id));
        }
    }
    let _ = writeln!(
        code,
        "/// Says the message `{family}-ID`; none if there is none.\npub fn {}(id: &str) -> Option<&'static str> {{\n    \
         Some(match id {{ {arms}_ => return None }})\n}}",
        snake(family)
    );
}

/// A name of the code for an id.
fn snake(id: &str) -> String {
    id.replace(['-', '.'], "_").to_lowercase()
}

/// The function that says a message; its documentation is the reference language's text.
fn function(
    code: &mut String,
    id: &str,
    (index, reference): (usize, &str),
    variables: &[String],
    book: &Book,
) {
    let name = snake(id);
    let mut plain = String::new();
    for element in book.messages.get(id).map_or(&[][..], |p| &p.elements) {
        match element {
            ast::PatternElement::TextElement { value } => plain.push_str(value),
            ast::PatternElement::Placeable { .. } => plain.push('\u{2026}'),
        }
    }
    let doc = plain.split_whitespace().collect::<Vec<_>>().join(" ");
    let _ = writeln!(code, "#[doc = {:?}]", format!("\u{201c}{doc}\u{201d}"));
    let message = format!("&crate::say::Message {{ index: {index}, reference: {reference:?} }}");
    let _ = if variables.is_empty() {
        writeln!(
            code,
            "pub fn {name}() -> &'static str {{ crate::say::text({message}) }}"
        )
    } else {
        let takes: Vec<String> = variables
            .iter()
            .map(|v| format!("{}: impl core::fmt::Display", snake(v)))
            .collect();
        let gives: Vec<String> = variables.iter().map(|v| format!("&{}", snake(v))).collect();
        writeln!(
            code,
            "pub fn {name}({}) -> String {{ crate::say::say({message}, &[{}]) }}",
            takes.join(", "),
            gives.join(", ")
        )
    };
}
