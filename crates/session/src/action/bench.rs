//! Acts that open the loop: joints, parts, ports, oil.

use lowside_plant::{plant::Plant, seat::Seat, species::OIL};
use lowside_shop::{
    Shop,
    flush::{self, Flush},
    joints::{Fit, Joint, Seal, Side},
    oil::{OilKind, RHO_OIL},
    parts::{BORES, Part},
};
use lowside_units::{GaugePressure, Length, Quantity, Volume};
use serde::{Deserialize, Serialize};

use super::{Refused, retrofit};
use crate::limits::within;

/// Share of the gas space behind the low-side port that injected oil may take (own figure).
const INJECTED_INTO: f64 = 0.5;

/// An act on joints, parts, ports or oil.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum BenchAct {
    /// Take a joint apart. Under pressure it vents, and hurts.
    OpenJoint {
        /// The joint, made until now.
        joint: Joint,
    },
    /// Cap both ends of a joint that is apart.
    CapJoint {
        /// The joint.
        joint: Joint,
    },
    /// Put a joint together.
    CloseJoint {
        /// The joint; the parts on both sides of it have to be in.
        joint: Joint,
        /// With what O-ring.
        seal: Seal,
    },
    /// Lay a part on the bench; its joints have to be apart.
    RemovePart {
        /// The part.
        part: Part,
    },
    /// Put the part that lies on the bench back in.
    RefitPart {
        /// The part; its joints have to be apart.
        part: Part,
    },
    /// Throw the part on the bench away and lay a new one there.
    NewPart {
        /// The part.
        part: Part,
    },
    /// Push the orifice tube on the bench into its line.
    FitOrifice {
        /// Its bore, 0.8 to 3 mm.
        bore: Length,
        /// Inlet screen to the evaporator: the wrong way round.
        reversed: bool,
        /// With its O-rings.
        rings: bool,
    },
    /// Turn a part on the bench over above the measuring cup.
    DrainPart {
        /// The part.
        part: Part,
    },
    /// Wash a coil or line on the bench through.
    FlushPart {
        /// Condenser, liquid line or evaporator.
        part: Part,
        /// With what.
        with: Flush,
    },
    /// Pour oil into a part on the bench.
    PourOil {
        /// The part.
        part: Part,
        /// 1 to 500 mL.
        volume: Volume,
        /// Which oil.
        oil: OilKind,
    },
    /// Press oil into the loop through the low-side port.
    InjectOil {
        /// 1 to 500 mL.
        volume: Volume,
        /// Which oil.
        oil: OilKind,
    },
    /// Screw a cap onto a port, or take it off.
    PortCap {
        /// Which port.
        side: Side,
        /// True to screw it on.
        on: bool,
    },
    /// Screw a new valve core into a port, or the core out of it.
    #[serde(rename = "core")]
    ValveCore {
        /// Which port.
        side: Side,
        /// True to screw a new one in.
        fitted: bool,
    },
    /// Screw a conversion fitting for R-134a over an R-12 port: it locks and does not come off again. Under pressure
    /// it blows.
    ConvertPort {
        /// Which port.
        side: Side,
        /// True to change the old core for a new one, false to leave it in under the fitting.
        new_core: bool,
    },
    /// Screw a high-pressure cut-out into the discharge line where there is none. Under pressure it blows.
    FitCutOut {
        /// Where it opens, 2000 to 3300 kPa gauge.
        opens: GaugePressure,
    },
    /// Turn the cycling switch's screw by quarters of a turn: negative is anticlockwise and lowers both its points.
    SwitchScrew {
        /// -8 to 8, two whole turns either way from where it came in all.
        quarters: i8,
    },
    /// Take every joint apart in turn and put it together with new oiled O-rings.
    RenewSeals,
}

impl BenchAct {
    /// Does the act, or refuses and changes nothing. True when it hurt somebody.
    pub(super) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<bool, Refused> {
        let mut hurt = false;
        match self {
            Self::OpenJoint { joint } => {
                if shop.openings.fit(joint) == Fit::Open {
                    return Err(Refused::JointApart(joint));
                }
                let tool = shop.hands.joint_tool;
                // What is capped has no nut and no spring on.
                if !shop.openings.apart(joint) && !tool.parts(joint) {
                    return Err(Refused::WrongTool { tool, joint });
                }
                hurt = shop.open_joint(plant, joint);
            }
            Self::CapJoint { joint } => {
                apart(shop, joint)?;
                shop.openings.joints[joint as usize] = Fit::Capped;
            }
            Self::CloseJoint { joint, seal } => {
                apart(shop, joint)?;
                if let Some(out) = Part::at(joint).find(|p| shop.bench[*p as usize].is_some()) {
                    return Err(Refused::PartOut(out));
                }
                shop.make_joint(joint, seal);
            }
            Self::RemovePart { part } => {
                fitted(shop, part)?;
                part.joints().iter().try_for_each(|j| apart(shop, *j))?;
                shop.take_part(plant, part);
            }
            Self::RefitPart { part } => {
                on_bench(shop, part)?;
                part.joints().iter().try_for_each(|j| apart(shop, *j))?;
                shop.refit_part(plant, part);
            }
            Self::NewPart { part } => {
                on_bench(shop, part)?;
                shop.new_part(plant, part);
            }
            Self::FitOrifice {
                bore,
                reversed,
                rings,
            } => fit_orifice(bore, reversed, rings, plant, shop)?,
            Self::DrainPart { part } => {
                on_bench(shop, part)?;
                shop.drain_part(part);
            }
            Self::FlushPart { part, with } => {
                on_bench(shop, part)?;
                flushable(part)?;
                shop.flush_part(plant, part, with);
            }
            Self::PourOil { part, volume, oil } => {
                pour_oil(part, measured(volume)?, oil, plant, shop)?;
            }
            Self::InjectOil { volume, oil } => inject_oil(measured(volume)?, oil, plant, shop)?,
            Self::PortCap { side, on } => {
                free(shop, side)?;
                shop.openings.ports[side as usize].cap = on;
            }
            Self::ValveCore { side, fitted } => {
                free(shop, side)?;
                if shop.openings.ports[side as usize].cap {
                    return Err(Refused::CapOn);
                }
                hurt = shop.set_core(plant, side, fitted);
            }
            Self::ConvertPort { side, new_core } => {
                hurt = retrofit::convert_port(side, new_core, plant, shop)?;
            }
            Self::FitCutOut { opens } => hurt = retrofit::fit_cut_out(opens, plant, shop)?,
            Self::SwitchScrew { quarters } => retrofit::turn_switch(quarters, plant, shop)?,
            Self::RenewSeals => hurt = retrofit::renew_seals(plant, shop)?,
        }
        Ok(hurt)
    }
}

/// Pushes the tube on the bench into its line.
fn fit_orifice(
    bore: Length,
    reversed: bool,
    rings: bool,
    plant: &mut Plant,
    shop: &mut Shop,
) -> Result<(), Refused> {
    let (least, most) = (Length::from_m(BORES.0), Length::from_m(BORES.1));
    let bore = within("mm", "bore", bore, least, most)?.si();
    on_bench(shop, Part::Orifice)?;
    apart(shop, Joint::EvaporatorIn)?;
    if let Some(tube) = &mut shop.bench[Part::Orifice as usize] {
        tube.seat = Some(Seat {
            fitted: true,
            bore,
            length: plant.vehicle.orifice.length.si(),
            turned: reversed,
            sealed: rings,
        });
    }
    shop.refit_part(plant, Part::Orifice);
    Ok(())
}

/// Pours so much oil (kg) into a part on the bench.
fn pour_oil(
    part: Part,
    kg: f64,
    oil: OilKind,
    plant: &Plant,
    shop: &mut Shop,
) -> Result<(), Refused> {
    on_bench(shop, part)?;
    let held = shop.bench[part as usize].map_or(0.0, |p| p.oil);
    // The suction hose shares its volume with the compressor.
    let other = plant.network.node(plant.circuit.compressor_inlet()).content[OIL];
    let shared = matches!(part, Part::Compressor | Part::SuctionHose);
    let there = held + if shared { other } else { 0.0 };
    if there + kg > part.most_oil(plant) {
        return Err(Refused::NoRoom(part));
    }
    shop.pour_oil(part, kg, oil);
    Ok(())
}

/// Presses so much oil (kg) through the low-side port.
fn inject_oil(kg: f64, oil: OilKind, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
    if !shop.hands.low_coupled {
        return Err(Refused::NotCoupled);
    }
    let held = plant.network.node(plant.circuit.low_side()).content[OIL];
    // A loop full of liquid takes no more: an injector is screwed by hand.
    let port = shop.openings.port_node(Side::Low);
    let room = INJECTED_INTO * plant.network.node(port).state.v_gas;
    if held + kg > Part::Accumulator.most_oil(plant) || kg > room * RHO_OIL {
        return Err(Refused::NoRoom(Part::Accumulator));
    }
    shop.inject_oil(plant, kg, oil);
    Ok(())
}

/// Oil by the measuring cup, kg.
fn measured(volume: Volume) -> Result<f64, Refused> {
    let (least, most) = (Volume::from_cm3(1.0), Volume::from_cm3(500.0));
    Ok(within("mL", "volume", volume, least, most)?.si() * RHO_OIL)
}

fn apart(shop: &Shop, joint: Joint) -> Result<(), Refused> {
    if shop.openings.apart(joint) {
        Ok(())
    } else {
        Err(Refused::JointMade(joint))
    }
}

pub(super) fn fitted(shop: &Shop, part: Part) -> Result<(), Refused> {
    match &shop.bench[part as usize] {
        None => Ok(()),
        Some(_) => Err(Refused::PartOut(part)),
    }
}

fn flushable(part: Part) -> Result<(), Refused> {
    if flush::flushable(part) {
        Ok(())
    } else {
        Err(Refused::NotFlushed(part))
    }
}

pub(super) fn on_bench(shop: &Shop, part: Part) -> Result<(), Refused> {
    match &shop.bench[part as usize] {
        Some(_) => Ok(()),
        None => Err(Refused::PartIn(part)),
    }
}

pub(super) fn free(shop: &Shop, side: Side) -> Result<(), Refused> {
    let coupled = match side {
        Side::Low => shop.hands.low_coupled,
        Side::High => shop.hands.high_coupled,
    };
    if coupled {
        Err(Refused::Coupled)
    } else {
        Ok(())
    }
}
