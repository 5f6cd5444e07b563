//! A uniform grid and the cubic through the values and slopes at the ends of a cell.

/// `n` cells of equal width from `start`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grid {
    pub(super) start: f64,
    pub(super) step: f64,
    inverse: f64,
    pub(super) cells: usize,
}

impl Grid {
    /// Covers `start..=end` with cells of at most `width`.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "a few hundred cells"
    )]
    pub(super) fn covering(start: f64, end: f64, width: f64) -> Self {
        let cells = ((end - start) / width).ceil().max(1.0) as usize;
        let step = (end - start) / cells as f64;
        Self {
            start,
            step,
            inverse: 1.0 / step,
            cells,
        }
    }

    /// The coordinate of a node.
    #[expect(clippy::cast_precision_loss, reason = "a few hundred cells")]
    pub(super) fn node(&self, i: usize) -> f64 {
        self.start + self.step * i as f64
    }

    /// Cell and the place in it; 0 to 1 inside, beyond at the outermost cells.
    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "the cast saturates and is then held to the grid"
    )]
    pub(super) fn locate(&self, x: f64) -> (usize, f64) {
        let y = (x - self.start) * self.inverse;
        // Through i32: the conversion the processor has.
        let i = (y as i32).max(0) as usize;
        let i = i.min(self.cells - 1);
        (i, y - i as f64)
    }

    /// `1/step`.
    #[inline]
    pub(super) fn inverse(&self) -> f64 {
        self.inverse
    }
}

/// Powers 0 to 3 of the cubic with the end values `f0`, `f1` and end slopes `m0`, `m1` (per cell width).
pub(super) fn cubic(f0: f64, m0: f64, f1: f64, m1: f64) -> [f64; 4] {
    let rise = f1 - f0;
    [f0, m0, 3.0 * rise - 2.0 * m0 - m1, m0 + m1 - 2.0 * rise]
}

/// Value of a cubic and its derivative in cell widths.
#[inline]
pub(super) fn value_slope(c: &[f64; 4], s: f64) -> (f64, f64) {
    (
        c[0] + s * (c[1] + s * (c[2] + s * c[3])),
        c[1] + s * (2.0 * c[2] + s * (3.0 * c[3])),
    )
}

/// Bits of a positive float below the ones that choose a cell: exponent and three of the fraction choose.
const KEY_SHIFT: u32 = 49;

/// A rising function's inverse as a first estimate: straight lines over eighths of octaves, found without a
/// logarithm by reading the float's own exponent.
#[derive(Debug, Clone, Default)]
pub(super) struct Octaves {
    first: u64,
    values: Vec<f64>,
}

impl Octaves {
    /// Inverts `f` (value and slope), which rises on `low..=high`. The outermost nodes lie beyond the range,
    /// on the tangents at its ends.
    pub(super) fn inverting(f: impl Fn(f64) -> (f64, f64), low: f64, high: f64) -> Self {
        let ((f_low, d_low), (f_high, d_high)) = (f(low), f(high));
        let first = f_low.to_bits() >> KEY_SHIFT;
        let last = (f_high.to_bits() >> KEY_SHIFT) + 1;
        let values = (first..=last)
            .map(|k| {
                let y = f64::from_bits(k << KEY_SHIFT);
                if y < f_low {
                    low + (y - f_low) / d_low
                } else if y > f_high {
                    high + (y - f_high) / d_high
                } else {
                    bisect(|t| f(t).0 - y, low, high)
                }
            })
            .collect();
        Self { first, values }
    }

    /// The estimate for a positive `y`.
    #[inline]
    #[expect(clippy::cast_precision_loss, reason = "the fraction has 49 bits")]
    pub(super) fn at(&self, y: f64) -> f64 {
        let bits = y.to_bits();
        let i =
            ((bits >> KEY_SHIFT).saturating_sub(self.first) as usize).min(self.values.len() - 2);
        let s = (bits & ((1 << KEY_SHIFT) - 1)) as f64 * (1.0 / (1u64 << KEY_SHIFT) as f64);
        self.values[i] + s * (self.values[i + 1] - self.values[i])
    }
}

/// Root of a rising function; the nearer end when there is none.
pub(super) fn bisect(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..52 {
        let m = 0.5 * (low + high);
        if f(m) < 0.0 {
            low = m;
        } else {
            high = m;
        }
    }
    0.5 * (low + high)
}
