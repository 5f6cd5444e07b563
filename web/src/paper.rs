//! The sheet of a job on paper: vehicle, date, complaint, readings before and after, masses, oil, hold, label, a line to sign on. Unsigned it has
//! what was stated, and lines to write on; the bay's own record comes onto it with the signature.
use lowside_present::{
    UnitSystem,
    record::RecordView,
    statement::{Mismatch, Said, Signed, units},
};
use yew::{Html, html};

use crate::{
    host,
    performance_test::limits,
    record::{lines, noted, rows},
    words,
};

/// What the sheet is made from.
pub(crate) struct Paper<'a> {
    pub(crate) record: &'a RecordView,
    pub(crate) said: &'a Said,
    pub(crate) signed: Option<&'a Signed>,
    /// Title and complaint of the job card.
    pub(crate) job: Option<(&'a str, &'a str)>,
    pub(crate) vehicle: &'a str,
    pub(crate) units: UnitSystem,
}

/// A number that was stated, with its unit.
fn with_unit(which: Option<Mismatch>, stated: &str, units_of: UnitSystem) -> String {
    let at = match which {
        Some(Mismatch::Recovered) => 0,
        Some(Mismatch::Charged) => 1,
        Some(Mismatch::OilOut) => 2,
        Some(Mismatch::OilIn) => 3,
        _ => return stated.to_owned(),
    };
    if stated.is_empty() {
        String::new()
    } else {
        format!("{stated} {}", units(units_of)[at])
    }
}

/// The sheet; it shows on paper only.
pub(crate) fn paper(p: &Paper<'_>) -> Html {
    let said = p.signed.map_or(p.said, |s| &s.said);
    let row = |name: &str, value: String| {
        html! { <div><dt>{ name.to_owned() }</dt><dd>{ value }</dd></div> }
    };
    let (title, complaint) = p.job.unwrap_or_default();
    let of = |(which, name, recorded, stated): (Option<Mismatch>, String, String, String)| {
        let value = if p.signed.is_some() || which.is_none() {
            recorded
        } else {
            with_unit(which, &stated, p.units)
        };
        row(&name, value)
    };
    html! {
        <article class="printed">
            <h1>{ words::paper() }<small>{ words::name() }</small></h1>
            <dl class="about">
                { row(words::vehicle(), format!("{}, {}, {}", p.vehicle, p.record.built_for, p.record.label)) }
                { row(words::label_date(), host::date(words::current().tag())) }
                { row(words::job_card(), title.to_owned()) }
                { row(words::paper_complaint(), complaint.to_owned()) }
            </dl>
            <table>
                <thead><tr><td></td><th scope="col">{ words::record_before() }</th><th scope="col">{ words::record_after() }</th></tr></thead>
                <tbody>{ for rows().into_iter().map(|(name, read)| html! {
                    <tr><th scope="row">{ name }</th>{ for noted(p.record, read).map(|n| html! { <td>{ n }</td> }) }</tr>
                }) }</tbody>
            </table>
            { p.record.performance.found.as_ref().map_or_else(Html::default, limits) }
            <dl class="done">{ for lines(&RecordView { faults: None, ..p.record.clone() }, Some(said)).into_iter().map(of) }</dl>
            <dl class="sign">
                { row(words::label_technician(), String::new()) }
                { row(words::label_date(), String::new()) }
            </dl>
            <p class="standing">{ words::footer() }</p>
        </article>
    }
}
