//! What is done to the joint, part, port or switch that was pressed in the drawing of parts.
use lowside_present::{
    UnitSystem,
    bench::{
        Flush, Item, Joint, LowPort, OilKind, Part, PartState, Seal, Side, Standing, flushable,
    },
    retrofit::Switches,
    tools::Device,
};
use lowside_session::{Action, BenchAct, HoseAct, VehicleAct};
use lowside_units::{Length, Volume, display};
use yew::{Callback, Html, Properties, component, html, use_state};

use crate::{
    kit::{button, choice, line, slider, switch},
    parts::cloth,
    words,
};

#[derive(Properties, PartialEq)]
pub(crate) struct BenchProps {
    pub(crate) chosen: Item,
    pub(crate) standing: Standing,
    /// The chosen item, if it is a part.
    pub(crate) part: Option<PartState>,
    pub(crate) switches: Switches,
    pub(crate) units: UnitSystem,
    pub(crate) act: Callback<Action>,
}

/// Name of a joint, part, port, or of the switches.
pub(crate) fn name(item: Item) -> String {
    match item {
        Item::Part(p) => words::part(p).to_owned(),
        Item::Joint(j) => words::joint_name(j),
        Item::Port(s) => words::port_name(s).to_owned(),
        Item::Switches => words::switches().to_owned(),
    }
}

/// Seals in the order of the choice.
const SEALS: [Seal; 5] = [
    Seal::NewOiled,
    Seal::NewDry,
    Seal::OldOiled,
    Seal::OldDry,
    Seal::Missing,
];
pub(crate) const OILS: [OilKind; 5] = [
    OilKind::Pag46,
    OilKind::Pag100,
    OilKind::Pag150,
    OilKind::Ester,
    OilKind::Mineral,
];

/// What is done to the chosen item.
#[component]
pub(crate) fn Worktop(p: &BenchProps) -> Html {
    let standing = p.standing;
    let body = match p.chosen {
        Item::Joint(joint) => html! { <JointWork {joint} {standing} act={p.act.clone()} /> },
        Item::Port(side) => html! { <PortWork {side} {standing} act={p.act.clone()} /> },
        Item::Switches => switches(p),
        Item::Part(part) => html! { <PartWork {part} out={standing == Standing::OnBench}
        state={p.part.clone().unwrap_or_default()} units={p.units} act={p.act.clone()} /> },
    };
    html! {
        <div class="worktop">
            <h3>{ name(p.chosen) }<small>{ words::standing_of(standing) }</small></h3>
            { body }
        </div>
    }
}

#[derive(Properties, PartialEq)]
struct JointProps {
    joint: Joint,
    standing: Standing,
    act: Callback<Action>,
}

#[component]
fn JointWork(p: &JointProps) -> Html {
    let seal = use_state(|| 0_usize);
    let seals: Vec<String> = SEALS.map(|s| words::seal(s).to_owned()).to_vec();
    let joint = p.joint;
    let does = |action: Action| {
        let act = p.act.clone();
        move || act.emit(action)
    };
    let apart = matches!(p.standing, Standing::Open | Standing::Capped);
    let with = SEALS[*seal];
    html! {
        <div class="acts hand">
            { icon("M8 20L21 7a6 6 0 0 1 8-5l-4 4 1 4 4 1 4-4a6 6 0 0 1-8 7L13 27a4 4 0 0 1-5-7z") }
            { button(words::do_open(), p.standing != Standing::Open, does(BenchAct::OpenJoint { joint }.into())) }
            { icon("M10 4h20v22a4 4 0 0 1-4 4H14a4 4 0 0 1-4-4zM15 8v16M20 8v16M25 8v16") }
            { button(words::do_cap(), p.standing == Standing::Open, does(BenchAct::CapJoint { joint }.into())) }
            { icon("M20 3a13 13 0 1 0 .1 0zM20 9a7 7 0 1 1-.1 0z") }
            <span class="pair">{ choice("seal", words::with_seal(), &seals, *seal, move |n| seal.set(n.min(SEALS.len() - 1))) }
            { button(words::do_close(), apart, does(BenchAct::CloseJoint { joint, seal: with }.into())) }</span>
            <i></i>
            { button(words::seals_all(), true, does(BenchAct::RenewSeals.into())) }
        </div>
    }
}

/// What the hand takes for it, drawn 40 by 32.
fn icon(path: &'static str) -> Html {
    html! { <svg class="icon" viewBox="0 0 40 32" aria-hidden="true"><path d={path} /></svg> }
}

#[derive(Properties, PartialEq)]
struct PortProps {
    side: Side,
    standing: Standing,
    act: Callback<Action>,
}

#[component]
fn PortWork(p: &PortProps) -> Html {
    let new_core = use_state(|| true);
    let side = p.side;
    let Standing::Port {
        cap,
        core,
        coupled,
        takes_fitting,
        tap,
        ..
    } = p.standing
    else {
        return html! {};
    };
    let (act, act_core, act_fit, act_tap) =
        (p.act.clone(), p.act.clone(), p.act.clone(), p.act.clone());
    let (changed, set) = (*new_core, new_core.clone());
    html! {
        <div class="acts">
            if coupled { <p class="told">{ words::coupler_first() }</p> }
            if let Some(tap) = tap {
                { switch("low-tap", words::low_tap(), words::low_tap_states(), tap == LowPort::Compressor,
                    move |on| act_tap.emit(HoseAct::LowPort { at: if on { LowPort::Compressor } else { LowPort::Accumulator } }.into())) }
            }
            { switch("port-cap", words::port_cap(), words::cap_states(), cap, move |on| act.emit(BenchAct::PortCap { side, on }.into())) }
            { switch("port-core", words::port_core(), [words::port_core_states_off(), words::port_core_states_on()], core,
                move |fitted| act_core.emit(BenchAct::ValveCore { side, fitted }.into())) }
            if let Some(gas) = takes_fitting {
                { switch("old-core", words::old_core(), [words::old_core_states_off(), words::old_core_states_on()], changed,
                    move |on| set.set(on)) }
                { button(words::do_convert(gas), !coupled, move || act_fit.emit(BenchAct::ConvertPort { side, new_core: changed }.into())) }
            }
        </div>
    }
}

fn switches(p: &BenchProps) -> Html {
    let s = &p.switches;
    let does = |action: Action| {
        let act = p.act.clone();
        move || act.emit(action)
    };
    html! {
        <div class="acts">
            { switch_lines(s) }
            { button(words::screw_lower(), true, does(BenchAct::SwitchScrew { quarters: -1 }.into())) }
            { button(words::screw_higher(), true, does(BenchAct::SwitchScrew { quarters: 1 }.into())) }
            { button(words::mend(Device::CyclingSwitch), true, does(VehicleAct::Mend { device: Device::CyclingSwitch }.into())) }
            if s.cut_out.is_none() {
                { button(words::do_cut_out(&s.kit.1), true, does(BenchAct::FitCutOut { opens: s.kit.0 }.into())) }
            }
        </div>
    }
}

/// Where the switches open.
fn switch_lines(s: &Switches) -> Html {
    let cut_out = s
        .cut_out
        .as_ref()
        .map_or_else(|| words::record_none().to_owned(), ToString::to_string);
    html! { <>
        { line(words::low_switch(), &s.cycling[0].to_string()) }
        { line(words::cut_out(), &cut_out) }
    </> }
}

#[derive(Properties, PartialEq)]
struct PartProps {
    part: Part,
    out: bool,
    state: PartState,
    units: UnitSystem,
    act: Callback<Action>,
}

#[component]
fn PartWork(p: &PartProps) -> Html {
    let amount = use_state(|| 60.0_f64);
    let kind = use_state(|| 0_usize);
    let part = p.part;
    let does = |action: Action| {
        let act = p.act.clone();
        move || act.emit(action)
    };
    let free = p.state.held_by.is_empty();
    let held: Vec<String> = p
        .state
        .held_by
        .iter()
        .map(|j| words::joint_name(*j))
        .collect();
    let oils: Vec<String> = OILS.map(|o| words::oil_name(o).to_owned()).to_vec();
    let volume = Volume::from_cm3(*amount);
    let oil = OILS[*kind];
    let text = display::volume(volume, p.units).to_string();
    let set_amount = amount.clone();
    let measured = |x: &Option<display::Shown>| {
        x.as_ref()
            .map_or_else(|| "\u{2014}".to_owned(), ToString::to_string)
    };
    html! { <>
        if !free { <p class="told">{ words::held_by(held.join("; ")) }</p> }
        <h4>{ words::what_is_seen() }</h4>
        if p.state.seen.is_empty() {
            <p class="told">{ words::shut_unseen() }</p>
        } else {
            <div class="look">{ cloth::seen(part, &p.state.seen) }
            <ul class="seen">{ for p.state.seen.iter().map(|s| html! { <li>{ words::sight(s) }</li> }) }</ul></div>
        }
        <div class="acts">
            { button(words::do_remove(), free && !p.out, does(BenchAct::RemovePart { part }.into())) }
            { button(words::do_refit(), free && p.out, does(BenchAct::RefitPart { part }.into())) }
            { button(words::do_new(), p.out, does(BenchAct::NewPart { part }.into())) }
            if part != Part::Orifice {
                { button(words::do_drain(), p.out, does(BenchAct::DrainPart { part }.into())) }
                { slider("pour", words::amount(), [5.0, 300.0, 5.0, *amount], &text, move |v| set_amount.set(v)) }
                { choice("oil-kind", words::oil_kind(), &oils, *kind, move |n| kind.set(n.min(OILS.len() - 1))) }
                { button(words::do_pour(), p.out, does(BenchAct::PourOil { part, volume, oil }.into())) }
                { line(words::drained(), &measured(&p.state.drained)) }
                { line(words::poured(), &measured(&p.state.poured)) }
            }
            if flushable(part) {
                { button(words::do_flush(), p.out, does(BenchAct::FlushPart { part, with: Flush::Solvent }.into())) }
                { button(words::do_blow(), p.out, does(BenchAct::FlushPart { part, with: Flush::Nitrogen }.into())) }
            }
            { line(words::renewed(), &p.state.renewed.to_string()) }
        </div>
        if part == Part::Orifice { <OrificeWork can={free && p.out} units={p.units} act={p.act.clone()} /> }
        else { <p class="told">{ words::worksheet_note() }</p> }
    </> }
}

#[derive(Properties, PartialEq)]
struct OrificeProps {
    can: bool,
    units: UnitSystem,
    act: Callback<Action>,
}

/// How an orifice tube is pushed in: bore, way round, O-rings.
#[component]
fn OrificeWork(p: &OrificeProps) -> Html {
    let bore = use_state(|| 1.7_f64);
    let turned = use_state(|| false);
    let rings = use_state(|| true);
    let action = BenchAct::FitOrifice {
        bore: Length::from_mm(*bore),
        reversed: *turned,
        rings: *rings,
    };
    let act = p.act.clone();
    let text = display::length(Length::from_mm(*bore), p.units).to_string();
    let (set_bore, set_turned, set_rings) = (bore.clone(), turned.clone(), rings.clone());
    html! {
        <div class="acts">
            { slider("bore", words::bore(), [0.8, 3.0, 0.05, *bore], &text, move |v| set_bore.set(v)) }
            { switch("turned", words::turned(), [words::turned_states_off(), words::turned_states_on()], *turned, move |on| set_turned.set(on)) }
            { switch("rings", words::rings(), [words::rings_states_off(), words::rings_states_on()], *rings, move |on| set_rings.set(on)) }
            { button(words::do_fit_orifice(), p.can, move || act.emit(action.into())) }
        </div>
    }
}
