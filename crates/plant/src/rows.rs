//! Functions tabled at equal steps, for the tick.

/// A function of one number at equal steps, straight between them, held at its ends.
#[derive(Debug, Clone)]
pub(crate) struct Rows<const N: usize> {
    from: f64,
    per_step: f64,
    values: Vec<[f64; N]>,
}

impl<const N: usize> Rows<N> {
    /// `steps` steps from `from` to `to`.
    pub(crate) fn new(from: f64, to: f64, steps: usize, of: impl Fn(f64) -> [f64; N]) -> Self {
        let step = (to - from) / steps as f64;
        Self {
            from,
            per_step: 1.0 / step,
            values: (0..=steps).map(|i| of(from + i as f64 * step)).collect(),
        }
    }

    /// The values at `x`.
    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held to the rows"
    )]
    pub(crate) fn at(&self, x: f64) -> [f64; N] {
        let last = self.values.len() - 2;
        let u = ((x - self.from) * self.per_step).clamp(0.0, (last + 1) as f64);
        // Through i32: the conversion the processor has.
        let i = (u as i32 as usize).min(last);
        let f = u - i as f64;
        let (a, b) = (&self.values[i], &self.values[i + 1]);
        core::array::from_fn(|k| a[k] + f * (b[k] - a[k]))
    }
}
