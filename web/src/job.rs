//! The job: its card with steps, hints, harms and sign-off, performance test, statement and record.
use lowside_lessons::{library, progress::Standing};
use lowside_present::{
    UnitSystem,
    job::{Job, RecordView},
    statement::{Said, Signed},
};
use lowside_session::{Action, TICKS_PER_SECOND, Tick};
use lowside_units::{Duration, display};
use yew::{
    Callback, Html, Properties, classes, component, html, use_effect_with, use_memo, use_state,
};

use crate::{
    performance::{performance, told as told_of},
    record::record,
    statement::StatementForm,
    words::{self, told},
    work::{button, choice},
};

#[derive(Properties, PartialEq)]
pub(crate) struct JobProps {
    /// The job under way: all that is shown of it.
    pub(crate) job: Option<JobView>,
    pub(crate) record: RecordView,
    pub(crate) units: UnitSystem,
    /// Opens a job by name, or leaves it.
    pub(crate) open: Callback<Option<&'static str>>,
    /// The statement as far as it is filled in.
    pub(crate) said: Said,
    pub(crate) edit: Callback<Said>,
    /// The record as it was signed.
    pub(crate) signed: Option<Signed>,
    pub(crate) sign: Callback<()>,
    pub(crate) act: Callback<Action>,
    /// Tells those who listen.
    pub(crate) say: Callback<String>,
}

/// A step as shown.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StepView {
    standing: Standing,
    title: String,
    reason: String,
    accept: String,
    hints: [String; 2],
}

/// A job as shown, in the language of the page.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct JobView {
    name: &'static str,
    title: String,
    complaint: String,
    steps: Vec<StepView>,
    /// When, what, and whether it fails the job.
    harms: Vec<(String, String, bool)>,
    passed: bool,
}

fn clock(tick: Tick) -> String {
    display::duration(Duration::from_s(tick as f64 / TICKS_PER_SECOND as f64)).number
}

impl JobView {
    pub(crate) fn of(job: &Job) -> Self {
        let steps = job.card.step.iter().zip(job.steps());
        Self {
            name: job.name,
            title: told(&job.card.title),
            complaint: told(&job.card.complaint),
            steps: steps
                .map(|(s, standing)| StepView {
                    // How long it has held shows nowhere: text would change each tick.
                    standing: if let Standing::Holding { .. } = standing {
                        Standing::Holding { held: 0 }
                    } else {
                        standing
                    },
                    title: told(&s.title),
                    reason: told(&s.reason),
                    accept: told(&s.accept),
                    hints: [told(&s.hints[0]), told(&s.hints[1])],
                })
                .collect(),
            harms: job
                .harms()
                .into_iter()
                .filter_map(|(i, tick)| {
                    let harm = job.card.harm.get(i)?;
                    Some((clock(tick), told(&harm.title), harm.fails))
                })
                .collect(),
            passed: job.passed(),
        }
    }
}

/// The whole view.
#[component]
pub(crate) fn JobSheet(p: &JobProps) -> Html {
    let picked = use_state(|| 0_usize);
    let signed = use_state(|| false);
    let names: Vec<&'static str> = library::names().collect();
    // Reading the cards takes longer than all else here.
    let titles = use_memo(words::current(), |_| {
        let title = |n| library::card(n).map_or_else(|| n.to_owned(), |c| told(&c.title));
        library::names().map(title).collect::<Vec<_>>()
    });
    let opens = |name: Option<&'static str>| {
        let (open, signed) = (p.open.clone(), signed.clone());
        move || {
            signed.set(false);
            open.emit(name);
        }
    };
    {
        // How far the test is would be a flood; how it ended is told once.
        let test = &p.record.performance;
        let ended = if test.progress.is_none() {
            told_of(test)
        } else {
            String::new()
        };
        let say = p.say.clone();
        use_effect_with(ended, move |text| {
            if !text.is_empty() {
                say.emit(text.clone());
            }
        });
    }
    let set = picked.clone();
    html! {
        <section class="job" aria-labelledby="job-title">
            <h2 id="job-title">{ words::job() }<small>{ words::job_idea() }</small></h2>
            <div class="cards">
                { choice("job-card", words::job_card(), &titles, *picked, move |n| set.set(n)) }
                { button(words::job_open(), !names.is_empty(), opens(names.get(*picked).copied())) }
            </div>
            if let Some(job) = &p.job {
                <h3>{ &job.title }</h3>
                <p class="complaint">{ &job.complaint }</p>
                <h4>{ words::job_steps() }</h4>
                <ol class="steps">{ for job.steps.iter().map(step) }</ol>
                <h4>{ words::harms() }</h4>
                if job.harms.is_empty() { <p class="told">{ words::harm_none() }</p> }
                else { <ul class="harms">{ for job.harms.iter().map(|(time, what, _)| html! { <li>{ words::harm_at(time, what) }</li> }) }</ul> }
                <div class="acts">
                    { button(words::sign_off(), true, { let (signed, say, told) = (signed.clone(), p.say.clone(), verdict(job)); move || { signed.set(true); say.emit(told.clone()); } }) }
                    { button(words::job_again(), true, opens(Some(job.name))) }
                    { button(words::job_leave(), true, opens(None)) }
                </div>
                <p class={classes!("verdict", job.passed.then_some("passed"))}>{ if *signed { verdict(job) } else { String::new() } }</p>
            } else {
                <p class="told">{ words::job_none() }</p>
            }
            { performance(&p.record.performance, &p.act) }
            <StatementForm units={p.units} converted={p.record.converted} leaks={p.record.searched.iter().map(|(s, _)| *s).collect::<Vec<_>>()}
                said={p.said.clone()} edit={p.edit.clone()} signed={p.signed.clone()} sign={p.sign.clone()} />
            { record(&p.record, p.signed.as_ref()) }
        </section>
    }
}

fn verdict(job: &JobView) -> String {
    let list = |all: Vec<&str>| all.join("; ");
    if job.passed {
        return words::signed_passed().to_owned();
    }
    let open: Vec<&str> = job
        .steps
        .iter()
        .filter(|s| !matches!(s.standing, Standing::Done { .. }))
        .map(|s| s.title.as_str())
        .collect();
    if open.is_empty() {
        let harms = job.harms.iter().filter(|(_, _, fails)| *fails);
        words::signed_failed(list(harms.map(|(_, what, _)| what.as_str()).collect()))
    } else {
        words::signed_missing(list(open))
    }
}

fn step(s: &StepView) -> Html {
    let (kind, state, mark) = match s.standing {
        Standing::Open => ("open", words::step_open().to_owned(), "\u{25cb}"),
        Standing::Holding { .. } => ("holding", words::step_holding().to_owned(), "\u{25d1}"),
        Standing::Done { tick } => (
            "done",
            format!("{} {}", words::step_done(), clock(tick)),
            "\u{25cf}",
        ),
        Standing::Lost { .. } => ("lost", words::step_lost().to_owned(), "\u{25cc}"),
    };
    html! {
        <li class={kind}>
            <p><span class="mark" aria-hidden="true">{ mark }</span><strong>{ &s.title }</strong><span class="standing">{ state }</span></p>
            <p class="reason">{ &s.reason }</p>
            <p class="accept">{ words::step_accept() }{ ": " }{ &s.accept }</p>
            <details class="clue"><summary>{ words::hint_first() }<span class="unseen">{ ": " }{ &s.title }</span></summary>
                <p>{ &s.hints[0] }</p>
                <details><summary>{ words::hint_second() }<span class="unseen">{ ": " }{ &s.title }</span></summary><p>{ &s.hints[1] }</p></details>
            </details>
        </li>
    }
}
