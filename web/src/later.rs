//! What the first view does without: drawn by a part of the program that is fetched once the page stands.
//!
//! The build cuts the program in two: all that only [`table`] leads to goes into a file of its own. So nothing here may be called from
//! elsewhere by name, only through the table.
use wasm_split_helpers::{SplitLoaderError, wasm_split};
use yew::{Context, Html};
use lowside_present::plot::Plot;

use crate::app::App;

/// Where the later part's functions are.
#[derive(Debug)]
pub(crate) struct Later {
    pub(crate) parts: fn(&App, &Context<App>) -> Html,
    pub(crate) bench: fn(&App, &Context<App>) -> Html,
    pub(crate) job: fn(&App, &Context<App>) -> Html,
    pub(crate) plot: fn(&App, &Context<App>, Plot) -> Html,
}

#[wasm_split(later, fallible)]
fn table() -> Result<&'static Later, SplitLoaderError> {
    Ok(&Later { parts: App::parts_view, bench: App::bench_view, job: App::job_view, plot: App::plot_view })
}

pub(crate) async fn fetch() -> Result<&'static Later, SplitLoaderError> {
    table().await
}
