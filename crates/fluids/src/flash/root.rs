//! A bracketed root and a bracketed maximum of a continuous function.

/// Root of `f` between `a` and `b`; `None` when the ends have the same sign.
///
/// Chandrupatla, *A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear function
/// without using derivatives*, Adv. Eng. Software 28 (1997) 145: inverse quadratic interpolation where it is
/// sure to help, bisection elsewhere. At most 120 evaluations, in practice about 12.
pub(super) fn bracketed(mut f: impl FnMut(f64) -> f64, a: f64, b: f64) -> Option<f64> {
    let (mut x1, mut x2) = (b, a);
    let (mut f1, mut f2) = (f(x1), f(x2));
    if f1 == 0.0 {
        return Some(x1);
    }
    if f2 == 0.0 {
        return Some(x2);
    }
    if (f1 > 0.0) == (f2 > 0.0) || f1.is_nan() || f2.is_nan() {
        return None;
    }
    let mut share: f64 = 0.5;
    for _ in 0..120 {
        let x = x1 + share * (x2 - x1);
        let y = f(x);
        let (x3, f3);
        if (y > 0.0) == (f1 > 0.0) {
            (x3, f3) = (x1, f1);
        } else {
            (x3, f3) = (x2, f2);
            (x2, f2) = (x1, f1);
        }
        (x1, f1) = (x, y);
        let best = if f1.abs() < f2.abs() { x1 } else { x2 };
        let width = (x2 - x1).abs();
        let least = 1e-15 * best.abs() / width;
        if least > 0.25 || f1 == 0.0 || width == 0.0 {
            return Some(best);
        }
        let xi = (x1 - x2) / (x3 - x2);
        let phi = (f1 - f2) / (f3 - f2);
        share = if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
            f1 / (f2 - f1) * (f3 / (f2 - f3))
                + (x3 - x1) / (x2 - x1) * (f1 / (f3 - f1)) * (f2 / (f3 - f2))
        } else {
            0.5
        };
        share = share.max(least).min(1.0 - least);
    }
    Some(x1)
}

/// Where `f` is highest between `a` and `b`, by golden section.
pub(super) fn highest(f: impl Fn(f64) -> f64, mut a: f64, mut b: f64) -> f64 {
    let golden = 0.618_033_988_749_894_9;
    let (mut x, mut y) = (b - golden * (b - a), a + golden * (b - a));
    let (mut fx, mut fy) = (f(x), f(y));
    for _ in 0..45 {
        if fx > fy {
            (b, y, fy) = (y, x, fx);
            x = b - golden * (b - a);
            fx = f(x);
        } else {
            (a, x, fx) = (x, y, fy);
            y = a + golden * (b - a);
            fy = f(y);
        }
    }
    0.5 * (a + b)
}
