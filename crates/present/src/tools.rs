//! What hangs on the service hose, how its controls stand, and what the tools beside it show.

use lowside_lessons::Shown as Known;
use lowside_session::{Action, InstrumentAct, MachineAct, Port, VesselAct};
use lowside_shop::{Attached, can::Stance, conversion::Breach, vacuum::GaugePlace};
use lowside_units::{
    Duration, GaugePressure, Mass, Quantity, Ratio, Speed, Temperature, VolumeFlow,
    display::{self, Shown, Style, UnitSystem},
};

use crate::{
    controls::Setting,
    record,
    retrofit::{self, Charge},
};

use lowside_fluids::Blend;
pub use lowside_fluids::Refrigerant;
pub use lowside_lessons::shown::Searched;
pub use lowside_plant::leak::Site;
pub use lowside_shop::{
    detect::{Means, Sensitivity, Spot},
    fault::Device,
    meters::{Glass, Point},
    protection::{Protection, Worn},
};

/// Something that can be taken and put on the service hose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tool {
    /// A can with a piercing tap.
    Can,
    /// A self-sealing can.
    SelfSealingCan,
    /// A can of another gas that fits: whoever does not read the label takes it.
    OtherCan,
    /// The vacuum pump, small (1.5 cfm) or large (6 cfm).
    Pump {
        /// The large one.
        large: bool,
    },
    /// The recovery machine.
    Machine,
    /// The charging cylinder.
    Cylinder,
    /// Dry nitrogen.
    Nitrogen,
}

/// Displacement of the two pumps.
fn pump_speed(large: bool) -> VolumeFlow {
    VolumeFlow::from_cfm(if large { 6.0 } else { 1.5 })
}

/// Refrigerant in a charging cylinder as it is brought.
fn cylinder_holds() -> Mass {
    Mass::from_kg(10.0)
}

impl Tool {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Can,
        Self::SelfSealingCan,
        Self::OtherCan,
        Self::Machine,
        Self::Pump { large: true },
        Self::Pump { large: false },
        Self::Cylinder,
        Self::Nitrogen,
    ];

    /// How large it is, where there are several.
    pub fn size(self, units: UnitSystem) -> Option<Shown> {
        match self {
            Self::Pump { large } => Some(display::volume_flow(pump_speed(large), units)),
            _ => None,
        }
    }

    /// The act that takes it; none where there is no such thing.
    pub fn take(self, shown: &Known<'_>) -> Option<Action> {
        let gas = shown.hands.hoses;
        Some(match self {
            Self::Can => VesselAct::TakeCan.into(),
            Self::SelfSealingCan => VesselAct::TakeSelfSealingCan.into(),
            Self::OtherCan => VesselAct::TakeCanOf {
                gas: Blend::partner(gas)?,
            }
            .into(),
            Self::Pump { large } => MachineAct::TakePump {
                speed: pump_speed(large),
            }
            .into(),
            Self::Machine => MachineAct::TakeRecoveryMachine { gas }.into(),
            Self::Cylinder => VesselAct::TakeCylinder {
                gas,
                holds: cylinder_holds(),
            }
            .into(),
            Self::Nitrogen => VesselAct::TakeNitrogen.into(),
        })
    }
}

/// How the oil in the pump's glass looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PumpOilLook {
    /// Clear.
    Clear,
    /// Milky: water.
    Milky,
    /// Below the mark: blown out.
    Low,
}

/// What hangs on the service hose.
#[derive(Debug, Clone, PartialEq)]
pub enum Hung {
    /// Nothing.
    Nothing,
    /// A can; its controls are in [`crate::controls`].
    Can,
    /// The vacuum pump.
    Pump {
        /// It turns.
        on: bool,
        /// Its isolation valve is open.
        valve: bool,
        /// Its gas ballast is open.
        ballast: bool,
        /// Its oil.
        oil: PumpOilLook,
        /// Its displacement.
        size: Shown,
    },
    /// The charging cylinder.
    Cylinder {
        /// Its valve is open.
        open: bool,
        /// It gives liquid.
        liquid: bool,
        /// What is still to come of a set dose.
        dose: Option<Shown>,
        /// What it holds.
        holds: Shown,
    },
    /// The recovery machine.
    Machine {
        /// It runs.
        on: bool,
        /// Where it stops itself, kPa gauge.
        stop: Setting,
        /// What it has recovered.
        recovered: Shown,
        /// How full the cylinder is of what it may hold.
        full: Shown,
        /// Oil in its separator.
        oil: Shown,
    },
    /// Dry nitrogen.
    Nitrogen {
        /// Its valve is open.
        open: bool,
        /// Regulator, kPa gauge.
        set: Setting,
    },
}

/// The refrigerant identifier.
#[derive(Debug, Clone, PartialEq)]
pub enum Sample {
    /// No sample yet.
    None,
    /// Working on one: time left.
    Working(Shown),
    /// The last result.
    Result {
        /// Each gas and its share of the refrigerant.
        gases: Vec<(&'static str, Shown)>,
        /// Air in the whole sample.
        air: Shown,
        /// One gas to 98 % at least.
        pure: bool,
    },
}

/// Tools and their readings.
#[derive(Debug, Clone, PartialEq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a thing of its own that is so or not"
)]
pub struct Tools {
    /// What hangs on the service hose.
    pub hung: Hung,
    /// The gas that the gauge set's hoses are for.
    pub gas: &'static str,
    /// Another gas whose can fits, if there is one.
    pub other_gas: Option<&'static str>,
    /// What is worn.
    pub worn: Worn,
    /// The electronic vacuum gauge sits at the loop, not at the pump.
    pub vacuum_at_loop: bool,
    /// The identifier.
    pub sample: Sample,
    /// The last search of each place, none where there was none.
    pub search: Vec<(Spot, Option<Searched>)>,
    /// There is dye in the loop.
    pub dye: bool,
    /// Where the clamp thermometer sits, and what it reads.
    pub clamp: Option<(Point, Shown)>,
    /// What the manifold's sight glass shows.
    pub glass: Glass,
    /// Volts and amperes at the clutch, while the meter is connected.
    pub clutch: Option<[Shown; 2]>,
    /// Clutch hub and pulley, turns a minute.
    pub turning: [Shown; 2],
    /// A heater hose is pinched off.
    pub heater_pinched: bool,
    /// Cardboard stands over half the condenser.
    pub face_covered: bool,
    /// Air at the centre vent, and relative humidity in the bay.
    pub air: [Shown; 2],
    /// The stopwatch: running, and what it shows.
    pub stopwatch: (bool, Shown),
    /// Readings were noted before and after the work.
    pub noted: [bool; 2],
    /// What the dose and a new label are set to first, g: the label's charge, or that of a conversion.
    pub label_g: f64,
    /// The gas of that.
    pub hoses: Refrigerant,
    /// The charge calculator, for a vehicle that was built for R-12: it may get another gauge set.
    pub conversion: Option<Charge>,
    /// A new label is on and says all that it has to.
    pub labelled: bool,
    /// What the label that is on does not say.
    pub label_lacks: Vec<Breach>,
}

/// A gauge pressure as a setting in kPa.
fn kpa(pa: f64, units: UnitSystem) -> Setting {
    let p = GaugePressure::from_pa(pa);
    Setting {
        value: p.kpa().round(),
        shown: display::gauge_pressure(p, units),
    }
}

fn hung(shown: &Known<'_>, units: UnitSystem) -> Hung {
    let mass = |kg: f64| display::mass(Mass::from_kg(kg.max(0.0)), units);
    match shown.hands.attached {
        Attached::Nothing => Hung::Nothing,
        Attached::Can(_) => Hung::Can,
        Attached::Pump(p) => Hung::Pump {
            on: p.on,
            valve: p.valve_open,
            ballast: p.ballast,
            oil: if shown.pump_oil_low {
                PumpOilLook::Low
            } else if shown.pump_oil_milky {
                PumpOilLook::Milky
            } else {
                PumpOilLook::Clear
            },
            size: display::volume_flow(VolumeFlow::from_si(p.speed), units),
        },
        Attached::Cylinder(c) => Hung::Cylinder {
            open: c.open,
            liquid: c.stance == Stance::Inverted,
            dose: c
                .shuts_at
                .filter(|_| c.open)
                .map(|at| mass(shown.weighs - at)),
            holds: mass(shown.weighs),
        },
        Attached::Machine(m) => Hung::Machine {
            on: m.running,
            stop: kpa(m.stops_at, units),
            recovered: mass(shown.weighed.recovered),
            full: Style::new(0, "%").show(100.0 * shown.cylinder_full),
            oil: crate::bench::oil(shown.weighed.separator, units),
        },
        Attached::Nitrogen(n) => Hung::Nitrogen {
            open: n.open,
            set: kpa(n.set, units),
        },
    }
}

fn sample(shown: &Known<'_>) -> Sample {
    if let Some(left) = shown.sampling {
        return Sample::Working(display::duration(Duration::from_s(left.ceil())));
    }
    let Some(s) = shown.sample else {
        return Sample::None;
    };
    let share = |x: f64| Style::new(1, "%").show(100.0 * x);
    Sample::Result {
        gases: Refrigerant::ALL
            .map(|gas| (gas.name(), share(s.of(gas))))
            .into_iter()
            .chain([("HC", share(s.hydrocarbon))])
            .collect(),
        air: share(s.air),
        pure: s.pure(),
    }
}

impl Tools {
    /// Reads the tools.
    pub fn of(shown: &Known<'_>, units: UnitSystem) -> Self {
        let hands = &shown.hands;
        let gas = hands.hoses;
        let clock = |s: f64| display::duration(Duration::from_s(s));
        let label = Mass::from_kg(shown.printed.label_charge);
        let conversion = retrofit::charge(shown, units);
        let label_lacks = record::label_lacks(shown);
        Self {
            hung: hung(shown, units),
            gas: gas.name(),
            other_gas: Blend::partner(gas).map(Refrigerant::name),
            worn: shown.worn,
            vacuum_at_loop: hands.vacuum_gauge == GaugePlace::Loop,
            sample: sample(shown),
            search: Spot::all().zip(shown.searched).collect(),
            dye: shown.dye,
            clamp: hands
                .clamp
                .zip(shown.clamp)
                .map(|(p, t)| (p, display::temperature(Temperature::from_k(t), units))),
            glass: shown.glass,
            clutch: shown.clutch_meter.map(|(volts, amperes)| {
                [
                    Style::new(1, "V").show(volts),
                    Style::new(1, "A").show(amperes),
                ]
            }),
            turning: shown.turning.map(|n| Style::new(0, "rpm").show(n)),
            heater_pinched: shown.settings.heater_pinched,
            face_covered: shown.settings.face_covered,
            air: [
                display::air_speed(Speed::from_m_s(shown.anemometer), units),
                display::ratio(Ratio::from_fraction(shown.hygrometer)),
            ],
            stopwatch: (hands.timing, clock(shown.stopwatch)),
            noted: shown.noted.map(|n| n.is_some()),
            label_g: conversion
                .as_ref()
                .filter(|c| c.to == gas)
                .map_or(label.g().round(), |c| c.middle_g),
            hoses: gas,
            labelled: shown.label.is_some() && label_lacks.is_empty(),
            label_lacks,
            conversion,
        }
    }
}

/// The act that moves the vacuum gauge.
pub fn move_vacuum_gauge(to_loop: bool) -> Action {
    InstrumentAct::VacuumGauge {
        at: if to_loop {
            GaugePlace::Loop
        } else {
            GaugePlace::Pump
        },
    }
    .into()
}

/// The act that takes a sample.
pub fn identify(low: bool) -> Action {
    InstrumentAct::Identify {
        port: if low { Port::Low } else { Port::High },
    }
    .into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;

    #[test]
    fn each_tool_hangs_by_itself() {
        let mut bay = bay("healthy");
        for tool in Tool::ALL {
            let take = tool.take(&Known::of(&bay)).expect("a van has them all");
            bay.apply(take).unwrap();
            let hung = Tools::of(&Known::of(&bay), UnitSystem::SI).hung;
            let right = match tool {
                Tool::Can | Tool::SelfSealingCan | Tool::OtherCan => hung == Hung::Can,
                Tool::Pump { .. } => matches!(hung, Hung::Pump { on: false, .. }),
                Tool::Machine => matches!(hung, Hung::Machine { on: false, .. }),
                Tool::Cylinder => matches!(hung, Hung::Cylinder { open: false, .. }),
                Tool::Nitrogen => matches!(hung, Hung::Nitrogen { open: false, .. }),
            };
            assert!(right, "{tool:?} hangs as {hung:?}");
        }
        bay.apply(lowside_session::HoseAct::Disconnect).unwrap();
        assert_eq!(
            Tools::of(&Known::of(&bay), UnitSystem::SI).hung,
            Hung::Nothing
        );
    }

    /// Ohm: a coil of 3.0 to 3.6 ohm at 20 degC (workshop manuals) draws 3.8 to 4.6 A at 13.8 V, less as copper warms (IEC 60028); a meter
    /// that is not connected shows nothing.
    #[test]
    fn the_clutch_meter_has_to_be_connected() {
        let mut bay = bay("healthy");
        for _ in 0..60 * lowside_session::TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
        assert!(bay.plant().drive.engaged);
        assert_eq!(Tools::of(&Known::of(&bay), UnitSystem::SI).clutch, None);
        bay.apply(InstrumentAct::ClutchMeter { on: true }).unwrap();
        let tools = Tools::of(&Known::of(&bay), UnitSystem::SI);
        let [volts, amperes] = tools.clutch.expect("connected");
        assert_eq!(volts.to_string(), "13.8 V");
        let a: f64 = amperes.number.parse().expect("a number");
        let warm = 1.0 + 0.003_93 * (bay.plant().clutch.coil - 293.15);
        assert!((1.0..1.2).contains(&warm));
        assert!((3.8..=4.6).contains(&(a * warm)), "{amperes}");
        assert_eq!(tools.turning[0], tools.turning[1], "hub and pulley");
        assert_eq!(tools.glass, Glass::Clear);
        assert_ne!(tools.air[0].number, "0.0");
    }

    #[test]
    fn the_identifier_takes_its_time() {
        let mut bay = bay("healthy");
        assert_eq!(
            Tools::of(&Known::of(&bay), UnitSystem::SI).sample,
            Sample::None
        );
        bay.apply(identify(true)).unwrap();
        assert!(matches!(
            Tools::of(&Known::of(&bay), UnitSystem::SI).sample,
            Sample::Working(_)
        ));
        for _ in 0..80 * lowside_session::TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
        let Sample::Result { gases, pure, .. } = Tools::of(&Known::of(&bay), UnitSystem::SI).sample
        else {
            panic!("no result after 80 s");
        };
        assert!(pure && gases[0].1.to_string() == "100.0 %", "{gases:?}");
    }

    /// 5.0 m/s are 984 ft/min (0.3048 m a foot); an anemometer in ft/min shows tens.
    #[test]
    fn air_at_the_vent_is_told_in_the_units_chosen() {
        let mut bay = bay("healthy");
        for _ in 0..10 * lowside_session::TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
        let at = |units| Tools::of(&Known::of(&bay), units).air[0].clone();
        let (si, us) = (at(UnitSystem::SI), at(UnitSystem::US));
        assert_eq!((si.unit, us.unit), ("m/s", "ft/min"));
        let number = |x: &Shown| x.number.replace(' ', "").parse::<f64>().expect("a number");
        assert!(
            (number(&us) - number(&si) / 0.3048 * 60.0).abs() <= 10.0,
            "{si} and {us}"
        );
    }

    /// The high-pressure gauge of a charging set has no vacuum scale: its needle rests on the pin (common practice, no source).
    #[test]
    fn the_high_gauge_rests_at_zero_in_a_vacuum() {
        let mut bay = bay("charge-from-cans");
        for _ in 0..10 * lowside_session::TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
        let read = crate::readout::Readout::of(&Known::of(&bay), UnitSystem::US);
        assert_eq!(read.high.to_string(), "0 psig");
        assert_eq!(read.high_saturation, None);
        assert_eq!(read.low.unit, "inHg vac");
    }
}
