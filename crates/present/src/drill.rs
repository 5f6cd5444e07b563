//! An unknown vehicle on paper: what can be read, slips of what was read, and the figures of a debrief.

use lowside_fluids::Refrigerant;
use lowside_lessons::{
    Coat, Shown as Known, Touch,
    rivals::{Case, Channel},
};
use lowside_session::{
    Action, HoseAct, InstrumentAct, Reading, TICKS_PER_SECOND,
    action::{FaultId, Meter, Wheel},
    reading::Value,
};
pub use lowside_shop::fault::{Cure, Fault, Severity};
use lowside_shop::{
    detect::Spot,
    fault::{Device, Place, Table},
    meters::Point,
    senses::{Feel, Surface},
};
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Mass, Quantity, Ratio, RotationSpeed, Speed,
    Temperature,
    display::{self, Shown, UnitSystem},
};

/// What a reading showed, to be written down.
#[derive(Debug, Clone, PartialEq)]
pub enum Figure {
    /// A quantity.
    Quantity(Shown),
    /// Volts and amperes.
    Electric([f64; 2]),
    /// Something was found there, or not.
    Found(bool),
    /// How a surface feels.
    Touch(Touch),
    /// What clings to it.
    Coat(Coat),
}

/// A slip: one reading on paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Slip {
    /// Its number, from 1.
    pub number: u32,
    /// When, bay time.
    pub clock: Shown,
    /// What was read, and where.
    pub meter: Meter,
    /// What it showed.
    pub figures: Vec<Figure>,
}

/// The slips of readings, in their order.
pub fn slips(readings: &[Reading], units: UnitSystem) -> Vec<Slip> {
    let slip = |(number, reading): (u32, &Reading)| Slip {
        number,
        clock: display::duration(Duration::from_s(
            reading.tick as f64 / TICKS_PER_SECOND as f64,
        )),
        meter: reading.meter,
        figures: figures(reading.value, units),
    };
    (1..).zip(readings).map(slip).collect()
}

fn figures(value: Value, units: UnitSystem) -> Vec<Figure> {
    let quantity = match value {
        Value::Gauge(p) => display::gauge_pressure(p, units),
        Value::Absolute(p) => display::vacuum(p, units),
        Value::Temperature(t) => display::temperature(t, units),
        Value::Share(share) => display::ratio(share),
        Value::Mass(m) => display::mass(m, units),
        Value::Speed(v) => display::air_speed(v, units),
        Value::Rotation(n) => display::rotation(n),
        Value::Time(t) => display::duration(t),
        Value::Electric(both) => return vec![Figure::Electric(both)],
        Value::Found(found) => return vec![Figure::Found(found)],
        Value::Feel(Feel { touch, coat }) => {
            return vec![Figure::Touch(touch), Figure::Coat(coat)];
        }
    };
    vec![Figure::Quantity(quantity)]
}

/// One number of a channel, SI, as the instrument would show it.
pub fn figure(channel: Channel, si: f64, units: UnitSystem) -> Figure {
    let temperature = |k| display::temperature(Temperature::from_si(k), units);
    Figure::Quantity(match channel.meter {
        Meter::LowGauge | Meter::HighGauge => {
            display::gauge_pressure(GaugePressure::from_si(si), units)
        }
        Meter::VacuumGauge(_) => {
            display::vacuum(AbsolutePressure::from_si(libm::exp(si).max(0.0)), units)
        }
        Meter::VentThermometer | Meter::CabinThermometer | Meter::Thermometer | Meter::Clamp(_) => {
            temperature(si)
        }
        Meter::Hygrometer | Meter::Identifier(_) | Meter::IdentifierAir => {
            display::ratio(Ratio::from_si(si))
        }
        Meter::Anemometer => display::air_speed(Speed::from_si(si), units),
        Meter::Tachometer(_) => display::rotation(RotationSpeed::from_rpm(si)),
        Meter::Scale => display::mass(Mass::from_si(si), units),
        Meter::Stopwatch => display::duration(Duration::from_si(si)),
        Meter::ClutchMeter if channel.part == 0 => return Figure::Electric([si, f64::NAN]),
        Meter::ClutchMeter => return Figure::Electric([f64::NAN, si]),
        Meter::Search(_) => return Figure::Found(si > 0.5),
        Meter::Surface(_) if channel.part == 0 => return Figure::Touch(touch(si)),
        Meter::Surface(_) => return Figure::Coat(coat(si)),
    })
}

/// The steps of touch by their number, one apart.
fn touch(step: f64) -> Touch {
    let steps = [Touch::Icy, Touch::Cool, Touch::AsTheDay, Touch::Warm];
    let over = |(n, _): &(usize, Touch)| step < *n as f64 + 0.5;
    let found = steps.into_iter().enumerate().find(over);
    found.map_or(Touch::TooHot, |(_, touch)| touch)
}

fn coat(step: f64) -> Coat {
    if step < 0.5 {
        Coat::Dry
    } else if step < 1.5 {
        Coat::Dew
    } else {
        Coat::Frost
    }
}

/// An instrument on the list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToRead {
    /// What is read, and where.
    pub meter: Meter,
    /// What has to be done first; none where it can be read now.
    pub first: Option<Action>,
}

/// What can be read: gauges and what is looked at, then every place of the clamp, then every surface for the hand.
pub fn to_read(shown: &Known<'_>) -> [Vec<ToRead>; 3] {
    let hands = &shown.hands;
    let coupled = |on: bool, act: HoseAct| (!on).then_some(Action::from(act));
    let now = |meter| ToRead { meter, first: None };
    let gas: Refrigerant = shown.printed.built_for;
    let sampled = shown.sample.is_some();
    let identify = Action::from(InstrumentAct::Identify {
        port: lowside_session::Port::Low,
    });
    let sample = |meter| ToRead {
        meter,
        first: (!sampled).then_some(identify),
    };
    let looked_at = vec![
        ToRead {
            meter: Meter::LowGauge,
            first: coupled(hands.low_coupled, HoseAct::LowCoupler { on: true }),
        },
        ToRead {
            meter: Meter::HighGauge,
            first: coupled(hands.high_coupled, HoseAct::HighCoupler { on: true }),
        },
        now(Meter::VentThermometer),
        now(Meter::CabinThermometer),
        now(Meter::Anemometer),
        now(Meter::Tachometer(Wheel::Hub)),
        now(Meter::Tachometer(Wheel::Pulley)),
        ToRead {
            meter: Meter::ClutchMeter,
            first: (!hands.clutch_meter).then_some(InstrumentAct::ClutchMeter { on: true }.into()),
        },
        sample(Meter::Identifier(gas)),
        sample(Meter::IdentifierAir),
    ];
    let clamp = |at| ToRead {
        meter: Meter::Clamp(at),
        first: (hands.clamp != Some(at)).then_some(InstrumentAct::Clamp { at: Some(at) }.into()),
    };
    let surfaces = Surface::ALL.into_iter().zip(shown.surfaces);
    let within_reach = surfaces.filter(|(_, feel)| feel.is_some());
    [
        looked_at,
        Point::ALL.map(clamp).to_vec(),
        within_reach
            .map(|(at, _)| now(Meter::Surface(at)))
            .collect(),
    ]
}

/// Where a meter is read, if that is not always the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Where {
    /// A place of the clamp.
    Point(Point),
    /// A surface.
    Surface(Surface),
    /// A place of the leak search.
    Spot(Spot),
    /// A wheel of the clutch.
    Wheel(Wheel),
    /// The gas whose share is read.
    Gas(Refrigerant),
    /// The share of air.
    Air,
}

/// Returns it.
pub fn place(meter: Meter) -> Option<Where> {
    match meter {
        Meter::Clamp(at) => Some(Where::Point(at)),
        Meter::Surface(at) => Some(Where::Surface(at)),
        Meter::Search(at) => Some(Where::Spot(at)),
        Meter::Tachometer(wheel) => Some(Where::Wheel(wheel)),
        Meter::Identifier(gas) => Some(Where::Gas(gas)),
        Meter::IdentifierAir => Some(Where::Air),
        _ => None,
    }
}

/// What can be said: that nothing is wrong, then every suspect.
pub fn suspects() -> Vec<FaultId> {
    let faults = Case::suspects().map(FaultId::from);
    core::iter::once(FaultId::NOTHING).chain(faults).collect()
}

/// Every cure of a suspect, once, with a fault that says it in words.
pub fn cures() -> Vec<(Cure, &'static Fault)> {
    let mut all: Vec<(Cure, &'static Fault)> = Vec::new();
    for fault in Case::suspects() {
        if !all.iter().any(|(cure, _)| *cure == fault.cure) {
            all.push((fault.cure, fault));
        }
    }
    all
}

/// Where a suspect is looked for in the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// What the loop holds.
    Loop,
    /// Parts.
    Parts,
    /// Switches, leads, fans and doors.
    Controls,
    /// Narrowed passages.
    Passages,
    /// The shop's own gauges and couplers.
    Gauges,
}

impl Group {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Loop,
        Self::Parts,
        Self::Controls,
        Self::Passages,
        Self::Gauges,
    ];

    /// That of a fault.
    pub fn of(fault: &Fault) -> Self {
        match (fault.field.table, fault.place) {
            (Table::Start, _) => Self::Loop,
            (Table::Restriction, _) => Self::Passages,
            (
                _,
                Place::Device(
                    Device::CompoundGauge
                    | Device::HighGauge
                    | Device::LowCoupler
                    | Device::HighCoupler,
                ),
            ) => Self::Gauges,
            (_, Place::Device(_)) => Self::Controls,
            _ => Self::Parts,
        }
    }
}
