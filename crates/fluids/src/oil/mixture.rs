//! Oils of several kinds together: what a loop holds once another oil was poured on what did not drain.
//!
//! Compressor oils dissolve in each other, more or less; here they are taken as one liquid. What refrigerant it holds, what water,
//! and the logarithm of its viscosity are taken in the shares of its mass (own rule).

use serde::{Deserialize, Serialize};

use super::{Oil, Solution};
use crate::refrigerant::Refrigerant;

/// Share of oils that do not mix with the refrigerant up to which the others keep the whole in one phase with it (own figure: makers'
/// conversion kits pour the whole charge of ester or PAG on what does not drain, a third of the old oil and more).
const CARRIED: f64 = 0.4;

/// Shares of every kind in an oil, by mass.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Oils([f64; Oil::ALL.len()]);

impl Default for Oils {
    fn default() -> Self {
        Self::pure(Oil::default())
    }
}

impl Oils {
    /// One oil alone.
    #[must_use]
    pub fn pure(oil: Oil) -> Self {
        let mut shares = [0.0; Oil::ALL.len()];
        shares[oil as usize] = 1.0;
        Self(shares)
    }

    /// Share of a kind, 0 to 1.
    #[must_use]
    pub fn share(&self, oil: Oil) -> f64 {
        self.0[oil as usize]
    }

    /// Pours `kg` of a kind on `held` kg of these. Nothing on nothing changes nothing.
    pub fn pour(&mut self, oil: Oil, kg: f64, held: f64) {
        self.mix(&Self::pure(oil), kg, held);
    }

    /// Pours `kg` of others on `held` kg of these. Nothing on nothing changes nothing.
    pub fn mix(&mut self, others: &Self, kg: f64, held: f64) {
        let (kg, held) = (kg.max(0.0), held.max(0.0));
        // The same again is the same to the last bit.
        if kg + held > 0.0 && self != others {
            let stays = held / (held + kg);
            for (share, other) in self.0.iter_mut().zip(others.0) {
                *share = *share * stays + other * (1.0 - stays);
            }
        }
    }

    /// The only kind there is, if there is one only.
    fn pure_kind(&self) -> Option<Oil> {
        Oil::ALL.into_iter().find(|o| self.share(*o) >= 1.0)
    }

    fn present(&self) -> impl Iterator<Item = (Oil, f64)> {
        Oil::ALL
            .into_iter()
            .map(|o| (o, self.share(o)))
            .filter(|(_, share)| *share > 0.0)
    }

    /// Most water they take up, kg per kg.
    #[must_use]
    pub fn water_at_saturation(&self) -> f64 {
        self.present()
            .map(|(oil, share)| share * oil.water_at_saturation())
            .sum()
    }

    /// What they do with a refrigerant.
    #[must_use]
    pub fn solution(&self, gas: Refrigerant) -> Solution {
        if let Some(oil) = self.pure_kind() {
            return Solution::new(oil, gas);
        }
        let parts = self
            .present()
            .map(|(oil, share)| (Solution::new(oil, gas), share));
        let mut sum: Option<Solution> = None;
        let mut apart = 0.0;
        for (part, share) in parts {
            if !part.miscible {
                apart += share;
            }
            sum = Some(match sum {
                None => part.scaled(share),
                Some(sum) => sum.plus(&part.scaled(share)),
            });
        }
        let mut all = sum.unwrap_or_else(|| Solution::new(Oil::default(), gas));
        all.miscible = apart <= CARRIED;
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_follow_what_is_poured() {
        let mut oils = Oils::pure(Oil::Mineral);
        oils.pour(Oil::Ester, 0.0, 0.0);
        assert_eq!(oils, Oils::pure(Oil::Mineral));
        oils.pour(Oil::Ester, 0.15, 0.05);
        assert!((oils.share(Oil::Ester) - 0.75).abs() < 1e-12);
        oils.mix(&Oils::pure(Oil::Pag46), 0.2, 0.2);
        let whole: f64 = Oil::ALL.iter().map(|o| oils.share(*o)).sum();
        assert!((whole - 1.0).abs() < 1e-12 && (oils.share(Oil::Mineral) - 0.125).abs() < 1e-12);
    }

    /// Between the pure oils in what they hold and in viscosity; a residue of mineral oil is carried, most of it is not.
    #[test]
    fn a_mixture_lies_between_its_oils() {
        let gas = Refrigerant::R134a;
        let with = |ester: f64| {
            let mut oils = Oils::pure(Oil::Mineral);
            oils.pour(Oil::Ester, ester, 1.0 - ester);
            oils.solution(gas)
        };
        let (old, half, most, new) = (with(0.0), with(0.5), with(0.75), with(1.0));
        for a in [0.2, 0.6] {
            assert!(
                old.held(a) < half.held(a) && half.held(a) < new.held(a),
                "{a}"
            );
        }
        assert!(!old.miscible && !half.miscible && most.miscible && new.miscible);
        let nu = |s: &Solution| s.viscosity(273.15, 0.05);
        let ends = [nu(&old), nu(&new)];
        assert!(nu(&half) > ends[0].min(ends[1]) && nu(&half) < ends[0].max(ends[1]));
        let pure = Solution::new(Oil::Ester, gas);
        assert!((pure.held(0.5) - new.held(0.5)).abs() < 1e-15);
    }
}
