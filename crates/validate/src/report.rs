//! The report: one HTML page that needs nothing besides itself.

use std::fmt::Write as _;

use crate::{
    check::{Check, Counts, Section, Verdict},
    error::Error,
    plot::{COLOURS, DASHES, Plot, escape},
};

const STYLE: &str = include_str!("report.css");

/// The page.
///
/// # Errors
/// When a picture cannot be drawn.
pub fn html(sections: &[Section]) -> Result<String, Error> {
    let all = || sections.iter().flat_map(|s| &s.checks);
    let checks = Counts::of(all().map(Check::verdict));
    let figures = Counts::of_findings(all());
    let mut page = String::new();
    let _ = write!(
        page,
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
         <meta name=\"color-scheme\" content=\"light dark\">\
         <title>Lowside against the outside world</title>\n<style>\n{STYLE}</style></head>\n<body>\n\
         <header><h1>Lowside against the outside world</h1>\
         <p>Every figure here comes from the program as it was built for this report. A miss is shown as a miss; \
         what the model cannot run yet says what it needs. Where what was asked first was wrong, it stands beside what is asked now, with the \
         reason. Parameters that were tuned are named where they matter.</p>\
         {}</header>\n",
        totals(checks, figures)
    );
    page.push_str(&of_verdict(sections, Verdict::Miss, "Figures that miss"));
    page.push_str(&restated(sections));
    page.push_str(&of_verdict(sections, Verdict::NotYet, "Figures not yet"));
    page.push_str(&of_verdict(sections, Verdict::Pass, "Figures that pass"));
    page.push_str(&contents(sections));
    page.push_str("<main>\n");
    for (i, section) in sections.iter().enumerate() {
        let _ = writeln!(
            page,
            "<section aria-labelledby=\"s{i}\"><h2 id=\"s{i}\">{}</h2>",
            escape(section.title)
        );
        for (k, check) in section.checks.iter().enumerate() {
            article(&mut page, &format!("s{i}c{k}"), check)?;
        }
        page.push_str("</section>\n");
    }
    page.push_str("</main>\n</body></html>\n");
    Ok(page)
}

fn word(v: Verdict) -> (&'static str, &'static str) {
    match v {
        Verdict::Pass => ("pass", "pass"),
        Verdict::Miss => ("miss", "miss"),
        Verdict::NotYet => ("not yet", "notyet"),
        Verdict::Unjudged => ("no verdict", "unjudged"),
    }
}

fn badge(v: Verdict) -> String {
    let (word, class) = word(v);
    format!("<span class=\"badge {class}\">{word}</span>")
}

fn totals(checks: Counts, figures: Counts) -> String {
    let row = |name: &str, c: Counts| {
        format!(
            "<tr><th scope=\"row\">{name}</th><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
            c.pass, c.miss, c.not_yet, c.unjudged
        )
    };
    format!(
        "<table class=\"totals\"><thead><tr><th></th><th scope=\"col\">pass</th><th scope=\"col\">miss</th>\
         <th scope=\"col\">not yet</th><th scope=\"col\">no verdict</th></tr></thead><tbody>{}{}</tbody></table>",
        row("Checks", checks),
        row("Figures", figures)
    )
}

/// The figures of one verdict in one place, each with a link to its check and, for a miss, why.
fn of_verdict(sections: &[Section], verdict: Verdict, heading: &str) -> String {
    let mut rows = String::new();
    for (i, section) in sections.iter().enumerate() {
        for (k, check) in section.checks.iter().enumerate() {
            let mut why = check.why.as_str();
            for f in check.findings.iter().filter(|f| f.verdict == verdict) {
                let _ = write!(
                    rows,
                    "<tr><td><a href=\"#s{i}c{k}\">{}</a></td><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
                    escape(&check.title),
                    escape(&f.what),
                    escape(&f.got),
                    escape(&f.asked),
                    escape(std::mem::take(&mut why))
                );
            }
        }
    }
    let id = word(verdict).1;
    let count = rows.matches("<tr>").count();
    let table = if rows.is_empty() {
        "<p>None.</p>".into()
    } else {
        format!(
            "<div class=\"wide\"><table><thead><tr><th scope=\"col\">Check</th><th scope=\"col\">What</th>\
             <th scope=\"col\">Found</th><th scope=\"col\">Asked</th><th scope=\"col\">Why, as we believe</th></tr></thead>\
             <tbody>{rows}</tbody></table></div>"
        )
    };
    let open = if verdict == Verdict::Miss {
        " open"
    } else {
        ""
    };
    format!(
        "<section aria-labelledby=\"{id}\"><h2 id=\"{id}\">{heading}: {count}</h2><details{open}>\
         <summary>Show</summary>{table}</details></section>\n"
    )
}

/// Figures of which something else was asked first: what, what is asked now, and why.
fn restated(sections: &[Section]) -> String {
    let mut rows = String::new();
    for (i, section) in sections.iter().enumerate() {
        for (k, check) in section.checks.iter().enumerate() {
            for f in &check.findings {
                let Some(before) = &f.restated else { continue };
                let _ = write!(
                    rows,
                    "<tr><td><a href=\"#s{i}c{k}\">{}</a></td><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
                    escape(&check.title),
                    escape(&f.what),
                    escape(&f.got),
                    escape(&before.first),
                    escape(&f.asked),
                    escape(&before.why),
                    badge(f.verdict)
                );
            }
        }
    }
    let count = rows.matches("<tr>").count();
    format!(
        "<section aria-labelledby=\"restated\"><h2 id=\"restated\">Figures restated: {count}</h2><details><summary>Show</summary>\
         <div class=\"wide\"><table><thead><tr><th scope=\"col\">Check</th><th scope=\"col\">What</th><th scope=\"col\">Found</th>\
         <th scope=\"col\">Asked first</th><th scope=\"col\">Asked now</th><th scope=\"col\">Why</th><th scope=\"col\">Verdict</th></tr></thead>\
         <tbody>{rows}</tbody></table></div></details></section>\n"
    )
}

fn contents(sections: &[Section]) -> String {
    let mut list = String::new();
    for (i, section) in sections.iter().enumerate() {
        let c = Counts::of_findings(section.checks.iter());
        let _ = write!(
            list,
            "<li><a href=\"#s{i}\">{}</a> <span class=\"count\">{} pass, {} miss, {} not yet</span><ol>",
            escape(section.title),
            c.pass,
            c.miss,
            c.not_yet
        );
        for (k, check) in section.checks.iter().enumerate() {
            let _ = write!(
                list,
                "<li>{} <a href=\"#s{i}c{k}\">{}</a></li>",
                badge(check.verdict()),
                escape(&check.title)
            );
        }
        list.push_str("</ol></li>\n");
    }
    format!(
        "<nav aria-labelledby=\"contents\"><h2 id=\"contents\">Contents</h2><ol>{list}</ol></nav>\n"
    )
}

fn article(page: &mut String, id: &str, check: &Check) -> Result<(), Error> {
    let _ = write!(
        page,
        "<article aria-labelledby=\"{id}\"><h3 id=\"{id}\">{} {}</h3>\n<p>{}</p>\n\
         <p class=\"source\">Source: {}</p>\n",
        escape(&check.title),
        badge(check.verdict()),
        escape(&check.asked),
        escape(&check.source)
    );
    if !check.tuned.is_empty() {
        let _ = writeln!(
            page,
            "<p class=\"tuned\"><strong>Tuned:</strong> {}</p>",
            escape(&check.tuned)
        );
    }
    if !check.why.is_empty() {
        let _ = writeln!(
            page,
            "<p class=\"tuned\"><strong>Why it misses, as we believe:</strong> {}</p>",
            escape(&check.why)
        );
    }
    if !check.findings.is_empty() {
        page.push_str(
            "<div class=\"wide\"><table><thead><tr><th scope=\"col\">What</th><th scope=\"col\">Found</th>\
             <th scope=\"col\">Asked</th><th scope=\"col\">Verdict</th></tr></thead><tbody>\n",
        );
        for f in &check.findings {
            let _ = writeln!(
                page,
                "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td></tr>",
                escape(&f.what),
                escape(&f.got),
                escape(&f.asked),
                badge(f.verdict)
            );
        }
        page.push_str("</tbody></table></div>\n");
    }
    page.push_str("<div class=\"plots\">\n");
    for plot in &check.plots {
        figure(page, plot)?;
    }
    page.push_str("</div></article>\n");
    Ok(())
}

fn figure(page: &mut String, plot: &Plot) -> Result<(), Error> {
    let _ = write!(page, "<figure>{}<figcaption>", plot.svg()?);
    let _ = write!(page, "<strong>{}</strong>", escape(&plot.title));
    for (k, s) in plot.series.iter().enumerate() {
        let _ = write!(
            page,
            " <span class=\"key\">{} {}</span>",
            key(k, s.line, s.marks),
            escape(&s.name)
        );
    }
    for b in &plot.bands {
        let _ = write!(
            page,
            " <span class=\"key\"><span class=\"strip\" aria-hidden=\"true\"></span> {}</span>",
            escape(&b.name)
        );
    }
    page.push_str(
        "</figcaption>\n<details><summary>Numbers</summary><div class=\"wide\"><table><thead><tr>",
    );
    let (head, rows) = plot.numbers();
    for cell in head {
        let _ = write!(page, "<th scope=\"col\">{}</th>", escape(&cell));
    }
    page.push_str("</tr></thead><tbody>\n");
    for row in rows {
        page.push_str("<tr>");
        for cell in row {
            let _ = write!(page, "<td>{}</td>", escape(&cell));
        }
        page.push_str("</tr>\n");
    }
    page.push_str("</tbody></table></div></details></figure>\n");
    Ok(())
}

/// A sample of a curve for the caption: its colour, dash and mark.
fn key(k: usize, line: bool, marks: bool) -> String {
    let k6 = k % COLOURS;
    let mut inside = String::new();
    if line {
        let _ = write!(
            inside,
            "<path d=\"M0 6H28\" stroke=\"var(--s{k6})\" stroke-width=\"2\" stroke-dasharray=\"{}\"/>",
            DASHES[k6]
        );
    }
    if marks {
        let _ = match k % 3 {
            0 => write!(
                inside,
                "<circle cx=\"14\" cy=\"6\" r=\"3.5\" fill=\"var(--s{k6})\"/>"
            ),
            1 => write!(inside, "<path d=\"M14 1l5 9h-10z\" fill=\"var(--s{k6})\"/>"),
            _ => write!(
                inside,
                "<path d=\"M10 2l8 8m0-8l-8 8\" stroke=\"var(--s{k6})\" stroke-width=\"2\"/>"
            ),
        };
    }
    format!(
        "<svg class=\"swatch\" width=\"28\" height=\"12\" viewBox=\"0 0 28 12\" aria-hidden=\"true\">{inside}</svg>"
    )
}
