//! What a job has cost the vehicle, the air and people, in figures: told whatever the card asks for.
//!
//! Read off the bay as it stands, so that what is made good again (air pumped out) is not told, and going back in time goes back here.

use lowside_session::{Event, TICKS_PER_SECOND, Tick};
use serde::{Deserialize, Serialize};

use crate::{shown::Shown, truth::Truth};

/// How bad a harm is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// To be avoided; nothing is spoilt by it alone.
    Slight,
    /// It costs capacity, life of a part, or refrigerant.
    Serious,
    /// Somebody hurt, a part ruined, or a law broken.
    Grave,
}

/// What was done. SI units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cost {
    /// People hurt.
    Hurt {
        /// How often.
        times: usize,
    },
    /// Cans burst.
    Burst {
        /// How many.
        cans: usize,
    },
    /// The discharge hose burst.
    HoseBurst {
        /// When, s of bay time.
        seconds: f64,
    },
    /// The compressor seized.
    Seized {
        /// When, s of bay time.
        seconds: f64,
        /// It took its clutch along.
        clutch_burnt: bool,
    },
    /// The compressor drew liquid.
    Liquid {
        /// How often it came.
        times: usize,
        /// For how long in all, s.
        seconds: f64,
        /// Wear by slugging and by oil washed off, 0 to 1.
        wear: f64,
    },
    /// Other wear of the compressor: dryness, heat, pressure and grit, 0 to 1.
    Wear(f64),
    /// Air in the loop that was not there at the start, kg.
    Air(f64),
    /// Water in the loop that was not there at the start, kg.
    Water(f64),
    /// Refrigerant let into the room, kg.
    Vented(f64),
}

/// From where each counts, and from where it is serious and grave (all own figures).
const WEAR: [f64; 3] = [1e-4, 1e-2, 0.1];
/// Air, kg: an unpurged hose brings a tenth of a gram; a few grams lift the high side so that it shows.
const AIR_FROM: [f64; 3] = [20e-6, 0.5e-3, 5e-3];
/// Water, kg: a gram is what the loop of a car can hold before ice closes its tube.
const WATER_FROM: [f64; 3] = [50e-6, 0.5e-3, 5e-3];
/// Refrigerant, kg: below the first lies what couplers and a purge cost.
const VENTED_FROM: [f64; 3] = [5e-3, 30e-3, 90e-3];

impl Cost {
    /// How bad it is; none below what counts.
    pub fn severity(&self) -> Option<Severity> {
        let by = |x: f64, [least, serious, grave]: [f64; 3]| {
            if x >= grave {
                Some(Severity::Grave)
            } else if x >= serious {
                Some(Severity::Serious)
            } else {
                (x >= least).then_some(Severity::Slight)
            }
        };
        match *self {
            Self::Hurt { times: n } | Self::Burst { cans: n } => (n > 0).then_some(Severity::Grave),
            Self::HoseBurst { .. } | Self::Seized { .. } => Some(Severity::Grave),
            Self::Liquid { times: 0, .. } => None,
            Self::Liquid { wear, .. } => by(wear, WEAR).or(Some(Severity::Slight)),
            Self::Wear(x) => by(x, WEAR),
            Self::Air(kg) => by(kg, AIR_FROM),
            Self::Water(kg) => by(kg, WATER_FROM),
            Self::Vented(kg) => by(kg, VENTED_FROM),
        }
    }
}

/// All that counts, the worst first.
pub fn toll(truth: &Truth<'_>) -> Vec<(Severity, Cost)> {
    let count = |wanted| truth.events.iter().filter(|(_, e)| *e == wanted).count();
    let first = |wanted| {
        let found = truth.events.iter().find(|(_, e)| *e == wanted);
        found.map(|(tick, _)| *tick)
    };
    let damage = &truth.damage;
    let wet = damage.slugging + damage.washing;
    let hidden = [
        Cost::Liquid {
            times: count(Event::LiquidAtCompressor),
            seconds: seconds_of_liquid(truth),
            wear: wet,
        },
        Cost::Wear((damage.wear() - wet).max(0.0)),
        Cost::Air(truth.air_let_in),
        Cost::Water(truth.water_let_in),
        Cost::Vented(truth.vented),
    ];
    let [hurt, burst, rest @ ..] = seen(count, first);
    sorted(
        [hurt, burst]
            .into_iter()
            .flatten()
            .chain(hidden)
            .chain(rest.into_iter().flatten()),
    )
}

/// What of it somebody in the bay has noticed: people hurt, what burst and what seized.
pub fn seen_toll(shown: &Shown<'_>) -> Vec<(Severity, Cost)> {
    let noticed = shown.noticed;
    let all = seen(|event| noticed.count(event), |event| noticed.first(event));
    sorted(all.into_iter().flatten())
}

/// Harms that nobody misses, by how often and when first an event came.
fn seen(
    count: impl Fn(Event) -> usize,
    first: impl Fn(Event) -> Option<Tick>,
) -> [Option<Cost>; 4] {
    let seconds = |tick: Tick| tick as f64 / TICKS_PER_SECOND as f64;
    [
        Some(Cost::Hurt {
            times: count(Event::Injury),
        }),
        Some(Cost::Burst {
            cans: count(Event::CanBurst),
        }),
        first(Event::HoseBurst).map(|tick| Cost::HoseBurst {
            seconds: seconds(tick),
        }),
        first(Event::CompressorSeized).map(|tick| Cost::Seized {
            seconds: seconds(tick),
            clutch_burnt: count(Event::ClutchBurnt) > 0,
        }),
    ]
}

/// The costs that count, the worst first.
fn sorted(costs: impl Iterator<Item = Cost>) -> Vec<(Severity, Cost)> {
    let mut toll: Vec<_> = costs
        .filter_map(|cost| Some((cost.severity()?, cost)))
        .collect();
    toll.sort_by_key(|(severity, _)| core::cmp::Reverse(*severity));
    toll
}

/// How long liquid has reached the compressor, s.
fn seconds_of_liquid(truth: &Truth<'_>) -> f64 {
    let (mut sum, mut since) = (0, None);
    for (tick, event) in truth.events {
        match event {
            Event::LiquidAtCompressor => since = Some(*tick),
            Event::LiquidGone => sum += since.take().map_or(0, |from| tick - from),
            _ => {}
        }
    }
    sum += since.map_or(0, |from| truth.tick - from);
    sum as f64 / TICKS_PER_SECOND as f64
}
