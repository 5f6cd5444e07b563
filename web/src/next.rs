//! The one obvious next thing to do.
use lowside_present::controls::Control;
use yew::{Callback, Html, MouseEvent, classes, html};

use crate::{host, panel, words};

/// What the bar shows.
pub(crate) struct NextProps {
    pub(crate) what: String,
    pub(crate) why: String,
    pub(crate) control: Option<Control>,
    /// Somebody is in danger now.
    pub(crate) emergency: bool,
}

/// The bar with the next step.
pub(crate) fn next(p: &NextProps) -> Html {
    html! {
        <section class={classes!("next", p.emergency.then_some("emergency"))} aria-labelledby="next-title">
            <h2 id="next-title" class="unseen">{ words::next() }</h2>
            <p><strong>{ &p.what }</strong>{ " " }<span class="why">{ &p.why }</span></p>
            if let Some(control) = p.control {
                <button type="button" class="plain" onclick={show(control)}>{ words::show_me() }</button>
            }
        </section>
    }
}

fn show(control: Control) -> Callback<MouseEvent> {
    Callback::from(move |_| host::show(&panel::id(control)))
}
