//! Random acts, from a seed.

use lowside_fluids::Refrigerant;
use lowside_plant::loose::{Lead, Plug};
use lowside_session::{
    Action, BenchAct, FixingAct, HoseAct, InstructorAct, InstrumentAct, LearnerAct, MachineAct,
    RecordAct, VehicleAct, VesselAct,
    action::{Evidence, FaultId, Meter},
};
use lowside_shop::{
    detect::{SPOTS, Sensitivity, Spot},
    fault::{self, Cure, Device, Severity},
    fixings::JointTool,
    flush::Flush,
    identifier::Port,
    joints::{Joint, LowPort, Seal, Side},
    label::{Particulars, written},
    meters::Point,
    oil::OilKind,
    parts::{PARTS, Part},
    protection::Protection,
    vacuum::GaugePlace,
};
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Length, Mass, Ratio, RotationSpeed, Speed,
    Temperature, Volume, VolumeFlow,
};

/// A small generator (xorshift64*, Vigna 2016): the same numbers everywhere.
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// A generator for a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_f491_4f6c_dd1d)
    }

    /// A number from 0 to 1.
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A number between two.
    pub fn between(&mut self, lo: f64, hi: f64) -> f64 {
        lo + (hi - lo) * self.unit()
    }

    /// True so often.
    pub fn chance(&mut self, share: f64) -> bool {
        self.unit() < share
    }
}

/// Some act with the vacuum pump, its gauge or the air outside.
fn vacuum(dice: &mut Dice, on: bool) -> Action {
    match dice.bits() % 10 {
        0 | 1 => MachineAct::TakePump {
            speed: VolumeFlow::from_cfm(dice.between(1.4, 8.1)),
        }
        .into(),
        2 | 3 => MachineAct::Pump { on }.into(),
        4 | 5 => MachineAct::Isolation { on }.into(),
        6 => MachineAct::Ballast { on }.into(),
        7 if on => MachineAct::PumpOil.into(),
        7 => HoseAct::Disconnect.into(),
        8 => InstrumentAct::VacuumGauge {
            at: if on {
                GaugePlace::Loop
            } else {
                GaugePlace::Pump
            },
        }
        .into(),
        _ => VehicleAct::AirPressure {
            pressure: AbsolutePressure::from_kpa(dice.between(59.0, 111.0)),
        }
        .into(),
    }
}

/// Some act, wise or not, sometimes outside what can be set.
pub fn any(dice: &mut Dice) -> Action {
    let on = dice.chance(0.6);
    let open = Ratio::from_fraction(if dice.chance(0.3) {
        0.0
    } else {
        dice.between(0.0, 1.02)
    });
    match dice.bits() % 40 {
        0 | 1 => VehicleAct::Engine { on }.into(),
        2 => VehicleAct::EngineSpeed {
            speed: RotationSpeed::from_rpm(dice.between(450.0, 5050.0)),
        }
        .into(),
        3 | 4 => VehicleAct::AirConditioning { on }.into(),
        5 => VehicleAct::Blower {
            step: u8::try_from(dice.bits() % 6).unwrap_or(0),
        }
        .into(),
        6 if on => VehicleAct::Recirculation {
            on: dice.chance(0.5),
        }
        .into(),
        6 => VehicleAct::Windows {
            on: dice.chance(0.5),
        }
        .into(),
        7 => VehicleAct::RoadSpeed {
            speed: Speed::from_m_s(dice.between(0.0, 41.0)),
        }
        .into(),
        8 => VehicleAct::Ambient {
            temperature: Temperature::from_k(dice.between(262.0, 324.0)),
        }
        .into(),
        9 => VehicleAct::Humidity {
            share: Ratio::from_fraction(dice.between(0.04, 1.0)),
        }
        .into(),
        10 if dice.chance(0.3) => HoseAct::LowPort {
            at: if on {
                LowPort::Compressor
            } else {
                LowPort::Accumulator
            },
        }
        .into(),
        10 => HoseAct::LowCoupler { on }.into(),
        11 => HoseAct::HighCoupler { on }.into(),
        12 | 13 => HoseAct::LowValve { open }.into(),
        14 => HoseAct::HighValve { open }.into(),
        15 => HoseAct::Purge { on }.into(),
        16 => VesselAct::TakeCan.into(),
        17 => {
            if dice.chance(0.3) {
                VesselAct::RemoveCan.into()
            } else {
                VesselAct::Invert { on }.into()
            }
        }
        18 => VesselAct::Tap { on }.into(),
        19..=22 => vacuum(dice, on),
        23..=29 => at_the_hose(dice, on),
        30 => VesselAct::TakeCanOf {
            gas: if on {
                Refrigerant::R12
            } else {
                Refrigerant::R134a
            },
        }
        .into(),
        31 => InstrumentAct::Identify {
            port: if on { Port::Low } else { Port::High },
        }
        .into(),
        32..=36 => at_the_bench(dice, on),
        37 | 38 if dice.chance(0.3) => beside_the_work(dice, on),
        37 | 38 => with_instruments(dice, on),
        39 if dice.chance(0.5) => at_the_fixings(dice, on),
        _ => VesselAct::Bath {
            temperature: dice
                .chance(0.7)
                .then(|| Temperature::from_k(dice.between(270.0, 360.0))),
        }
        .into(),
    }
}

/// Some act on what holds, drives and feeds parts.
fn at_the_fixings(dice: &mut Dice, on: bool) -> Action {
    let one = |dice: &mut Dice, of: usize| usize::try_from(dice.bits() % of as u64).unwrap_or(0);
    let part = Part::ALL[one(dice, PARTS)];
    match one(dice, 9) {
        0 => FixingAct::Battery { on }.into(),
        1 | 2 => FixingAct::Plug {
            at: Lead::ALL[one(dice, Lead::ALL.len())],
            state: [Plug::On, Plug::Off, Plug::Bridged][one(dice, 3)],
        }
        .into(),
        3 => FixingAct::Belt { on }.into(),
        4 => FixingAct::Bolts { part, on }.into(),
        5 => FixingAct::PartCaps { part, on }.into(),
        6 => FixingAct::JointTool {
            tool: [
                JointTool::Fitting,
                JointTool::Wrenches,
                JointTool::SpringLock,
            ][one(dice, 3)],
        }
        .into(),
        7 => FixingAct::TurnHub.into(),
        _ => VesselAct::Rock { on }.into(),
    }
}

/// Some fault that comes about, or goes; not among [`any`]: with a few of them no loop goes on.
pub fn planted(dice: &mut Dice) -> Action {
    let on = dice.chance(0.5);
    let faults: Vec<FaultId> = fault::all().map(FaultId::from).collect();
    let n = faults.len() as u64;
    let fault = faults[usize::try_from(dice.bits() % n).unwrap_or(0)];
    let mut time = |most: f64| {
        let chosen = dice.chance(0.5).then(|| dice.between(0.0, most));
        Duration::from_s(chosen.unwrap_or(0.0))
    };
    let (after, over) = (time(60.0), time(120.0));
    if dice.chance(0.3) {
        return InstructorAct::ClearFault { fault, secret: on }.into();
    }
    InstructorAct::PlantFault {
        fault,
        severity: Severity::ALL[usize::try_from(dice.bits() % 4).unwrap_or(0)],
        after,
        over,
        secret: on,
    }
    .into()
}

/// Some reading, suspicion, diagnosis or protection.
fn beside_the_work(dice: &mut Dice, on: bool) -> Action {
    let some = |dice: &mut Dice, n: usize| usize::try_from(dice.bits() % n as u64).unwrap_or(0);
    let faults: Vec<FaultId> = fault::all().map(FaultId::from).collect();
    let fault = faults[some(dice, faults.len())];
    match some(dice, 8) {
        0 => LearnerAct::Wear {
            what: if dice.chance(0.5) {
                Protection::Goggles
            } else {
                Protection::Gloves
            },
            on,
        }
        .into(),
        1 => LearnerAct::Suspect {
            fault,
            certainty: Ratio::from_fraction(dice.between(-0.02, 1.02)),
        }
        .into(),
        2 => LearnerAct::Commit {
            fault,
            severity: Severity::ALL[some(dice, 4)],
            evidence: Evidence::of(&[1, 2][..some(dice, 3)]).expect("few"),
            repair: Cure::Charge,
        }
        .into(),
        _ => LearnerAct::Read {
            instrument: [
                Meter::LowGauge,
                Meter::HighGauge,
                Meter::Scale,
                Meter::Clamp(Point::Suction),
                Meter::Search(Spot::Joint(Joint::EvaporatorIn)),
            ][some(dice, 5)],
        }
        .into(),
    }
}

/// Some act with cylinder, machine or a can's tap.
fn at_the_hose(dice: &mut Dice, on: bool) -> Action {
    let gas = if dice.chance(0.9) {
        Refrigerant::R134a
    } else {
        Refrigerant::R12
    };
    match dice.bits() % 10 {
        0 => VesselAct::TakeSelfSealingCan.into(),
        1 => VesselAct::TapScrew {
            back: Ratio::from_fraction(dice.between(0.0, 1.02)),
        }
        .into(),
        2 => VesselAct::TakeCylinder {
            gas,
            holds: Mass::from_kg(dice.between(0.4, 14.0)),
        }
        .into(),
        3 => VesselAct::Dose {
            mass: Mass::from_kg(dice.between(0.0, 2.0)),
        }
        .into(),
        4 | 5 => MachineAct::TakeRecoveryMachine { gas }.into(),
        6 => MachineAct::RecoveryMachine { on }.into(),
        7 => MachineAct::RecoveryStop {
            pressure: GaugePressure::from_kpa(dice.between(-95.0, 0.0)),
        }
        .into(),
        8 => MachineAct::ChangeCylinder {
            holds: Mass::from_kg(dice.between(-0.1, 10.2)),
        }
        .into(),
        _ if dice.chance(0.5) => HoseAct::Disconnect.into(),
        _ => InstrumentAct::ZeroScale.into(),
    }
}

/// Some act on joints, parts, ports or oil.
fn at_the_bench(dice: &mut Dice, on: bool) -> Action {
    let one = |dice: &mut Dice, of: usize| usize::try_from(dice.bits() % of as u64).unwrap_or(0);
    let joint = Joint::ALL[one(dice, Joint::ALL.len())];
    let part = Part::ALL[one(dice, PARTS)];
    let side = if on { Side::Low } else { Side::High };
    let volume = Volume::from_cm3(dice.between(0.0, 300.0));
    let oil = if dice.chance(0.8) {
        OilKind::Pag46
    } else {
        OilKind::Mineral
    };
    match one(dice, 20) {
        0 | 1 => BenchAct::OpenJoint { joint }.into(),
        2 => BenchAct::CapJoint { joint }.into(),
        3 => BenchAct::CloseJoint {
            joint,
            seal: [Seal::NewOiled, Seal::OldDry, Seal::Missing][one(dice, 3)],
        }
        .into(),
        4 | 5 => BenchAct::RemovePart { part }.into(),
        6 => BenchAct::RefitPart { part }.into(),
        7 => BenchAct::NewPart { part }.into(),
        8 => BenchAct::FitOrifice {
            bore: Length::from_mm(dice.between(0.7, 3.1)),
            reversed: on,
            rings: dice.chance(0.5),
        }
        .into(),
        9 => BenchAct::DrainPart { part }.into(),
        10 => BenchAct::PourOil { part, volume, oil }.into(),
        11 => BenchAct::InjectOil { volume, oil }.into(),
        12 => BenchAct::PortCap { side, on }.into(),
        13 => BenchAct::ConvertPort { side, new_core: on }.into(),
        14 => BenchAct::FitCutOut {
            opens: GaugePressure::from_kpa(dice.between(1950.0, 3350.0)),
        }
        .into(),
        15 => BenchAct::SwitchScrew {
            quarters: if on { -3 } else { 2 },
        }
        .into(),
        16 => BenchAct::RenewSeals.into(),
        17 => BenchAct::FlushPart {
            part,
            with: if on { Flush::Solvent } else { Flush::Nitrogen },
        }
        .into(),
        18 => HoseAct::GaugeSet {
            gas: if on {
                Refrigerant::R134a
            } else {
                Refrigerant::R12
            },
        }
        .into(),
        _ => BenchAct::ValveCore { side, fitted: on }.into(),
    }
}

/// Some act with nitrogen, detector, lamp or other instruments.
fn with_instruments(dice: &mut Dice, on: bool) -> Action {
    let at = Spot::all()
        .nth(usize::try_from(dice.bits() % SPOTS as u64).unwrap_or(0))
        .expect("one of them");
    match dice.bits() % 12 {
        0 | 1 => VesselAct::TakeNitrogen.into(),
        2 | 3 => VesselAct::Regulator {
            pressure: GaugePressure::from_kpa(dice.between(-10.0, 1050.0)),
        }
        .into(),
        4 => InstrumentAct::Sniff {
            at,
            sensitivity: Sensitivity::High,
            distance: Length::from_mm(dice.between(0.0, 110.0)),
            wind: Speed::from_m_s(dice.between(0.0, 11.0)),
        }
        .into(),
        5 => InstrumentAct::Soap { at }.into(),
        6 => InstrumentAct::Dye.into(),
        7 => InstrumentAct::Lamp { at }.into(),
        8 => InstrumentAct::Clamp {
            at: on.then_some(Point::LiquidLine),
        }
        .into(),
        9 if dice.bits().is_multiple_of(2) => InstrumentAct::ClutchMeter { on }.into(),
        9 if dice.chance(0.2) => {
            let which = dice.bits() % Device::ALL.len() as u64;
            let device = Device::ALL[usize::try_from(which).unwrap_or(0)];
            VehicleAct::Mend { device }.into()
        }
        9 if dice.chance(0.2) => VehicleAct::MistCondenser.into(),
        9 if dice.chance(0.2) => VehicleAct::WarmOrifice.into(),
        9 if dice.chance(0.2) => VehicleAct::CoverCondenser { on }.into(),
        9 if on => VehicleAct::HeaterHose {
            pinched: dice.bits().is_multiple_of(2),
        }
        .into(),
        9 => InstrumentAct::Stopwatch { on }.into(),
        10 if on => RecordAct::PerformanceTest.into(),
        10 => RecordAct::NoteReadings { after: on }.into(),
        _ => RecordAct::Label {
            charge: Mass::from_kg(dice.between(0.0, 3.2)),
            gas: on.then_some(Refrigerant::R12),
            oil: on.then_some(OilKind::Ester),
            particulars: Particulars {
                technician: written(if on { "A. Technician" } else { "" }),
                oil_volume: on.then(|| Volume::from_l(dice.between(-0.1, 1.1))),
                old_covered: on,
                ..Particulars::default()
            },
        }
        .into(),
    }
}
