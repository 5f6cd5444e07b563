//! Random acts, from a seed.

use lowside_fluids::Gas;
use lowside_session::Action;
use lowside_shop::{
    detect::{SPOTS, Sensitivity, Spot},
    flush::Flush,
    identifier::Port,
    joints::{Joint, Seal, Side, Tap},
    label::{Particulars, written},
    meters::Point,
    oil::OilKind,
    parts::{PARTS, Part},
    vacuum::GaugePlace,
};
use lowside_units::{
    AbsolutePressure, GaugePressure, Length, Mass, Ratio, RotationSpeed, Speed, Temperature,
    Volume, VolumeFlow,
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
        0 | 1 => Action::TakePump {
            speed: VolumeFlow::from_cfm(dice.between(1.4, 8.1)),
        },
        2 | 3 => Action::Pump { on },
        4 | 5 => Action::Isolation { on },
        6 => Action::Ballast { on },
        7 if on => Action::PumpOil,
        7 => Action::Disconnect,
        8 => Action::VacuumGauge {
            at: if on {
                GaugePlace::Loop
            } else {
                GaugePlace::Pump
            },
        },
        _ => Action::AirPressure {
            pressure: AbsolutePressure::from_kpa(dice.between(59.0, 111.0)),
        },
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
        0 | 1 => Action::Engine { on },
        2 => Action::EngineSpeed {
            speed: RotationSpeed::from_rpm(dice.between(450.0, 5050.0)),
        },
        3 | 4 => Action::AirConditioning { on },
        5 => Action::Blower {
            step: u8::try_from(dice.bits() % 6).unwrap_or(0),
        },
        6 if on => Action::Recirculation {
            on: dice.chance(0.5),
        },
        6 => Action::Windows {
            on: dice.chance(0.5),
        },
        7 => Action::RoadSpeed {
            speed: Speed::from_m_s(dice.between(0.0, 41.0)),
        },
        8 => Action::Ambient {
            temperature: Temperature::from_k(dice.between(262.0, 324.0)),
        },
        9 => Action::Humidity {
            share: Ratio::from_fraction(dice.between(0.04, 1.0)),
        },
        10 if dice.chance(0.3) => Action::LowTap {
            at: if on {
                Tap::Compressor
            } else {
                Tap::Accumulator
            },
        },
        10 => Action::LowCoupler { on },
        11 => Action::HighCoupler { on },
        12 | 13 => Action::LowValve { open },
        14 => Action::HighValve { open },
        15 => Action::Purge { on },
        16 => Action::TakeCan,
        17 => {
            if dice.chance(0.3) {
                Action::DropCan
            } else {
                Action::Invert { on }
            }
        }
        18 => Action::Tap { on },
        19..=22 => vacuum(dice, on),
        23..=29 => at_the_hose(dice, on),
        30 => Action::TakeCanOf {
            gas: if on { Gas::R12 } else { Gas::R134a },
        },
        31 => Action::Identify {
            port: if on { Port::Low } else { Port::High },
        },
        32..=36 => at_the_bench(dice, on),
        37 | 38 => with_instruments(dice, on),
        _ => Action::Bath {
            temperature: dice
                .chance(0.7)
                .then(|| Temperature::from_k(dice.between(270.0, 360.0))),
        },
    }
}

/// Some act with cylinder, machine or a can's tap.
fn at_the_hose(dice: &mut Dice, on: bool) -> Action {
    let gas = if dice.chance(0.9) {
        Gas::R134a
    } else {
        Gas::R12
    };
    match dice.bits() % 10 {
        0 => Action::TakeSelfSealingCan,
        1 => Action::TapScrew {
            back: Ratio::from_fraction(dice.between(0.0, 1.02)),
        },
        2 => Action::TakeCylinder {
            gas,
            holds: Mass::from_kg(dice.between(0.4, 14.0)),
        },
        3 => Action::Dose {
            mass: Mass::from_kg(dice.between(0.0, 2.0)),
        },
        4 | 5 => Action::TakeMachine { gas },
        6 => Action::Machine { on },
        7 => Action::MachineStop {
            pressure: GaugePressure::from_kpa(dice.between(-95.0, 0.0)),
        },
        8 => Action::ChangeCylinder {
            holds: Mass::from_kg(dice.between(-0.1, 10.2)),
        },
        _ if dice.chance(0.5) => Action::Disconnect,
        _ => Action::ZeroScale,
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
        0 | 1 => Action::OpenJoint { joint },
        2 => Action::CapJoint { joint },
        3 => Action::CloseJoint {
            joint,
            seal: [Seal::NewOiled, Seal::OldDry, Seal::Missing][one(dice, 3)],
        },
        4 | 5 => Action::RemovePart { part },
        6 => Action::RefitPart { part },
        7 => Action::NewPart { part },
        8 => Action::FitOrifice {
            bore: Length::from_mm(dice.between(0.7, 3.1)),
            reversed: on,
            rings: dice.chance(0.5),
        },
        9 => Action::DrainPart { part },
        10 => Action::PourOil { part, volume, oil },
        11 => Action::InjectOil { volume, oil },
        12 => Action::PortCap { side, on },
        13 => Action::ConvertPort { side, new_core: on },
        14 => Action::FitCutOut {
            opens: GaugePressure::from_kpa(dice.between(1950.0, 3350.0)),
        },
        15 => Action::SwitchScrew {
            quarters: if on { -3 } else { 2 },
        },
        16 => Action::RenewSeals,
        17 => Action::FlushPart {
            part,
            with: if on { Flush::Solvent } else { Flush::Nitrogen },
        },
        18 => Action::GaugeSet {
            gas: if on { Gas::R134a } else { Gas::R12 },
        },
        _ => Action::Core { side, fitted: on },
    }
}

/// Some act with nitrogen, detector, lamp or other instruments.
fn with_instruments(dice: &mut Dice, on: bool) -> Action {
    let at = Spot::all()
        .nth(usize::try_from(dice.bits() % SPOTS as u64).unwrap_or(0))
        .expect("one of them");
    match dice.bits() % 12 {
        0 | 1 => Action::TakeNitrogen,
        2 | 3 => Action::Regulator {
            pressure: GaugePressure::from_kpa(dice.between(-10.0, 1050.0)),
        },
        4 => Action::Sniff {
            at,
            sensitivity: Sensitivity::High,
            distance: Length::from_mm(dice.between(0.0, 110.0)),
            wind: Speed::from_m_s(dice.between(0.0, 11.0)),
        },
        5 => Action::Soap { at },
        6 => Action::Dye,
        7 => Action::Lamp { at },
        8 => Action::Clamp {
            at: on.then_some(Point::LiquidLine),
        },
        9 if dice.bits().is_multiple_of(2) => Action::ClutchMeter { on },
        9 if on => Action::HeaterHose {
            pinched: dice.bits().is_multiple_of(2),
        },
        9 => Action::Stopwatch { on },
        10 if on => Action::PerformanceTest,
        10 => Action::NoteReadings { after: on },
        _ => Action::Label {
            charge: Mass::from_kg(dice.between(0.0, 3.2)),
            gas: on.then_some(Gas::R12),
            oil: on.then_some(OilKind::Ester),
            particulars: Particulars {
                technician: written(if on { "A. Technician" } else { "" }),
                oil_volume: on.then(|| Volume::from_l(dice.between(-0.1, 1.1))),
                old_covered: on,
                ..Particulars::default()
            },
        },
    }
}
