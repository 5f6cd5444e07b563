//! One solver for each kind of pair.

use super::at::{RHO_LOW, Solver, mixed, of};
use super::root::{bracketed, highest};
use super::{FlashError, FullState, Quantity};
use crate::saturation;

type Outcome = Result<FullState, FlashError>;

impl Solver {
    pub(super) fn solve(&self, a: (Quantity, f64), b: (Quantity, f64)) -> Outcome {
        use Quantity::{Density, Enthalpy, Entropy, Pressure, Quality, Temperature};
        // The enum's order puts the better argument first.
        let ((qa, x), (qb, y)) = if a.0 <= b.0 { (a, b) } else { (b, a) };
        if qa == qb {
            return Err(FlashError::Twice { quantity: qa });
        }
        self.check(qa, x)?;
        self.check(qb, y)?;
        let found = match (qa, qb) {
            (Temperature, Pressure) => self.t_p(x, y),
            (Temperature, Quality) => self.t_q(x, y),
            (Temperature, Density) => Ok(self.at(y, x)),
            (Temperature, _) => self.t_other(x, qb, y),
            (Pressure, Quality) => self.p_q(x, y),
            (Pressure, _) => self.p_other(x, qb, y),
            (Enthalpy, Entropy) => self.h_s(x, y),
            (_, Quality) => self.q_other(y, qa, x),
            _ => self.rho_other(y, qa, x),
        }?;
        self.checked(found, (qa, x), (qb, y))
    }

    fn check(&self, quantity: Quantity, value: f64) -> Result<(), FlashError> {
        let (low, high) = match quantity {
            Quantity::Temperature => (self.t_low, self.t_high),
            Quantity::Pressure => (1e-3, self.p_high),
            Quantity::Density => (RHO_LOW, 3.5 * self.eq.rho_crit()),
            Quantity::Quality => (0.0, 1.0),
            Quantity::Enthalpy => (-1e6, 2e6),
            Quantity::Entropy => (-1e4, 1e4),
        };
        if value >= low && value <= high {
            Ok(())
        } else {
            Err(FlashError::Range {
                quantity,
                value,
                low,
                high,
            })
        }
    }

    /// Refuses what the search found outside the fluid's limits or beside the critical point.
    fn checked(&self, s: FullState, a: (Quantity, f64), b: (Quantity, f64)) -> Outcome {
        let (t_crit, rho_crit) = (self.eq.t_crit(), self.eq.rho_crit());
        if s.t > self.t_line && s.t < t_crit + 0.02 && (s.rho / rho_crit - 1.0).abs() < 0.4 {
            return Err(FlashError::Critical {
                t: s.t,
                rho: s.rho,
                t_crit,
                rho_crit,
            });
        }
        let inside = s.t >= self.t_low * (1.0 - 1e-9)
            && s.t <= self.t_high * (1.0 + 1e-9)
            && s.p <= self.p_high * (1.0 + 1e-9)
            && s.p > 0.0;
        if inside { Ok(s) } else { Err(nowhere(a, b)) }
    }

    fn t_p(&self, t: f64, p: f64) -> Outcome {
        if self
            .line(t)
            .is_some_and(|sat| (p / sat.p - 1.0).abs() < 1e-7)
        {
            return Err(FlashError::OnSaturation { t, p });
        }
        Ok(self.single_at(t, p, |sat| p > sat.p))
    }

    fn t_q(&self, t: f64, q: f64) -> Outcome {
        let sat = self.line(t).ok_or(FlashError::Range {
            quantity: Quantity::Temperature,
            value: t,
            low: self.t_low,
            high: self.t_line,
        })?;
        Ok(self.mixture(&sat, q))
    }

    fn p_q(&self, p: f64, q: f64) -> Outcome {
        let sat = saturation::at_pressure(self.eq, p).map_err(|_| FlashError::Range {
            quantity: Quantity::Pressure,
            value: p,
            low: self.cold.p,
            high: self.warm.p,
        })?;
        Ok(self.mixture(&sat, q))
    }

    /// Enthalpy or entropy at a temperature: both fall with density from the ideal gas on.
    fn t_other(&self, t: f64, quantity: Quantity, value: f64) -> Outcome {
        let here = |x: f64| of(&self.eq.properties(libm::exp(x), t), quantity) - value;
        let search = |low: f64, high: f64| {
            bracketed(here, libm::log(low), libm::log(high))
                .map(|x| self.single(libm::exp(x), t, None))
        };
        let missing = || nowhere((Quantity::Temperature, t), (quantity, value));
        let Some(sat) = self.line(t) else {
            return self
                .thinnest(t, quantity, RHO_LOW, self.densest(), search)
                .ok_or_else(missing);
        };
        let (l, g) = sat.phases(self.eq);
        let (low, high) = (of(&l, quantity), of(&g, quantity));
        if value >= low && value <= high {
            return Ok(self.mixture(&sat, (value - low) / (high - low)));
        }
        let found = if value > high {
            search(RHO_LOW, sat.rho_g)
        } else {
            self.thinnest(t, quantity, sat.rho_l, self.densest(), search)
        };
        found.ok_or_else(missing)
    }

    /// The thinnest solution: entropy falls all the way, enthalpy falls and turns round once in dense fluids.
    fn thinnest(
        &self,
        t: f64,
        quantity: Quantity,
        low: f64,
        high: f64,
        search: impl Fn(f64, f64) -> Option<FullState>,
    ) -> Option<FullState> {
        let slope = |x: f64| {
            let f = self.eq.properties(libm::exp(x), t);
            f.dp_drho - t * f.dp_dt / f.rho
        };
        let turn = (quantity == Quantity::Enthalpy)
            .then(|| bracketed(slope, libm::log(low), libm::log(high)))
            .flatten()
            .map_or(high, libm::exp);
        search(low, turn).or_else(|| search(turn, high))
    }

    /// Enthalpy, entropy or density at a pressure: monotone in temperature through all phases.
    fn p_other(&self, p: f64, quantity: Quantity, value: f64) -> Outcome {
        let sign = if quantity == Quantity::Density {
            -1.0
        } else {
            1.0
        };
        let residual = |s: &FullState| sign * (s.get(quantity).unwrap_or(f64::NAN) - value);
        let (mut low, mut high) = (self.t_low, self.t_high);
        // An end on the line is the saturated state itself, and the side of the line is known.
        let (mut saturated, mut liquid) = (None, None);
        if let Ok(sat) = saturation::at_pressure(self.eq, p) {
            let (l, g) = sat.phases(self.eq);
            let (a, b) = (of(&l, quantity), of(&g, quantity));
            if sign * (value - a) >= 0.0 && sign * (b - value) >= 0.0 {
                let q = if quantity == Quantity::Density {
                    (1.0 / value - 1.0 / a) / (1.0 / b - 1.0 / a)
                } else {
                    (value - a) / (b - a)
                };
                return Ok(self.mixture(&sat, q));
            }
            let is_liquid = sign * (value - a) < 0.0;
            if is_liquid {
                high = sat.t;
            } else {
                low = sat.t;
            }
            saturated = Some((sat.t, self.mixture(&sat, if is_liquid { 0.0 } else { 1.0 })));
            liquid = Some(is_liquid);
        }
        let at = |t: f64| match saturated {
            Some((end, state)) if (t - end).abs() < 1e-10 * end => state,
            _ => self.single_at(t, p, |sat| liquid.unwrap_or(p > sat.p)),
        };
        bracketed(|t| residual(&at(t)), low, high)
            .map(at)
            .ok_or_else(|| nowhere((Quantity::Pressure, p), (quantity, value)))
    }

    /// Enthalpy or entropy at a density: monotone in temperature through all phases.
    fn rho_other(&self, rho: f64, quantity: Quantity, value: f64) -> Outcome {
        self.temperature_at(rho, quantity, value)
            .map(|t| self.at(rho, t))
            .ok_or_else(|| nowhere((quantity, value), (Quantity::Density, rho)))
    }

    fn temperature_at(&self, rho: f64, quantity: Quantity, value: f64) -> Option<f64> {
        let f = |t: f64| self.at(rho, t).get(quantity).unwrap_or(f64::NAN) - value;
        bracketed(f, self.t_low, self.t_high)
    }

    /// Along an isentrope enthalpy rises with density (dh = v dp).
    fn h_s(&self, h: f64, s: f64) -> Outcome {
        let (mut low, mut high) = (libm::log(RHO_LOW), libm::log(self.densest()));
        for _ in 0..70 {
            let x = 0.5 * (low + high);
            let rho = libm::exp(x);
            let above = match self.temperature_at(rho, Quantity::Entropy, s) {
                Some(t) => self.at(rho, t).h > h,
                // Hotter than the fluid's limit, else colder.
                None => self.at(rho, self.t_high).s < s,
            };
            if above {
                high = x;
            } else {
                low = x;
            }
        }
        let missing = || nowhere((Quantity::Enthalpy, h), (Quantity::Entropy, s));
        let rho = libm::exp(0.5 * (low + high));
        let t = self
            .temperature_at(rho, Quantity::Entropy, s)
            .ok_or_else(missing)?;
        let found = self.at(rho, t);
        if (found.h - h).abs() < 1e-6 * (1e5 + h.abs()) {
            Ok(found)
        } else {
            Err(missing())
        }
    }

    /// Along a line of constant quality: every crossing is looked for.
    fn q_other(&self, q: f64, quantity: Quantity, value: f64) -> Outcome {
        let f = |t: f64| {
            let (l, g) = saturation::at_temperature_unchecked(self.eq, t).phases(self.eq);
            mixed(&l, &g, quantity, q) - value
        };
        let steps = 150;
        let width = (self.t_line - self.t_low) / f64::from(steps);
        let node = |i: i32| {
            if i == steps {
                self.t_line
            } else {
                self.t_low + width * f64::from(i)
            }
        };
        let mut points: Vec<(f64, f64)> = (0..=steps).map(|i| (node(i), f(node(i)))).collect();
        // Where the line turns round, the turning point itself parts the crossings before and after it.
        let turns: Vec<(f64, f64)> = points
            .windows(3)
            .filter(|w| (w[1].1 > w[0].1) != (w[2].1 > w[1].1))
            .map(|w| {
                let sign = if w[1].1 > w[0].1 { 1.0 } else { -1.0 };
                let t = highest(|t| sign * f(t), w[0].0, w[2].0);
                (t, f(t))
            })
            .collect();
        points.extend(turns);
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        let temperatures: Vec<f64> = points
            .windows(2)
            .filter(|w| (w[0].1 > 0.0) != (w[1].1 > 0.0))
            .filter_map(|w| bracketed(f, w[0].0, w[1].0))
            .collect();
        match temperatures.as_slice() {
            [] => Err(nowhere((quantity, value), (Quantity::Quality, q))),
            [t] => self.t_q(*t, q),
            _ => Err(FlashError::Several {
                quantity,
                value,
                temperatures,
            }),
        }
    }
}

fn nowhere(a: (Quantity, f64), b: (Quantity, f64)) -> FlashError {
    FlashError::Nowhere {
        first: a.0,
        first_value: a.1,
        second: b.0,
        second_value: b.1,
    }
}
