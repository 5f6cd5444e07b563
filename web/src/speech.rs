//! Which language the page speaks: the one chosen last, else the browser's, else English.
use lowside_words::{ES, Language, Texts};
use wasm_split_helpers::{SplitLoaderError, wasm_split};

use crate::{host, later, store, words};

/// A file of its own: who reads English does not wait for Spanish.
#[allow(
    clippy::unnecessary_wraps,
    reason = "fetching it can fail, and so its type says; not `expect`: the macro puts it on a second function too, which needs none"
)]
#[wasm_split(spanish, fallible)]
fn spanish() -> Result<&'static Texts, SplitLoaderError> {
    Ok(&ES)
}

/// Takes up the language at the start. A tag in the address (`?lang=es`) goes first and is not kept: it serves links and tests.
pub(crate) async fn begin() {
    let asked = host::query("lang");
    let browser = host::window().navigator().language();
    let language = [asked, store::get(store::LANGUAGE), browser]
        .into_iter()
        .flatten()
        .find_map(|tag| Language::from_tag(&tag));
    take_up(language.unwrap_or_default()).await;
}

/// Speaks another language from now on, and after a reload.
pub(crate) async fn choose(language: Language) {
    let _ = store::set(store::LANGUAGE, language.tag());
    take_up(language).await;
}

async fn take_up(language: Language) {
    let texts = match language {
        Language::Spanish => Some(later::until_here(spanish).await),
        _ => None,
    };
    words::set(language, texts);
    let document = host::document();
    document.set_title(words::title());
    if let Some(root) = document.document_element() {
        drop(root.set_attribute("lang", language.tag()));
        drop(root.set_attribute("dir", language.direction()));
    }
}
