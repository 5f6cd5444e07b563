//! Plain passages: tubes, hoses, valves, cores, leaks and one-way valves.
//!
//! A law answers with the flow at the pressures of now and a conductance that the end-of-tick solve may use: the chord
//! of the law to zero flow at equal pressures. With the chord a passage can bring two volumes to one pressure within a
//! tick but never throw them past it, however small the volumes are.

/// Pressure difference below which a passage runs laminar, Pa: it keeps the square-root law finite at rest.
pub const LAMINAR: f64 = 30.0;

/// Flow of a law and its chord, for the direction that the pressures give.
#[derive(Debug, Clone, Copy, Default)]
pub struct Rate {
    /// Mass flow from the first end to the second, kg/s.
    pub flow: f64,
    /// Mass flow gained per pascal at the first end, kg/(s Pa).
    pub by_from: f64,
    /// Mass flow lost per pascal at the second end, kg/(s Pa).
    pub by_to: f64,
}

impl Rate {
    /// Nothing passes, whatever the pressures do within the step.
    pub fn is_none(&self) -> bool {
        self.flow == 0.0 && self.by_from == 0.0 && self.by_to == 0.0
    }

    /// A flow that answers alike, with opposite signs, to the pressures of both ends.
    pub fn chord(flow: f64, dp: f64, at_rest: f64) -> Self {
        let c = if dp.abs() > 1e-9 { flow / dp } else { at_rest };
        Self {
            flow,
            by_from: c,
            by_to: c,
        }
    }
}

/// One over the isentropic exponent of refrigerant vapour (1.12: R-134a and R-12 near saturation at 20 degC, R-1234yf 1.11), and how
/// far that of air (1.40) lies below it.
pub(crate) const INVERSE_EXPONENT: (f64, f64) = (0.893, 0.179);
/// Share of the pressure upstream that is lost from which the expansion factor falls faster.
const FASTER_FROM: f64 = 0.37;
/// Slopes of the expansion factor, times the exponent: up to there, and what it falls faster beyond.
const SLOPES: (f64, f64) = (0.41, 0.08);
/// Share of the pressure upstream at which the flow of refrigerant vapour no longer grows with the drop, and how much more that is
/// for air: where the root of the drop times the expansion factor has its top.
const CHOKES: (f64, f64) = (0.782, 0.190);

/// Share of the pressure upstream at which gas chokes in a line, whose wall guides it: as in a nozzle (exponent near 1.1).
const LINE_CHOKES: f64 = 0.47;

/// How gas of a stream expands on its way: all that the law of a passage needs to know of it.
#[derive(Debug, Clone, Copy)]
pub struct Expands {
    /// Of each unit of the stream, that which is gas over its isentropic exponent.
    by: f64,
    /// Where gas chokes, as a share of the pressure upstream, times its share of the stream.
    chokes: f64,
}

impl Expands {
    /// Through a sharp edge, a stream of these mass shares of gas (air included) and air.
    pub fn edge(gas: f64, air: f64) -> Self {
        Self {
            by: INVERSE_EXPONENT.0 * gas - INVERSE_EXPONENT.1 * air,
            chokes: CHOKES.0 * gas + CHOKES.1 * air,
        }
    }

    /// Through a line or coil, whose drop is small beside its pressure: not at all, until it chokes.
    pub fn line(gas: f64) -> Self {
        Self {
            by: 0.0,
            chokes: LINE_CHOKES * gas,
        }
    }

    /// Share of the pressure upstream beyond which gas alone passes no more.
    pub fn chokes(&self) -> f64 {
        self.chokes
    }

    /// Factor on the flow of an incompressible fluid for a drop of `x` of the pressure upstream.
    ///
    /// Sharp-edged orifice in a wall far wider than itself: Buckingham 1932, 1 - 0.41 x / k, and beyond x = 0.37 Cunningham 1951
    /// (Trans. ASME 73, 625), steeper by 0.08 (both from memory). The jet of a sharp edge does not choke at the sound's pressure ratio
    /// but widens on, so that an edge of 0.6 passes 0.83 of an ideal nozzle into a vacuum (air; Perry 1949: 0.84).
    pub fn factor(&self, x: f64) -> f64 {
        1.0 - self.by * (SLOPES.0 * x + SLOPES.1 * (x - FASTER_FROM).max(0.0))
    }
}

/// Turbulent passage: m = k Y sqrt(rho dp), laminar near rest, with the expansion factor Y and the limit of a gas.
///
/// `k` is the effective area times sqrt 2 (m2), `rho` the density upstream, `p_up` and `p_sat` the upstream total and
/// saturation pressure, `liquid` the liquid share of what enters. A saturated liquid chokes when the drop passes what flashing
/// leaves, taken as 0.15 of the saturation pressure above its own subcooling (own closure, see Kim & O'Neal 1995 on
/// choking once the outlet is below the saturation pressure of the inlet).
pub fn passage(
    k: f64,
    rho: f64,
    dp: f64,
    (p_up, p_sat): (f64, f64),
    liquid: f64,
    gas: &Expands,
) -> Rate {
    if k <= 0.0 {
        return Rate::default();
    }
    let limit_liq = (p_up - p_sat).max(0.0) + 0.15 * p_sat;
    let limit = (liquid * limit_liq + gas.chokes() * p_up).max(1.0);
    let eff = dp.abs().min(limit);
    let root = k * rho.max(0.0).sqrt();
    let flow = root * eff / (eff + LAMINAR).sqrt() * gas.factor(eff / p_up.max(1.0));
    Rate::chord(flow * dp.signum(), dp, root / LAMINAR.sqrt())
}

/// Flow of refrigerant vapour that chokes in a passage of `k` = 1 m2, kg/s: for a passage from a flow.
pub fn choked(rho: f64, p_up: f64) -> f64 {
    let gas = Expands::edge(1.0, 0.0);
    (rho * gas.chokes() * p_up).sqrt() * gas.factor(gas.chokes())
}

/// A line's constant from a rated drop: `k` such that `flow` (kg/s) of density `rho` loses `drop` Pa.
pub fn k_from_drop(flow: f64, rho: f64, drop: f64) -> f64 {
    flow / (rho * drop).sqrt()
}

/// A passage constant from a hole: discharge coefficient times area (m2).
pub fn k_from_hole(cd: f64, area: f64) -> f64 {
    cd * area * core::f64::consts::SQRT_2
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Share of what an ideal nozzle of its area passes at the speed of sound that an edge of 0.61 passes, for air: 0.61 where the
    /// drop is small, some 0.74 at the nozzle's critical pressure ratio 0.528, 0.84 into a vacuum (Perry 1949, from memory).
    #[test]
    fn a_sharp_edge_opens_as_perry_measured() {
        let (rho, p) = (1.2_f64, 101_325.0);
        let (k, air) = (k_from_hole(0.61, 1.0), Expands::edge(1.0, 1.0));
        let nozzle = 0.6847 * (p * rho).sqrt();
        for (ratio, asked) in [(0.528, 0.745), (0.0, 0.84)] {
            let flow = passage(k, rho, (1.0 - ratio) * p, (p, 0.0), 0.0, &air).flow;
            let share = flow / nozzle;
            assert!((share / asked - 1.0).abs() < 0.02, "{ratio}: {share}");
        }
        let little = passage(k, rho, 0.01 * p, (p, 0.0), 0.0, &air).flow;
        let plain = k * (rho * 0.01 * p).sqrt();
        assert!((little / plain - 1.0).abs() < 0.02);
    }

    /// With more drop a gas never passes less, and at the limit its flow no longer grows: no kink there.
    #[test]
    fn flow_levels_off_where_it_chokes() {
        for air in [0.0, 0.5, 1.0] {
            let gas = Expands::edge(1.0, air);
            let at = |x: f64| passage(1e-6, 20.0, x * 6e5, (6e5, 5.7e5), 0.0, &gas).flow;
            let mut last = 0.0;
            for n in 1..=1000 {
                let flow = at(f64::from(n) * 1e-3);
                assert!(
                    flow >= last * (1.0 - 1e-5),
                    "{air}, {n}: {flow} after {last}"
                );
                last = flow;
            }
            let limit = gas.chokes();
            let slope = (at(limit) - at(limit - 0.01)) / at(limit) / 0.01;
            assert!(slope < 0.02, "{air}: {slope}");
        }
        let k = 3e-7;
        let gas = Expands::edge(1.0, 0.0);
        let flow = passage(k, 27.8, 4.7e5, (5.717e5, 5.717e5), 0.0, &gas).flow;
        assert!((flow / (k * choked(27.8, 5.717e5)) - 1.0).abs() < 1e-3);
    }
}
