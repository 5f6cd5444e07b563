//! Power and heat flow.

use crate::factor::{BTU_J, HORSEPOWER_W, TON_OF_REFRIGERATION_W};
use crate::quantity::quantity;

quantity! {
    /// Power or heat flow, W. `hp` is 550 foot-pounds-force a second, `Btu` the International Table unit.
    Power, "power", lowest f64::NEG_INFINITY, bare false {
        from_w, w, "watts", ["W"], 1.0, 1.0, 0.0;
        from_kw, kw, "kilowatts", ["kW"], 1e3, 1.0, 0.0;
        from_hp, hp, "horsepower", ["hp"], HORSEPOWER_W, 1.0, 0.0;
        from_btu_h, btu_h, "Btu an hour", ["Btu/h"], BTU_J, 3600.0, 0.0;
        from_tons, tons, "tons of refrigeration", ["ton"], TON_OF_REFRIGERATION_W, 1.0, 0.0;
    }
}
