//! The saturation line as one row of cubics a kelvin.

use super::below::Below;
use super::grid::{Grid, Octaves, bisect, cubic};
use crate::eos::{Helmholtz, Properties};
use crate::saturation::{at_temperature_unchecked, newton};

/// Saturated liquid (`_l`) and vapour (`_g`) at one temperature. A leading `d` is the total derivative by
/// temperature along the line. SI, per kilogram.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SatPoint {
    /// Pressure, Pa.
    pub p: f64,
    /// Slope of the vapour-pressure line, Pa/K.
    pub dp_dt: f64,
    /// Density of the liquid, kg/m3.
    pub rho_l: f64,
    /// Density of the vapour, kg/m3.
    pub rho_g: f64,
    /// Slope of `rho_l`.
    pub drho_l: f64,
    /// Slope of `rho_g`.
    pub drho_g: f64,
    /// Internal energy of the liquid, J/kg.
    pub u_l: f64,
    /// Internal energy of the vapour, J/kg.
    pub u_g: f64,
    /// Slope of `u_l`.
    pub du_l: f64,
    /// Slope of `u_g`.
    pub du_g: f64,
    /// Entropy of the liquid, J/(kg K).
    pub s_l: f64,
    /// Entropy of the vapour, J/(kg K).
    pub s_g: f64,
}

impl SatPoint {
    /// Enthalpy of the liquid, J/kg.
    #[inline]
    pub fn h_l(&self) -> f64 {
        self.u_l + self.p / self.rho_l
    }

    /// Enthalpy of the vapour, J/kg.
    #[inline]
    pub fn h_g(&self) -> f64 {
        self.u_g + self.p / self.rho_g
    }

    /// Heat of vaporisation, J/kg.
    #[inline]
    pub fn latent(&self) -> f64 {
        self.h_g() - self.h_l()
    }
}

/// Coldest temperature anything is continued to, K.
pub(super) const T_FLOOR: f64 = 60.0;

// The four that the two-phase root needs come first.
const RHO_L: usize = 0;
const RHO_G: usize = 1;
const U_L: usize = 2;
const U_G: usize = 3;
const P: usize = 4;
const S_L: usize = 5;
const S_G: usize = 6;
const LANES: usize = 8;

/// Coefficient k of all functions, so that a row is one stretch of memory and eight equal lanes.
type Cell = [[f64; LANES]; 4];

#[derive(Debug, Clone)]
pub(super) struct Line {
    pub(super) grid: Grid,
    t_max: f64,
    cells: Vec<Cell>,
    /// The ends, and the slopes with which the line is continued.
    cold: SatPoint,
    warm: SatPoint,
    below: Below,
    /// Entropy slopes (liquid, vapour) at the cold and the warm end.
    ds_cold: (f64, f64),
    ds_warm: (f64, f64),
    by_pressure: Octaves,
}

/// The saturated phases at a node, from the equation.
struct Node {
    l: Properties,
    g: Properties,
    values: [f64; LANES],
    slopes: [f64; LANES],
}

fn node(eq: &Helmholtz, t: f64, guess: Option<(f64, f64)>) -> Node {
    let sat = guess
        .and_then(|(l, g)| newton(eq, t, l, g))
        .unwrap_or_else(|| at_temperature_unchecked(eq, t));
    let (l, g) = sat.phases(eq);
    let dp = (g.s - l.s) / (1.0 / g.rho - 1.0 / l.rho);
    let along = |f: &Properties| {
        let drho = (dp - f.dp_dt) / f.dp_drho;
        (
            drho,
            f.cv + f.du_drho * drho,
            f.cv / t - f.dp_dt / (f.rho * f.rho) * drho,
        )
    };
    let ((drho_l, du_l, ds_l), (drho_g, du_g, ds_g)) = (along(&l), along(&g));
    Node {
        values: [l.rho, g.rho, l.u, g.u, sat.p, l.s, g.s, 0.0],
        slopes: [drho_l, drho_g, du_l, du_g, dp, ds_l, ds_g, 0.0],
        l,
        g,
    }
}

fn point(n: &Node) -> SatPoint {
    let (v, d) = (&n.values, &n.slopes);
    SatPoint {
        p: v[P],
        dp_dt: d[P],
        rho_l: v[RHO_L],
        rho_g: v[RHO_G],
        drho_l: d[RHO_L],
        drho_g: d[RHO_G],
        u_l: v[U_L],
        u_g: v[U_G],
        du_l: d[U_L],
        du_g: d[U_G],
        s_l: v[S_L],
        s_g: v[S_G],
    }
}

impl Line {
    pub(super) fn build(eq: &Helmholtz, t_min: f64, t_max: f64) -> Self {
        let grid = Grid::covering(t_min, t_max, 1.0);
        let mut nodes: Vec<Node> = Vec::with_capacity(grid.cells + 1);
        for i in 0..=grid.cells {
            let guess = nodes.last().map(|n| {
                let d = grid.step;
                (n.l.rho + d * n.slopes[RHO_L], n.g.rho + d * n.slopes[RHO_G])
            });
            nodes.push(node(eq, grid.node(i), guess));
        }
        let cells = nodes
            .windows(2)
            .map(|pair| {
                let (a, b, h) = (&pair[0], &pair[1], grid.step);
                let mut cell = [[0.0; LANES]; 4];
                for f in 0..LANES {
                    let c = cubic(a.values[f], a.slopes[f] * h, b.values[f], b.slopes[f] * h);
                    for (power, row) in cell.iter_mut().enumerate() {
                        row[f] = c[power];
                    }
                }
                cell
            })
            .collect();
        let (first, last) = (&nodes[0], &nodes[grid.cells]);
        let cold = point(first);
        // Beyond the warm end both densities stand still, so energies rise with the isochoric capacities.
        let mut warm = point(last);
        warm.drho_l = 0.0;
        warm.drho_g = 0.0;
        warm.du_l = last.l.cv;
        warm.du_g = last.g.cv;
        let mut line = Self {
            t_max,
            below: Below::new(eq, &first.g, cold.dp_dt),
            ds_cold: (first.slopes[S_L], first.slopes[S_G]),
            ds_warm: (last.l.cv / t_max, last.g.cv / t_max),
            by_pressure: Octaves::default(),
            grid,
            cells,
            cold,
            warm,
        };
        line.by_pressure = Octaves::inverting(|t| line.one(P, t), t_min, t_max);
        line
    }

    pub(super) fn t_min(&self) -> f64 {
        self.grid.start
    }

    pub(super) fn t_max(&self) -> f64 {
        self.t_max
    }

    /// The warm end, with the slopes that hold beyond it.
    pub(super) fn warm(&self) -> &SatPoint {
        &self.warm
    }

    /// The cold end.
    pub(super) fn cold(&self) -> &SatPoint {
        &self.cold
    }

    /// Temperature below the cold end at which the saturated vapour has density `rho`.
    #[cold]
    pub(super) fn dew_below(&self, rho: f64) -> f64 {
        bisect(|t| self.beyond(t).rho_g - rho, T_FLOOR, self.grid.start)
    }

    #[inline]
    pub(super) fn at(&self, t: f64) -> SatPoint {
        if t >= self.grid.start && t <= self.t_max {
            let (i, s) = self.grid.locate(t);
            let c = &self.cells[i];
            let (mut v, mut d) = ([0.0; LANES], [0.0; LANES]);
            for f in 0..LANES {
                v[f] = c[0][f] + s * (c[1][f] + s * (c[2][f] + s * c[3][f]));
                d[f] = (c[1][f] + s * (2.0 * c[2][f] + s * (3.0 * c[3][f]))) * self.grid.inverse();
            }
            SatPoint {
                p: v[P],
                dp_dt: d[P],
                rho_l: v[RHO_L],
                rho_g: v[RHO_G],
                drho_l: d[RHO_L],
                drho_g: d[RHO_G],
                u_l: v[U_L],
                u_g: v[U_G],
                du_l: d[U_L],
                du_g: d[U_G],
                s_l: v[S_L],
                s_g: v[S_G],
            }
        } else {
            self.beyond(t)
        }
    }

    /// Densities and energies with their slopes only; the rest of the point is zero.
    #[inline]
    pub(super) fn densities_energies(&self, t: f64) -> SatPoint {
        if !(t >= self.grid.start && t <= self.t_max) {
            return self.beyond(t);
        }
        let (i, s) = self.grid.locate(t);
        let c = &self.cells[i];
        let (mut v, mut d) = ([0.0; 4], [0.0; 4]);
        for f in 0..4 {
            v[f] = c[0][f] + s * (c[1][f] + s * (c[2][f] + s * c[3][f]));
            d[f] = (c[1][f] + s * (2.0 * c[2][f] + s * (3.0 * c[3][f]))) * self.grid.inverse();
        }
        SatPoint {
            rho_l: v[RHO_L],
            rho_g: v[RHO_G],
            drho_l: d[RHO_L],
            drho_g: d[RHO_G],
            u_l: v[U_L],
            u_g: v[U_G],
            du_l: d[U_L],
            du_g: d[U_G],
            ..SatPoint::default()
        }
    }

    #[cold]
    fn beyond(&self, t: f64) -> SatPoint {
        // Not-a-number goes the warm way and stays so.
        if t < self.grid.start {
            let t = t.max(T_FLOOR);
            let d = t - self.grid.start;
            let mut out = self.cold;
            self.below.vapour(t, &mut out);
            out.rho_l += out.drho_l * d;
            out.u_l += out.du_l * d;
            out.s_l += self.ds_cold.0 * d;
            out.s_g += self.ds_cold.1 * d;
            out
        } else {
            let d = t - self.t_max;
            let mut out = self.warm;
            out.p += out.dp_dt * d;
            out.u_l += out.du_l * d;
            out.u_g += out.du_g * d;
            out.s_l += self.ds_warm.0 * d;
            out.s_g += self.ds_warm.1 * d;
            out
        }
    }

    #[inline]
    fn one(&self, f: usize, t: f64) -> (f64, f64) {
        let (i, s) = self.grid.locate(t);
        let c = &self.cells[i];
        let (c0, c1, c2, c3) = (c[0][f], c[1][f], c[2][f], c[3][f]);
        (
            c0 + s * (c1 + s * (c2 + s * c3)),
            (c1 + s * (2.0 * c2 + s * (3.0 * c3))) * self.grid.inverse(),
        )
    }

    /// Saturation pressure and its slope.
    #[inline]
    pub(super) fn pressure(&self, t: f64) -> (f64, f64) {
        if t >= self.grid.start && t <= self.t_max {
            self.one(P, t)
        } else {
            let s = self.beyond(t);
            (s.p, s.dp_dt)
        }
    }

    /// Density of the saturated vapour and its slope; the table's range only.
    #[inline]
    pub(super) fn rho_g(&self, t: f64) -> (f64, f64) {
        self.one(RHO_G, t)
    }

    /// Density of the saturated liquid and its slope; the table's range only.
    #[inline]
    pub(super) fn rho_l(&self, t: f64) -> (f64, f64) {
        self.one(RHO_L, t)
    }

    /// Internal energy of the saturated vapour; the table's range only.
    #[inline]
    pub(super) fn u_g(&self, t: f64) -> f64 {
        self.one(U_G, t).0
    }

    /// Internal energy of the saturated liquid; the table's range only.
    #[inline]
    pub(super) fn u_l(&self, t: f64) -> f64 {
        self.one(U_L, t).0
    }

    /// Density of the saturated vapour anywhere.
    #[inline]
    pub(super) fn rho_g_anywhere(&self, t: f64) -> f64 {
        if t >= self.grid.start && t <= self.t_max {
            self.one(RHO_G, t).0
        } else {
            self.beyond(t).rho_g
        }
    }

    pub(super) fn temperature(&self, p: f64) -> f64 {
        if p >= self.warm.p {
            return self.t_max + (p - self.warm.p) / self.warm.dp_dt;
        }
        if p.is_nan() {
            return p;
        }
        if p <= self.cold.p {
            return self
                .below
                .temperature(p.max(0.0) / self.cold.p)
                .max(T_FLOOR);
        }
        let mut t = self.by_pressure.at(p);
        for _ in 0..2 {
            let (q, slope) = self.one(P, t);
            t = (t + (p - q) / slope).clamp(self.grid.start, self.t_max);
        }
        t
    }
}
