//! Puts the palette of `present` into the page's style, light or dark as the person prefers.
use lowside_present::palette::{DARK, LIGHT, Theme};
use wasm_bindgen::JsCast;

use crate::host;

/// The theme in use.
pub(crate) fn current() -> &'static Theme {
    if host::dark() { &DARK } else { &LIGHT }
}

/// Sets the colours on the root element, where the style sheet finds them.
pub(crate) fn apply() {
    let theme = current();
    let root = host::document()
        .document_element()
        .and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok());
    let Some(root) = root else { return };
    // Paper is white: the style sheet turns a dark page over for it.
    drop(root.toggle_attribute_with_force("data-dark", host::dark()));
    let style = root.style();
    for (name, colour) in [
        ("--ground", theme.ground),
        ("--panel", theme.panel),
        ("--sheet", theme.sheet),
        ("--ink", theme.ink),
        ("--soft", theme.soft),
        ("--rule", theme.rule),
        ("--edge", theme.edge),
        ("--accent", theme.accent),
        ("--on-accent", theme.on_accent),
        ("--low", theme.low),
        ("--high", theme.high),
        ("--service", theme.service),
        ("--cabin", theme.cabin),
        ("--cold", theme.scale[0]),
        ("--mild", theme.scale[1]),
        ("--hot", theme.scale[2]),
    ] {
        drop(style.set_property(name, &colour.to_string()));
    }
}
