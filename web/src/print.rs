//! Paper: what the browser's print dialog is given.
use gloo::events::EventListener;

use crate::host;

/// Prints the job and its record alone. The page by itself prints readings and chart.
pub(crate) fn print_job() {
    let mark = |on: bool| {
        if let Some(body) = host::document().body() {
            drop(body.class_list().toggle_with_force("prints-job", on));
        }
    };
    mark(true);
    EventListener::once(&host::window(), "afterprint", move |_| mark(false)).forget();
    drop(host::window().print());
}
