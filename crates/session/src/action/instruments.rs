//! Acts with instruments, and what is written down.

use lowside_plant::plant::Plant;
use lowside_shop::{Shop, detect, label::Label};
use lowside_units::{Length, Mass, Quantity, Speed, Volume};

use super::{Action, Refused};
use crate::limits::within;

/// Does an act with an instrument, or refuses and changes nothing.
pub(super) fn apply(act: Action, plant: &Plant, shop: &mut Shop) -> Result<(), Refused> {
    match act {
        Action::Sniff {
            at,
            sensitivity,
            distance,
            wind,
        } => {
            let (touching, far) = (Length::from_mm(0.0), Length::from_mm(100.0));
            let distance = within("mm", "distance", distance, touching, far)?.si();
            let (still, storm) = (Speed::from_m_s(0.0), Speed::from_m_s(10.0));
            let wind = within("m/s", "wind", wind, still, storm)?.si();
            let finding = detect::sniff(plant, shop, at, sensitivity, distance, wind);
            shop.search[at.index()] = Some(finding);
        }
        Action::Soap { at } => {
            shop.search[at.index()] = Some(detect::soap(plant, shop, at));
        }
        Action::Lamp { at } => shop.search[at.index()] = Some(detect::lamp(plant, shop, at)),
        Action::Dye => {
            if !shop.hands.low_coupled {
                return Err(Refused::NotCoupled);
            }
            shop.dye = true;
        }
        Action::Clamp { at } => shop.hands.clamp = at,
        Action::ClutchMeter { on } => shop.hands.clutch_meter = on,
        Action::Stopwatch { on } => {
            if on {
                shop.instruments.stopwatch = 0.0;
            }
            shop.hands.timing = on;
        }
        Action::NoteReadings { after } => {
            shop.noted[usize::from(after)] = Some(shop.readings(plant));
        }
        Action::Label {
            charge,
            gas,
            oil,
            particulars,
        } => {
            let (least, most) = (Mass::from_g(50.0), Mass::from_kg(3.0));
            if let Some(volume) = particulars.oil_volume {
                let (none, bottle) = (Volume::from_l(0.0), Volume::from_l(1.0));
                within("mL", "oil_volume", volume, none, bottle)?;
            }
            shop.label = Some(Label {
                charge: within("g", "charge", charge, least, most)?.si(),
                gas: gas.unwrap_or(plant.vehicle.refrigerant),
                oil,
                particulars,
                at: shop.clock,
            });
        }
        _ => {}
    }
    Ok(())
}
