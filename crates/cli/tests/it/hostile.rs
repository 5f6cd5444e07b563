//! Files made to eat memory: refused in one line by a program that may have 64 MB in all, within seconds.
//!
//! The bound is the shell's: `ulimit -v`, in kilobytes (its man page); a program that asks for more is aborted.
#![cfg(target_os = "linux")]
#![allow(clippy::format_collect, reason = "texts of a test, each made once")]

use crate::common::{answer_in, assert_refused, folder};
use lowside_session::scramble::scramble;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use std::time::{Duration, Instant};

/// All the memory that the command may have, kB.
const MOST: u32 = 64_000;
/// Longest that it may think; measured at a tenth of that, unoptimised.
const LONGEST: Duration = Duration::from_secs(10);

fn bounded(folder: &Path, args: &[&str]) -> Output {
    let begun = Instant::now();
    let out = Command::new("sh")
        .args(["-c", &format!("ulimit -v {MOST}; exec \"$0\" \"$@\"")])
        .arg(env!("CARGO_BIN_EXE_lowside"))
        .args(args)
        .current_dir(folder)
        .output()
        .expect("a shell starts");
    let took = begun.elapsed();
    assert!(took < LONGEST, "{args:?} takes {took:?}");
    out
}

/// So many bytes of the same.
fn full(piece: &str, bytes: usize) -> String {
    piece.repeat(bytes / piece.len())
}

#[test]
#[expect(clippy::too_many_lines, reason = "one row a case")]
fn takes_that_would_eat_memory() {
    const ROOM: usize = lowside_session::take::LARGEST - 16_000;
    let folder = folder("hostile_takes");
    answer_in(
        &folder,
        &["run", "healthy", "--until", "1s", "--take", "good.json"],
    );
    let good = fs::read_to_string(folder.join("good.json")).expect("a take");
    let parts: serde_json::Map<String, serde_json::Value> =
        serde_json::from_str(&good).expect("JSON");
    // the good take with one part, known or not, made of something else
    let with = |name: &str, text: &str| {
        let others = parts.iter().filter(|(n, _)| *n != name);
        let others: String = others.map(|(n, v)| format!("\"{n}\":{v},")).collect();
        format!("{{{others}\"{name}\":{text}}}")
    };
    let hidden = |text: &str| format!("\"{}\"", scramble(text));
    let list = |piece: &str| format!("[{}0]", full(piece, ROOM));
    let (empties, act) = (list("{\"\":0},"), "[0,{\"do\":\"tap\",\"on\":true}],");
    let many: String = (0..ROOM / 12).map(|i| format!("\"{i:x}\":0,")).collect();
    let mut scenario = parts["scenario"].clone();
    scenario["name"] = "x".repeat(ROOM).into();
    let cases = [
        ("deep", "[".repeat(ROOM), "begins with no {"),
        ("deep objects", full("{\"\":", ROOM), "unknown field"),
        ("empty", String::new(), "it is empty"),
        ("white", full(" ", ROOM), "it is empty"),
        ("cut short", good[..good.len() / 2].to_owned(), "cut short"),
        ("many small objects", empties.clone(), "begins with no {"),
        (
            "in the scenario",
            with("scenario", &empties),
            "scenario is larger than 524 kB",
        ),
        ("in the log", with("log", &empties), "number of acts = "),
        (
            "in one act",
            with("log", &format!("[{empties}]")),
            "act 1 of the log is larger than 4.1 kB",
        ),
        (
            "under an unknown name",
            with("more", &empties),
            "unknown field",
        ),
        (
            "deep in the log",
            with("log", &"[".repeat(ROOM)),
            "not a take",
        ),
        (
            "many numbers",
            with("log", &list("0,")),
            "number of acts = ",
        ),
        (
            "many acts",
            with(
                "log",
                &format!("[{}{}]", full(act, ROOM), act.trim_end_matches(',')),
            ),
            "number of acts = ",
        ),
        (
            "a long name",
            serde_json::to_string(&scenario).expect("JSON"),
            "unknown field",
        ),
        (
            "a long scenario",
            with("scenario", &scenario.to_string()),
            "scenario is larger",
        ),
        (
            "a long hash",
            with("hash", &format!("\"{}\"", "a".repeat(ROOM))),
            "hash is larger",
        ),
        (
            "long ticks",
            with("ticks", &"1".repeat(ROOM)),
            "ticks is larger",
        ),
        ("in the lines", with("lines", &empties), "undone acts = "),
        (
            "in a line",
            with("lines", &format!("[{{\"tick\":0,\"acts\":[{empties}]}}]")),
            "lines is larger than 4.1 kB",
        ),
        (
            "many undone acts",
            with(
                "lines",
                &format!(
                    "[{{\"tick\":0,\"acts\":[{}{}]}}]",
                    full(act, ROOM - 100),
                    act.trim_end_matches(',')
                ),
            ),
            "undone acts = ",
        ),
        ("many hints", with("hints", &empties), "number of hints = "),
        (
            "a long hidden part",
            with("hidden", &format!("\"{}\"", "0".repeat(ROOM))),
            "hidden is larger",
        ),
        (
            "deep in the hidden part",
            with("hidden", &hidden(&"[".repeat(200_000))),
            "hidden",
        ),
        (
            "many small objects in the hidden part",
            with(
                "hidden",
                &hidden(&format!("{{\"act\":[{}0]}}", full("{\"\":0},", 400_000))),
            ),
            "not a take",
        ),
        (
            "a long card",
            with("card", &format!("{{\"own\":\"{}\"}}", "0".repeat(ROOM))),
            "card is larger",
        ),
        (
            "a long code",
            with("learner", &format!("\"{}\"", "a".repeat(ROOM))),
            "learner is larger",
        ),
        (
            "a long seal",
            with("seal", &format!("\"{}\"", "a".repeat(ROOM))),
            "seal is larger",
        ),
        ("many names", format!("{{{many}\"a\":0}}"), "unknown field"),
        (
            "a long name of a part",
            format!("{{\"{}\":0}}", "a".repeat(ROOM)),
            "unknown field",
        ),
        (
            "a long text",
            format!("\"{}\"", full("\\u0000", ROOM)),
            "begins with no {",
        ),
    ];
    for (what, text, said) in cases {
        assert!(text.len() <= lowside_session::take::LARGEST, "{what}");
        fs::write(folder.join("bad.json"), text).expect("written");
        for args in [
            &["replay", "bad.json"][..],
            &["job", "1-first-charge", "--take", "bad.json"],
        ] {
            assert_refused(&bounded(&folder, args), &[what], &["bad.json", said]);
        }
    }
    fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn scenarios_scripts_and_cards_that_would_eat_memory() {
    const ROOM: usize = lowside_session::scenario::LARGEST - 16;
    let folder = folder("hostile_toml");
    let many: String = (0..ROOM / 9).map(|i| format!("a{i:x}=0\n")).collect();
    let tables: String = (0..ROOM / 12).map(|i| format!("[a{i:x}.b]\n")).collect();
    let dots: String = (0..ROOM / 155)
        .map(|i| format!("{}b{i:x}=0\n", "a.".repeat(70)))
        .collect();
    let cases = [
        ("deep", format!("a={}", "[".repeat(ROOM))),
        ("deep tables", format!("a={}", full("{a=", ROOM))),
        ("many small tables", format!("a=[{}]", full("{a=0},", ROOM))),
        ("many numbers", format!("a=[{}]", full("0,", ROOM))),
        ("many heads", full("[[a]]\n", ROOM)),
        ("many acts", full("[[act]]\n", ROOM)),
        ("a long way", format!("{}a=0", full("a.", ROOM))),
        ("a long way in a head", format!("[{}a]", full("a.", ROOM))),
        ("many long ways", dots),
        ("many names", many),
        ("many tables", tables),
        ("a long text", format!("name=\"{}\"", "x".repeat(ROOM - 8))),
    ];
    for (what, text) in cases {
        assert!(text.len() <= lowside_session::scenario::LARGEST, "{what}");
        fs::write(folder.join("bad.toml"), text).expect("written");
        for args in [
            &["run", "bad.toml"][..],
            &["job", "bad.toml"],
            &["job", "1-first-charge", "--acts", "bad.toml"],
        ] {
            assert_refused(&bounded(&folder, args), &[what, args[0]], &["bad.toml"]);
        }
    }
    fs::remove_dir_all(folder).expect("removed");
}

/// The bounds are no trap: a scenario as large as one may be is run, and its take, in which it is longer, is read again.
#[test]
fn the_largest_scenario_comes_back_from_its_take() {
    let folder = folder("largest");
    let act = "[[act]]\nafter=\"1s\"\nwhen=\"vent < 9.876543 degC\"\nat_most=\"1min\"\nact={do=\"bath\",temperature=\"45.1234degC\"}\n";
    let healthy = lowside_session::library::scenario("healthy").expect("shipped");
    let text = format!("{healthy}\n{}", act.repeat(2000));
    assert!(
        text.len() > lowside_session::scenario::LARGEST * 3 / 4,
        "{} bytes",
        text.len()
    );
    fs::write(folder.join("s.toml"), text).expect("written");
    for args in [
        &["run", "s.toml", "--until", "500ms", "--take", "t.json"][..],
        &["replay", "t.json"],
    ] {
        let out = bounded(&folder, args);
        assert!(
            out.status.success(),
            "{}",
            String::from_utf8_lossy(&out.stderr)
        );
    }
    fs::remove_dir_all(folder).expect("removed");
}
