//! The shelf of job cards, and the card in hand.
use lowside_lessons::{library, progress::Standing};
use yew::{Callback, Html, MouseEvent, Properties, classes, component, html, use_memo};

use crate::{
    job::{JobView, StepView},
    kit::button,
    words,
};

/// A card on the shelf.
struct Paper {
    name: &'static str,
    title: String,
    complaint: String,
    steps: usize,
    minutes: u32,
}

#[derive(Properties, PartialEq)]
pub(crate) struct ShelfProps {
    /// The choice of how the card is worked on.
    pub(crate) sight: Html,
    /// Names of the cards that were done once, without grave harm.
    pub(crate) done: String,
    /// Takes a card.
    pub(crate) take: Callback<&'static str>,
}

/// The shelf: pressing a card takes it.
#[component]
pub(crate) fn Shelf(p: &ShelfProps) -> Html {
    // Reading the cards takes longer than all else here.
    let cards = use_memo(words::current(), |_| {
        let read = |name| {
            let card = library::card(name)?;
            Some(Paper {
                name,
                title: words::told(&card.title),
                complaint: words::told(&card.complaint),
                steps: card.step.len(),
                minutes: card.minutes,
            })
        };
        library::names().filter_map(read).collect::<Vec<_>>()
    });
    let paper = |c: &Paper| {
        let (take, name) = (p.take.clone(), c.name);
        let press = Callback::from(move |_: MouseEvent| take.emit(name));
        html! {
            <li><button type="button" class="paper" onclick={press}>
                <span class="of"><b>{ &c.title }</b><small>{ words::card_steps(c.steps) }</small></span>
                <q>{ &c.complaint }</q>
                if c.minutes > 0 { <small>{ words::card_minutes(c.minutes) }</small> }
                if p.done.split(' ').any(|done| done == name) { <span class="stamp">{ words::card_done() }</span> }
            </button></li>
        }
    };
    html! {
        <section class="shelf" aria-labelledby="shelf-title">
            <h2 id="shelf-title">{ words::shelf() }<small>{ words::shelf_idea() }</small></h2>
            { p.sight.clone() }
            <ol>{ for cards.iter().map(paper) }</ol>
        </section>
    }
}

/// The card in hand: what is wrong, its steps, and what the one to do next asks. `sheet` opens the whole of it.
pub(crate) fn card(job: &JobView, back: &Callback<()>, sheet: Option<&Callback<()>>) -> Html {
    let now = job.steps.iter().position(|s| !s.is_done());
    let step = |(k, s): (usize, &StepView)| {
        let here = now == Some(k);
        html! {
            <li class={classes!("in-hand", here.then_some("now"), s.is_done().then_some("done"))} aria-current={here.then_some("step")}>
                <p><b>{ &s.title }</b><span class="standing">{ s.clock() }</span></p>
            </li>
        }
    };
    // The step to do now has its place under the list, so that the list stands still.
    let open = now.and_then(|k| job.steps.get(k)).map(|s| html! {
        <div class="step-now">
            <p class="reason">{ &s.reason }</p>
            <p>{ words::step_accept() }{ ": " }{ &s.accept }</p>
            if !s.goals.is_empty() {
                <ul class="goals">{ for s.goals.iter().map(|(what, so)| html! {
                    <li class={so.then_some("so")}><span aria-hidden="true">{ if *so { "\u{2713}" } else { "\u{25cb}" } }</span>{ what }
                        <span class="unseen">{ ": " }{ if *so { words::yes() } else { words::no() } }</span></li>
                }) }</ul>
            }
        </div>
    });
    let back = back.clone();
    html! {
        <section class="card" aria-labelledby="card-title">
            <h2 id="card-title">{ &job.title }</h2>
            <p><q>{ &job.complaint }</q></p>
            <ol>{ for job.steps.iter().enumerate().map(step) }</ol>
            <span class="pair">
                if let Some(sheet) = sheet.cloned() { { button(words::card_sheet(), true, move || sheet.emit(())) } }
                { button(words::card_back(), true, move || back.emit(())) }
            </span>
            { for open }
        </section>
    }
}

impl StepView {
    /// It has been reached, and still is.
    fn is_done(&self) -> bool {
        matches!(self.standing, Some(Standing::Done { .. }))
    }

    /// When it was reached.
    fn clock(&self) -> Option<String> {
        match self.standing {
            Some(Standing::Done { tick }) => Some(crate::job::clock(tick)),
            _ => None,
        }
    }
}
