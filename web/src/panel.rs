//! The controls: gauge set, can, vehicle. Each control has its one home here, beside the drawing.
use lowside_present::controls::{Control, Controls};
use lowside_session::Action;
use lowside_units::{Ratio, RotationSpeed, Speed, Temperature};
use wasm_bindgen::JsCast;
use yew::{
    Callback, Event, Html, InputEvent, MouseEvent, Properties, TargetCast, classes, component, html,
};

use crate::words;

/// Id of a control's element, by which "show me" finds it.
pub(crate) fn id(control: Control) -> String {
    format!("control-{control:?}").to_lowercase()
}

#[derive(Properties, PartialEq)]
pub(crate) struct PanelProps {
    pub(crate) controls: Controls,
    pub(crate) needed: Option<Control>,
    pub(crate) act: Callback<Action>,
    /// What hangs on the service hose.
    pub(crate) hose: Html,
    /// Instruments beside it.
    pub(crate) instruments: Html,
    /// Something other than a can hangs there.
    pub(crate) no_can: bool,
}

#[derive(Properties, PartialEq)]
struct SwitchProps {
    control: Control,
    needed: bool,
    on: bool,
    label: &'static str,
    /// What it says when off and on.
    states: [&'static str; 2],
    #[prop_or_default]
    dot: &'static str,
    #[prop_or_default]
    disabled: bool,
    toggle: Callback<bool>,
}

/// A control with two states.
#[component]
fn Switch(p: &SwitchProps) -> Html {
    let (on, toggle) = (p.on, p.toggle.clone());
    let click = Callback::from(move |_: MouseEvent| toggle.emit(!on));
    html! {
        <button type="button" id={id(p.control)} role="switch" aria-checked={on.to_string()} disabled={p.disabled}
            class={classes!("switch", p.needed.then_some("needed"))} onclick={click}>
            <span class={classes!("name", p.dot)}>{ p.label }</span>
            <span class="state" aria-hidden="true">{ p.states[usize::from(on)] }</span>
        </button>
    }
}

#[derive(Properties, PartialEq)]
struct SliderProps {
    control: Control,
    needed: bool,
    label: &'static str,
    #[prop_or_default]
    dot: &'static str,
    value: f64,
    text: String,
    least: f64,
    most: f64,
    step: f64,
    #[prop_or_default]
    disabled: bool,
    set: Callback<f64>,
}

/// A control with a range.
#[component]
fn Slider(p: &SliderProps) -> Html {
    let set = p.set.clone();
    let input = Callback::from(move |e: InputEvent| {
        if let Some(field) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            let value = field.value_as_number();
            if value.is_finite() {
                set.emit(value);
            }
        }
    });
    let name = id(p.control);
    html! {
        <div class={classes!("slider", p.needed.then_some("needed"))}>
            <label for={name.clone()} class={classes!("name", p.dot)}>{ p.label }</label>
            <output class="state" for={name.clone()} aria-live="off">{ &p.text }</output>
            <input type="range" id={name} min={p.least.to_string()} max={p.most.to_string()} step={p.step.to_string()}
                value={p.value.to_string()} aria-valuetext={p.text.clone()} disabled={p.disabled} oninput={input} />
        </div>
    }
}

#[derive(Properties, PartialEq)]
struct ValveProps {
    control: Control,
    needed: bool,
    label: &'static str,
    dot: &'static str,
    value: u8,
    set: Callback<f64>,
}

/// A hand valve: a range from shut to open, with a button for either end.
#[component]
fn Valve(p: &ValveProps) -> Html {
    let text = match p.value {
        0 => words::tap_states()[0].to_owned(),
        100 => words::tap_states()[1].to_owned(),
        n => format!("{n} %"),
    };
    let to = |value: f64| {
        let set = p.set.clone();
        Callback::from(move |_: MouseEvent| set.emit(value))
    };
    html! {
        <div class={classes!("valve", p.needed.then_some("needed"))}>
            <Slider control={p.control} needed={false} label={p.label} dot={p.dot} value={f64::from(p.value)} {text}
                least={0.0} most={100.0} step={5.0} set={p.set.clone()} />
            <span class="ends">
                <button type="button" aria-label={words::named(p.label, words::shut())} onclick={to(0.0)} disabled={p.value == 0}>{ words::shut() }</button>
                <button type="button" aria-label={words::named(p.label, words::open())} onclick={to(100.0)} disabled={p.value == 100}>{ words::open() }</button>
            </span>
        </div>
    }
}

/// All controls.
#[component]
pub(crate) fn Panel(p: &PanelProps) -> Html {
    let c = &p.controls;
    let needs = |control| p.needed == Some(control);
    let flag = |make: fn(bool) -> Action| {
        let act = p.act.clone();
        Callback::from(move |on| act.emit(make(on)))
    };
    let number = |make: fn(f64) -> Action| {
        let act = p.act.clone();
        Callback::from(move |v| act.emit(make(v)))
    };
    html! {
        <section class="panel" aria-labelledby="controls-title">
            <h2 id="controls-title" class="unseen">{ words::controls() }</h2>
            <fieldset class="group">
                <legend>{ words::gauge_set() }</legend>
                <Switch control={Control::LowCoupler} needed={needs(Control::LowCoupler)} label={words::low_coupler()} dot="low"
                    on={c.low_coupled} states={words::coupler_states()} toggle={flag(|on| Action::LowCoupler { on })} />
                <Valve control={Control::LowValve} needed={needs(Control::LowValve)} label={words::low_valve()} dot="low" value={c.low_valve}
                    set={number(|v| Action::LowValve { open: Ratio::from_percent(v) })} />
                <Switch control={Control::Purge} needed={needs(Control::Purge)} label={words::purge()} dot="service"
                    on={c.purging} states={words::purge_states()} toggle={flag(|on| Action::Purge { on })} />
                <Valve control={Control::HighValve} needed={needs(Control::HighValve)} label={words::high_valve()} dot="high" value={c.high_valve}
                    set={number(|v| Action::HighValve { open: Ratio::from_percent(v) })} />
                <Switch control={Control::HighCoupler} needed={needs(Control::HighCoupler)} label={words::high_coupler()} dot="high"
                    on={c.high_coupled} states={words::coupler_states()} toggle={flag(|on| Action::HighCoupler { on })} />
            </fieldset>
            { p.hose.clone() }
            if !p.no_can { { can(p) } }
            { vehicle(p) }
            { p.instruments.clone() }
        </section>
    }
}

fn can(p: &PanelProps) -> Html {
    let c = &p.controls;
    let needs = |control| p.needed == Some(control);
    let plain = |action: Action| {
        let act = p.act.clone();
        Callback::from(move |_: MouseEvent| act.emit(action))
    };
    let flag = |make: fn(bool) -> Action| {
        let act = p.act.clone();
        Callback::from(move |on| act.emit(make(on)))
    };
    let on = c.can.as_ref();
    let bath = on.and_then(|k| k.bath.as_ref());
    let degrees = |v: f64| Action::Bath {
        temperature: Some(Temperature::from_deg_c(v)),
    };
    let act = p.act.clone();
    let set_bath = Callback::from(move |v| act.emit(degrees(v)));
    let act = p.act.clone();
    let toggle_bath = Callback::from(move |into| {
        act.emit(if into {
            degrees(45.0)
        } else {
            Action::Bath { temperature: None }
        });
    });
    let title = on.map_or_else(
        || words::can_title().to_owned(),
        |k| words::can_number(k.number),
    );
    html! {
        <fieldset class="group">
            <legend>{ title }</legend>
            <span class="pair">
                <button type="button" id={id(Control::TakeCan)} class={classes!("plain", needs(Control::TakeCan).then_some("needed"))}
                    onclick={plain(Action::TakeCan)}>{ if on.is_some() { words::fresh_can() } else { words::take_a_can() } }</button>
                <button type="button" id={id(Control::DropCan)} class={classes!("plain", needs(Control::DropCan).then_some("needed"))}
                    disabled={on.is_none()} onclick={plain(Action::DropCan)}>{ words::take_off() }</button>
            </span>
            <Switch control={Control::Tap} needed={needs(Control::Tap)} label={words::tap()} dot="service" disabled={on.is_none()}
                on={on.is_some_and(|k| k.open)} states={words::tap_states()} toggle={flag(|on| Action::Tap { on })} />
            <Switch control={Control::Invert} needed={needs(Control::Invert)} label={words::turn_over()} disabled={on.is_none()}
                on={on.is_some_and(|k| k.inverted)} states={words::turn_states()}
                toggle={flag(|on| Action::Invert { on })} />
            <Switch control={Control::Bath} needed={needs(Control::Bath)} label={words::bath()} disabled={on.is_none()}
                on={bath.is_some()} states={words::bath_states()} toggle={toggle_bath} />
            {{
                let text = bath.map_or_else(|| "\u{2014}".to_owned(), |b| b.shown.to_string());
                html! { <div class="slider">
                    <label for="bath-t" class="name">{ words::water() }</label>
                    <output class="state" for="bath-t" aria-live="off">{ text }</output>
                    <input type="range" id="bath-t" min="5" max="95" step="1" value={bath.map_or(45.0, |b| b.value).to_string()}
                        disabled={bath.is_none()} aria-valuetext={bath.map(|b| words::spoken(&b.shown))} oninput={Callback::from(move |e: InputEvent| {
                            if let Some(f) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
                                let v = f.value_as_number();
                                if v.is_finite() { set_bath.emit(v); }
                            }
                        })} />
                </div> }
            }}
        </fieldset>
    }
}

fn vehicle(p: &PanelProps) -> Html {
    let c = &p.controls;
    let needs = |control| p.needed == Some(control);
    let flag = |make: fn(bool) -> Action| {
        let act = p.act.clone();
        Callback::from(move |on| act.emit(make(on)))
    };
    let number = |make: fn(f64) -> Action| {
        let act = p.act.clone();
        Callback::from(move |v| act.emit(make(v)))
    };
    let blower = if c.blower == 0 {
        words::ac_states()[0].to_owned()
    } else {
        words::of(c.blower, c.blower_most)
    };
    html! {
        <fieldset class="group">
            <legend>{ words::vehicle() }</legend>
            <span class="pair">
                <Switch control={Control::Engine} needed={needs(Control::Engine)} label={words::engine()} on={c.engine}
                    states={words::engine_states()} toggle={flag(|on| Action::Engine { on })} />
                <Switch control={Control::Ac} needed={needs(Control::Ac)} label={words::ac()} on={c.ac}
                    states={words::ac_states()} toggle={flag(|on| Action::AirConditioning { on })} />
            </span>
            <Slider control={Control::Blower} needed={needs(Control::Blower)} label={words::blower()} value={f64::from(c.blower)} text={blower}
                least={0.0} most={f64::from(c.blower_most)} step={1.0} set={number(|v| Action::Blower { step: blower_step(v) })} />
            <span class="pair">
                <Switch control={Control::Recirculation} needed={needs(Control::Recirculation)} label={words::cabin_air()} on={c.recirculation}
                    states={words::air_states()} toggle={flag(|on| Action::Recirculation { on })} />
                <Switch control={Control::Windows} needed={needs(Control::Windows)} label={words::windows()} on={c.windows}
                    states={words::tap_states()} toggle={flag(|on| Action::Windows { on })} />
            </span>
            <Slider control={Control::Rpm} needed={needs(Control::Rpm)} label={words::engine_speed()} value={c.rpm.value}
                text={c.rpm.shown.to_string()} least={600.0} most={3000.0} step={50.0}
                set={number(|v| Action::EngineSpeed { speed: RotationSpeed::from_rpm(v) })} />
            <Slider control={Control::RoadSpeed} needed={needs(Control::RoadSpeed)} label={words::fan()} value={c.road_speed.value}
                text={c.road_speed.shown.to_string()} least={0.0} most={80.0} step={5.0}
                set={number(|v| Action::RoadSpeed { speed: Speed::from_km_h(v) })} />
            <Slider control={Control::Ambient} needed={needs(Control::Ambient)} label={words::outside_air()} value={c.ambient.value}
                text={c.ambient.shown.to_string()} least={0.0} most={48.0} step={1.0}
                set={number(|v| Action::Ambient { temperature: Temperature::from_deg_c(v) })} />
            <Slider control={Control::Humidity} needed={needs(Control::Humidity)} label={words::humidity()} value={c.humidity.value}
                text={c.humidity.shown.to_string()} least={10.0} most={95.0} step={5.0}
                set={number(|v| Action::Humidity { share: Ratio::from_percent(v) })} />
        </fieldset>
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to 0..=9 first"
)]
fn blower_step(v: f64) -> u8 {
    v.clamp(0.0, 9.0).round() as u8
}

/// The chosen value of a select element.
pub(crate) fn chosen(e: &Event) -> Option<String> {
    e.target()?
        .dyn_into::<web_sys::HtmlSelectElement>()
        .ok()
        .map(|s| s.value())
}
