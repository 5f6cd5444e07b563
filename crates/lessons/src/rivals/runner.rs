//! One bay in which a case's log is done again, in slices.

use lowside_plant::plant::Plant;
use lowside_session::{
    Action, Bay, LearnerAct, Reading, Scenario, Tick,
    action::{Meter, Wheel},
    reading::Value,
};
use lowside_shop::{
    meters::{self, Point},
    senses::{Feel, Surface},
};
use lowside_units::{GaugePressure, Quantity, Ratio, RotationSpeed, Temperature};

use super::{Case, Read, Trace, channel};

/// A bay under way.
#[derive(Debug)]
pub(super) struct Runner {
    bay: Bay,
    /// Acts that are done, and readings among them.
    acts: usize,
    readings: usize,
    pub trace: Trace,
}

impl Runner {
    pub(super) fn new(scenario: &Scenario) -> Self {
        Self {
            bay: Bay::new(scenario),
            acts: 0,
            readings: 0,
            trace: Trace::default(),
        }
    }

    /// Lets at most so many ticks pass; true when all of the log is done. What is refused here is left out, and shows nothing.
    pub(super) fn advance(&mut self, case: &Case, ticks: Tick) -> bool {
        let stop = self.bay.tick().saturating_add(ticks).min(case.ticks);
        loop {
            while let Some((tick, action)) = case.log.get(self.acts)
                && *tick <= self.bay.tick()
            {
                self.act(*action);
            }
            if self.bay.tick() >= stop || self.bay.step().is_err() {
                break;
            }
        }
        let done = self.bay.tick() >= case.ticks || self.bay.halt().is_some();
        if done {
            // Where the engine stands still, nothing more is read.
            for (_, action) in case.log.iter().skip(self.acts) {
                self.act(*action);
            }
            self.acts = case.log.len();
            self.trace.menu = menu(&self.bay);
        }
        done
    }

    fn act(&mut self, action: Action) {
        let done = self.bay.apply(action).is_ok();
        self.acts += 1;
        if let Action::Learner(LearnerAct::Read { instrument }) = action {
            let read = Reading::of(&self.bay, action).filter(|_| done);
            self.trace
                .read
                .extend(reads(self.readings, instrument, read.map(|r| r.value)));
            self.readings += 1;
        }
    }
}

fn reads(reading: usize, meter: Meter, value: Option<Value>) -> impl Iterator<Item = Read> {
    channel::numbers(meter, value).map(move |(channel, value)| Read {
        reading,
        channel,
        value,
    })
}

/// What instruments would show now if they were connected and had come to rest.
fn menu(bay: &Bay) -> Vec<Read> {
    let (plant, shop) = (bay.plant(), bay.shop());
    let kelvin = |k| Value::Temperature(Temperature::from_si(k));
    let c = &plant.circuit;
    let clamps = Point::ALL.map(|at| (Meter::Clamp(at), Some(kelvin(meters::felt(plant, at)))));
    let surfaces = Surface::ALL.map(|at| {
        (
            Meter::Surface(at),
            Feel::of(at, plant, shop).map(Value::Feel),
        )
    });
    let [hub, _] = meters::turning(plant);
    let others = [
        (Meter::LowGauge, Some(gauge(plant, c.low_side()))),
        (Meter::HighGauge, Some(gauge(plant, c.high_side()))),
        (Meter::VentThermometer, Some(kelvin(plant.cabin.vent.t))),
        (
            Meter::Tachometer(Wheel::Hub),
            Some(Value::Rotation(RotationSpeed::from_rpm(hub))),
        ),
        (
            Meter::Identifier(plant.vehicle.refrigerant),
            Some(Value::Share(Ratio::from_si(1.0 - plant.other_share()))),
        ),
        (
            Meter::IdentifierAir,
            Some(Value::Share(Ratio::from_si(air_share(plant)))),
        ),
    ];
    let all = others.into_iter().chain(clamps).chain(surfaces);
    all.enumerate()
        .flat_map(|(n, (meter, value))| reads(n, meter, value))
        .collect()
}

fn gauge(plant: &Plant, node: lowside_plant::network::NodeId) -> Value {
    let pa = plant.network.node(node).state.p - plant.day().p;
    Value::Gauge(GaugePressure::from_si(pa))
}

/// Air among what a sample of the loop holds, by mass.
fn air_share(plant: &Plant) -> f64 {
    let air = plant.held(lowside_plant::species::AIR);
    air / (air + plant.charge()).max(1e-9)
}
