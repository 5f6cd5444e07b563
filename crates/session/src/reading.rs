//! What a reading showed: derived from the bay and the act, never stored, so that nobody can write a reading that was not there.

use core::fmt;

use lowside_shop::{
    meters,
    senses::{Coat, Feel, Touch},
};
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Mass, Quantity, Ratio, RotationSpeed, Speed,
    Temperature,
};

use crate::{
    action::{Action, LearnerAct, Meter, Wheel},
    bay::{Bay, Tick},
};

/// A reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// When.
    pub tick: Tick,
    /// What was read, and where.
    pub meter: Meter,
    /// What it showed, rounded as it shows it.
    pub value: Value,
}

/// What an instrument shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Value {
    /// A gauge pressure.
    Gauge(GaugePressure),
    /// An absolute pressure.
    Absolute(AbsolutePressure),
    /// A temperature.
    Temperature(Temperature),
    /// A share.
    Share(Ratio),
    /// A mass.
    Mass(Mass),
    /// A speed.
    Speed(Speed),
    /// A speed of rotation.
    Rotation(RotationSpeed),
    /// A time.
    Time(Duration),
    /// Volts and amperes.
    Electric([f64; 2]),
    /// Found or not.
    Found(bool),
    /// How a surface feels and what clings to it.
    Feel(Feel),
}

impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gauge(q) => q.fmt(f),
            Self::Absolute(q) => q.fmt(f),
            Self::Temperature(q) => q.fmt(f),
            Self::Share(q) => q.fmt(f),
            Self::Mass(q) => q.fmt(f),
            Self::Speed(q) => q.fmt(f),
            Self::Rotation(q) => q.fmt(f),
            Self::Time(q) => q.fmt(f),
            Self::Electric([volts, amperes]) => write!(f, "{volts:.1} V, {amperes:.1} A"),
            Self::Found(true) => f.write_str("found"),
            Self::Found(false) => f.write_str("not found"),
            Self::Feel(Feel { touch, coat }) => {
                f.write_str(match touch {
                    Touch::Icy => "icy",
                    Touch::Cool => "cool",
                    Touch::AsTheDay => "as the day",
                    Touch::Warm => "warm",
                    Touch::TooHot => "too hot to touch",
                })?;
                f.write_str(match coat {
                    Coat::Dry => ", dry",
                    Coat::Dew => ", wet",
                    Coat::Frost => ", frosted",
                })
            }
        }
    }
}

impl Reading {
    /// Returns what an act reads in a bay as it stands when the act is done; none if the act reads nothing, or there is nothing to read.
    pub fn of(bay: &Bay, act: Action) -> Option<Self> {
        let Action::Learner(LearnerAct::Read { instrument }) = act else {
            return None;
        };
        Some(Self {
            tick: bay.tick(),
            meter: instrument,
            value: shown(bay, instrument)?,
        })
    }
}

fn shown(bay: &Bay, meter: Meter) -> Option<Value> {
    let (plant, shop) = (bay.plant(), bay.shop());
    let i = &shop.instruments;
    let temperature = |k| Value::Temperature(Temperature::from_si(k));
    Some(match meter {
        Meter::LowGauge => Value::Gauge(GaugePressure::from_si(i.low.reading())),
        Meter::HighGauge => Value::Gauge(GaugePressure::from_si(i.high.reading())),
        Meter::VacuumGauge(_) => Value::Absolute(AbsolutePressure::from_si(i.vacuum.reading())),
        Meter::VentThermometer => temperature(i.vent.reading()),
        Meter::CabinThermometer => temperature(i.cabin.reading()),
        Meter::Thermometer => temperature(plant.day().t),
        Meter::Hygrometer => Value::Share(Ratio::from_si(meters::humidity(plant))),
        Meter::Clamp(_) => temperature(i.clamp.reading()),
        Meter::Anemometer => Value::Speed(Speed::from_si(meters::vent_speed(plant))),
        Meter::Tachometer(wheel) => {
            let [hub, pulley] = meters::turning(plant).map(RotationSpeed::from_rpm);
            Value::Rotation(match wheel {
                Wheel::Hub => hub,
                Wheel::Pulley => pulley,
            })
        }
        Meter::ClutchMeter => Value::Electric(meters::clutch(plant).into()),
        Meter::Scale => Value::Mass(Mass::from_si(i.scale.reading())),
        Meter::Stopwatch => Value::Time(Duration::from_si(i.stopwatch)),
        Meter::Identifier(gas) => Value::Share(Ratio::from_si(shop.identifier.result()?.of(gas))),
        Meter::IdentifierAir => Value::Share(Ratio::from_si(shop.identifier.result()?.air)),
        Meter::Search(at) => Value::Found(shop.search[at.index()]?.found),
        Meter::Surface(surface) => Value::Feel(Feel::of(surface, plant, shop)?),
    })
}
