//! Cautions, shown at the act, in nobody's way.
use lowside_session::Caution;
use yew::{Callback, Html, MouseEvent, Properties, component, html};

use crate::words;

#[derive(Properties, PartialEq)]
pub(crate) struct CautionsProps {
    pub(crate) shown: Vec<Caution>,
    pub(crate) dismiss: Callback<Caution>,
}

/// The cautions not yet put away.
#[component]
pub(crate) fn Cautions(p: &CautionsProps) -> Html {
    if p.shown.is_empty() {
        return html! {};
    }
    html! {
        <aside class="cautions" aria-label="Cautions">
            { for p.shown.iter().map(|&c| {
                let (title, text) = words::caution(c);
                let dismiss = p.dismiss.clone();
                html! {
                    <div class="caution">
                        <p><strong>{ title }</strong>{ " " }{ text }{ " " }<small>{ words::STANDING }</small></p>
                        <button type="button" class="plain" aria-label={format!("Put away: {title}")}
                            onclick={Callback::from(move |_: MouseEvent| dismiss.emit(c))}>{ "Understood" }</button>
                    </div>
                }
            }) }
        </aside>
    }
}
