//! Temperature and temperature difference.

use crate::factor::{ZERO_CELSIUS_K, ZERO_FAHRENHEIT_R};
use crate::quantity::quantity;

quantity! {
    /// Thermodynamic temperature, K.
    Temperature, "temperature", lowest 0.0, bare false {
        from_k, k, "kelvins", ["K"], 1.0, 1.0, 0.0;
        from_deg_c, deg_c, "degrees Celsius", ["degC", "\u{b0}C", "C"], 1.0, 1.0, ZERO_CELSIUS_K;
        from_deg_f, deg_f, "degrees Fahrenheit", ["degF", "\u{b0}F", "F"], 5.0, 9.0, ZERO_FAHRENHEIT_R;
    }
}

quantity! {
    /// Difference of two temperatures, K (superheat, subcooling).
    TemperatureDifference, "temperature difference", lowest f64::NEG_INFINITY, bare false {
        from_k, k, "kelvins", ["K"], 1.0, 1.0, 0.0;
        from_deg_c, deg_c, "Celsius degrees", ["degC", "\u{b0}C", "C"], 1.0, 1.0, 0.0;
        from_deg_f, deg_f, "Fahrenheit degrees", ["degF", "\u{b0}F", "F"], 5.0, 9.0, 0.0;
    }
}

impl core::ops::Sub for Temperature {
    type Output = TemperatureDifference;

    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference::from_k(self.k() - other.k())
    }
}

impl core::ops::Add<TemperatureDifference> for Temperature {
    type Output = Self;

    fn add(self, difference: TemperatureDifference) -> Self {
        Self::from_k(self.k() + difference.k())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_meet_where_they_must() {
        assert!((Temperature::from_deg_f(-40.0).deg_c() + 40.0).abs() < 1e-12);
        assert!((Temperature::from_deg_f(212.0).k() - 373.15).abs() < 1e-12);
        let rise = Temperature::from_deg_f(95.0) - Temperature::from_deg_c(20.0);
        assert!((rise.deg_f() - 27.0).abs() < 1e-12);
        assert!(((Temperature::from_deg_c(20.0) + rise).deg_f() - 95.0).abs() < 1e-12);
    }
}
