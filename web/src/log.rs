//! What happened: a short list, newest first.
use lowside_units::{Duration, display};
use yew::{Html, Properties, component, html};

use crate::{stage::Line, words};

#[derive(Properties, PartialEq)]
pub(crate) struct LogProps {
    pub(crate) lines: Vec<Line>,
}

/// The event log.
#[component]
pub(crate) fn Log(p: &LogProps) -> Html {
    html! {
        <section class="log" aria-labelledby="log-title">
            <h2 id="log-title">{ words::log() }</h2>
            if p.lines.is_empty() {
                <p class="empty">{ words::log_empty() }</p>
            } else {
                <ol reversed=true>
                    { for p.lines.iter().rev().take(4).map(|l| html! {
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
