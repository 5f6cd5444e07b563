//! What eyes, ears, nose and hands tell of a vehicle: how its surfaces feel and what clings to them, what has happened for all to notice, and
//! what an opened part shows.

use lowside_session::{Bay, Event, Tick, predicate::Reading};
use lowside_shop::parts::Seen;
pub use lowside_shop::senses::{
    Coat, Feel, ICY, SURFACES, Surface, TELLS_APART, TOO_HOT, Touch, dew_point,
};

/// Feels every surface, in the order of [`Surface::ALL`].
pub(crate) fn surfaces(bay: &Bay) -> [Option<Feel>; SURFACES] {
    Surface::ALL.map(|surface| Feel::of(surface, bay.plant(), bay.shop()))
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
