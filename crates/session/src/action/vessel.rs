//! Acts on what hangs on the service hose: cans, charging cylinder, recovery machine.

use lowside_fluids::{Blend, Gas};
use lowside_plant::{plant::Plant, species::REFRIGERANT};
use lowside_shop::{
    Attached, Shop,
    can::{Can, Stance},
    cylinder::{self, CHARGING_MOST, Cylinder},
    nitrogen::MOST,
    recovery::{MOST_BEFORE, Machine},
};
use lowside_units::{GaugePressure, Mass, Quantity, Temperature};

use super::{Action, Refused, gauge_set::share, pump::at_rest};
use crate::limits::within;

/// Does an act at the service hose, or refuses and changes nothing.
pub(super) fn apply(act: Action, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
    if takes_off(act) {
        at_rest(shop)?;
    }
    match act {
        Action::TakeCan => shop.take_can(plant, false),
        Action::TakeCanOf { gas } => {
            mixes(plant, gas)?;
            shop.take_can_of(plant, gas, false);
        }
        Action::TakeSelfSealingCan => shop.take_can(plant, true),
        Action::DropCan => {
            can(shop)?;
            shop.put_aside(plant);
        }
        Action::Tap { on } => match &mut shop.hands.attached {
            Attached::Cylinder(c) => {
                c.open = on;
                c.shuts_at = None;
            }
            Attached::Nitrogen(n) => n.open = on,
            _ => whole_can(shop)?.tap(on),
        },
        Action::TapScrew { back } => {
            let back = share("back", back)?;
            whole_can(shop)?.screw(back);
        }
        Action::Invert { on } => {
            let stance = if on {
                Stance::Inverted
            } else {
                Stance::Upright
            };
            match &mut shop.hands.attached {
                Attached::Cylinder(c) => c.stance = stance,
                _ => can(shop)?.stance = stance,
            }
        }
        Action::Bath { temperature } => {
            let (least, most) = (Temperature::from_k(273.15), Temperature::from_k(373.15));
            let t = temperature
                .map(|t| within("degC", "temperature", t, least, most))
                .transpose()?;
            can(shop)?.bath = t.map(Temperature::k);
        }
        other => return vessel(other, plant, shop),
    }
    Ok(())
}

/// Acts on cylinders, the recovery machine and the scale.
fn vessel(act: Action, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
    match act {
        Action::TakeCylinder { gas, holds } => {
            let (least, most) = (Mass::from_g(500.0), Mass::from_kg(CHARGING_MOST));
            let holds = within("kg", "holds", holds, least, most)?;
            mates(shop, gas)?;
            shop.take_cylinder(plant, gas, holds.si());
        }
        Action::Dose { mass } => {
            let (least, most) = (Mass::from_g(10.0), Mass::from_kg(5.0));
            let mass = within("g", "mass", mass, least, most)?;
            let held = plant.network.node(shop.places.can).content.whole()[REFRIGERANT];
            let cylinder = charging(shop)?;
            if mass.si() > held {
                return Err(Refused::CylinderTooEmpty {
                    asked_g: mass.g(),
                    held_g: Mass::from_si(held).g(),
                });
            }
            cylinder.open = true;
            cylinder.shuts_at = Some(held - mass.si());
        }
        Action::TakeMachine { gas } => {
            mates(shop, gas)?;
            shop.take_machine(plant, gas);
        }
        Action::Machine { on } => {
            let held = plant.network.node(shop.places.can).content.whole()[REFRIGERANT];
            let machine = machine(shop)?;
            if on && held >= cylinder::limit(plant.network.table()) {
                return Err(Refused::CylinderFull);
            }
            machine.running = on;
            machine.down = 0.0;
        }
        Action::MachineStop { pressure } => {
            let (least, most) = (
                GaugePressure::from_kpa(-90.0),
                GaugePressure::from_kpa(-5.0),
            );
            let stops_at = within("kPag", "pressure", pressure, least, most)?.si();
            machine(shop)?.stops_at = stops_at;
        }
        Action::ChangeCylinder { holds } => {
            let (least, most) = (Mass::from_g(0.0), Mass::from_kg(MOST_BEFORE));
            let holds = within("kg", "holds", holds, least, most)?.si();
            shop.change_cylinder(plant, holds);
        }
        Action::Disconnect => {
            if shop.hands.attached == Attached::Nothing {
                return Err(Refused::NothingAttached);
            }
            shop.put_aside(plant);
        }
        Action::TakeNitrogen => shop.take_nitrogen(plant),
        Action::Regulator { pressure } => {
            let (least, most) = (GaugePressure::from_kpa(0.0), GaugePressure::from_pa(MOST));
            let set = within("kPag", "pressure", pressure, least, most)?.si();
            if !matches!(shop.hands.attached, Attached::Nitrogen(_)) {
                return Err(Refused::NoNitrogen);
            }
            shop.regulate(plant, set);
        }
        Action::ZeroScale => shop.zero_scale(plant),
        _ => {}
    }
    Ok(())
}

/// Is what hangs on the hose taken off by this act?
fn takes_off(act: Action) -> bool {
    matches!(
        act,
        Action::TakeCan
            | Action::TakeCanOf { .. }
            | Action::TakeSelfSealingCan
            | Action::TakeCylinder { .. }
            | Action::TakeMachine { .. }
            | Action::Disconnect
    )
}

/// The fittings of machines and cylinders mate only with hoses for the same gas.
fn mates(shop: &Shop, fitting: Gas) -> Result<(), Refused> {
    let hose = shop.hands.hoses;
    if fitting == hose {
        Ok(())
    } else {
        Err(Refused::WrongFitting { fitting, hose })
    }
}

/// A small can fits any hose with an adapter; the model must be able to mix its gas with the loop's.
pub(super) fn mixes(plant: &Plant, gas: Gas) -> Result<(), Refused> {
    let loop_gas = plant.network.gas();
    if gas == loop_gas || Blend::holds(gas) && Blend::holds(loop_gas) {
        Ok(())
    } else {
        Err(Refused::NoMixture { gas, loop_gas })
    }
}

fn can(shop: &mut Shop) -> Result<&mut Can, Refused> {
    match &mut shop.hands.attached {
        Attached::Can(c) => Ok(c),
        _ => Err(Refused::NoCan),
    }
}

fn whole_can(shop: &mut Shop) -> Result<&mut Can, Refused> {
    let can = can(shop)?;
    if can.burst {
        Err(Refused::CanBurst)
    } else {
        Ok(can)
    }
}

fn charging(shop: &mut Shop) -> Result<&mut Cylinder, Refused> {
    match &mut shop.hands.attached {
        Attached::Cylinder(c) => Ok(c),
        _ => Err(Refused::NoCylinder),
    }
}

fn machine(shop: &mut Shop) -> Result<&mut Machine, Refused> {
    match &mut shop.hands.attached {
        Attached::Machine(m) => Ok(m),
        _ => Err(Refused::NoMachine),
    }
}
