//! Acts, and what is waited for, in words.
use lowside_session::{
    Action, BenchAct, Event, FixingAct, HoseAct, InstructorAct, InstrumentAct, LearnerAct,
    MachineAct, Port, Protection, RecordAct, VehicleAct, VesselAct,
    predicate::{Reading, Test},
    wait::Goal,
};
use lowside_units::{
    GaugePressure, Quantity, Temperature,
    display::{self, UnitSystem},
};
use lowside_words as say;

use super::{
    labels,
    work::{
        battery_states, belt_states, bolts_states, joint_name, joint_tool, mend, part,
        part_caps_states, plug_name, plug_state,
    },
};

/// An act as the log tells it: what, and how it was left.
pub(crate) fn act(action: Action) -> String {
    match action {
        Action::Vehicle(act) => vehicle(act),
        Action::Hose(act) => hose(act),
        Action::Vessel(act) => vessel(act),
        Action::Machine(act) => machine(act),
        Action::Bench(act) => bench(act),
        Action::Fixing(act) => fixing(act),
        Action::Instrument(act) => instrument(act),
        Action::Record(act) => record(act),
        Action::Learner(act) => learner(act),
        Action::Instructor(act) => instructor(act),
    }
}

fn two(what: &str, states: [&'static str; 2], on: bool) -> String {
    labels::named(what, states[usize::from(on)])
}

fn vehicle(act: VehicleAct) -> String {
    match act {
        VehicleAct::Engine { on } => two(say::engine(), labels::engine_states(), on),
        VehicleAct::EngineSpeed { .. } => say::engine_speed().to_owned(),
        VehicleAct::AirConditioning { on } => two(say::ac(), labels::ac_states(), on),
        VehicleAct::Blower { .. } => say::blower().to_owned(),
        VehicleAct::Recirculation { on } => two(say::cabin_air(), labels::air_states(), on),
        VehicleAct::RoadSpeed { .. } => say::fan().to_owned(),
        VehicleAct::Windows { on } => two(say::windows(), labels::windows_states(), on),
        VehicleAct::HeaterHose { .. } => say::heater_hose().to_owned(),
        VehicleAct::CoverCondenser { .. } => say::cover_condenser().to_owned(),
        VehicleAct::MistCondenser => say::mist_condenser().to_owned(),
        VehicleAct::WarmOrifice => say::warm_orifice().to_owned(),
        VehicleAct::Mend { device } => mend(device).to_owned(),
        VehicleAct::Ambient { .. } => say::outside_air().to_owned(),
        VehicleAct::Humidity { .. } => say::humidity().to_owned(),
        VehicleAct::AirPressure { .. } => say::act_air_pressure().to_owned(),
    }
}

fn hose(act: HoseAct) -> String {
    match act {
        HoseAct::GaugeSet { gas } => format!("{} {gas}", say::gauge_set_for()),
        HoseAct::LowCoupler { on } => two(say::low_coupler(), labels::coupler_states(), on),
        HoseAct::LowPort { .. } => say::low_tap().to_owned(),
        HoseAct::HighCoupler { on } => two(say::high_coupler(), labels::coupler_states(), on),
        HoseAct::LowValve { .. } => say::low_valve().to_owned(),
        HoseAct::HighValve { .. } => say::high_valve().to_owned(),
        HoseAct::Purge { on } => two(say::purge(), labels::purge_states(), on),
        HoseAct::Disconnect => say::act_disconnect().to_owned(),
    }
}

fn vessel(act: VesselAct) -> String {
    match act {
        VesselAct::TakeCan => say::take_a_can().to_owned(),
        VesselAct::TakeCanOf { gas } => say::act_take_can_of(gas),
        VesselAct::TakeSelfSealingCan => say::act_take_self_sealing_can().to_owned(),
        VesselAct::RemoveCan => say::take_off().to_owned(),
        VesselAct::Tap { on } => two(say::tap(), labels::tap_states(), on),
        VesselAct::TapScrew { .. } => say::act_tap_screw().to_owned(),
        VesselAct::Invert { on } => two(say::turn_over(), labels::turn_states(), on),
        VesselAct::Rock { on } => two(say::rock(), labels::rock_states(), on),
        VesselAct::Bath { temperature } => {
            two(say::bath(), labels::bath_states(), temperature.is_some())
        }
        VesselAct::TakeCylinder { .. } => say::act_take_cylinder().to_owned(),
        VesselAct::Dose { .. } => say::act_dose().to_owned(),
        VesselAct::TakeNitrogen => say::act_take_nitrogen().to_owned(),
        VesselAct::Regulator { .. } => say::act_regulator().to_owned(),
    }
}

fn machine(act: MachineAct) -> String {
    match act {
        MachineAct::TakePump { .. } => say::act_take_pump().to_owned(),
        MachineAct::Pump { on } => two(say::act_pump(), super::machine_states(), on),
        MachineAct::Isolation { on } => two(say::act_isolation(), labels::tap_states(), on),
        MachineAct::Ballast { on } => two(say::act_ballast(), labels::tap_states(), on),
        MachineAct::PumpOil => say::act_pump_oil().to_owned(),
        MachineAct::TakeRecoveryMachine { .. } => say::act_take_machine().to_owned(),
        MachineAct::RecoveryMachine { on } => two(say::act_machine(), super::machine_states(), on),
        MachineAct::RecoveryStop { .. } => say::act_machine_stop().to_owned(),
        MachineAct::ChangeCylinder { .. } => say::act_change_cylinder().to_owned(),
    }
}

fn bench(act: BenchAct) -> String {
    match act {
        BenchAct::OpenJoint { joint } => labels::named(say::act_open_joint(), &joint_name(joint)),
        BenchAct::CapJoint { joint, .. } => labels::named(say::act_cap_joint(), &joint_name(joint)),
        BenchAct::CloseJoint { joint, .. } => {
            labels::named(say::act_close_joint(), &joint_name(joint))
        }
        BenchAct::RemovePart { part: p } => labels::named(say::act_remove_part(), part(p)),
        BenchAct::RefitPart { part: p } => labels::named(say::act_refit_part(), part(p)),
        BenchAct::NewPart { part: p } => labels::named(say::act_new_part(), part(p)),
        BenchAct::FitOrifice { .. } => say::act_fit_orifice().to_owned(),
        BenchAct::DrainPart { part: p } => labels::named(say::act_drain_part(), part(p)),
        BenchAct::FlushPart { part: p, .. } => labels::named(say::do_flush(), part(p)),
        BenchAct::PourOil { part: p, .. } => labels::named(say::act_pour_oil(), part(p)),
        BenchAct::InjectOil { .. } => say::act_inject_oil().to_owned(),
        BenchAct::PortCap { .. } => say::act_port_cap().to_owned(),
        BenchAct::ValveCore { .. } => say::act_core().to_owned(),
        BenchAct::ConvertPort { .. } => say::act_convert_port().to_owned(),
        BenchAct::FitCutOut { .. } => say::cut_out().to_owned(),
        BenchAct::SwitchScrew { .. } => say::low_switch().to_owned(),
        BenchAct::RenewSeals => say::seals_all().to_owned(),
    }
}

fn fixing(act: FixingAct) -> String {
    match act {
        FixingAct::Battery { on } => two(say::battery(), battery_states(), on),
        FixingAct::Plug { at, state } => labels::named(plug_name(at), plug_state(state)),
        FixingAct::Belt { on } => two(say::belt(), belt_states(), on),
        FixingAct::Bolts { part: p, on } => {
            format!("{}: {}", part(p), two(say::bolts(), bolts_states(), on))
        }
        FixingAct::PartCaps { part: p, on } => {
            format!(
                "{}: {}",
                part(p),
                two(say::part_caps(), part_caps_states(), on)
            )
        }
        FixingAct::JointTool { tool } => labels::named(say::in_hand(), joint_tool(tool)),
        FixingAct::TurnHub => say::turn_hub().to_owned(),
    }
}

fn instrument(act: InstrumentAct) -> String {
    match act {
        InstrumentAct::Identify { port: Port::High } => say::act_identify_high().to_owned(),
        InstrumentAct::Identify { port: Port::Low } => say::act_identify_low().to_owned(),
        InstrumentAct::VacuumGauge { .. } => say::act_vacuum_gauge().to_owned(),
        InstrumentAct::Sniff { .. } => say::act_sniff().to_owned(),
        InstrumentAct::Soap { .. } => say::act_soap().to_owned(),
        InstrumentAct::Dye => say::act_dye().to_owned(),
        InstrumentAct::Lamp { .. } => say::act_lamp().to_owned(),
        InstrumentAct::Clamp { .. } => say::act_clamp().to_owned(),
        InstrumentAct::ClutchMeter { .. } => say::clutch_meter().to_owned(),
        InstrumentAct::Stopwatch { on } => two(say::act_stopwatch(), labels::engine_states(), on),
        InstrumentAct::ZeroScale => say::act_zero_scale().to_owned(),
    }
}

fn record(act: RecordAct) -> String {
    match act {
        RecordAct::NoteReadings { .. } => say::act_note_readings().to_owned(),
        RecordAct::PerformanceTest
        | RecordAct::PerformanceResult { .. }
        | RecordAct::PerformanceBrokenOff => say::performance().to_owned(),
        RecordAct::Label { .. } => say::act_label().to_owned(),
    }
}

fn learner(act: LearnerAct) -> String {
    match act {
        LearnerAct::Read { instrument } => say::act_read(say::meter_name(instrument.name())),
        LearnerAct::Suspect { fault, certainty } => say::act_suspect(
            say::fault(fault.key()).unwrap_or_default(),
            format!("{:.0}", certainty.si() * 100.0),
        ),
        LearnerAct::Commit {
            fault, severity, ..
        } => say::act_commit(
            say::fault(fault.key()).unwrap_or_default(),
            say::severity_name(severity.name()),
        ),
        LearnerAct::Wear { what, on } => {
            let what = match what {
                Protection::Goggles => "goggles",
                Protection::Gloves => "gloves",
            };
            let on = if on { "on" } else { "off" };
            say::act_wear(what, on)
        }
    }
}

fn instructor(act: InstructorAct) -> String {
    match act {
        act if act.secret() => say::act_secret().to_owned(),
        InstructorAct::PlantFault {
            fault, severity, ..
        } => say::act_plant(
            say::fault(fault.key()).unwrap_or_default(),
            say::severity_name(severity.name()),
        ),
        InstructorAct::ClearFault { fault, .. } => {
            say::act_clear(say::fault(fault.key()).unwrap_or_default())
        }
    }
}

/// What is waited for, to stand after "until".
pub(crate) fn goal(goal: Goal, units: UnitSystem) -> String {
    match goal {
        Goal::Passed(t) => say::goal_minutes(t.min()),
        Goal::Cycles(n) => say::goal_cycles(n),
        Goal::Event(Event::CanEmpty) => say::goal_empty().to_owned(),
        Goal::VentSteady => say::goal_steady().to_owned(),
        Goal::Predicate(c) => {
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
