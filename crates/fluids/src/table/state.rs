//! From density and internal energy to temperature, pressure and quality.
//!
//! A closed volume that holds a known mass and energy is in one of four regions. The border between one
//! and two phases is crossed upwards in energy: a state is single-phase exactly when its energy exceeds that
//! of the saturated state of the same density. That decides the region before any iteration; within a region
//! energy rises with temperature at constant density, so one bracketed Newton iteration always ends.

use super::Table;
use super::grid::{Octaves, bisect};
use super::saturation::{Line, SatPoint, T_FLOOR};

/// The region a state lies in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phase {
    /// Compressed or just saturated liquid.
    Liquid,
    /// Liquid and vapour together.
    TwoPhase,
    /// Vapour, superheated or just saturated.
    Vapour,
    /// Between the densities of the line's warm end and hotter: near the critical point, blended and inexact.
    Dense,
}

/// What density and internal energy say. SI, per kilogram.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Temperature, K.
    pub t: f64,
    /// Pressure, Pa.
    pub p: f64,
    /// Mass share of vapour, 0 to 1, when there are two phases.
    pub quality: Option<f64>,
    /// The region.
    pub phase: Phase,
    /// du/dT at constant density, J/(kg K); the effective one in two phases.
    pub cv: f64,
    /// dp/drho at constant internal energy, Pa m3/kg.
    pub dp_drho: f64,
    /// dp/du at constant density, Pa kg/J.
    pub dp_du: f64,
}

/// Newton's last step below this is taken without looking again, K: the remaining error is its square times some thousandths
/// of a kelvin's inverse, below a tenth of a microkelvin.
const LAST_STEP: f64 = 5e-3;
/// How far past the border the bracket reaches, K: pieces agree to micro-kelvins, not to the last bit.
const SLACK: f64 = 0.25;
const HOTTEST: f64 = 5000.0;

const BUBBLE_CELLS: usize = 256;

/// Where the saturated state of a given density lies, to start its exact search.
#[derive(Debug, Clone)]
pub(super) struct Borders {
    dew: Octaves,
    bubble: Vec<f64>,
    rho_thin: f64,
    bubble_scale: f64,
}

impl Borders {
    #[expect(clippy::cast_precision_loss, reason = "a few hundred cells")]
    pub(super) fn build(line: &Line) -> Self {
        let (low, high) = (line.t_min(), line.t_max());
        let (cold, warm) = (line.cold(), line.warm());
        let dew = Octaves::inverting(|t| line.rho_g(t), low, high);
        let (rho_thin, rho_thick) = (warm.rho_l, cold.rho_l);
        let bubble = (0..=BUBBLE_CELLS)
            .map(|i| {
                let rho = rho_thin + (rho_thick - rho_thin) * i as f64 / BUBBLE_CELLS as f64;
                bisect(|t| rho - line.rho_l(t).0, low, high)
            })
            .collect();
        Self {
            dew,
            bubble,
            rho_thin,
            bubble_scale: BUBBLE_CELLS as f64 / (rho_thick - rho_thin),
        }
    }

    /// Temperature at which the saturated vapour has density `rho`, within the line.
    #[inline]
    fn dew(&self, rho: f64, line: &Line) -> f64 {
        let t = self.dew.at(rho);
        newton_twice(|t| line.rho_g(t), rho, t, line)
    }

    /// Temperature at which the saturated liquid has density `rho`, within the line.
    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "the cast saturates and is held to the table"
    )]
    fn bubble(&self, rho: f64, line: &Line) -> f64 {
        let y = (rho - self.rho_thin) * self.bubble_scale;
        let i = (y as usize).min(BUBBLE_CELLS - 1);
        let t = self.bubble[i] + (y - i as f64) * (self.bubble[i + 1] - self.bubble[i]);
        newton_twice(|t| line.rho_l(t), rho, t, line)
    }
}

/// From an estimate within hundredths of a kelvin to rounding.
#[inline]
fn newton_twice(f: impl Fn(f64) -> (f64, f64), target: f64, start: f64, line: &Line) -> f64 {
    let mut t = start;
    for _ in 0..2 {
        let (y, slope) = f(t);
        t = (t + (target - y) / slope).clamp(line.t_min(), line.t_max());
    }
    t
}

/// Tries the region that the guess suggests; else finds the region, then the root in it.
#[inline]
pub(super) fn solve(table: &Table, rho: f64, u: f64, t_guess: f64) -> State {
    near_guess(table, rho, u, t_guess).unwrap_or_else(|| anywhere(table, rho, u, t_guess))
}

/// Newton from a good guess, as long as it stays clearly inside one region: two phases with both well
/// present, vapour thinner than any saturated vapour about, or liquid denser than saturated. A solution
/// found there is the only one, so the border need not be looked up.
#[inline]
fn near_guess(table: &Table, rho: f64, u: f64, t_guess: f64) -> Option<State> {
    let mut t = t_guess;
    for _ in 0..3 {
        if table.gas.surely(rho, t) {
            let e = table.vapour(rho, t);
            let step = (u - e.u) / e.cv;
            if step.abs() < LAST_STEP {
                return Some(single(t, step, &e, Phase::Vapour));
            }
            t += step;
            continue;
        }
        if !(t >= table.t_min() && t <= table.t_max()) {
            return None;
        }
        let s = table.line.densities_energies(t);
        if rho > s.rho_l * (1.0 + 1e-4) {
            let e = table.liquid(rho, t, &table.sat(t));
            let step = (u - e.u) / e.cv;
            if step.abs() < LAST_STEP {
                return Some(single(t, step, &e, Phase::Liquid));
            }
            t += step;
            continue;
        }
        let (e, slope, void) = mixture(&s, rho);
        if !(void > 1e-4 && void < 1.0 - 1e-4) {
            return None;
        }
        let step = (rho * u - e) / slope;
        if step.abs() < LAST_STEP {
            return Some(mixed(table, rho, u, t, step, &s, slope, void));
        }
        t += step;
    }
    None
}

fn anywhere(table: &Table, rho: f64, u: f64, t_guess: f64) -> State {
    let line = &table.line;
    let (cold, warm) = (line.cold(), line.warm());
    if rho <= warm.rho_g {
        let (t, u_border) = if rho >= cold.rho_g {
            let t = table.borders.dew(rho, line);
            (t, line.u_g(t))
        } else if u > cold.u_g {
            (T_FLOOR, f64::NEG_INFINITY)
        } else {
            let t = line.dew_below(rho);
            (t, line.at(t).u_g)
        };
        return if u > u_border {
            vapour(table, rho, u, t, t_guess)
        } else {
            two_phase(table, rho, u, t, t_guess)
        };
    }
    if rho < warm.rho_l {
        let thin = (warm.rho_l - rho) / (warm.rho_l - warm.rho_g);
        let mixed = thin * warm.rho_g * warm.u_g + (1.0 - thin) * warm.rho_l * warm.u_l;
        return if rho * u > mixed {
            dense(table, rho, u, thin, t_guess)
        } else {
            two_phase(table, rho, u, line.t_max(), t_guess)
        };
    }
    let (t, u_border) = if rho <= cold.rho_l {
        let t = table.borders.bubble(rho, line);
        (t, line.u_l(t))
    } else {
        let d = ((rho - cold.rho_l) / cold.drho_l).max(T_FLOOR - line.t_min());
        (line.t_min() + d, cold.u_l + cold.du_l * d)
    };
    if u > u_border {
        liquid(table, rho, u, t, t_guess)
    } else {
        two_phase(table, rho, u, t, t_guess)
    }
}

/// Bracketed Newton on a residual that rises with temperature. `eval` gives residual, slope and whatever
/// else it knows; returned are the temperature of the last evaluation, the step still to take, and that.
#[inline]
fn root<E>(
    mut eval: impl FnMut(f64) -> (f64, f64, E),
    mut low: f64,
    mut high: f64,
    start: f64,
) -> (f64, f64, E) {
    let mut t = if start >= low && start <= high {
        start
    } else {
        start.max(low).min(high)
    };
    let mut left = 60;
    loop {
        let (f, slope, e) = eval(t);
        let step = -f / slope;
        left -= 1;
        if step.abs() < LAST_STEP {
            return (t, step, e);
        }
        if left == 0 || step.is_nan() {
            return (t, 0.0, e);
        }
        if f > 0.0 {
            high = t;
        } else {
            low = t;
        }
        let next = t + step;
        t = if next > low && next < high {
            next
        } else {
            0.5 * (low + high)
        };
    }
}

fn vapour(table: &Table, rho: f64, u: f64, t_border: f64, guess: f64) -> State {
    let (t, step, e) = root(
        |t| {
            let e = table.vapour(rho, t);
            (e.u - u, e.cv, e)
        },
        t_border - SLACK,
        HOTTEST,
        guess.max(t_border).min(1000.0),
    );
    single(t, step, &e, Phase::Vapour)
}

fn liquid(table: &Table, rho: f64, u: f64, t_border: f64, guess: f64) -> State {
    let (t, step, e) = root(
        |t| {
            let e = table.liquid(rho, t, &table.sat(t));
            (e.u - u, e.cv, e)
        },
        t_border - SLACK,
        HOTTEST,
        guess.max(t_border).min(t_border + 50.0),
    );
    single(t, step, &e, Phase::Liquid)
}

#[inline]
fn single(t: f64, step: f64, e: &super::Eval, phase: Phase) -> State {
    let dp_du = e.dp_dt / e.cv;
    State {
        t: t + step,
        p: e.p + e.dp_dt * step,
        quality: None,
        phase,
        cv: e.cv,
        dp_drho: e.dp_drho - e.du_drho * dp_du,
        dp_du,
    }
}

/// Energy per volume of a mixture that fills a volume at mean density `rho`, its slope by temperature, and
/// the vapour's share of the volume.
#[inline]
fn mixture(s: &SatPoint, rho: f64) -> (f64, f64, f64) {
    let by_gap = 1.0 / (s.rho_l - s.rho_g);
    let void = (s.rho_l - rho) * by_gap;
    let (e_g, e_l) = (s.rho_g * s.u_g, s.rho_l * s.u_l);
    let de_g = s.drho_g * s.u_g + s.rho_g * s.du_g;
    let de_l = s.drho_l * s.u_l + s.rho_l * s.du_l;
    let dvoid = ((1.0 - void) * s.drho_l + void * s.drho_g) * by_gap;
    (
        void * e_g + (1.0 - void) * e_l,
        void * de_g + (1.0 - void) * de_l + dvoid * (e_g - e_l),
        void,
    )
}

fn two_phase(table: &Table, rho: f64, u: f64, t_border: f64, guess: f64) -> State {
    let energy = rho * u;
    let (t, step, (s, slope, void)) = root(
        |t| {
            let s = table.line.densities_energies(t);
            let (e, slope, void) = mixture(&s, rho);
            (e - energy, slope, (s, slope, void))
        },
        T_FLOOR,
        t_border + SLACK,
        guess.min(t_border),
    );
    mixed(table, rho, u, t, step, &s, slope, void)
}

/// The two-phase state a last `step` away from `t`, where `s`, `slope` and `void` were found.
#[inline]
#[expect(
    clippy::too_many_arguments,
    reason = "what the last evaluation knows, in registers"
)]
fn mixed(
    table: &Table,
    rho: f64,
    u: f64,
    t: f64,
    step: f64,
    s: &SatPoint,
    slope: f64,
    void: f64,
) -> State {
    let by_gap = 1.0 / (s.rho_l - s.rho_g);
    let dvoid = ((1.0 - void) * s.drho_l + void * s.drho_g) * by_gap;
    let (void, rho_g) = (void + dvoid * step, s.rho_g + s.drho_g * step);
    // Temperature by density at constant energy per mass.
    let by_slope = 1.0 / slope;
    let dt_drho = ((s.rho_g * s.u_g - s.rho_l * s.u_l) * by_gap + u) * by_slope;
    let by_rho = 1.0 / rho;
    let (p, dp_dt) = table.line.pressure(t + step);
    State {
        t: t + step,
        p,
        quality: Some((void * rho_g * by_rho).clamp(0.0, 1.0)),
        phase: Phase::TwoPhase,
        cv: slope * by_rho,
        dp_drho: dp_dt * dt_drho,
        dp_du: dp_dt * rho * by_slope,
    }
}

/// Hotter than the line's warm end and between its densities: straight lines between the two edges.
fn dense(table: &Table, rho: f64, u: f64, thin: f64, guess: f64) -> State {
    let warm = *table.line.warm();
    let t_max = table.line.t_max();
    let (share_g, share_l) = (thin * warm.rho_g, (1.0 - thin) * warm.rho_l);
    let (t, step, (g, l, slope)) = root(
        |t| {
            let g = table.vapour(warm.rho_g, t);
            let l = table.liquid(warm.rho_l, t, &table.sat(t));
            let slope = share_g * g.cv + share_l * l.cv;
            (
                share_g * g.u + share_l * l.u - rho * u,
                slope,
                (g, l, slope),
            )
        },
        t_max - SLACK,
        HOTTEST,
        guess.max(t_max).min(1000.0),
    );
    let dp_dt = thin * g.dp_dt + (1.0 - thin) * l.dp_dt;
    let gap = warm.rho_l - warm.rho_g;
    let dt_drho = (u - (warm.rho_l * l.u - warm.rho_g * g.u) / gap) / slope;
    State {
        t: t + step,
        p: thin * g.p + (1.0 - thin) * l.p + dp_dt * step,
        quality: None,
        phase: Phase::Dense,
        cv: slope / rho,
        dp_drho: (l.p - g.p) / gap + dp_dt * dt_drho,
        dp_du: dp_dt * rho / slope,
    }
}
