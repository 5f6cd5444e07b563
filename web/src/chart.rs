//! The strip chart: readings over time with a window that moves and zooms, marks of what happened, and a cursor that reads.
//!
//! Axes are on one sheet, drawn when they change; traces on another above it.
use std::rc::Rc;

use lowside_lessons::senses::noticed;
use lowside_present::{
    dial::Which,
    history::{History, MarkKind, Row, Trace, marks},
    mark_names::{self, Named},
    palette::{Rgb, Theme},
    parts::Part,
};
use lowside_session::{Bay, TICKS_PER_SECOND, Tick};
use lowside_units::display::UnitSystem;
use web_sys::Element;
use yew::{
    Callback, Html, KeyboardEvent, MouseEvent, NodeRef, Properties, classes, component, html,
    use_mut_ref,
};

use crate::{
    ink::{self, Kind, Marks, Side},
    plot::saver,
    sheet, theme,
    words::{self, charts},
};

mod axes;
mod ghost;

use axes::{Frame, Grid, margin, still};
use ghost::{GhostProps, Ghosts, ghost_view};

/// Lengths offered, minutes; zooming goes between the ends.
const WINDOWS: [f64; 4] = [1.0, 3.0, 10.0, 30.0];
/// Longest window, minutes.
const LONGEST: f64 = 120.0;
/// Width of a letter of the marks' names on average, px.
const LETTER: f64 = 6.0;
/// Ticks in a minute.
const MINUTE: f64 = 60.0 * TICKS_PER_SECOND as f64;

/// What a person does to the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Strip {
    /// Sets the length, minutes.
    Length(f64),
    /// Zooms by a factor about a place, 0 to 1 along the window.
    Zoom(f64, f64),
    /// Moves by a share of the window, positive towards now.
    Move(f64),
    /// Back to now.
    Now,
    /// Puts the cursor at a place, 0 to 1, or takes it away.
    Cursor(Option<f64>),
    /// Moves the cursor by a share of the window.
    Nudge(f64),
    /// Plays the visit again beside it without one of its acts, or no longer.
    LeaveOut(Option<usize>),
}

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Look {
    minutes: f64,
    /// Minutes between the right end and now; 0 follows.
    back: f64,
    cursor: Option<f64>,
    /// The window holds a vacuum.
    vacuum: bool,
}

impl Look {
    /// Room at the right of the plots, px.
    fn margin(&self) -> f64 {
        margin(self.vacuum)
    }
}

/// The strip chart.
pub(crate) struct Chart {
    look: Look,
    /// When the window was moved away from now: it then stands still while time goes on.
    held: Option<Tick>,
    now: Tick,
    drawn: Option<Frame>,
    ghosts: Ghosts,
    /// Marks of what nobody noticed are left out.
    pub(crate) closed: bool,
    /// Where axes and traces are on the page.
    pub(crate) axes: NodeRef,
    pub(crate) traces: NodeRef,
    /// The window as rows.
    pub(crate) rows: Rc<Vec<Row>>,
}

impl Default for Chart {
    fn default() -> Self {
        Self {
            look: Look {
                minutes: 10.0,
                back: 0.0,
                cursor: None,
                vacuum: false,
            },
            held: None,
            now: 0,
            drawn: None,
            ghosts: Ghosts::default(),
            closed: false,
            axes: NodeRef::default(),
            traces: NodeRef::default(),
            rows: Rc::default(),
        }
    }
}

fn ticks(minutes: f64) -> Tick {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "minutes of a window"
    )]
    let n = (minutes.max(0.0) * MINUTE) as Tick;
    n
}

impl Chart {
    pub(crate) fn look(&self) -> Look {
        self.look
    }

    /// The moments at both ends of the window, with the latest at `now`.
    pub(crate) fn window(&self, now: Tick) -> (Tick, Tick) {
        let to = self.held.unwrap_or(now).min(now);
        (to.saturating_sub(ticks(self.look.minutes)), to)
    }

    /// Does what a person does to it.
    pub(crate) fn act(&mut self, act: Strip, bay: &Bay) {
        self.now = bay.tick();
        let look = &mut self.look;
        let (was, mut back) = (look.minutes, look.back);
        match act {
            Strip::Length(minutes) => look.minutes = minutes,
            Strip::Zoom(factor, at) => {
                look.minutes = (was * factor).clamp(0.5, LONGEST);
                // What lies under the place stays there.
                back += (was - look.minutes) * (1.0 - at);
            }
            Strip::Move(share) => back -= share * was,
            Strip::Now => back = 0.0,
            Strip::Cursor(at) => look.cursor = at.map(|a| a.clamp(0.0, 1.0)),
            Strip::Nudge(by) => {
                look.cursor = Some((look.cursor.unwrap_or(1.0) + by).clamp(0.0, 1.0));
            }
            Strip::LeaveOut(act) => self.ghosts.leave_out(act, bay),
        }
        let past = bay.tick() as f64 / MINUTE;
        look.back = back.clamp(0.0, (past - 0.25 * look.minutes).max(0.0));
        self.held = (look.back > 1e-3).then(|| bay.tick().saturating_sub(ticks(look.back)));
    }

    /// Time goes on: a window that was moved away stays where it is.
    fn follow(&mut self, bay: &Bay) {
        if bay.tick() < self.now {
            self.held = None;
        }
        self.now = bay.tick();
        self.look.back = self
            .held
            .map_or(0.0, |at| self.now.saturating_sub(at) as f64 / MINUTE);
    }

    /// The moment under the cursor.
    fn moment(&self, now: Tick) -> Option<Tick> {
        let at = self.look.cursor?;
        let (_, to) = self.window(now);
        let before = ticks(self.look.minutes * (1.0 - at));
        to.checked_sub(before)
    }

    /// What stands under it of the act left out.
    pub(crate) fn ghost(&self, bay: &Bay, units: UnitSystem) -> GhostProps {
        self.ghosts.props(bay, units)
    }

    /// What the cursor reads.
    pub(crate) fn read(&self, history: &History, bay: &Bay, units: UnitSystem) -> Option<String> {
        let row = history.at(self.moment(bay.tick())?, units)?;
        let values = [&row.low, &row.high, &row.vent, &row.cabin].map(ToString::to_string);
        let read = charts::cursor(&row.time.number, &values);
        Some(match row.vacuum {
            Some(vacuum) => words::strip_cursor_vacuum(&read, vacuum.to_string()),
            None => read,
        })
    }

    /// Draws the traces, and the axes if need be.
    pub(crate) fn draw(
        &mut self,
        (axes, traces): (&Element, &Element),
        theme: &Theme,
        (bay, history): (&Bay, &History),
        (units, lit): (UnitSystem, Option<Part>),
    ) {
        self.follow(bay);
        self.ghosts.follow(bay, self.closed);
        let Some(size) = ink::place(traces) else {
            return;
        };
        let (from, to) = self.window(bay.tick());
        self.look.vacuum = history.extent(Trace::Vacuum, from, to).is_some();
        let frame = Frame {
            units,
            dark: theme::dark(),
            minutes: self.look.minutes,
            back: self.look.back,
            vacuum: self.look.vacuum,
            size,
        };
        // A sheet that was taken away and came back is blank.
        if self.drawn.as_ref() != Some(&frame) || axes.first_element_child().is_none() {
            ink::on_page(axes, &still(&frame, theme), size);
            self.drawn = Some(frame.clone());
        }
        let marks = self.moving(&frame, theme, (bay, history), lit);
        ink::on_page(traces, &marks, size);
    }

    /// Saves it as it stands.
    pub(crate) fn save(&self, kind: Kind, (bay, history): (&Bay, &History), units: UnitSystem) {
        let theme = theme::current();
        let frame = self.drawn.clone().unwrap_or(Frame {
            units,
            dark: false,
            minutes: self.look.minutes,
            back: self.look.back,
            vacuum: self.look.vacuum,
            size: (900.0, 240.0),
        });
        let mut all = still(&frame, theme);
        all.0
            .extend(self.moving(&frame, theme, (bay, history), None).0);
        let (from, to) = self.window(bay.tick());
        let csv = || history.csv(from, to, units, &words::numbers_columns());
        ink::save(kind, "strip", all, theme.sheet, frame.size, csv);
    }

    fn moving(
        &self,
        f: &Frame,
        t: &Theme,
        (bay, history): (&Bay, &History),
        lit: Option<Part>,
    ) -> Marks {
        let g = Grid::new(f);
        let mut m = Marks::default();
        let (from, to) = self.window(bay.tick());
        // Early on the window is not yet full: what there is stands at its right.
        let part = ((to - from) as f64 / (f.minutes * MINUTE)).min(1.0);
        let x = |at: f64| g.right - (g.right - g.left) * part * (1.0 - at);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a screen's size"
        )]
        let columns = ((g.right - g.left) * part).max(1.0) as usize;
        let events = bay.events().iter().copied();
        let events = events.filter(|(_, e)| !self.closed || noticed(*e));
        mark_out(
            &mut m,
            &g,
            t,
            f,
            marks(bay.log(), events, (from, to))
                .into_iter()
                .map(|(at, kind)| (x(at), kind)),
        );
        for (a, b) in history.clutch_in(from, to) {
            m.line(
                vec![(x(a), g.middle + 4.0), (x(b), g.middle + 4.0)],
                t.accent,
                5.0,
            );
        }
        let mut trace =
            |history: &History, which: Trace, colour: Rgb, width: f64, dash: Option<[f64; 2]>| {
                for piece in history.pieces(which, from, to, columns) {
                    let points: Vec<_> = piece
                        .into_iter()
                        .map(|(at, v)| (x(at), g.value(which, v)))
                        .collect();
                    match dash {
                        Some(dash) => m.dashed(&points, colour, width, dash),
                        None => m.line(points, colour, width),
                    }
                }
            };
        // Behind: the visit without one of its acts.
        if let Some(ghost) = self.ghosts.history() {
            for which in [Trace::High, Trace::Low, Trace::Vent] {
                trace(ghost, which, t.ink, 2.0, Some([2.0, 4.0]));
            }
        }
        // The side of the loop that is pointed at stands out.
        let side = lit.and_then(Part::gauge);
        let width = |which| if side == Some(which) { 4.0 } else { 1.8 };
        trace(history, Trace::High, t.high, width(Which::High), None);
        trace(
            history,
            Trace::Low,
            t.low,
            width(Which::Low),
            Some([9.0, 3.0]),
        );
        trace(history, Trace::Cabin, t.cabin, 1.4, Some([4.0, 3.0]));
        trace(history, Trace::Vent, t.vent, 2.0, None);
        trace(history, Trace::Vacuum, t.ink, 1.8, Some([2.0, 2.5]));
        if let Some(at) = self.look.cursor {
            let x = g.left + (g.right - g.left) * at;
            m.line(vec![(x, g.top), (x, g.bottom)], t.ink, 1.2);
            if let Some(row) = self
                .moment(bay.tick())
                .and_then(|tick| history.sample(tick))
            {
                for (which, colour) in [
                    (Trace::High, t.high),
                    (Trace::Low, t.low),
                    (Trace::Vent, t.vent),
                    (Trace::Cabin, t.cabin),
                    (Trace::Vacuum, t.ink),
                ] {
                    let Some(value) = row.get(which) else {
                        continue;
                    };
                    let at = (x, g.value(which, value));
                    m.0.push(ink::Mark::Disc(at, 4.0, colour, t.sheet));
                }
            }
        }
        m
    }
}

/// Lines where something happened, and their names above as far as there is room.
fn mark_out(
    m: &mut Marks,
    g: &Grid,
    t: &Theme,
    f: &Frame,
    all: impl Iterator<Item = (f64, MarkKind)>,
) {
    let mut names = Vec::new();
    let mut last = f64::NEG_INFINITY;
    for (x, kind) in all {
        let room = if kind.weighty() { 2.0 } else { 12.0 };
        if x - last < room {
            continue;
        }
        last = x;
        m.dashed(&[(x, g.top), (x, g.floor)], t.edge, 1.0, [3.0, 3.0]);
        names.push((words::mark(kind), x, kind));
    }
    let named: Vec<_> = names
        .iter()
        .map(|(name, x, kind)| Named {
            x: *x,
            width: name.chars().count() as f64 * LETTER,
            kind: *kind,
        })
        .collect();
    let places = mark_names::places(&named, f.size.0 - 2.0);
    for ((name, ..), left) in names.into_iter().zip(places) {
        if let Some(left) = left {
            m.text(name, (left, g.top - 7.0), 10.5, Side::Left, t.soft);
        }
    }
}

#[derive(Properties, PartialEq)]
pub(crate) struct StripProps {
    pub(crate) look: Look,
    pub(crate) read: Option<String>,
    pub(crate) axes: NodeRef,
    pub(crate) traces: NodeRef,
    pub(crate) rows: Rc<Vec<Row>>,
    pub(crate) ghost: GhostProps,
    pub(crate) send: Callback<Strip>,
    pub(crate) save: Callback<Kind>,
}

/// The chart with its buttons, its cursor's reading and its table.
#[component]
pub(crate) fn StripView(p: &StripProps) -> Html {
    let dragged = use_mut_ref(|| None::<f64>);
    let margin = p.look.margin();
    let place = move |e: &MouseEvent, traces: &NodeRef| {
        let (w, ..) = traces.cast::<Element>().and_then(|e| ink::place(&e))?;
        Some((sheet::pointed(e).0 - 42.0) / (w - 42.0 - margin))
    };
    let send = |act: Strip| {
        let send = p.send.clone();
        Callback::from(move |_: MouseEvent| send.emit(act))
    };
    let down = {
        let (dragged, traces) = (dragged.clone(), p.traces.clone());
        Callback::from(move |e: MouseEvent| *dragged.borrow_mut() = place(&e, &traces))
    };
    let up = {
        let dragged = dragged.clone();
        Callback::from(move |_: MouseEvent| *dragged.borrow_mut() = None)
    };
    let over = {
        let (dragged, traces, send) = (dragged.clone(), p.traces.clone(), p.send.clone());
        Callback::from(move |e: MouseEvent| {
            let Some(at) = place(&e, &traces) else { return };
            let mut held = dragged.borrow_mut();
            match *held {
                Some(from) if e.buttons() & 1 == 1 => {
                    send.emit(Strip::Move(from - at));
                    *held = Some(at);
                }
                _ => {
                    *held = None;
                    send.emit(Strip::Cursor((0.0..=1.0).contains(&at).then_some(at)));
                }
            }
        })
    };
    let leave = send(Strip::Cursor(None));
    let key = {
        let send = p.send.clone();
        Callback::from(move |e: KeyboardEvent| {
            let act = match (e.key().as_str(), e.shift_key()) {
                ("ArrowLeft", false) => Strip::Nudge(-0.01),
                ("ArrowRight", false) => Strip::Nudge(0.01),
                ("ArrowLeft", true) => Strip::Move(-0.1),
                ("ArrowRight", true) => Strip::Move(0.1),
                ("+" | "=", _) => Strip::Zoom(0.7, 1.0),
                ("-", _) => Strip::Zoom(1.0 / 0.7, 1.0),
                ("End", _) => Strip::Now,
                ("Escape", _) => Strip::Cursor(None),
                _ => return,
            };
            e.prevent_default();
            send.emit(act);
        })
    };
    let button = |text: &'static str, name: &'static str, act: Strip, off: bool| {
        html! { <button type="button" aria-label={name} title={name} disabled={off} onclick={send(act)}>{ text }</button> }
    };
    html! {
        <section class="chart" aria-labelledby="chart-title">
            <h2 id="chart-title">{ words::chart() }
                <small><span class="name high">{ words::chart_high() }</span><span class="name low">{ words::chart_low() }</span>
                <span class="name accent">{ words::chart_vent() }</span><span class="name grey">{ words::chart_cabin() }</span>
                if p.look.vacuum { <span class="name trace-vacuum">{ words::chart_vacuum() }</span> }</small>
                <span class="speeds" role="group" aria-label={words::chart_length()}>
                    { for WINDOWS.iter().map(|&m| {
                        let on = (m - p.look.minutes).abs() < 1e-9;
                        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole minutes")]
                        let name = words::minutes(m as u32);
                        html! { <button type="button" aria-pressed={on.to_string()} class={classes!(on.then_some("chosen"))}
                            onclick={send(Strip::Length(m))}>{ name }</button> }
                    }) }
                </span>
                <span class="speeds moves">
                    { button("\u{2190}", words::strip_earlier(), Strip::Move(-0.5), false) }
                    { button("\u{2192}", words::strip_later(), Strip::Move(0.5), p.look.back <= 0.0) }
                    { button("+", words::strip_closer(), Strip::Zoom(0.5, 1.0), false) }
                    { button("\u{2212}", words::strip_wider(), Strip::Zoom(2.0, 1.0), false) }
                    { button("\u{21e5}", words::now(), Strip::Now, p.look.back <= 0.0) }
                </span>
            </h2>
            <div class="strip" tabindex="0" role="application" aria-label={words::chart()} aria-describedby="strip-keys" onkeydown={key}>
                <div ref={p.axes.clone()} aria-hidden="true"></div>
                <div ref={p.traces.clone()} role="img" aria-label={words::chart_spoken()}
                    onmousedown={down} onmouseup={up} onmousemove={over} onmouseleave={leave}></div>
                <p class="read" aria-live="off">{ p.read.as_deref().unwrap_or_default() }</p>
            </div>
            <p id="strip-keys" class="unseen">{ words::strip_keys() }</p>
            { ghost_view(&p.ghost, &p.send) }
            <div class="foot">{ table(&p.rows) }{ saver(&p.save) }</div>
        </section>
    }
}

/// The chart as numbers.
fn table(rows: &[Row]) -> Html {
    html! {
        <details>
            <summary>{ words::numbers() }</summary>
            <div class="scroll" tabindex="0" role="region" aria-label={words::numbers_table()}>
            <table>
                <caption class="unseen">{ words::numbers_caption() }</caption>
                <thead><tr>
                    { for words::numbers_columns().iter().map(|h| html! { <th scope="col">{ *h }</th> }) }
                </tr></thead>
                <tbody>
                    { for rows.iter().map(|r| html! {
                        <tr><th scope="row">{ &r.time.number }</th>
                            { for [&r.low, &r.high, &r.vent, &r.cabin].iter().map(|s| html! { <td>{ s.to_string() }</td> }) }
                            <td>{ r.vacuum.as_ref().map(ToString::to_string) }</td>
                            <td>{ words::in_out()[usize::from(r.clutch)] }</td>
                        </tr>
                    }) }
                </tbody>
            </table>
            </div>
        </details>
    }
}
