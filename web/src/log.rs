//! What happened: a short list, newest first.
use lowside_units::{Duration, display};
use yew::{Html, html};

use crate::{stage::Line, words};

/// The event log.
pub(crate) fn log(lines: &[Line]) -> Html {
    html! {
        <section class="log" aria-labelledby="log-title">
            <h2 id="log-title">{ words::log() }</h2>
            if lines.is_empty() {
                <p class="empty">{ words::log_empty() }</p>
            } else {
                <ol reversed=true>
                    { for lines.iter().rev().take(4).map(|l| html! {
                        <li><time>{ display::duration(Duration::from_s(l.seconds)).number }</time>
                            { words::event(l.event) }
                            if l.times > 1 { <span class="times">{ format!(" \u{d7}{}", l.times) }</span> }
                        </li>
                    }) }
                </ol>
            }
        </section>
    }
}
