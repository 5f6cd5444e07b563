//! Scenario texts that were changed at random: the command answers or refuses in one line, and never panics.

use crate::common::{folder, lowside_in};
use std::fs;

/// Steele and Vigna's SplitMix64 (2014): small, seeded, the same everywhere.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// 0 to `n` - 1.
    fn below(&mut self, n: usize) -> usize {
        usize::try_from(self.roll() % n.max(1) as u64).unwrap_or(0)
    }

    fn of<'a>(&mut self, list: &[&'a str]) -> &'a str {
        list[self.below(list.len())]
    }
}

const NUMBERS: &[&str] = &[
    "0",
    "-1",
    "1e308",
    "1e-320",
    "-0",
    "nan",
    "inf",
    "99999999999999999999",
    "0x10",
    "1_000",
    "",
    "true",
    "1.",
    "100",
    "3",
    "50",
    "0.2",
];
const WORDS: &[&str] = &[
    "degC",
    "psig",
    "kg",
    "engine",
    "act",
    "vehicle",
    "[[act]]",
    "[day]",
    "=",
    "\"",
    "{",
    "}",
    "\u{b0}",
    "\u{2212}5",
    "\u{0}",
    "# ",
    "[[[[",
    "tap",
    "when",
    "''''",
    "1979-05-27",
];

/// Changes a text in one to three places.
fn mutate(text: &str, dice: &mut Dice) -> Vec<u8> {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let mut damage = None;
    for _ in 0..=dice.below(3) {
        let at = dice.below(lines.len());
        match dice.below(9) {
            // a number in the line becomes another
            0..=3 => {
                let with_numbers: Vec<usize> = (0..lines.len())
                    .filter(|i| lines[*i].bytes().any(|b| b.is_ascii_digit()))
                    .collect();
                let at = with_numbers
                    .get(dice.below(with_numbers.len()))
                    .copied()
                    .unwrap_or(at);
                let line = &lines[at];
                let start = line.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
                let rest =
                    line[start..].trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
                lines[at] = format!("{}{}{rest}", &line[..start], dice.of(NUMBERS));
            }
            4 => {
                let line = lines.remove(at);
                if dice.below(2) == 0 || lines.is_empty() {
                    let to = dice.below(lines.len() + 1);
                    lines.insert(to, line);
                }
            }
            5 => lines.insert(at, lines[at].clone()),
            6 => {
                let end = dice.below(lines[at].chars().count() + 1);
                let kept: String = lines[at].chars().take(end).collect();
                lines[at] = kept;
            }
            7 => {
                let place = dice.below(lines[at].chars().count() + 1);
                let word = dice.of(WORDS);
                let (a, b): (String, String) = (
                    lines[at].chars().take(place).collect(),
                    lines[at].chars().skip(place).collect(),
                );
                lines[at] = format!("{a}{word}{b}");
            }
            _ => damage = Some(dice.roll()),
        }
    }
    let mut bytes = lines.join("\n").into_bytes();
    if let Some(roll) = damage.filter(|_| !bytes.is_empty()) {
        let at = usize::try_from(roll % bytes.len() as u64).unwrap_or(0);
        bytes[at] ^= 1 << (roll >> 60 & 7);
    }
    bytes
}

#[test]
fn four_hundred_changed_scenarios() {
    let folder = folder("mutations");
    let shipped = |name| lowside_session::library::scenario(name).expect("shipped");
    let van = lowside_session::library::vehicle("utility-van").expect("shipped");
    // the vehicle as a table of the scenario itself, so that its numbers are changed too
    let inline: String = van
        .lines()
        .map(|l| match l.strip_prefix('[') {
            Some(rest) => format!("[vehicle.{rest}\n"),
            None => format!("{l}\n"),
        })
        .collect();
    let healthy = shipped("healthy");
    let whole = healthy.replace("vehicle = \"utility-van\"", "") + "[vehicle]\n" + &inline;
    let bases = [healthy, shipped("charge-from-cans"), &whole];

    let mut dice = Dice(20_250_101);
    let (mut answered, mut refused) = (0, 0);
    for round in 0..400 {
        let text = mutate(bases[round % bases.len()], &mut dice);
        fs::write(folder.join("s.toml"), &text).expect("written");
        let out = lowside_in(&folder, &["run", "s.toml", "--json", "--until", "400ms"]);
        let err = String::from_utf8_lossy(&out.stderr);
        let shown = String::from_utf8_lossy(&text);
        match out.status.code() {
            Some(0) => {
                answered += 1;
                assert!(err.is_empty(), "round {round}: {err}\n{shown}");
                let run: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
                for key in ["low_kPa_abs", "high_kPa_abs", "vent_degC", "refrigerant_kg"] {
                    assert!(
                        run[key].is_number(),
                        "round {round}: {key} in {run}\n{shown}"
                    );
                }
                let gap = run["max_mass_error_rel"].as_f64().expect("a number");
                assert!(gap < 1e-9, "round {round}: {gap}\n{shown}");
            }
            Some(2) => {
                refused += 1;
                assert_eq!(err.lines().count(), 1, "round {round}: {err}\n{shown}");
                assert!(
                    err.starts_with("lowside: s.toml: "),
                    "round {round}: {err}\n{shown}"
                );
                assert!(err.chars().count() < 700, "round {round}: {err}\n{shown}");
            }
            code => panic!("round {round}: exit {code:?}: {err}\n{shown}"),
        }
    }
    // changes that never break, or always break, would test nothing
    assert!(
        answered > 60 && refused > 100,
        "{answered} answered, {refused} refused"
    );
}
