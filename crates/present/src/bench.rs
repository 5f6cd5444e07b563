//! The loop taken apart: joints, parts and ports in the order of the flow, how each stands, and what is seen in it.

use lowside_fluids::Refrigerant;
use lowside_session::Bay;
use lowside_shop::{
    detect::Spot,
    joints::Fit,
    oil::RHO_OIL,
    parts::{Seen, look},
};
use lowside_units::{
    Ratio, Volume,
    display::{self, Shown, UnitSystem},
};

pub use lowside_shop::{
    flush::{Flush, flushable},
    joints::{Joint, LowPort, Seal, Side},
    oil::OilKind,
    parts::Part,
};

/// Something on the loop that hands can work on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Item {
    /// A part.
    Part(Part),
    /// A joint.
    Joint(Joint),
    /// A service port.
    Port(Side),
    /// The pressure switches.
    Switches,
}

impl Item {
    /// All of them: the loop in the order of the flow from the compressor on, then what sits on it.
    pub const ALL: [Self; 20] = [
        Self::Part(Part::Compressor),
        Self::Joint(Joint::CompressorOut),
        Self::Part(Part::DischargeHose),
        Self::Joint(Joint::CondenserIn),
        Self::Part(Part::Condenser),
        Self::Joint(Joint::CondenserOut),
        Self::Part(Part::LiquidLine),
        Self::Joint(Joint::EvaporatorIn),
        Self::Part(Part::Orifice),
        Self::Part(Part::Evaporator),
        Self::Joint(Joint::EvaporatorOut),
        Self::Part(Part::Accumulator),
        Self::Joint(Joint::AccumulatorOut),
        Self::Part(Part::SuctionHose),
        Self::Joint(Joint::CompressorIn),
        Self::Part(Part::ReliefValve),
        Self::Joint(Joint::ReliefThread),
        Self::Port(Side::Low),
        Self::Port(Side::High),
        Self::Switches,
    ];
}

/// How an item stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// A joint that nobody here has taken apart, and what the last search at it showed: what seals it, nobody has seen.
    Unopened {
        /// A leak, or none; none searched.
        leak: Option<bool>,
    },
    /// A joint that was put together here, with this seal.
    Made(Seal),
    /// A joint apart, open to the room.
    Open,
    /// A joint apart, capped.
    Capped,
    /// A part in the vehicle.
    Fitted,
    /// A part on the bench.
    OnBench,
    /// A port.
    Port {
        /// Whose hoses it takes.
        fitting: Refrigerant,
        /// The gas whose conversion fitting goes over it, if one does.
        takes_fitting: Option<Refrigerant>,
        /// Its cap is on.
        cap: bool,
        /// Its core is in.
        core: bool,
        /// A coupler sits on it.
        coupled: bool,
        /// Where it sits, if the vehicle has two of its side.
        tap: Option<LowPort>,
    },
}

/// How much there is of something seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Much {
    /// None.
    None,
    /// Some.
    Some,
    /// A lot.
    Lots,
}

/// What is seen in a part that is out or open.
#[derive(Debug, Clone, PartialEq)]
pub enum Sight {
    /// Screen and bore of the orifice tube: share blocked.
    Blocked(Much, Shown),
    /// Beads of the desiccant, on the screen or loose.
    Beads(Much),
    /// Glitter in the oil.
    Metal(Much),
    /// How dark the oil is.
    Dark(Much),
    /// Milky oil: free water.
    Water(Much),
    /// It is wet with oil.
    Oil(Much),
    /// Dirt on its face: share of the air that goes through.
    Face(Much, Shown),
}

/// What is known of an opened part.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PartState {
    /// Joints that still hold it.
    pub held_by: Vec<Joint>,
    /// What is seen; empty while it is shut.
    pub seen: Vec<Sight>,
    /// Measured out of it so far.
    pub drained: Option<Shown>,
    /// Poured into it so far.
    pub poured: Option<Shown>,
    /// New ones laid ready so far.
    pub renewed: u32,
}

/// An item and how it stands.
pub type Place = (Item, Standing);

/// Shares from which something seen counts as some and as a lot (own figures: what an eye tells).
const SOME: f64 = 0.05;
const LOTS: f64 = 0.4;
/// The same for oil in a part, kg, and for free water, kg.
const OIL: (f64, f64) = (2e-3, 40e-3);
const WATER: (f64, f64) = (0.2e-3, 2e-3);
/// The same for beads out of their bag, kg.
const BEADS: (f64, f64) = (0.01e-3, 0.1e-3);

/// Oil by the measuring cup.
pub fn oil(kg: f64, units: UnitSystem) -> Shown {
    display::volume(Volume::from_cm3(kg / RHO_OIL * 1e6), units)
}

fn much(x: f64, (some, lots): (f64, f64)) -> Much {
    if x >= lots {
        Much::Lots
    } else if x >= some {
        Much::Some
    } else {
        Much::None
    }
}

fn standing(bay: &Bay, item: Item) -> Standing {
    let shop = bay.shop();
    match item {
        Item::Part(p) if shop.bench[p as usize].is_some() => Standing::OnBench,
        Item::Part(_) | Item::Switches => Standing::Fitted,
        Item::Joint(j) => match shop.openings.fit(j) {
            Fit::Open => Standing::Open,
            Fit::Capped => Standing::Capped,
            Fit::Made(seal) if shop.openings.was_opened(j) => Standing::Made(seal),
            Fit::Made(_) | Fit::Untouched => Standing::Unopened {
                leak: shop.search[Spot::Joint(j).index()].map(|f| f.found),
            },
        },
        Item::Port(side) => {
            let port = shop.openings.ports[side as usize];
            Standing::Port {
                fitting: port.fitting,
                takes_fitting: port.takes_fitting().map(|r| r.to),
                cap: port.cap,
                core: port.core,
                coupled: match side {
                    Side::Low => shop.hands.low_coupled,
                    Side::High => shop.hands.high_coupled,
                },
                tap: (side == Side::Low && shop.openings.other_low_port().is_some())
                    .then(|| shop.openings.low_tap()),
            }
        }
    }
}

/// All items and how they stand.
pub fn places(bay: &Bay) -> Vec<Place> {
    Item::ALL.map(|i| (i, standing(bay, i))).to_vec()
}

fn sights(part: Part, s: &Seen) -> Vec<Sight> {
    let share = |x: f64| much(x, (SOME, LOTS));
    let percent = |x: f64| display::ratio(Ratio::from_fraction(x));
    let mut seen = Vec::new();
    if part == Part::Orifice {
        seen.push(Sight::Blocked(share(s.blocked), percent(s.blocked)));
    }
    if matches!(part, Part::Condenser | Part::Evaporator) {
        seen.push(Sight::Face(share(1.0 - s.face), percent(s.face)));
    }
    if part != Part::Orifice {
        let oil = much(s.oil, OIL);
        seen.push(Sight::Oil(oil));
        seen.push(Sight::Water(much(s.water, WATER)));
    }
    if matches!(part, Part::Orifice | Part::Accumulator | Part::Condenser) {
        seen.push(Sight::Beads(much(s.beads, BEADS)));
    }
    seen.push(Sight::Metal(share(s.metal)));
    seen.push(Sight::Dark(share(s.dark)));
    seen
}

/// What is known of a part.
pub fn part(bay: &Bay, part: Part, units: UnitSystem) -> PartState {
    let shop = bay.shop();
    let held_by: Vec<Joint> = part
        .joints()
        .iter()
        .copied()
        .filter(|j| !shop.openings.apart(*j))
        .collect();
    let seen = match &shop.bench[part as usize] {
        Some(out) => sights(part, &out.seen),
        None if held_by.len() < part.joints().len() => sights(part, &look(bay.plant(), part)),
        None => Vec::new(),
    };
    let measured = |kg: f64| (kg > 0.0).then(|| oil(kg, units));
    PartState {
        held_by,
        seen,
        drained: measured(shop.oil.drained[part as usize]),
        poured: measured(shop.oil.poured[part as usize]),
        renewed: shop.renewed[part as usize],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{BenchAct, InstrumentAct, VehicleAct};

    #[test]
    fn a_part_shows_itself_once_it_is_open() {
        let mut bay = bay("charge-from-cans");
        let at = |bay: &Bay, item| standing(bay, item);
        let unopened = Standing::Unopened { leak: None };
        assert_eq!(at(&bay, Item::Joint(Joint::EvaporatorOut)), unopened);
        assert!(
            part(&bay, Part::Accumulator, UnitSystem::SI)
                .seen
                .is_empty()
        );
        for joint in [Joint::EvaporatorOut, Joint::AccumulatorOut] {
            bay.apply(BenchAct::OpenJoint { joint }).unwrap();
        }
        let state = part(&bay, Part::Accumulator, UnitSystem::SI);
        assert!(state.held_by.is_empty() && !state.seen.is_empty());
        bay.apply(BenchAct::RemovePart {
            part: Part::Accumulator,
        })
        .unwrap();
        assert_eq!(at(&bay, Item::Part(Part::Accumulator)), Standing::OnBench);
        bay.apply(BenchAct::DrainPart {
            part: Part::Accumulator,
        })
        .unwrap();
        let drained = part(&bay, Part::Accumulator, UnitSystem::SI).drained;
        assert!(drained.is_some(), "an accumulator holds oil");
    }

    /// A van that came with an old dry O-ring in one joint looks on the bench as one that did not, until somebody searches or opens it.
    #[test]
    fn the_bench_tells_no_leak_before_a_search() {
        let old = "condition.joint=[{at=\"condenser-in\",seal=\"old-dry\"}]".to_owned();
        let bay = |set: &[String]| {
            let text = lowside_session::library::scenario("healthy").expect("shipped");
            let mut scenario = lowside_session::Scenario::parse(text, set).expect("sound");
            scenario.act.clear();
            Bay::new(&scenario)
        };
        let (mut leaks, tight) = (bay(&[old]), bay(&[]));
        let joint = Joint::CondenserIn;
        assert_eq!(
            leaks.shop().openings.fit(joint),
            Fit::Made(Seal::OldDry),
            "it does have one"
        );
        assert_eq!(places(&leaks), places(&tight));
        for item in Item::ALL {
            let Item::Part(p) = item else { continue };
            let seen = |bay| part(bay, p, UnitSystem::SI);
            assert_eq!(seen(&leaks), seen(&tight), "{p:?}");
        }
        // The detector tells that it leaks, not why.
        let sniff = InstrumentAct::Sniff {
            at: Spot::Joint(joint),
            sensitivity: lowside_shop::detect::Sensitivity::High,
            distance: lowside_units::Length::from_mm(5.0),
            wind: lowside_units::Speed::from_m_s(0.0),
        };
        leaks.apply(VehicleAct::Engine { on: false }).unwrap();
        for _ in 0..50 {
            leaks.step().expect("the engine goes on");
        }
        leaks.apply(sniff).unwrap();
        let at = |bay: &Bay| standing(bay, Item::Joint(joint));
        assert_eq!(at(&leaks), Standing::Unopened { leak: Some(true) });
        leaks.apply(BenchAct::OpenJoint { joint }).unwrap();
        let seal = Seal::NewOiled;
        leaks.apply(BenchAct::CloseJoint { joint, seal }).unwrap();
        assert_eq!(at(&leaks), Standing::Made(seal));
    }

    #[test]
    fn a_blocked_tube_is_seen_as_blocked() {
        let mut scenario = lowside_session::library::shipped("healthy").expect("shipped");
        scenario.act.clear();
        let mut bay = Bay::new(&scenario);
        bay.apply(BenchAct::OpenJoint {
            joint: Joint::EvaporatorIn,
        })
        .unwrap();
        let clean = part(&bay, Part::Orifice, UnitSystem::SI).seen;
        assert!(
            matches!(clean[0], Sight::Blocked(Much::None, _)),
            "{clean:?}"
        );
        assert_eq!(much(0.6, (SOME, LOTS)), Much::Lots);
    }
}
