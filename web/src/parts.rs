//! Parts and bench as one drawing: the loop as it lies in the engine bay with the hoses on it, joints to press, instruments to put on, a cloth for
//! what comes out. SVG made in code; what flows is drawn on a canvas above it. A closed bay is drawn by what is shown.
use std::rc::Rc;

use lowside_present::{
    UnitSystem,
    bench::{Fixings, Item, PartState, Place, Standing},
    palette::Theme,
    parts::{Coat, Part, Parts, Tube, Tubes, inside::Opened},
    retrofit::Switches,
    tools::Tools,
};
use lowside_session::Action;
use yew::{Callback, Html, KeyboardEvent, MouseEvent, NodeRef, classes, html};

use crate::{
    bench::Worktop,
    theme,
    words::{self, charts},
};

pub(crate) mod cloth;
mod flow;
mod look;
mod marks;

pub(crate) use flow::Flows;
use look::Look;
pub(crate) use marks::Instrument;
use marks::{Board, marks};

/// Width and height of the drawing's own coordinates.
pub(crate) const SIZE: (f64, f64) = (800.0, 560.0);

/// The tubes as paths, in the direction of the flow, with their width.
pub(crate) const DISCHARGE: (&str, f64) = ("M470 188 V118 Q470 104 484 104 H694", 9.0);
pub(crate) const LIQUID: (&str, f64) =
    ("M694 396 H590 Q576 396 576 403 Q576 410 562 410 H262", 7.0);
pub(crate) const BEHIND: (&str, f64) = ("M196 410 H118 Q104 410 104 396 V380", 7.0);
pub(crate) const COLD: (&str, f64) = ("M104 128 V114 Q104 98 120 98 H224", 13.0);
pub(crate) const SUCTION: (&str, f64) = ("M266 122 H420 Q436 122 436 138 V188", 13.0);
pub(crate) const LOW_HOSE: (&str, f64) = ("M356 64 C356 96 332 74 332 112", 6.0);
pub(crate) const HIGH_HOSE: (&str, f64) = ("M444 64 C444 96 560 50 560 96", 6.0);
pub(crate) const SERVICE_HOSE: (&str, f64) = ("M618 30 C560 4 420 110 400 66", 6.0);

/// Where the evaporator and condenser cells lie: left, top, width, height of one.
const EVAPORATOR: (f64, f64, f64, f64) = (84.0, 128.0, 40.0, 50.4);
const CONDENSER: (f64, f64, f64, f64) = (694.0, 90.0, 44.0, 53.0);

/// What the drawing of parts is made from.
pub(crate) struct PartsProps {
    pub(crate) parts: Rc<Parts>,
    pub(crate) opened: Option<Rc<Opened>>,
    /// Figures of wear, where the opened part is the compressor.
    pub(crate) wear: Vec<String>,
    pub(crate) lit: Option<Part>,
    /// Read from outside, as in a drill.
    pub(crate) closed: bool,
    /// Worked in closed: there is no inside to open.
    pub(crate) hidden: bool,
    pub(crate) places: Vec<Place>,
    pub(crate) chosen: Option<Item>,
    /// The chosen item, if it is a part.
    pub(crate) state: Option<PartState>,
    pub(crate) switches: Switches,
    pub(crate) fixings: Fixings,
    pub(crate) tools: Tools,
    /// What was picked up.
    pub(crate) hand: Option<Instrument>,
    /// Gas blows out of what is open.
    pub(crate) blows: bool,
    pub(crate) units: UnitSystem,
    pub(crate) choose: Callback<Item>,
    /// Chooses nothing any more.
    pub(crate) leave: Callback<()>,
    pub(crate) take: Callback<Option<Instrument>>,
    pub(crate) act: Callback<Action>,
    pub(crate) temperatures: Rc<Vec<(Part, String)>>,
    pub(crate) flows: NodeRef,
    pub(crate) light: Callback<Option<Part>>,
    pub(crate) open: Callback<Option<Part>>,
    pub(crate) close: Callback<bool>,
}

/// The drawing, and the opened part beside it.
pub(crate) fn parts_view(p: &PartsProps) -> Html {
    let look = Look {
        parts: &p.parts,
        theme: theme::current(),
        closed: p.closed,
        loose: p.fixings.loose,
    };
    let closed = p.closed;
    let turn = {
        let close = p.close.clone();
        Callback::from(move |_: MouseEvent| close.emit(!closed))
    };
    let board = Board {
        places: &p.places,
        tools: &p.tools,
        hand: p.hand,
        chosen: p.chosen,
        blows: p.blows,
        choose: &p.choose,
        act: &p.act,
    };
    html! {
        <section key="parts" class={classes!("parts", p.opened.is_some().then_some("open"))} aria-labelledby="parts-title">
            <h2 id="parts-title">{ charts::view(crate::views::View::Parts) }<small>{ words::parts_idea() }</small>
                if !p.hidden {
                    <span class="saver"><button type="button" aria-pressed={closed.to_string()} onclick={turn}>
                        { if closed { words::open_loop() } else { words::close_loop() } }</button></span>
                }</h2>
            <div class="board">
                { tray(p) }
                <div class="pan" tabindex="0" role="region" aria-label={words::parts_idea()}><div class="sheet">
                    <svg viewBox={format!("0 0 {} {}", SIZE.0, SIZE.1)} role="group" aria-label={words::parts_idea()}>
                        { Look::ground() }
                        { for Part::ALL.into_iter().filter(|part| *part != Part::Can || p.parts.can.is_some()).map(|part| handle(p, &look, part)) }
                        { look.surroundings() }
                        { marks(&board) }
                        { cloth::cloth(&p.places, p.chosen, p.state.as_ref(), &p.choose) }
                    </svg>
                    <canvas ref={p.flows.clone()} hidden={closed} aria-hidden="true"></canvas>
                    { worktop(p) }
                </div></div>
            </div>
            { searched(&p.tools) }
            if let Some(opened) = &p.opened {
                { inside(p, opened) }
            }
        </section>
    }
}

/// Instruments to pick up; one in hand is put on whatever is pressed, until it is put away.
fn tray(p: &PartsProps) -> Html {
    html! {
        <div class="tray" role="group" aria-label={words::pick_up()}>
            <b aria-hidden="true">{ words::pick_up() }</b>
            { for Instrument::ALL.map(|tool| {
                let on = p.hand == Some(tool);
                let take = p.take.clone();
                let (name, path) = tool.look();
                html! { <button type="button" aria-pressed={on.to_string()} onclick={Callback::from(move |_: MouseEvent| take.emit((!on).then_some(tool)))}>
                    <svg class="icon" viewBox="0 0 40 32" aria-hidden="true"><path d={path} /></svg>{ name }</button> }
            }) }
            <p class="told" role="status">{ if p.hand.is_some() { words::put_it_on() } else { words::press_a_joint() } }</p>
        </div>
    }
}

/// The places that were searched, with what was found.
fn searched(tools: &Tools) -> Html {
    let lines: Vec<String> = words::searched_places(tools).collect();
    html! {
        if !lines.is_empty() {
            <p class="searched"><b>{ words::searched() }</b>{ " " }{ lines.join(" \u{b7} ") }</p>
        }
    }
}

/// What can be done to what was pressed.
fn worktop(p: &PartsProps) -> Html {
    let Some(chosen) = p.chosen else {
        return html! {};
    };
    let standing = p.places.iter().find(|(item, _)| *item == chosen);
    let standing = standing.map_or(Standing::Fitted, |(_, standing)| *standing);
    let at = marks::place_of(chosen, standing);
    html! { <Worktop {chosen} {at} {standing} part={p.state.clone()} switches={p.switches.clone()} fixings={p.fixings.clone()} clutch={p.tools.clutch.clone()} units={p.units} leave={p.leave.clone()} act={p.act.clone()} /> }
}

/// What is pressed by mouse, finger, Enter or space.
fn presses(go: impl Fn() + Clone + 'static) -> (Callback<MouseEvent>, Callback<KeyboardEvent>) {
    let by_key = go.clone();
    let key = Callback::from(move |e: KeyboardEvent| {
        if e.key() == "Enter" || e.key() == " " {
            e.prevent_default();
            by_key();
        }
    });
    (Callback::from(move |_: MouseEvent| go()), key)
}

/// A part that can be pointed at, pressed, and reached by keyboard.
fn handle(p: &PartsProps, look: &Look, part: Part) -> Html {
    let said = p
        .temperatures
        .iter()
        .find(|(x, _)| *x == part)
        .map(|(_, t)| t.as_str());
    let piece = part.piece().map(Item::Part);
    let out = piece.is_some_and(|item| p.places.contains(&(item, Standing::OnBench)));
    if out {
        return html! { <g class="part gone" aria-hidden="true">{ look.part(part) }</g> };
    }
    let opened = p.opened.as_ref().is_some_and(|o| o.part == part);
    let chosen = opened || piece.is_some() && p.chosen == piece;
    let open = {
        let (open, act) = (p.open.clone(), p.act.clone());
        let measures = p.hand.map(|tool| tool.at(part, &p.tools));
        move || match measures {
            Some(Some(action)) => act.emit(action),
            // It does nothing there.
            Some(None) => {}
            None => open.emit(if opened { None } else { Some(part) }),
        }
    };
    let (press, key) = presses(open);
    let light = |on: bool| {
        let light = p.light.clone();
        move || light.emit(on.then_some(part))
    };
    let (enter, leave, focus, blur) = (light(true), light(false), light(true), light(false));
    html! {
        <g role="button" tabindex="0" aria-pressed={chosen.to_string()} aria-label={charts::part_spoken(part, said, look.coat(part))}
            class={classes!("part", (p.lit == Some(part)).then_some("lit"), chosen.then_some("chosen"))}
            onclick={press} onkeydown={key} onmouseenter={Callback::from(move |_: MouseEvent| enter())}
            onmouseleave={Callback::from(move |_: MouseEvent| leave())}
            onfocus={Callback::from(move |_: yew::FocusEvent| focus())} onblur={Callback::from(move |_: yew::FocusEvent| blur())}>
            { look.part(part) }
        </g>
    }
}

/// An opened part: what is in it, drawn and in figures.
fn inside(p: &PartsProps, o: &Opened) -> Html {
    let shut = {
        let open = p.open.clone();
        Callback::from(move |_: MouseEvent| open.emit(None))
    };
    html! {
        <div class="inside" role="region" aria-labelledby="inside-title">
            <h3 id="inside-title">{ charts::part(o.part) }<button type="button" onclick={shut} aria-label={words::part_close()}>{ "\u{d7}" }</button></h3>
            <p>{ charts::part_does(o.part) }</p>
            if p.closed {
                <p class="empty">{ words::closed_loop() }</p>
            } else {
                { look::section(o, theme::current()) }
                <dl>
                    { for o.figures.iter().map(|(f, x)| html! { <div><dt>{ charts::figure(*f) }</dt><dd>{ x.to_string() }</dd></div> }) }
                    { for p.wear.iter().map(|line| html! { <div class="cause"><dt>{ line }</dt><dd></dd></div> }) }
                </dl>
            }
        </div>
    }
}

/// The tubes with what flows in them, in the order of [`Flows`].
fn tubes(p: &Tubes) -> [(&'static str, f64, Tube); 8] {
    let hose = |(path, width): (&'static str, f64), tube: Tube| (path, width, tube);
    [
        hose(DISCHARGE, p.discharge),
        hose(LIQUID, p.liquid),
        hose(BEHIND, p.behind),
        hose(COLD, p.cold),
        hose(SUCTION, p.suction),
        hose(LOW_HOSE, p.low_hose),
        hose(HIGH_HOSE, p.high_hose),
        hose(SERVICE_HOSE, p.service_hose),
    ]
}

/// Colour of a surface that is felt, not seen, while the loop is closed.
fn heat(theme: &Theme, t: f64) -> String {
    theme.heat(t).to_string()
}

fn frosted(c: Coat) -> bool {
    c == Coat::Frost
}
