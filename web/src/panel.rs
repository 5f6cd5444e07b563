//! The controls: gauge set, can, vehicle. Each control has its one home here, beside the drawing.
use lowside_present::controls::{Control, Controls};
use lowside_session::{Action, HoseAct, VehicleAct, VesselAct};
use lowside_units::{Ratio, RotationSpeed, Speed, Temperature};
use wasm_bindgen::JsCast;
use yew::{Callback, Event, Html, InputEvent, MouseEvent, TargetCast, classes, html};

use crate::words;

/// Id of a control's element, by which "show me" finds it.
pub(crate) fn id(control: Control) -> String {
    format!("control-{control:?}").to_ascii_lowercase()
}

/// What the controls show, and what they do.
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

/// A control's name, and the mark of the hose it belongs to.
type Label = (&'static str, &'static str);

/// A control with two states; without a state it cannot be used.
fn switch(
    p: &PanelProps,
    control: Control,
    (label, dot): Label,
    on: Option<bool>,
    states: [&'static str; 2],
    make: impl Fn(bool) -> Action + 'static,
) -> Html {
    let (now, act) = (on.unwrap_or(false), p.act.clone());
    let click = Callback::from(move |_: MouseEvent| act.emit(make(!now)));
    html! {
        <button type="button" id={id(control)} role="switch" aria-checked={now.to_string()} disabled={on.is_none()}
            class={classes!("switch", (p.needed == Some(control)).then_some("needed"))} onclick={click}>
            <span class={classes!("name", dot)}>{ label }</span>
            <span class="state" aria-hidden="true">{ states[usize::from(now)] }</span>
        </button>
    }
}

/// A control with a range: least, most, step, value.
fn slider(
    p: &PanelProps,
    control: Control,
    (label, dot): Label,
    range: [f64; 4],
    text: String,
    make: impl Fn(f64) -> Action + 'static,
) -> Html {
    let act = p.act.clone();
    let input = Callback::from(move |e: InputEvent| {
        if let Some(field) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            let value = field.value_as_number();
            if value.is_finite() {
                act.emit(make(value));
            }
        }
    });
    let name = id(control);
    let [least, most, step, value] = range;
    html! {
        <div class={classes!("slider", (p.needed == Some(control)).then_some("needed"))}>
            <label for={name.clone()} class={classes!("name", dot)}>{ label }</label>
            <output class="state" for={name.clone()} aria-live="off">{ &text }</output>
            <input type="range" id={name} min={least.to_string()} max={most.to_string()} step={step.to_string()}
                value={value.to_string()} aria-valuetext={text} oninput={input} />
        </div>
    }
}

/// A hand valve: a range from shut to open, with a button for either end.
fn valve(
    p: &PanelProps,
    control: Control,
    label: Label,
    value: u8,
    make: fn(f64) -> Action,
) -> Html {
    let text = match value {
        0 => words::tap_states()[0].to_owned(),
        100 => words::tap_states()[1].to_owned(),
        n => format!("{n} %"),
    };
    let to = |value: f64| {
        let act = p.act.clone();
        Callback::from(move |_: MouseEvent| act.emit(make(value)))
    };
    html! {
        <div class={classes!("valve", (p.needed == Some(control)).then_some("needed"))}>
            { slider(p, control, label, [0.0, 100.0, 5.0, f64::from(value)], text, make) }
            <span class="ends">
                <button type="button" aria-label={words::named(label.0, words::shut())} onclick={to(0.0)} disabled={value == 0}>{ words::shut() }</button>
                <button type="button" aria-label={words::named(label.0, words::open())} onclick={to(100.0)} disabled={value == 100}>{ words::open() }</button>
            </span>
        </div>
    }
}

/// All controls.
pub(crate) fn panel(p: &PanelProps) -> Html {
    let c = &p.controls;
    html! {
        <section class="panel" aria-labelledby="controls-title">
            <h2 id="controls-title" class="unseen">{ words::controls() }</h2>
            <fieldset class="group">
                <legend>{ words::gauge_set() }</legend>
                { switch(p, Control::LowCoupler, (words::low_coupler(), "low"), Some(c.low_coupled), words::coupler_states(), |on| HoseAct::LowCoupler { on }.into()) }
                { valve(p, Control::LowValve, (words::low_valve(), "low"), c.low_valve, |v| HoseAct::LowValve { open: Ratio::from_percent(v) }.into()) }
                { switch(p, Control::Purge, (words::purge(), "service"), Some(c.purging), words::purge_states(), |on| HoseAct::Purge { on }.into()) }
                { valve(p, Control::HighValve, (words::high_valve(), "high"), c.high_valve, |v| HoseAct::HighValve { open: Ratio::from_percent(v) }.into()) }
                { switch(p, Control::HighCoupler, (words::high_coupler(), "high"), Some(c.high_coupled), words::coupler_states(), |on| HoseAct::HighCoupler { on }.into()) }
            </fieldset>
            { p.hose.clone() }
            if !p.no_can { { can(p) } }
            { vehicle(p) }
            { p.instruments.clone() }
        </section>
    }
}

/// What stands for the tools of the service hose and the instruments until the later part of the program is here: as tall, so that nothing
/// moves.
pub(crate) fn coming() -> [Html; 2] {
    [
        html! { <fieldset class="group tools coming"><legend>{ words::hose() }</legend><p class="told">{ words::coming() }</p></fieldset> },
        html! { <details class="instruments"><summary>{ words::instruments() }</summary></details> },
    ]
}

fn can(p: &PanelProps) -> Html {
    let c = &p.controls;
    let needs = |control| p.needed == Some(control);
    let plain = |action: Action| {
        let act = p.act.clone();
        Callback::from(move |_: MouseEvent| act.emit(action))
    };
    let on = c.can.as_ref();
    let bath = on.and_then(|k| k.bath.as_ref());
    let degrees = |v: f64| {
        VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(v)),
        }
        .into()
    };
    let act = p.act.clone();
    let set_bath = Callback::from(move |v| act.emit(degrees(v)));
    let title = on.map_or_else(
        || words::can_title().to_owned(),
        |k| words::can_number(k.number),
    );
    html! {
        <fieldset class="group">
            <legend>{ title }</legend>
            <span class="pair">
                <button type="button" id={id(Control::TakeCan)} class={classes!("plain", needs(Control::TakeCan).then_some("needed"))}
                    onclick={plain(VesselAct::TakeCan.into())}>{ if on.is_some() { words::fresh_can() } else { words::take_a_can() } }</button>
                <button type="button" id={id(Control::RemoveCan)} class={classes!("plain", needs(Control::RemoveCan).then_some("needed"))}
                    disabled={on.is_none()} onclick={plain(VesselAct::RemoveCan.into())}>{ words::take_off() }</button>
            </span>
            { switch(p, Control::Tap, (words::tap(), "service"), on.map(|k| k.open), words::tap_states(), |on| VesselAct::Tap { on }.into()) }
            { switch(p, Control::Invert, (words::turn_over(), ""), on.map(|k| k.inverted), words::turn_states(), |on| VesselAct::Invert { on }.into()) }
            { switch(p, Control::Bath, (words::bath(), ""), on.map(|_| bath.is_some()), words::bath_states(), move |into| {
                if into { degrees(45.0) } else { VesselAct::Bath { temperature: None }.into() }
            }) }
            {{
                let text = bath.map_or_else(|| "\u{2014}".to_owned(), |b| b.shown.to_string());
                html! { <div class="slider">
                    <label for="bath-t" class="name">{ words::water() }</label>
                    <output class="state" for="bath-t" aria-live="off">{ text }</output>
                    <input type="range" id="bath-t" min="5" max="95" step="1" value={bath.map_or(45.0, |b| b.value).to_string()}
                        disabled={bath.is_none()} aria-valuetext={bath.map_or_else(|| "\u{2014}".to_owned(), |b| words::spoken(&b.shown))} oninput={Callback::from(move |e: InputEvent| {
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
    let blower = if c.blower == 0 {
        words::ac_states()[0].to_owned()
    } else {
        words::of(c.blower, c.blower_most)
    };
    html! {
        <fieldset class="group">
            <legend>{ words::vehicle() }</legend>
            <span class="pair">
                { switch(p, Control::Engine, (words::engine(), ""), Some(c.engine), words::engine_states(), |on| VehicleAct::Engine { on }.into()) }
                { switch(p, Control::Ac, (words::ac(), ""), Some(c.ac), words::ac_states(), |on| VehicleAct::AirConditioning { on }.into()) }
            </span>
            { slider(p, Control::Blower, (words::blower(), ""), [0.0, f64::from(c.blower_most), 1.0, f64::from(c.blower)], blower,
                |v| VehicleAct::Blower { step: blower_step(v) }.into()) }
            <span class="pair">
                { switch(p, Control::Recirculation, (words::cabin_air(), ""), Some(c.recirculation), words::air_states(), |on| VehicleAct::Recirculation { on }.into()) }
                { switch(p, Control::Windows, (words::windows(), ""), Some(c.windows), words::windows_states(), |on| VehicleAct::Windows { on }.into()) }
            </span>
            { slider(p, Control::Rpm, (words::engine_speed(), ""), [600.0, 3000.0, 50.0, c.rpm.value], c.rpm.shown.to_string(),
                |v| VehicleAct::EngineSpeed { speed: RotationSpeed::from_rpm(v) }.into()) }
            { slider(p, Control::RoadSpeed, (words::fan(), ""), [0.0, 80.0, 5.0, c.road_speed.value], c.road_speed.shown.to_string(),
                |v| VehicleAct::RoadSpeed { speed: Speed::from_km_h(v) }.into()) }
            { slider(p, Control::Ambient, (words::outside_air(), ""), [0.0, 48.0, 1.0, c.ambient.value], c.ambient.shown.to_string(),
                |v| VehicleAct::Ambient { temperature: Temperature::from_deg_c(v) }.into()) }
            { slider(p, Control::Humidity, (words::humidity(), ""), [10.0, 95.0, 5.0, c.humidity.value], c.humidity.shown.to_string(),
                |v| VehicleAct::Humidity { share: Ratio::from_percent(v) }.into()) }
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
