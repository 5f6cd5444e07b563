//! The bar of time: where the bay stands between its beginning and its latest moment, what was done when, and ways to go back,
//! to go on and to wait.
use lowside_lessons::target::VENT_GOAL;
use lowside_session::{
    Bay, Event as BayEvent,
    predicate::{Predicate, Reading, Test},
    timeline::LineInfo,
    wait::Goal,
};
use lowside_units::{
    Duration, GaugePressure, Quantity,
    display::{self, UnitSystem},
};
use wasm_bindgen::JsCast;
use yew::{Callback, Event, Html, InputEvent, MouseEvent, TargetCast, html};

use crate::{panel::chosen, words};

/// Marks drawn at most: more would be a black bar.
const MOST_MARKS: usize = 300;

/// What the bar shows, and what it does.
#[expect(clippy::struct_excessive_bools, reason = "each is so or not")]
pub(crate) struct TimeBarProps {
    /// First, present and last second.
    pub(crate) from: f64,
    pub(crate) now: f64,
    pub(crate) end: f64,
    /// Seconds at which somebody did something.
    pub(crate) acts: Vec<u32>,
    pub(crate) units: UnitSystem,
    /// One may go back.
    pub(crate) rewinds: bool,
    pub(crate) looks_back: bool,
    pub(crate) can_undo: bool,
    pub(crate) can_redo: bool,
    pub(crate) lines: Vec<LineInfo>,
    /// What can be waited for now.
    pub(crate) goals: Vec<(&'static str, Goal)>,
    pub(crate) waits_for: Option<Goal>,
    pub(crate) wait_ended: Option<(Goal, bool)>,
    pub(crate) seek: Callback<f64>,
    pub(crate) undo: Callback<()>,
    pub(crate) redo: Callback<()>,
    pub(crate) line: Callback<u32>,
    pub(crate) until: Callback<Goal>,
    pub(crate) stop: Callback<()>,
}

/// What can be waited for as the bay stands, with the value each has in the list; in a closed bay not what nobody sees.
pub(crate) fn goals(bay: &Bay, closed: bool) -> Vec<(&'static str, Goal)> {
    let mut all = vec![
        ("cycle", Goal::Cycles(1)),
        ("cycles-3", Goal::Cycles(3)),
        ("empty", Goal::Event(BayEvent::CanEmpty)),
        ("steady", Goal::VentSteady),
    ];
    for (name, reading, test) in [
        ("vent", Reading::Vent, Test::Below(VENT_GOAL)),
        (
            "low",
            Reading::Low,
            Test::Above(GaugePressure::from_psi(30.0).si()),
        ),
        (
            "high",
            Reading::High,
            Test::Above(GaugePressure::from_psi(250.0).si()),
        ),
    ] {
        all.push((name, Goal::Predicate(Predicate { reading, test })));
    }
    for (name, minutes) in [("min-1", 1.0), ("min-5", 5.0), ("min-15", 15.0)] {
        all.push((name, Goal::Passed(Duration::from_min(minutes))));
    }
    all.retain(|(name, goal)| goal.can_come(bay) && !(closed && *name == "empty"));
    all
}

/// The bar.
pub(crate) fn time_bar(p: &TimeBarProps) -> Html {
    let seek = p.seek.clone();
    let input = Callback::from(move |e: InputEvent| {
        if let Some(field) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            let value = field.value_as_number();
            if value.is_finite() {
                seek.emit(value);
            }
        }
    });
    let press = |c: &Callback<()>| {
        let c = c.clone();
        Callback::from(move |_: MouseEvent| c.emit(()))
    };
    let to = |second: f64| {
        let seek = p.seek.clone();
        Callback::from(move |_: MouseEvent| seek.emit(second))
    };
    let span = (p.end - p.from).max(1.0);
    let clock = |s: f64| display::duration(Duration::from_s(s));
    html! {
        <section class="timebar" aria-labelledby="timebar-title">
            <h2 id="timebar-title" class="unseen">{ words::timeline() }</h2>
            if p.rewinds {
            <span class="backforth">
                <button type="button" id="undo" aria-keyshortcuts="Control+Z" disabled={!p.can_undo} onclick={press(&p.undo)}>{ words::undo() }</button>
                <button type="button" id="redo" aria-keyshortcuts="Control+Y" disabled={!p.can_redo} onclick={press(&p.redo)}>{ words::redo() }</button>
            </span>
            <span class="track">
                <svg viewBox="0 0 1000 10" preserveAspectRatio="none" aria-hidden="true">
                    { for p.acts.iter().rev().take(MOST_MARKS).map(|&s| {
                        let x = (f64::from(s) - p.from) / span * 1000.0;
                        html! { <path d={format!("M{x:.1} 1V9")} /> }
                    }) }
                </svg>
                <label class="unseen" for="scrub">{ words::scrub() }</label>
                <input type="range" id="scrub" min={format!("{:.0}", p.from.ceil())} max={format!("{:.0}", p.end.floor().max(p.from.ceil()))}
                    step="1" value={format!("{:.0}", p.now.floor())} aria-valuetext={words::spoken(&clock(p.now))} oninput={input} />
            </span>
            if p.looks_back {
                <span class="back"><strong>{ words::looking_back(clock(p.now).number, clock(p.end).number) }</strong>
                <button type="button" id="to-now" onclick={to(f64::MAX)}>{ words::to_now() }</button></span>
            }
            }
            { until(p) }
            if p.rewinds && p.lines.len() > 1 { { lines(p) } }
        </section>
    }
}

fn until(p: &TimeBarProps) -> Html {
    if let Some(goal) = p.waits_for {
        let stop = p.stop.clone();
        return html! {
            <span class="until"><span>{ words::waiting_for(words::goal(goal, p.units)) }</span>
            <button type="button" id="stop-waiting" onclick={Callback::from(move |_: MouseEvent| stop.emit(()))}>{ words::stop_waiting() }</button></span>
        };
    }
    let (wait, goals) = (p.until.clone(), p.goals.clone());
    let change = Callback::from(move |e: Event| {
        let Some(name) = chosen(&e) else { return };
        if let Some((_, goal)) = goals.iter().find(|(n, _)| *n == name) {
            // The list is a menu of things to do: it falls back to its title.
            if let Some(list) = e
                .target()
                .and_then(|t| t.dyn_into::<web_sys::HtmlSelectElement>().ok())
            {
                list.set_value("");
            }
            wait.emit(*goal);
        }
    });
    html! {
        <span class="until">
            if let Some((goal, met)) = p.wait_ended { <span class="ended">{ words::wait_ended(goal, met, p.units) }</span> }
            <label class="unseen" for="until">{ words::until() }</label>
            <select id="until" onchange={change}>
                <option value="" selected=true>{ words::until() }</option>
                { for p.goals.iter().map(|(name, goal)| html! { <option key={*name} value={*name}>{ words::goal(*goal, p.units) }</option> }) }
            </select>
        </span>
    }
}

fn lines(p: &TimeBarProps) -> Html {
    let line = p.line.clone();
    let change = Callback::from(move |e: Event| {
        if let Some(id) = chosen(&e).and_then(|v| v.parse().ok()) {
            line.emit(id);
        }
    });
    let clock = |tick: u64| {
        display::duration(Duration::from_s(
            tick as f64 / lowside_session::TICKS_PER_SECOND as f64,
        ))
        .number
    };
    html! {
        <span class="lines">
            <label for="line">{ words::line() }</label>
            <select id="line" onchange={change}>
                { for p.lines.iter().map(|l| html! {
                    <option value={l.id.to_string()} selected={l.current}>{ words::line_choice(l.id, clock(l.from), clock(l.end), l.acts) }</option>
                }) }
            </select>
        </span>
    }
}
