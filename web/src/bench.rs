//! What is done to the joint, part, port or switch that was pressed in the drawing of parts.
use lowside_present::{
    UnitSystem,
    bench::{
        Fixings, Flush, Item, Joint, JointTool, Lead, LowPort, OilKind, Part, PartState, Plug,
        Seal, Side, Standing, flushable,
    },
    retrofit::Switches,
    tools::Device,
};
use lowside_session::{Action, BenchAct, FixingAct, HoseAct, VehicleAct};
use lowside_units::{Length, Volume, display};
use web_sys::HtmlElement;
use yew::{
    Callback, Html, KeyboardEvent, MouseEvent, Properties, component, html, use_effect_with,
    use_node_ref, use_state,
};

use crate::{
    kit::{button, choice, line, slider, switch},
    parts::{SIZE, cloth},
    words,
};

#[derive(Properties, PartialEq)]
pub(crate) struct BenchProps {
    pub(crate) chosen: Item,
    /// Where it is in the drawing.
    pub(crate) at: (f64, f64),
    pub(crate) standing: Standing,
    /// The chosen item, if it is a part.
    pub(crate) part: Option<PartState>,
    pub(crate) switches: Switches,
    pub(crate) fixings: Fixings,
    /// Volts and amperes at the clutch's plug, while the meter is connected.
    pub(crate) clutch: Option<[display::Shown; 2]>,
    pub(crate) units: UnitSystem,
    pub(crate) leave: Callback<()>,
    pub(crate) act: Callback<Action>,
}

/// Name of a joint, part, port, or of the switches.
pub(crate) fn name(item: Item) -> String {
    match item {
        Item::Part(p) => words::part(p).to_owned(),
        Item::Joint(j) => words::joint_name(j),
        Item::Port(s) => words::port_name(s).to_owned(),
        Item::Switch(side) => words::switch_name(side).to_owned(),
        Item::Drive => words::drive().to_owned(),
        Item::Battery => words::battery_box().to_owned(),
    }
}

/// Room between a place and the work beside it, % of the drawing.
const GAP: f64 = 4.0;

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
        Item::Joint(joint) => {
            html! { <JointWork {joint} {standing} tool={p.fixings.tool} act={p.act.clone()} /> }
        }
        Item::Port(side) => html! { <PortWork {side} {standing} act={p.act.clone()} /> },
        Item::Switch(side) => switch_work(p, side),
        Item::Drive => drive(p),
        Item::Battery => battery(p),
        Item::Part(part) => html! { <PartWork {part} out={standing == Standing::OnBench}
        state={p.part.clone().unwrap_or_default()} units={p.units} act={p.act.clone()} /> },
    };
    let here = use_node_ref();
    use_effect_with((p.at, here.clone()), |(at, here)| {
        if let Some(here) = here.cast::<HtmlElement>() {
            beside(*at, &here);
        }
    });
    let leave = p.leave.clone();
    let by_key = leave.clone();
    let shut = Callback::from(move |_: MouseEvent| leave.emit(()));
    let escape = Callback::from(move |e: KeyboardEvent| {
        if e.key() == "Escape" {
            by_key.emit(());
        }
    });
    html! {
        <div class="worktop" ref={here} onkeydown={escape}>
            <h3>{ name(p.chosen) }<small>{ words::standing_of(standing) }</small>
                <button type="button" onclick={shut} aria-label={words::named(words::work_away(), &name(p.chosen))}>{ "\u{d7}" }</button></h3>
            { body }
        </div>
    }
}

/// Puts the work beside its place: to the right of what lies left, to the left of what lies right, and always within the drawing.
fn beside((x, y): (f64, f64), here: &HtmlElement) {
    let (x, y) = (100.0 * x / SIZE.0, 100.0 * y / SIZE.1);
    let top = 0.4 * y;
    let (side, other, far) = if x < 50.0 {
        ("left", "right", x)
    } else {
        ("right", "left", 100.0 - x)
    };
    let style = here.style();
    // A browser that knows none of these lays it out as it likes: it can be used all the same.
    for (name, value) in [
        (side, format!("{:.1}%", far + GAP)),
        (other, "auto".to_owned()),
        ("top", format!("{top:.1}%")),
        ("max-height", format!("{:.1}%", 99.0 - top)),
    ] {
        drop(style.set_property(name, &value));
    }
}

#[derive(Properties, PartialEq)]
struct JointProps {
    joint: Joint,
    standing: Standing,
    tool: JointTool,
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
    // A cap comes off by hand.
    let capped = p.standing == Standing::Capped;
    let can_open = capped || (p.standing != Standing::Open && p.tool != JointTool::Fitting);
    html! {
        <div class="acts hand">
            { icon("M8 20L21 7a6 6 0 0 1 8-5l-4 4 1 4 4 1 4-4a6 6 0 0 1-8 7L13 27a4 4 0 0 1-5-7z") }
            <span class="pair" role="group" aria-label={words::in_hand()}>
                { for [JointTool::Wrenches, JointTool::SpringLock].map(|tool| take(p, tool)) }
            </span>
            if !apart && joint.has_spring_lock() { <i></i><p class="told">{ words::tool_needed() }</p> }
            <i></i>
            { button(words::do_open(), can_open, does(BenchAct::OpenJoint { joint }.into())) }
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

/// A tool to take in hand; it stays there from joint to joint.
fn take(p: &JointProps, tool: JointTool) -> Html {
    let (act, on) = (p.act.clone(), p.tool == tool);
    let press = Callback::from(move |_: MouseEvent| act.emit(FixingAct::JointTool { tool }.into()));
    html! { <button type="button" class="plain" aria-pressed={on.to_string()} onclick={press}>{ words::joint_tool(tool) }</button> }
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

/// A pressure switch: where it opens, its plug, what a meter says at its pins, and its screw.
fn switch_work(p: &BenchProps, side: Side) -> Html {
    let s = &p.switches;
    let does = |action: Action| {
        let act = p.act.clone();
        move || act.emit(action)
    };
    let device = Device::CyclingSwitch;
    match (side, &s.cut_out) {
        (Side::Low, _) => html! {
            <div class="acts">
                { line(words::low_switch(), &s.cycling[0].to_string()) }
                { plug(p, Lead::LowSwitch, &[Plug::On, Plug::Off, Plug::Bridged]) }
                { button(words::screw_lower(), true, does(BenchAct::SwitchScrew { quarters: -1 }.into())) }
                { button(words::screw_higher(), true, does(BenchAct::SwitchScrew { quarters: 1 }.into())) }
                { button(words::mend(device), true, does(VehicleAct::Mend { device }.into())) }
            </div>
        },
        (Side::High, Some(opens)) => html! {
            <div class="acts">
                { line(words::cut_out(), &opens.to_string()) }
                { plug(p, Lead::CutOut, &[Plug::On, Plug::Off]) }
            </div>
        },
        (Side::High, None) => html! {
            <div class="acts">
                { button(words::do_cut_out(&s.kit.1), true, does(BenchAct::FitCutOut { opens: s.kit.0 }.into())) }
            </div>
        },
    }
}

/// A plug as it is and can be, and what a meter says behind it.
fn plug(p: &BenchProps, at: Lead, states: &'static [Plug]) -> Html {
    let f = &p.fixings;
    let now = f.loose.plug(at);
    let names: Vec<String> = states
        .iter()
        .map(|s| words::plug_state(*s).to_owned())
        .collect();
    let place = states.iter().position(|s| *s == now).unwrap_or(0);
    let act = p.act.clone();
    let set = move |n: usize| {
        let state = states.get(n).copied().unwrap_or_default();
        act.emit(FixingAct::Plug { at, state }.into());
    };
    let contact = match at {
        Lead::Clutch => None,
        Lead::LowSwitch => f.contacts[0],
        Lead::CutOut => f.contacts[1],
    };
    html! { <>
        { choice("plug", words::plug_name(at), &names, place, set) }
        if let Some(closed) = contact {
            { line(words::at_its_pins(), if closed { words::contact_closed() } else { words::contact_open() }) }
        }
    </> }
}

/// The clutch's plug, the belt, the hub.
fn drive(p: &BenchProps) -> Html {
    let f = &p.fixings;
    let (act, turn) = (p.act.clone(), p.act.clone());
    html! {
        <div class="acts">
            { plug(p, Lead::Clutch, &[Plug::On, Plug::Off]) }
            if let Some([volts, amperes]) = &p.clutch { { line(words::meter(), &format!("{volts}, {amperes}")) } }
            { switch("belt", words::belt(), words::belt_states(), !f.loose.belt, move |on| act.emit(FixingAct::Belt { on }.into())) }
            { button(words::turn_hub(), f.by_hand.is_none(), move || turn.emit(FixingAct::TurnHub.into())) }
            if let Some(left) = &f.by_hand { <p class="told">{ words::turning_hub(left) }</p> }
        </div>
    }
}

/// The battery's lead.
fn battery(p: &BenchProps) -> Html {
    let act = p.act.clone();
    html! {
        <div class="acts">
            { switch("battery", words::battery(), words::battery_states(), !p.fixings.loose.battery,
                move |on| act.emit(FixingAct::Battery { on }.into())) }
        </div>
    }
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
    let loose = free && p.state.still_on.is_empty();
    let bare = p.state.bare;
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
        if !free && !p.out { <p class="told">{ words::held_by(held.join("; ")) }</p> }
        if !p.out && !p.state.still_on.is_empty() { <p class="told">{ words::still_on_it(&p.state.still_on) }</p> }
        <h4>{ words::what_is_seen() }</h4>
        if p.state.seen.is_empty() {
            <p class="told">{ words::shut_unseen() }</p>
        } else {
            <div class="look">{ cloth::seen(part, &p.state.seen) }
            <ul class="seen">{ for p.state.seen.iter().map(|s| html! { <li>{ words::sight(s) }</li> }) }</ul></div>
        }
        <div class="acts">
            if p.out {
                if part != Part::Orifice { { caps(p) } }
                { button(words::do_refit(), free, does(BenchAct::RefitPart { part }.into())) }
                { button(words::do_new(), true, does(BenchAct::NewPart { part }.into())) }
                if part != Part::Orifice {
                    { button(words::do_drain(), bare, does(BenchAct::DrainPart { part }.into())) }
                    { slider("pour", words::amount(), [5.0, 300.0, 5.0, *amount], &text, move |v| set_amount.set(v)) }
                    { choice("oil-kind", words::oil_kind(), &oils, *kind, move |n| kind.set(n.min(OILS.len() - 1))) }
                    { button(words::do_pour(), bare, does(BenchAct::PourOil { part, volume, oil }.into())) }
                }
                if flushable(part) {
                    { button(words::do_flush(), bare, does(BenchAct::FlushPart { part, with: Flush::Solvent }.into())) }
                    { button(words::do_blow(), bare, does(BenchAct::FlushPart { part, with: Flush::Nitrogen }.into())) }
                }
            } else {
                { bolts(p) }
                { button(words::do_remove(), loose, does(BenchAct::RemovePart { part }.into())) }
            }
            if part != Part::Orifice {
                { line(words::drained(), &measured(&p.state.drained)) }
                { line(words::poured(), &measured(&p.state.poured)) }
            }
            { line(words::renewed(), &p.state.renewed.to_string()) }
        </div>
        if part == Part::Orifice && p.out { <OrificeWork can={free} units={p.units} act={p.act.clone()} /> }
        else if p.out { <p class="told">{ words::worksheet_note() }</p> }
    </> }
}

/// What bolts a part down, if anything does.
fn bolts(p: &PartProps) -> Html {
    let (act, part) = (p.act.clone(), p.part);
    html! {
        if let Some(out) = p.state.unbolted {
            { switch("bolts", words::bolts(), words::bolts_states(), !out, move |on| act.emit(FixingAct::Bolts { part, on }.into())) }
        }
    }
}

/// The caps of a part on the bench.
fn caps(p: &PartProps) -> Html {
    let (act, part) = (p.act.clone(), p.part);
    html! {
        { switch("part-caps", words::part_caps(), words::part_caps_states(), !p.state.bare,
            move |on| act.emit(FixingAct::PartCaps { part, on }.into())) }
    }
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
