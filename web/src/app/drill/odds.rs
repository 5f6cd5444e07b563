//! The suspects over the readings, as bands and as a table.
use lowside_lessons::rivals::Odds;
use lowside_present::drill::Fault;
use yew::{Html, html};

use super::name;
use crate::words;

/// Suspects that the chart names.
const NAMED: usize = 5;
/// From how likely on a suspect is named.
const WORTH: f64 = 0.03;

/// Bands of the suspects, one beside the other: as tall as each was likely after each reading.
pub(super) fn chart(odds: &Odds) -> Html {
    let all = suspects_shown(odds);
    let steps = odds.after.len().saturating_sub(1).max(1) as f64;
    let x = |n: usize| 600.0 * n as f64 / steps;
    let mut below = vec![0.0; odds.after.len()];
    let mut bands = Vec::new();
    for (k, fault) in all.iter().enumerate() {
        let likely: Vec<f64> = odds
            .after
            .iter()
            .map(|s| {
                s.iter()
                    .find(|s| s.fault == *fault)
                    .map_or(0.0, |s| s.likely)
            })
            .collect();
        let at = |(n, y): (usize, &f64)| format!("{:.1} {:.1}", x(n), 200.0 * (1.0 - y));
        let mut corners: Vec<String> = below.iter().enumerate().map(at).collect();
        for (y, likely) in below.iter_mut().zip(likely) {
            *y += likely;
        }
        corners.extend(below.iter().enumerate().rev().map(at));
        let way = format!("M{}", corners.join("L"));
        bands.push(html! { <path class={format!("band b{k}")} d={way + "Z"} /> });
    }
    let last = odds.last();
    html! {
        <figure class="odds">
            <figcaption>{ words::debrief_chart() }<small>{ words::debrief_chart_idea() }</small></figcaption>
            <svg viewBox="0 0 600 200" preserveAspectRatio="none" role="img" aria-label={words::debrief_chart()}>{ for bands }</svg>
            <ul class="key">{ for all.iter().enumerate().map(|(k, fault)| {
                let likely = last.iter().find(|s| s.fault == *fault).map_or(0.0, |s| s.likely);
                html! { <li><span class={format!("swatch b{k}")} aria-hidden="true"></span>{ words::debrief_share(name(*fault), format!("{:.0}", likely * 100.0)) }</li> }
            }) }<li><span class="swatch" aria-hidden="true"></span>{ words::debrief_others() }</li></ul>
            <details class="drawn"><summary>{ words::points() }</summary><div class="scroll"><table>
                <thead><tr><th>{ words::debrief_reading() }</th><th>{ words::debrief_likely() }</th></tr></thead>
                <tbody>{ for odds.after.iter().enumerate().map(|(n, standings)| {
                    let reading = if n == 0 { words::debrief_before().to_owned() } else { n.to_string() };
                    let likely = standings.iter().take(3).filter(|s| s.likely > WORTH)
                        .map(|s| words::debrief_share(name(s.fault), format!("{:.0}", s.likely * 100.0)));
                    html! { <tr><th scope="row">{ reading }</th><td>{ likely.collect::<Vec<_>>().join(", ") }</td></tr> }
                }) }</tbody>
            </table></div></details>
        </figure>
    }
}

/// The suspects that were likeliest at some time after the first readings, the last first at the bottom.
fn suspects_shown(odds: &Odds) -> Vec<Option<&'static Fault>> {
    let mut weight: Vec<(Option<&'static Fault>, f64)> = Vec::new();
    for standings in odds.after.iter().skip(1) {
        for s in standings {
            match weight.iter_mut().find(|(fault, _)| *fault == s.fault) {
                Some((_, most)) => *most += s.likely,
                None => weight.push((s.fault, s.likely)),
            }
        }
    }
    let last = odds.last();
    weight.sort_by(|a, b| b.1.total_cmp(&a.1));
    weight.truncate(NAMED);
    weight.sort_by_key(|(fault, _)| last.iter().position(|s| s.fault == *fault));
    weight.into_iter().map(|(fault, _)| fault).collect()
}
