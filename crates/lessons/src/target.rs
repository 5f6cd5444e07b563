//! What a vehicle is to reach: its charge, and how cold its vent.

use lowside_session::Bay;
use lowside_shop::joints::Side;

/// Vent temperature that the job asks for, K: 10 degC (issue's acceptance value).
pub const VENT_GOAL: f64 = 283.15;

/// What the loop is to hold, kg: the label's charge, or half way between by the rule once a vehicle has the fittings of a conversion.
pub fn target(bay: &Bay) -> f64 {
    let v = &bay.plant().vehicle;
    let fitting = bay.shop().openings.ports[Side::Low as usize].fitting;
    let retrofit = v.refrigerant.data().retrofit;
    let share = retrofit
        .filter(|r| r.to == fitting)
        .map_or(1.0, |r| r.middle());
    share * v.label_charge.kg()
}
