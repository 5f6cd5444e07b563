//! The job: its card with steps, hints, harms and sign-off, performance test, statement and record.
use lowside_lessons::{Job, library, progress::Standing, senses::is_shown};
use lowside_present::{
    UnitSystem,
    record::RecordView,
    statement::{Said, Signed},
    toll::{Severity, Told},
};
use lowside_session::{Action, Bay, Sight, Sitting, TICKS_PER_SECOND, Tick, predicate::Predicate};
use lowside_units::{Duration, display};
use yew::{
    Callback, Html, MouseEvent, Properties, classes, component, html, use_effect_with, use_memo,
    use_state,
};

use crate::{
    kit::{button, choice},
    paper::{Paper, paper},
    performance_test::{performance, told as told_of},
    record::record,
    statement::StatementForm,
    words::{self, told},
};

#[derive(Properties, PartialEq)]
pub(crate) struct JobProps {
    /// The job under way: all that is shown of it.
    pub(crate) job: Option<JobView>,
    /// How the bay is worked in.
    pub(crate) sight: Sight,
    /// The choice of how the next one is.
    pub(crate) choice: Html,
    /// What it has cost so far.
    pub(crate) toll: Vec<(Severity, Told)>,
    /// Bay time.
    pub(crate) tick: Tick,
    pub(crate) record: RecordView,
    /// What is worked on.
    pub(crate) vehicle: String,
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
    /// A hint was looked at: of which step and which, from 1.
    pub(crate) hint: Callback<(u8, u8)>,
    /// Tells those who listen.
    pub(crate) say: Callback<String>,
}

/// A step as shown.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StepView {
    /// None where nobody in the bay can see it.
    pub(crate) standing: Option<Standing>,
    pub(crate) title: String,
    pub(crate) reason: String,
    pub(crate) accept: String,
    /// What is asked at once, where it is several things, and whether each is so.
    pub(crate) goals: Vec<(String, bool)>,
    /// None in an exam.
    hints: Option<[String; 2]>,
}

/// A job as shown, in the language of the page.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct JobView {
    pub(crate) name: &'static str,
    pub(crate) title: String,
    pub(crate) complaint: String,
    pub(crate) steps: Vec<StepView>,
    /// How bad, when and what.
    harms: Vec<(Severity, String, String)>,
    passed: bool,
    /// Some of it was done under another physics.
    mixed: bool,
}

/// A tick as a clock shows it.
pub(crate) fn clock(tick: Tick) -> String {
    display::duration(Duration::from_s(tick as f64 / TICKS_PER_SECOND as f64)).number
}

impl JobView {
    /// What is shown of a job. In a closed bay that is what somebody there can see, in an exam not even what is to be done.
    pub(crate) fn of(job: &Job, bay: &Bay, sitting: &Sitting, units: UnitSystem) -> Self {
        let sight = sitting.now();
        let closed = sight.closed();
        let (standings, harms): (Vec<_>, _) = if closed {
            (job.seen_steps(), job.seen_harms())
        } else {
            (job.steps().into_iter().map(Some).collect(), job.harms())
        };
        let passed = !closed && job.passed();
        let asked = job.card.step.iter().filter(|_| sight.hints());
        let steps = asked.zip(standings);
        let told_goal = |c: &Predicate| !closed || is_shown(c.reading);
        Self {
            name: job.name,
            title: told(&job.card.title),
            complaint: told(&job.card.complaint),
            steps: steps
                .map(|(s, standing)| StepView {
                    // How long it has held shows nowhere: text would change each tick.
                    standing: if let Some(Standing::Holding { .. }) = standing {
                        Some(Standing::Holding { held: 0 })
                    } else {
                        standing
                    },
                    title: told(&s.title),
                    reason: told(&s.reason),
                    accept: told(&s.accept),
                    goals: if s.goal.len() > 1 {
                        let done = matches!(standing, Some(Standing::Done { .. }));
                        let asked = s.goal.iter().filter(|c| told_goal(c));
                        asked
                            .map(|c| (words::condition(*c, units), done || c.holds(bay)))
                            .collect()
                    } else {
                        Vec::new()
                    },
                    hints: sight
                        .hints()
                        .then(|| [told(&s.hints[0]), told(&s.hints[1])]),
                })
                .collect(),
            harms: harms
                .into_iter()
                .filter_map(|(i, tick)| {
                    let harm = job.card.harm.get(i)?;
                    Some((harm.severity, clock(tick), told(&harm.title)))
                })
                .collect(),
            passed,
            mixed: sitting.mixed,
        }
    }
}

/// The whole view.
#[component]
pub(crate) fn JobSheet(p: &JobProps) -> Html {
    let picked = use_state(|| 0_usize);
    // The moment of signing off: going back before it, or to another bay, takes it back.
    let signed = use_state(|| None::<(&'static str, Tick)>);
    let off = p
        .job
        .as_ref()
        .and_then(|job| signed.filter(|(name, at)| *name == job.name && *at <= p.tick));
    if signed.is_some() && off.is_none() {
        signed.set(None);
    }
    let names: Vec<&'static str> = library::names().collect();
    let vehicle = use_memo((p.vehicle.clone(), words::current()), |(name, _)| {
        words::vehicle_name(name)
    });
    // Reading the cards takes longer than all else here.
    let titles = use_memo(words::current(), |_| {
        let title = |n| library::card(n).map_or_else(|| n.to_owned(), |c| told(&c.title));
        library::names().map(title).collect::<Vec<_>>()
    });
    let opens = |name: Option<&'static str>| {
        let (open, signed) = (p.open.clone(), signed.clone());
        move || {
            signed.set(None);
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
                { p.choice.clone() }
                { button(words::job_open(), !names.is_empty(), opens(names.get(*picked).copied())) }
            </div>
            if let Some(job) = &p.job {
                <h3>{ &job.title }</h3>
                <p class="complaint">{ &job.complaint }</p>
                if p.sight.hints() {
                    <h4>{ words::job_steps() }</h4>
                    <ol class="steps" key={job.name}>{ for job.steps.iter().zip(1..).map(|(s, n)| step(s, n, &p.hint)) }</ol>
                }
                { harms(true, &job.harms, &p.toll) }
                if p.sight.closed() { <p class="told">{ words::sight_later() }</p> }
                <div class="acts">
                    { button(words::sign_off(), !p.sight.closed(), {
                        let (signed, say, told, now) = (signed.clone(), p.say.clone(), verdict(job, &p.toll), (job.name, p.tick));
                        move || { signed.set(Some(now)); say.emit(told.clone()); }
                    }) }
                    { button(words::job_again(), true, opens(Some(job.name))) }
                    { button(words::job_leave(), true, opens(None)) }
                </div>
                <p class={classes!("verdict", job.passed.then_some("passed"))}>{ if off.is_some() { verdict(job, &p.toll) } else { String::new() } }</p>
            } else {
                <p class="told">{ words::job_none() }</p>
                { harms(false, &[], &p.toll) }
            }
            { performance(&p.record.performance, &p.act) }
            <StatementForm units={p.units} closed={p.sight.closed()} converted={p.record.converted} leaks={p.record.searched.iter().map(|(s, _)| *s).collect::<Vec<_>>()}
                said={p.said.clone()} edit={p.edit.clone()} signed={p.signed.clone()} sign={p.sign.clone()} />
            { record(&p.record, p.signed.as_ref()) }
            { paper(&Paper {
                record: &p.record,
                said: &p.said,
                signed: p.signed.as_ref(),
                job: p.job.as_ref().map(|job| (job.title.as_str(), job.complaint.as_str())),
                vehicle: vehicle.as_str(),
                units: p.units,
            }) }
        </section>
    }
}

/// Harms of the card and what it cost, the worst first.
fn harms(in_job: bool, of_card: &[(Severity, String, String)], toll: &[(Severity, Told)]) -> Html {
    let named = of_card
        .iter()
        .map(|(severity, time, what)| (*severity, words::harm_at(time, what)));
    let mut all: Vec<_> = named
        .chain(toll.iter().map(|(s, t)| (*s, words::cost(t))))
        .collect();
    all.sort_by_key(|(severity, _)| std::cmp::Reverse(*severity));
    html! { <>
        if in_job { <h4>{ words::harms() }</h4> } else { <h3>{ words::harms() }</h3> }
        if all.is_empty() { <p class="told">{ words::harm_none() }</p> }
        else { <ul class="harms">{ for all.iter().map(|(severity, what)| html! { <li><b>{ words::severity(*severity) }</b>{ ": " }{ what }</li> }) }</ul> }
    </> }
}

/// How it stands, and that it is not comparable where the physics has changed on the way.
fn verdict(job: &JobView, toll: &[(Severity, Told)]) -> String {
    let mut text = standing(job, toll);
    if job.mixed {
        text.push(' ');
        text.push_str(words::signed_apart());
    }
    text
}

fn standing(job: &JobView, toll: &[(Severity, Told)]) -> String {
    let list = |all: Vec<&str>| all.join("; ");
    if job.passed {
        let harms = job.harms.iter().map(|(_, _, what)| what.clone());
        let all: Vec<String> = harms
            .chain(toll.iter().map(|(_, t)| words::cost(t)))
            .collect();
        if all.is_empty() {
            return words::signed_passed().to_owned();
        }
        return words::signed_passed_with(all.join("; "));
    }
    let open: Vec<&str> = job
        .steps
        .iter()
        .filter(|s| !matches!(s.standing, Some(Standing::Done { .. })))
        .map(|s| s.title.as_str())
        .collect();
    if open.is_empty() {
        let harms = job
            .harms
            .iter()
            .filter(|(severity, _, _)| *severity == Severity::Grave);
        words::signed_failed(list(harms.map(|(_, _, what)| what.as_str()).collect()))
    } else {
        words::signed_missing(list(open))
    }
}

fn step(s: &StepView, number: u8, hint: &Callback<(u8, u8)>) -> Html {
    let looks = |which| hint.reform(move |_: MouseEvent| (number, which));
    let (kind, state, mark) = match s.standing {
        None => ("unseen-yet", String::new(), ""),
        Some(Standing::Open) => ("open", words::step_open().to_owned(), "\u{25cb}"),
        Some(Standing::Holding { .. }) => ("holding", words::step_holding().to_owned(), "\u{25d1}"),
        Some(Standing::Done { tick }) => (
            "done",
            format!("{} {}", words::step_done(), clock(tick)),
            "\u{25cf}",
        ),
        Some(Standing::Lost { .. }) => ("lost", words::step_lost().to_owned(), "\u{25cc}"),
    };
    html! {
        <li class={kind}>
            <p><span class="mark" aria-hidden="true">{ mark }</span><strong>{ &s.title }</strong><span class="standing">{ state }</span></p>
            <p class="reason">{ &s.reason }</p>
            <p class="accept">{ words::step_accept() }{ ": " }{ &s.accept }</p>
            if !s.goals.is_empty() {
                <ul class="goals">{ for s.goals.iter().map(|(what, so)| html! {
                    <li class={so.then_some("so")}><span aria-hidden="true">{ if *so { "\u{2713}" } else { "\u{25cb}" } }</span>{ what }
                        <span class="unseen">{ ": " }{ if *so { words::yes() } else { words::no() } }</span></li>
                }) }</ul>
            }
            if let Some([first, second]) = &s.hints {
                <details class="clue"><summary onclick={looks(1)}>{ words::hint_first() }<span class="unseen">{ ": " }{ &s.title }</span></summary>
                    <p>{ first }</p>
                    <details><summary onclick={looks(2)}>{ words::hint_second() }<span class="unseen">{ ": " }{ &s.title }</span></summary><p>{ second }</p></details>
                </details>
            }
        </li>
    }
}
