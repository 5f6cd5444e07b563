//! The page: draws what `present` shows of a bay and sends acts to it. It computes nothing physical.
use wasm_bindgen::prelude::wasm_bindgen;

mod app;
mod archive;
mod bays;
mod bench;
mod caution;
mod chart;
mod closed;
mod dial;
mod doors;
mod fail;
mod help;
mod host;
mod ink;
mod job;
mod kept_lines;
mod kit;
mod later;
mod ledger;
mod levels;
mod link;
mod log;
mod next;
mod panel;
mod paper;
mod parts;
mod past;
mod performance_test;
mod plot;
mod print;
mod readings;
mod record;
mod resume;
mod settings;
mod share;
mod sheet;
mod shelf;
mod sight;
mod speech;
mod stage;
mod statement;
mod store;
mod tabs;
mod theme;
mod timebar;
mod tools;
mod top;
mod units;
mod views;
mod words;

/// The hash of the bay's state at the end of the take `text`, for the check that browser and native agree bit for bit; see
/// [`share::hash`].
#[wasm_bindgen(js_name = lowsideHash)]
pub async fn lowside_hash(text: String) -> String {
    later::fetch(later::Part::Reading).await;
    later::reading().map_or_else(String::new, |reading| (reading.hash)(&text))
}

/// Fails on purpose, so that a browser test can see what a failure looks like.
///
/// # Panics
/// Always.
#[wasm_bindgen(js_name = lowsideFail)]
#[expect(clippy::panic, reason = "panicking is what it is for")]
pub fn lowside_fail() {
    panic!("asked to fail");
}

fn main() {
    fail::install();
    store::take_over();
    theme::apply();
    wasm_bindgen_futures::spawn_local(async {
        speech::begin().await;
        yew::Renderer::<app::App>::with_root(host::mount_point()).render();
    });
}
