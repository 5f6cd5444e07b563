//! `lowside sweep`: the same rows however they are made.

use std::{fs, path::Path, process::Command};

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

/// Runs a shell's text with variables set, in a folder; gives what it prints.
fn shell(folder: &Path, text: &str, args: &[&str], variables: &[(&str, &str)]) -> String {
    let out = Command::new("bash")
        .args([&["-euc", text, "bash"], args].concat())
        .current_dir(folder)
        .env("LOWSIDE", env!("CARGO_BIN_EXE_lowside"))
        .envs(variables.iter().copied())
        .output()
        .expect("a shell");
    let err = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{variables:?}: {err}");
    String::from_utf8(out.stdout).expect("UTF-8")
}

/// The files for a cluster, run here a process a task: put together, their rows are those of one run.
#[test]
fn arrays_and_indexed_jobs_make_the_same_rows() {
    let folder = folder("cluster");
    answer_in(&folder, &[&SWEEP[..], &["-o", "all.csv"]].concat());
    let read = |name: &str| fs::read_to_string(folder.join(name)).expect("a table");
    let all = read("all.csv");
    let array = include_str!("../../../../doc/sweep/slurm.sh");
    let job = include_str!("../../../../doc/sweep/kubernetes.yaml");
    let join = include_str!("../../../../doc/sweep/join.sh");
    let command = job
        .lines()
        .find_map(|line| line.trim().strip_prefix("- '")?.strip_suffix('\''))
        .expect("the pod's command");
    let shards = [1, 2, 3];
    let joined = || {
        let files = shards.map(|n| format!("sweep-{n}.csv"));
        let rows = shell(&folder, join, &files.each_ref().map(String::as_str), &[]);
        for file in files {
            fs::remove_file(folder.join(file)).expect("removed");
        }
        rows
    };
    for n in shards.map(|n| n.to_string()) {
        let task = [
            ("SLURM_ARRAY_TASK_ID", &*n),
            ("SLURM_ARRAY_TASK_COUNT", "3"),
        ];
        shell(&folder, array, &SWEEP[1..], &task);
    }
    assert_eq!(joined(), all);
    for n in shards {
        let (index, sweep) = ((n - 1).to_string(), SWEEP[1..].join(" "));
        let pod = [
            ("JOB_COMPLETION_INDEX", &*index),
            ("COMPLETIONS", "3"),
            ("SWEEP", &sweep),
        ];
        shell(&folder, command, &[], &pod);
        fs::rename(
            folder.join(format!("sweep-{index}.csv")),
            folder.join(format!("kept-{n}.csv")),
        )
        .expect("renamed");
    }
    for n in shards {
        let of = |name: &str| folder.join(format!("{name}-{n}.csv"));
        fs::rename(of("kept"), of("sweep")).expect("renamed");
    }
    assert_eq!(joined(), all);
}
