//! The controls: day, vehicle, gauge set, yellow hose. Each control has its one home here; what cannot be used now is not there.
use lowside_present::controls::{CanControls, Control, Controls};
use lowside_session::{Action, HoseAct, VehicleAct, VesselAct};
use lowside_units::{Ratio, RotationSpeed, Speed, Temperature};
use yew::{Callback, Html, html};

use crate::{
    doors::Door,
    kit::{Tag, fold},
    words,
};

/// Id of a control's element, by which "show me" finds it.
pub(crate) fn id(control: Control) -> String {
    format!("control-{control:?}").to_ascii_lowercase()
}

/// A bath as it is made first, degC: warm, and below what a can may be heated to.
const BATH: f64 = 45.0;

/// What the controls show, and what they do.
pub(crate) struct PanelProps {
    /// The door decides what comes first.
    pub(crate) door: Door,
    /// An unknown vehicle is in.
    pub(crate) unknown: bool,
    pub(crate) controls: Controls,
    pub(crate) needed: Option<Control>,
    pub(crate) act: Callback<Action>,
    /// What hangs on the service hose.
    pub(crate) hose: Html,
    /// Instruments beside it.
    pub(crate) instruments: Html,
    /// Something other than a can hangs there.
    pub(crate) no_can: bool,
    /// What is rarely used is unfolded.
    pub(crate) more: bool,
    pub(crate) fold: Callback<()>,
}

/// A control's name, and the mark of the hose it belongs to.
type Label = (&'static str, &'static str);

impl PanelProps {
    fn tag(&self, control: Control, (label, dot): Label) -> Tag {
        Tag {
            id: id(control).into(),
            label,
            dot,
            needed: self.needed == Some(control),
        }
    }

    fn switch(
        &self,
        control: Control,
        label: Label,
        states: [&'static str; 2],
        on: bool,
        make: impl Fn(bool) -> Action + 'static,
    ) -> Html {
        let act = self.act.clone();
        self.tag(control, label)
            .switch(states, on, move |on| act.emit(make(on)))
    }

    fn slider(
        &self,
        control: Control,
        label: &'static str,
        range: [f64; 4],
        text: &str,
        make: impl Fn(f64) -> Action + 'static,
    ) -> Html {
        let act = self.act.clone();
        self.tag(control, (label, ""))
            .slider(range, text, None, move |v| act.emit(make(v)))
    }

    fn button(&self, control: Control, label: &'static str, action: Action) -> Html {
        let act = self.act.clone();
        self.tag(control, (label, ""))
            .button(move || act.emit(action))
    }

    /// A hand valve: a range from shut to open, with a button for the end it is not at.
    fn valve(&self, control: Control, label: Label, value: u8, make: fn(f64) -> Action) -> Html {
        let [shut, open] = words::tap_states();
        let text = match value {
            0 => shut.to_owned(),
            100 => open.to_owned(),
            n => format!("{n} %"),
        };
        let end = |word: &'static str, value: f64| {
            let act = self.act.clone();
            let press = Callback::from(move |_: yew::MouseEvent| act.emit(make(value)));
            html! { <button type="button" aria-label={words::named(label.0, word)} onclick={press}>{ word }</button> }
        };
        let act = self.act.clone();
        let range = [0.0, 100.0, 5.0, f64::from(value)];
        html! {
            <div class="valve">
                { self.tag(control, label).slider(range, &text, None, move |v| act.emit(make(v))) }
                <span class="ends">
                    if value > 0 { { end(words::shut(), 0.0) } }
                    if value < 100 { { end(words::open(), 100.0) } }
                </span>
            </div>
        }
    }
}

/// All controls, what the door is for first.
pub(crate) fn panel(p: &PanelProps) -> Html {
    let groups = match p.door {
        Door::Service => [yellow_hose(p), gauge_set(p), vehicle(p), day(p)],
        // Nobody who looks for a fault turns the weather.
        Door::Diagnose if p.unknown => [vehicle(p), gauge_set(p), yellow_hose(p), html! {}],
        _ => [day(p), vehicle(p), gauge_set(p), yellow_hose(p)],
    };
    html! {
        <section class="panel" aria-labelledby="controls-title">
            <h2 id="controls-title" class="unseen">{ words::controls() }</h2>
            { for groups }
            { p.instruments.clone() }
        </section>
    }
}

/// What stands for the tools of the service hose and the instruments until they are here: as tall, so that nothing moves.
pub(crate) fn coming(sign: Html) -> [Html; 2] {
    [
        html! { <div class="tools coming">{ sign }</div> },
        html! { <details class="instruments"><summary>{ words::instruments() }</summary></details> },
    ]
}

fn day(p: &PanelProps) -> Html {
    let c = &p.controls;
    let ambient = c.ambient.shown.to_string();
    html! {
        <fieldset class="group" key="day">
            <legend>{ words::day() }</legend>
            { p.slider(Control::Ambient, words::outside_air(), [0.0, 48.0, 1.0, c.ambient.value], &ambient,
                |v| VehicleAct::Ambient { temperature: Temperature::from_deg_c(v) }.into()) }
            { p.slider(Control::Humidity, words::humidity(), [10.0, 95.0, 5.0, c.humidity.value], &c.humidity.shown.to_string(),
                |v| VehicleAct::Humidity { share: Ratio::from_percent(v) }.into()) }
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
    // What is asked for next is never behind a fold.
    let asked = matches!(p.needed, Some(Control::Rpm | Control::RoadSpeed));
    let turn = p.fold.clone();
    html! {
        <fieldset class="group" key="vehicle">
            <legend>{ words::vehicle() }</legend>
            { p.switch(Control::Engine, (words::engine(), ""), words::engine_states(), c.engine, |on| VehicleAct::Engine { on }.into()) }
            { p.switch(Control::Ac, (words::ac(), ""), words::ac_states(), c.ac, |on| VehicleAct::AirConditioning { on }.into()) }
            { p.switch(Control::Recirculation, (words::cabin_air(), ""), words::air_states(), c.recirculation,
                |on| VehicleAct::Recirculation { on }.into()) }
            { p.switch(Control::Windows, (words::windows(), ""), words::windows_states(), c.windows, |on| VehicleAct::Windows { on }.into()) }
            { p.slider(Control::Blower, words::blower(), [0.0, f64::from(c.blower_most), 1.0, f64::from(c.blower)], &blower,
                |v| VehicleAct::Blower { step: blower_step(v) }.into()) }
            { fold("vehicle-more", "rarely", words::vehicle_more(), p.more || asked, move || turn.emit(()), || rarely(p)) }
        </fieldset>
    }
}

/// What is set once, if at all.
fn rarely(p: &PanelProps) -> Html {
    let c = &p.controls;
    html! { <>
        { p.slider(Control::Rpm, words::engine_speed(), [600.0, 3000.0, 50.0, c.rpm.value], &c.rpm.shown.to_string(),
            |v| VehicleAct::EngineSpeed { speed: RotationSpeed::from_rpm(v) }.into()) }
        { p.slider(Control::RoadSpeed, words::fan(), [0.0, 80.0, 5.0, c.road_speed.value], &c.road_speed.shown.to_string(),
            |v| VehicleAct::RoadSpeed { speed: Speed::from_km_h(v) }.into()) }
    </> }
}

fn gauge_set(p: &PanelProps) -> Html {
    let c = &p.controls;
    let states = words::coupler_states();
    html! {
        <fieldset class="group" key="gauge-set">
            <legend>{ words::gauge_set() }</legend>
            { p.switch(Control::LowCoupler, (words::low_coupler(), "low"), states, c.low_coupled, |on| HoseAct::LowCoupler { on }.into()) }
            { p.valve(Control::LowValve, (words::low_valve(), "low"), c.low_valve, |v| HoseAct::LowValve { open: Ratio::from_percent(v) }.into()) }
            { p.switch(Control::HighCoupler, (words::high_coupler(), "high"), states, c.high_coupled, |on| HoseAct::HighCoupler { on }.into()) }
            { p.valve(Control::HighValve, (words::high_valve(), "high"), c.high_valve, |v| HoseAct::HighValve { open: Ratio::from_percent(v) }.into()) }
        </fieldset>
    }
}

fn yellow_hose(p: &PanelProps) -> Html {
    let c = &p.controls;
    let purges = c.purging || p.no_can || c.can.is_some();
    html! {
        <fieldset class="group" key="hose">
            <legend>{ words::hose() }</legend>
            if let Some(can) = &c.can { { on_the_hose(p, can) } }
            else if !p.no_can {
                <p class="told">{ words::hose_nothing() }</p>
                { p.button(Control::TakeCan, words::take_a_can(), VesselAct::TakeCan.into()) }
            }
            if purges {
                { p.switch(Control::Purge, (words::purge(), "service"), words::purge_states(), c.purging, |on| HoseAct::Purge { on }.into()) }
            }
            { p.hose.clone() }
        </fieldset>
    }
}

fn on_the_hose(p: &PanelProps, can: &CanControls) -> Html {
    let warm = |v: f64| -> Action {
        VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(v)),
        }
        .into()
    };
    let act = p.act.clone();
    let bath = move |into: bool| {
        if into {
            warm(BATH)
        } else {
            VesselAct::Bath { temperature: None }.into()
        }
    };
    html! { <>
        <p class="told">{ words::can_number(can.number) }</p>
        { p.switch(Control::Tap, (words::tap(), "service"), words::tap_states(), can.open, |on| VesselAct::Tap { on }.into()) }
        { p.switch(Control::Invert, (words::turn_over(), ""), words::turn_states(), can.inverted, |on| VesselAct::Invert { on }.into()) }
        { p.switch(Control::Rock, (words::rock(), ""), words::rock_states(), can.rocked, |on| VesselAct::Rock { on }.into()) }
        { p.switch(Control::Bath, (words::bath(), ""), words::bath_states(), can.bath.is_some(), bath) }
        if let Some(water) = &can.bath {
            { Tag::plain("bath-t", words::water()).slider([5.0, 95.0, 1.0, water.value], &water.shown.to_string(),
                Some(words::spoken(&water.shown)), move |v| act.emit(warm(v))) }
        }
        <span class="pair">
            { p.button(Control::TakeCan, words::fresh_can(), VesselAct::TakeCan.into()) }
            { p.button(Control::RemoveCan, words::take_off(), VesselAct::RemoveCan.into()) }
        </span>
    </> }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to 0..=9 first"
)]
fn blower_step(v: f64) -> u8 {
    v.clamp(0.0, 9.0).round() as u8
}
