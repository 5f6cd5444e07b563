//! The bay on stage: time that passes, the recorder, and saving.
use lowside_lessons::{Caution, Job, PerformanceTest, Shown, senses::noticed};
use lowside_present::{
    history::History,
    levels::{Levels, Tick},
};
use lowside_session::{
    Action, Bay, Event, Refused, Scenario, Sitting, TICKS_PER_SECOND, Timeline, library, take,
};

use crate::{
    fail, host,
    kept_lines::KeptLines,
    later,
    past::{Aside, Ended, Waiting},
    share,
    store::{self, Kept as Stored},
};

/// Time the engine may take of a frame, ms.
const BUDGET: f64 = 10.0;
/// Longest stretch of wall time that one frame makes up for, s (a hidden tab does not run on).
const LONGEST: f64 = 0.1;
/// Time between saves, ms.
const SAVE_EVERY: f64 = 4_000.0;

/// Speeds offered.
pub(crate) const SPEEDS: [f64; 7] = [0.5, 1.0, 4.0, 10.0, 30.0, 60.0, 120.0];

/// A line of the event log: when, what, and how often in a row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Line {
    pub(crate) seconds: f64,
    pub(crate) event: Event,
    pub(crate) times: u32,
}

/// Everything that lives longer than a frame and is not on the page itself.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is one independent thing that is so or not"
)]
pub(crate) struct Stage {
    pub(crate) bay: Bay,
    /// How it is worked in.
    pub(crate) sitting: Sitting,
    pub(crate) history: History,
    /// The job under way.
    pub(crate) job: Option<Job>,
    /// Watches for the performance test.
    pub(crate) test: PerformanceTest,
    pub(crate) paused: bool,
    /// Time stands still for a question.
    pub(crate) held: bool,
    pub(crate) speed: f64,
    /// What was, and the lines that parted from it.
    pub(crate) past: Timeline,
    /// What belongs to the lines put aside. A list: they are few, and a map is 3 kB as sent.
    pub(crate) aside: Vec<Aside>,
    /// Lines of earlier visits.
    pub(crate) kept_lines: KeptLines,
    pub(crate) waiting: Option<Waiting>,
    /// A wait has ended and was not yet told.
    pub(crate) ended: Option<Ended>,
    /// The bay is as long as a take may be, which was not yet told.
    pub(crate) full: bool,
    /// Bays that run beside it and have as much of a frame.
    pub(crate) beside: u32,
    /// Speed reached lately.
    pub(crate) reached: f64,
    /// The speed asked for is not reached.
    pub(crate) overloaded: bool,
    /// Whether the browser keeps the take.
    pub(crate) stored: Stored,
    pub(crate) lines: Vec<Line>,
    /// Events not yet read out.
    pub(crate) news: Vec<Event>,
    pub(crate) ticks: Vec<Tick>,
    /// Ticks at which a caution was told.
    pub(crate) cautioned: Vec<u64>,
    heard: usize,
    owed: f64,
    /// Share of late frames whose time budget ran out.
    strain: f64,
    saved_at: f64,
    last_frame: Option<f64>,
    /// Frames a second, smoothed.
    pub(crate) fps: f64,
}

/// Scenarios the page offers to start with, the main job first.
pub(crate) const STARTS: [&str; 5] = [
    "charge-from-cans",
    "healthy",
    "healthy-compact",
    "healthy-crossover",
    "before-retrofit",
];

/// Opens a shipped scenario without its script.
pub(crate) fn open(name: &str) -> Bay {
    Bay::new(&library::shipped(name).expect("a shipped scenario is sound"))
}

/// Id of the offered scenario that has the name of `scenario`; none if there is none.
pub(crate) fn offered(scenario: &Scenario) -> Option<&'static str> {
    let same = |id: &&str| library::shipped(id).is_some_and(|s| s.name == scenario.name);
    STARTS.into_iter().find(same)
}

/// What the page opens with: a van that runs as it should.
pub(crate) const FIRST: &str = "healthy";
/// Seconds it has run by then, so that it is cool.
const WARM_UP: u64 = 150;

/// The bay of the first view: it has run for a while already.
pub(crate) fn first() -> Stage {
    let mut stage = Stage::new(open(FIRST), History::default());
    for _ in 0..WARM_UP * TICKS_PER_SECOND {
        stage.pass();
    }
    stage.retell();
    stage
}

/// Name of the shipped scenario that is exactly a bay's, its script aside.
pub(crate) fn shipped(bay: &Bay) -> Option<&'static str> {
    STARTS
        .into_iter()
        .find(|name| open(name).scenario() == bay.scenario())
}

impl Stage {
    /// Puts a bay on stage.
    pub(crate) fn new(bay: Bay, history: History) -> Self {
        Self {
            heard: bay.events().len(),
            past: Timeline::new(&bay),
            aside: Vec::new(),
            kept_lines: KeptLines::default(),
            waiting: None,
            ended: None,
            full: false,
            beside: 0,
            bay,
            sitting: Sitting::default(),
            history,
            job: None,
            test: PerformanceTest::default(),
            paused: host::reduced_motion(),
            held: false,
            speed: 1.0,
            reached: 1.0,
            overloaded: false,
            stored: Stored::Yes,
            lines: Vec::new(),
            news: Vec::new(),
            ticks: Vec::new(),
            cautioned: Vec::new(),
            owed: 0.0,
            strain: 0.0,
            saved_at: 0.0,
            last_frame: None,
            fps: 60.0,
        }
    }

    /// Lets the bay run for one frame at wall time `now` (ms); returns the wall time since the last, s.
    pub(crate) fn frame(&mut self, now: f64) -> f64 {
        let last = self.last_frame.replace(now).unwrap_or(now);
        let elapsed = ((now - last) / 1e3).max(0.0);
        if elapsed > 0.0 {
            self.fps += (1.0 / elapsed - self.fps) * 0.05;
        }
        let dt = elapsed.min(LONGEST);
        if !self.paused && !self.held {
            self.go_on();
            self.owed += dt * self.speed * TICKS_PER_SECOND as f64;
            let start = host::now();
            let mut done = 0.0;
            let mut out_of_time = 0.0;
            while self.owed >= 1.0 && self.has_room() {
                self.pass();
                self.owed -= 1.0;
                done += 1.0;
                if self.watch() {
                    self.owed = 0.0;
                    break;
                }
                if host::now() - start > BUDGET / f64::from(1 + self.beside) {
                    out_of_time = 1.0;
                    break;
                }
            }
            if dt > 0.0 {
                let speed = done / TICKS_PER_SECOND as f64 / dt;
                self.reached += (speed - self.reached) * (dt / 0.7).min(1.0);
            }
            // What could not be done is let go: the bay runs slower rather than ever further behind.
            if self.owed > 2.0 * self.speed.max(1.0) {
                self.owed = 0.0;
            }
            self.strain += (out_of_time - self.strain) * (dt / 0.7).min(1.0);
            self.overloaded = self.strain > 0.5 && self.reached < 0.85 * self.speed;
            self.hear();
        }
        if now - self.saved_at > SAVE_EVERY {
            self.save(now);
        }
        dt
    }

    fn pass(&mut self) {
        let (test, past) = (&mut self.test, &self.past);
        let mut watch = |bay: &Bay| test.look_with(bay, |acts| past.after(bay, acts));
        if self.bay.step_observed(&mut watch).is_err() {
            self.paused = true;
            return;
        }
        if self.history.due(self.bay.tick()) {
            self.history.record(&Shown::of(&self.bay));
        }
        self.past.record(&self.bay);
        if let Some(job) = &mut self.job {
            job.look(&self.bay);
        }
    }

    /// Is there room for more in a take of this bay? If not, it pauses here: beyond, it could no longer be kept.
    fn has_room(&mut self) -> bool {
        let room = !take::is_full(&self.bay);
        if !room {
            self.stop_waiting();
            self.paused = true;
            self.owed = 0.0;
            self.full = true;
        }
        room
    }

    /// Advances by so many ticks while paused.
    pub(crate) fn step_once(&mut self, ticks: u64) {
        self.go_on();
        for _ in 0..ticks {
            if !self.has_room() {
                break;
            }
            self.pass();
        }
        self.hear();
    }

    /// Writes the log of events anew, after a jump in time; none of them is news.
    pub(crate) fn retell(&mut self) {
        self.lines.clear();
        self.heard = 0;
        self.owed = 0.0;
        self.hear();
        self.news.clear();
    }

    /// Takes the new events into the log.
    fn hear(&mut self) {
        let closed = self.sitting.now().closed();
        let events = self.bay.events();
        // The bay drops its oldest events now and then; what is left then counts as heard up to its end.
        let from = if events.len() < self.heard {
            0
        } else {
            self.heard
        };
        for &(tick, event) in &events[from..] {
            let plain = matches!(
                event,
                Event::ClutchIn | Event::LowSwitchOpened | Event::LiquidGone | Event::ReliefSeated
            );
            if plain || closed && !noticed(event) {
                continue;
            }
            let seconds = tick as f64 / TICKS_PER_SECOND as f64;
            match self.lines.last_mut() {
                Some(last) if last.event == event => {
                    last.times += 1;
                    last.seconds = seconds;
                }
                _ => {
                    self.lines.push(Line {
                        seconds,
                        event,
                        times: 1,
                    });
                    self.news.push(event);
                }
            }
        }
        if self.lines.len() > 60 {
            self.lines.drain(..20);
        }
        self.heard = events.len();
    }

    /// Does an act; returns its caution.
    pub(crate) fn act(&mut self, action: Action) -> Result<Option<Caution>, Refused> {
        if self.bay.log().len() >= take::MOST_ACTS {
            self.full = true;
            return Ok(None);
        }
        let caution = Caution::at(action, &self.shown());
        // What the bay would refuse parts no lines.
        if self.past.looks_back() {
            self.bay.clone().apply(action)?;
            self.go_on();
        }
        self.bay.apply(action)?;
        if let Some(job) = &mut self.job {
            job.look_ahead(&self.bay);
        }
        self.save(host::now());
        Ok(caution)
    }

    /// Saves the take.
    pub(crate) fn save(&mut self, now: f64) {
        self.saved_at = now;
        if let Some(keeping) = later::keeping() {
            (keeping.save)(self);
        }
    }

    /// Keeps the acts so far and the lines that changed. Not in the moment before the part that keeps is here: acts are few then, and the next
    /// save has them.
    pub(crate) fn save_all(&mut self) {
        let Some(stored) = self.keep() else { return };
        self.stored = stored;
        let sitting = self.sitting_now();
        self.kept_lines
            .save(&self.past, |bay| share::text(bay, &sitting));
    }

    /// Keeps the acts so far, in the browser and for a failure. None before the bay has an id.
    pub(crate) fn keep(&self) -> Option<Stored> {
        let text = share::text(self.past.head(&self.bay), &self.sitting_now());
        fail::remember(&text);
        let id = store::bay();
        if id.is_empty() {
            return None;
        }
        let _ = store::set(store::LAST, &id);
        let _ = store::keep(store::AT, &host::today().to_string());
        Some(store::keep(store::TAKE, &text))
    }

    /// A hint was looked at, both numbers from 1; each counts once.
    pub(crate) fn hinted(&mut self, step: u8, hint: u8) {
        let tick = self.bay.tick();
        let hints = &mut self.sitting.hints;
        let known = hints.iter().any(|h| (h.step, h.hint) == (step, hint));
        if !known && hints.len() < take::MOST_HINTS {
            hints.push(take::Hint { tick, step, hint });
        }
    }

    /// The sitting with all that was undone in it.
    pub(crate) fn sitting_now(&self) -> Sitting {
        Sitting {
            lines: self.past.undone().to_vec(),
            ..self.sitting.clone()
        }
    }

    /// What somebody in the bay can know.
    pub(crate) fn shown(&self) -> Shown<'_> {
        Shown::of(&self.bay)
    }

    /// What the drawing shows now.
    pub(crate) fn levels(&self, units: lowside_units::display::UnitSystem) -> Levels {
        Levels::of(&self.bay, units)
    }
}
