//! Faults that nothing a technician reads in half an hour tells apart: whoever names one of a pair has found the other too.

use lowside_shop::fault::Fault;

/// Pairs by id, and why neither the pressures, the temperatures nor the clock tell them apart.
const TWINS: [[&str; 2]; 6] = [
    // Both show as ice, and only once there is more water than the refrigerant dissolves.
    ["water", "desiccant-wet"],
    // Either way the clutch stays in and the coil ices.
    ["cycling-switch-stuck", "cycling-switch-late"],
    // Nothing shows until the high side is far too high.
    ["cut-out-welded", "relief-weak"],
    // The clutch is out; whether a cut-out or a lead is open is told with its plug in hand.
    ["clutch-circuit-open", "cut-out-early"],
    // The compressor is short of oil, for want of it or because it does not come back.
    ["oil-low", "accumulator-screen-clogged"],
    // A few psi on the high side, no more than between two sound vehicles.
    ["oil-high", "radiator-blocked"],
];

/// Are two faults twins?
pub fn twins(a: &Fault, b: &Fault) -> bool {
    let pair = [a.id, b.id];
    TWINS.iter().any(|twins| {
        let [one, other] = *twins;
        pair == [one, other] || pair == [other, one]
    })
}
