//! Refrigerant dissolved in oil: how much at equilibrium, and how thin it makes the oil.
//!
//! Flory and Huggins: a = phi exp((1 - 1/r)(1 - phi) + chi (1 - phi)^2), with the activity a = p / p_sat, the volume share phi
//! of refrigerant and the ratio r of the molar volumes of oil and refrigerant. Park et al. (Int. J. Thermophys. 25 (2004)
//! 1849) found this form to hold for R-134a with oil at any share. chi (in the refrigerants' files) and the oils' molar masses are our
//! own choice within the class (from memory: PAG about 1 000 g/mol, mineral oil 350, ester 600).

use super::Oil;
use crate::Refrigerant;

/// Activity up to which the table of solubility goes: what boils at more than that of the pressure of pure refrigerant counts as
/// pure.
pub const TOP: f64 = 0.7;
/// Most refrigerant counted as dissolved, kg per kg of oil. The rest of a thin solution counts as liquid with oil in it, since it
/// boils readily (tuned, 0.2-1: more takes more of the charge out of the balance of liquid and vapour).
pub const MOST: f64 = 0.25;
/// Parts of the table of solubility.
const PARTS: usize = 32;
/// Temperatures of the table of viscosity, K: first, step, count.
const T_FIRST: f64 = 243.15;
const T_STEP: f64 = 5.0;
const T_COUNT: usize = 38;
/// Kinematic viscosity of liquid refrigerant, m2/s: R-134a at 0 degC has 0.21e-6 (CoolProp 8.0.0), the others 0.15-0.2e-6.
pub const NU_LIQUID: f64 = 0.2e-6;
/// Exponent of the molar mass in the mixing rule (Yokozeki 1994; from memory).
const YOKOZEKI: f64 = 0.58;

/// A pair of oil and refrigerant.
struct Pair {
    /// Interaction parameter of Flory and Huggins.
    chi: f64,
    /// Molar volume of oil over that of liquid refrigerant.
    r: f64,
    /// Molar mass of oil over that of refrigerant.
    mass: f64,
    /// Density of liquid refrigerant over that of oil, 25 degC.
    density: f64,
}

fn pair(oil: Oil, gas: Refrigerant) -> Pair {
    let g = &gas.data().in_oil;
    let (m_oil, chi) = match oil {
        Oil::Pag46 | Oil::Pag100 | Oil::Pag150 => (1_000.0, g.chi_pag),
        Oil::Mineral => (350.0, g.chi_mineral),
        Oil::Ester => (600.0, g.chi_ester),
    };
    let rho_oil = oil.density(298.15);
    let density = g.liquid_density / rho_oil;
    Pair {
        chi,
        r: m_oil / g.molar_mass * density,
        mass: m_oil / g.molar_mass,
        density,
    }
}

/// Activity of refrigerant (vapour pressure over that of pure refrigerant) in oil at the volume share `phi`, 0 to 1.
#[must_use]
pub fn activity(oil: Oil, gas: Refrigerant, phi: f64) -> f64 {
    let p = pair(oil, gas);
    flory_huggins(&p, phi)
}

fn flory_huggins(p: &Pair, phi: f64) -> f64 {
    let rest = 1.0 - phi;
    phi * libm::exp((1.0 - 1.0 / p.r) * rest + p.chi * rest * rest)
}

/// Whether liquid refrigerant and oil form one phase at any share: chi below 0.5 (1 + r^-1/2)^2 (Flory).
#[must_use]
pub fn miscible(oil: Oil, gas: Refrigerant) -> bool {
    let p = pair(oil, gas);
    let root = 1.0 + 1.0 / p.r.sqrt();
    p.chi < 0.5 * root * root
}

/// Tables of one pair of oil and refrigerant: solubility by activity, viscosity by temperature and what is dissolved.
#[derive(Debug, Clone)]
pub struct Solution {
    /// Kilograms of refrigerant a kilogram of oil holds, at activities from 0 to [`TOP`].
    held: [f64; PARTS + 1],
    /// Logarithm of the pure oil's kinematic viscosity over that of liquid refrigerant.
    thickness: [f64; T_COUNT],
    /// How much a kilogram of refrigerant counts against a kilogram of oil in the mixing rule.
    weight: f64,
    /// Oil and liquid refrigerant form one phase.
    pub miscible: bool,
}

impl Solution {
    /// Tables for a pair.
    #[must_use]
    pub fn new(oil: Oil, gas: Refrigerant) -> Self {
        let p = pair(oil, gas);
        let mut held = [0.0; PARTS + 1];
        for (k, held) in held.iter_mut().enumerate().skip(1) {
            let a = TOP * k as f64 / PARTS as f64;
            // The lowest share of this activity: with more than one the phases part.
            let (mut lo, mut hi) = (0.0, first_peak(&p));
            for _ in 0..60 {
                let mid = 0.5 * (lo + hi);
                if flory_huggins(&p, mid) < a {
                    lo = mid;
                } else {
                    hi = mid;
                }
            }
            *held = (lo / (1.0 - lo) * p.density).min(MOST);
        }
        let mut thickness = [0.0; T_COUNT];
        for (k, l) in thickness.iter_mut().enumerate() {
            let t = T_FIRST + T_STEP * k as f64;
            *l = libm::log(oil.kinematic_viscosity(t) / NU_LIQUID);
        }
        Self {
            held,
            thickness,
            weight: libm::pow(p.mass, 1.0 - YOKOZEKI),
            miscible: miscible(oil, gas),
        }
    }

    /// A share of these tables, to add up to a mixture's.
    pub(super) fn scaled(mut self, share: f64) -> Self {
        for x in self.held.iter_mut().chain(&mut self.thickness) {
            *x *= share;
        }
        self.weight *= share;
        self
    }

    /// Two shares together.
    pub(super) fn plus(mut self, other: &Self) -> Self {
        for (x, y) in self.held.iter_mut().zip(other.held) {
            *x += y;
        }
        for (x, y) in self.thickness.iter_mut().zip(other.thickness) {
            *x += y;
        }
        self.weight += other.weight;
        self
    }

    /// Refrigerant that oil holds at equilibrium, kg per kg of oil, at an activity (partial pressure over saturation pressure);
    /// more than [`TOP`] counts as that.
    #[must_use]
    pub fn held(&self, activity: f64) -> f64 {
        let x = activity.clamp(0.0, TOP) * (PARTS as f64 / TOP);
        let k = below(x, PARTS - 1);
        let w = x - k as f64;
        self.held[k] + w * (self.held[k + 1] - self.held[k])
    }

    /// Kinematic viscosity of oil with `ratio` kg of refrigerant per kg of oil in it at temperature `t` (K), m2/s. Logarithms
    /// add in the shares of Yokozeki's rule (1994; from memory); the oil's own is held to 243..428 K.
    #[must_use]
    pub fn viscosity(&self, t: f64, ratio: f64) -> f64 {
        let x = ((t - T_FIRST) / T_STEP).clamp(0.0, (T_COUNT - 1) as f64);
        let k = below(x, T_COUNT - 2);
        let pure = self.thickness[k] + (x - k as f64) * (self.thickness[k + 1] - self.thickness[k]);
        NU_LIQUID * libm::exp(pure / (1.0 + self.weight * ratio))
    }
}

/// The table's place below `x`, at most `last`.
fn below(x: f64, last: usize) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held within the table on either side"
    )]
    let k = x.max(0.0) as usize;
    k.min(last)
}

/// Share up to which the activity rises: 1 for a pair that mixes.
fn first_peak(p: &Pair) -> f64 {
    let steps = 1_000;
    let share = |k: usize| k as f64 / steps as f64;
    (1..steps)
        .find(|&k| flory_huggins(p, share(k + 1)) < flory_huggins(p, share(k)))
        .map_or(1.0 - 1e-9, share)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Park et al., Int. J. Thermophys. 25 (2004) 1849, as their abstract has it: oil up to 30 % by mass hardly lowers the
    /// vapour pressure of R-134a (none seen below 0 degC; Raoult's law, here 0.96 for 1 000 g/mol, good to 30 %).
    #[test]
    fn thin_solutions_boil_as_pure_refrigerant() {
        let p = pair(Oil::Pag46, Refrigerant::R134a);
        for oil in [0.05, 0.1, 0.2, 0.3] {
            let phi = (1.0 - oil) / (1.0 - oil + oil * p.density);
            let a = activity(Oil::Pag46, Refrigerant::R134a, phi);
            let moles = (1.0 - oil) / (1.0 - oil + oil / p.mass);
            assert!(
                (a - moles).abs() < 0.03 && a > 0.93,
                "{oil}: {a}, Raoult {moles}"
            );
        }
    }

    /// Common knowledge of retrofits: R-12 mixes with mineral oil, R-134a with PAG and ester; R-134a and mineral oil part.
    #[test]
    fn who_mixes_with_whom() {
        assert!(miscible(Oil::Mineral, Refrigerant::R12));
        for oil in [Oil::Pag46, Oil::Pag100, Oil::Pag150, Oil::Ester] {
            assert!(miscible(oil, Refrigerant::R134a), "{}", oil.name());
        }
        assert!(!miscible(Oil::Mineral, Refrigerant::R134a));
        let few = Solution::new(Oil::Mineral, Refrigerant::R134a).held(TOP);
        assert!(few < 0.1, "{few}");
    }

    /// The table against the law; more pressure dissolves more, and thins more.
    #[test]
    fn the_table_is_the_law() {
        for oil in Oil::ALL {
            for gas in Refrigerant::ALL {
                let (s, p) = (Solution::new(oil, gas), pair(oil, gas));
                let mut last = (-1.0, f64::INFINITY);
                for k in 0..=100 {
                    let a = TOP * f64::from(k) / 100.0;
                    let w = s.held(a);
                    let law = flory_huggins(&p, w / (w + p.density));
                    assert!(
                        (law - a).abs() < 5e-3 || (w > 0.9 * MOST && law < a),
                        "{oil:?} {gas} {a}: {law}"
                    );
                    let nu = s.viscosity(280.0, w);
                    assert!(w >= last.0 && nu <= last.1, "{oil:?} {gas} {a}: {w} {nu}");
                    last = (w, nu);
                }
            }
        }
    }
}
