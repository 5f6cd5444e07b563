//! Cautions, shown at the act and in nobody's way; harm that was done, shown large; and the question before an act that can hurt.
use lowside_lessons::{cautions::Told, next::Harm};
use lowside_present::ask::Question;
use lowside_session::Tick;
use yew::{Callback, Html, MouseEvent, html};

use crate::{app::PerilMsg, words};

/// The latest caution not yet put away, with what of goggles and gloves is missing for it.
pub(crate) fn caution(told: Told, missing: [bool; 2], answer: Callback<PerilMsg>) -> Html {
    let (title, text) = words::caution_text(told.caution, told.gas);
    let protect = protection(missing, &answer);
    let press = move |_: MouseEvent| answer.emit(PerilMsg::Understood(told.caution));
    html! {
        <aside class="caution" aria-label={words::caution()}>
            <p><strong>{ title }</strong>{ " " }{ text }{ " " }<small>{ words::standing() }</small></p>
            { for protect }
            <button type="button" class="plain" onclick={Callback::from(press)}>{ words::understood() }</button>
        </aside>
    }
}

/// The same as it is said.
pub(crate) fn spoken(told: Told) -> String {
    let (title, text) = words::caution_text(told.caution, told.gas);
    words::spoken_caution(title, text)
}

/// What is missing of goggles and gloves, and a button that puts it on.
fn protection(missing: [bool; 2], answer: &Callback<PerilMsg>) -> Option<Html> {
    let text = words::missing(missing)?;
    let answer = answer.clone();
    let press = move |_: MouseEvent| answer.emit(PerilMsg::Protect);
    Some(html! {
        <span class="bare">{ text }{ " " }<button type="button" class="plain" onclick={Callback::from(press)}>{ words::put_on() }</button></span>
    })
}

/// The harm done at a tick, and what comes now, in its order.
pub(crate) fn harm(tick: Tick, harm: Harm, answer: Callback<PerilMsg>) -> Html {
    let (title, text) = words::harm_text(harm);
    let press = move |_: MouseEvent| answer.emit(PerilMsg::Read(tick));
    html! {
        <aside class="caution harm" aria-label={title}>
            <div><strong>{ title }</strong>
                <ol>{ for words::emergency().map(|step| html! { <li>{ step }</li> }) }</ol>
                <p>{ text }</p></div>
            <button type="button" class="plain" onclick={Callback::from(press)}>{ words::understood() }</button>
        </aside>
    }
}

/// What is asked before an act: the way back comes first and has the focus.
pub(crate) fn question(q: &Question, missing: [bool; 2], answer: &Callback<PerilMsg>) -> Html {
    let (title, gauges, text) = words::question_text(q);
    let button = |label: &'static str, yes: bool| {
        let answer = answer.clone();
        let press = move |_: MouseEvent| answer.emit(PerilMsg::Answer(yes));
        html! { <button type="button" autofocus={!yes} onclick={Callback::from(press)}>{ label }</button> }
    };
    html! { <>
        <h2 id="ask-title">{ title }</h2>
        <div id="ask-text">
            if let Some(gauges) = gauges { <p class="figures">{ gauges }</p> }
            if let Some(ahead) = &q.ahead { <p class="ahead">{ words::ahead(ahead) }</p> }
            <p>{ text }</p>
        </div>
        if let Some(bare) = protection(missing, answer) { <p>{ bare }</p> }
        <p class="answers">{ button(words::ask_leave(), false) }{ button(words::ask_do(), true) }</p>
        <p class="standing">{ words::standing() }</p>
    </> }
}
