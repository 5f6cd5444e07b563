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
