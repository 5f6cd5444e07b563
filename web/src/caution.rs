//! Cautions, shown at the act, in nobody's way.
use lowside_session::Caution;
use yew::{Callback, Html, MouseEvent, html};

use crate::words;

/// The latest caution not yet put away; the ones before it come up again after it.
pub(crate) fn cautions(shown: &[Caution], dismiss: Callback<Caution>) -> Html {
    let Some(&latest) = shown.last() else {
        return html! {};
    };
    let (title, text) = words::caution_text(latest);
    let more = shown.len() - 1;
    html! {
        <aside class="caution" aria-label={words::caution()}>
            <p><strong>{ title }</strong>{ " " }{ text }{ " " }<small>{ words::standing() }</small></p>
            <button type="button" class="plain" onclick={Callback::from(move |_: MouseEvent| dismiss.emit(latest))}>
                { words::understood() }if more > 0 { <small>{ format!(" +{more}") }</small> }
            </button>
        </aside>
    }
}
