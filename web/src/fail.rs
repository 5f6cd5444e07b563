//! When the program fails: a readable message in place of a dead page.
//!
//! After a failure nothing here may be relied on but the shell's own elements and `boot.js`, which works the two buttons.
use std::cell::RefCell;

use wasm_bindgen::JsCast;

use crate::{host, store};

thread_local! {
    /// The acts so far as text, kept ready because a failed program can no longer make it.
    static LAST_TAKE: RefCell<String> = const { RefCell::new(String::new()) };
    /// Id of the kept bay that is being replayed.
    static REPLAYED: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Notes which kept bay is being replayed, if any: should it make the program fail, it is not taken up again unasked.
pub(crate) fn replays(bay: Option<&str>) {
    REPLAYED.set(bay.map(str::to_owned));
}

/// Keeps the acts so far for the case of a failure.
pub(crate) fn remember(take: &str) {
    LAST_TAKE.with(|last| {
        if let Ok(mut last) = last.try_borrow_mut() {
            last.clear();
            last.push_str(take);
        }
    });
}

/// Shows the shell's failure message when the program panics.
pub(crate) fn install() {
    // Through yew, which would otherwise put its own in this one's place.
    yew::set_custom_panic_hook(Box::new(|info| {
        let document = host::document();
        REPLAYED.with(|bay| {
            if let Ok(bay) = bay.try_borrow()
                && let Some(id) = bay.as_ref()
            {
                let _ = store::set(store::FAILED, id);
            }
        });
        if let Some(place) = document.get_element_by_id("fail-what") {
            place.set_text_content(Some(&info.to_string()));
        }
        let area = document
            .get_element_by_id("fail-take")
            .and_then(|e| e.dyn_into::<web_sys::HtmlTextAreaElement>().ok());
        if let Some(area) = area {
            LAST_TAKE.with(|last| {
                if let Ok(last) = last.try_borrow() {
                    area.set_value(&last);
                }
            });
        }
        if let Some(fail) = document.get_element_by_id("fail") {
            drop(fail.remove_attribute("hidden"));
        }
        if let Some(app) = document.get_element_by_id("app") {
            drop(app.set_attribute("inert", ""));
        }
        if let Some(title) = document
            .get_element_by_id("fail-title")
            .and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok())
        {
            drop(title.focus());
        }
        web_sys::console::error_1(&info.to_string().into());
    }));
}
