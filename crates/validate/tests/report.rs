//! The report writer, and the checks that need no run.

use lowside_validate::{
    check::{Check, Counts, Finding, Section, Verdict},
    checks,
    plot::Plot,
    report,
    run::Runs,
};

fn sample() -> Section {
    let mut check = Check::new("A <title> & more", "asked", "source");
    check.find(Finding::within("in", 1.0, 0.0, 2.0, "K", 1));
    check.find(Finding::within("out", 3.0, 0.0, 2.0, "K", 1));
    check.find(Finding::within("nothing", f64::NAN, 0.0, 2.0, "K", 1));
    check.find(Finding::not_yet("later", "leaks"));
    check.find(Finding::beside("aside", "4.0 K", "9.0 K", "another loop"));
    check.find(
        Finding::within("wide", 1.5, 0.0, 2.0, "K", 1).instead_of("0.1 to 0.2 K", "too narrow"),
    );
    check.plots.push(
        Plot::new("Picture \"one\"", "x", "y")
            .band("range", vec![(0.0, 1.0, 3.0), (2.0, 1.0, 3.0)])
            .curve("curve", vec![(0.0, 1.0), (1.0, 2.0), (2.0, 4.0)])
            .line("line", vec![(0.0, 2.0), (2.0, 3.0)]),
    );
    Section {
        title: "Section",
        checks: vec![check],
    }
}

#[test]
fn verdicts_are_counted_and_a_miss_decides() {
    let section = sample();
    let counts = Counts::of_findings(section.checks.iter());
    assert_eq!((counts.pass, counts.miss, counts.not_yet), (2, 2, 1));
    assert_eq!(counts.unjudged, 1);
    assert_eq!(section.checks[0].verdict(), Verdict::Miss);
    let mut later = Check::default();
    later.find(Finding::not_yet("later", "leaks"));
    assert_eq!(later.verdict(), Verdict::NotYet);
    let mut aside = Check::default();
    aside.find(Finding::beside("aside", "4.0 K", "9.0 K", "another loop"));
    assert_eq!(aside.verdict(), Verdict::Unjudged);
}

#[test]
fn the_page_is_whole_and_shows_what_it_was_given() {
    let page = report::html(&[sample()]).expect("it can be drawn");
    for wanted in [
        "A &lt;title&gt; &amp; more",
        "<title>Picture &quot;one&quot;</title>",
        "needs leaks",
        "3.0 K",
        "0.0 to 2.0 K",
        "NaN K",
        "Figures restated: 2",
        "<td>9.0 K</td><td>no verdict; printed: 9.0 K</td><td>another loop</td>",
        "<td>0.1 to 0.2 K</td><td>0.0 to 2.0 K</td><td>too narrow</td>",
        "<polyline",
        "var(--s0)",
        "stroke-dasharray=\"7 4\"",
        "<td>4</td>",
        "1 to 3",
    ] {
        assert!(page.contains(wanted), "the page has no {wanted}");
    }
    // Nothing from elsewhere, and no stand-in colour is left.
    for unwanted in [
        "src=",
        "href=\"http",
        "@import",
        "#01010",
        "#000000",
        "#020202",
    ] {
        assert!(!page.contains(unwanted), "the page has {unwanted}");
    }
    for tag in ["article", "section", "figure", "table", "svg", "details"] {
        let (open, close) = (format!("<{tag}"), format!("</{tag}>"));
        assert_eq!(
            page.matches(&open).count(),
            page.matches(&close).count(),
            "{tag}"
        );
    }
}

/// Moist air, water and refrigerants hold against their tables; they cost a fraction of a second.
#[test]
fn the_cheapest_checks_pass() {
    let runs = Runs::default();
    for job in [
        checks::air::checks,
        checks::water::checks,
        checks::properties::checks,
    ] {
        for check in job(&runs).expect("the tables read") {
            assert!(!check.findings.is_empty(), "{}", check.title);
            assert_eq!(
                check.verdict(),
                Verdict::Pass,
                "{}: {:?}",
                check.title,
                check.findings
            );
        }
    }
}
