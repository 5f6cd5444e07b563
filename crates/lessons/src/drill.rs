//! An unknown vehicle: a fault that nobody names, in a vehicle a little other than its kind, before instruments a little other than the truth.

use lowside_session::{
    Bay, Scenario, VehicleAct,
    scenario::{ControlSpec, EngineSpec},
};
use lowside_shop::fault::{Fault, Severity};
use lowside_units::{Quantity, Ratio, RotationSpeed, Speed, Temperature};

use crate::{draw::Draw, rivals::Case};

/// What is drawn for a drill.
#[derive(Debug, Clone)]
pub struct Drill {
    /// What is wrong; none where nothing is.
    pub fault: Option<&'static Fault>,
    /// How much, the closest of the four.
    pub severity: Option<Severity>,
    /// The vehicle with all that is hidden of it.
    pub scenario: Scenario,
}

/// From what a drill is drawn.
#[derive(Debug, Clone)]
pub struct Deck {
    /// Faults; one is taken as often as another.
    pub faults: Vec<&'static Fault>,
    /// How often nothing is wrong, 0 to 1.
    pub nothing: f64,
    /// From and to how much is wrong.
    pub severities: [Severity; 2],
    /// How much wider than in practice vehicles differ from their kind.
    pub wider: f64,
}

/// How often a vehicle comes in with nothing wrong (own figure).
const SOUND: f64 = 0.05;

impl Default for Deck {
    fn default() -> Self {
        Self {
            faults: Case::suspects().collect(),
            nothing: SOUND,
            severities: [Severity::Moderate, Severity::Extreme],
            wider: 1.0,
        }
    }
}

/// Coolest and warmest day, K (22 to 40 degC), and driest and wettest: days on which somebody complains (own figures).
const DAY: (f64, f64) = (295.15, 313.15);
const HUMIDITY: (f64, f64) = (0.25, 0.7);

impl Drill {
    /// Draws one from a deck, for a vehicle's kind.
    pub fn drawn(seed: u64, deck: &Deck, kind: &Scenario) -> Self {
        let mut draw = Draw::new(seed);
        let mut scenario = kind.as_known();
        scenario.name = format!("Unknown vehicle {seed}");
        scenario.engine = EngineSpec::default();
        scenario.controls = ControlSpec::default();
        scenario.day.ambient = Temperature::from_si(draw.between(DAY.0, DAY.1));
        scenario.day.humidity = Ratio::from_si(draw.between(HUMIDITY.0, HUMIDITY.1));
        let nothing = draw.share() < deck.nothing;
        let fits = |fault: &&Fault| fault.fits(&scenario.vehicle);
        let faults: Vec<&'static Fault> = deck.faults.iter().copied().filter(fits).collect();
        let fault = draw.one(&faults).copied().filter(|_| !nothing);
        let [least, most] = deck.severities.map(|s| s as usize);
        let at = draw.between(least as f64, most as f64);
        let scatter = draw.scatter(deck.wider);
        let instruments = draw.instruments();
        let mut severity = None;
        if let Some(fault) = fault {
            scenario = scenario.with_fault_of(fault, between(fault, at, &scenario));
            severity = Severity::ALL
                .into_iter()
                .find(|s| (*s as usize) as f64 + 0.5 > at);
        }
        scenario.scatter = scatter;
        scenario.instruments = instruments;
        Self {
            fault,
            severity,
            scenario,
        }
    }
}

/// The value of a fault between two of its severities, which are counted from 0.
fn between(fault: &Fault, at: f64, of: &Scenario) -> f64 {
    let mut value = fault.at(Severity::Slight, &of.vehicle);
    for pair in Severity::ALL.windows(2) {
        if let [below, above] = pair {
            let t = (at - (*below as usize) as f64).clamp(0.0, 1.0);
            let (from, to) = (fault.at(*below, &of.vehicle), fault.at(*above, &of.vehicle));
            value += t * (to - from);
        }
    }
    value
}

/// What a customer says: of all that can be told from the driver's seat, what is worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Complaint {
    /// The engine gets hot with the A/C on.
    HotEngine,
    /// Hardly any air comes out.
    LittleAir,
    /// It cools, then it does not.
    Fades,
    /// Warm, standing and driving.
    Warm,
    /// Warm where it stands, better on the road.
    WarmStanding,
    /// Warm on the road.
    WarmDriving,
    /// Nothing to complain of: a look before the summer.
    None,
}

/// What a driver finds on a drive.
struct Driven {
    /// Air at the centre vent at the end of standing and of driving, and the coldest while standing, K.
    standing: f64,
    driving: f64,
    coldest: f64,
    /// Air that comes out, kg/s.
    air: f64,
    hot: bool,
}

/// How long a driver stands and drives, s (own figures).
const STANDS: f64 = 300.0;
const DRIVES: f64 = 240.0;
/// How much warmer than a sound one a vent has to be before anybody complains, K (own figure), and how much warmer than it was.
const WARMER: f64 = 3.0;
/// Share of the air of a sound one below which somebody complains (own figure).
const LITTLE: f64 = 0.75;

impl Complaint {
    /// Its name in the ids of words.
    pub fn key(self) -> &'static str {
        match self {
            Self::HotEngine => "hot-engine",
            Self::LittleAir => "little-air",
            Self::Fades => "fades",
            Self::Warm => "warm",
            Self::WarmStanding => "warm-standing",
            Self::WarmDriving => "warm-driving",
            Self::None => "none",
        }
    }

    /// Drives a vehicle and a sound one of its kind on the same day, and says what differs most.
    pub fn of(scenario: &Scenario) -> Self {
        let (own, sound) = (drive(scenario), drive(&scenario.as_known()));
        let warm = |own: f64, sound: f64| own > sound + WARMER;
        let standing = warm(own.standing, sound.standing);
        let driving = warm(own.driving, sound.driving);
        if own.hot && !sound.hot {
            Self::HotEngine
        } else if own.air < LITTLE * sound.air {
            Self::LittleAir
        } else if own.standing > own.coldest + 2.0 * WARMER && standing {
            Self::Fades
        } else {
            match (standing, driving) {
                (true, true) => Self::Warm,
                (true, false) => Self::WarmStanding,
                (false, true) => Self::WarmDriving,
                (false, false) => Self::None,
            }
        }
    }
}

fn drive(scenario: &Scenario) -> Driven {
    let mut scenario = scenario.clone();
    scenario.engine.on = true;
    scenario.controls.ac = true;
    scenario.controls.recirculation = true;
    scenario.controls.windows_open = false;
    scenario.controls.blower = u8::try_from(scenario.vehicle.cabin.blower.len()).unwrap_or(1);
    let mut bay = Bay::new(&scenario);
    let mut coldest = f64::INFINITY;
    let mut pass = |bay: &mut Bay, s: f64| {
        let until = bay.seconds() + s;
        while bay.seconds() < until && bay.step().is_ok() {
            coldest = coldest.min(bay.plant().cabin.vent.t);
        }
        bay.plant().cabin.vent.t
    };
    let standing = pass(&mut bay, STANDS);
    let acts = [
        VehicleAct::EngineSpeed {
            speed: RotationSpeed::from_rpm(2000.0),
        },
        VehicleAct::RoadSpeed {
            speed: Speed::from_km_h(60.0),
        },
    ];
    for act in acts {
        drop(bay.apply(act));
    }
    let driving = pass(&mut bay, DRIVES);
    let hot = bay
        .events()
        .iter()
        .any(|(_, event)| *event == lowside_session::Event::EngineTooHot);
    Driven {
        standing,
        driving,
        coldest,
        air: bay.plant().cabin.flow,
        hot,
    }
}
