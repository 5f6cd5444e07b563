//! What hands and eyes tell of a vehicle's surfaces: how they feel, and what clings to them.

use lowside_fluids::{moist_air, water};
use lowside_plant::{circuit::Section, network::NodeId, plant::Plant};
use serde::{Deserialize, Serialize};

use crate::{Attached, Shop, parts::Part};

/// A surface that a hand can reach. The evaporator sits in its case; its two pipes come out of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
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
    pub fn temperature(self, plant: &Plant, shop: &Shop) -> Option<f64> {
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

impl Feel {
    /// What hand and eye tell of a surface; none where there is nothing to touch.
    pub fn of(surface: Surface, plant: &Plant, shop: &Shop) -> Option<Self> {
        let t = surface.temperature(plant, shop)?;
        Some(Self {
            touch: Touch::of(t, plant.day().t),
            coat: Coat::of(t, dew_point(plant)),
        })
    }
}
