//! The head of the page: name, doors, time, and what opens the bay's list, the help and the settings.
use yew::{Callback, Event, Html, MouseEvent, classes, html};

use crate::{
    doors::{Door, doors},
    kit::{chosen, fold},
    stage::{SPEEDS, STARTS},
    words,
};

/// What opens from the head, one at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Drawer {
    /// What to start with, and the bays that are kept.
    Bays,
    /// Settings.
    Settings,
}

impl Drawer {
    fn class(self) -> &'static str {
        match self {
            Self::Bays => "drawn bays",
            Self::Settings => "drawn settings",
        }
    }

    /// Id of what opens it.
    pub(crate) fn id(self) -> &'static str {
        match self {
            Self::Bays => "bays",
            Self::Settings => "settings",
        }
    }
}

/// What the head shows, and what it does.
#[expect(clippy::struct_excessive_bools, reason = "each is so or not")]
pub(crate) struct TopProps {
    pub(crate) door: Door,
    pub(crate) go: Callback<Door>,
    pub(crate) clock: String,
    pub(crate) spoken_clock: String,
    pub(crate) paused: bool,
    pub(crate) speed: f64,
    /// The speed reached, if it is less than asked for.
    pub(crate) reached: Option<String>,
    /// What the bay on stage is called.
    pub(crate) bay: String,
    pub(crate) pause: Callback<()>,
    pub(crate) step: Callback<()>,
    pub(crate) set_speed: Callback<f64>,
    /// One may go back; whether there is something to take back, and to do again.
    pub(crate) rewinds: bool,
    pub(crate) can_undo: bool,
    pub(crate) can_redo: bool,
    pub(crate) undo: Callback<()>,
    pub(crate) redo: Callback<()>,
    pub(crate) drawer: Option<Drawer>,
    pub(crate) open: Callback<Drawer>,
    /// What the open drawer holds.
    pub(crate) content: Html,
    pub(crate) help: bool,
    pub(crate) toggle_help: Callback<()>,
}

/// Speeds are set from a list, never computed.
fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

fn press(c: &Callback<()>) -> Callback<MouseEvent> {
    let c = c.clone();
    Callback::from(move |_: MouseEvent| c.emit(()))
}

/// The head.
pub(crate) fn top(p: &TopProps) -> Html {
    let drawer = |which: Drawer, title: &str| {
        let open = p.open.clone();
        let content = || html! { <div class="drawer">{ p.content.clone() }</div> };
        let here = p.drawer == Some(which);
        fold(
            which.id(),
            which.class(),
            title,
            here,
            move || open.emit(which),
            content,
        )
    };
    html! {
        <header class="top">
            <h1>{ words::name() }<small>{ words::tagline() }</small></h1>
            { doors(p.door, &p.go) }
            { time(p) }
            { drawer(Drawer::Bays, &p.bay) }
            <button type="button" id="help-button" aria-expanded={p.help.to_string()} onclick={press(&p.toggle_help)}>{ words::help() }</button>
            { drawer(Drawer::Settings, words::settings()) }
        </header>
    }
}

/// Pause, a second at a time while paused, speed, clock, undo. What cannot be used keeps its place, empty.
fn time(p: &TopProps) -> Html {
    let set = p.set_speed.clone();
    let choose = Callback::from(move |e: Event| {
        let named = chosen(&e);
        if let Some(speed) = SPEEDS.into_iter().find(|s| named == Some(s.to_string())) {
            set.emit(speed);
        }
    });
    let back = |id: &'static str,
                label: &'static str,
                keys: &'static str,
                can: bool,
                c: &Callback<()>| {
        html! { <button type="button" {id} aria-keyshortcuts={keys} class={classes!((!can).then_some("away"))} onclick={press(c)}>{ label }</button> }
    };
    let (sign, word) = if p.paused {
        words::run()
    } else {
        words::pause()
    }
    .split_once(' ')
    .unwrap_or_default();
    html! {
        <div class="time" role="group" aria-label={words::time()}>
            if p.rewinds {
                { back("undo", words::undo(), "Control+Z", p.can_undo, &p.undo) }
                { back("redo", words::redo(), "Control+Y", p.can_redo, &p.redo) }
            }
            <button type="button" class={classes!("step", (!p.paused).then_some("away"))} onclick={press(&p.step)} title={words::one_second()}>{ "+1 s" }</button>
            <button type="button" class="pause" aria-pressed={p.paused.to_string()} onclick={press(&p.pause)}
                title={words::space_key()}>{ sign }<span class="word">{ " " }{ word }</span></button>
            <label class="unseen" for="speed">{ words::speed() }</label>
            <select id="speed" onchange={choose}>
                { for SPEEDS.iter().map(|&s| html! { <option value={s.to_string()} selected={same(s, p.speed)}>{ words::times(s) }</option> }) }
            </select>
            <span class="clock"><span aria-hidden="true">{ &p.clock }</span><span class="unseen">{ words::bay_time(&p.spoken_clock) }</span></span>
            <span class="reached">{ p.reached.as_ref().map(words::reaches) }</span>
        </div>
    }
}

/// What the choice of a bay shows, and what it does.
pub(crate) struct StartProps {
    /// Id of the scenario the bay began with; empty if it is none of those offered.
    pub(crate) scenario: String,
    /// What is chosen to start with, if it is something else.
    pub(crate) picked: Option<String>,
    /// What the bay began with, if it is none of those offered: a job card, or a file's own scenario.
    pub(crate) own: Option<String>,
    pub(crate) pick: Callback<String>,
    pub(crate) start: Callback<String>,
    pub(crate) again: Callback<()>,
}

/// What to start with.
pub(crate) fn start(p: &StartProps) -> Html {
    let pick = p.pick.clone();
    let change = Callback::from(move |e| {
        if let Some(name) = chosen(&e) {
            pick.emit(name);
        }
    });
    let begun = if p.own.is_some() { "" } else { &p.scenario };
    let shown = p.picked.as_deref().unwrap_or(begun);
    // Arrow keys walk through the list, so it only chooses; a button opens.
    let open = p.picked.clone().map(|name| {
        let start = p.start.clone();
        let press = Callback::from(move |_: MouseEvent| start.emit(name.clone()));
        html! { <button type="button" id="open-start" onclick={press}>{ words::start() }</button> }
    });
    html! {
        <div class="start">
            <span class="pick"><label for="scenario">{ words::start_with() }</label>
            <select id="scenario" onchange={change}>
                if let Some(own) = &p.own { <option value="" selected={shown.is_empty()}>{ own }</option> }
                { for STARTS.iter().map(|&id| (id, words::charts::start(id))).map(|(id, name)| html! {
                    <option value={id} selected={id == shown}>{ name }</option>
                }) }
            </select></span>
            <span class="pair">
                { for open }
                <button type="button" id="start-over" onclick={press(&p.again)}>{ words::start_over() }</button>
            </span>
        </div>
    }
}
