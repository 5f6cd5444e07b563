//! An unknown vehicle: a fault that nobody names, in a vehicle a little other than its kind, before instruments a little other than the truth.

use lowside_session::Scenario;
use lowside_shop::fault::{Fault, Severity};
use lowside_units::{Quantity, Ratio, Temperature};

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

impl Default for Deck {
    fn default() -> Self {
        Self {
            faults: Case::suspects().collect(),
            nothing: 0.05,
            severities: [Severity::Moderate, Severity::Extreme],
            wider: 1.0,
        }
    }
}

/// Coolest and warmest day, K (22 to 40 degC), and driest and wettest.
const DAY: (f64, f64) = (295.15, 313.15);
const HUMIDITY: (f64, f64) = (0.25, 0.7);

impl Drill {
    /// Draws one from a deck, for a vehicle's kind.
    pub fn drawn(seed: u64, deck: &Deck, kind: &Scenario) -> Self {
        let mut draw = Draw::new(seed);
        let mut scenario = kind.as_known();
        scenario.day.ambient = Temperature::from_si(draw.between(DAY.0, DAY.1));
        scenario.day.humidity = Ratio::from_si(draw.between(HUMIDITY.0, HUMIDITY.1));
        let nothing = draw.share() < deck.nothing;
        let fault = draw.one(&deck.faults).copied().filter(|_| !nothing);
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
