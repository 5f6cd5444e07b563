//! The text of every act, against texts written before acts stood in groups.

use lowside_fluids::Refrigerant;
use lowside_plant::loose::{Lead, Plug};
use lowside_shop::{
    detect::{Sensitivity, Spot},
    fault::{Cure, Device, Severity},
    fixings::JointTool,
    flush::Flush,
    identifier::Port,
    joints::{Joint, LowPort, Seal, Side},
    label::{Particulars, written},
    meters::Point,
    oil::OilKind,
    parts::Part,
    protection::Protection,
    vacuum::GaugePlace,
};
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Length, Mass, Ratio, RotationSpeed, Speed,
    Temperature, Volume, VolumeFlow,
};

use super::*;
use crate::{
    BenchAct, FixingAct, HoseAct, InstructorAct, InstrumentAct, LearnerAct, MachineAct, RecordAct,
    VehicleAct, VesselAct,
    action::{Evidence, FaultId, Meter},
    acts,
};

/// One act a line, in the order of [`every`].
const ACTS: &str = include_str!("acts.jsonl");

const OPEN: Ratio = Ratio::from_fraction(0.25);
const WARM: Temperature = Temperature::from_deg_c(45.0);
const GAS: Refrigerant = Refrigerant::R134a;
const OIL: OilKind = OilKind::Pag46;
const JOINT: Joint = Joint::EvaporatorIn;
const PART: Part = Part::Condenser;
const SIDE: Side = Side::High;

/// One of every act; two where a field may be left out.
fn every() -> Vec<Action> {
    [
        vehicle(),
        hose(),
        vessel(),
        machine(),
        bench(),
        fixing(),
        instrument(),
        record(),
        learner(),
        instructor(),
    ]
    .concat()
}

fn instructor() -> Vec<Action> {
    let fault = FaultId::find("orifice-clogged").expect("a row");
    let severity = Severity::Severe;
    Vec::from(acts![
        InstructorAct::PlantFault {
            fault,
            severity,
            after: Duration::from_s(60.0),
            over: Duration::from_s(300.0),
            secret: true,
        },
        InstructorAct::PlantFault {
            fault,
            severity,
            after: Duration::from_s(0.0),
            over: Duration::from_s(0.0),
            secret: false,
        },
        InstructorAct::ClearFault {
            fault,
            secret: false,
        },
    ])
}

fn vehicle() -> Vec<Action> {
    let on = true;
    Vec::from(acts![
        VehicleAct::Engine { on },
        VehicleAct::EngineSpeed {
            speed: RotationSpeed::from_rpm(1500.0),
        },
        VehicleAct::AirConditioning { on: false },
        VehicleAct::Blower { step: 4 },
        VehicleAct::Recirculation { on },
        VehicleAct::RoadSpeed {
            speed: Speed::from_m_s(10.0),
        },
        VehicleAct::Windows { on },
        VehicleAct::HeaterHose { pinched: true },
        VehicleAct::CoverCondenser { on: true },
        VehicleAct::MistCondenser,
        VehicleAct::WarmOrifice,
        VehicleAct::Mend {
            device: Device::Radiator
        },
        VehicleAct::Ambient { temperature: WARM },
        VehicleAct::Humidity { share: OPEN },
        VehicleAct::AirPressure {
            pressure: AbsolutePressure::from_kpa(95.0),
        },
    ])
}

fn hose() -> Vec<Action> {
    let on = true;
    Vec::from(acts![
        HoseAct::GaugeSet { gas: GAS },
        HoseAct::LowCoupler { on },
        HoseAct::LowPort {
            at: LowPort::Compressor,
        },
        HoseAct::HighCoupler { on },
        HoseAct::LowValve { open: OPEN },
        HoseAct::HighValve { open: OPEN },
        HoseAct::Purge { on },
        HoseAct::Disconnect,
    ])
}

fn vessel() -> Vec<Action> {
    let on = true;
    Vec::from(acts![
        VesselAct::TakeCan,
        VesselAct::TakeCanOf { gas: GAS },
        VesselAct::TakeSelfSealingCan,
        VesselAct::RemoveCan,
        VesselAct::Tap { on },
        VesselAct::TapScrew { back: OPEN },
        VesselAct::Invert { on },
        VesselAct::Bath {
            temperature: Some(WARM),
        },
        VesselAct::Bath { temperature: None },
        VesselAct::Rock { on },
        VesselAct::TakeCylinder {
            gas: GAS,
            holds: Mass::from_kg(5.0),
        },
        VesselAct::Dose {
            mass: Mass::from_g(850.0),
        },
        VesselAct::TakeNitrogen,
        VesselAct::Regulator {
            pressure: GaugePressure::from_kpa(700.0),
        },
    ])
}

fn machine() -> Vec<Action> {
    let on = true;
    Vec::from(acts![
        MachineAct::TakePump {
            speed: VolumeFlow::from_cfm(4.0),
        },
        MachineAct::Pump { on },
        MachineAct::Isolation { on },
        MachineAct::Ballast { on },
        MachineAct::PumpOil,
        MachineAct::TakeRecoveryMachine { gas: GAS },
        MachineAct::RecoveryMachine { on },
        MachineAct::RecoveryStop {
            pressure: GaugePressure::from_kpa(-34.0),
        },
        MachineAct::ChangeCylinder {
            holds: Mass::from_kg(2.0),
        },
    ])
}

fn bench() -> Vec<Action> {
    let on = true;
    let volume = Volume::from_cm3(60.0);
    Vec::from(acts![
        BenchAct::OpenJoint { joint: JOINT },
        BenchAct::CapJoint { joint: JOINT },
        BenchAct::CloseJoint {
            joint: JOINT,
            seal: Seal::NewOiled,
        },
        BenchAct::RemovePart { part: PART },
        BenchAct::RefitPart { part: PART },
        BenchAct::NewPart { part: PART },
        BenchAct::FitOrifice {
            bore: Length::from_mm(1.7),
            reversed: false,
            rings: true,
        },
        BenchAct::DrainPart { part: PART },
        BenchAct::FlushPart {
            part: PART,
            with: Flush::Solvent,
        },
        BenchAct::PourOil {
            part: PART,
            volume,
            oil: OIL
        },
        BenchAct::InjectOil { volume, oil: OIL },
        BenchAct::PortCap { side: SIDE, on },
        BenchAct::ValveCore {
            side: SIDE,
            fitted: false,
        },
        BenchAct::ConvertPort {
            side: SIDE,
            new_core: true,
        },
        BenchAct::FitCutOut {
            opens: GaugePressure::from_kpa(2900.0),
        },
        BenchAct::SwitchScrew { quarters: -3 },
        BenchAct::RenewSeals,
    ])
}

fn fixing() -> Vec<Action> {
    let on = false;
    Vec::from(acts![
        FixingAct::Battery { on },
        FixingAct::Plug {
            at: Lead::LowSwitch,
            state: Plug::Bridged,
        },
        FixingAct::Belt { on },
        FixingAct::Bolts { part: PART, on },
        FixingAct::PartCaps { part: PART, on },
        FixingAct::JointTool {
            tool: JointTool::SpringLock,
        },
        FixingAct::TurnHub,
    ])
}

fn instrument() -> Vec<Action> {
    let on = true;
    let at = Spot::Joint(JOINT);
    Vec::from(acts![
        InstrumentAct::Identify { port: Port::Low },
        InstrumentAct::VacuumGauge {
            at: GaugePlace::Loop,
        },
        InstrumentAct::Sniff {
            at,
            sensitivity: Sensitivity::High,
            distance: Length::from_mm(5.0),
            wind: Speed::from_m_s(0.5),
        },
        InstrumentAct::Soap { at },
        InstrumentAct::Dye,
        InstrumentAct::Lamp { at },
        InstrumentAct::Clamp {
            at: Some(Point::LiquidLine),
        },
        InstrumentAct::Clamp { at: None },
        InstrumentAct::ClutchMeter { on },
        InstrumentAct::Stopwatch { on },
        InstrumentAct::ZeroScale,
    ])
}

fn record() -> Vec<Action> {
    let particulars = Particulars {
        technician: written("A. Technician"),
        oil_volume: Some(Volume::from_cm3(60.0)),
        old_covered: true,
        ..Particulars::default()
    };
    Vec::from(acts![
        RecordAct::NoteReadings { after: true },
        RecordAct::PerformanceTest,
        RecordAct::PerformanceResult {
            low: [210.5, 180.0, 240.0].map(GaugePressure::from_kpa),
            high: [1.6e3, 1.4e3, 1.8e3].map(GaugePressure::from_kpa),
            vent: [281.0, 278.0, 283.0].map(Temperature::from_k),
        },
        RecordAct::PerformanceBrokenOff,
        RecordAct::Label {
            charge: Mass::from_kg(0.85),
            gas: None,
            oil: None,
            particulars: Particulars::default(),
        },
        RecordAct::Label {
            charge: Mass::from_kg(0.85),
            gas: Some(GAS),
            oil: Some(OIL),
            particulars,
        },
    ])
}

fn learner() -> Vec<Action> {
    let fault = |key| FaultId::find(key).expect("a row");
    Vec::from(acts![
        LearnerAct::Read {
            instrument: Meter::LowGauge,
        },
        LearnerAct::Read {
            instrument: Meter::Clamp(Point::Suction),
        },
        LearnerAct::Suspect {
            fault: fault("low-charge"),
            certainty: Ratio::from_fraction(0.7),
        },
        LearnerAct::Commit {
            fault: fault("suction-hose-kinked"),
            severity: Severity::Moderate,
            evidence: Evidence::of(&[1, 2]).expect("two"),
            repair: Cure::NewPart(PART),
        },
        LearnerAct::Wear {
            what: Protection::Goggles,
            on: true,
        },
    ])
}

/// Texts that are no act, each with what was said of it.
const WRONG: &str = include_str!("wrong.txt");

/// Quotes and words of a message in an order of their own: the names of all acts are listed by group now.
fn sorted(message: &str) -> Vec<&str> {
    let mut words: Vec<&str> = message.split([' ', ',']).collect();
    words.sort_unstable();
    words
}

#[test]
fn every_act_is_written_and_read_as_before_groups() {
    let acts = every();
    assert_eq!(ACTS.lines().count(), acts.len());
    for (act, text) in acts.into_iter().zip(ACTS.lines()) {
        assert_eq!(serde_json::to_string(&act).expect("written"), text);
        assert_eq!(serde_json::from_str::<Action>(text).expect(text), act);
    }
}

#[test]
fn the_texts_hold_every_act_and_no_name_stands_in_two_groups() {
    let written = ACTS.lines().map(|text| {
        let act: Map<String, Value> = serde_json::from_str(text).expect(text);
        act[NAME].as_str().expect(text).to_owned()
    });
    let mut written: Vec<String> = written.collect();
    written.sort_unstable();
    written.dedup();
    let mut known: Vec<&str> = GROUPS.iter().flat_map(|g| (g.names)()).copied().collect();
    known.sort_unstable();
    assert_eq!(written, known);
}

#[test]
fn what_is_no_act_is_refused_in_the_words_of_before() {
    let mut lines = WRONG.lines();
    while let (Some(text), Some(said)) = (lines.next(), lines.next()) {
        let e = serde_json::from_str::<Action>(text)
            .expect_err(text)
            .to_string();
        assert_eq!(sorted(&e), sorted(said.trim_start()), "{text}: {e}");
    }
}
