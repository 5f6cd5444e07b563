//! Tools, bench and job on the page, and what opens and leaves a job.
use lowside_present::{
    bench::{self, Item},
    history::History,
    job::{self, Job},
    retrofit,
    statement::{self, Said},
    tools::{Hung, Tool, Tools},
};
use yew::{Context, Html, html};

use super::{App, Msg};
use crate::{
    bench::Bench,
    host,
    job::{JobSheet, JobView},
    stage::{self, Stage},
    store,
    tools::{HoseTools, Instruments},
};

/// What is asked of bench and job.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum WorkMsg {
    /// Chooses an item of the loop.
    Choose(Item),
    /// Opens a job, or leaves it.
    Job(Option<&'static str>),
    /// Signs the record with what was stated.
    Sign(Said),
}

impl App {
    /// Does it.
    pub(crate) fn work(&mut self, msg: WorkMsg) {
        match msg {
            WorkMsg::Choose(item) => self.item = item,
            WorkMsg::Sign(said) => {
                self.signed = Some(statement::sign(&self.stage.bay, said, self.units));
            }
            WorkMsg::Job(None) => {
                self.stage.job = None;
                store::remove(store::JOB);
            }
            WorkMsg::Job(Some(name)) => {
                let Some(job) = Job::open(name) else { return };
                let speed = self.stage.speed;
                self.stage = Stage::new(job.bay(), History::default());
                self.stage.speed = speed;
                self.scenario = String::from(stage::name_of(&self.stage.bay));
                self.stage.job = Some(job);
                self.signed = None;
                self.cautions.clear();
                self.notice = None;
                let _ = store::set(store::JOB, name);
                self.stage.save(host::now());
            }
        }
    }

    /// What hangs on the service hose, and the instruments.
    pub(super) fn tools_view(&self, ctx: &Context<Self>) -> [Html; 2] {
        let bay = &self.stage.bay;
        let tools = Tools::of(bay, self.units);
        let takes: Vec<_> = Tool::ALL.iter().map(|t| (*t, t.take(bay))).collect();
        let act = ctx.link().callback(Msg::Act);
        [
            html! { <HoseTools tools={tools.clone()} takes={takes.clone()} units={self.units} act={act.clone()} /> },
            html! { <Instruments {tools} {takes} units={self.units} {act} /> },
        ]
    }

    /// Something other than a can hangs on the service hose.
    pub(super) fn other_tool(&self) -> bool {
        !matches!(
            Tools::of(&self.stage.bay, self.units).hung,
            Hung::Nothing | Hung::Can
        )
    }

    pub(crate) fn bench_view(&self, ctx: &Context<Self>) -> Html {
        let bay = &self.stage.bay;
        let part = match self.item {
            Item::Part(p) => Some(bench::part(bay, p, self.units)),
            _ => None,
        };
        html! {
            <Bench key="bench" switches={retrofit::switches(bay, self.units)} places={bench::places(bay)} chosen={self.item} {part} units={self.units}
                choose={ctx.link().callback(|i| Msg::Work(WorkMsg::Choose(i)))} act={ctx.link().callback(Msg::Act)} />
        }
    }

    pub(crate) fn job_view(&self, ctx: &Context<Self>) -> Html {
        html! {
            <JobSheet key="job" job={self.stage.job.as_ref().map(JobView::of)} record={job::record(&self.stage.bay, self.units)}
                units={self.units} open={ctx.link().callback(|n| Msg::Work(WorkMsg::Job(n)))}
                signed={self.signed.clone()} sign={ctx.link().callback(|s| Msg::Work(WorkMsg::Sign(s)))} act={ctx.link().callback(Msg::Act)} />
        }
    }
}
