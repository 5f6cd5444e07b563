//! The line of time: readings since the bay began as the track of the slider that goes through it, acts, flags and branches on it, and
//! buttons that wait for something.
use lowside_lessons::{senses::noticed, target::VENT_GOAL};
use lowside_present::history::{History, Trace, marks};
use lowside_session::{
    Bay, Event as BayEvent, TICKS_PER_SECOND, Tick,
    predicate::{Predicate, Reading, Test},
    timeline::LineInfo,
    wait::Goal,
};
use lowside_units::{
    Duration, GaugePressure, Quantity,
    display::{self, UnitSystem},
};
use std::fmt::Write;
use wasm_bindgen::JsCast;
use web_sys::Element;
use yew::{Callback, Event, Html, MouseEvent, NodeRef, html};

use crate::{
    kit::{chosen, number},
    words,
};

/// Acts drawn at most: more would be a black bar.
const MOST_MARKS: usize = 300;
/// Room beside the traces, px: at the left half the slider's thumb, at the right the names.
const LEFT: f64 = 8.0;
const RIGHT: f64 = 116.0;
/// Height of the flags' names above the traces, px, and of the ticks of acts below them.
const FLAGS: f64 = 15.0;
const ACTS: f64 = 8.0;
/// Width of a letter of a flag on average, px, and least distance of the names at the traces' ends.
const LETTER: f64 = 6.2;
const APART: f64 = 14.0;
/// Least distance of a name from the same one before it, px.
const AGAIN: f64 = 160.0;
/// Ends of the scales: gauge pressure, Pa, and temperature of the vent, K.
const PRESSURES: [f64; 2] = [-1e5, 2.6e6];
const VENT: [f64; 2] = [268.15, 318.15];

/// What the line shows, and what it does.
pub(crate) struct TimeBarProps {
    /// What is drawn; [`Film::draw`] fills it.
    pub(crate) film: NodeRef,
    /// First, present and last second.
    pub(crate) from: f64,
    pub(crate) now: f64,
    pub(crate) end: f64,
    pub(crate) units: UnitSystem,
    /// One may go back.
    pub(crate) rewinds: bool,
    pub(crate) looks_back: bool,
    pub(crate) lines: Vec<LineInfo>,
    /// What can be waited for now, the likeliest first.
    pub(crate) goals: Vec<(&'static str, Goal)>,
    pub(crate) waits_for: Option<Goal>,
    pub(crate) wait_ended: Option<(Goal, bool)>,
    pub(crate) seek: Callback<f64>,
    pub(crate) line: Callback<u32>,
    pub(crate) until: Callback<Goal>,
    pub(crate) stop: Callback<()>,
}

/// What can be waited for as the bay stands, the likeliest first, with the value each has in the list; in a closed bay not what nobody
/// sees.
pub(crate) fn goals(bay: &Bay, closed: bool) -> Vec<(&'static str, Goal)> {
    let passed = |minutes| Goal::Passed(Duration::from_min(minutes));
    let reads = |reading, test| Goal::Predicate(Predicate { reading, test });
    let psi = |psi| Test::Above(GaugePressure::from_psi(psi).si());
    let mut all = vec![
        ("empty", Goal::Event(BayEvent::CanEmpty)),
        ("vent", reads(Reading::Vent, Test::Below(VENT_GOAL))),
        ("steady", Goal::VentSteady),
        ("cycle", Goal::Cycles(1)),
        ("cycles-3", Goal::Cycles(3)),
        ("low", reads(Reading::Low, psi(30.0))),
        ("high", reads(Reading::High, psi(250.0))),
        ("min-1", passed(1.0)),
        ("min-5", passed(5.0)),
        ("min-15", passed(15.0)),
    ];
    all.retain(|(name, goal)| goal.can_come(bay) && !(closed && *name == "empty"));
    all
}

fn press(c: &Callback<()>) -> Callback<MouseEvent> {
    let c = c.clone();
    Callback::from(move |_: MouseEvent| c.emit(()))
}

/// The line.
pub(crate) fn time_bar(p: &TimeBarProps) -> Html {
    let seek = p.seek.clone();
    let to_now = {
        let seek = p.seek.clone();
        Callback::from(move |_: MouseEvent| seek.emit(f64::MAX))
    };
    let clock = |s: f64| display::duration(Duration::from_s(s));
    html! {
        <section class="timebar" aria-labelledby="timebar-title">
            <h2 id="timebar-title" class="unseen">{ words::timeline() }</h2>
            <div class="film">
                <svg ref={p.film.clone()} aria-hidden="true"></svg>
                if p.rewinds {
                    <label class="unseen" for="scrub">{ words::scrub() }</label>
                    <input type="range" id="scrub" min={format!("{:.0}", p.from.ceil())} max={format!("{:.0}", p.end.floor().max(p.from.ceil()))}
                        step="1" value={format!("{:.0}", p.now.floor())} aria-valuetext={words::spoken(&clock(p.now))} oninput={number(move |v| seek.emit(v))} />
                }
            </div>
            <div class="waits">
                if p.rewinds && p.looks_back {
                    <span class="back"><strong>{ words::looking_back(clock(p.now).number, clock(p.end).number) }</strong>
                    <button type="button" id="to-now" onclick={to_now}>{ words::to_now() }</button></span>
                }
                { until(p) }
                if p.rewinds && p.lines.len() > 1 { { lines(p) } }
            </div>
        </section>
    }
}

fn until(p: &TimeBarProps) -> Html {
    if let Some(goal) = p.waits_for {
        return html! {
            <span class="until"><span>{ words::waiting_for(words::goal(goal, p.units)) }</span>
            <button type="button" id="stop-waiting" onclick={press(&p.stop)}>{ words::stop_waiting() }</button></span>
        };
    }
    let (wait, goals) = (p.until.clone(), p.goals.clone());
    let change = Callback::from(move |e: Event| {
        let Some(name) = chosen(&e) else { return };
        if let Some((_, goal)) = goals.iter().find(|(n, _)| *n == name) {
            // The list is a menu of things to do: it falls back to its title.
            let list = e.target().and_then(|t| t.dyn_into().ok());
            if let Some(list) = list {
                let list: web_sys::HtmlSelectElement = list;
                list.set_value("");
            }
            wait.emit(*goal);
        }
    });
    let likely = p.goals.first().map(|&(_, goal)| {
        let wait = p.until.clone();
        let click = Callback::from(move |_: MouseEvent| wait.emit(goal));
        let name = words::wait_until(words::goal(goal, p.units));
        html! { <button type="button" id="wait" onclick={click}>{ name }</button> }
    });
    html! {
        <span class="until">
            <span class="ended">{ p.wait_ended.map(|(goal, met)| words::wait_ended(goal, met, p.units)) }</span>
            { for likely }
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
    let clock = |tick: Tick| {
        display::duration(Duration::from_s(tick as f64 / TICKS_PER_SECOND as f64)).number
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

/// What is drawn on the line: everything between its first and its last tick.
pub(crate) struct Film<'a> {
    /// The bay at the line's end, with all that happened.
    pub(crate) head: &'a Bay,
    pub(crate) history: &'a History,
    /// First and last tick.
    pub(crate) span: (Tick, Tick),
    /// Ticks at which a caution was told.
    pub(crate) cautions: &'a [Tick],
    /// Ticks at which other branches parted.
    pub(crate) branches: Vec<Tick>,
    /// What the gauges and the vent read now, as text: high, low, vent.
    pub(crate) reads: [String; 3],
    /// Marks of what nobody noticed are left out.
    pub(crate) closed: bool,
}

impl Film<'_> {
    /// Draws it.
    pub(crate) fn draw(&self, svg: &Element) {
        let (width, height) = (
            f64::from(svg.client_width()),
            f64::from(svg.client_height()),
        );
        if width > LEFT + RIGHT && height > FLAGS + ACTS {
            svg.set_inner_html(&self.picture(width, height));
        }
    }

    fn picture(&self, width: f64, height: f64) -> String {
        let mut s = String::new();
        let (from, to) = self.span;
        let (right, bottom) = (width - RIGHT, height - ACTS);
        let x = |share: f64| LEFT + (right - LEFT) * share;
        let all = to.saturating_sub(from).max(1) as f64;
        let at = |tick: Tick| x((tick.saturating_sub(from) as f64 / all).min(1.0));
        let y = |[least, most]: [f64; 2], v: f64| {
            bottom - (bottom - FLAGS) * ((v - least) / (most - least)).clamp(0.0, 1.0)
        };
        let path = |s: &mut String, class: &str, d: &str| {
            let _ = write!(s, "<path class=\"{class}\" d=\"{d}\"/>");
        };
        path(&mut s, "floor", &format!("M{LEFT} {bottom}H{right}"));
        let acts = self.head.log().iter().rev().take(MOST_MARKS);
        let mut d = String::new();
        for (tick, _) in acts {
            let _ = write!(d, "M{:.1} {bottom}V{height}", at(*tick));
        }
        path(&mut s, "acts", &d);
        self.flags(&mut s, x, at, bottom, right);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a screen's size"
        )]
        let columns = (right - LEFT) as usize / 2;
        let mut ends: Vec<(f64, &str, &String)> = Vec::new();
        let traces = [
            (Trace::High, "high", PRESSURES),
            (Trace::Low, "low", PRESSURES),
            (Trace::Vent, "vent", VENT),
        ];
        for ((trace, class, scale), text) in traces.into_iter().zip(&self.reads) {
            let mut d = String::new();
            let mut last = None;
            for piece in self.history.pieces(trace, from, to, columns) {
                for (k, (share, v)) in piece.into_iter().enumerate() {
                    let there = y(scale, v);
                    let _ = write!(
                        d,
                        "{}{:.1} {there:.1}",
                        if k == 0 { 'M' } else { 'L' },
                        x(share)
                    );
                    last = Some(there);
                }
            }
            path(&mut s, class, &d);
            if let Some(there) = last {
                let at = ends.partition_point(|end| end.0 <= there);
                ends.insert(at, (there, class, text));
            }
        }
        // Names at the ends keep off each other: pushed down from above, then up from below.
        let mut least = FLAGS;
        for (k, (there, class, text)) in ends.iter().enumerate() {
            let most = height - 4.0 - APART * (ends.len() - 1 - k) as f64;
            let there = there.max(least).min(most);
            least = there + APART;
            let _ = write!(
                s,
                "<text class=\"{class}\" x=\"{:.1}\" y=\"{:.1}\">{text}</text>",
                right + 10.0,
                there + 4.0
            );
        }
        s
    }

    /// Flags of what happened, of cautions, and where branches parted; what weighs has its name before all else.
    fn flags(
        &self,
        s: &mut String,
        x: impl Fn(f64) -> f64,
        at: impl Fn(Tick) -> f64,
        bottom: f64,
        right: f64,
    ) {
        let mut flag = |class: &str, x: f64| {
            let _ = write!(
                s,
                "<path class=\"{class}\" d=\"M{x:.1} {bottom}V4h8l-3 4 3 4h-8\"/>"
            );
        };
        for tick in self.cautions {
            flag("flag caution", at(*tick));
        }
        for tick in &self.branches {
            flag("flag branch", at(*tick));
        }
        let events = self.head.events().iter().copied();
        let events = events.filter(|(_, e)| !self.closed || noticed(*e));
        let all = marks(self.head.log(), events, self.span);
        for (share, kind) in &all {
            flag(
                if kind.weighty() {
                    "flag weighs"
                } else {
                    "flag"
                },
                x(*share),
            );
        }
        let mut taken: Vec<(f64, f64, String)> = Vec::new();
        let (weighty, light): (Vec<_>, Vec<_>) =
            all.into_iter().partition(|(_, kind)| kind.weighty());
        for (share, kind) in weighty.into_iter().chain(light) {
            let name = words::mark(kind);
            let from = x(share) + 11.0;
            let to = from + LETTER * name.chars().count() as f64;
            // What comes again and again is named once in a while.
            let apart = |(a, b, other): &(f64, f64, String)| {
                let room = if *other == name { AGAIN } else { 14.0 };
                to + 4.0 < *a || from > *b + room
            };
            if to < right + RIGHT && taken.iter().all(apart) {
                let _ = write!(
                    s,
                    "<text class=\"mark\" x=\"{from:.1}\" y=\"12\">{name}</text>"
                );
                taken.push((from, to, name));
            }
        }
    }
}
