//! The head of the page: name, time, units, start over.
use lowside_units::display::UnitSystem;
use yew::{Callback, Html, MouseEvent, Properties, classes, component, html};

use crate::{panel::chosen, stage::SPEEDS, words};

#[derive(Properties, PartialEq)]
pub(crate) struct TopProps {
    pub(crate) clock: String,
    pub(crate) spoken_clock: String,
    pub(crate) paused: bool,
    pub(crate) speed: u32,
    /// The speed reached, if it is less than asked for.
    pub(crate) reached: Option<String>,
    pub(crate) units: UnitSystem,
    pub(crate) scenario: String,
    pub(crate) pause: Callback<()>,
    pub(crate) step: Callback<()>,
    pub(crate) set_speed: Callback<u32>,
    pub(crate) set_units: Callback<UnitSystem>,
    pub(crate) start: Callback<String>,
}

/// The head.
#[component]
pub(crate) fn Top(p: &TopProps) -> Html {
    let start = p.start.clone();
    let change = Callback::from(move |e| {
        if let Some(name) = chosen(&e) {
            start.emit(name);
        }
    });
    let again = {
        let (start, name) = (p.start.clone(), p.scenario.clone());
        Callback::from(move |_: MouseEvent| start.emit(name.clone()))
    };
    let press = |c: &Callback<()>| {
        let c = c.clone();
        Callback::from(move |_: MouseEvent| c.emit(()))
    };
    html! {
        <header class="top">
            <h1>{ words::NAME }<small>{ words::TAGLINE }</small></h1>
            <div class="time" role="group" aria-label={words::TIME}>
                <button type="button" class="pause" aria-pressed={p.paused.to_string()} onclick={press(&p.pause)}
                    title="Space">{ if p.paused { words::RUN } else { words::PAUSE } }</button>
                <button type="button" onclick={press(&p.step)} disabled={!p.paused} title={words::ONE_SECOND}>{ "+1 s" }</button>
                <span class="speeds" role="group" aria-label={words::SPEED}>
                    { for SPEEDS.iter().map(|&s| {
                        let set = p.set_speed.clone();
                        html! { <button type="button" aria-pressed={(s == p.speed).to_string()}
                            class={classes!((s == p.speed).then_some("chosen"))}
                            onclick={Callback::from(move |_: MouseEvent| set.emit(s))}>{ format!("{s}\u{d7}") }</button> }
                    }) }
                </span>
                <span class="clock"><span aria-hidden="true">{ &p.clock }</span><span class="unseen">{ words::bay_time(&p.spoken_clock) }</span></span>
                if let Some(reached) = &p.reached { <span class="reached">{ words::reaches(reached) }</span> }
            </div>
            <div class="setup">
                <span class="speeds" role="group" aria-label={words::UNITS}>
                    { for [(UnitSystem::Us, "US"), (UnitSystem::Si, "SI")].iter().map(|&(u, name)| {
                        let set = p.set_units.clone();
                        html! { <button type="button" aria-pressed={(u == p.units).to_string()}
                            class={classes!((u == p.units).then_some("chosen"))}
                            onclick={Callback::from(move |_: MouseEvent| set.emit(u))}>{ name }</button> }
                    }) }
                </span>
                <label class="unseen" for="scenario">{ words::START_WITH }</label>
                <select id="scenario" onchange={change}>
                    { for [("charge-from-cans", words::EVACUATED), ("healthy", words::HEALTHY)].iter().map(|&(id, name)| html! {
                        <option value={id} selected={id == p.scenario}>{ name }</option>
                    }) }
                </select>
                <button type="button" onclick={again}>{ words::START_OVER }</button>
            </div>
        </header>
    }
}
