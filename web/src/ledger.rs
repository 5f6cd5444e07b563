//! The ledger: a bar of all refrigerant, and the table behind it.
use lowside_present::ledger::{Ledger, is_empty};
use yew::{Html, html};

use crate::words;

/// Where every gram is.
pub(crate) fn ledger(l: &Ledger) -> Html {
    let mut x = 0.0;
    let pieces: Vec<_> = l
        .rows
        .iter()
        .map(|r| {
            let (liquid, vapour) = (r.liquid_share * 1000.0, r.vapour_share * 1000.0);
            let at = x;
            x += liquid + vapour;
            (r.place, at, liquid, vapour)
        })
        .collect();
    html! {
        <section class="ledger" aria-labelledby="ledger-title">
            <h2 id="ledger-title">{ words::ledger() }<small>{ words::in_loop(&l.in_loop) }</small></h2>
            if is_empty(l) {
                <p class="empty">{ words::ledger_empty() }</p>
            } else {
                <svg class="bar" viewBox="0 0 1000 20" preserveAspectRatio="none" aria-hidden="true">
                    { for pieces.iter().map(|(_, at, liquid, vapour)| html! { <>
                        <rect class="liquid" x={format!("{at:.2}")} y="0" width={format!("{liquid:.2}")} height="20" />
                        <rect class="vapour" x={format!("{:.2}", at + liquid)} y="0" width={format!("{vapour:.2}")} height="20" />
                        <path class="part" d={format!("M{:.2} 0V20", at + liquid + vapour)} />
                    </> }) }
                </svg>
            }
            <details>
                <summary>{ words::ledger_more() }</summary>
                <ul>
                    { for l.rows.iter().filter(|r| r.liquid_share + r.vapour_share > 5e-4).map(|r| {
                        let liquid = r.liquid_share * 1000.0;
                        html! { <li><span>{ words::place(r.place) }</span>
                            <svg viewBox="0 0 1000 10" preserveAspectRatio="none" aria-hidden="true">
                                <rect class="liquid" x="0" y="0" width={format!("{liquid:.2}")} height="10" />
                                <rect class="vapour" x={format!("{liquid:.2}")} y="0" width={format!("{:.2}", r.vapour_share * 1000.0)} height="10" />
                            </svg><b>{ r.all.to_string() }</b></li> }
                    }) }
                </ul>
                <div class="scroll" tabindex="0" role="region" aria-label={words::ledger_table()}>
                <table>
                    <caption class="unseen">{ words::ledger_caption() }</caption>
                    <thead><tr>
                        { for words::ledger_columns().iter().map(|h| html! { <th scope="col">{ *h }</th> }) }
                    </tr></thead>
                    <tbody>
                        { for l.rows.iter().map(|r| html! {
                            <tr><th scope="row">{ words::place(r.place) }</th>
                                { for [&r.liquid, &r.vapour, &r.oil, &r.air, &r.water].iter().map(|s| html! { <td>{ s.to_string() }</td> }) }
                            </tr>
                        }) }
                    </tbody>
                </table>
                </div>
            </details>
        </section>
    }
}
