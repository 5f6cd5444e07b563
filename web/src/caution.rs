//! Cautions, shown at the act, in nobody's way.
use lowside_session::Caution;
use yew::{Callback, Html, MouseEvent, Properties, component, html};

use crate::words;

#[derive(Properties, PartialEq)]
pub(crate) struct CautionsProps {
    pub(crate) shown: Vec<Caution>,
    pub(crate) dismiss: Callback<Caution>,
}

/// The latest caution not yet put away; the ones before it come up again after it.
#[component]
pub(crate) fn Cautions(p: &CautionsProps) -> Html {
    let Some(&latest) = p.shown.last() else {
        return html! {};
    };
    let (title, text) = words::caution_text(latest);
    let dismiss = p.dismiss.clone();
    let more = p.shown.len() - 1;
    html! {
        <aside class="caution" aria-label={words::caution()}>
            <p><strong>{ title }</strong>{ " " }{ text }{ " " }<small>{ words::standing() }</small></p>
            <button type="button" class="plain" onclick={Callback::from(move |_: MouseEvent| dismiss.emit(latest))}>
                { words::understood() }if more > 0 { <small>{ format!(" +{more}") }</small> }
            </button>
        </aside>
    }
}
