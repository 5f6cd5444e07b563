//! A saturation-pressure curve as cubic pieces, for places that ask for it every tick.

/// Least temperature of the table, K: 100 K below the triple point.
const LEAST_K: f64 = 173.16;
/// Pieces of 1 K; the triple point (273.16 K) is a joint, so the change from ice to liquid keeps its corner.
const PIECES: usize = 200;

/// Saturation pressure in pieces p = c0 + z (c1 + z (c2 + z c3)), z = T - T_joint, by cubic Hermite interpolation.
///
/// Relative error of one piece: h^4/384 times p''''/p, for h = 1 K about 3e-6 at 173 K, 4e-8 at 290 K.
#[derive(Debug)]
pub(crate) struct SaturationTable {
    pieces: Box<[[f64; 4]]>,
}

/// A branch of the curve: pressure in Pa and its slope in Pa/K at a temperature in K.
pub(crate) type Branch = fn(f64) -> (f64, f64);

impl SaturationTable {
    /// Builds the table from the branch over ice and the branch over liquid.
    pub(crate) fn build(ice: Branch, liquid: Branch) -> Self {
        let mut pieces = Vec::with_capacity(PIECES);
        let mut t = LEAST_K;
        for _ in 0..PIECES {
            let branch = if t < 273.1 { ice } else { liquid };
            let ((a, da), (b, db)) = (branch(t), branch(t + 1.0));
            pieces.push([
                a,
                da,
                3.0 * (b - a) - 2.0 * da - db,
                2.0 * (a - b) + da + db,
            ]);
            t += 1.0;
        }
        Self {
            pieces: pieces.into_boxed_slice(),
        }
    }

    /// Saturation pressure in Pa, or `None` outside 173.16..373.16 K.
    pub(crate) fn at(&self, t_k: f64) -> Option<f64> {
        let (c, z) = self.piece(t_k)?;
        Some(c[0] + z * (c[1] + z * (c[2] + z * c[3])))
    }

    /// Saturation pressure in Pa and its slope in Pa/K, or `None` outside 173.16..373.16 K.
    pub(crate) fn with_slope(&self, t_k: f64) -> Option<(f64, f64)> {
        let (c, z) = self.piece(t_k)?;
        Some((
            c[0] + z * (c[1] + z * (c[2] + z * c[3])),
            c[1] + z * (2.0 * c[2] + z * 3.0 * c[3]),
        ))
    }

    /// The piece a temperature lies in, and how far into it, K.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "bounded by the comparison before it"
    )]
    fn piece(&self, t_k: f64) -> Option<(&[f64; 4], f64)> {
        let x = t_k - LEAST_K;
        if x.is_nan() || x < 0.0 {
            return None;
        }
        let i = x as usize;
        let c = self.pieces.get(i)?;
        #[expect(clippy::cast_precision_loss, reason = "i < 200")]
        let z = x - i as f64;
        Some((c, z))
    }
}

/// The temperature at which a branch has the pressure `p_pa`, K, within `least..=most`, held at those ends (NaN gives NaN).
///
/// Newton's method on ln p over 1/T, which is nearly straight: four or five steps to 1e-13 of T.
pub(crate) fn invert(branch: Branch, least: f64, most: f64, p_pa: f64) -> f64 {
    if p_pa.is_nan() {
        return p_pa;
    }
    let (low, high) = (branch(least).0, branch(most).0);
    if p_pa <= low {
        return least;
    }
    if p_pa >= high {
        return most;
    }
    let (target, la, lb) = (libm::log(p_pa), libm::log(low), libm::log(high));
    let mut inverse = 1.0 / least + (1.0 / most - 1.0 / least) * (target - la) / (lb - la);
    for _ in 0..12 {
        let t = 1.0 / inverse;
        let (p, dp) = branch(t);
        // d(ln p)/d(1/T) = -T^2 p'/p
        let step = (libm::log(p) - target) * p / (dp * t * t);
        inverse = (inverse + step).clamp(1.0 / most, 1.0 / least);
        if (step * t).abs() < 1e-13 {
            break;
        }
    }
    1.0 / inverse
}
