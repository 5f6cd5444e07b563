//! What the browser keeps between visits: the take, the units. Every access can be denied; nothing depends on it.
use crate::host;

/// The take so far.
pub(crate) const TAKE: &str = "lowside.take";
/// Language chosen.
pub(crate) const LANGUAGE: &str = "lowside.language";
/// Single keys are shortcuts, unless this says not.
pub(crate) const SHORTCUTS: &str = "lowside.shortcuts";
/// Units chosen.
pub(crate) const UNITS: &str = "lowside.units";
/// Views that are open.
pub(crate) const VIEWS: &str = "lowside.views";
/// Lines put aside, by number.
pub(crate) const LINES: &str = "lowside.line";
/// The job under way.
pub(crate) const JOB: &str = "lowside.job";
/// The statement as far as it is filled in.
pub(crate) const DRAFT: &str = "lowside.draft";
/// Present while a take is replayed: if it is found at the start, the last replay did not end well.
pub(crate) const REPLAYING: &str = "lowside.replaying";

fn storage() -> Option<web_sys::Storage> {
    host::window().local_storage().ok().flatten()
}

/// Reads a value.
pub(crate) fn get(key: &str) -> Option<String> {
    storage()?.get_item(key).ok().flatten()
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
pub(crate) fn set(key: &str, value: &str) -> Kept {
    let Some(storage) = storage() else {
        return Kept::Denied;
    };
    match storage.set_item(key, value) {
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
pub(crate) fn remove(key: &str) {
    if let Some(s) = storage() {
        drop(s.remove_item(key));
    }
}
