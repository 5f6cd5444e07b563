//! What can be heard: the compressor's strokes, gas through a narrow way, and whether the clutch is in.

use lowside_session::Bay;

/// Flow at which a hiss is as loud as it gets, kg/s (own figure).
const LOUD: f64 = 5e-3;

/// What is heard at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sound {
    /// Turns of the compressor a second; 0 at rest.
    pub turns: f64,
    /// Turns of the engine a second; 0 at rest.
    pub engine: f64,
    /// Hiss of gas through taps, valves, an open hose or the relief valve, 0 to 1.
    pub hiss: f64,
    /// Clutch engaged.
    pub clutch: bool,
}

impl Sound {
    /// Listens to a bay.
    pub fn of(bay: &Bay) -> Self {
        let (plant, shop) = (bay.plant(), bay.shop());
        let (net, q) = (&plant.network, shop.manifold);
        let s = &plant.settings;
        let engine = if s.engine_on {
            s.engine_rpm / 60.0
        } else {
            0.0
        };
        let through = [q.hose_end, q.low_valve, q.high_valve, plant.circuit.relief]
            .map(|link| net.link(link).flow.abs())
            .into_iter()
            .fold(0.0, f64::max);
        Self {
            turns: plant.compressor_rpm() / 60.0,
            engine,
            hiss: (through / LOUD).sqrt().min(1.0),
            clutch: plant.drive.engaged && s.engine_on,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::bay;
    use lowside_session::HoseAct;
    use lowside_units::Ratio;

    #[test]
    fn a_resting_bay_is_silent_a_running_one_hums_and_an_open_hose_hisses() {
        let mut rest = bay("charge-from-cans");
        assert!(Sound::of(&rest).turns.abs() < 1e-9 && Sound::of(&rest).hiss < 0.05);
        rest.apply(HoseAct::LowValve {
            open: Ratio::from_fraction(1.0),
        })
        .unwrap();
        for _ in 0..10 {
            rest.step().expect("the engine goes on");
        }
        assert!(Sound::of(&rest).hiss > 0.2, "{:?}", Sound::of(&rest));
        let mut runs = bay("healthy");
        for _ in 0..500 {
            runs.step().expect("the engine goes on");
        }
        let s = Sound::of(&runs);
        // 1500 rpm: 25 turns a second, times the pulley ratio.
        assert!(
            s.clutch && s.turns > s.engine && (s.engine - 25.0).abs() < 1e-9,
            "{s:?}"
        );
    }
}
