//! Parts that come out and go in: what a part on the bench holds, what is seen in it, what a new one brings.

use lowside_fluids::oil::Oils;
use lowside_plant::{
    circuit::Circuit,
    debris::Solids,
    leak::Site,
    network::NodeId,
    plant::Plant,
    seat::Seat,
    species::{AIR, Content, DISSOLVED, OIL, REFRIGERANT, WATER},
    state::RHO_OIL,
};
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

use crate::{
    Shop,
    fault::{self, Cure},
    joints::Joint,
};

/// A part of the loop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// Compressor.
    Compressor,
    /// Discharge hose.
    DischargeHose,
    /// Condenser.
    Condenser,
    /// Liquid line.
    LiquidLine,
    /// Orifice tube.
    Orifice,
    /// Evaporator.
    Evaporator,
    /// Accumulator with its desiccant.
    Accumulator,
    /// Suction hose.
    SuctionHose,
    /// Relief valve.
    ReliefValve,
}

/// How many parts there are.
pub const PARTS: usize = 9;
/// Share of the suction side's oil that is in the compressor and comes out with it; the hose has the rest (own figure).
const IN_COMPRESSOR: f64 = 0.95;
/// Oil a new compressor comes with, kg: 7 fl oz, or the whole loop's if that is less (workshop manuals).
const NEW_COMPRESSOR: f64 = 0.205;
/// Most of a part's volume that oil may take (own figure).
const OIL_FULL: f64 = 0.5;
/// Bores a tube can have, m.
pub const BORES: (f64, f64) = (0.8e-3, 3.0e-3);

impl Part {
    /// All of them.
    pub const ALL: [Self; PARTS] = [
        Self::Compressor,
        Self::DischargeHose,
        Self::Condenser,
        Self::LiquidLine,
        Self::Orifice,
        Self::Evaporator,
        Self::Accumulator,
        Self::SuctionHose,
        Self::ReliefValve,
    ];

    /// Its name in messages.
    pub fn name(self) -> &'static str {
        match self {
            Self::Compressor => "compressor",
            Self::DischargeHose => "discharge hose",
            Self::Condenser => "condenser",
            Self::LiquidLine => "liquid line",
            Self::Orifice => "orifice tube",
            Self::Evaporator => "evaporator",
            Self::Accumulator => "accumulator",
            Self::SuctionHose => "suction hose",
            Self::ReliefValve => "relief valve",
        }
    }

    /// The parts that a joint holds together.
    pub fn at(joint: Joint) -> impl Iterator<Item = Self> {
        Self::ALL
            .into_iter()
            .filter(move |p| *p != Self::Orifice && p.joints().contains(&joint))
    }

    /// The joints that have to be apart for it to come out.
    pub fn joints(self) -> &'static [Joint] {
        match self {
            Self::Compressor => &[Joint::CompressorIn, Joint::CompressorOut],
            Self::DischargeHose => &[Joint::CompressorOut, Joint::CondenserIn],
            Self::Condenser => &[Joint::CondenserIn, Joint::CondenserOut],
            Self::LiquidLine => &[Joint::CondenserOut, Joint::EvaporatorIn],
            Self::Orifice => &[Joint::EvaporatorIn],
            Self::Evaporator => &[Joint::EvaporatorIn, Joint::EvaporatorOut],
            Self::Accumulator => &[Joint::EvaporatorOut, Joint::AccumulatorOut],
            Self::SuctionHose => &[Joint::AccumulatorOut, Joint::CompressorIn],
            Self::ReliefValve => &[Joint::ReliefThread],
        }
    }

    /// Returns the part that a leak's site belongs to; none where it is a port's core.
    pub fn with(site: Site) -> Option<Self> {
        Self::ALL.into_iter().find(|p| p.sites().contains(&site))
    }

    /// Where it can leak, its joints aside.
    pub fn sites(self) -> &'static [Site] {
        match self {
            Self::Compressor => &[Site::ShaftSeal],
            Self::DischargeHose => &[Site::DischargeHose],
            Self::Condenser => &[Site::CondenserTop, Site::CondenserBottom],
            Self::LiquidLine => &[Site::LiquidLine],
            Self::Orifice => &[],
            Self::Evaporator => &[Site::EvaporatorInlet, Site::EvaporatorOutlet],
            Self::Accumulator => &[Site::Accumulator],
            Self::SuctionHose => &[Site::SuctionHose],
            Self::ReliefValve => &[Site::ReliefValve],
        }
    }

    /// Its volumes in the network; orifice and relief valve have none.
    fn nodes(self, c: &Circuit) -> Vec<NodeId> {
        match self {
            Self::Compressor => vec![c.compressor_inlet()],
            Self::SuctionHose => c.suction_line.nodes().to_vec(),
            Self::DischargeHose => c.discharge_line.nodes().to_vec(),
            Self::Condenser => c.condenser.nodes().to_vec(),
            Self::LiquidLine => c.liquid_line.nodes().to_vec(),
            Self::Orifice | Self::ReliefValve => Vec::new(),
            Self::Evaporator => c.evaporator.nodes().to_vec(),
            Self::Accumulator => c.accumulator.nodes().to_vec(),
        }
    }

    /// Share of a volume's oil that is the part's own, and whether it has the volume to itself: compressor and suction hose share one.
    fn own(self, c: &Circuit, node: NodeId) -> (f64, bool) {
        match self {
            Self::Compressor => (IN_COMPRESSOR, false),
            Self::SuctionHose if node == c.compressor_inlet() => (1.0 - IN_COMPRESSOR, false),
            _ => (1.0, true),
        }
    }

    /// Share of the oil in it that runs out when it is turned over; the rest clings (own figures).
    pub fn drains(self) -> f64 {
        match self {
            Self::Compressor => 0.85,
            Self::Accumulator => 0.7,
            Self::Condenser | Self::Evaporator => 0.4,
            _ => 0.5,
        }
    }

    /// Most oil that goes into its volumes, kg.
    pub fn most_oil(self, plant: &Plant) -> f64 {
        let nodes = self.nodes(&plant.circuit);
        let volume: f64 = nodes.iter().map(|n| plant.network.node(*n).volume).sum();
        OIL_FULL * volume * RHO_OIL
    }

    /// Oil that a new one comes with, kg.
    pub fn ships_with(self, plant: &Plant) -> f64 {
        match self {
            Self::Compressor => NEW_COMPRESSOR
                .min(plant.vehicle.oil.si())
                .min(self.most_oil(plant)),
            _ => 0.0,
        }
    }
}

/// A part out of the vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct OnBench {
    /// Oil in it, kg.
    pub oil: f64,
    /// Which oils that is.
    pub oils: Oils,
    /// Water in the oil, kg.
    pub oil_water: f64,
    /// Water that its desiccant holds, kg.
    pub bound: f64,
    /// What is seen in it.
    pub seen: Seen,
    /// The orifice tube's own: how it sat.
    pub seat: Option<Seat>,
    /// Its caps are off: it breathes the room's air.
    #[serde(default)]
    pub bare: bool,
}

/// What an opened part shows. Numbers, not words: they follow from its condition.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Seen {
    /// Share of an orifice tube's screen and bore that is blocked.
    pub blocked: f64,
    /// Beads on an orifice tube's screen, in the condenser, or loose in the accumulator, kg: the desiccant's bag has burst.
    pub beads: f64,
    /// Metal in the oil, 0 none to 1 full of glitter: wear of the compressor.
    pub metal: f64,
    /// Darkness of the oil, 0 clear to 1 black: overheated.
    pub dark: f64,
    /// Oil lying in it, kg.
    pub oil: f64,
    /// Free water in it, kg: milky oil.
    pub water: f64,
    /// Share of the air that its outside lets through (condenser face, evaporator fins).
    pub face: f64,
}

/// What a part shows once it is out or one of its joints is apart.
pub fn look(plant: &Plant, part: Part) -> Seen {
    let (mut oil, mut water) = (0.0, 0.0);
    for node in part.nodes(&plant.circuit) {
        let c = &plant.network.node(node).content;
        oil += c[OIL] * part.own(&plant.circuit, node).0;
        water += c[WATER];
    }
    let c = &plant.condition;
    Seen {
        blocked: if part == Part::Orifice {
            1.0 - plant.orifice_clean()
        } else {
            0.0
        },
        beads: match part {
            Part::Orifice => plant.debris.caught.beads,
            Part::Accumulator => plant.debris.loose,
            Part::Condenser => plant.debris.beads_in_condenser(),
            _ => 0.0,
        },
        metal: plant.wear(),
        dark: (plant.damage.heat + plant.damage.dryness).min(1.0),
        oil,
        water,
        face: match part {
            Part::Condenser => c.condenser_air,
            Part::Evaporator => c.evaporator_air,
            _ => 1.0,
        },
    }
}

/// Takes a part out: its oil and what its desiccant holds come with it; the refrigerant and air in it go to the room. In its place
/// stands room air. Returns the part and what went to the room.
pub fn take_out(plant: &mut Plant, part: Part) -> (OnBench, Content) {
    let mut bench = OnBench {
        seen: look(plant, part),
        oils: plant.oil.oils,
        ..OnBench::default()
    };
    let mut lost = Content::default();
    for node in part.nodes(&plant.circuit) {
        let (share, alone) = part.own(&plant.circuit, node);
        let mut all = plant.network.node(node).content;
        all[OIL] *= share;
        all[DISSOLVED] *= share;
        // What gas is in a shared volume stays with the place.
        if !alone {
            all[REFRIGERANT] = 0.0;
            all[AIR] = 0.0;
            all[WATER] = 0.0;
        }
        let gone = plant.network.take_out(node, &all);
        bench.oil += gone[OIL];
        bench.oil_water += plant.network.take_oil_water(node, share);
        // Opened to the room, the oil fizzes out what is dissolved in it.
        let mut gas = gone.whole();
        gas[OIL] = 0.0;
        lost.add(&gas, 1.0);
        // The desiccant, or a hose's rubber.
        if matches!(
            part,
            Part::Accumulator | Part::DischargeHose | Part::SuctionHose
        ) {
            bench.bound += plant.network.take_bound(node);
        }
        fill_with_air(plant, node, &mut lost);
    }
    match part {
        Part::Compressor => plant.fitted.compressor = false,
        Part::Accumulator => plant.fitted.accumulator = false,
        Part::Orifice => {
            bench.seat = Some(plant.seat);
            plant.seat.fitted = false;
        }
        _ => {}
    }
    (bench, lost)
}

/// Room air where a part was, if nothing else is there; it came from the room.
fn fill_with_air(plant: &mut Plant, node: NodeId, lost: &mut Content) {
    let n = plant.network.node(node);
    if n.content[AIR] + n.content[REFRIGERANT] > 0.0 {
        return;
    }
    let air = plant.network.room_air(n.volume);
    plant.network.inject(node, &air);
    lost.add(&air, -1.0);
}

/// Puts a part back, or a new one in: with the oil it holds, the water in that and what its desiccant holds.
pub fn put_in(plant: &mut Plant, part: Part, bench: &OnBench) {
    let nodes = part.nodes(&plant.circuit);
    let cells = nodes.len().max(1) as f64;
    let mut oil = Content::default();
    oil[OIL] = bench.oil / cells;
    for node in nodes {
        plant.network.inject(node, &oil);
        plant
            .network
            .inject_oil_water(node, bench.oil_water / cells);
        plant.network.inject_bound(node, bench.bound / cells);
    }
    match part {
        Part::Compressor => plant.fitted.compressor = true,
        Part::Accumulator => plant.fitted.accumulator = true,
        Part::Orifice => {
            if let Some(seat) = bench.seat {
                plant.seat = seat;
            }
        }
        _ => {}
    }
}

/// Makes the condition of a part that of a new one: it is sound and tight.
pub fn renew(plant: &mut Plant, shop: &mut Shop, part: Part) {
    for site in part.sites() {
        plant.mend(*site);
    }
    fault::cure(plant, shop, Cure::NewPart(part));
    // What came about in the bay.
    match part {
        Part::Compressor => {
            // A new one comes with its clutch.
            plant.clutch.charred = 0.0;
            plant.damage = lowside_plant::damage::Damage::default();
        }
        Part::Condenser => plant.debris.renew_condenser(),
        Part::Orifice => plant.debris.caught = Solids::default(),
        _ => {}
    }
}
