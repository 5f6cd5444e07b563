//! A packet is handed out, comes back from all kinds of learners, and is marked on its key.

use crate::common::{answer_in, assert_refused, folder, lowside_in, unsealed};
use lowside_session::{
    Bay, BenchAct, HoseAct, InstructorAct, LearnerAct, Sight, Take, VehicleAct,
    action::{Evidence, FaultId, Meter},
    take::Undone,
};
use lowside_shop::fault::{self, Cure, Severity};
use lowside_tests::runs::{act, run};
use lowside_units::{Ratio, RotationSpeed};
use std::{
    fs,
    path::{Path, PathBuf},
};

/// Hands out six vehicles, and gives the folder with `class` and `key.json`.
fn handed_out(name: &str, more: &[&str]) -> (PathBuf, String) {
    let folder = folder(name);
    let codes = "ann-b\nbo.c\n003\nd_d\nslow\ncheat\n";
    fs::write(folder.join("learners.txt"), codes).expect("written");
    let args = [
        "handout",
        "6",
        "--seed",
        "11",
        "-o",
        "class",
        "--key",
        "key.json",
        "--learners",
        "learners.txt",
    ];
    let said = answer_in(&folder, &[&args[..], more].concat());
    (folder, said)
}

fn take_of(folder: &Path, learner: &str) -> Take {
    let list = fs::read_dir(folder.join("class")).expect("a folder");
    let files = list.filter_map(|f| Some(f.ok()?.path()));
    let mut own = files.filter(|p| {
        let name = p.file_name().and_then(|n| n.to_str()).unwrap_or_default();
        name.starts_with(&format!("{learner}-vehicle-"))
    });
    let text = fs::read_to_string(own.next().expect("a vehicle each")).expect("a take");
    Take::parse(&text).expect("sound")
}

/// Takes the readings that are cheap, as anybody does.
fn look(bay: &mut Bay) {
    let on = true;
    act(bay, HoseAct::LowCoupler { on });
    act(bay, HoseAct::HighCoupler { on });
    act(bay, VehicleAct::Engine { on });
    act(bay, VehicleAct::AirConditioning { on });
    act(bay, VehicleAct::Blower { step: 4 });
    let speed = RotationSpeed::from_rpm(1500.0);
    act(bay, VehicleAct::EngineSpeed { speed });
    run(bay, 240.0);
    for instrument in [Meter::LowGauge, Meter::HighGauge, Meter::VentThermometer] {
        act(bay, LearnerAct::Read { instrument });
        run(bay, 5.0);
    }
}

fn say(bay: &mut Bay, id: &str, percent: f64, repair: Cure, evidence: &[u32]) {
    let fault = FaultId::find(id).expect("a row");
    let certainty = Ratio::from_percent(percent);
    act(bay, LearnerAct::Suspect { fault, certainty });
    let evidence = Evidence::of(evidence).expect("a few");
    let severity = Severity::Severe;
    act(
        bay,
        LearnerAct::Commit {
            fault,
            severity,
            evidence,
            repair,
        },
    );
}

/// What the instructor's key says of a learner's vehicle.
fn truth(folder: &Path, learner: &str) -> &'static fault::Fault {
    let key = fs::read_to_string(folder.join("key.json")).expect("a key");
    let key: serde_json::Value = serde_json::from_str(&key).expect("JSON");
    let all = key["vehicles"].as_array().expect("vehicles").iter();
    let mut own = all.filter(|v| v["learner"] == learner);
    let id = own.next().expect("of the class")["fault"]
        .as_str()
        .expect("an id")
        .to_owned();
    fault::named(&id).expect("of the registry")
}

fn hand_in(folder: &Path, name: &str, take: &Take) {
    fs::write(folder.join("in").join(name), take.to_text()).expect("written");
}

fn done(take: &Take, work: impl FnOnce(&mut Bay)) -> Take {
    let mut bay = Bay::new(&take.scenario);
    work(&mut bay);
    Take::in_sitting(&bay, take.sitting.clone())
}

#[test]
fn a_packet_is_equally_difficult_comes_back_with_its_seed_and_hides_its_faults() {
    let (folder, said) = handed_out("handout", &["--page", "https://example.org/"]);
    assert!(
        said.contains("readings at least leave one suspect"),
        "{said}"
    );
    let takes: Vec<Take> = ["ann-b", "bo.c", "003", "d_d", "slow", "cheat"]
        .map(|learner| take_of(&folder, learner))
        .into();
    for (n, take) in takes.iter().enumerate() {
        assert_eq!(take.sitting.seed, n as u64 + 1, "numbered, not seeded");
        assert_eq!(take.scenario.day, takes[0].scenario.day, "one day");
        assert_eq!(take.sitting.sight, Sight::Hands);
        assert!(take.scenario.faults().count() > 0);
    }
    let text = fs::read_to_string(folder.join("class/ann-b-vehicle-1.json")).expect("a take");
    let slips = fs::read_to_string(folder.join("class/slips.html")).expect("slips");
    for fault in fault::all() {
        let id = format!("\"{}\"", fault.id);
        let name = lowside_words::fault(fault.id).expect("it has a name");
        assert!(!text.contains(&id) && !slips.contains(name), "{id}");
    }
    assert_eq!(slips.matches("<article>").count(), 6);
    assert_eq!(slips.matches("<svg").count(), 6);
    // The link of a slip is the take of its file.
    let link = slips
        .split("href=\"")
        .nth(1)
        .and_then(|s| s.split('"').next())
        .expect("a link");
    assert!(link.len() < 1_500, "{} characters", link.len());
    let back = answer_in(&folder, &["link", link]);
    assert_eq!(Take::parse(back.trim()).expect("sound"), takes[0]);
    // The same seed, the same packet; another, another.
    let (again, _) = handed_out("handout_again", &[]);
    assert_eq!(take_of(&again, "d_d"), takes[3]);
    assert_eq!(
        fs::read(folder.join("key.json")).expect("a key"),
        fs::read(again.join("key.json")).expect("a key")
    );
}

#[test]
#[expect(clippy::too_many_lines, reason = "one learner after the other")]
fn every_kind_of_learner_gets_a_row_and_what_cannot_be_marked_its_reason() {
    let (folder, _) = handed_out("handed_in", &["--exam"]);
    fs::create_dir(folder.join("in")).expect("a folder");
    let take = |learner: &str| take_of(&folder, learner);
    let right = truth(&folder, "ann-b");
    let expert = done(&take("ann-b"), |bay| {
        look(bay);
        say(bay, right.id, 90.0, right.cure, &[1, 2, 3]);
    });
    hand_in(&folder, "1-expert.json", &expert);
    let wrong = if truth(&folder, "bo.c").id == "air" {
        "over-charge"
    } else {
        "air"
    };
    let guesser = done(&take("bo.c"), |bay| {
        say(bay, wrong, 100.0, Cure::Charge, &[]);
    });
    hand_in(&folder, "2-guesser.json", &guesser);
    let id = truth(&folder, "003");
    let reckless = done(&take("003"), |bay| {
        look(bay);
        let joint = lowside_shop::joints::Joint::ALL[0];
        act(bay, BenchAct::OpenJoint { joint });
        run(bay, 30.0);
        say(bay, id.id, 90.0, id.cure, &[1, 2]);
    });
    hand_in(&folder, "3-reckless.json", &reckless);
    hand_in(&folder, "4-idle.json", &take("d_d"));
    // By a line to paste.
    let id = truth(&folder, "slow");
    let slow = done(&take("slow"), |bay| {
        look(bay);
        run(bay, 3_600.0);
        say(bay, id.id, 60.0, id.cure, &[1, 2, 3]);
    });
    fs::write(folder.join("slow.json"), slow.to_text()).expect("written");
    let link = answer_in(
        &folder,
        &["link", "slow.json", "--page", "https://example.org/"],
    );
    let link = link.trim();
    fs::write(
        folder.join("in/5-pasted.txt"),
        format!("\n{link}\n{}\n", &link[..link.len() / 2]),
    )
    .expect("written");

    // Cheats: a healthy vehicle in place of the own, somebody else's vehicle, a fault cleared by an act of the instructor's, an undo in an exam,
    // an exam that was none, an edit, a file cut short, an act that was refused.
    let mut cheat = take("cheat");
    let honest = cheat.clone();
    cheat.scenario.condition = lowside_session::scenario::ConditionSpec::default();
    cheat.scenario.start = lowside_session::scenario::StartSpec::default();
    hand_in(&folder, "c1.json", &done(&cheat, look));
    let mut swapped = done(&take("d_d"), look);
    swapped.sitting.learner = Some("cheat".to_owned());
    hand_in(&folder, "c2.json", &swapped);
    let live = FaultId::find("orifice-clogged").expect("a row");
    let cleared = done(&honest, |bay| {
        act(
            bay,
            InstructorAct::ClearFault {
                fault: live,
                secret: true,
            },
        );
        look(bay);
    });
    hand_in(&folder, "c3.json", &cleared);
    let mut undone = done(&honest, look);
    let acts = vec![undone.log[0]];
    undone.sitting.lines.push(Undone { tick: 0, acts });
    hand_in(&folder, "c4.json", &undone);
    let mut eased = done(&honest, look);
    eased.sitting.sight = Sight::Hands;
    hand_in(&folder, "c5.json", &eased);
    let text = done(&honest, look).to_text();
    fs::write(
        folder.join("in/c6.json"),
        text.replace("high-gauge", "low-gauge"),
    )
    .expect("written");
    fs::write(folder.join("in/c7.json"), &text[..text.len() / 2]).expect("written");
    let impossible = unsealed(&text).replacen("[[0,", "[[0,{\"do\":\"tap\",\"on\":true}],[0,", 1);
    fs::write(folder.join("in/c8.json"), impossible).expect("written");
    let mut stranger = done(&honest, look);
    stranger.sitting.learner = Some("nobody".to_owned());
    hand_in(&folder, "c9.json", &stranger);
    let mut older = done(&honest, look);
    older.physics = Some("0123456789abcdef".to_owned());
    hand_in(&folder, "d1.json", &older);
    fs::write(folder.join("in/d2.json"), "not a take").expect("written");

    let said = answer_in(
        &folder,
        &["mark", "in", "--key", "key.json", "-o", "marks.csv"],
    );
    let table = fs::read_to_string(folder.join("marks.csv")).expect("a table");
    let rows: Vec<Vec<&str>> = table.lines().map(|row| row.split(',').collect()).collect();
    let column = |name: &str| {
        rows[0]
            .iter()
            .position(|head| *head == name)
            .expect("a column")
    };
    let row = |name: &str| {
        rows.iter()
            .find(|row| row[0].ends_with(name))
            .expect("a row")
    };
    let total = |name: &str| row(name)[column("total")].parse::<f64>().expect("marks");
    assert!(total("1-expert.json") >= 60.0, "{table}");
    assert!(total("2-guesser.json") < 30.0, "{table}");
    assert!(total("3-reckless.json") < total("1-expert.json"), "{table}");
    assert!(total("4-idle.json").abs() < 1e-9, "{table}");
    let pasted = row("5-pasted.txt:2");
    assert_eq!(pasted[column("learner")], "slow", "{table}");
    assert_eq!(
        pasted[column("time")],
        "0.0",
        "an hour is too long: {table}"
    );
    assert_eq!(pasted[column("readings")], "3");
    for (name, why) in [
        ("5-pasted.txt:3", "damaged or cut short"),
        ("c1.json", "altered: the vehicle in it"),
        ("c2.json", "foreign: vehicle 4"),
        ("c3.json", "impossible: an act of an instructor"),
        ("c4.json", "impossible: acts were undone"),
        ("c5.json", "altered: it was not worked in as"),
        ("c6.json", "seal"),
        ("c7.json", "cut short"),
        ("c8.json", "act 1 of the log"),
        ("c9.json", "foreign: the key knows no learner"),
        ("d1.json", "another physics"),
        ("d2.json", "begins with no {"),
    ] {
        let reason = row(name)[column("reason")..].join(",");
        assert!(reason.contains(why), "{name}: {reason}");
        assert_eq!(row(name)[column("total")], "", "{name}");
    }
    assert!(
        said.contains(&format!("{}: {wrong}", truth(&folder, "bo.c").id)),
        "{said}"
    );
}

#[test]
fn what_is_asked_wrongly_of_a_packet_is_told() {
    let folder = folder("handout_refused");
    fs::create_dir(folder.join("class")).expect("a folder");
    fs::write(folder.join("few.txt"), "a\nb\n").expect("written");
    fs::write(folder.join("twice.txt"), "a\na\nc\n").expect("written");
    fs::write(folder.join("names.txt"), "Jos\u{e9} P.\n").expect("written");
    fs::write(folder.join("key.json"), "{\"format\":1}").expect("written");
    fs::write(folder.join("a.json"), "{}").expect("written");
    let packet = ["handout", "3", "--seed", "1", "-o", "class", "--key"];
    let cases: [(&[&str], &[&str]); 7] = [
        (
            &["k.json", "--learners", "few.txt"],
            &["has 2 learners for 3"],
        ),
        (
            &["k.json", "--learners", "twice.txt"],
            &["stands there twice"],
        ),
        (
            &["k.json", "--learners", "names.txt"],
            &["is not 1 to 40 letters"],
        ),
        (&["class/key.json"], &["--key", "stays with you"]),
        (&["k.json", "--readings", "x"], &["--readings"]),
        (&["k.json", "--seed", "2"], &["--seed"]),
        (&[], &["--key"]),
    ];
    for (more, parts) in cases {
        let args = [&packet[..], more].concat();
        assert_refused(&lowside_in(&folder, &args), &args, parts);
    }
    let none = [
        "handout", "0", "--seed", "1", "-o", "class", "--key", "k.json",
    ];
    assert_refused(
        &lowside_in(&folder, &none),
        &none,
        &["0 vehicles are outside 1 to 200"],
    );
    let mark = ["mark", "a.json", "--key", "key.json"];
    assert_refused(&lowside_in(&folder, &mark), &mark, &["key.json: not a key"]);
}
