//! What a closed bay shows where an open one has levels and ledger: the loop from outside with what hands, eyes, ears and nose tell, and what was
//! weighed.
use lowside_lessons::{Coat, Surface, Touch, senses::Feel};
use lowside_present::{
    closed::{
        drawing::{Drawing, Place},
        weighed::Weighed,
    },
    notes::Note,
    parts::Part,
};
use yew::{Html, classes, html};

use crate::{kit::line, words};

/// From here on a hiss is heard, and from here on it is loud, of what a hiss can be (own figures).
const HISS: [f64; 2] = [0.05, 0.4];

/// Where the number of a surface stands in the drawing, in its own units.
fn at(surface: Surface) -> (i32, i32) {
    match surface {
        Surface::Compressor => (82, 130),
        Surface::Discharge => (108, 60),
        Surface::CondenserInlet => (172, 60),
        Surface::CondenserOutlet => (308, 60),
        Surface::Liquid => (410, 88),
        Surface::EvaporatorInlet => (410, 168),
        Surface::EvaporatorOutlet => (190, 190),
        Surface::Accumulator => (150, 190),
        Surface::Suction => (100, 178),
        Surface::Vessel => (206, 240),
    }
}

/// The outline of what has the feel of a surface, and whether it is a pipe.
fn outline(surface: Surface) -> (&'static str, bool) {
    match surface {
        Surface::Compressor => ("M46 106h48v48h-48z", false),
        Surface::Discharge => ("M70 106V60H150", true),
        Surface::CondenserInlet => ("M150 38h90v44h-90z", false),
        Surface::CondenserOutlet => ("M240 38h90v44h-90z", false),
        Surface::Liquid => ("M330 60H410V120", true),
        Surface::EvaporatorInlet => ("M410 140V190H360", true),
        Surface::EvaporatorOutlet => ("M210 190H170", true),
        Surface::Accumulator => ("M130 158h40v66h-40z", false),
        Surface::Suction => ("M130 178H70V154", true),
        Surface::Vessel => ("M192 222h28v36h-28z", false),
    }
}

/// Where a stain at a part is drawn.
fn stained(part: Part) -> (i32, i32) {
    match part {
        Part::Compressor => (56, 148),
        Part::Discharge => (82, 74),
        Part::Condenser => (240, 76),
        Part::Liquid => (396, 66),
        Part::Orifice => (398, 130),
        Part::Evaporator => (285, 206),
        Part::Accumulator => (140, 216),
        Part::Suction => (80, 184),
        _ => (206, 252),
    }
}

pub(crate) fn name(surface: Surface) -> &'static str {
    match surface {
        Surface::Compressor => words::surface_compressor(),
        Surface::Discharge => words::surface_discharge(),
        Surface::CondenserInlet => words::surface_condenser_in(),
        Surface::CondenserOutlet => words::surface_condenser_out(),
        Surface::Liquid => words::surface_liquid(),
        Surface::EvaporatorInlet => words::surface_evaporator_in(),
        Surface::EvaporatorOutlet => words::surface_evaporator_out(),
        Surface::Accumulator => words::surface_accumulator(),
        Surface::Suction => words::surface_suction(),
        Surface::Vessel => words::surface_vessel(),
    }
}

/// A touch in words, and its class in the style sheet.
pub(crate) fn touch(touch: Touch) -> (&'static str, &'static str) {
    match touch {
        Touch::Icy => (words::touch_icy(), "icy"),
        Touch::Cool => (words::touch_cool(), "cool"),
        Touch::AsTheDay => (words::touch_day(), "day"),
        Touch::Warm => (words::touch_warm(), "warm"),
        Touch::TooHot => (words::touch_hot(), "hot"),
    }
}

pub(crate) fn coat(coat: Coat) -> &'static str {
    match coat {
        Coat::Dry => words::coat_dry(),
        Coat::Dew => words::coat_dew(),
        Coat::Frost => words::coat_frost(),
    }
}

/// What is told of a surface.
fn felt(feel: Option<Feel>) -> String {
    feel.map_or_else(
        || words::surface_gone().to_owned(),
        |f| words::surface_felt(touch(f.touch).0, coat(f.coat)),
    )
}

/// The drawing, the list to its numbers, what else is noticed, and the notes.
pub(crate) fn around(d: &Drawing, notes: &[Note]) -> Html {
    // Nothing on the service hose is nothing to feel.
    let places: Vec<&Place> = d
        .places
        .iter()
        .filter(|p| p.surface != Surface::Vessel || p.feel.is_some())
        .collect();
    html! {
        <section key="around" class="around" aria-labelledby="around-title">
            <h2 id="around-title">{ words::around() }<small>{ words::around_idea() }</small></h2>
            <div class="seen-from-outside">
                { picture(d, &places) }
                <div>
                    <ol class="feels">{ for places.iter().map(|p| html! {
                        <li><b>{ name(p.surface) }</b>{ ": " }{ felt(p.feel) }</li>
                    }) }</ol>
                    <ul class="senses">{ for senses(d).into_iter().map(|text| html! { <li>{ text }</li> }) }</ul>
                </div>
            </div>
            <ul class="told">{ for notes.iter().map(|n| html! { <li>{ words::charts::note(n) }</li> }) }</ul>
        </section>
    }
}

/// What is seen, heard and smelt besides.
fn senses(d: &Drawing) -> Vec<String> {
    let [faint, loud] = HISS;
    let hiss = if d.hiss > loud {
        Some(words::sense_hiss_loud())
    } else {
        (d.hiss > faint).then(words::sense_hiss_faint)
    };
    let others = [
        (d.relief, words::sense_relief as fn() -> &'static str),
        (d.blows, words::sense_blows),
        (d.smells, words::sense_smell),
        (d.drips, words::sense_drips),
    ];
    let others = others
        .into_iter()
        .filter(|(so, _)| *so)
        .map(|(_, text)| text());
    let mut all: Vec<String> = hiss.into_iter().chain(others).map(str::to_owned).collect();
    let stain = |spot| words::sense_stain(words::spot_name(spot));
    all.extend(d.stains.iter().map(|(spot, _)| stain(*spot)));
    if all.is_empty() {
        all.push(words::sense_none().to_owned());
    }
    all
}

fn picture(d: &Drawing, places: &[&Place]) -> Html {
    let hose = |side: usize, name: &'static str| {
        let way = match (side, d.coupled[side]) {
            (0, true) => "M150 224V234H106",
            (0, false) => "M126 234H106",
            (_, true) => "M70 80H40V242H62",
            (_, false) => "M48 242H62",
        };
        html! { <path class={classes!("hose", name)} d={way} /> }
    };
    let hung = d.can.is_some() || d.tool.is_some();
    html! {
        <svg viewBox="0 0 440 264" role="img" aria-label={words::around_drawing()}>
            { hose(0, "low") }
            { hose(1, "high") }
            <path class="hose service" d={if hung { "M106 250H192" } else { "M106 250H124" }} />
            <rect class="set" x="62" y="228" width="44" height="30" rx="4" />
            <circle class={classes!("knob", "low", (d.valves[0] > 0.0).then_some("open"))} cx="95" cy="243" r="7" />
            <circle class={classes!("knob", "high", (d.valves[1] > 0.0).then_some("open"))} cx="73" cy="243" r="7" />
            <rect class="case" x="210" y="166" width="150" height="48" />
            <path class="cross" d="M402 122L418 138M418 122L402 138" />
            { for places.iter().map(|p| {
                let (way, pipe) = outline(p.surface);
                let feel = p.feel.map_or("gone", |f| touch(f.touch).1);
                html! { <path class={classes!("feel", pipe.then_some("pipe"), feel)} d={way} /> }
            }) }
            <circle class={classes!("clutch", d.clutch.then_some("in"))} cx="60" cy="130" r="9" />
            { for d.stains.iter().map(|(_, part)| {
                let (x, y) = stained(*part);
                html! { <ellipse class="stain" cx={x.to_string()} cy={y.to_string()} rx="9" ry="5" /> }
            }) }
            { for places.iter().enumerate().map(|(i, p)| {
                let (x, y) = at(p.surface);
                let coat = p.feel.map(|f| f.coat).unwrap_or_default();
                html! { <g transform={format!("translate({x} {y})")}>
                    <circle class="number" r="9" /><text y="4" text-anchor="middle">{ i + 1 }</text>
                    { match coat {
                        Coat::Dry => html! {},
                        Coat::Dew => html! { <><circle class="coat" cx="15" cy="-11" r="9" /><path class="dew" d="M11 -14q4 6 0 8q-4 -2 0 -8M19 -9q4 6 0 8q-4 -2 0 -8" /></> },
                        Coat::Frost => html! { <><circle class="coat" cx="15" cy="-11" r="9" /><path class="frost" d="M15 -17V-5M9.8 -14L20.2 -8M20.2 -14L9.8 -8" /></> },
                    } }
                </g> }
            }) }
        </svg>
    }
}

/// What was weighed, in place of the ledger.
pub(crate) fn weighed(w: &Weighed) -> Html {
    let charge = w
        .charge
        .as_ref()
        .map_or_else(|| words::weighed_unknown().to_owned(), ToString::to_string);
    html! {
        <section class="ledger" aria-labelledby="ledger-title">
            <h2 id="ledger-title">{ words::weighed() }</h2>
            { line(words::given(), &w.given.to_string()) }
            { line(words::recovered(), &w.recovered.to_string()) }
            { line(words::weighed_charge(), &charge) }
            { line(words::weighed_label(), &w.label.to_string()) }
            { line(words::record_oil_out(), &w.oil_out.to_string()) }
            { line(words::record_oil_in(), &w.oil_in.to_string()) }
        </section>
    }
}
