//! The job: its card with steps, hints, harms and sign-off, and the record that can be printed.
use lowside_lessons::{Text, library, progress::Standing};
use lowside_present::{
    Shown, UnitSystem,
    job::{Job, Noted, RecordView},
    statement::{Said, Signed},
};
use lowside_session::{TICKS_PER_SECOND, Tick};
use lowside_units::{Duration, display};
use yew::{Callback, Html, Properties, classes, component, html, use_state};

use crate::{
    statement::StatementForm,
    words::{self, Language},
    work::{button, choice, line, print},
};

#[derive(Properties, PartialEq)]
pub(crate) struct JobProps {
    /// The job under way: all that is shown of it.
    pub(crate) job: Option<JobView>,
    pub(crate) record: RecordView,
    pub(crate) units: UnitSystem,
    /// Opens a job by name, or leaves it.
    pub(crate) open: Callback<Option<&'static str>>,
    /// The record as it was signed.
    pub(crate) signed: Option<Signed>,
    pub(crate) sign: Callback<Said>,
    /// Saves the record as CSV, or else JSON.
    pub(crate) save: Callback<bool>,
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

/// A card's text in the language of the page.
fn told(text: &Text) -> String {
    match words::current() {
        Language::Spanish => text.es.clone(),
        _ => text.en.clone(),
    }
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
    let titles: Vec<String> = names
        .iter()
        .map(|n| library::card(n).map_or_else(|| (*n).to_owned(), |c| told(&c.title)))
        .collect();
    let opens = |name: Option<&'static str>| {
        let (open, signed) = (p.open.clone(), signed.clone());
        move || {
            signed.set(false);
            open.emit(name);
        }
    };
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
                    { button(words::sign_off(), true, { let signed = signed.clone(); move || signed.set(true) }) }
                    { button(words::job_again(), true, opens(Some(job.name))) }
                    { button(words::job_leave(), true, opens(None)) }
                </div>
                <p class={classes!("verdict", job.passed.then_some("passed"))} role="status">{ if *signed { verdict(job) } else { String::new() } }</p>
            } else {
                <p class="told">{ words::job_none() }</p>
            }
            <StatementForm units={p.units} leaks={p.record.searched.iter().map(|(s, _)| *s).collect::<Vec<_>>()}
                signed={p.signed.clone()} sign={p.sign.clone()} />
            { record(&p.record, p.signed.is_some(), &p.save) }
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
            <details class="hint"><summary>{ words::hint_first() }<span class="unseen">{ ": " }{ &s.title }</span></summary>
                <p>{ &s.hints[0] }</p>
                <details><summary>{ words::hint_second() }<span class="unseen">{ ": " }{ &s.title }</span></summary><p>{ &s.hints[1] }</p></details>
            </details>
        </li>
    }
}

fn record(r: &RecordView, open: bool, save: &Callback<bool>) -> Html {
    let s = Shown::to_string;
    let yes = |on: bool| if on { words::yes() } else { words::no() };
    let parts: Vec<&str> = r.parts.iter().map(|p| words::part(*p)).collect();
    let searched: Vec<String> = r
        .searched
        .iter()
        .map(|(spot, found)| {
            if *found {
                words::search_found(words::spot_name(*spot))
            } else {
                words::search_clear(words::spot_name(*spot))
            }
        })
        .collect();
    let or_none = |text: String| {
        if text.is_empty() {
            words::record_none().to_owned()
        } else {
            text
        }
    };
    let held = r
        .hold
        .as_ref()
        .map_or_else(String::new, |[from, to, time]| {
            words::record_hold(s(from), s(to), &time.number)
        });
    let vented = format!("{}, {}", s(&r.vented), words::record_co2(&r.co2));
    html! {
        <details class="record" {open}>
            <summary>{ words::record() }</summary>
            <div class="acts">
                { button(words::record_print(), true, print) }
                { button(words::record_save("CSV"), true, { let save = save.clone(); move || save.emit(true) }) }
                { button(words::record_save("JSON"), true, { let save = save.clone(); move || save.emit(false) }) }
            </div>
            <div class="scroll" tabindex="0" role="region" aria-label={words::record()}>
            <table>
                <thead><tr><td></td><th scope="col">{ words::record_before() }</th><th scope="col">{ words::record_after() }</th></tr></thead>
                <tbody>
                    { for rows().into_iter().map(|(name, read)| html! {
                        <tr><th scope="row">{ name }</th>{ for r.noted.iter().map(|n| html! {
                            <td>{ n.as_ref().map_or_else(|| words::record_not_noted().to_owned(), |n| s(read(n))) }</td> }) }</tr>
                    }) }
                </tbody>
            </table>
            </div>
            <div class="lines">
                { line(words::record_gas(), r.gas) }
                { line(words::record_label(), &s(&r.label)) }
                { line(words::recovered(), &s(&r.recovered)) }
                { line(words::record_charged(), &s(&r.charged)) }
                { line(words::record_vented(), &vented) }
                { line(words::record_oil_out(), &s(&r.oil[0])) }
                { line(words::record_oil_in(), &s(&r.oil[1])) }
                { line(words::record_parts(), &or_none(parts.join(", "))) }
                { line(words::record_searched(), &or_none(searched.join("; "))) }
                { line(words::hold(), &or_none(held)) }
                { line(words::record_caps(), yes(r.caps_on)) }
                { line(words::record_injuries(), &r.injuries.to_string()) }
                { line(words::record_ventings(), &r.ventings.to_string()) }
                { line(words::record_time(), &r.time.number) }
            </div>
        </details>
    }
}

/// What is noted, and how it is read from a note.
type Row = (&'static str, fn(&Noted) -> &Shown);

fn rows() -> [Row; 6] {
    [
        (words::low_side(), |n| &n.low),
        (words::high_side(), |n| &n.high),
        (words::vent(), |n| &n.vent),
        (words::outside_air(), |n| &n.outside),
        (words::humidity(), |n| &n.humidity),
        (words::engine_speed(), |n| &n.rpm),
    ]
}
