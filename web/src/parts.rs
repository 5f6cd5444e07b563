//! The drawing of parts: the loop as it lies in the engine bay, seen from above, with the hoses on it. SVG made in code; what flows is
//! drawn on a canvas above it.
use std::rc::Rc;

use lowside_present::{
    palette::Theme,
    parts::{Coat, Part, Parts, Tube, Tubes, inside::Opened},
};
use yew::{Callback, Html, KeyboardEvent, MouseEvent, NodeRef, classes, html};

use crate::{
    theme,
    words::{self, charts},
};

mod flow;
mod look;

pub(crate) use flow::Flows;
use look::Look;

/// Width and height of the drawing's own coordinates.
pub(crate) const SIZE: (f64, f64) = (800.0, 450.0);

/// The tubes as paths, in the direction of the flow, with their width.
pub(crate) const DISCHARGE: (&str, f64) = ("M470 188 V118 Q470 104 484 104 H694", 9.0);
pub(crate) const LIQUID: (&str, f64) =
    ("M694 396 H590 Q576 396 576 403 Q576 410 562 410 H262", 7.0);
pub(crate) const BEHIND: (&str, f64) = ("M196 410 H118 Q104 410 104 396 V380", 7.0);
pub(crate) const COLD: (&str, f64) = ("M104 128 V114 Q104 98 120 98 H224", 13.0);
pub(crate) const SUCTION: (&str, f64) = ("M266 122 H420 Q436 122 436 138 V188", 13.0);
pub(crate) const LOW_HOSE: (&str, f64) = ("M356 64 C356 96 312 74 312 112", 6.0);
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
    pub(crate) closed: bool,
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
    };
    let closed = p.closed;
    let turn = {
        let close = p.close.clone();
        Callback::from(move |_: MouseEvent| close.emit(!closed))
    };
    html! {
        <section key="parts" class={classes!("parts", p.opened.is_some().then_some("open"))} aria-labelledby="parts-title">
            <h2 id="parts-title">{ charts::view(crate::views::View::Parts) }<small>{ words::parts_idea() }</small>
                <span class="saver"><button type="button" aria-pressed={closed.to_string()} onclick={turn}>
                    { if closed { words::open_loop() } else { words::close_loop() } }</button></span></h2>
            <div class="bench">
                <div class="sheet">
                    <svg viewBox={format!("0 0 {} {}", SIZE.0, SIZE.1)} role="group" aria-label={words::parts_idea()}>
                        { Look::ground() }
                        { for Part::ALL.into_iter().filter(|part| *part != Part::Can || p.parts.can.is_some()).map(|part| handle(p, &look, part)) }
                        { look.surroundings() }
                    </svg>
                    <canvas ref={p.flows.clone()} hidden={closed} aria-hidden="true"></canvas>
                </div>
                if let Some(opened) = &p.opened {
                    { inside(p, opened) }
                }
            </div>
        </section>
    }
}

/// A part that can be pointed at, pressed, and reached by keyboard.
fn handle(p: &PartsProps, look: &Look, part: Part) -> Html {
    let said = p
        .temperatures
        .iter()
        .find(|(x, _)| *x == part)
        .map_or("", |(_, t)| t.as_str());
    let chosen = p.opened.as_ref().is_some_and(|o| o.part == part);
    let open = {
        let open = p.open.clone();
        move || open.emit(if chosen { None } else { Some(part) })
    };
    let press = {
        let open = open.clone();
        Callback::from(move |_: MouseEvent| open())
    };
    let key = Callback::from(move |e: KeyboardEvent| {
        if e.key() == "Enter" || e.key() == " " {
            e.prevent_default();
            open();
        }
    });
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
