//! How a bay is worked in: the choice for the next one, and the line that says how this one is and how that ends.
use lowside_session::{Sight, Sitting, TICKS_PER_SECOND, Tick};
use lowside_units::{Duration, display};
use yew::{Callback, Html, html};

use crate::{
    kit::{button, choice as pick},
    words,
};

/// Sights as they stand in the list.
const ALL: [Sight; 3] = [Sight::Open, Sight::Hands, Sight::Exam];

fn name(sight: Sight) -> &'static str {
    match sight {
        Sight::Open => words::sight_open(),
        Sight::Hands => words::sight_hands(),
        Sight::Exam => words::sight_exam(),
    }
}

/// The choice of how the next bay is worked in.
pub(crate) fn choice(id: &'static str, now: Sight, set: Callback<Sight>) -> Html {
    let names = ALL.map(|s| name(s).to_owned());
    let at = ALL.iter().position(|s| *s == now).unwrap_or_default();
    pick(id, words::sight_how(), &names, at, move |n| {
        set.emit(ALL.get(n).copied().unwrap_or_default());
    })
}

fn clock(tick: Tick) -> String {
    display::duration(Duration::from_s(tick as f64 / TICKS_PER_SECOND as f64)).number
}

/// What ends the work behind its title: a press to read what it does, a second to do it.
fn end([title, idea, now]: [&'static str; 3], press: impl Fn() + 'static) -> Html {
    html! {
        <details>
            <summary>{ title }</summary>
            <p>{ idea }</p>
            { button(now, true, press) }
        </details>
    }
}

/// The line that says how this bay is worked in; nothing where it always was open.
pub(crate) fn bar(sitting: &Sitting, open: &Callback<()>, hand_in: &Callback<()>) -> Html {
    let opens = || {
        let words = [
            words::sight_open_inside(),
            words::sight_open_inside_idea(),
            words::sight_open_inside_now(),
        ];
        let open = open.clone();
        end(words, move || open.emit(()))
    };
    let content = match (sitting.sight, sitting.opened, sitting.handed_in) {
        (Sight::Open, ..) => return html! {},
        (Sight::Hands, Some(at), _) => html! { words::sight_opened_hands(clock(at)) },
        (Sight::Exam, Some(at), _) => html! { words::sight_opened_exam(clock(at)) },
        (Sight::Hands, None, _) => {
            html! { <><span>{ words::sight_hands_idea() }</span>{ opens() }</> }
        }
        (Sight::Exam, None, Some(at)) => {
            html! { <><span>{ words::sight_handed_in(clock(at)) }</span>{ opens() }</> }
        }
        (Sight::Exam, None, None) => {
            let words = [
                words::sight_hand_in(),
                words::sight_hand_in_idea(),
                words::sight_hand_in_now(),
            ];
            let hand_in = hand_in.clone();
            html! { <><span>{ words::sight_exam_idea() }</span>{ end(words, move || hand_in.emit(())) }</> }
        }
    };
    html! { <section class="sight" aria-label={words::sight_how()}><strong>{ name(sitting.sight) }</strong>{ content }</section> }
}
