//! Tools, bench and job on the page, and what opens and leaves a job.
use lowside_lessons::{Job, Shown};
use lowside_present::{
    bench::Item,
    closed,
    history::History,
    opened,
    record::record,
    statement::{self, Said},
    toll,
    tools::{Tool, Tools},
};
use lowside_session::{Bay, Sight, take::Card};
use yew::{Context, Html, html};

use super::{App, Mode, Msg, peril::Peril};
use crate::{
    host,
    job::{JobSheet, JobView},
    later,
    stage::{self, Stage},
    statement::{impossible, verdict},
    store,
    tools::{HoseTools, Instruments},
    words,
};

/// What is asked of bench and job.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum WorkMsg {
    /// Chooses an item of the loop, or none.
    Choose(Option<Item>),
    /// Opens a job, or leaves it.
    Job(Option<&'static str>),
    /// Fills in the statement.
    Draft(Said),
    /// Signs the record with what is stated.
    Sign,
    /// Looks at a hint of a step, both from 1.
    Hint(u8, u8),
}

impl App {
    /// Chooses an item of the loop, or none.
    pub(super) fn choose(&mut self, item: Option<Item>) {
        self.item = item;
        self.face.part = None;
    }

    /// Does it.
    pub(crate) fn work(&mut self, msg: WorkMsg) {
        match msg {
            WorkMsg::Choose(item) => self.choose(item),
            WorkMsg::Draft(said) => {
                let _ = store::keep(store::DRAFT, &said.to_text());
                self.draft = said;
            }
            // Held against the record once the inside is open.
            WorkMsg::Sign if self.closed() => {}
            WorkMsg::Sign => {
                match statement::sign(&self.stage.bay, self.draft.clone(), self.units) {
                    Ok(signed) => {
                        self.waiting.push(verdict(&signed));
                        self.signed = Some(signed);
                    }
                    Err(wrong) => self.waiting.push(impossible(&wrong)),
                }
            }
            WorkMsg::Hint(step, hint) => self.stage.hinted(step, hint),
            WorkMsg::Job(None) => {
                self.stage.job = None;
                self.stage.sitting.card = None;
                store::forget(store::JOB);
            }
            WorkMsg::Job(Some(name)) => {
                let Some(job) = Job::open(name) else { return };
                let sight = self.begin.sight;
                self.fresh(job.bay());
                self.sit(sight);
                self.begin.scenario = stage::offered(self.stage.bay.scenario())
                    .unwrap_or_default()
                    .into();
                self.stage.job = Some(job);
                self.stage.sitting.card = Some(Card::Job(name.to_owned()));
                let _ = store::keep(store::JOB, name);
                self.stage.save(host::now());
            }
        }
    }

    /// Opens an offered scenario, or what the bay began with, as it was chosen to be worked in.
    pub(super) fn begin_with(&mut self, name: Option<String>) {
        let sight = self.begin.sight;
        match name {
            Some(name) => self.start(name),
            None => self.restart(),
        }
        self.sit(sight);
    }

    /// Starts over with what the bay began with, worked in as it was.
    pub(super) fn again(&mut self) {
        let sight = self.stage.sitting.sight;
        self.restart();
        self.sit(sight);
    }

    /// The bay just opened is worked in like this.
    fn sit(&mut self, sight: Sight) {
        self.stage.sitting.sight = sight;
        self.begin.sight = sight;
        self.stage.save(host::now());
    }

    /// A job card, an offered scenario, or a file's own, from its beginning.
    fn restart(&mut self) {
        if let Some(job) = &self.stage.job {
            let name = job.name;
            if let Some(jobs) = later::jobs() {
                (jobs.work)(self, WorkMsg::Job(Some(name)));
            }
            return;
        }
        let mut scenario = self.stage.bay.scenario().clone();
        scenario.act.clear();
        self.fresh(Bay::new(&scenario));
        self.stage.save(host::now());
    }

    /// Puts an offered scenario on stage.
    pub(super) fn start(&mut self, name: String) {
        // A replay under way is let go.
        self.mode = Mode::Running;
        self.begin.asked = None;
        self.fresh(stage::open(&name));
        self.begin.scenario = name;
        self.stage.save(host::now());
    }

    /// Puts a fresh bay on stage, paused; the one before is put aside.
    pub(super) fn fresh(&mut self, bay: Bay) {
        let back = later::keeping().and_then(|keeping| (keeping.change)(self));
        self.stage = Stage::new(bay, History::default());
        self.stage.paused = true;
        self.begin.sight = Sight::Open;
        self.state_nothing();
        self.item = None;
        self.peril = Peril::default();
        self.begin.picked = None;
        self.head.drawer = None;
        self.notice = None;
        if let Some(back) = back {
            self.announce(back);
        }
    }

    /// Another bay, another statement.
    pub(super) fn state_nothing(&mut self) {
        self.draft = Said::default();
        self.signed = None;
        store::forget(store::DRAFT);
    }

    /// What the bay began with, if it is none of the scenarios offered.
    pub(super) fn own(&self) -> Option<String> {
        if self.is_drill() {
            return Some(words::drill_vehicle(self.stage.sitting.seed.to_string()));
        }
        let card = |job: &Job| words::told(&job.card.title);
        let named = || self.stage.bay.scenario().name.clone();
        self.stage
            .job
            .as_ref()
            .map(card)
            .or_else(|| self.begin.scenario.is_empty().then(named))
    }

    /// The tools as they are read in this bay.
    pub(super) fn tools(&self, shown: &Shown<'_>) -> Tools {
        if self.closed() {
            Tools::of(shown, self.units)
        } else {
            opened::tools(&self.stage.bay, self.units)
        }
    }

    /// What hangs on the service hose, and the instruments.
    pub(crate) fn tools_view(&self, ctx: &Context<Self>) -> [Html; 2] {
        let shown = self.stage.shown();
        let tools = self.tools(&shown);
        let takes: Vec<_> = Tool::ALL
            .iter()
            .filter_map(|t| Some((*t, t.take(&shown)?)))
            .collect();
        let act = ctx.link().callback(Msg::Act);
        [
            html! { <HoseTools tools={tools.clone()} takes={takes.clone()} units={self.units} act={act.clone()} /> },
            html! { <Instruments {tools} {takes} units={self.units} {act} /> },
        ]
    }

    pub(crate) fn job_view(&self, ctx: &Context<Self>) -> Html {
        let (bay, units, sight) = (&self.stage.bay, self.units, self.stage.sitting.now());
        let job = self.stage.job.as_ref();
        let job = job.map(|job| JobView::of(job, bay, &self.stage.sitting, units));
        let shown = self.stage.shown();
        let (toll, record) = if sight.closed() {
            (closed::toll(&shown, units), record(&shown, units))
        } else {
            (toll::told(bay, units), opened::record(bay, units))
        };
        html! {
            <JobSheet key="job" {job} {sight} choice={self.choice_of_sight(ctx, "job-sight")} {toll}
                tick={bay.tick()} {record} vehicle={bay.scenario().vehicle.name.clone()}
                units={self.units} open={ctx.link().callback(|n| Msg::Work(WorkMsg::Job(n)))}
                say={ctx.link().callback(Msg::Say)} said={self.draft.clone()} edit={ctx.link().callback(|s| Msg::Work(WorkMsg::Draft(s)))}
                signed={self.signed.clone()} sign={ctx.link().callback(|()| Msg::Work(WorkMsg::Sign))} act={ctx.link().callback(Msg::Act)}
                hint={ctx.link().callback(|(step, hint)| Msg::Work(WorkMsg::Hint(step, hint)))} />
        }
    }
}
