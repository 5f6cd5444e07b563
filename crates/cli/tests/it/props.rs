//! `lowside props` from outside: answers against CoolProp 8.0.0, and what it says to wrong requests.

use std::process::{Command, Output};

use lowside_tests::csv::Csv;
use serde_json::Value;

fn lowside(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_lowside"))
        .args(args)
        .output()
        .expect("lowside starts")
}

fn props(args: &[&str]) -> Value {
    let out = lowside(&[&["props"], args].concat());
    let err = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success() && err.is_empty(), "{args:?}: {err}");
    let text = String::from_utf8(out.stdout).expect("UTF-8");
    assert_eq!(text.lines().count(), 1, "one object on one line: {text}");
    serde_json::from_str(&text).expect("JSON")
}

fn near(answer: &Value, key: &str, expected: f64, tolerance: f64) {
    let ours = answer[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{key} in {answer}"));
    assert!(
        (ours - expected).abs() <= tolerance,
        "{key}: {ours}, expected {expected} in {answer}"
    );
}

const GASES: [&str; 3] = ["R-134a", "R12", "r1234yf"];

/// A reference table of a gas, however its name is written.
fn table(gas: &str, what: &str) -> Csv {
    Csv::read(&format!(
        "{}_{what}.csv",
        gas.replace('-', "").to_lowercase()
    ))
}

/// CoolProp 8.0.0, saturated liquid and vapour (equations named in the tables' heads), every seventh row, by T and q.
#[test]
fn saturation_table() {
    for gas in GASES {
        for r in table(gas, "saturation").rows().step_by(7) {
            let v = r.numbers(0);
            for (q, phase) in [("0", 0), ("1", 1)] {
                let a = props(&[gas, &format!("T={}", v[0]), &format!("q={q}")]);
                near(&a, "T", v[0], 1e-9);
                near(&a, "p", v[1], 1e-6 * v[1]);
                near(&a, "rho", v[2 + phase], 1e-6 * v[2 + phase]);
                near(&a, "h", v[4 + phase], 0.5);
                near(&a, "s", v[6 + phase], 2e-3);
                near(&a, "u", v[8 + phase], 0.5);
                near(&a, "q", if phase == 0 { 0.0 } else { 1.0 }, 1e-9);
            }
        }
    }
}

/// CoolProp 8.0.0, liquid and vapour off saturation, every eleventh row, by T and p and back by p and h, p and s.
#[test]
fn single_phase_table() {
    for gas in GASES {
        for r in table(gas, "single_phase").rows().step_by(11) {
            let (t, p) = (r.get("T_K"), r.get("p_Pa"));
            let [rho, h, s, u, cp] = r.numbers(3)[..5] else {
                panic!("columns")
            };
            for second in [format!("T={t}"), format!("h={h}"), format!("s={s}")] {
                let a = props(&[gas, &format!("p={p}"), &second]);
                near(&a, "T", t, 1e-4);
                near(&a, "p", p, 1e-9 * p);
                near(&a, "rho", rho, 2e-6 * rho);
                near(&a, "h", h, 0.5);
                near(&a, "s", s, 2e-3);
                near(&a, "u", u, 0.5);
                near(&a, "cp", cp, 1e-4 * cp);
                assert_eq!(a["phase"], r.text("phase"), "{a}");
                assert!(a["q"].is_null(), "{a}");
            }
        }
    }
}

/// Units at the edge: psig over the standard atmosphere, degF, per cent. R-134a at 42 psig boils near 46.8 degF (the
/// trade's pressure-temperature chart, common practice, printed to whole degrees).
#[test]
fn values_take_units() {
    let a = props(&["R-134a", "p=42psig", "q=40 %"]);
    near(&a, "p", 101_325.0 + 42.0 * 6_894.757_293, 1e-3);
    near(&a, "T", (46.8 + 459.67) / 1.8, 0.5);
    near(&a, "q", 0.4, 1e-9);
    assert_eq!(a["phase"], "two-phase");
    assert!(a["cp"].is_null(), "{a}");
    let b = props(&["r134a", "p=391 kPa", "T=35 degC"]);
    assert_eq!(b["phase"], "vapour");
    near(&b, "T", 308.15, 1e-9);
    let c = props(&[
        "r134a",
        &format!("h={}kJ/kg", 0.001 * b["h"].as_f64().expect("h")),
        "p=3.91bar",
    ]);
    near(&c, "T", 308.15, 1e-6);
}

/// Wrong requests: exit code 2, nothing on stdout, one line on stderr that has the field and what is allowed.
#[test]
fn wrong_requests_are_answered_in_one_line() {
    let cases: &[(&[&str], &[&str])] = &[
        (&[], &["subcommand", "--help"]),
        (&["prosp"], &["prosp", "--help"]),
        (&["props"], &["FLUID"]),
        (
            &["props", "R22", "T=300", "p=1e5"],
            &["fluid", "R22", "R-134a", "R-12", "R-1234yf"],
        ),
        (&["props", "R134a"], &["given: 0", "two"]),
        (&["props", "R134a", "T=300"], &["given: 1", "two"]),
        (
            &["props", "R134a", "T=300", "p=1e5", "q=1"],
            &["given: 3", "two"],
        ),
        (
            &["props", "R134a", "T=300", "p"],
            &["\"p\"", "KEY=VALUE", "rho"],
        ),
        (
            &["props", "R134a", "T=300", "x=1"],
            &["x=1", "T, p, h, s, rho, q"],
        ),
        (
            &["props", "R134a", "T=300", "t=1"],
            &["\"t\"", "T, p, h, s, rho, q"],
        ),
        (&["props", "R134a", "T=300", "T=310"], &["T", "twice"]),
        (
            &["props", "R134a", "T=35psi", "p=1e5"],
            &["T", "35psi", "degC", "degF"],
        ),
        (
            &["props", "R134a", "T=300", "p=30psi"],
            &["p", "30psi", "psia", "psig"],
        ),
        (
            &["props", "R134a", "T=300", "p=-30psig"],
            &["p", "-30psig", "gauge pressure", "-101325"],
        ),
        (&["props", "R134a", "T=300", "p=-5"], &["p", "-5", "0 Pa"]),
        (&["props", "R134a", "T=300", "p=nan"], &["p", "nan"]),
        (&["props", "R134a", "T=300", "p=1e999"], &["p", "1e999"]),
        (
            &["props", "R134a", "T=-400degC", "p=1e5"],
            &["T", "-400degC", "0 K"],
        ),
        (
            &["props", "R134a", "T=20", "p=1e5"],
            &["T", "20 K", "169.85"],
        ),
        (
            &["props", "R134a", "T=300", "q=1.5"],
            &["q", "1.5", "0 to 1"],
        ),
        (
            &["props", "R134a", "T=300", "q=150%"],
            &["q", "1.5", "0 to 1"],
        ),
        (
            &["props", "R134a", "T=400", "q=0.5"],
            &["T", "400 K", "374"],
        ),
        (&["props", "R134a", "--fast", "T=300"], &["--fast"]),
        (&["props", "R134a", "T=300", "rho=0"], &["rho", "0"]),
        (&["props", "R134a", "h=1e12", "p=1e5"], &["h", "J/kg"]),
    ];
    for (args, parts) in cases {
        let out = lowside(args);
        let err = String::from_utf8(out.stderr).expect("UTF-8");
        assert_eq!(out.status.code(), Some(2), "{args:?}: {err}");
        assert!(
            out.stdout.is_empty(),
            "{args:?} prints {:?}",
            String::from_utf8_lossy(&out.stdout)
        );
        assert_eq!(err.lines().count(), 1, "{args:?}: {err}");
        assert!(err.len() < 400, "{args:?}: {err}");
        for part in *parts {
            assert!(err.contains(part), "{args:?}: {part:?} is missing in {err}");
        }
    }
}

/// Long and hostile text comes back short and on one line.
#[test]
fn hostile_text() {
    let long = "z".repeat(100_000);
    let key = format!("{long}=3");
    let value = format!("T={long}");
    for args in [
        ["props", long.as_str(), "T=300", "p=1e5"],
        ["props", "R134a", key.as_str(), "p=1e5"],
        ["props", "R134a", value.as_str(), "p=1e5"],
        ["props", "R134a", "T=3\n00K\nx", "p=1e5"],
        ["props", "R134a", "T=300\u{7}\u{1b}[2J", "p=1e5"],
        ["props", "R134a\nfoo", "T=300", "p=1e5"],
    ] {
        let out = lowside(&args);
        let err = String::from_utf8(out.stderr).expect("UTF-8");
        assert_eq!(out.status.code(), Some(2), "{err}");
        assert_eq!(err.lines().count(), 1, "{err}");
        assert!(err.len() < 400 && !err.contains('\u{1b}'), "{err}");
    }
}

#[test]
fn help_and_version_are_answers() {
    for args in [&["--help"][..], &["--version"], &["props", "--help"]] {
        let out = lowside(args);
        assert!(
            out.status.success() && out.stderr.is_empty() && !out.stdout.is_empty(),
            "{args:?}"
        );
    }
}

/// A limit is told to the six figures that a person can use, inside or outside of SI's round numbers.
#[test]
fn limits_in_refusals_are_rounded() {
    for args in [
        ["R-134a", "q=50%", "p=6MPa"],
        ["R-12", "T=300", "rho=5000"],
        ["R-1234yf", "q=1", "p=9MPa"],
    ] {
        let out = lowside(&[&["props"], &args[..]].concat());
        let err = String::from_utf8_lossy(&out.stderr);
        assert_eq!(out.status.code(), Some(2), "{err}");
        let (_, limits) = err.split_once("outside").expect("limits");
        let digits = |word: &str| word.bytes().filter(u8::is_ascii_digit).count();
        let longest = limits
            .split(' ')
            .filter(|w| w.parse::<f64>().is_ok())
            .map(digits)
            .max();
        // 0.000000001 kg/m3 is round, and long.
        assert!(longest.is_some_and(|n| n <= 10), "{err}");
    }
}
