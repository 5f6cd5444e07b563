//! The numbers of a reading, and how far each may be from the truth.

use lowside_session::{
    action::{Meter, Wheel},
    reading::Value,
};
use lowside_shop::senses::{Coat, Touch};
use lowside_units::Quantity;

use crate::draw::error;

/// One number that a meter gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Channel {
    /// The meter, and where it is read.
    pub meter: Meter,
    /// Which of its numbers: a surface has two, how it feels and what clings to it.
    pub part: usize,
}

/// How far a number may be from the truth, in its unit. All own figures but those of [`error`], not tuned: a gauge's line of scale, what a
/// needle trembles, what an eye and a hand tell apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Doubt {
    /// Each time anew: resolution, a needle that moves, an eye.
    pub own: f64,
    /// The same each time this instrument is read.
    pub shared: f64,
    /// What stands for anything at all, where a reading could not be taken.
    pub broad: f64,
}

impl Channel {
    pub(super) fn doubt(self) -> Doubt {
        let of = |own, shared, broad| Doubt { own, shared, broad };
        match self.meter {
            Meter::LowGauge => of(4e3, error::LOW_GAUGE, 200e3),
            Meter::HighGauge => of(14e3, error::HIGH_GAUGE, 800e3),
            Meter::VacuumGauge(_) => of(0.2, 0.1, 4.0),
            Meter::VentThermometer | Meter::CabinThermometer => of(0.3, error::AIR, 15.0),
            Meter::Clamp(_) => of(0.6, error::CLAMP, 30.0),
            Meter::Thermometer => of(0.3, 0.3, 10.0),
            Meter::Hygrometer => of(0.02, 0.02, 0.3),
            Meter::Anemometer => of(0.15, 0.1, 4.0),
            // A hub that cycles turns or stands, as it happens.
            Meter::Tachometer(Wheel::Hub) => of(250.0, 10.0, 1500.0),
            Meter::Tachometer(Wheel::Pulley) => of(30.0, 10.0, 1500.0),
            Meter::ClutchMeter => of(0.3, 0.1, 7.0),
            Meter::Scale => of(4e-3, 3e-3, 1.0),
            Meter::Stopwatch => of(1.0, 0.0, 1000.0),
            Meter::Identifier(_) => of(0.01, 0.005, 0.5),
            Meter::IdentifierAir => of(0.005, 0.003, 0.2),
            Meter::Search(_) => of(0.25, 0.0, 1.0),
            Meter::Surface(_) => of(0.55, 0.0, 2.0),
        }
    }

    /// Is another number read with the same instrument, wherever it is read?
    pub(super) fn same_instrument(self, other: Self) -> bool {
        self.part == other.part
            && core::mem::discriminant(&self.meter) == core::mem::discriminant(&other.meter)
    }
}

/// The numbers of a value that a meter showed; none of them where there is no value.
pub(super) fn numbers(
    meter: Meter,
    value: Option<Value>,
) -> impl Iterator<Item = (Channel, Option<f64>)> {
    let parts = match meter {
        Meter::Surface(_) | Meter::ClutchMeter => 2,
        _ => 1,
    };
    let shown: [Option<f64>; 2] = value.map_or([None; 2], |value| match value {
        Value::Gauge(q) => [Some(q.si()), None],
        Value::Absolute(q) => [Some(libm::log(q.si().max(0.1))), None],
        Value::Temperature(q) => [Some(q.si()), None],
        Value::Share(q) => [Some(q.si()), None],
        Value::Mass(q) => [Some(q.si()), None],
        Value::Speed(q) => [Some(q.si()), None],
        Value::Rotation(q) => [Some(q.rpm()), None],
        Value::Time(q) => [Some(q.si()), None],
        Value::Electric(both) => both.map(Some),
        Value::Found(found) => [Some(f64::from(u8::from(found))), None],
        Value::Feel(feel) => [Some(touch(feel.touch)), Some(coat(feel.coat))],
    });
    shown
        .into_iter()
        .take(parts)
        .enumerate()
        .map(move |(part, value)| (Channel { meter, part }, value))
}

/// Steps of touch, one apart.
fn touch(touch: Touch) -> f64 {
    match touch {
        Touch::Icy => 0.0,
        Touch::Cool => 1.0,
        Touch::AsTheDay => 2.0,
        Touch::Warm => 3.0,
        Touch::TooHot => 4.0,
    }
}

fn coat(coat: Coat) -> f64 {
    match coat {
        Coat::Dry => 0.0,
        Coat::Dew => 1.0,
        Coat::Frost => 2.0,
    }
}
