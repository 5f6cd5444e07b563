//! The loop taken apart: joints, parts and ports in the order of the flow, how each stands, and what is seen in it.

use lowside_fluids::Refrigerant;
use lowside_lessons::{Shown as Known, senses::Look, shown::JointLook};
use lowside_shop::{detect::Spot, oil::RHO_OIL};
use lowside_units::{
    Ratio, Volume,
    display::{self, Shown, Style, UnitSystem},
};

pub use lowside_lessons::Loosened;
pub use lowside_lessons::senses::Much;
pub use lowside_plant::loose::{Lead, Loose, Plug};
pub use lowside_shop::{
    fixings::JointTool,
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
    /// A pressure switch with its plug: the low-pressure switch, or the high-pressure cut-out.
    Switch(Side),
    /// The clutch's plug, the belt and the hub.
    Drive,
    /// The battery's lead.
    Battery,
}

impl Item {
    /// All of them: the loop in the order of the flow from the compressor on, then what sits on it.
    pub const ALL: [Self; 23] = [
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
        Self::Switch(Side::Low),
        Self::Switch(Side::High),
        Self::Drive,
        Self::Battery,
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
    /// A plug, the belt or the lead is off.
    Loosened,
    /// The vehicle has none.
    None,
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
    /// What else still holds it or is plugged into it.
    pub still_on: Vec<Loosened>,
    /// Whether its bolts are out, if bolts hold it.
    pub unbolted: Option<bool>,
    /// It lies there without its caps.
    pub bare: bool,
    /// What is seen; empty while it is shut.
    pub seen: Vec<Sight>,
    /// Measured out of it so far.
    pub drained: Option<Shown>,
    /// How much of a measuring cup of 8 fl oz that fills, 0 to 1.
    pub cup: f64,
    /// Poured into it so far.
    pub poured: Option<Shown>,
    /// New ones laid ready so far.
    pub renewed: u32,
}

/// Volume of the measuring cup, m3: 8 fl oz.
const CUP: f64 = 8.0 * 29.573_53e-6;

/// An item and how it stands.
pub type Place = (Item, Standing);

/// Oil by the measuring cup.
pub fn oil(kg: f64, units: UnitSystem) -> Shown {
    display::volume(Volume::from_cm3(kg / RHO_OIL * 1e6), units)
}

/// The plug of a pressure switch.
pub fn lead(side: Side) -> Lead {
    match side {
        Side::Low => Lead::LowSwitch,
        Side::High => Lead::CutOut,
    }
}

/// What holds a part besides its joints, or is plugged into it, and has to come off before it.
fn still_on(shown: &Known<'_>, part: Part) -> Vec<Loosened> {
    let loose = shown.settings.loose;
    let plug = match part {
        Part::Compressor => Some(Lead::Clutch),
        Part::Accumulator => Some(Lead::LowSwitch),
        Part::DischargeHose => shown.printed.cut_out.map(|_| Lead::CutOut),
        _ => None,
    };
    let plug = plug.filter(|lead| loose.plug(*lead) == Plug::On);
    let belt = part == Part::Compressor && !loose.belt;
    let bolts = part.is_bolted() && !shown.part(part).unbolted;
    plug.map(Loosened::Plug)
        .into_iter()
        .chain(belt.then_some(Loosened::Belt))
        .chain(bolts.then_some(Loosened::Bolts(part)))
        .collect()
}

/// What hands have to do with besides the loop.
#[derive(Debug, Clone, PartialEq)]
pub struct Fixings {
    /// What is off.
    pub loose: Loose,
    /// What is in hand for joints.
    pub tool: JointTool,
    /// Whether low-pressure switch and cut-out conduct, by a meter at their pins, with the plug off.
    pub contacts: [Option<bool>; 2],
    /// Time for which the hub is still turned.
    pub by_hand: Option<Shown>,
}

/// How all that is.
pub fn fixings(shown: &Known<'_>) -> Fixings {
    Fixings {
        loose: shown.settings.loose,
        tool: shown.hands.joint_tool,
        contacts: shown.contacts,
        by_hand: (shown.by_hand > 0.0).then(|| Style::new(0, "s").show(shown.by_hand.ceil())),
    }
}

fn standing(shown: &Known<'_>, item: Item) -> Standing {
    let loose = shown.settings.loose;
    let fitted = |on: bool| {
        if on {
            Standing::Fitted
        } else {
            Standing::Loosened
        }
    };
    match item {
        Item::Switch(Side::High) if shown.printed.cut_out.is_none() => Standing::None,
        Item::Switch(side) => fitted(loose.plug(lead(side)) == Plug::On),
        Item::Drive => fitted(!loose.belt && loose.plug(Lead::Clutch) == Plug::On),
        Item::Battery => fitted(!loose.battery),
        Item::Part(p) if shown.part(p).out => Standing::OnBench,
        Item::Part(_) => Standing::Fitted,
        Item::Joint(j) => match shown.joint(j) {
            JointLook::Open => Standing::Open,
            JointLook::Capped => Standing::Capped,
            JointLook::Made(seal) => Standing::Made(seal),
            JointLook::Unopened => Standing::Unopened {
                leak: shown.found(Spot::Joint(j)),
            },
        },
        Item::Port(side) => {
            let port = shown.ports[side as usize];
            Standing::Port {
                fitting: port.fitting,
                takes_fitting: port.takes_fitting().map(|r| r.to),
                cap: port.cap,
                core: port.core,
                coupled: match side {
                    Side::Low => shown.hands.low_coupled,
                    Side::High => shown.hands.high_coupled,
                },
                tap: shown.low_port.filter(|_| side == Side::Low),
            }
        }
    }
}

/// All items and how they stand.
pub fn places(shown: &Known<'_>) -> Vec<Place> {
    Item::ALL.map(|i| (i, standing(shown, i))).to_vec()
}

/// What is seen in a part, with the shares of an orifice tube that is blocked and of the air that a face lets through.
pub(crate) fn sights(part: Part, look: &Look, [blocked, face]: [f64; 2]) -> Vec<Sight> {
    let percent = |x: f64| display::ratio(Ratio::from_fraction(x));
    let mut seen = Vec::new();
    if part == Part::Orifice {
        seen.push(Sight::Blocked(look.blocked.0, percent(blocked)));
    }
    if matches!(part, Part::Condenser | Part::Evaporator) {
        seen.push(Sight::Face(look.face.0, percent(face)));
    }
    if part != Part::Orifice {
        seen.push(Sight::Oil(look.oil));
        seen.push(Sight::Water(look.water));
    }
    if matches!(part, Part::Orifice | Part::Accumulator | Part::Condenser) {
        seen.push(Sight::Beads(look.beads));
    }
    seen.push(Sight::Metal(look.metal));
    seen.push(Sight::Dark(look.dark));
    seen
}

/// What is known of a part: shares to the tenth that an eye tells.
pub fn part(shown: &Known<'_>, part: Part, units: UnitSystem) -> PartState {
    let known = shown.part(part);
    let measured = |kg: f64| (kg > 0.0).then(|| oil(kg, units));
    let seen = |look: Look| sights(part, &look, [look.blocked.1, look.face.1]);
    PartState {
        held_by: shown.held_by(part).collect(),
        still_on: still_on(shown, part),
        unbolted: part.is_bolted().then_some(known.unbolted),
        bare: known.bare,
        seen: known.look.map_or_else(Vec::new, seen),
        drained: measured(known.drained),
        cup: (known.drained / RHO_OIL / CUP).clamp(0.0, 1.0),
        poured: measured(known.poured),
        renewed: known.renewed,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{opened, readout::tests::bay};
    use lowside_session::{Bay, BenchAct, InstrumentAct, VehicleAct};
    use lowside_shop::joints::Fit;

    #[test]
    fn a_part_shows_itself_once_it_is_open() {
        let mut bay = bay("charge-from-cans");
        let at = |bay: &Bay, item| standing(&Known::of(bay), item);
        let unopened = Standing::Unopened { leak: None };
        assert_eq!(at(&bay, Item::Joint(Joint::EvaporatorOut)), unopened);
        assert!(
            opened::part(&bay, Part::Accumulator, UnitSystem::SI)
                .seen
                .is_empty()
        );
        for joint in [Joint::EvaporatorOut, Joint::AccumulatorOut] {
            bay.apply(BenchAct::OpenJoint { joint }).unwrap();
        }
        let state = opened::part(&bay, Part::Accumulator, UnitSystem::SI);
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
        let drained = opened::part(&bay, Part::Accumulator, UnitSystem::SI).drained;
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
        assert_eq!(places(&Known::of(&leaks)), places(&Known::of(&tight)));
        for item in Item::ALL {
            let Item::Part(p) = item else { continue };
            let seen = |bay| part(&Known::of(bay), p, UnitSystem::SI);
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
        let at = |bay: &Bay| standing(&Known::of(bay), Item::Joint(joint));
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
        let clean = opened::part(&bay, Part::Orifice, UnitSystem::SI).seen;
        assert!(
            matches!(clean[0], Sight::Blocked(Much::None, _)),
            "{clean:?}"
        );
    }
}
