//! The one obvious next thing to do.
use lowside_present::{controls::Control, next::NextStep};
use yew::{Callback, Html, MouseEvent, Properties, component, html};

use crate::{host, panel, words};

#[derive(Properties, PartialEq)]
pub(crate) struct NextProps {
    pub(crate) step: NextStep,
    pub(crate) given: String,
    pub(crate) label: String,
}

/// The bar with the next step.
#[component]
pub(crate) fn Next(p: &NextProps) -> Html {
    let (what, why) = words::next_step(p.step, &p.given, &p.label);
    html! {
        <section class="next" aria-labelledby="next-title">
            <h2 id="next-title">{ words::next() }</h2>
            <p><strong>{ what }</strong>{ " " }<span class="why">{ why }</span></p>
            if let Some(control) = p.step.control() {
                <button type="button" class="plain" onclick={show(control)}>{ words::show_me() }</button>
            }
        </section>
    }
}

fn show(control: Control) -> Callback<MouseEvent> {
    Callback::from(move |_| host::show(&panel::id(control)))
}
