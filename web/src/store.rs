//! What the browser keeps between visits. Every access can be denied; nothing depends on it.
//!
//! Keys carry the path of this copy of the page, so that copies on one host keep apart: `lowside/PATH/units`. What belongs to a bay carries
//! the bay's id besides: `lowside/PATH/bay.ID.take`.
use std::cell::RefCell;

use crate::host;

/// Id of the bay that was kept last.
pub(crate) const LAST: &str = "last";
/// Id of the bay whose replay made the program fail.
pub(crate) const FAILED: &str = "failed";
/// Language chosen.
pub(crate) const LANGUAGE: &str = "language";
/// Single keys are shortcuts, unless this says not.
pub(crate) const SHORTCUTS: &str = "shortcuts";
/// Theme chosen.
pub(crate) const THEME: &str = "theme";
/// Names of the job cards that were done.
pub(crate) const DONE: &str = "done";
/// Units chosen.
pub(crate) const UNITS: &str = "units";
/// Views that are open.
pub(crate) const VIEWS: &str = "views";
/// Of a bay: the take so far.
pub(crate) const TAKE: &str = "take";
/// Of a bay: when it was kept, ms since 1970.
pub(crate) const AT: &str = "at";
/// Of a bay: lines put aside, by number.
pub(crate) const LINES: &str = "line";
/// Of a bay: the job under way.
pub(crate) const JOB: &str = "job";
/// Of a bay: the statement as far as it is filled in.
pub(crate) const DRAFT: &str = "draft";

/// How the keys began before they carried a path.
const OLD: &str = "lowside.";

thread_local! {
    /// Id of the bay on stage; empty until it has one.
    static BAY: RefCell<String> = const { RefCell::new(String::new()) };
}

fn storage() -> Option<web_sys::Storage> {
    host::window().local_storage().ok().flatten()
}

fn key(name: &str) -> String {
    format!("lowside{}{name}", host::folder())
}

/// Reads a value.
pub(crate) fn get(name: &str) -> Option<String> {
    storage()?.get_item(&key(name)).ok().flatten()
}

/// How a write ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kept {
    /// It is kept.
    Yes,
    /// There is no room left for it.
    Full,
    /// The browser keeps nothing for this page: blocked, or a private window of a browser that then keeps nothing.
    Denied,
}

/// Writes a value.
pub(crate) fn set(name: &str, value: &str) -> Kept {
    let Some(storage) = storage() else {
        return Kept::Denied;
    };
    match storage.set_item(&key(name), value) {
        Ok(()) => Kept::Yes,
        Err(why) => {
            let name = js_sys::Reflect::get(&why, &"name".into());
            let quota = name.is_ok_and(|n| n.as_string().as_deref() == Some("QuotaExceededError"));
            // A quota of nothing is a denial.
            if quota && storage.length().unwrap_or(0) > 0 {
                Kept::Full
            } else {
                Kept::Denied
            }
        }
    }
}

/// Removes a value.
pub(crate) fn remove(name: &str) {
    if let Some(s) = storage() {
        drop(s.remove_item(&key(name)));
    }
}

fn keys(storage: &web_sys::Storage) -> Vec<String> {
    let count = storage.length().unwrap_or(0);
    (0..count)
        .filter_map(|k| storage.key(k).ok().flatten())
        .collect()
}

/// The names of all values of this copy of the page.
pub(crate) fn names() -> Vec<String> {
    let own = key("");
    let all = storage().map_or_else(Vec::new, |s| keys(&s));
    let name = |key: String| key.strip_prefix(&own).map(str::to_owned);
    all.into_iter()
        .filter_map(name)
        .filter(|name| !name.contains('/'))
        .collect()
}

/// Takes over what is kept under keys without a path: the copy that finds them owns them from then on.
pub(crate) fn take_over() {
    let Some(storage) = storage() else { return };
    for old in keys(&storage) {
        let Some(name) = old.strip_prefix(OLD) else {
            continue;
        };
        let Ok(Some(text)) = storage.get_item(&old) else {
            continue;
        };
        // First out, then in: there may be no room for two.
        drop(storage.remove_item(&old));
        if get(name).is_none() && set(name, &text) != Kept::Yes {
            drop(storage.set_item(&old, &text));
        }
    }
}

/// Id of the bay on stage; empty until it has one.
pub(crate) fn bay() -> String {
    BAY.with_borrow(Clone::clone)
}

/// The bay on stage has this id from now on.
pub(crate) fn begin_bay(id: &str) {
    BAY.set(id.to_owned());
}

/// The name of a bay's value.
pub(crate) fn of(bay: &str, name: &str) -> String {
    format!("bay.{bay}.{name}")
}

/// Writes a value of the bay on stage.
pub(crate) fn keep(name: &str, value: &str) -> Kept {
    set(&of(&bay(), name), value)
}

/// Removes a value of the bay on stage.
pub(crate) fn forget(name: &str) {
    remove(&of(&bay(), name));
}
