//! Mass, volume, and what is counted per mass or volume.

use crate::factor::{
    BTU_J, CUBIC_FOOT_M3, CUBIC_INCH_M3, FLUID_OUNCE_M3, GALLON_M3, OUNCE_KG, POUND_KG,
};
use crate::quantity::quantity;

quantity! {
    /// Mass, kg. `oz` is the avoirdupois ounce; fluid ounces belong to [`Volume`].
    Mass, "mass", lowest f64::NEG_INFINITY, bare false {
        from_kg, kg, "kilograms", ["kg"], 1.0, 1.0, 0.0;
        from_g, g, "grams", ["g"], 1.0, 1e3, 0.0;
        from_mg, mg, "milligrams", ["mg"], 1.0, 1e6, 0.0;
        from_oz, oz, "avoirdupois ounces", ["oz"], OUNCE_KG, 1.0, 0.0;
        from_lb, lb, "avoirdupois pounds", ["lb", "lbs"], POUND_KG, 1.0, 0.0;
    }
}

quantity! {
    /// Volume, m3. `fl oz` and `gal` are the US measures.
    Volume, "volume", lowest f64::NEG_INFINITY, bare false {
        from_m3, m3, "cubic metres", ["m3", "m\u{b3}"], 1.0, 1.0, 0.0;
        from_l, l, "litres", ["L", "l"], 1.0, 1e3, 0.0;
        from_cm3, cm3, "cubic centimetres", ["cm3", "cm\u{b3}", "mL", "ml"], 1.0, 1e6, 0.0;
        from_fl_oz, fl_oz, "US fluid ounces", ["fl oz"], FLUID_OUNCE_M3, 1.0, 0.0;
        from_gal, gal, "US gallons", ["gal"], GALLON_M3, 1.0, 0.0;
        from_in3, in3, "cubic inches", ["in3"], CUBIC_INCH_M3, 1.0, 0.0;
        from_ft3, ft3, "cubic feet", ["ft3"], CUBIC_FOOT_M3, 1.0, 0.0;
    }
}

quantity! {
    /// Density, kg/m3.
    Density, "density", lowest 0.0, bare false {
        from_kg_m3, kg_m3, "kilograms per cubic metre", ["kg/m3", "kg/m\u{b3}"], 1.0, 1.0, 0.0;
        from_g_l, g_l, "grams per litre", ["g/L"], 1.0, 1.0, 0.0;
        from_lb_ft3, lb_ft3, "pounds per cubic foot", ["lb/ft3"], POUND_KG, CUBIC_FOOT_M3, 0.0;
    }
}

quantity! {
    /// Energy per mass (enthalpy, internal energy), J/kg.
    SpecificEnergy, "specific energy", lowest f64::NEG_INFINITY, bare false {
        from_j_kg, j_kg, "joules per kilogram", ["J/kg"], 1.0, 1.0, 0.0;
        from_kj_kg, kj_kg, "kilojoules per kilogram", ["kJ/kg"], 1e3, 1.0, 0.0;
        from_btu_lb, btu_lb, "Btu (IT) per pound", ["Btu/lb"], BTU_J, POUND_KG, 0.0;
    }
}

quantity! {
    /// Entropy or heat capacity per mass, J/(kg K).
    SpecificEntropy, "specific entropy", lowest f64::NEG_INFINITY, bare false {
        from_j_kgk, j_kgk, "joules per kilogram kelvin", ["J/kgK", "J/(kgK)"], 1.0, 1.0, 0.0;
        from_kj_kgk, kj_kgk, "kilojoules per kilogram kelvin", ["kJ/kgK", "kJ/(kgK)"], 1e3, 1.0, 0.0;
    }
}
