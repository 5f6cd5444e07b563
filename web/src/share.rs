//! Files, and what of a link the page has to know before its later part is here; links themselves are in `link.rs`.
use lowside_session::{
    Bay, Sitting, Take, TakeError,
    take::{self, Part},
};

use lowside_units::display::UnitSystem;
use yew::Callback;

use crate::{host, units};

/// Returns a field of the part of an address behind its `#`.
pub(crate) fn field<'a>(fragment: &'a str, name: &str) -> Option<&'a str> {
    let mut parts = fragment.trim_start_matches('#').split('&');
    parts.find_map(|part| part.strip_prefix(name)?.strip_prefix('='))
}

/// The units that a link shows.
pub(crate) fn units(fragment: &str) -> Option<UnitSystem> {
    units::read(&field(fragment, "u")?.replace('.', " "))
}

/// Does an address ask for a card? The part that has them must be here before it is read.
pub(crate) fn names_card(fragment: &str) -> bool {
    field(fragment, "c").is_some()
}

/// Reads a file that was chosen or dropped, and gives its text, or why there is none.
pub(crate) fn read_file(file: web_sys::File, open: Callback<Result<String, TakeError>>) {
    wasm_bindgen_futures::spawn_local(async move {
        // A file larger than any take is not read at all.
        let part = Part::Whole;
        open.emit(if file.size() > take::LARGEST as f64 {
            Err(TakeError::TooLarge {
                part,
                most: take::LARGEST,
            })
        } else {
            let text = wasm_bindgen_futures::JsFuture::from(file.text()).await;
            let unread = || TakeError::Form {
                part,
                detail: String::new(),
            };
            text.ok().and_then(|t| t.as_string()).ok_or_else(unread)
        });
    });
}

/// Saves a take's text as a file of the person's, named after who and what.
pub(crate) fn save(text: &str) {
    let sitting = Take::parse(text).map(|take| take.sitting);
    let name = sitting.unwrap_or_default().file_name();
    save_as(&name, text);
}

/// Saves a take's text as a file of this name.
pub(crate) fn save_as(name: &str, text: &str) {
    host::save_text(name, "application/json", text);
}

/// The acts so far as text, in their sitting.
pub(crate) fn text(bay: &Bay, sitting: &Sitting) -> String {
    Take::in_sitting(bay, sitting.clone()).to_text()
}

/// The hash of the bay's state at the end of the take `text`; a take that cannot be replayed gives its error instead. The hash is the one
/// reached, whatever the take itself claims.
pub(crate) fn hash(text: &str) -> String {
    let reached = || {
        let take = Take::parse(text)?;
        let mut replay = take.replay();
        while !replay.run(u64::MAX)? {}
        Ok::<_, TakeError>(take::fingerprint(replay.bay()))
    };
    reached().unwrap_or_else(|error| error.to_string())
}
