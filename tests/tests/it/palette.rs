//! The sheet of the page, which stands before the program, has the colours that the program draws with.
use std::fs;

use lowside_present::palette::{DARK, LIGHT, Theme};
use lowside_tests::root;

/// The colours of a theme by the names the sheet has for them.
fn named(t: &Theme) -> Vec<(&'static str, String)> {
    let [cold, mild, hot] = t.scale;
    [
        ("ground", t.ground),
        ("panel", t.panel),
        ("sheet", t.sheet),
        ("ink", t.ink),
        ("soft", t.soft),
        ("rule", t.rule),
        ("edge", t.edge),
        ("accent", t.accent),
        ("on-accent", t.on_accent),
        ("low", t.low),
        ("high", t.high),
        ("service", t.service),
        ("vent", t.vent),
        ("cabin", t.cabin),
        ("cold", cold),
        ("mild", mild),
        ("hot", hot),
    ]
    .map(|(name, colour)| (name, colour.to_string()))
    .to_vec()
}

#[test]
fn the_sheet_has_the_palettes_colours() {
    let sheet = fs::read_to_string(root().join("web/static/lowside.css")).expect("the sheet");
    for ((name, light), (_, dark)) in named(&LIGHT).into_iter().zip(named(&DARK)) {
        let asked = format!("--{name}: light-dark({light}, {dark});");
        assert!(sheet.contains(&asked), "the sheet lacks {asked}");
    }
}
