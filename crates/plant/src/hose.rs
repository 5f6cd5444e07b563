//! The discharge hose: rubber that loses its strength with heat and bursts where the relief valve only holds the pressure.
//!
//! A loop whose condenser sheds no heat and whose compressor nothing stops gets hotter and hotter at the relief valve's pressure.
//! On the road the hose ends that.

use crate::leak::{Leak, Site, Size};

/// Pressure at which it bursts cold, Pa gauge (SAE J2064: at least 12 MPa for a high-pressure hose; from memory).
const STRENGTH: f64 = 12e6;
/// Temperature to which it keeps that, and at which nothing of it is left, K: 135 and 190 degC (the first as such hoses are rated, the
/// second an own figure, plausible 170-220 degC; both from memory).
const SOFTENS: (f64, f64) = (408.15, 463.15);
/// A torn hose: wider than any leak that is searched for (own figure, half its bore).
const TORN: Leak = Leak {
    at: Site::DischargeHose,
    size: Size::Hole(5e-3),
};

/// Pressure it stands with its wall at `t` (K), Pa gauge.
fn stands(t: f64) -> f64 {
    let (sound, none) = SOFTENS;
    STRENGTH * ((none - t) / (none - sound)).clamp(0.0, 1.0)
}

/// The leak of a hose that bursts now, its wall at `t` (K) with a gauge pressure `p` (Pa) inside; none if it stands, or has burst
/// already.
pub(crate) fn bursts(t: f64, p: f64, leaks: &[Leak]) -> Option<Leak> {
    (p > stands(t) && !burst(leaks)).then_some(TORN)
}

/// Is the hose torn?
pub(crate) fn burst(leaks: &[Leak]) -> bool {
    leaks.contains(&TORN)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a healthy loop asks of it on the hottest day it stands many times over: 105 degC, 2.8 MPa where the cut-out opens.
    #[test]
    fn a_hose_stands_what_a_loop_with_a_cut_out_asks() {
        assert!(bursts(378.15, 2.8e6, &[]).is_none());
        assert!(
            bursts(398.15, 3.8e6, &[]).is_none(),
            "at the relief valve's pressure too"
        );
    }

    #[test]
    fn heat_takes_its_strength_and_it_bursts_once() {
        let torn = bursts(453.15, 3.7e6, &[]).expect("180 degC at the relief valve's pressure");
        assert!(burst(&[torn]));
        assert!(bursts(453.15, 3.7e6, &[torn]).is_none());
    }
}
