//! The performance test: the vehicle's readings against those of a healthy one of its kind, on the same day, at the same settings
//! and from the same cabin, run beside it by the same model. The limits are that vehicle's readings and a margin.
//!
//! The bay knows that a test was begun. What comes of it is seen here, and entered by an act.

use lowside_plant::{
    controls::Settings,
    plant::{Day, TICK},
};
use lowside_session::{Bay, RecordAct, TICKS_PER_SECOND, Tick, Twin};
use lowside_units::{GaugePressure, Quantity, Temperature};

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
#[derive(Debug, Clone, Copy, Default)]
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

/// Watches a bay for the performance test. Give it to the bay as an [`Observer`](lowside_session::Observer).
#[derive(Debug, Clone, Default)]
pub struct PerformanceTest {
    under_way: Option<UnderWay>,
}

impl PerformanceTest {
    /// Looks at a bay before and after each of its ticks; gives how the test ends, when it does.
    pub fn look(&mut self, bay: &Bay) -> Option<RecordAct> {
        self.look_with(bay, |acts| bay.after(acts))
    }

    /// As [`PerformanceTest::look`]. `after` gives the bay as it was when so many acts had just been done: it is asked where the test was
    /// not watched from its beginning, as when somebody has gone back in time.
    pub fn look_with(&mut self, bay: &Bay, after: impl FnOnce(usize) -> Bay) -> Option<RecordAct> {
        let Some((begun, acts)) = bay.test_begun() else {
            self.under_way = None;
            return None;
        };
        if let Some(test) = self.under_way.as_mut().filter(|t| t.watches(bay, acts)) {
            return test.look(bay);
        }
        let (test, end) = if (begun, acts) == (bay.tick(), bay.log().len()) {
            (UnderWay::new(bay, acts), None)
        } else {
            UnderWay::catch_up(after(acts), bay, acts)
        };
        self.under_way = Some(test);
        end
    }

    /// Forgets what it has watched: the bay has gone to another time.
    pub fn forget(&mut self) {
        self.under_way = None;
    }
}

/// Share of the test under way in a bay that is done, 0 to 1.
pub fn progress(bay: &Bay) -> Option<f64> {
    let (begun, _) = bay.test_begun()?;
    let seconds = (bay.tick() - begun) as f64 / TICKS_PER_SECOND as f64;
    Some((seconds / (SETTLES + READ_FOR)).min(1.0))
}

/// A test under way, as far as it was watched.
#[derive(Debug, Clone)]
struct UnderWay {
    /// Acts of the log at its beginning, and the tick it has come to.
    acts: usize,
    tick: Tick,
    healthy: Twin,
    settings: Settings,
    day: Day,
    seconds: f64,
    sums: [Sums; 2],
}

impl UnderWay {
    /// Begins beside a bay.
    fn new(bay: &Bay, acts: usize) -> Self {
        Self {
            acts,
            tick: bay.tick(),
            healthy: Twin::sound(bay),
            settings: bay.plant().settings,
            day: bay.plant().day(),
            seconds: 0.0,
            sums: [Sums::default(); 2],
        }
    }

    /// Watches from its beginning, where `then` stands, what has happened in `bay` since; gives how it ended meanwhile.
    fn catch_up(mut then: Bay, bay: &Bay, acts: usize) -> (Self, Option<RecordAct>) {
        let mut test = Self::new(&then, acts);
        let mut rest = bay.log()[acts..].iter().peekable();
        loop {
            while let Some((_, action)) = rest.next_if(|(tick, _)| *tick <= then.tick()) {
                // The bay took it then.
                drop(then.apply(*action));
            }
            if then.tick() >= bay.tick() || then.step().is_err() {
                return (test, None);
            }
            if let Some(end) = test.look(&then) {
                return (test, Some(end));
            }
        }
    }

    /// Whether it is the test that runs in a bay, and has seen all of it but the last tick.
    fn watches(&self, bay: &Bay, acts: usize) -> bool {
        self.acts == acts && (self.tick..=self.tick + 1).contains(&bay.tick())
    }

    /// Looks at a bay; once a tick is enough.
    fn look(&mut self, bay: &Bay) -> Option<RecordAct> {
        if bay.tick() == self.tick {
            return None;
        }
        self.tick = bay.tick();
        let changed = bay.plant().settings != self.settings || bay.plant().day() != self.day;
        if changed || self.healthy.step().is_err() {
            return Some(RecordAct::PerformanceBrokenOff);
        }
        self.seconds += TICK;
        if self.seconds < SETTLES {
            return None;
        }
        self.sums[0].take(bay);
        self.sums[1].take(self.healthy.bay());
        (self.seconds >= SETTLES + READ_FOR).then(|| self.result())
    }

    /// What was found and the limits: each as mean, least and most.
    fn result(&self) -> RecordAct {
        let [found, healthy] = self.sums.map(|s| s.means());
        let margins = [LOW, HIGH * healthy[1].abs(), VENT];
        let checked = |i: usize| [found[i], healthy[i] - margins[i], healthy[i] + margins[i]];
        let [vent, least, most] = checked(2);
        // Colder than a healthy vehicle is no fault of the vent.
        let vent = [vent, f64::min(vent, least), most];
        RecordAct::PerformanceResult {
            low: checked(0).map(GaugePressure::from_si),
            high: checked(1).map(GaugePressure::from_si),
            vent: vent.map(Temperature::from_si),
        }
    }
}
