//! A job under way: its card, how far it has come, and how that stood at every moment before, so that going back in time goes back
//! here too.

use std::rc::Rc;

use lowside_session::{Bay, Tick, predicate::Predicate};

use crate::{
    card::JobCard,
    library,
    progress::{Progress, Standing},
    senses::is_shown,
};

/// Changes kept; beyond that every other one of the older half is let go, and going back there is a little coarse.
const MOST: usize = 4000;

/// A job and its past.
#[derive(Debug, Clone)]
pub struct Job {
    /// The name by which the library knows it.
    pub name: &'static str,
    /// Its card, which copies share.
    pub card: Rc<JobCard>,
    /// How far it is.
    pub progress: Progress,
    /// How far it will be at the next tick if nothing moves: what an act has brought about while the bay stands.
    ahead: Option<Progress>,
    /// The progress at each tick at which it changed, oldest first.
    trail: Vec<(Tick, Progress)>,
}

impl Job {
    /// Opens a shipped job; none if there is none of that name.
    pub fn open(name: &str) -> Option<Self> {
        let name = library::names().find(|n| *n == name)?;
        let card = Rc::new(library::card(name)?);
        let progress = Progress::new(&card);
        Some(Self {
            name,
            trail: vec![(0, progress.clone())],
            card,
            progress,
            ahead: None,
        })
    }

    /// The bay it starts with.
    pub fn bay(&self) -> Bay {
        let mut scenario = self.card.scenario.clone();
        scenario.act.clear();
        Bay::new(&scenario)
    }

    /// The scenario of a shipped card, as its bay begins.
    pub fn scenario_of(name: &str) -> Option<lowside_session::Scenario> {
        Some(Self::open(name)?.bay().scenario().clone())
    }

    /// Was a bay opened for this job?
    pub fn owns(&self, bay: &Bay) -> bool {
        bay.scenario().name == self.card.scenario.name
    }

    /// Looks at the bay after a step of it.
    pub fn look(&mut self, bay: &Bay) {
        self.ahead = None;
        self.progress.look(&self.card, bay);
        let last = self.trail.last();
        if last.is_none_or(|(_, p)| self.progress.moved_since(p)) {
            self.trail.push((bay.tick(), self.progress.clone()));
            if self.trail.len() > MOST {
                let mut n = 0;
                self.trail.retain(|_| {
                    n += 1;
                    n > MOST / 2 || n % 2 == 1
                });
            }
        }
    }

    /// Looks at the bay after an act, no time having passed. What is told goes by it until the next tick; nothing is kept of it, since a
    /// replay looks after ticks alone.
    pub fn look_ahead(&mut self, bay: &Bay) {
        let mut ahead = self.progress.clone();
        ahead.look(&self.card, bay);
        self.ahead = Some(ahead);
    }

    fn told(&self) -> &Progress {
        self.ahead.as_ref().unwrap_or(&self.progress)
    }

    /// Goes to how it stood at a tick; what came later stays known.
    pub fn seek(&mut self, tick: Tick) {
        self.ahead = None;
        let after = self.trail.partition_point(|(t, _)| *t <= tick);
        if let Some((_, then)) = self.trail.get(after.saturating_sub(1)) {
            self.progress = then.clone().at(tick);
        }
    }

    /// Forgets what came after a tick: the bay goes on from there otherwise.
    pub fn cut(&mut self, tick: Tick) {
        let after = self.trail.partition_point(|(t, _)| *t <= tick);
        self.trail.truncate(after.max(1));
        self.seek(tick);
    }

    /// Where each step stands.
    pub fn steps(&self) -> Vec<Standing> {
        self.told().steps(&self.card)
    }

    /// Where each step stands, where somebody in the bay can see that: its goal is on instruments, switches and what is seen, and so are those of
    /// the steps it waits for.
    pub fn seen_steps(&self) -> Vec<Option<Standing>> {
        let mut seen: Vec<bool> = Vec::new();
        for step in &self.card.step {
            let before = |n: &usize| seen.get(n - 1).is_some_and(|s| *s);
            seen.push(all_shown(&step.goal) && step.after.iter().all(before));
        }
        let steps = self.steps().into_iter().zip(seen);
        steps.map(|(stands, seen)| seen.then_some(stands)).collect()
    }

    /// Harms that happened for all to see, by their place on the card.
    pub fn seen_harms(&self) -> Vec<(usize, Tick)> {
        let mut harms = self.harms();
        harms.retain(|(i, _)| all_shown(&self.card.harm[*i].when));
        harms
    }

    /// Every step done, nothing that fails the job.
    pub fn passed(&self) -> bool {
        self.told().passed(&self.card)
    }

    /// Harms that happened, by their place on the card.
    pub fn harms(&self) -> Vec<(usize, Tick)> {
        let all = self.told().harms().enumerate();
        all.filter_map(|(i, t)| t.map(|t| (i, t))).collect()
    }
}

/// Everybody in the bay knows whether these hold.
fn all_shown(conditions: &[Predicate]) -> bool {
    conditions.iter().all(|c| is_shown(c.reading))
}

#[cfg(test)]
mod tests {
    use super::*;
    use lowside_session::{HoseAct, TICKS_PER_SECOND, VesselAct};
    use lowside_units::{Quantity, Ratio};

    fn pass(job: &mut Job, bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
            job.look(bay);
        }
    }

    /// What an act brings about is told though the bay stands, and nothing of it is kept that a replay would not find.
    #[test]
    fn what_an_act_reaches_is_told_before_the_next_tick() {
        let mut job = Job::open("1-first-charge").expect("shipped");
        let mut bay = job.bay();
        pass(&mut job, &mut bay, 1);
        let goal = job.card.step.last().expect("a step").goal.clone();
        let low = HoseAct::LowCoupler { on: false };
        let high = HoseAct::HighCoupler { on: false };
        let at_rest = goal.iter().all(|g| g.holds(&bay));
        assert!(!at_rest, "the couplers are on");
        // A card of that last step alone.
        let card = Rc::make_mut(&mut job.card);
        card.step = vec![card.step.pop().expect("a step")];
        card.step[0].after.clear();
        job.progress = Progress::new(&job.card);
        bay.apply(low).unwrap();
        job.look_ahead(&bay);
        assert_eq!(job.steps(), [Standing::Open]);
        bay.apply(high).unwrap();
        job.look_ahead(&bay);
        assert_eq!(job.steps(), [Standing::Done { tick: bay.tick() }]);
        assert!(job.passed());
        assert_eq!(job.progress, Progress::new(&job.card), "nothing is kept");
        job.seek(bay.tick());
        assert!(!job.passed());
    }

    #[test]
    fn going_back_goes_back() {
        let mut job = Job::open("1-first-charge").expect("shipped");
        let mut bay = job.bay();
        pass(&mut job, &mut bay, 5);
        let (early, tick) = (job.steps(), bay.tick());
        assert!(early.iter().all(|s| !matches!(s, Standing::Done { .. })));
        bay.apply(VesselAct::TakeCan).unwrap();
        bay.apply(VesselAct::Tap { on: true }).unwrap();
        bay.apply(HoseAct::LowValve {
            open: Ratio::from_si(1.0),
        })
        .unwrap();
        pass(&mut job, &mut bay, 60);
        let late = job.steps();
        assert!(matches!(late[0], Standing::Done { .. }), "{late:?}");
        job.seek(tick);
        assert_eq!(job.steps(), early);
        job.seek(bay.tick());
        assert_eq!(job.steps(), late);
        job.cut(tick);
        job.seek(bay.tick());
        assert!(matches!(job.steps()[0], Standing::Open), "the other course");
        assert!(!job.passed());
    }
}
