//! What the browser keeps between visits: the take, the units. Every access can be denied; nothing depends on it.
use crate::host;

/// The take so far.
pub(crate) const TAKE: &str = "lowside.take";
/// Language chosen.
pub(crate) const LANGUAGE: &str = "lowside.language";
/// Units chosen.
pub(crate) const UNITS: &str = "lowside.units";
/// Views that are open.
pub(crate) const VIEWS: &str = "lowside.views";
/// Present while a take is replayed: if it is found at the start, the last replay did not end well.
pub(crate) const REPLAYING: &str = "lowside.replaying";

fn storage() -> Option<web_sys::Storage> {
    host::window().local_storage().ok().flatten()
}

/// Reads a value.
pub(crate) fn get(key: &str) -> Option<String> {
    storage()?.get_item(key).ok().flatten()
}

/// Writes a value; false if the browser does not allow it.
pub(crate) fn set(key: &str, value: &str) -> bool {
    storage().is_some_and(|s| s.set_item(key, value).is_ok())
}

/// Removes a value.
pub(crate) fn remove(key: &str) {
    if let Some(s) = storage() {
        drop(s.remove_item(key));
    }
}
