//! Heat between a wall and what touches it, within one tick.

/// Share of the way to their common temperature that two bodies go in one step while the plain product still holds.
const PLAIN: f64 = 0.4;

/// Heat that passes in `dt` seconds from a body at `t_hot` to one at `t_cold` through a conductance (W/K), J.
///
/// Both bodies have a finite heat capacity (J/K). As long as the step takes them less than two fifths of the way to their common
/// temperature the answer is the plain product, so that a settled stream takes the same heat whatever the length of the
/// tick; beyond, it bends over smoothly, so that they approach but never cross, however thin the refrigerant or long the tick.
/// What one gives the other takes: the caller adds and subtracts the same number.
pub fn between(conductance: f64, t_hot: f64, t_cold: f64, c_hot: f64, c_cold: f64, dt: f64) -> f64 {
    let c = c_hot * c_cold / (c_hot + c_cold).max(1e-12);
    let k = conductance * dt;
    let whole = t_hot - t_cold;
    if k <= PLAIN * c {
        return k * whole;
    }
    // Meets the plain product with its slope at `PLAIN`, and the common temperature without end.
    c * whole * (1.0 - (1.0 - PLAIN) * libm::exp((PLAIN - k / c.max(1e-12)) / (1.0 - PLAIN)))
}

/// Share of its own heat capacity up to which a volume of a coil takes the plain product: what flows through it in a step brings as much
/// again and more.
const PLAIN_THROUGH: f64 = 2.0;

/// What a conductance (W/K) between a wall and a volume that much flows through passes in `dt` seconds for each kelvin, J/K: the plain
/// product, unless it is so much against the heat capacity (J/K) of the wall or of the volume that it has to bend over.
pub fn hold(conductance: f64, c_volume: f64, c_wall: f64, dt: f64) -> f64 {
    let k = conductance * dt;
    let bent = |k: f64, c: f64, plain: f64| {
        if k <= plain * c {
            return k;
        }
        c * (plain + (1.0 - PLAIN) * (1.0 - libm::exp((plain - k / c.max(1e-12)) / (1.0 - PLAIN))))
    };
    bent(bent(k, c_volume, PLAIN_THROUGH), c_wall, PLAIN)
}

/// Effectiveness of a stream passing a wall of one temperature: 1 - exp(-UA/(m cp)) (Kays & London).
pub fn effectiveness(conductance: f64, capacity_flow: f64) -> f64 {
    if capacity_flow <= 0.0 {
        return 0.0;
    }
    1.0 - libm::exp(-conductance / capacity_flow)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Gas streams through a small cell past a wall held warm: UA (T_wall - T) = m cp (T - T_in) once settled, at any tick. A law
    /// that damps short steps too takes a twentieth less here at 20 ms than at 5.
    #[test]
    fn a_settled_stream_takes_its_heat_at_any_tick() {
        let (ua, flow, c, cold, warm) = (20.0, 10.0, 1.6, 273.0, 300.0);
        for dt in [0.02, 0.01, 0.005] {
            let mut t = cold;
            let mut taken = 0.0;
            for _ in 0..10_000 {
                taken = between(ua, warm, t, 1e9, c, dt);
                t += (taken - flow * (t - cold) * dt) / c;
            }
            let right = ua * (warm - (flow * cold + ua * warm) / (flow + ua));
            assert!(
                (taken / dt / right - 1.0).abs() < 1e-6,
                "{dt} s: {} W, {right} W",
                taken / dt
            );
        }
    }

    /// Both branches meet, in value and in slope.
    #[test]
    fn the_bend_is_smooth() {
        let q = |share: f64| between(share, 1.0, 0.0, 2.0, 2.0, 1.0);
        let (below, at, above) = (q(PLAIN - 1e-6), q(PLAIN), q(PLAIN + 1e-6));
        assert!((above - 2.0 * at + below).abs() < 1e-9);
    }

    #[test]
    fn bodies_approach_and_never_cross() {
        // A gram of gas against a kilogram of metal, and a conductance that would overshoot a thousandfold.
        let q = between(2000.0, 320.0, 300.0, 0.7, 900.0, 0.02);
        assert!(
            q > 0.0 && 320.0 - q / 0.7 >= 300.0 + q / 900.0 - 1e-9,
            "heat {q} J"
        );
        // Small step: the plain product.
        let q = between(5.0, 320.0, 300.0, 900.0, 900.0, 0.02);
        assert!((q - 2.0).abs() < 1e-12);
    }
}
