//! Acts of a conversion: fittings, switches, every O-ring. Those that open the loop return true when it hurt somebody.

use lowside_plant::plant::Plant;
use lowside_shop::{Shop, joints::Side, parts::Part};
use lowside_units::{GaugePressure, Quantity};

use super::{Refused, bench::free};
use crate::limits::within;

/// Most that the cycling switch's screw goes either way, turns (own figure).
const MOST_TURNS: f64 = 2.0;

/// Screws a conversion fitting over a port of the old gas.
pub(super) fn convert_port(
    side: Side,
    new_core: bool,
    plant: &mut Plant,
    shop: &mut Shop,
) -> Result<bool, Refused> {
    uncovered(shop, side)?;
    let port = &shop.openings.ports[side as usize];
    let Some(retrofit) = port.takes_fitting() else {
        return Err(Refused::FittingLocked {
            fitting: port.fitting,
        });
    };
    Ok(shop.convert_port(plant, side, retrofit.to, new_core))
}

/// Screws a cut-out into the discharge line.
pub(super) fn fit_cut_out(
    opens: GaugePressure,
    plant: &mut Plant,
    shop: &mut Shop,
) -> Result<bool, Refused> {
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

/// Turns the cycling switch's screw.
pub(super) fn turn_switch(quarters: i8, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
    let turns = f64::from(quarters) / 4.0;
    if (shop.switch_turns + turns).abs() > MOST_TURNS {
        return Err(Refused::ScrewAtEnd);
    }
    shop.turn_switch(plant, turns);
    Ok(())
}

/// Renews the O-ring of every joint.
pub(super) fn renew_seals(plant: &mut Plant, shop: &mut Shop) -> Result<bool, Refused> {
    if let Some(out) = Part::ALL
        .into_iter()
        .find(|p| shop.bench[*p as usize].is_some())
    {
        return Err(Refused::PartOut(out));
    }
    Ok(shop.renew_seals(plant))
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
