//! Compressed liquid: a series in `d = rho/rho_l(T) - 1` about the saturated liquid,
//! `p = p_sat + K1 d + K2 d^2 + K3 d^3`, `u = u_l + C1 d + C2 d^2 + C3 d^3`.
//!
//! `K1` and `C1` are the equation's own slopes on the line, so pressure and heat capacity join it without
//! a kink. The others pass through the equation at a third, two thirds and all of the way to [`P_ABOVE`]
//! above saturation; `K3` is not allowed below zero, so pressure rises with density however far it is pushed.

use super::grid::{Grid, cubic};
use super::saturation::Line;
use super::{Eval, SatPoint};
use crate::eos::Helmholtz;

/// How far above saturation the series is fitted, Pa.
const P_ABOVE: f64 = 5e6;
const LANES: usize = 6;

#[derive(Debug, Clone)]
pub(super) struct Liquid {
    grid: Grid,
    t_max: f64,
    /// Cubics in T of `K1, K2, K3, C1, C2, C3`.
    cells: Vec<[[f64; LANES]; 4]>,
    /// At the warm end: the coefficients, and dp/dT at constant density.
    warm: [f64; LANES],
    warm_dp_dt: f64,
}

/// Density at which the equation gives pressure `p` at temperature `t`, from a near start.
fn density(eq: &Helmholtz, p: f64, t: f64, start: f64) -> f64 {
    let mut rho = start;
    for _ in 0..30 {
        let (q, slope) = eq.pressure(rho, t);
        let step = ((p - q) / slope).clamp(-0.1 * rho, 0.1 * rho);
        rho += step;
        if step.abs() < 1e-13 * rho {
            break;
        }
    }
    rho
}

fn coefficients(eq: &Helmholtz, line: &Line, t: f64) -> [f64; LANES] {
    let rho_l = line.rho_l(t).0;
    let sat = eq.properties(rho_l, t);
    let (k1, c1) = (sat.dp_drho * rho_l, sat.du_drho * rho_l);
    let top = density(
        eq,
        sat.p + P_ABOVE,
        t,
        rho_l * (1.0 + 0.5 * P_ABOVE / k1).min(1.1),
    );
    let d_top = top / rho_l - 1.0;
    // Remainders over d^2 are straight lines in d: through two points each.
    let remainder = |d: f64| {
        let f = eq.properties(rho_l * (1.0 + d), t);
        (
            (f.p - sat.p - k1 * d) / (d * d),
            (f.u - sat.u - c1 * d) / (d * d),
        )
    };
    let (da, db) = (0.45 * d_top, 0.95 * d_top);
    let ((ka, ca), (kb, cb)) = (remainder(da), remainder(db));
    let k3 = ((kb - ka) / (db - da)).max(0.0);
    let k2 = kb - k3 * db;
    let c3 = (cb - ca) / (db - da);
    [k1, k2, k3, c1, cb - c3 * db, c3]
}

impl Liquid {
    pub(super) fn build(eq: &Helmholtz, line: &Line) -> Self {
        let grid = Grid::covering(line.t_min(), line.t_max(), 1.0);
        let values: Vec<[f64; LANES]> = (0..=grid.cells)
            .map(|i| coefficients(eq, line, grid.node(i).min(line.t_max())))
            .collect();
        let n = grid.cells;
        // Slopes per cell: fourth-order central differences inside, one-sided parabolas at the ends.
        let slope = |i: usize, f: usize| {
            let v = |k: usize| values[k][f];
            if i == 0 {
                -1.5 * v(0) + 2.0 * v(1) - 0.5 * v(2)
            } else if i == n {
                1.5 * v(n) - 2.0 * v(n - 1) + 0.5 * v(n - 2)
            } else if i == 1 || i == n - 1 {
                0.5 * (v(i + 1) - v(i - 1))
            } else {
                (8.0 * (v(i + 1) - v(i - 1)) - (v(i + 2) - v(i - 2))) / 12.0
            }
        };
        let cells = (0..n)
            .map(|i| {
                let mut cell = [[0.0; LANES]; 4];
                for f in 0..LANES {
                    let c = cubic(values[i][f], slope(i, f), values[i + 1][f], slope(i + 1, f));
                    for (power, row) in cell.iter_mut().enumerate() {
                        row[f] = c[power];
                    }
                }
                cell
            })
            .collect();
        let warm_end = eq.properties(line.warm().rho_l, line.t_max());
        Self {
            grid,
            t_max: line.t_max(),
            cells,
            warm: values[n],
            warm_dp_dt: warm_end.dp_dt,
        }
    }

    /// The series at a temperature; `sat` is the saturation line there.
    #[inline]
    pub(super) fn series(&self, t: f64, sat: &SatPoint) -> Compressed {
        let (mut k, mut dk) = (self.warm, [0.0; LANES]);
        let (mut p0, mut dp0) = (sat.p, sat.dp_dt);
        if t <= self.t_max {
            let (i, s) = self.grid.locate(t.max(self.grid.start));
            let c = &self.cells[i];
            for f in 0..LANES {
                k[f] = c[0][f] + s * (c[1][f] + s * (c[2][f] + s * c[3][f]));
                dk[f] = (c[1][f] + s * (2.0 * c[2][f] + s * (3.0 * c[3][f]))) * self.grid.inverse();
            }
            if t < self.grid.start {
                dk = [0.0; LANES];
            }
        } else {
            // Beyond the line's end the reference density stands still: pressure rises along the isochore.
            p0 += (self.warm_dp_dt - sat.dp_dt) * (t - self.t_max);
            dp0 = self.warm_dp_dt;
        }
        Compressed {
            k,
            dk,
            p0,
            dp0,
            u0: sat.u_l,
            du0: sat.du_l,
            by_rho: 1.0 / sat.rho_l,
            drho: sat.drho_l,
        }
    }
}

/// Compressed liquid at one temperature, ready for several densities.
#[derive(Debug, Clone, Copy)]
pub struct Compressed {
    k: [f64; LANES],
    dk: [f64; LANES],
    p0: f64,
    dp0: f64,
    u0: f64,
    du0: f64,
    by_rho: f64,
    drho: f64,
}

impl Compressed {
    /// Pressure above that of saturation, Pa, and its slope, for a density `1 + d` times that of saturation; d from 0.
    #[inline]
    pub fn over(&self, d: f64) -> (f64, f64) {
        let k = &self.k;
        (
            d * (k[0] + d * (k[1] + d * k[2])),
            k[0] + d * (2.0 * k[1] + d * 3.0 * k[2]),
        )
    }

    /// Everything at density `rho`, kg/m3.
    #[inline]
    pub fn at(&self, rho: f64) -> Eval {
        let (mut k, mut dk) = (self.k, self.dk);
        let d = rho * self.by_rho - 1.0;
        if d < 0.0 {
            // Thinner than the saturated liquid: straight on.
            for f in [1, 2, 4, 5] {
                k[f] = 0.0;
                dk[f] = 0.0;
            }
        }
        let d_dt = -(1.0 + d) * self.drho * self.by_rho;
        let p_d = k[0] + d * (2.0 * k[1] + d * 3.0 * k[2]);
        let u_d = k[3] + d * (2.0 * k[4] + d * 3.0 * k[5]);
        Eval {
            p: self.p0 + d * (k[0] + d * (k[1] + d * k[2])),
            u: self.u0 + d * (k[3] + d * (k[4] + d * k[5])),
            cv: self.du0 + d * (dk[3] + d * (dk[4] + d * dk[5])) + u_d * d_dt,
            dp_dt: self.dp0 + d * (dk[0] + d * (dk[1] + d * dk[2])) + p_d * d_dt,
            dp_drho: p_d * self.by_rho,
            du_drho: u_d * self.by_rho,
        }
    }
}
