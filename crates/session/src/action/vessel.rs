//! Acts on what gives gas at the service hose: cans, charging cylinder, nitrogen.

use lowside_fluids::Refrigerant;
use lowside_plant::{plant::Plant, species::REFRIGERANT};
use lowside_shop::{
    Attached, Shop,
    can::{Can, Stance},
    cylinder::{CHARGING_MOST, Cylinder},
    nitrogen::MOST,
};
use lowside_units::{GaugePressure, Mass, Quantity, Ratio, Temperature};
use serde::{Deserialize, Serialize};

use super::{Refused, hose::share, machine::at_rest};
use crate::limits::within;

/// An act on a can, the charging cylinder or nitrogen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum VesselAct {
    /// Screw a full can onto the service hose (a used one goes to the shelf).
    TakeCan,
    /// Screw a full can of a certain gas onto the service hose: right or wrong, R-134a or R-12 (each other's only,
    /// and the vehicle's own).
    TakeCanOf {
        /// What the can holds.
        gas: Refrigerant,
    },
    /// Screw a full self-sealing can onto the service hose.
    TakeSelfSealingCan,
    /// Take the can off the service hose.
    #[serde(rename = "drop-can")]
    RemoveCan,
    /// Open or shut the can's tap, or the valve of the charging cylinder or the nitrogen.
    Tap {
        /// True to open it.
        on: bool,
    },
    /// Screw the needle of the can's tap to a place: 0 % is all the way in and pierces the can, backed out lets it
    /// flow.
    TapScrew {
        /// 0 (in) to 1 (backed out all the way).
        back: Ratio,
    },
    /// Turn the can or the charging cylinder over, or back.
    Invert {
        /// True to turn its valve down.
        on: bool,
    },
    /// Stand the can in a water bath.
    Bath {
        /// Temperature of the water, 0 to 100 degC; none takes it out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        temperature: Option<Temperature>,
    },
    /// Rock the can in both hands between upright and lying, or let it stand; it comes out of its bath for it.
    Rock {
        /// True to rock it.
        on: bool,
    },
    /// Connect a charging cylinder, its valve shut; what hangs on the hose is put aside.
    TakeCylinder {
        /// What is in it; its fitting mates with no other gas's hose.
        gas: Refrigerant,
        /// 500 g to 13.6 kg.
        holds: Mass,
    },
    /// Open the cylinder's valve and let it shut itself when so much has left it.
    Dose {
        /// 10 g to 5 kg.
        mass: Mass,
    },
    /// Connect dry nitrogen, its regulator backed off and its valve shut; what hangs on the hose is put aside.
    TakeNitrogen,
    /// Set the nitrogen regulator.
    Regulator {
        /// 0 to 1034 kPa gauge (150 psi).
        pressure: GaugePressure,
    },
}

impl VesselAct {
    /// Does the act, or refuses and changes nothing.
    pub(super) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        match self {
            Self::TakeCan => {
                at_rest(shop)?;
                shop.take_can(plant, false)?;
            }
            Self::TakeCanOf { gas } => {
                at_rest(shop)?;
                shop.take_can_of(plant, gas, false)?;
            }
            Self::TakeSelfSealingCan => {
                at_rest(shop)?;
                shop.take_can(plant, true)?;
            }
            Self::RemoveCan => {
                can(shop)?;
                shop.put_aside(plant);
            }
            Self::Tap { on } => match &mut shop.hands.attached {
                Attached::Cylinder(c) => {
                    c.open = on;
                    c.shuts_at = None;
                }
                Attached::Nitrogen(n) => n.open = on,
                _ => whole_can(shop)?.tap(on),
            },
            Self::TapScrew { back } => {
                let back = share("back", back)?;
                whole_can(shop)?.screw(back);
            }
            Self::Invert { on } => {
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
            Self::Bath { temperature } => {
                let (least, most) = (Temperature::from_k(273.15), Temperature::from_k(373.15));
                let t = temperature
                    .map(|t| within("degC", "temperature", t, least, most))
                    .transpose()?;
                let can = can(shop)?;
                can.bath = t.map(Temperature::k);
                can.rocked &= can.bath.is_none();
            }
            Self::Rock { on } => {
                let can = whole_can(shop)?;
                can.rocked = on;
                if on {
                    can.bath = None;
                }
            }
            Self::TakeCylinder { gas, holds } => {
                at_rest(shop)?;
                let (least, most) = (Mass::from_g(500.0), Mass::from_kg(CHARGING_MOST));
                let holds = within("kg", "holds", holds, least, most)?;
                mates(shop, gas)?;
                shop.take_cylinder(plant, gas, holds.si())?;
            }
            Self::Dose { mass } => dose(mass, plant, shop)?,
            Self::TakeNitrogen => {
                at_rest(shop)?;
                shop.take_nitrogen(plant);
            }
            Self::Regulator { pressure } => {
                let (least, most) = (GaugePressure::from_kpa(0.0), GaugePressure::from_pa(MOST));
                let set = within("kPag", "pressure", pressure, least, most)?.si();
                if !matches!(shop.hands.attached, Attached::Nitrogen(_)) {
                    return Err(Refused::NoNitrogen);
                }
                shop.regulate(plant, set);
            }
        }
        Ok(())
    }
}

/// Opens the charging cylinder until so much has left it.
fn dose(mass: Mass, plant: &Plant, shop: &mut Shop) -> Result<(), Refused> {
    let (least, most) = (Mass::from_g(10.0), Mass::from_kg(5.0));
    let mass = within("g", "mass", mass, least, most)?;
    let held = plant.network.node(shop.manifold.can).content.whole()[REFRIGERANT];
    let cylinder = charging(shop)?;
    if mass.si() > held {
        return Err(Refused::CylinderTooEmpty {
            asked_g: mass.g(),
            held_g: Mass::from_si(held).g(),
        });
    }
    cylinder.open = true;
    cylinder.shuts_at = Some(held - mass.si());
    Ok(())
}

/// The fittings of machines and cylinders mate only with hoses for the same gas.
pub(super) fn mates(shop: &Shop, fitting: Refrigerant) -> Result<(), Refused> {
    let hose = shop.hands.hoses;
    if fitting == hose {
        Ok(())
    } else {
        Err(Refused::WrongFitting { fitting, hose })
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
