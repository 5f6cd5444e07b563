//! Volume flow and mass flow.

use crate::factor::{CUBIC_FOOT_M3, OUNCE_KG, POUND_KG, YEAR_S};
use crate::quantity::quantity;

quantity! {
    /// Volume flow, m3/s.
    VolumeFlow, "volume flow", lowest f64::NEG_INFINITY, bare false {
        from_m3_s, m3_s, "cubic metres a second", ["m3/s", "m\u{b3}/s"], 1.0, 1.0, 0.0;
        from_m3_h, m3_h, "cubic metres an hour", ["m3/h", "m\u{b3}/h"], 1.0, 3600.0, 0.0;
        from_l_min, l_min, "litres a minute", ["L/min", "l/min"], 1.0, 6e4, 0.0;
        from_l_s, l_s, "litres a second", ["L/s", "l/s"], 1.0, 1e3, 0.0;
        from_cfm, cfm, "cubic feet a minute", ["cfm", "CFM", "ft3/min"], CUBIC_FOOT_M3, 60.0, 0.0;
    }
}

quantity! {
    /// Mass flow, kg/s. `g/yr` and `oz/yr` count a year of 365 days.
    MassFlow, "mass flow", lowest f64::NEG_INFINITY, bare false {
        from_kg_s, kg_s, "kilograms a second", ["kg/s"], 1.0, 1.0, 0.0;
        from_g_s, g_s, "grams a second", ["g/s"], 1.0, 1e3, 0.0;
        from_g_min, g_min, "grams a minute", ["g/min"], 1.0, 6e4, 0.0;
        from_kg_h, kg_h, "kilograms an hour", ["kg/h"], 1.0, 3600.0, 0.0;
        from_oz_min, oz_min, "ounces a minute", ["oz/min"], OUNCE_KG, 60.0, 0.0;
        from_lb_min, lb_min, "pounds a minute", ["lb/min"], POUND_KG, 60.0, 0.0;
        from_g_yr, g_yr, "grams a year", ["g/yr"], 1e-3, YEAR_S, 0.0;
        from_oz_yr, oz_yr, "ounces a year", ["oz/yr"], OUNCE_KG, YEAR_S, 0.0;
    }
}
