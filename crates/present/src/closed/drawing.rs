//! The drawing of a closed bay: parts stand at fixed heights, with what hand and eye tell of them. No pressure but what a connected gauge
//! shows, no flow, nothing inside.

use lowside_lessons::{Shown as Known, Surface, senses::Feel};
use lowside_shop::{can::Can, detect::Spot, joints::Joint};
use lowside_units::display::UnitSystem;

use crate::{
    dial::Which,
    levels::{self, Tick, Tool, height},
    parts::Part,
    tools::Site,
};

/// A surface within reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Which.
    pub surface: Surface,
    /// The part of the drawing that it is of.
    pub part: Part,
    /// Height at which it is drawn, 0 to 1, whatever is in it.
    pub height: f64,
    /// How it feels and what clings to it; none where there is nothing.
    pub feel: Option<Feel>,
}

/// Everything that the drawing shows at one moment.
#[derive(Debug, Clone, PartialEq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a thing of its own that is seen or not"
)]
pub struct Drawing {
    /// Surfaces in the order of the flow, then the vessel on the service hose.
    pub places: Vec<Place>,
    /// Places stained with oil, and the part of the drawing that each is at.
    pub stains: Vec<(Spot, Part)>,
    /// Heights of the pressures that the gauges show, low and high; none while a coupler is off.
    pub gauges: [Option<f64>; 2],
    /// Height of the atmosphere.
    pub atmosphere: f64,
    /// The can on the service hose.
    pub can: Option<Can>,
    /// What hangs there in its place.
    pub tool: Option<Tool>,
    /// The clutch is pulled in.
    pub clutch: bool,
    /// Turns a second of the clutch's hub.
    pub turns: f64,
    /// Turns a second of the engine.
    pub engine: f64,
    /// How loud gas hisses, 0 to 1.
    pub hiss: f64,
    /// The clutch smells.
    pub smells: bool,
    /// The relief valve blows.
    pub relief: bool,
    /// Gas blows out of what hands have left open.
    pub blows: bool,
    /// Condensate drips.
    pub drips: bool,
    /// Couplers on: low, high.
    pub coupled: [bool; 2],
    /// Openings of the hand valves, 0 to 1: low, high.
    pub valves: [f64; 2],
    /// Hose cracked to purge.
    pub purging: bool,
}

/// The part of the drawing that a surface is of, and the height at which it is drawn: the high side above, the low side below.
fn stands(surface: Surface) -> (Part, f64) {
    match surface {
        Surface::Compressor => (Part::Compressor, 0.5),
        Surface::Discharge => (Part::Discharge, 0.75),
        Surface::CondenserInlet | Surface::CondenserOutlet => (Part::Condenser, 0.75),
        Surface::Liquid => (Part::Liquid, 0.75),
        Surface::EvaporatorInlet => (Part::Orifice, 0.5),
        Surface::EvaporatorOutlet => (Part::Evaporator, 0.3),
        Surface::Accumulator => (Part::Accumulator, 0.3),
        Surface::Suction => (Part::Suction, 0.3),
        Surface::Vessel => (Part::Can, 0.5),
    }
}

/// The part of the drawing that a place to search is at.
pub fn part_at(spot: Spot) -> Part {
    match spot {
        Spot::Joint(Joint::CompressorOut) | Spot::Site(Site::ShaftSeal) => Part::Compressor,
        Spot::Joint(Joint::ReliefThread)
        | Spot::Site(Site::DischargeHose | Site::HighPort | Site::ReliefValve) => Part::Discharge,
        Spot::Joint(Joint::CondenserIn | Joint::CondenserOut)
        | Spot::Site(Site::CondenserTop | Site::CondenserBottom) => Part::Condenser,
        Spot::Site(Site::LiquidLine) => Part::Liquid,
        Spot::Joint(Joint::EvaporatorIn) => Part::Orifice,
        Spot::Joint(Joint::EvaporatorOut)
        | Spot::Site(Site::EvaporatorInlet | Site::EvaporatorOutlet) => Part::Evaporator,
        Spot::Joint(Joint::AccumulatorOut) | Spot::Site(Site::Accumulator | Site::LowPort) => {
            Part::Accumulator
        }
        Spot::Joint(Joint::CompressorIn) | Spot::Site(Site::SuctionHose) => Part::Suction,
    }
}

impl Drawing {
    /// Draws what is shown.
    pub fn of(shown: &Known<'_>) -> Self {
        let hands = &shown.hands;
        let at = |pa: f64| height(pa + shown.day.p, shown.day.p);
        let stained = Spot::all().filter(|spot| shown.stained[spot.index()]);
        Self {
            places: Surface::ALL
                .map(|surface| {
                    let (part, height) = stands(surface);
                    Place {
                        surface,
                        part,
                        height,
                        feel: shown.surface(surface),
                    }
                })
                .to_vec(),
            stains: stained.map(|spot| (spot, part_at(spot))).collect(),
            gauges: [Which::Low, Which::High].map(|which| which.gauge(shown).map(at)),
            atmosphere: at(0.0),
            can: shown.can(),
            tool: Tool::of(&hands.attached),
            clutch: shown.clutch,
            turns: shown.sound.turns,
            engine: shown.sound.engine,
            hiss: shown.sound.hiss,
            smells: shown.smells,
            relief: shown.relief,
            blows: shown.blows,
            drips: shown.drips,
            coupled: [hands.low_coupled, hands.high_coupled],
            valves: [hands.low_valve, hands.high_valve],
            purging: hands.purging,
        }
    }
}

/// Marks of the axis beside it; boiling points are those of the gas that the gauge set is for.
pub fn ticks(shown: &Known<'_>, units: UnitSystem) -> Vec<Tick> {
    levels::axis(shown.day.p, shown.hands.hoses.table(), units)
}
