//! Ratio: a share, an opening, a relative humidity.

use crate::quantity::quantity;

quantity! {
    /// A ratio; 1 is the whole. Written `0.4` or `40 %`.
    Ratio, "ratio", lowest f64::NEG_INFINITY, bare true {
        from_fraction, fraction, "wholes", [""], 1.0, 1.0, 0.0;
        from_percent, percent, "per cent", ["%"], 1.0, 100.0, 0.0;
        from_ppm, ppm, "parts per million", ["ppm"], 1.0, 1e6, 0.0;
    }
}
