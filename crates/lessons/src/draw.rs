//! Chance that comes back: the same seed draws the same.

use lowside_session::scenario::{InstrumentSpec, SPREADS, ScatterSpec};
use lowside_units::{GaugePressure, Quantity, Ratio, TemperatureDifference};

/// A generator of numbers (`SplitMix64`: Steele, Lea & Flood 2014).
#[derive(Debug, Clone)]
pub struct Draw(u64);

/// Farthest from the middle that is drawn, standard deviations.
const FARTHEST: f64 = 2.5;

/// Standard deviations of what sound instruments show too much (own figures, within what their makers allow: gauges 2 % of their range,
/// thermometers 1 K, a clamp on a pipe 2 K).
pub mod error {
    /// Compound gauge, Pa.
    pub const LOW_GAUGE: f64 = 7e3;
    /// High-pressure gauge, Pa.
    pub const HIGH_GAUGE: f64 = 28e3;
    /// Thermometers in the air, K.
    pub const AIR: f64 = 0.5;
    /// Clamp thermometer, K.
    pub const CLAMP: f64 = 1.0;
}

impl Draw {
    /// Begins at a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// Draws 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Draws from 0 to 1, the end not among them.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Draws from one number to another.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.share()
    }

    /// Draws one of a list; none of an empty one.
    pub fn one<'a, T>(&mut self, of: &'a [T]) -> Option<&'a T> {
        let place = (self.bits() >> 32).checked_rem(of.len() as u64)?;
        of.get(usize::try_from(place).ok()?)
    }

    /// Draws from the normal distribution, in standard deviations, no farther out than 2.5: the sum of twelve shares less six.
    pub fn normal(&mut self) -> f64 {
        let sum: f64 = (0..12).map(|_| self.share()).sum();
        (sum - 6.0).clamp(-FARTHEST, FARTHEST)
    }

    /// Draws how a sound vehicle differs from its kind, `wider` times as much as sound vehicles do.
    pub fn scatter(&mut self, wider: f64) -> ScatterSpec {
        let mut scatter = ScatterSpec::default();
        for spread in &SPREADS {
            let share = 1.0 + wider * spread.sd * self.normal();
            (spread.set)(&mut scatter, Ratio::from_si(share));
        }
        scatter
    }

    /// Draws how far sound instruments are from the truth.
    pub fn instruments(&mut self) -> InstrumentSpec {
        let mut of = |sd: f64| sd * self.normal();
        InstrumentSpec {
            low_gauge: GaugePressure::from_si(of(error::LOW_GAUGE)),
            high_gauge: GaugePressure::from_si(of(error::HIGH_GAUGE)),
            vent: TemperatureDifference::from_si(of(error::AIR)),
            cabin: TemperatureDifference::from_si(of(error::AIR)),
            clamp: TemperatureDifference::from_si(of(error::CLAMP)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First three numbers of the published generator from seed 1234567 (reference implementation in the public domain, from memory).
    #[test]
    fn it_is_the_published_generator() {
        let mut draw = Draw::new(1_234_567);
        let drawn = [draw.bits(), draw.bits(), draw.bits()];
        let published = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
        ];
        assert_eq!(drawn, published);
    }

    #[test]
    fn what_is_drawn_has_the_spread_it_should() {
        let mut draw = Draw::new(3);
        let drawn: Vec<f64> = (0..20_000).map(|_| draw.normal()).collect();
        let mean = drawn.iter().sum::<f64>() / 20e3;
        let square = drawn.iter().map(|x| x * x).sum::<f64>() / 20e3;
        assert!(
            mean.abs() < 0.03 && (square - 1.0).abs() < 0.06,
            "{mean} {square}"
        );
        assert!(draw.one::<u8>(&[]).is_none());
    }
}
