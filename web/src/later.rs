//! The later part of the program: all that the first view does without, fetched once that view stands.
//!
//! The build cuts the program in two (`crates/xtask/src/cut.rs`): what only [`table`] leads to goes into a file of its own. So nothing in
//! the table may be called by name from elsewhere, or it comes back into the first part; the gate weighs that part.
use std::{cell::Cell, rc::Rc};

use gloo::{events::EventListener, timers::future::TimeoutFuture};
use lowside_lessons::{Job, Shown, next::Advice};
use lowside_present::{
    UnitSystem,
    ask::{self, Question},
    history::Row,
    plot::Plot,
    tools::Spot,
};
use lowside_session::{Action, Bay, Refused, TakeError};
use wasm_split_helpers::{SplitLoaderError, wasm_split};
use web_sys::Element;
use yew::{Callback, Context, Html, NodeRef};

use crate::{
    app::{
        App, BaysMsg, DrillMsg, GuessMsg, Notice, PerilMsg, ShareMsg, SightMsg, WorkMsg,
        browser_events, closed,
    },
    caution,
    chart::Strip,
    help,
    ink::Kind,
    resume::Resumed,
    share,
    stage::Stage,
    store::Kept,
    top::Drawer,
    words,
};

/// Where the functions of the later part are.
#[derive(Debug)]
pub(crate) struct Later {
    pub(crate) parts: fn(&App, &Context<App>) -> Html,
    /// What hangs on the service hose, and the instruments.
    pub(crate) tools: fn(&App, &Context<App>) -> [Html; 2],
    pub(crate) job: fn(&App, &Context<App>) -> Html,
    /// What a closed bay shows in place of levels and of the ledger, and what is advised there.
    pub(crate) around: fn(&App, &Shown<'_>) -> Html,
    pub(crate) weighed: fn(&App, &Shown<'_>) -> Html,
    pub(crate) advised: fn(&Shown<'_>, Option<&Job>) -> Advice,
    /// The line that says how the bay is worked in.
    pub(crate) sight: fn(&App, &Context<App>) -> Html,
    /// Opens the inside, or hands an exam in.
    pub(crate) see: fn(&mut App, SightMsg),
    /// Challenges under the drawing of levels.
    pub(crate) guess_view: fn(&App, &Context<App>) -> Html,
    pub(crate) guess: fn(&mut App, GuessMsg),
    pub(crate) plot: fn(&App, &Context<App>, Plot) -> Html,
    /// What is asked before an act that can hurt, and how that is shown with what of goggles and gloves is missing.
    pub(crate) ask: fn(&Bay, bool, Action, UnitSystem) -> Option<Question>,
    pub(crate) question: fn(&Question, [bool; 2], &Callback<PerilMsg>) -> Html,
    /// The help: are shortcuts on, sets them, closes it.
    pub(crate) help: fn(bool, Callback<bool>, &Callback<()>, NodeRef) -> Html,
    /// Listens to what is pointed at, and to the page being left.
    pub(crate) listen: fn(&Context<App>) -> Vec<EventListener>,
    /// Gives the bay on stage an id, or takes up what a link asks for or what was kept.
    pub(crate) begin: fn(&mut App, &Context<App>, Option<String>),
    /// A replay has ended.
    pub(crate) resumed: fn(&mut App, &Context<App>, Result<Resumed, TakeError>),
    /// A replay is no longer wanted.
    pub(crate) cancel: fn(&mut App),
    /// Puts the bay on stage aside for another; gives what to say of it.
    pub(crate) change: fn(&mut App) -> Option<Notice>,
    /// Kept bays: found, listed, opened, removed.
    pub(crate) bays: fn(&mut App, &Context<App>, BaysMsg),
    /// Files and links.
    pub(crate) share: fn(&mut App, &Context<App>, ShareMsg),
    /// Jobs and what is chosen on the bench.
    pub(crate) work: fn(&mut App, WorkMsg),
    /// Goes to another line, by its id.
    pub(crate) line: fn(&mut App, &Context<App>, u32),
    /// Keeps the bay on stage, all of it or its acts alone.
    pub(crate) save: fn(&mut Stage),
    pub(crate) keep: fn(&Stage) -> Option<Kept>,
    /// An act as it is told.
    pub(crate) act: fn(Action) -> String,
    /// Why an act was refused.
    pub(crate) refused: fn(&Refused) -> String,
    /// That the bay stands still, and where.
    pub(crate) halted: fn(&str) -> String,
    /// The strip chart: shown, moved, drawn, as a table, saved.
    pub(crate) strip: fn(&App, &Context<App>) -> Html,
    pub(crate) act_strip: fn(&mut App, Strip),
    pub(crate) draw_strip: fn(&mut App, (&Element, &Element)),
    pub(crate) rows: fn(&App) -> Rc<Vec<Row>>,
    pub(crate) save_strip: fn(&App, Kind),
    /// What stands behind the door one is in, and the card in hand.
    pub(crate) door: fn(&App, &Context<App>) -> Html,
    pub(crate) card: fn(&App, &Context<App>) -> Html,
    /// What the head's drawers hold.
    pub(crate) drawer: fn(&App, &Context<App>, Drawer) -> Html,
    /// The unknown vehicle: what is asked of its desk, its share of a frame, its sheet.
    pub(crate) drill: fn(&mut App, DrillMsg),
    pub(crate) drill_frame: fn(&mut App) -> bool,
    pub(crate) drill_told: fn(&App) -> Option<(String, String)>,
    /// Replays a take's text and gives the hash reached, or why not.
    pub(crate) hash: fn(&str) -> String,
    /// Name of a joint or a port.
    pub(crate) place: fn(Spot) -> String,
}

#[allow(
    clippy::unnecessary_wraps,
    reason = "fetching it can fail, and so its type says; not `expect`: the macro puts it on a second function too, which needs none"
)]
#[wasm_split(later, fallible)]
fn table() -> Result<&'static Later, SplitLoaderError> {
    Ok(&Later {
        parts: App::parts_view,
        tools: App::tools_view,
        job: App::job_view,
        around: App::around_view,
        weighed: App::weighed_view,
        advised: closed::advised,
        sight: App::sight_view,
        see: App::see,
        guess_view: App::guess_view,
        guess: App::guess,
        plot: App::plot_view,
        ask: ask::question,
        question: caution::question,
        help: help::view,
        listen: browser_events::listen,
        begin: App::begin,
        resumed: App::resumed,
        cancel: App::cancel,
        change: App::change,
        bays: App::bays,
        share: App::share,
        work: App::work,
        line: App::line,
        save: Stage::save_all,
        keep: Stage::keep,
        act: words::act,
        refused: words::refused_why,
        halted: words::halted,
        strip: App::chart_view,
        act_strip: App::act_strip,
        draw_strip: App::draw_strip,
        rows: App::rows,
        door: App::door_view,
        card: App::card_view,
        drill: App::drill,
        drill_frame: App::drill_frame,
        drill_told: App::drill_told,
        drawer: App::drawer_view,
        save_strip: App::save_strip,
        hash: share::hash,
        place: words::spot_name,
    })
}

thread_local! {
    static HERE: Cell<Option<&'static Later>> = const { Cell::new(None) };
}

/// How long to wait before asking again for what did not come, ms.
const AGAIN: u32 = 2_000;

/// The later part, if it is here.
pub(crate) fn here() -> Option<&'static Later> {
    HERE.with(Cell::get)
}

/// Fetches the later part, however long it takes.
pub(crate) async fn fetch() -> &'static Later {
    let later = until_here(table).await;
    HERE.with(|here| here.set(Some(later)));
    later
}

/// Asks for a part again and again until it is here.
pub(crate) async fn until_here<T, F: Future<Output = Result<T, SplitLoaderError>>>(
    ask: impl Fn() -> F,
) -> T {
    loop {
        if let Ok(part) = ask().await {
            return part;
        }
        TimeoutFuture::new(AGAIN).await;
    }
}
