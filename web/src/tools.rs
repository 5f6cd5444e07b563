//! The service hose and the instruments beside it: what hangs there, its controls, identifier, leak search, clamp, notes.
use lowside_present::{
    UnitSystem,
    record::{Line, Particulars, written},
    retrofit::Charge,
    tools::{Device, Hung, Protection, Refrigerant, Sample, Tool, Tools, move_vacuum_gauge},
};
use lowside_session::{
    Action, BenchAct, HoseAct, InstrumentAct, LearnerAct, MachineAct, RecordAct, VehicleAct,
    VesselAct,
};
use lowside_units::{
    GaugePressure, Mass, Volume,
    display::{self, Shown},
};
use yew::{
    Callback, Html, Properties, UseStateHandle, component, html, use_force_update, use_mut_ref,
    use_state,
};

use crate::{
    bench::OILS,
    kit::{button, choice, field, fold, line, slider, switch},
    words,
};

#[derive(Properties, PartialEq)]
pub(crate) struct ToolsProps {
    pub(crate) tools: Tools,
    pub(crate) takes: Vec<(Tool, Action)>,
    pub(crate) units: UnitSystem,
    pub(crate) act: Callback<Action>,
}

/// The charge of a conversion, by the rule of the trade.
fn conversion(c: &Charge) -> String {
    let ([least, most], [low, high]) = (&c.range, &c.shares);
    let (low, high) = (&low.number, &high.number);
    words::conversion_charge(least, most, c.to, low, high, &c.label, c.from)
}

/// What hangs on the service hose: chosen here, one thing at a time, and only its controls.
#[component]
pub(crate) fn HoseTools(p: &ToolsProps) -> Html {
    let picked = use_state(|| 0_usize);
    let dose = use_state(|| None::<f64>);
    let names: Vec<String> = p
        .takes
        .iter()
        .map(|(t, _)| words::tool(*t, &p.tools, p.units))
        .collect();
    let connect = {
        let act = p.act.clone();
        let take = p.takes.get(*picked).map(|(_, a)| *a);
        move || {
            if let Some(take) = take {
                act.emit(take);
            }
        }
    };
    let does = |action: Action| {
        let act = p.act.clone();
        move || act.emit(action)
    };
    html! {
        <div class="tools">
            if let Some(c) = &p.tools.conversion {
                { switch("gauge-set", words::gauge_set_for(), [c.from, c.to].map(Refrigerant::name), p.tools.hoses == c.to, {
                    let (act, from, to) = (p.act.clone(), c.from, c.to);
                    move |on| act.emit(HoseAct::GaugeSet { gas: if on { to } else { from } }.into())
                }) }
                <p class="told">{ conversion(c) }</p>
            }
            <span class="connect">
                { choice("hose-tool", words::hose_tool(), &names, *picked, move |n| picked.set(n)) }
                { button(words::hose_connect(), true, connect) }
                if p.tools.hung != Hung::Nothing && p.tools.hung != Hung::Can {
                    { button(words::hose_free(), true, does(HoseAct::Disconnect.into())) }
                }
            </span>
            { hung(p, &dose) }
        </div>
    }
}

fn hung(p: &ToolsProps, dose: &UseStateHandle<Option<f64>>) -> Html {
    let flag = |make: fn(bool) -> Action| {
        let act = p.act.clone();
        move |on| act.emit(make(on))
    };
    let number = |make: fn(f64) -> Action| {
        let act = p.act.clone();
        move |v| act.emit(make(v))
    };
    let does = |action: Action| {
        let act = p.act.clone();
        move || act.emit(action)
    };
    let shown = Shown::to_string;
    match &p.tools.hung {
        Hung::Nothing | Hung::Can => html! {},
        Hung::Pump {
            on,
            valve,
            ballast,
            oil,
            ..
        } => html! { <>
            { switch("pump-run", words::pump_run(), words::machine_states(), *on, flag(|on| MachineAct::Pump { on }.into())) }
            { switch("pump-valve", words::pump_valve(), words::tap_states(), *valve, flag(|on| MachineAct::Isolation { on }.into())) }
            { switch("pump-ballast", words::pump_ballast(), words::tap_states(), *ballast, flag(|on| MachineAct::Ballast { on }.into())) }
            { switch("gauge-place", words::gauge_place(), [words::gauge_place_states_off(), words::gauge_place_states_on()],
                p.tools.vacuum_at_loop, { let act = p.act.clone(); move |on| act.emit(move_vacuum_gauge(on)) }) }
            { line(words::pump_oil(), words::pump_oil_look(*oil)) }
            if !*on { { button(words::pump_change_oil(), true, does(MachineAct::PumpOil.into())) } }
        </> },
        Hung::Machine {
            on,
            stop,
            recovered,
            full,
            oil,
        } => html! { <>
            { switch("machine-run", words::machine_run(), words::machine_states(), *on, flag(|on| MachineAct::RecoveryMachine { on }.into())) }
            { slider("machine-stop", words::machine_stop(), [-90.0, -5.0, 1.0, stop.value], &shown(&stop.shown),
                number(|v| MachineAct::RecoveryStop { pressure: GaugePressure::from_kpa(v) }.into())) }
            { line(words::recovered(), &shown(recovered)) }
            { line(words::cylinder_full(), &shown(full)) }
            { line(words::separator_oil(), &shown(oil)) }
            { button(words::machine_new_cylinder(), true, does(MachineAct::ChangeCylinder { holds: Mass::from_g(0.0) }.into())) }
        </> },
        Hung::Cylinder {
            open,
            liquid,
            dose: left,
            holds,
        } => {
            let set = dose.clone();
            let grams = dose.unwrap_or(p.tools.label_g);
            let mass = Mass::from_g(grams);
            html! { <>
                { switch("cylinder-valve", words::cylinder_valve(), words::tap_states(), *open, flag(|on| VesselAct::Tap { on }.into())) }
                { switch("cylinder-way", words::cylinder_way(), [words::cylinder_way_states_off(), words::cylinder_way_states_on()],
                    *liquid, flag(|on| VesselAct::Invert { on }.into())) }
                { slider("dose", words::dose(), [10.0, 1600.0, 5.0, grams], &shown(&display::mass(mass, p.units)), move |v| set.set(Some(v))) }
                { button(words::dose_give(), true, does(VesselAct::Dose { mass }.into())) }
                { line(words::dose_left(), &left.as_ref().map_or_else(|| "\u{2014}".to_owned(), shown)) }
                { line(words::cylinder_holds(), &shown(holds)) }
                { button(words::scale_zero(), true, does(InstrumentAct::ZeroScale.into())) }
            </> }
        }
        Hung::Nitrogen { open, set } => html! { <>
            { switch("nitrogen-valve", words::cylinder_valve(), words::tap_states(), *open, flag(|on| VesselAct::Tap { on }.into())) }
            { slider("regulator", words::regulator(), [0.0, 1030.0, 10.0, set.value], &shown(&set.shown),
                number(|v| VesselAct::Regulator { pressure: GaugePressure::from_kpa(v) }.into())) }
        </> },
    }
}

/// Instruments and notes, folded away until wanted.
#[component]
pub(crate) fn Instruments(p: &ToolsProps) -> Html {
    let open = use_state(|| false);
    let turn = {
        let open = open.clone();
        move || open.set(!*open)
    };
    let content = || instruments(p);
    html! { <div id="instruments" class="instruments">{ fold("instruments-title", "instruments", words::instruments(), *open, turn, content) }</div> }
}

/// What is worn.
fn wear(p: &ToolsProps) -> Html {
    let worn = p.tools.worn;
    html! {
        <fieldset class="group wear">
                <legend>{ words::wear() }</legend>
                { for [(Protection::Goggles, worn.goggles), (Protection::Gloves, worn.gloves)].map(|(what, on)| {
                    let act = p.act.clone();
                    let (id, name) = words::protection(what);
                    switch(id, name, words::worn_states(), on, move |on| act.emit(LearnerAct::Wear { what, on }.into()))
                }) }
            </fieldset>
    }
}

/// What the identifier shows.
fn sample(t: &Tools) -> String {
    match &t.sample {
        Sample::None => words::identify_none().to_owned(),
        Sample::Working(left) => words::identify_working(&left.number),
        Sample::Result { gases, air, pure } => {
            let there: Vec<_> = gases.iter().filter(|(_, x)| x.number != "0.0").collect();
            if let (true, [(gas, share), ..]) = (*pure, there.as_slice()) {
                words::identify_pure(gas, share, air)
            } else {
                let all: Vec<String> = there.iter().map(|(g, x)| format!("{g} {x}")).collect();
                words::identify_mixed(all.join(", "), air)
            }
        }
    }
}

/// What was found where, as far as it was searched.
fn found(t: &Tools) -> String {
    let told: Vec<String> = words::searched_places(t).collect();
    if told.is_empty() {
        words::search_none().to_owned()
    } else {
        told.join("; ")
    }
}

fn instruments(p: &ToolsProps) -> Html {
    let t = &p.tools;
    let does = |action: Action| {
        let act = p.act.clone();
        move || act.emit(action)
    };
    let squirt = Volume::from_cm3(30.0);
    let noted = |i: usize, name: &str| {
        if t.noted[i] {
            format!("{name} \u{2713}")
        } else {
            name.to_owned()
        }
    };
    html! { <>
            { wear(p) }
            <p class="told">{ words::picked_up_in_parts() }</p>
            <fieldset class="group">
                <legend>{ words::identifier() }</legend>
                <p class="told">{ sample(t) }</p>
            </fieldset>
            <fieldset class="group">
                <legend>{ words::search() }</legend>
                <p class="told">{ found(t) }</p>
                if !t.dye { { button(words::dye(), true, does(InstrumentAct::Dye.into())) } }
            </fieldset>
            { meters(p) }
            <fieldset class="group">
                <legend>{ words::record() }</legend>
                { button(noted(0, words::note_before()), true, does(RecordAct::NoteReadings { after: false }.into())) }
                { button(noted(1, words::note_after()), true, does(RecordAct::NoteReadings { after: true }.into())) }
                { button(words::inject_oil(display::volume(squirt, p.units)), true,
                    does(BenchAct::InjectOil { volume: squirt, oil: t.hoses.data().oil.into() }.into())) }
            </fieldset>
            <NewLabel tools={t.clone()} units={p.units} act={p.act.clone()} />
    </> }
}

/// Thermometer, glass, meters and stopwatch, and what can be put right beside them.
fn meters(p: &ToolsProps) -> Html {
    let t = &p.tools;
    let does = |action: Action| {
        let act = p.act.clone();
        move || act.emit(action)
    };
    html! {
            <fieldset class="group">
                <legend>{ words::clamp() }</legend>
                { line(words::clamp(), &t.clamp.as_ref().map_or_else(|| "\u{2014}".to_owned(), |(_, x)| x.to_string())) }
                { line(words::sight_glass(), words::glass(t.glass)) }
                { line(words::anemometer(), &t.air[0].to_string()) }
                { line(words::hygrometer(), &t.air[1].to_string()) }
                if let Some([volts, amperes]) = &t.clutch { { line(words::clutch(), &format!("{volts}, {amperes}")) } }
                { line(words::clutch_hub(), &t.turning[0].to_string()) }
                { line(words::pulley(), &t.turning[1].to_string()) }
                <details><summary>{ words::try_out() }</summary>
                    { switch("heater-hose", words::heater_hose(), [words::no(), words::yes()], t.heater_pinched, {
                        let act = p.act.clone();
                        move |pinched| act.emit(VehicleAct::HeaterHose { pinched }.into())
                    }) }
                    { switch("cover-condenser", words::cover_condenser(), [words::no(), words::yes()], t.face_covered, {
                        let act = p.act.clone();
                        move |on| act.emit(VehicleAct::CoverCondenser { on }.into())
                    }) }
                    { button(words::mist_condenser(), true, does(VehicleAct::MistCondenser.into())) }
                    { button(words::warm_orifice(), true, does(VehicleAct::WarmOrifice.into())) }
                </details>
                <details><summary>{ words::put_right() }</summary>
                    { for Device::ALL.map(|device| button(words::mend(device), true, does(VehicleAct::Mend { device }.into()))) }
                </details>
                { line(words::stopwatch(), &t.stopwatch.1.number) }
                { button(if t.stopwatch.0 { words::stopwatch_stop() } else { words::stopwatch_start() }, true,
                    does(InstrumentAct::Stopwatch { on: !t.stopwatch.0 }.into())) }
            </fieldset>
    }
}

#[derive(Properties, PartialEq)]
struct LabelProps {
    tools: Tools,
    units: UnitSystem,
    act: Callback<Action>,
}

/// The label that is left under the hood: gas, amount, oil, and what a conversion's says besides.
#[component]
fn NewLabel(p: &LabelProps) -> Html {
    let grams = use_state(|| None::<f64>);
    let oil = use_state(|| 0_usize);
    // What is typed is held at once: a state that is set later would draw an older text over it.
    let rest = use_mut_ref(Particulars::default);
    let redraw = use_force_update();
    let gas = p.tools.hoses;
    let charge = Mass::from_g(grams.unwrap_or(p.tools.label_g));
    let kind = OILS[*oil];
    let oils: Vec<String> = OILS.map(|o| words::oil_name(o).to_owned()).to_vec();
    let text = display::mass(charge, p.units).to_string();
    let what = format!("{gas}, {text}, {}", oils[*oil]);
    let missing: Vec<String> = p
        .tools
        .label_lacks
        .iter()
        .map(|b| words::lacks(*b))
        .collect();
    let mark = if p.tools.labelled { " \u{2713}" } else { "" };
    let converted = p.tools.conversion.as_ref().is_some_and(|c| c.to == gas);
    let now = *rest.borrow();
    let set = |by: fn(&mut Particulars, String)| {
        let rest = rest.clone();
        move |text| by(&mut rest.borrow_mut(), text)
    };
    let covered = {
        let (rest, redraw) = (rest.clone(), redraw.clone());
        move |on| {
            rest.borrow_mut().old_covered = on;
            redraw.force_update();
        }
    };
    let put_in = {
        let rest = rest.clone();
        move |ml| {
            rest.borrow_mut().oil_volume = Some(Volume::from_cm3(ml));
            redraw.force_update();
        }
    };
    let volume = now.oil_volume.unwrap_or(Volume::from_cm3(0.0));
    let name = words::label_line;
    let act = p.act.clone();
    html! {
        <fieldset class="group">
            <legend>{ words::new_label() }</legend>
            { slider("label-charge", words::amount(), [50.0, 2000.0, 5.0, charge.g()], &text, move |v| grams.set(Some(v))) }
            { choice("label-oil", words::oil_kind(), &oils, *oil, move |n| oil.set(n.min(OILS.len() - 1))) }
            if converted {
                { slider("label-oil-volume", name(Line::OilVolume), [0.0, 500.0, 5.0, volume.cm3()],
                    &display::volume(volume, p.units).to_string(), put_in) }
                { field(name(Line::OilMaker), "text", &now.oil_maker, set(|l, text| l.oil_maker = written(&text))) }
                { field(name(Line::Technician), "text", &now.technician, set(|l, text| l.technician = written(&text))) }
                { field(name(Line::Shop), "text", &now.shop, set(|l, text| l.shop = written(&text))) }
                { field(name(Line::Date), "date", &now.date.map_or_else(String::new, |d| d.to_string()), set(|l, text| l.date = text.parse().ok())) }
                { switch("label-covers", name(Line::OldCovered), [words::no(), words::yes()], now.old_covered, covered) }
            }
            if !p.tools.label_lacks.is_empty() {
                { line(words::record_lacks(), &missing.join(", ")) }
            }
            { button(words::label_write(what) + mark, true, move || {
                let particulars = if converted { *rest.borrow() } else { Particulars::default() };
                act.emit(RecordAct::Label { charge, gas: Some(gas), oil: Some(kind), particulars }.into());
            }) }
        </fieldset>
    }
}
