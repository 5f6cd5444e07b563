//! Acts that open the loop: joints, parts, ports, oil.

use lowside_plant::{plant::Plant, seat::Seat, species::OIL};
use lowside_shop::{
    Shop, flush,
    joints::{Fit, Joint, Side},
    oil::{OilKind, RHO_OIL},
    parts::{BORES, Part},
};
use lowside_units::{Length, Quantity, Volume};

use super::{Action, Refused};
use crate::limits::within;

/// Share of the gas space behind the low-side port that injected oil may take (own figure).
const INJECTED_INTO: f64 = 0.5;

/// Does an act on joints, parts or oil, or refuses and changes nothing. True when it hurt somebody.
pub(super) fn apply(act: Action, plant: &mut Plant, shop: &mut Shop) -> Result<bool, Refused> {
    let mut hurt = false;
    match act {
        Action::OpenJoint { joint } => {
            if shop.openings.fit(joint) == Fit::Open {
                return Err(Refused::JointApart(joint));
            }
            hurt = shop.open_joint(plant, joint);
        }
        Action::CapJoint { joint } => {
            apart(shop, joint)?;
            shop.openings.joints[joint as usize] = Fit::Capped;
        }
        Action::CloseJoint { joint, seal } => {
            apart(shop, joint)?;
            if let Some(out) = Part::at(joint).find(|p| shop.bench[*p as usize].is_some()) {
                return Err(Refused::PartOut(out));
            }
            shop.make_joint(joint, seal);
        }
        Action::RemovePart { part } => {
            fitted(shop, part)?;
            part.joints().iter().try_for_each(|j| apart(shop, *j))?;
            shop.take_part(plant, part);
        }
        Action::RefitPart { part } => {
            on_bench(shop, part)?;
            part.joints().iter().try_for_each(|j| apart(shop, *j))?;
            shop.refit_part(plant, part);
        }
        Action::NewPart { part } => {
            on_bench(shop, part)?;
            shop.new_part(plant, part);
        }
        Action::FitOrifice {
            bore,
            reversed,
            rings,
        } => {
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
        }
        Action::DrainPart { part } => {
            on_bench(shop, part)?;
            shop.drain_part(part);
        }
        Action::FlushPart { part, with } => {
            on_bench(shop, part)?;
            flushable(part)?;
            shop.flush_part(plant, part, with);
        }
        Action::PourOil { part, volume, oil } => {
            let kg = measured(volume)?;
            on_bench(shop, part)?;
            let held = shop.bench[part as usize].map_or(0.0, |p| p.oil);
            // The suction hose shares its volume with the compressor.
            let other = plant.network.node(plant.places.suction).content[OIL];
            let shared = matches!(part, Part::Compressor | Part::SuctionHose);
            let there = held + if shared { other } else { 0.0 };
            if there + kg > part.most_oil(plant) {
                return Err(Refused::NoRoom(part));
            }
            shop.pour_oil(part, kg, oil);
        }
        Action::InjectOil { volume, oil } => inject_oil(measured(volume)?, oil, plant, shop)?,
        Action::PortCap { side, on } => {
            free(shop, side)?;
            shop.openings.ports[side as usize].cap = on;
        }
        Action::Core { side, fitted } => {
            free(shop, side)?;
            if shop.openings.ports[side as usize].cap {
                return Err(Refused::CapOn);
            }
            hurt = shop.set_core(plant, side, fitted);
        }
        _ => {}
    }
    Ok(hurt)
}

/// Presses so much oil (kg) through the low-side port.
fn inject_oil(kg: f64, oil: OilKind, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
    if !shop.hands.low_coupled {
        return Err(Refused::NotCoupled);
    }
    let held = plant.network.node(plant.places.accumulator).content[OIL];
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

fn fitted(shop: &Shop, part: Part) -> Result<(), Refused> {
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

fn on_bench(shop: &Shop, part: Part) -> Result<(), Refused> {
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
