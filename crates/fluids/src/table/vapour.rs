//! Vapour: virial-like residual forms on a rectangular grid of temperature and density.
//!
//! `B = A_1/rho_red` with `A_1 = d alphar/d delta`, and `C`, `S` likewise are smooth functions of (T, rho)
//! whatever the stability of the state, so the grid need not follow the saturation line. Values, slopes and
//! the slopes along the residual come from the equation; only the cross derivative is a difference quotient.

use super::grid::{Grid, cubic, value_slope};
use super::saturation::Line;
use super::{Eval, T_HOT};
use crate::eos::Helmholtz;

/// Widest cells: temperature in K, density as a share of the highest.
const WIDTH_T: f64 = 4.0;
const CELLS_RHO: usize = 40;

/// At a node, per cell width: `B, C` and their rho-slopes, then the T-slopes of these four.
type Node = [[f64; 4]; 2];

/// What depends on temperature only, for one row of cells.
#[derive(Debug, Clone, Copy)]
struct Row {
    /// Ideal-gas energy.
    u0: [f64; 4],
    /// Density up to which the whole row is vapour, with a small margin.
    safe: f64,
    /// Ideal-gas entropy at the reducing density.
    s0: [f64; 4],
}

#[derive(Debug, Clone)]
pub(super) struct Vapour {
    r: f64,
    rho_red: f64,
    grid_t: Grid,
    grid_rho: Grid,
    stride: usize,
    rows: Vec<Row>,
    nodes: Vec<Node>,
    /// The same four numbers of the entropy's residual.
    entropy: Vec<[f64; 4]>,
    t_sat_max: f64,
    rho_max: f64,
}

/// The residual functions `(B, C, S)` with their T- and rho-slopes.
fn residuals(eq: &Helmholtz, rho: f64, t: f64) -> [[f64; 3]; 3] {
    let (red, tau) = (eq.rho_red(), eq.t_red() / t);
    let delta = rho / red;
    let a = eq.reduced(rho, t);
    let by_t = -tau / t;
    let r = eq.gas_constant();
    let e = r * eq.t_red() / red;
    [
        [
            (a.a + delta * a.a_d) / red,
            e * a.a_t,
            r * (tau * a.a_t - a.a) / red,
        ],
        [
            (a.a_t + delta * a.a_dt) / red * by_t,
            e * a.a_tt * by_t,
            r * tau * a.a_tt / red * by_t,
        ],
        [
            (2.0 * a.a_d + delta * a.a_dd) / (red * red),
            e * a.a_dt / red,
            r * (tau * a.a_dt - a.a_d) / (red * red),
        ],
    ]
}

impl Vapour {
    pub(super) fn build(eq: &Helmholtz, line: &Line) -> Self {
        let rho_max = line.warm().rho_g;
        let grid_t = Grid::covering(line.t_min(), T_HOT, WIDTH_T);
        #[expect(clippy::cast_precision_loss, reason = "a few dozen cells")]
        let grid_rho = Grid::covering(0.0, rho_max, rho_max / CELLS_RHO as f64 * 1.000001);
        let stride = grid_rho.cells + 1;
        let mut nodes = vec![[[0.0; 4]; 2]; (grid_t.cells + 1) * stride];
        let mut entropy = vec![[0.0; 4]; nodes.len()];
        for i in 0..=grid_t.cells {
            let t = grid_t.node(i);
            // A cell is used when its thin side is vapour somewhere in it.
            let warmer = (t + grid_t.step).min(line.t_max());
            let used = line.rho_g(warmer).0 + grid_rho.step;
            for j in 0..stride {
                let rho = grid_rho.node(j);
                if rho > used {
                    break;
                }
                let (n, s) = Self::node(eq, rho, t, grid_t.step, grid_rho.step);
                nodes[i * stride + j] = n;
                entropy[i * stride + j] = s;
            }
        }
        let rows = (0..grid_t.cells)
            .map(|i| Self::row(eq, line, &grid_t, i, rho_max))
            .collect();
        Self {
            r: eq.gas_constant(),
            rho_red: eq.rho_red(),
            grid_t,
            grid_rho,
            stride,
            rows,
            nodes,
            entropy,
            t_sat_max: line.t_max(),
            rho_max,
        }
    }

    fn node(eq: &Helmholtz, rho: f64, t: f64, step_t: f64, step_rho: f64) -> (Node, [f64; 4]) {
        let eps = 1e-4 * t;
        let here = residuals(eq, rho, t);
        let (up, down) = (residuals(eq, rho, t + eps), residuals(eq, rho, t - eps));
        let f = |k: usize| {
            [
                here[0][k],
                here[1][k] * step_t,
                here[2][k] * step_rho,
                (up[2][k] - down[2][k]) / (2.0 * eps) * step_t * step_rho,
            ]
        };
        let (b, c) = (f(0), f(1));
        ([[b[0], c[0], b[2], c[2]], [b[1], c[1], b[3], c[3]]], f(2))
    }

    fn row(eq: &Helmholtz, line: &Line, grid: &Grid, i: usize, rho_max: f64) -> Row {
        let r = eq.gas_constant();
        let ideal = |t: f64| {
            let tau = eq.t_red() / t;
            let a = eq.ideal(t);
            let cv = -r * tau * tau * a.a_tt;
            (r * t * tau * a.a_t, cv, r * (tau * a.a_t - a.a), cv / t)
        };
        let (a, b) = (ideal(grid.node(i)), ideal(grid.node(i + 1)));
        let h = grid.step;
        Row {
            u0: cubic(a.0, a.1 * h, b.0, b.1 * h),
            // A margin for a Newton step that is still to be taken.
            safe: 0.999
                * if grid.node(i) < line.t_max() {
                    line.rho_g(grid.node(i)).0
                } else {
                    rho_max
                },
            s0: cubic(a.2, a.3 * h, b.2, b.3 * h),
        }
    }

    /// Densest vapour at `t`.
    #[inline]
    fn limit(&self, t: f64, line: &Line) -> f64 {
        if t < self.t_sat_max {
            line.rho_g_anywhere(t)
        } else {
            self.rho_max
        }
    }

    #[inline]
    pub(super) fn at(&self, rho: f64, t: f64, line: &Line) -> Eval {
        let inside = t >= self.grid_t.start && t <= T_HOT;
        if inside {
            let (i, s) = self.grid_t.locate(t);
            if rho <= self.rows[i].safe {
                return self.cell(&self.place(i, s, rho), rho, t);
            }
        }
        self.careful(rho, t, line)
    }

    /// Whether the state is vapour beyond doubt, by the table alone.
    #[inline]
    pub(super) fn surely(&self, rho: f64, t: f64) -> bool {
        t >= self.grid_t.start && t <= T_HOT && rho <= self.rows[self.grid_t.locate(t).0].safe
    }

    /// Near or beyond the edges.
    fn careful(&self, rho: f64, t: f64, line: &Line) -> Eval {
        let limit = self.limit(t, line);
        let held = rho.min(limit);
        let t_in = t.clamp(self.grid_t.start, T_HOT);
        let (i, s) = self.grid_t.locate(t_in);
        let mut e = self.cell(&self.place(i, s, held), held, t_in);
        let over = t - t_in;
        if over != 0.0 {
            // Virial parts and heat capacity stand still.
            let cv0 = value_slope(&self.rows[i].u0, s).1 * self.grid_t.inverse();
            let z = e.p / (held * self.r * t_in);
            e.u += cv0 * over;
            e.cv = cv0;
            e.dp_drho *= t / t_in;
            e.p *= t / t_in;
            e.dp_dt = if held > 0.0 { held * self.r * z } else { 0.0 };
        }
        if rho > held {
            e.p += e.dp_drho * (rho - held);
            e.u += e.du_drho * (rho - held);
        }
        e
    }

    /// As [`at`](Self::at), with the entropy: for less time than both apart.
    #[inline]
    pub(super) fn with_entropy(&self, rho: f64, t: f64, line: &Line) -> (Eval, f64) {
        if self.surely(rho, t) {
            let (i, s) = self.grid_t.locate(t);
            let place = self.place(i, s, rho);
            (self.cell(&place, rho, t), self.cell_entropy(&place, rho))
        } else {
            (self.at(rho, t, line), self.entropy(rho, t, line))
        }
    }

    #[inline]
    fn place(&self, i: usize, s: f64, rho: f64) -> Place {
        let (j, y) = self.grid_rho.locate(rho);
        Place {
            row: i,
            node: i * self.stride + j,
            s,
            along: basis(s),
            across: basis(y),
        }
    }

    #[inline]
    fn cell(&self, place: &Place, rho: f64, t: f64) -> Eval {
        let (u0, cv0) = value_slope(&self.rows[place.row].u0, place.s);
        let k = place.node;
        let (n00, n01) = (&self.nodes[k], &self.nodes[k + 1]);
        let (n10, n11) = (
            &self.nodes[k + self.stride],
            &self.nodes[k + self.stride + 1],
        );
        let ((ws, ds), (wy, dy)) = (place.along, place.across);
        // Along T first, at the two densities: B, C and their rho-slopes, and the T-slopes of these.
        let (thin, thin_t) = (blend(&ws, n00, n10), blend(&ds, n00, n10));
        let (dense, dense_t) = (blend(&ws, n01, n11), blend(&ds, n01, n11));
        let f = across(&wy, &thin, &dense);
        let f_r = across(&dy, &thin, &dense);
        let f_t = across(&wy, &thin_t, &dense_t);
        let (it, ir) = (self.grid_t.inverse(), self.grid_rho.inverse());
        let (b, c) = (f[0], f[1]);
        let (b_t, c_t) = (f_t[0] * it, f_t[1] * it);
        let (b_r, c_r) = (f_r[0] * ir, f_r[1] * ir);
        let rb = rho * b;
        let rt = self.r * t;
        Eval {
            p: rho * rt * (1.0 + rb),
            u: u0 + rho * c,
            cv: cv0 * it + rho * c_t,
            dp_dt: rho * self.r * (1.0 + rb + rho * t * b_t),
            dp_drho: rt * (1.0 + 2.0 * rb + rho * rho * b_r),
            du_drho: c + rho * c_r,
        }
    }

    pub(super) fn entropy(&self, rho: f64, t: f64, line: &Line) -> f64 {
        let t_in = t.clamp(self.grid_t.start, T_HOT);
        let rho = rho.min(self.limit(t_in, line));
        let (i, s) = self.grid_t.locate(t_in);
        self.cell_entropy(&self.place(i, s, rho), rho)
    }

    #[inline]
    fn cell_entropy(&self, place: &Place, rho: f64) -> f64 {
        let (ws, wy) = (place.along.0, place.across.0);
        let e = &self.entropy;
        let g = |k: usize, m: usize| {
            let (a, b) = (&e[k], &e[k + self.stride]);
            ws[0] * a[m] + ws[1] * a[m + 1] + ws[2] * b[m] + ws[3] * b[m + 1]
        };
        let k = place.node;
        let residual =
            wy[0] * g(k, 0) + wy[1] * g(k, 2) + wy[2] * g(k + 1, 0) + wy[3] * g(k + 1, 2);
        value_slope(&self.rows[place.row].s0, place.s).0 - self.r * libm::log(rho / self.rho_red)
            + rho * residual
    }
}

/// A state's place on the grid.
struct Place {
    row: usize,
    /// Its cell's thin and cold corner.
    node: usize,
    /// How far it is along the row, 0 to 1.
    s: f64,
    /// Weights in temperature and in density, and their derivatives.
    along: ([f64; 4], [f64; 4]),
    across: ([f64; 4], [f64; 4]),
}

/// What two nodes say between them, by the weights of their values and slopes.
#[inline]
fn blend(w: &[f64; 4], a: &Node, b: &Node) -> [f64; 4] {
    core::array::from_fn(|l| w[0] * a[0][l] + w[1] * a[1][l] + w[2] * b[0][l] + w[3] * b[1][l])
}

/// B and C between two densities, each with its slope two places on.
#[inline]
fn across(w: &[f64; 4], a: &[f64; 4], b: &[f64; 4]) -> [f64; 2] {
    core::array::from_fn(|l| w[0] * a[l] + w[1] * a[l + 2] + w[2] * b[l] + w[3] * b[l + 2])
}

/// Cubic Hermite weights of (value, slope) at the left and right end, and their derivatives.
#[inline]
fn basis(s: f64) -> ([f64; 4], [f64; 4]) {
    let q = 1.0 - s;
    let ss = s * s;
    (
        [
            (1.0 + 2.0 * s) * q * q,
            s * q * q,
            ss * (3.0 - 2.0 * s),
            -ss * q,
        ],
        [
            -6.0 * s * q,
            q * (1.0 - 3.0 * s),
            6.0 * s * q,
            s * (3.0 * s - 2.0),
        ],
    )
}
