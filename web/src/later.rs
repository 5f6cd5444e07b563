//! The later parts of the program: all that the first view does without. Two come once that view stands, the others when their door or their
//! view opens.
//!
//! The build cuts the program by these tables (`crates/xtask/src/cut.rs`): what only one of them leads to goes into its file. So nothing in a
//! table may be called by name from elsewhere, or it comes back into the first part, and what two tables lead to goes where
//! `crates/xtask/src/cut.rs` says; the gate weighs each.
use std::{cell::Cell, pin::Pin, rc::Rc};

use gloo::{events::EventListener, timers::future::TimeoutFuture};
use lowside_lessons::{Job, Shown, cautions::Told, next::Advice};
use lowside_present::{
    UnitSystem,
    ask::{self, Question},
    history::Row,
    plot::Plot,
    tools::Spot,
};
use lowside_session::{Action, Bay, Refused, Sitting, Take, TakeError};
use wasm_split_helpers::{SplitLoaderError, wasm_split};
use web_sys::{Element, File};
use yew::{Callback, Context, Html, NodeRef};

use crate::{
    app::{
        App, BaysMsg, ClassMsg, DrillMsg, GuessMsg, Notice, PerilMsg, ShareMsg, SightMsg, WorkMsg,
        browser_events, closed,
    },
    bays::{KeptBay, Seen},
    caution,
    chart::Strip,
    help,
    ink::Kind,
    link::{
        self,
        packed::{self, Packed, Unpacked},
    },
    resume::Resumed,
    share,
    stage::Stage,
    store::Kept,
    words,
};

/// What hands do and ask for in any bay. It comes once the first view stands.
#[derive(Debug)]
pub(crate) struct Hands {
    /// What hangs on the service hose, and the instruments.
    pub(crate) tools: fn(&App, &Context<App>) -> [Html; 2],
    /// What a closed bay shows in place of levels and of the ledger, and what is advised there.
    pub(crate) around: fn(&App, &Shown<'_>) -> Html,
    pub(crate) weighed: fn(&App, &Shown<'_>) -> Html,
    pub(crate) advised: fn(&Shown<'_>, Option<&Job>) -> Advice,
    /// The line that says how the bay is worked in, and the choice for the next.
    pub(crate) sight: fn(&App, &Context<App>) -> Html,
    pub(crate) sight_choice: fn(&App, &Context<App>, &'static str) -> Html,
    /// Opens the inside, or hands an exam in.
    pub(crate) see: fn(&mut App, SightMsg),
    /// Challenges under the drawing of levels.
    pub(crate) guess_view: fn(&App, &Context<App>) -> Html,
    pub(crate) guess: fn(&mut App, GuessMsg),
    /// Harm and cautions: shown, and one as it is said.
    pub(crate) said: fn(&App, &Shown<'_>, &Callback<PerilMsg>) -> Html,
    pub(crate) spoken: fn(Told) -> String,
    /// What is asked before an act that can hurt, and how that is shown with what of goggles and gloves is missing.
    pub(crate) ask: fn(&Bay, bool, Action, UnitSystem) -> Option<Question>,
    pub(crate) question: fn(&Question, [bool; 2], &Callback<PerilMsg>) -> Html,
    /// Listens to what is pointed at, and to the page being left.
    pub(crate) listen: fn(&Context<App>) -> Vec<EventListener>,
    /// An act as it is told.
    pub(crate) act: fn(Action) -> String,
    /// Why an act was refused.
    pub(crate) refused: fn(&Refused) -> String,
    /// That the bay stands still, and where.
    pub(crate) halted: fn(&str) -> String,
    /// Name of a joint or a port.
    pub(crate) place: fn(Spot) -> String,
}

/// What opens from the head: help, settings, what to start with.
#[derive(Debug)]
pub(crate) struct Desk {
    /// The help: are shortcuts on, sets them, closes it.
    pub(crate) help: fn(bool, Callback<bool>, &Callback<()>, NodeRef) -> Html,
    pub(crate) settings: fn(&App, &Context<App>) -> Html,
    pub(crate) start: fn(&App, &Context<App>) -> Html,
}

/// Keeps the bay on stage, puts it aside, and writes it as a file or a link. It comes once the first view stands.
#[derive(Debug)]
pub(crate) struct Keeping {
    /// Gives the bay on stage an id.
    pub(crate) settle: fn(&mut App),
    /// Puts the bay on stage aside for another; gives what to say of it.
    pub(crate) change: fn(&mut App) -> Option<Notice>,
    /// Keeps the bay on stage, all of it or its acts alone.
    pub(crate) save: fn(&mut Stage),
    pub(crate) keep: fn(&Stage) -> Option<Kept>,
    /// Files and links.
    pub(crate) share: fn(&mut App, &Context<App>, ShareMsg),
}

/// Reads what was kept, files and links, and replays them.
#[derive(Debug)]
pub(crate) struct Reading {
    /// Takes up what the address asks for behind its `#`, or what was kept.
    pub(crate) begin: fn(&mut App, &Context<App>, String),
    /// A replay has ended.
    pub(crate) resumed: fn(&mut App, &Context<App>, Result<Resumed, TakeError>),
    /// A replay is no longer wanted.
    pub(crate) cancel: fn(&mut App),
    /// Kept bays: found, listed, opened, removed; and their list.
    pub(crate) bays: fn(&mut App, &Context<App>, BaysMsg),
    pub(crate) list: fn(&App, &Context<App>) -> Html,
    /// What one sees of a kept bay.
    pub(crate) seen: fn(&KeptBay) -> Seen,
    /// A file that was dropped, and the text of one that was chosen.
    pub(crate) file: fn(File, Callback<Result<String, TakeError>>),
    /// Saves a take that is not the bay on stage, named after who and what.
    pub(crate) save: fn(&str),
    pub(crate) open: fn(&mut App, &Context<App>, Result<String, TakeError>),
    /// Goes to another line, by its id.
    pub(crate) line: fn(&mut App, &Context<App>, u32),
    /// Replays a take's text and gives the hash reached, or why not.
    pub(crate) hash: fn(&str) -> String,
}

/// Packed links, made and read.
#[derive(Debug)]
pub(crate) struct Links {
    pub(crate) begun: fn(&Bay, &Sitting, UnitSystem) -> Option<String>,
    pub(crate) of: fn(Take, UnitSystem) -> Packed,
    pub(crate) read: fn(String) -> Unpacked,
}

/// Job cards: the shelf, and the card in hand.
#[derive(Debug)]
pub(crate) struct Jobs {
    pub(crate) open: fn(&str) -> Option<Job>,
    pub(crate) shelf: fn(&App, &Context<App>) -> Html,
    pub(crate) card: fn(&App, &Context<App>) -> Html,
    pub(crate) work: fn(&mut App, WorkMsg),
}

/// The sheet of a job: the whole card, its record and statement.
#[derive(Debug)]
pub(crate) struct Sheet {
    pub(crate) view: fn(&App, &Context<App>) -> Html,
}

/// The unknown vehicle: what stands behind its door, its sheet, what is asked of its desk, its share of a frame, what is told of it.
#[derive(Debug)]
pub(crate) struct Diagnose {
    pub(crate) door: fn(&App, &Context<App>) -> Html,
    pub(crate) sheet: fn(&App, &Context<App>) -> Html,
    pub(crate) act: fn(&mut App, DrillMsg),
    pub(crate) frame: fn(&mut App) -> bool,
    pub(crate) told: fn(&App) -> Option<(String, String)>,
}

/// In front of a class: what stands behind its door, what is asked of its desk, and its share of a frame with the time by which needles throb.
#[derive(Debug)]
pub(crate) struct Class {
    pub(crate) door: fn(&App, &Context<App>) -> Html,
    pub(crate) act: fn(&mut App, ClassMsg),
    pub(crate) frame: fn(&mut App, Option<f64>),
}

/// The drawing of parts.
#[derive(Debug)]
pub(crate) struct Parts {
    pub(crate) view: fn(&App, &Context<App>) -> Html,
}

/// Charts of properties, and the strip chart: shown, moved, drawn, as a table, saved.
#[derive(Debug)]
pub(crate) struct Charts {
    pub(crate) plot: fn(&App, &Context<App>, Plot) -> Html,
    pub(crate) strip: fn(&App, &Context<App>) -> Html,
    pub(crate) act: fn(&mut App, Strip),
    pub(crate) draw: fn(&mut App, (&Element, &Element)),
    pub(crate) rows: fn(&App) -> Rc<Vec<Row>>,
    pub(crate) save: fn(&App, Kind),
}

/// A later part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Part {
    Hands,
    Desk,
    Keeping,
    Reading,
    Links,
    Jobs,
    Sheet,
    Diagnose,
    Class,
    Parts,
    Charts,
}

/// Whether it came.
type Come = Result<(), SplitLoaderError>;

/// Each table with the place where it is found once its part is here, and the function that brings it there: the mark by which the build cuts.
macro_rules! tables {
    ($($part:ident, $here:ident, $come:ident, $file:ident: $table:expr;)*) => {
        $(
            thread_local! {
                static $part: Cell<Option<&'static $file>> = const { Cell::new(None) };
            }

            /// The table of this part, if it is here.
            pub(crate) fn $here() -> Option<&'static $file> {
                $part.get()
            }

            #[allow(
                clippy::unnecessary_wraps,
                reason = "fetching it can fail, and so its type says; not `expect`: the macro puts it on a second function too, which needs none"
            )]
            #[wasm_split($here, fallible)]
            fn $come() -> Come {
                $part.set(Some(&$table));
                Ok(())
            }
        )*

        impl Part {
            /// Is it here?
            pub(crate) fn is_here(self) -> bool {
                match self {
                    $(Self::$file => $here().is_some(),)*
                }
            }

            /// Asks for it once.
            pub(crate) fn ask(self) -> Pin<Box<dyn Future<Output = Come>>> {
                match self {
                    $(Self::$file => Box::pin($come()),)*
                }
            }
        }
    };
}

tables! {
    HANDS, hands, hands_come, Hands: Hands {
        tools: App::tools_view,
        around: App::around_view,
        weighed: App::weighed_view,
        advised: closed::advised,
        sight: App::sight_view,
        sight_choice: App::sight_choice,
        see: App::see,
        guess_view: App::guess_view,
        guess: App::guess,
        said: App::said_view,
        spoken: caution::spoken,
        ask: ask::question,
        question: caution::question,
        listen: browser_events::listen,
        act: words::act,
        refused: words::refused_why,
        halted: words::halted,
        place: words::spot_name,
    };
    DESK, desk, desk_come, Desk: Desk {
        help: help::view,
        settings: App::settings_view,
        start: App::start_view,
    };
    KEEPING, keeping, keeping_come, Keeping: Keeping {
        settle: App::settle_anew,
        change: App::change,
        save: Stage::save_all,
        keep: Stage::keep,
        share: App::share,
    };
    READING, reading, reading_come, Reading: Reading {
        begin: App::begin,
        resumed: App::resumed,
        cancel: App::cancel,
        bays: App::bays,
        list: App::bays_view,
        seen: KeptBay::seen,
        file: share::read_file,
        save: share::save,
        open: App::open_file,
        line: App::line,
        hash: share::hash,
    };
    LINKS, links, links_come, Links: Links {
        begun: link::begun,
        of: packed::of,
        read: packed::read,
    };
    JOBS, jobs, jobs_come, Jobs: Jobs {
        open: Job::open,
        shelf: App::shelf_view,
        card: App::card_view,
        work: App::work,
    };
    SHEET, sheet, sheet_come, Sheet: Sheet {
        view: App::job_view,
    };
    DIAGNOSE, diagnose, diagnose_come, Diagnose: Diagnose {
        door: App::diagnose_view,
        sheet: App::drill_view,
        act: App::drill,
        frame: App::drill_frame,
        told: App::drill_told,
    };
    CLASS, class, class_come, Class: Class {
        door: App::class_view,
        act: App::class,
        frame: App::class_frame,
    };
    PARTS, parts, parts_come, Parts: Parts {
        view: App::parts_view,
    };
    CHARTS, charts, charts_come, Charts: Charts {
        plot: App::plot_view,
        strip: App::chart_view,
        act: App::act_strip,
        draw: App::draw_strip,
        rows: App::rows,
        save: App::save_strip,
    };
}

/// A job card opened, if the part that has them is here.
pub(crate) fn job(name: &str) -> Option<Job> {
    (jobs()?.open)(name)
}

/// How long to wait before asking again for what did not come, ms.
pub(crate) const AGAIN: u32 = 2_000;

/// Fetches a part, however long it takes.
pub(crate) async fn fetch(part: Part) {
    until_here(|| part.ask()).await;
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
