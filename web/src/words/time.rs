//! Acts, and what is waited for, in words.
use lowside_session::{
    Action, Event, Port,
    condition::{Reading, Test},
    wait::Goal,
};
use lowside_units::{
    GaugePressure, Quantity, Temperature,
    display::{self, UnitSystem},
};
use lowside_words as say;

use super::{
    labels,
    work::{joint_name, part},
};

/// An act as the log tells it: what, and how it was left.
pub(crate) fn act(action: Action) -> String {
    let two = |what: &str, states: [&'static str; 2], on: bool| {
        labels::named(what, states[usize::from(on)])
    };
    match action {
        Action::Engine { on } => two(say::engine(), labels::engine_states(), on),
        Action::AirConditioning { on } => two(say::ac(), labels::ac_states(), on),
        Action::Recirculation { on } => two(say::cabin_air(), labels::air_states(), on),
        Action::Windows { on } => two(say::windows(), labels::windows_states(), on),
        Action::LowCoupler { on } => two(say::low_coupler(), labels::coupler_states(), on),
        Action::HighCoupler { on } => two(say::high_coupler(), labels::coupler_states(), on),
        Action::Purge { on } => two(say::purge(), labels::purge_states(), on),
        Action::Tap { on } => two(say::tap(), labels::tap_states(), on),
        Action::Invert { on } => two(say::turn_over(), labels::turn_states(), on),
        Action::Bath { temperature } => {
            two(say::bath(), labels::bath_states(), temperature.is_some())
        }
        Action::LowValve { .. } => say::low_valve().to_owned(),
        Action::HighValve { .. } => say::high_valve().to_owned(),
        Action::TakeCan => say::take_a_can().to_owned(),
        Action::TakeCanOf { gas } => say::act_take_can_of(gas),
        Action::Identify { port: Port::Low } => say::act_identify_low().to_owned(),
        Action::Identify { port: Port::High } => say::act_identify_high().to_owned(),
        Action::DropCan => say::take_off().to_owned(),
        Action::EngineSpeed { .. } => say::engine_speed().to_owned(),
        Action::Blower { .. } => say::blower().to_owned(),
        Action::RoadSpeed { .. } => say::fan().to_owned(),
        Action::Ambient { .. } => say::outside_air().to_owned(),
        Action::Humidity { .. } => say::humidity().to_owned(),
        Action::AirPressure { .. } => say::act_air_pressure().to_owned(),
        Action::TakePump { .. } => say::act_take_pump().to_owned(),
        Action::PumpOil => say::act_pump_oil().to_owned(),
        Action::VacuumGauge { .. } => say::act_vacuum_gauge().to_owned(),
        Action::TakeSelfSealingCan => say::act_take_self_sealing_can().to_owned(),
        Action::TapScrew { .. } => say::act_tap_screw().to_owned(),
        Action::TakeCylinder { .. } => say::act_take_cylinder().to_owned(),
        Action::Dose { .. } => say::act_dose().to_owned(),
        Action::TakeMachine { .. } => say::act_take_machine().to_owned(),
        Action::MachineStop { .. } => say::act_machine_stop().to_owned(),
        Action::ChangeCylinder { .. } => say::act_change_cylinder().to_owned(),
        Action::OpenJoint { joint } => labels::named(say::act_open_joint(), &joint_name(joint)),
        Action::CapJoint { joint, .. } => labels::named(say::act_cap_joint(), &joint_name(joint)),
        Action::CloseJoint { joint, .. } => {
            labels::named(say::act_close_joint(), &joint_name(joint))
        }
        Action::RemovePart { part: p } => labels::named(say::act_remove_part(), part(p)),
        Action::RefitPart { part: p } => labels::named(say::act_refit_part(), part(p)),
        Action::NewPart { part: p } => labels::named(say::act_new_part(), part(p)),
        Action::FitOrifice { .. } => say::act_fit_orifice().to_owned(),
        Action::DrainPart { part: p } => labels::named(say::act_drain_part(), part(p)),
        Action::FlushPart { part: p, .. } => labels::named(say::do_flush(), part(p)),
        Action::PourOil { part: p, .. } => labels::named(say::act_pour_oil(), part(p)),
        Action::InjectOil { .. } => say::act_inject_oil().to_owned(),
        Action::PortCap { .. } => say::act_port_cap().to_owned(),
        Action::LowTap { .. } => say::low_tap().to_owned(),
        Action::Core { .. } => say::act_core().to_owned(),
        Action::GaugeSet { gas } => format!("{} {gas}", say::gauge_set_for()),
        Action::ConvertPort { .. } => say::do_convert().to_owned(),
        Action::FitCutOut { .. } => say::cut_out().to_owned(),
        Action::SwitchScrew { .. } => say::low_switch().to_owned(),
        Action::RenewSeals => say::seals_all().to_owned(),
        Action::Disconnect => say::act_disconnect().to_owned(),
        Action::ZeroScale => say::act_zero_scale().to_owned(),
        Action::TakeNitrogen => say::act_take_nitrogen().to_owned(),
        Action::Regulator { .. } => say::act_regulator().to_owned(),
        Action::Sniff { .. } => say::act_sniff().to_owned(),
        Action::Soap { .. } => say::act_soap().to_owned(),
        Action::Dye => say::act_dye().to_owned(),
        Action::Lamp { .. } => say::act_lamp().to_owned(),
        Action::Clamp { .. } => say::act_clamp().to_owned(),
        Action::ClutchMeter { .. } => say::clutch_meter().to_owned(),
        Action::HeaterHose { .. } => say::heater_hose().to_owned(),
        Action::PerformanceTest => say::performance().to_owned(),
        Action::NoteReadings { .. } => say::act_note_readings().to_owned(),
        Action::Label { .. } => say::act_label().to_owned(),
        Action::Stopwatch { on } => two(say::act_stopwatch(), labels::engine_states(), on),
        Action::Pump { on } => two(say::act_pump(), labels::engine_states(), on),
        Action::Isolation { on } => two(say::act_isolation(), labels::tap_states(), on),
        Action::Ballast { on } => two(say::act_ballast(), labels::tap_states(), on),
        Action::Machine { on } => two(say::act_machine(), labels::engine_states(), on),
        // Acts of tools that the page has no controls for yet.
    }
}

/// What is waited for, to stand after "until".
pub(crate) fn goal(goal: Goal, units: UnitSystem) -> String {
    match goal {
        Goal::Passed(t) => say::goal_minutes(t.min()),
        Goal::Cycles(n) => say::goal_cycles(n),
        Goal::Event(Event::CanEmpty) => say::goal_empty().to_owned(),
        Goal::VentSteady => say::goal_steady().to_owned(),
        Goal::Condition(c) => {
            let pressure = |pa| display::gauge_pressure(GaugePressure::from_si(pa), units);
            let (what, show): (_, &dyn Fn(f64) -> display::Shown) = match c.reading {
                Reading::Low => (say::quantity_low(), &pressure),
                Reading::High => (say::quantity_high(), &pressure),
                _ => (say::quantity_vent(), &|k| {
                    display::temperature(Temperature::from_si(k), units)
                }),
            };
            match c.test {
                Test::Below(si) => say::goal_below(what, show(si)),
                Test::Above(si) => say::goal_above(what, show(si)),
                Test::Is(_) => say::goal_other().to_owned(),
            }
        }
        Goal::Event(_) => say::goal_other().to_owned(),
    }
}

/// How a wait ended.
pub(crate) fn wait_ended(what: Goal, met: bool, units: UnitSystem) -> String {
    if met {
        say::wait_met(goal(what, units))
    } else {
        say::wait_given_up(goal(what, units))
    }
}
