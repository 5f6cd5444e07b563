//! Length, speed, speed of rotation.

use crate::factor::{FOOT_M, INCH_M, MILE_PER_HOUR_MS};
use crate::quantity::quantity;

quantity! {
    /// Length, m.
    Length, "length", lowest f64::NEG_INFINITY, bare false {
        from_m, m, "metres", ["m"], 1.0, 1.0, 0.0;
        from_cm, cm, "centimetres", ["cm"], 1.0, 1e2, 0.0;
        from_mm, mm, "millimetres", ["mm"], 1.0, 1e3, 0.0;
        from_um, um, "micrometres", ["um", "\u{b5}m"], 1.0, 1e6, 0.0;
        from_in, inches, "inches", ["in"], INCH_M, 1.0, 0.0;
        from_ft, ft, "feet", ["ft"], FOOT_M, 1.0, 0.0;
    }
}

quantity! {
    /// Speed, m/s.
    Speed, "speed", lowest f64::NEG_INFINITY, bare false {
        from_m_s, m_s, "metres a second", ["m/s"], 1.0, 1.0, 0.0;
        from_km_h, km_h, "kilometres an hour", ["km/h", "kmh"], 1.0, 3.6, 0.0;
        from_mph, mph, "miles an hour", ["mph", "MPH"], MILE_PER_HOUR_MS, 1.0, 0.0;
        from_ft_min, ft_min, "feet a minute", ["ft/min", "fpm"], FOOT_M, 60.0, 0.0;
    }
}

quantity! {
    /// Speed of rotation, rad/s.
    RotationSpeed, "speed of rotation", lowest f64::NEG_INFINITY, bare false {
        from_rad_s, rad_s, "radians a second", ["rad/s"], 1.0, 1.0, 0.0;
        from_rpm, rpm, "revolutions a minute", ["rpm", "RPM", "r/min", "1/min"], core::f64::consts::TAU, 60.0, 0.0;
        from_rev_s, rev_s, "revolutions a second", ["rev/s", "1/s"], core::f64::consts::TAU, 1.0, 0.0;
    }
}
