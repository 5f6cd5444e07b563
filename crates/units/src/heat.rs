//! Heat conductance and heat capacity of a thing, and area.

use crate::quantity::quantity;

quantity! {
    /// Heat conductance of a surface or wall, W/K.
    Conductance, "heat conductance", lowest 0.0, bare false {
        from_w_k, w_k, "watts a kelvin", ["W/K"], 1.0, 1.0, 0.0;
        from_kw_k, kw_k, "kilowatts a kelvin", ["kW/K"], 1e3, 1.0, 0.0;
    }
}

quantity! {
    /// Heat capacity of a thing, J/K.
    HeatCapacity, "heat capacity", lowest 0.0, bare false {
        from_j_k, j_k, "joules a kelvin", ["J/K"], 1.0, 1.0, 0.0;
        from_kj_k, kj_k, "kilojoules a kelvin", ["kJ/K"], 1e3, 1.0, 0.0;
    }
}

quantity! {
    /// Area, m2.
    Area, "area", lowest 0.0, bare false {
        from_m2, m2, "square metres", ["m2"], 1.0, 1.0, 0.0;
        from_mm2, mm2, "square millimetres", ["mm2"], 1.0, 1e6, 0.0;
    }
}
