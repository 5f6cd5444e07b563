//! Acts of a conversion: fittings, switches, every O-ring.

use lowside_fluids::Gas;
use lowside_plant::plant::Plant;
use lowside_shop::{Shop, joints::Side, parts::Part};
use lowside_units::{GaugePressure, Quantity};

use super::{Action, Refused, bench::free};
use crate::limits::within;

/// Most that the cycling switch's screw goes either way, turns (own figure).
const MOST_TURNS: f64 = 2.0;

/// Does an act of a conversion, or refuses and changes nothing. True when it hurt somebody.
pub(super) fn apply(act: Action, plant: &mut Plant, shop: &mut Shop) -> Result<bool, Refused> {
    match act {
        Action::ConvertPort { side, new_core } => {
            uncovered(shop, side)?;
            let port = &shop.openings.ports[side as usize];
            if port.over.is_some() || port.fitting != Gas::R12 {
                return Err(Refused::FittingLocked {
                    fitting: port.fitting,
                });
            }
            Ok(shop.convert_port(plant, side, Gas::R134a, new_core))
        }
        Action::FitCutOut { opens } => {
            let (least, most) = (
                GaugePressure::from_kpa(2000.0),
                GaugePressure::from_kpa(3300.0),
            );
            let opens = within("kPag", "opens", opens, least, most)?.si();
            if plant.drive.cut_out_opens().is_some() {
                return Err(Refused::CutOutFitted);
            }
            Ok(shop.fit_cut_out(plant, opens))
        }
        Action::SwitchScrew { quarters } => {
            let turns = f64::from(quarters) / 4.0;
            if (shop.switch_turns + turns).abs() > MOST_TURNS {
                return Err(Refused::ScrewAtEnd);
            }
            shop.turn_switch(plant, turns);
            Ok(false)
        }
        Action::RenewSeals => {
            if let Some(out) = Part::ALL
                .into_iter()
                .find(|p| shop.bench[*p as usize].is_some())
            {
                return Err(Refused::PartOut(out));
            }
            Ok(shop.renew_seals(plant))
        }
        _ => Ok(false),
    }
}

/// Neither coupler nor cap is on a port.
fn uncovered(shop: &Shop, side: Side) -> Result<(), Refused> {
    free(shop, side)?;
    if shop.openings.ports[side as usize].cap {
        Err(Refused::CapOn)
    } else {
        Ok(())
    }
}
