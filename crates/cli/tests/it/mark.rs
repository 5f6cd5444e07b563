//! `lowside drill` and `lowside mark`: vehicles handed out, attempts handed in.

use std::fs;

use crate::common::{answer_in, assert_refused, folder, lowside_in, unsealed};

/// A vehicle is handed out, comes back as it went, and what cannot be marked is named while the rest is.
#[test]
fn a_folder_is_marked_and_what_cannot_be_is_named() {
    let folder = folder("mark");
    let hand_out = ["drill", "7", "--of", "low-charge", "--learner", "A-1", "-o"];
    let key = answer_in(&folder, &[&hand_out[..], &["1.json", "--key"]].concat());
    assert!(key.contains("low-charge"), "{key}");
    assert_eq!(
        answer_in(&folder, &[&hand_out[..], &["2.json"]].concat()),
        ""
    );
    let text = fs::read_to_string(folder.join("1.json")).expect("a take");
    let again = fs::read_to_string(folder.join("2.json")).expect("a take");
    assert_eq!(text, again, "one seed, one vehicle");
    for word in [
        "\"condition\"",
        "\"start\"",
        "\"scatter\"",
        "\"instruments\"",
        "low-charge",
    ] {
        assert!(
            !text.contains(word),
            "{word} is not to be read in passing: {text}"
        );
    }

    fs::write(folder.join("3.json"), "{").expect("written");
    let edited = unsealed(&text).replace("\"ticks\":0", "\"ticks\":9");
    fs::write(folder.join("4.json"), edited).expect("written");
    fs::write(folder.join("5.json"), text.replace("A-1", "A-2")).expect("written");
    let marked = answer_in(&folder, &["mark", ".", "-o", "marks.csv"]);
    assert!(marked.contains("nothing was said"), "{marked}");
    let table = fs::read_to_string(folder.join("marks.csv")).expect("a table");
    let rows: Vec<&str> = table.lines().collect();
    assert_eq!(rows.len(), 6, "{table}");
    assert!(
        rows[0].starts_with("file,learner,seed,truth,said"),
        "{table}"
    );
    for (row, said) in rows[1..].iter().zip([
        "A-1,7,low-charge",
        "A-1",
        "cut short",
        "does not end",
        "seal",
    ]) {
        assert!(row.contains(said), "{row} has {said}");
    }
    let columns = |row: &str| row.split(',').count();
    assert_eq!(columns(rows[1]), columns(rows[0]), "{table}");
}

#[test]
fn what_is_asked_wrongly_is_told() {
    let folder = folder("mark_refused");
    let asked: [(&[&str], &[&str]); 4] = [
        (
            &["drill", "1", "--of", "gremlins"],
            &["gremlins", "known are: nothing, low-charge"],
        ),
        (
            &["drill", "1", "--least", "awful"],
            &["slight, moderate, severe, extreme"],
        ),
        (&["drill", "1", "--learner", "Ann B"], &["--learner"]),
        (&["mark", "."], &["no take"]),
    ];
    for (args, parts) in asked {
        assert_refused(&lowside_in(&folder, args), args, parts);
    }
}
