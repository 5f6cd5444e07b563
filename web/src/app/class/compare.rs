//! Bays side by side on one clock: the bay on stage and up to two that differ from it in one thing each.
//!
//! They do what it does, at the same ticks; whoever works on the bay works on all of them. They go back in time with it.
use std::{cell::RefCell, fmt::Write as _};

use lowside_lessons::Shown;
use lowside_present::{
    compare::{self, Recorded, Within, inside, strip},
    dial::{self, Face, Which},
    drill::Severity,
    history::{History, Trace},
    plot::{Name, Plot},
    readout::Readout,
};
use lowside_session::{Bay, TICKS_PER_SECOND, action::FaultId};
use web_sys::HtmlElement;
use yew::{Context, Html, MouseEvent, classes, html};

use super::ClassMsg;
use crate::{
    app::{App, Msg, drill::fault_choice},
    dial::{DialProps, Needles},
    host,
    kit::{choice, switch},
    plot::share,
    words,
};

/// What the others differ in at first: a high side that gets no air over its condenser, and one with air inside.
const AT_FIRST: [&str; 2] = ["condenser-air-blocked", "air"];
/// Ticks that one of the others may catch up in a frame: a minute, some ten milliseconds.
const CATCHES_UP: u64 = 60 * TICKS_PER_SECOND;
/// Minutes on the strip chart, and seconds on the bar of the clutch.
const MINUTES: u64 = 5;
const CLUTCH: u64 = 60;
/// Time between renewals of the charts while the bays run, ms.
const CHARTS_EVERY: f64 = 400.0;
/// Readings offered on the strip chart.
const TRACES: [Trace; 3] = [Trace::High, Trace::Low, Trace::Vent];
/// Fields of the others' faults and severities, which names are looked up by.
const FIELDS: [[&str; 2]; 2] = [
    ["beside-1-fault", "beside-1-much"],
    ["beside-2-fault", "beside-2-much"],
];

/// A bay beside the one on stage.
struct Beside {
    fault: usize,
    much: usize,
    bay: Recorded,
    /// It has come up to the bay on stage.
    there: bool,
}

/// The bays side by side.
pub(super) struct Compare {
    others: [Beside; 2],
    /// What goes on inside is shown, of each.
    inside: [bool; 3],
    /// The names say what differs.
    named: bool,
    trace: usize,
    needles: [Needles; 3],
    /// The charts: of which reading, since when, drawn.
    charts: RefCell<(Trace, f64, [Html; 2])>,
}

/// What is asked of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum CompareMsg {
    /// Sets them side by side and lets them run, or puts the others away.
    Turn(bool),
    /// What one of the others differs in, and how much.
    Fault(usize, usize),
    Much(usize, usize),
    /// Shows what goes on inside one.
    Inside(usize, bool),
    /// Names say what differs.
    Named(bool),
    /// Which reading the strip chart shows.
    Trace(usize),
}

impl Beside {
    fn open(first: &Bay, fault: usize, much: usize) -> Option<Self> {
        let id = *compare::faults().get(fault)?;
        let severity = *Severity::ALL.get(much)?;
        Some(Self {
            fault,
            much,
            bay: compare::beside(first, id, severity).ok()?,
            there: false,
        })
    }

    fn name(&self) -> String {
        let id = compare::faults().get(self.fault).copied();
        let fault = id.and_then(|id| words::fault(id.key())).unwrap_or_default();
        let much = Severity::ALL.get(self.much).map_or("", |s| s.name());
        words::compare_with(fault, words::severity_name(much))
    }
}

impl Compare {
    fn open(first: &Bay) -> Option<Self> {
        let of = |id: &str| {
            let fault = compare::faults().iter().position(|f| f.key() == id)?;
            Beside::open(first, fault, Severity::Severe as usize)
        };
        Some(Self {
            others: [of(AT_FIRST[0])?, of(AT_FIRST[1])?],
            inside: [false; 3],
            named: true,
            trace: 0,
            needles: Default::default(),
            charts: RefCell::new((Trace::Vacuum, 0.0, Default::default())),
        })
    }

    /// Opens the others anew beside another bay.
    fn beside(&mut self, first: &Bay) {
        for other in &mut self.others {
            if !other.bay.is_beside(first)
                && let Some(anew) = Beside::open(first, other.fault, other.much)
            {
                *other = anew;
            }
        }
    }
}

impl App {
    /// Does it.
    pub(super) fn compare(&mut self, msg: CompareMsg) {
        let first = &self.stage.bay;
        if let CompareMsg::Turn(on) = msg {
            self.class.compare = Some(first).filter(|_| on).and_then(Compare::open);
            self.stage.paused &= !on;
        }
        let Some(compare) = &mut self.class.compare else {
            self.stage.beside = 0;
            return;
        };
        let anew = |other: &mut Beside, fault, much| {
            if let Some(opened) = Beside::open(first, fault, much) {
                *other = opened;
            }
        };
        match msg {
            CompareMsg::Turn(_) => self.stage.beside = 2,
            CompareMsg::Fault(n, fault) => {
                let much = compare.others[n].much;
                anew(&mut compare.others[n], fault, much);
            }
            CompareMsg::Much(n, much) => {
                let fault = compare.others[n].fault;
                anew(&mut compare.others[n], fault, much);
            }
            CompareMsg::Inside(n, on) => compare.inside[n] = on,
            CompareMsg::Named(on) => compare.named = on,
            CompareMsg::Trace(n) => compare.trace = n,
        }
    }

    /// The others follow, and the needles of all turn.
    pub(crate) fn class_frame(&mut self, throb: Option<f64>) {
        let Some(compare) = &mut self.class.compare else {
            return;
        };
        let first = &self.stage.bay;
        compare.beside(first);
        for other in &mut compare.others {
            other.there = other.bay.follow(first, CATCHES_UP);
        }
        let [a, b] = &compare.others;
        let bays = [first, a.bay.bay(), b.bay.bay()];
        for (bay, needles) in bays.into_iter().zip(&compare.needles) {
            let shown = Shown::of(bay);
            for which in [Which::Low, Which::High] {
                if let Some(needle) = needles.of(which).cast::<HtmlElement>() {
                    let at = dial::needle(&shown, which, self.units, throb);
                    let turned = format!("rotate({:.2}deg)", crate::dial::angle(at));
                    drop(needle.style().set_property("transform", &turned));
                }
            }
        }
    }

    /// The button that sets bays side by side.
    pub(super) fn compare_switch(&self, ctx: &Context<Self>) -> Html {
        let on = self.class.compare.is_some();
        let turn = tell(ctx, move |()| CompareMsg::Turn(!on));
        html! { <button type="button" id="compare" aria-pressed={on.to_string()} onclick={move |_: MouseEvent| turn(())}>{ words::compare() }</button> }
    }

    /// The bays side by side, and their charts.
    pub(super) fn compare_view(&self, ctx: &Context<Self>) -> Html {
        let Some(compare) = &self.class.compare else {
            return html! {};
        };
        let [a, b] = &compare.others;
        let histories = [&self.stage.history, a.bay.history(), b.bay.history()];
        let bays = [&self.stage.bay, a.bay.bay(), b.bay.bay()];
        let names: Vec<String> = TRACES.into_iter().map(trace_name).collect();
        let trace = TRACES[compare.trace.min(TRACES.len() - 1)];
        let mut charts = compare.charts.borrow_mut();
        if charts.0 != trace || host::now() - charts.1 > CHARTS_EVERY || self.stage.paused {
            let both = [self.all_strips(&histories, trace), self.all_cycles(&bays)];
            *charts = (trace, host::now(), both);
        }
        let [strips, cycles] = charts.2.clone();
        html! {
            <section class="compare" aria-label={words::compare()}>
                <p>{ words::compare_idea() }</p>
                { switch("compare-named", words::compare_names(), words::names_states(), compare.named, tell(ctx, CompareMsg::Named)) }
                <div class="abreast">{ for (0..3).map(|n| self.column(ctx, compare, n, (bays[n], histories[n]))) }</div>
                <div class="charts">
                    <figure>
                        { choice("compare-trace", words::compare_strip(), &names, compare.trace, tell(ctx, CompareMsg::Trace)) }
                        { strips }
                    </figure>
                    <figure><figcaption>{ words::compare_cycle() }</figcaption>{ cycles }</figure>
                </div>
            </section>
        }
    }

    /// One of the bays: what differs, gauges, vent, clutch, and its inside.
    fn column(
        &self,
        ctx: &Context<Self>,
        compare: &Compare,
        n: usize,
        (bay, history): (&Bay, &History),
    ) -> Html {
        let other = n.checked_sub(1).and_then(|k| compare.others.get(k));
        let letter = words::compare_bay(["A", "B", "C"][n]);
        let told = compare.named || compare.inside[n];
        let what = match other {
            Some(other) if told => other.name(),
            None if told => words::compare_this().to_owned(),
            _ => String::new(),
        };
        let shown = Shown::of(bay);
        let readout = Readout::of(&shown, self.units);
        let gauge = |which| {
            let (title, reading, coupled) = match which {
                Which::Low => (words::low_side(), &readout.low, shown.hands.low_coupled),
                Which::High => (words::high_side(), &readout.high, shown.hands.high_coupled),
            };
            crate::dial::dial(&DialProps {
                which,
                plate: compare.needles[n].plate(&Face::of(&shown, which, self.units)),
                needle: compare.needles[n].of(which).clone(),
                title,
                number: reading.number.clone(),
                unit: reading.unit,
                spoken: words::spoken(reading),
                saturation: None,
                coupled,
                lit: false,
                memory: dial::memory(history, shown.tick, which, self.units),
            })
        };
        let open = compare.inside[n];
        let reveal = tell(ctx, move |()| CompareMsg::Inside(n, !open));
        let behind = other.filter(|other| !other.there);
        html! {
            <section class={classes!("one", format!("bay-{n}"))} aria-label={letter.clone()}>
                <h3>{ letter }<small class="what">{ what }</small></h3>
                { gauge(Which::High) }
                { gauge(Which::Low) }
                <p class="vent"><span>{ words::vent() }</span><strong>{ readout.vent.to_string() }</strong></p>
                { clutch(history, bay, readout.cycles) }
                if behind.is_some() { <p class="note">{ words::compare_behind() }</p> }
                if bay.halt().is_some() { <p class="note">{ words::compare_halted() }</p> }
                <button type="button" aria-expanded={open.to_string()} onclick={move |_: MouseEvent| reveal(())}>{ words::compare_inside() }</button>
                if open {
                    <dl>{ for inside(bay, self.units).into_iter().map(|(within, shown)| html! { <><dt>{ within_name(within) }</dt><dd>{ shown.to_string() }</dd></> }) }</dl>
                }
                if told { { Self::difference(ctx, compare, n) } }
            </section>
        }
    }

    /// What one of the others differs in, to choose.
    fn difference(ctx: &Context<Self>, compare: &Compare, n: usize) -> Html {
        let Some((k, other)) = n
            .checked_sub(1)
            .and_then(|k| Some((k, compare.others.get(k)?)))
        else {
            return html! {};
        };
        let [fault, much] = FIELDS[k];
        let all: Vec<FaultId> = compare::faults();
        html! { <>
            { fault_choice(fault, &all, other.fault, tell(ctx, move |f| CompareMsg::Fault(k, f))) }
            { choice(much, words::drill_much(), &words::severities(), other.much, tell(ctx, move |m| CompareMsg::Much(k, m))) }
        </> }
    }

    /// One reading of all bays over the last minutes.
    fn all_strips(&self, histories: &[&History], trace: Trace) -> Html {
        let now = self.stage.bay.tick();
        let strip = strip(histories, trace, now, MINUTES, self.units);
        let (x, y) = (|at: f64| 44.0 + 546.0 * at, |at: f64| 224.0 - 208.0 * at);
        let path = |pieces: &Vec<Vec<(f64, f64)>>| -> String {
            let piece = |piece: &Vec<(f64, f64)>| line(piece.iter().map(|(a, b)| (x(*a), y(*b))));
            pieces.iter().map(piece).collect()
        };
        html! {
            <svg viewBox="0 0 600 240" role="img" aria-label={words::compare_strip_of(trace_name(trace))}>
                { for strip.numbers.iter().map(|(at, text)| html! { <>
                    <path class="rule" d={format!("M44 {0:.1}H590", y(*at))} /><text x="40" y={format!("{:.1}", y(*at) + 4.0)} text-anchor="end">{ text }</text>
                </> }) }
                <text x="2" y="10">{ strip.unit }</text>
                { for strip.traces.iter().enumerate().map(|(n, pieces)| html! { <path class={format!("bay-{n}")} d={path(pieces)} /> }) }
            </svg>
        }
    }

    /// The cycles of all bays over pressure and enthalpy.
    fn all_cycles(&self, bays: &[&Bay]) -> Html {
        let plot = Plot::PressureEnthalpy;
        let frame = self.frame_of(plot);
        let at = |(h, p): &(f64, f64)| {
            (
                44.0 + 546.0 * share(&frame.x, *h),
                224.0 - 208.0 * share(&frame.y, *p),
            )
        };
        let dome = frame.lines.iter().filter(|l| l.name == Name::Saturation);
        let cycle = |(n, bay): (usize, &&Bay)| {
            let live = plot.live(bay, self.units);
            let paths = live.paths.iter().filter(|path| path.name == Name::Cycle);
            let d: String = paths.map(|path| line(path.points.iter().map(at))).collect();
            html! { <path class={format!("bay-{n}")} {d} /> }
        };
        html! {
            <svg viewBox="0 0 600 240" role="img" aria-label={words::compare_cycle()}>
                { for frame.y.ticks.iter().map(|v| { let y = at(&(frame.x.range[0], *v)).1; html! { <>
                    <path class="rule" d={format!("M44 {y:.1}H590")} /><text x="40" y={format!("{:.1}", y + 4.0)} text-anchor="end">{ format!("{v:.0}") }</text>
                </> } }) }
                <text x="2" y="10">{ frame.y.unit }</text><text x="590" y="238" text-anchor="end">{ frame.x.unit }</text>
                { for dome.map(|l| html! { <path class="dome" d={line(l.points.iter().map(at))} /> }) }
                { for bays.iter().enumerate().map(cycle) }
            </svg>
        }
    }
}

/// Sends what is asked of the bays.
fn tell<T, F: Fn(T) -> CompareMsg>(ctx: &Context<App>, make: F) -> impl Fn(T) + use<T, F> {
    let link = ctx.link().clone();
    move |value| link.send_message(Msg::Class(ClassMsg::Compare(make(value))))
}

/// When the clutch was in within the last minute.
fn clutch(history: &History, bay: &Bay, cycles: usize) -> Html {
    let to = bay.tick();
    let from = to.saturating_sub(CLUTCH * TICKS_PER_SECOND);
    let pieces = history.clutch_in(from, to);
    let share: f64 = pieces.iter().map(|(a, b)| b - a).sum();
    let told = words::compare_clutch(format!("{:.0}", 100.0 * share), cycles);
    let d = pieces.iter().fold(String::new(), |mut d, (a, b)| {
        let [a, b] = [200.0 * a, 200.0 * b];
        let _ = write!(d, "M{a:.1} 0H{b:.1}V10H{a:.1}z");
        d
    });
    html! { <p class="clutch"><span>{ told }</span><svg viewBox="0 0 200 10" preserveAspectRatio="none" aria-hidden="true"><path {d} /></svg></p> }
}

/// Points as a path.
fn line(points: impl Iterator<Item = (f64, f64)>) -> String {
    points.fold(String::new(), |mut d, (x, y)| {
        let pen = if d.is_empty() { 'M' } else { 'L' };
        let _ = write!(d, "{pen}{x:.1} {y:.1}");
        d
    })
}

fn trace_name(trace: Trace) -> String {
    match trace {
        Trace::Low => words::low_side(),
        Trace::High => words::high_side(),
        _ => words::vent(),
    }
    .to_owned()
}

fn within_name(within: Within) -> &'static str {
    match within {
        Within::Charge => words::compare_charge(),
        Within::Air => words::compare_air(),
        Within::Superheat => words::figure_superheat(),
        Within::Subcooling => words::figure_subcooling(),
    }
}
