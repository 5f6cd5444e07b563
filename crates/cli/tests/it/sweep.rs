//! `lowside sweep`: the same rows however they are made.

use std::fs;

use crate::common::{answer_in, assert_refused, folder, lowside_in};

const SWEEP: [&str; 10] = [
    "sweep",
    "healthy",
    "--vary",
    "day.ambient=30..34:2degC",
    "--vary",
    "condition.condenser_air=100%,60%",
    "--until",
    "20s",
    "--seeds",
    "2",
];

#[test]
fn shards_put_together_are_the_whole_and_a_table_cut_short_is_gone_on_with() {
    let folder = folder("sweep");
    let sweep = |more: &[&str]| answer_in(&folder, &[&SWEEP[..], more].concat());
    let read = |name: &str| fs::read_to_string(folder.join(name)).expect("a table");
    assert_eq!(sweep(&["-o", "all.csv"]), "12 runs, 0 of them kept\n");
    let all = read("all.csv");
    assert_eq!(all.lines().count(), 13, "{all}");
    let columns = |row: &str| row.split(',').count();
    let head = all.lines().next().expect("a head");
    assert!(
        all.lines().all(|row| columns(row) == columns(head)),
        "{all}"
    );
    assert!(
        all.lines().skip(1).all(|row| row.ends_with(",end")),
        "{all}"
    );

    let mut rows = Vec::new();
    for shard in ["1/3", "2/3", "3/3"] {
        sweep(&["-o", "shard.csv", "--shard", shard]);
        rows.extend(read("shard.csv").lines().skip(1).map(str::to_owned));
        fs::remove_file(folder.join("shard.csv")).expect("removed");
    }
    rows.sort_by_key(|row| row.split(',').next().and_then(|n| n.parse::<usize>().ok()));
    assert_eq!(
        rows.join("\n"),
        all.lines().skip(1).collect::<Vec<_>>().join("\n")
    );

    let cut = all.len() - all.len() / 3;
    fs::write(folder.join("all.csv"), &all[..cut]).expect("written");
    let again = sweep(&["-o", "all.csv"]);
    assert!(
        !again.contains(" 0 of them kept") && !again.contains("12 of them"),
        "{again}"
    );
    assert_eq!(read("all.csv"), all);
    assert_eq!(sweep(&["-o", "all.csv"]), "12 runs, 12 of them kept\n");
}

#[test]
fn what_is_asked_wrongly_is_told() {
    let folder = folder("sweep_refused");
    fs::write(folder.join("other.csv"), "a,b\n1,2\n").expect("written");
    let asked: [(&[&str], &[&str]); 5] = [
        (
            &[
                "sweep",
                "healthy",
                "--vary",
                "day.ambient=20..40",
                "-o",
                "t.csv",
            ],
            &["--vary", "from..to:step"],
        ),
        (
            &[
                "sweep",
                "healthy",
                "--vary",
                "day.ambient=20degC,99degC",
                "-o",
                "t.csv",
            ],
            &["day.ambient", "50"],
        ),
        (
            &["sweep", "healthy", "--shard", "3/2", "-o", "t.csv"],
            &["2/8"],
        ),
        (
            &[
                "sweep",
                "healthy",
                "--vary",
                "day.ambient=0..40:0.00001degC",
                "-o",
                "t.csv",
            ],
            &["--vary"],
        ),
        (
            &["sweep", "healthy", "-o", "other.csv"],
            &["other.csv", "not a table of this sweep"],
        ),
    ];
    for (args, parts) in asked {
        assert_refused(&lowside_in(&folder, args), args, parts);
    }
}
