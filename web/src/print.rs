//! Paper: what the browser's print dialog is given.
use gloo::{events::EventListener, timers::callback::Timeout};

use crate::host;

/// Time in which the strip chart is drawn, ms.
const DRAWN: u32 = 400;

/// Prints once what was just asked for has been drawn.
pub(crate) fn print_soon() {
    Timeout::new(DRAWN, || drop(host::window().print())).forget();
}

/// Prints the sheet of the job alone. The page by itself prints readings and chart.
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
