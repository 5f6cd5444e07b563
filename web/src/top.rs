//! The head of the page: name, time, units, start over.
use lowside_words::Language;
use yew::{Callback, Html, MouseEvent, classes, html};

use crate::{
    panel::chosen,
    settings::{SettingsProps, settings},
    stage::{SPEEDS, STARTS},
    words,
};

/// What the head shows, and what it does.
pub(crate) struct TopProps {
    pub(crate) clock: String,
    pub(crate) spoken_clock: String,
    pub(crate) paused: bool,
    pub(crate) speed: f64,
    /// The speed reached, if it is less than asked for.
    pub(crate) reached: Option<String>,
    /// Id of the scenario the bay began with; empty if it is none of those offered.
    pub(crate) scenario: String,
    /// What is chosen to start with, if it is something else.
    pub(crate) picked: Option<String>,
    /// What the bay began with, if it is none of those offered: a job card, or a file's own scenario.
    pub(crate) own: Option<String>,
    pub(crate) pause: Callback<()>,
    pub(crate) step: Callback<()>,
    pub(crate) set_speed: Callback<f64>,
    /// Language, start, help and settings are shown where the page is narrow too.
    pub(crate) more: bool,
    pub(crate) toggle_more: Callback<()>,
    pub(crate) help: bool,
    pub(crate) toggle_help: Callback<()>,
    pub(crate) set_language: Callback<Language>,
    pub(crate) pick: Callback<String>,
    pub(crate) start: Callback<String>,
    /// The list of kept bays, and what asks for it anew.
    pub(crate) bays: Html,
    pub(crate) list_bays: Callback<()>,
    pub(crate) again: Callback<()>,
    pub(crate) settings: SettingsProps,
}

/// Speeds are set from a list, never computed.
fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

/// The head.
pub(crate) fn top(p: &TopProps) -> Html {
    let pick = p.pick.clone();
    let change = Callback::from(move |e| {
        if let Some(name) = chosen(&e) {
            pick.emit(name);
        }
    });
    // Arrow keys walk through the list, so it only chooses; a button opens.
    let (start, name) = (p.start.clone(), p.picked.clone());
    let open = Callback::from(move |_: MouseEvent| {
        if let Some(name) = name.clone() {
            start.emit(name);
        }
    });
    let begun = if p.own.is_some() { "" } else { &p.scenario };
    let shown = p.picked.as_deref().unwrap_or(begun);
    let list = p.list_bays.clone();
    let list_bays = Callback::from(move |_: MouseEvent| list.emit(()));
    let set_language = p.set_language.clone();
    let language = Callback::from(move |e| {
        if let Some(l) = chosen(&e).and_then(|tag| Language::from_tag(&tag)) {
            set_language.emit(l);
        }
    });
    let press = |c: &Callback<()>| {
        let c = c.clone();
        Callback::from(move |_: MouseEvent| c.emit(()))
    };
    html! {
        <header class="top">
            <h1>{ words::name() }<small>{ words::tagline() }</small></h1>
            <div class="time" role="group" aria-label={words::time()}>
                <button type="button" class="pause" aria-pressed={p.paused.to_string()} onclick={press(&p.pause)}
                    title={words::space_key()}>{ if p.paused { words::run() } else { words::pause() } }</button>
                <button type="button" class="step" onclick={press(&p.step)} disabled={!p.paused} title={words::one_second()}>{ "+1 s" }</button>
                <span class="speeds" role="group" aria-label={words::speed()}>
                    { for SPEEDS.iter().map(|&s| {
                        let set = p.set_speed.clone();
                        html! { <button type="button" aria-pressed={same(s, p.speed).to_string()}
                            class={classes!(same(s, p.speed).then_some("chosen"))}
                            onclick={Callback::from(move |_: MouseEvent| set.emit(s))}>{ words::times(s) }</button> }
                    }) }
                </span>
                <span class="clock"><span aria-hidden="true">{ &p.clock }</span><span class="unseen">{ words::bay_time(&p.spoken_clock) }</span></span>
                if let Some(reached) = &p.reached { <span class="reached">{ words::reaches(reached) }</span> }
            </div>
            <button type="button" class="more" aria-expanded={p.more.to_string()} aria-controls="setup" onclick={press(&p.toggle_more)}>{ words::more() }</button>
            <div id="setup" class={classes!("setup", p.more.then_some("open"))}>
                <label class="unseen" for="language">{ words::language() }</label>
                <select id="language" onchange={language}>
                    { for Language::OFFERED.iter().map(|&l| html! {
                        <option value={l.tag()} lang={l.tag()} selected={l == words::current()}>{ l.name() }</option>
                    }) }
                </select>
                <label class="unseen" for="scenario">{ words::start_with() }</label>
                <select id="scenario" onchange={change}>
                    if let Some(own) = &p.own { <option value="" selected={shown.is_empty()}>{ own }</option> }
                    { for STARTS.iter().map(|&id| (id, words::charts::start(id))).map(|(id, name)| html! {
                        <option value={id} selected={id == shown}>{ name }</option>
                    }) }
                </select>
                <button type="button" id="open-start" disabled={p.picked.is_none()} onclick={open}>{ words::start() }</button>
                <button type="button" id="start-over" onclick={press(&p.again)}>{ words::start_over() }</button>
                <details class="bays">
                    <summary id="bays" onclick={list_bays}>{ words::bays() }</summary>
                    <div class="drawer">{ p.bays.clone() }</div>
                </details>
                <button type="button" id="help-button" aria-expanded={p.help.to_string()} onclick={press(&p.toggle_help)}>{ words::help() }</button>
                { settings(&p.settings) }
            </div>
        </header>
    }
}
