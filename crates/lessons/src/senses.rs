//! What eyes, ears, nose and hands tell of a vehicle: how its surfaces feel and what clings to them, what has happened for all to notice, and
//! what an opened part shows.

use lowside_fluids::{moist_air, water};
use lowside_plant::{circuit::Section, network::NodeId, plant::Plant};
use lowside_session::{Bay, Event, Tick, predicate::Reading};
use lowside_shop::{
    Attached,
    parts::{Part, Seen},
};

/// A surface that a hand can reach. The evaporator sits in its case; its two pipes come out of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Surface {
    /// Body of the compressor.
    Compressor,
    /// Discharge line.
    Discharge,
    /// Condenser where the gas comes in.
    CondenserInlet,
    /// Condenser where the liquid leaves.
    CondenserOutlet,
    /// Liquid line.
    Liquid,
    /// Pipe behind the orifice tube, into the evaporator.
    EvaporatorInlet,
    /// Pipe out of the evaporator.
    EvaporatorOutlet,
    /// Accumulator.
    Accumulator,
    /// Suction line.
    Suction,
    /// What hangs on the service hose: can, cylinder, the recovery machine's cylinder.
    Vessel,
}

/// How many surfaces there are.
pub const SURFACES: usize = 10;

impl Surface {
    /// All of them, in the order of the flow.
    pub const ALL: [Self; SURFACES] = [
        Self::Compressor,
        Self::Discharge,
        Self::CondenserInlet,
        Self::CondenserOutlet,
        Self::Liquid,
        Self::EvaporatorInlet,
        Self::EvaporatorOutlet,
        Self::Accumulator,
        Self::Suction,
        Self::Vessel,
    ];

    /// The part of the loop that it is of; none for what the shop has brought.
    fn part(self) -> Option<Part> {
        Some(match self {
            Self::Compressor => Part::Compressor,
            Self::Discharge => Part::DischargeHose,
            Self::CondenserInlet | Self::CondenserOutlet => Part::Condenser,
            Self::Liquid => Part::LiquidLine,
            Self::EvaporatorInlet | Self::EvaporatorOutlet => Part::Evaporator,
            Self::Accumulator => Part::Accumulator,
            Self::Suction => Part::SuctionHose,
            Self::Vessel => return None,
        })
    }

    /// Returns its temperature, K; none where the part is out or nothing is there.
    pub fn temperature(self, bay: &Bay) -> Option<f64> {
        let (plant, shop) = (bay.plant(), bay.shop());
        if self
            .part()
            .is_some_and(|p| shop.bench[p as usize].is_some())
        {
            return None;
        }
        let c = &plant.circuit;
        Some(match self {
            Self::Compressor => plant.shells[c.body].t,
            Self::Discharge => plant.shells[c.discharge_hose].t,
            Self::CondenserInlet => *plant.condenser.wall.first()?,
            Self::CondenserOutlet => *plant.condenser.wall.last()?,
            Self::Liquid => wall(plant, &c.liquid_line),
            // Thin pipes without a wall of their own.
            Self::EvaporatorInlet => inside(plant, c.evaporator.inlet()),
            Self::EvaporatorOutlet => inside(plant, c.evaporator.outlet()),
            Self::Accumulator => wall(plant, &c.accumulator),
            Self::Suction => wall(plant, &c.suction_line),
            Self::Vessel => match shop.hands.attached {
                Attached::Can(_) | Attached::Cylinder(_) | Attached::Machine(_) => {
                    plant.shells[shop.manifold.can_shell].t
                }
                Attached::Nothing | Attached::Nitrogen(_) | Attached::Pump(_) => return None,
            },
        })
    }
}

/// Temperature of what is in a volume, K.
fn inside(plant: &Plant, node: NodeId) -> f64 {
    plant.network.node(node).state.t
}

/// Temperature of the wall at the end of a section, K.
fn wall(plant: &Plant, section: &Section) -> f64 {
    let node = section.outlet();
    let shell = plant.shells.iter().find(|shell| shell.node == node);
    shell.map_or_else(|| inside(plant, node), |shell| shell.t)
}

/// How a surface feels to a bare hand, the coldest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Touch {
    /// So cold that it bites.
    Icy,
    /// Cooler than the day.
    Cool,
    /// As the day.
    AsTheDay,
    /// Warmer than the day.
    Warm,
    /// Too hot to keep a hand on.
    TooHot,
}

/// Up to here a surface feels icy, K: 5 degC (common practice, no source).
pub const ICY: f64 = 278.15;
/// From here on nobody keeps a hand on bare metal, K: 55 degC, which burns within ten seconds (ISO 13732-1, from memory).
pub const TOO_HOT: f64 = 328.15;
/// What a hand tells from the day, K (own figure; common practice has one feel the difference of two pipes of some 5 K).
pub const TELLS_APART: f64 = 4.0;

impl Touch {
    /// How a surface at `t` (K) feels on a day at `day` (K).
    pub fn of(t: f64, day: f64) -> Self {
        if t <= ICY {
            Self::Icy
        } else if t >= TOO_HOT {
            Self::TooHot
        } else if t < day - TELLS_APART {
            Self::Cool
        } else if t > day + TELLS_APART {
            Self::Warm
        } else {
            Self::AsTheDay
        }
    }
}

/// What clings to a surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Coat {
    /// Nothing.
    #[default]
    Dry,
    /// Drops of condensate: colder than the dew point of the air around it.
    Dew,
    /// Frost: colder than the dew point and than 0 degC.
    Frost,
}

impl Coat {
    /// What a surface at `t` (K) wears in air with a dew point of `dew` (K).
    pub fn of(t: f64, dew: f64) -> Self {
        if t >= dew {
            Self::Dry
        } else if t < water::T_TRIPLE {
            Self::Frost
        } else {
            Self::Dew
        }
    }
}

/// Dew point of the day, K.
pub fn dew_point(plant: &Plant) -> f64 {
    let day = plant.day();
    moist_air::dew_point(day.w(), day.p)
}

/// What is felt and seen of a surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Feel {
    /// How it feels.
    pub touch: Touch,
    /// What clings to it.
    pub coat: Coat,
}

/// Feels every surface, in the order of [`Surface::ALL`].
pub(crate) fn surfaces(bay: &Bay) -> [Option<Feel>; SURFACES] {
    let (day, dew) = (bay.plant().day().t, dew_point(bay.plant()));
    Surface::ALL.map(|surface| {
        let t = surface.temperature(bay)?;
        Some(Feel {
            touch: Touch::of(t, day),
            coat: Coat::of(t, dew),
        })
    })
}

/// Returns whether somebody beside the vehicle sees, hears or smells that it happened.
pub fn noticed(event: Event) -> bool {
    match event {
        // A clutch clacks, a switch clicks, the dashboard warns of a hot engine, coolant steams, an engine falls silent, machines show why
        // they stopped.
        Event::ClutchIn
        | Event::LowSwitchOpened
        | Event::CutOutOpened
        | Event::EngineTooHot
        | Event::GaugeRed
        | Event::CoolantBoils
        | Event::EngineStalled
        | Event::ClutchSmells
        | Event::ReliefLifted
        | Event::ReliefSeated
        | Event::HoseBurst
        | Event::CanBurst
        | Event::CompressorSeized
        | Event::ClutchBurnt
        | Event::LetOut
        | Event::PumpOilBlown
        | Event::Injury
        | Event::Dosed
        | Event::MachineAtVacuum
        | Event::CylinderFull => true,
        // A can empties and a compressor takes liquid and wears unseen; air goes in with a hiss that may be too faint.
        Event::CanEmpty
        | Event::LiquidAtCompressor
        | Event::LiquidGone
        | Event::CompressorHurt
        | Event::AirDrawnIn(_)
        | Event::AirByTheHose => false,
    }
}

/// Returns whether a reading is one of an instrument, a switch or something that is seen, so that whoever works there knows whether a condition
/// on it holds.
pub fn is_shown(reading: Reading) -> bool {
    match reading {
        Reading::Low
        | Reading::High
        | Reading::Vent
        | Reading::Cabin
        | Reading::Vacuum
        | Reading::Purity
        | Reading::Engine
        | Reading::AirConditioning
        | Reading::Clutch
        | Reading::LowCoupler
        | Reading::HighCoupler
        | Reading::LowValve
        | Reading::HighValve
        | Reading::Scale
        | Reading::Recovered
        | Reading::Clamp
        | Reading::Hurt
        | Reading::Caps
        | Reading::LoopOpen
        | Reading::LeakFound
        | Reading::ColdAtOrifice
        | Reading::NewFittings
        | Reading::CutOut
        | Reading::NewAccumulator
        | Reading::NotedBefore
        | Reading::NotedAfter
        | Reading::Pump
        | Reading::Machine
        | Reading::Can
        | Reading::CanBurst => true,
        Reading::CanLiquid
        | Reading::Charge
        | Reading::Air
        | Reading::Water
        | Reading::Vented
        | Reading::SuctionLiquid
        | Reading::R12
        | Reading::Wear
        | Reading::SealsLeak
        | Reading::Leaks
        | Reading::RepairsCleared
        | Reading::LooseBeads
        | Reading::LetOut
        | Reading::Label
        | Reading::LowSwitch
        | Reading::NewSeals
        | Reading::ConversionInOrder
        | Reading::DesiccantWater
        | Reading::Oil
        | Reading::OilVolume
        | Reading::MineralOil => false,
    }
}

/// Events that somebody beside the vehicle has noticed. The others cannot be got out of it.
#[derive(Clone, Copy)]
pub struct Noticed<'a>(&'a [(Tick, Event)]);

impl<'a> Noticed<'a> {
    pub(crate) fn of(bay: &'a Bay) -> Self {
        Self(bay.events())
    }

    /// Returns them with their times, the oldest first.
    pub fn iter(self) -> impl DoubleEndedIterator<Item = (Tick, Event)> + 'a {
        self.0.iter().copied().filter(|(_, event)| noticed(*event))
    }

    /// Returns how often an event was noticed.
    pub fn count(self, event: Event) -> usize {
        self.iter().filter(|(_, e)| *e == event).count()
    }

    /// Returns when an event was noticed first.
    pub fn first(self, event: Event) -> Option<Tick> {
        self.iter().find(|(_, e)| *e == event).map(|(tick, _)| tick)
    }

    /// Returns when an event was noticed last.
    pub fn last(self, event: Event) -> Option<Tick> {
        self.iter()
            .rev()
            .find(|(_, e)| *e == event)
            .map(|(tick, _)| tick)
    }
}

impl PartialEq for Noticed<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.iter().eq(other.iter())
    }
}

impl core::fmt::Debug for Noticed<'_> {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_list().entries(self.iter()).finish()
    }
}

/// How much there is of something seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Much {
    /// None.
    None,
    /// Some.
    Some,
    /// A lot.
    Lots,
}

/// Shares from which something seen counts as some and as a lot (own figures: what an eye tells).
const SHARE: (f64, f64) = (0.05, 0.4);
/// The same for oil in a part, kg, and for free water, kg.
const OIL: (f64, f64) = (2e-3, 40e-3);
const WATER: (f64, f64) = (0.2e-3, 2e-3);
/// The same for beads out of their bag, kg.
const BEADS: (f64, f64) = (0.01e-3, 0.1e-3);
/// Step in which an eye tells a share (own figure).
const STEP: f64 = 0.1;

impl Much {
    fn of(x: f64, (some, lots): (f64, f64)) -> Self {
        if x >= lots {
            Self::Lots
        } else if x >= some {
            Self::Some
        } else {
            Self::None
        }
    }
}

/// What an eye tells of an opened part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Share of an orifice tube's screen and bore that is blocked, and that to the next tenth.
    pub blocked: (Much, f64),
    /// Dirt on the outside, and the share of the air that goes through, to the next tenth.
    pub face: (Much, f64),
    /// Beads of the desiccant.
    pub beads: Much,
    /// Glitter in the oil.
    pub metal: Much,
    /// How dark the oil is.
    pub dark: Much,
    /// How wet it is with oil.
    pub oil: Much,
    /// Milky oil: free water.
    pub water: Much,
}

impl From<&Seen> for Look {
    fn from(s: &Seen) -> Self {
        let tenth = |x: f64| (x / STEP).round() * STEP;
        Self {
            blocked: (Much::of(s.blocked, SHARE), tenth(s.blocked)),
            face: (Much::of(1.0 - s.face, SHARE), tenth(s.face)),
            beads: Much::of(s.beads, BEADS),
            metal: Much::of(s.metal, SHARE),
            dark: Much::of(s.dark, SHARE),
            oil: Much::of(s.oil, OIL),
            water: Much::of(s.water, WATER),
        }
    }
}
