//! The performance test: the vehicle's readings against those of a healthy one of its kind, on the same day, at the same settings
//! and from the same cabin, run beside it by the same model. The limits are that vehicle's readings and a margin.

use serde::{Deserialize, Serialize};

#[cfg(feature = "checkpoint")]
use lowside_plant::built::Misfit;
use lowside_plant::{
    controls::Settings,
    plant::{Day, TICK},
};
use lowside_shop::record::{Checked, Performance};

#[cfg(feature = "checkpoint")]
use crate::scenario::Scenario;
use crate::{bay::Bay, twin::Twin};

/// How long both run before anything is read, s, and how long it is read then (common practice: 5 to 10 min in all).
const SETTLES: f64 = 360.0;
const READ_FOR: f64 = 120.0;
/// Margins: low side, Pa; high side, share of its gauge pressure; vent, K (own figures: what sound vehicles of one kind and
/// shop gauges differ by, common practice 4 psi, 10 % and 5 degF).
const LOW: f64 = 27.5e3;
const HIGH: f64 = 0.10;
const VENT: f64 = 2.8;

/// Speeds of the engine at which it is made, 1/min: 1 500 to 2 000 (common practice), and what a hand on the throttle misses by.
const SPEEDS: core::ops::RangeInclusive<f64> = 1450.0..=2050.0;

/// What the test asks for, and whether it is so: the engine's speed, A/C on, blower at its highest, recirculation, windows shut,
/// hand valves shut with both couplers on. It can be made without, and then compares like with like all the same.
pub fn asked(bay: &Bay) -> [bool; 6] {
    let (s, h) = (&bay.plant().settings, &bay.shop().hands);
    [
        s.engine_on && SPEEDS.contains(&s.engine_rpm),
        s.ac_on,
        s.blower == bay.plant().cabin.blower_steps(),
        s.recirculate,
        !s.windows_open,
        h.low_coupled && h.high_coupled && h.low_valve + h.high_valve <= 0.0,
    ]
}

/// Means while the test reads: both gauges while the clutch is in (always, when it never is), and the vent.
#[derive(Debug, Clone, Copy, Default, Serialize, Deserialize)]
struct Sums {
    engaged: [f64; 3],
    all: [f64; 4],
}

impl Sums {
    fn take(&mut self, bay: &Bay) {
        let i = &bay.shop().instruments;
        let (low, high) = (i.low.reading(), i.high.reading());
        if bay.plant().drive.engaged {
            self.engaged[0] += 1.0;
            self.engaged[1] += low;
            self.engaged[2] += high;
        }
        self.all[0] += 1.0;
        self.all[1] += low;
        self.all[2] += high;
        self.all[3] += i.vent.reading();
    }

    fn means(&self) -> [f64; 3] {
        let n = self.all[0].max(1.0);
        let (m, low, high) = match self.engaged {
            [0.0, ..] => (n, self.all[1], self.all[2]),
            [m, low, high] => (m, low, high),
        };
        [low / m, high / m, self.all[3] / n]
    }
}

/// A test under way.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Test {
    healthy: Twin,
    /// The vehicle was converted when it began.
    converted: bool,
    settings: Settings,
    day: Day,
    seconds: f64,
    sums: [Sums; 2],
}

/// How a test stands after a tick.
pub(crate) enum Step {
    /// It goes on.
    Going,
    /// Day or settings were changed: it counts no more.
    Disturbed,
    /// It is over.
    Done(Performance),
}

impl Test {
    /// Begins beside a bay.
    pub(crate) fn new(bay: &Bay) -> Self {
        Self {
            healthy: Twin::sound(bay),
            converted: bay.converted(),
            settings: bay.plant().settings,
            day: bay.plant().day(),
            seconds: 0.0,
            sums: [Sums::default(); 2],
        }
    }

    /// Puts a test that was read beside a bay that was opened with `scenario`.
    ///
    /// # Errors
    /// [`Misfit`] when its healthy vehicle is another one's.
    #[cfg(feature = "checkpoint")]
    pub(crate) fn beside(self, scenario: &Scenario) -> Result<Self, Misfit> {
        let healthy = self
            .healthy
            .put_beside(scenario, self.converted)
            .map_err(|e| e.inside("test.healthy"))?;
        Ok(Self { healthy, ..self })
    }

    /// Share of the test that is done, 0 to 1.
    pub fn progress(&self) -> f64 {
        self.seconds / (SETTLES + READ_FOR)
    }

    /// Follows the bay by a tick.
    pub(crate) fn step(&mut self, bay: &Bay) -> Step {
        if bay.plant().settings != self.settings || bay.plant().day() != self.day {
            return Step::Disturbed;
        }
        if self.healthy.step().is_err() {
            return Step::Disturbed;
        }
        self.seconds += TICK;
        if self.seconds < SETTLES {
            return Step::Going;
        }
        self.sums[0].take(bay);
        self.sums[1].take(self.healthy.bay());
        if self.seconds < SETTLES + READ_FOR {
            return Step::Going;
        }
        let [found, healthy] = self.sums.map(|s| s.means());
        let margins = [LOW, HIGH * healthy[1].abs(), VENT];
        let checked = |i: usize| Checked {
            found: found[i],
            least: healthy[i] - margins[i],
            most: healthy[i] + margins[i],
        };
        Step::Done(Performance {
            ambient: self.day.t,
            humidity: self.day.humidity,
            low: checked(0),
            high: checked(1),
            // Colder than a healthy vehicle is no fault of the vent.
            vent: Checked {
                least: f64::min(found[2], healthy[2] - VENT),
                ..checked(2)
            },
        })
    }
}
