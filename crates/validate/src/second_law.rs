//! The second law over a run: what the audits of single ticks found, kept by kind of maker.

use std::collections::BTreeMap;

use lowside_plant::entropy::{Made, Maker, audit};
use lowside_session::Bay;

/// Ticks audited after the clutch moved or an act was done.
const AFTER: u64 = 10;
/// Otherwise one tick in so many is audited.
const EVERY: u64 = 50;

/// What one kind of maker did.
#[derive(Debug, Clone, Default)]
pub struct Kind {
    /// Entropy made in all audited ticks, J/K.
    pub made: f64,
    /// How far that is uncertain, J/K: the finite slacks.
    pub slack: f64,
    /// Accounts in which entropy fell by more than the slack.
    pub breaches: u64,
    /// Largest such fall, J/K; with the maker's name and the bay's time, s.
    pub worst: (f64, String, f64),
    /// Accounts without a verdict, outside the tables.
    pub outside: u64,
}

/// The audits of a run.
#[derive(Debug, Clone, Default)]
pub struct Tally {
    /// Ticks audited.
    pub ticks: u64,
    /// By kind: links, stirring, nodes, shells, condenser, evaporator, and the whole.
    pub kinds: BTreeMap<&'static str, Kind>,
    until: u64,
}

/// The whole plant in a tick.
pub const WHOLE: &str = "the whole plant";

fn kind(maker: Maker) -> &'static str {
    match maker {
        Maker::Link(_) => "links: passages, valves, orifice, compressor",
        Maker::Stirring(_) => "links: stirring of gas",
        Maker::Node(_) => "nodes: mixing",
        Maker::Shell(_) => "walls of lines, hoses, cans, compressor",
        Maker::Condenser(_) => "condenser: refrigerant, wall, air",
        Maker::Evaporator => "evaporator: air, wall, refrigerant",
    }
}

fn name(bay: &Bay, maker: Maker) -> String {
    let plant = bay.plant();
    match maker {
        Maker::Link(k) | Maker::Stirring(k) => plant.network.link(k).name.to_owned(),
        Maker::Node(i) => plant.network.node(i).name.to_owned(),
        Maker::Shell(k) => format!("around {}", plant.network.node(plant.shells[k].node).name),
        Maker::Condenser(k) => format!("cell {}", k + 1),
        Maker::Evaporator => String::new(),
    }
}

impl Tally {
    /// Something happened: the next ticks are all audited.
    pub fn happened(&mut self, bay: &Bay) {
        self.until = bay.tick() + AFTER;
    }

    /// Audits the bay's next tick if it is one of those to be looked at.
    pub fn look(&mut self, bay: &Bay) {
        if bay.tick() >= self.until && !bay.tick().is_multiple_of(EVERY) {
            return;
        }
        self.ticks += 1;
        let all = audit(bay.plant());
        let mut whole = Made {
            by: Maker::Evaporator,
            entropy: 0.0,
            slack: 0.0,
        };
        for made in &all {
            whole.entropy += made.entropy;
            whole.slack += made.slack;
            self.count(kind(made.by), made, || name(bay, made.by), bay.seconds());
        }
        self.count(WHOLE, &whole, String::new, bay.seconds());
    }

    fn count(&mut self, kind: &'static str, made: &Made, name: impl Fn() -> String, t: f64) {
        let k = self.kinds.entry(kind).or_default();
        if made.slack.is_infinite() {
            k.outside += 1;
            return;
        }
        k.made += made.entropy;
        k.slack += made.slack;
        let breach = made.breach();
        if breach > 0.0 {
            k.breaches += 1;
            if breach > k.worst.0 {
                k.worst = (breach, name(), t);
            }
        }
    }
}
