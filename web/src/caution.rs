//! Cautions, shown at the act and in nobody's way; harm that was done, shown large; and the question before an act that can hurt.
use lowside_lessons::{cautions::Told, next::Harm};
use lowside_present::ask::Question;
use lowside_session::Tick;
use yew::{Callback, Html, MouseEvent, html};

use crate::{app::PerilMsg, words};

/// The latest caution not yet put away; the `more` before it come up again after it.
pub(crate) fn caution(told: Told, more: usize, answer: Callback<PerilMsg>) -> Html {
    let (title, text) = words::caution_text(told.caution, told.gas);
    let press = move |_: MouseEvent| answer.emit(PerilMsg::Understood(told.caution));
    html! {
        <aside class="caution" aria-label={words::caution()}>
            <p><strong>{ title }</strong>{ " " }{ text }{ " " }<small>{ words::standing() }</small></p>
            <button type="button" class="plain" onclick={Callback::from(press)}>
                { words::understood() }if more > 0 { <small>{ format!(" +{more}") }</small> }
            </button>
        </aside>
    }
}

/// The harm done at a tick.
pub(crate) fn harm(tick: Tick, harm: Harm, answer: Callback<PerilMsg>) -> Html {
    let [title, text] = words::harm_text(harm);
    let press = move |_: MouseEvent| answer.emit(PerilMsg::Read(tick));
    html! {
        <aside class="caution harm" aria-label={title}>
            <p><strong>{ title }</strong>{ text }</p>
            <button type="button" class="plain" onclick={Callback::from(press)}>{ words::understood() }</button>
        </aside>
    }
}

/// What is asked before an act: the way back comes first and has the focus.
pub(crate) fn question(q: &Question, answer: &Callback<PerilMsg>) -> Html {
    let (title, gauges, text) = words::question_text(q);
    let button = |label: &'static str, yes: bool| {
        let answer = answer.clone();
        let press = move |_: MouseEvent| answer.emit(PerilMsg::Answer(yes));
        html! { <button type="button" onclick={Callback::from(press)}>{ label }</button> }
    };
    html! { <>
        <h2 id="ask-title">{ title }</h2>
        <div id="ask-text">
            if let Some(gauges) = gauges { <p class="figures">{ gauges }</p> }
            <p>{ text }</p>
        </div>
        <p class="answers">{ button(words::ask_leave(), false) }{ button(words::ask_do(), true) }</p>
    </> }
}
