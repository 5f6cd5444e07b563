//! The performance test: what it asks for, how far it is, and the readings beside their limits for this day.
use lowside_present::record::{CheckedView, PerformanceView};
use lowside_session::{Action, RecordAct};
use yew::{Callback, Html, html};

use crate::{kit::button, words};

/// The test; not a component, it has no state of its own.
pub(crate) fn performance(test: &PerformanceView, act: &Callback<Action>) -> Html {
    let asked = [
        words::perf_engine(),
        words::perf_ac(),
        words::perf_blower(),
        words::perf_recirculation(),
        words::perf_windows(),
        words::perf_gauges(),
    ];
    let begin = {
        let act = act.clone();
        move || act.emit(RecordAct::PerformanceTest.into())
    };
    html! {
        <div class="statement">
            <h3>{ words::performance() }</h3>
            <p class="told">{ words::perf_idea() }</p>
            <ul class="ticks">
                { for asked.iter().zip(test.asked).map(|(what, so)| html! {
                    <li><span aria-hidden="true">{ if so { "\u{25cf} " } else { "\u{25cb} " } }</span>
                        { words::named(what, if so { words::yes() } else { words::no() }) }</li>
                }) }
            </ul>
            <div class="acts">{ button(words::perf_begin(), true, begin) }</div>
            <p class="verdict">{ told(test) }</p>
            { test.found.as_ref().map_or_else(Html::default, limits) }
        </div>
    }
}

/// How the test stands; empty before there was one.
pub(crate) fn told(test: &PerformanceView) -> String {
    match test {
        PerformanceView {
            progress: Some(share),
            ..
        } => words::perf_running(share),
        PerformanceView {
            disturbed: true, ..
        } => words::perf_disturbed().to_owned(),
        PerformanceView {
            found: Some(all), ..
        } => if all.iter().all(|(_, passes)| *passes) {
            words::perf_passed()
        } else {
            words::perf_failed()
        }
        .to_owned(),
        _ => String::new(),
    }
}

/// The readings beside their limits.
pub(crate) fn limits(all: &[CheckedView; 3]) -> Html {
    let names = [words::low_side(), words::high_side(), words::vent()];
    let heads = [words::perf_found(), words::perf_least(), words::perf_most()];
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label={words::performance()}>
        <table>
            <thead><tr><td></td>{ for heads.iter().map(|h| html! { <th scope="col">{ *h }</th> }) }<td></td></tr></thead>
            <tbody>{ for names.iter().zip(all).map(|(name, (shown, passes))| html! {
                <tr><th scope="row">{ *name }</th>{ for shown.iter().map(|s| html! { <td>{ s.to_string() }</td> }) }
                    <td><b>{ if *passes { words::perf_good() } else { words::perf_bad() } }</b></td></tr>
            }) }</tbody>
        </table>
        </div>
    }
}
