//! Takes as text: what is written is read again, what is hidden is not to be seen, what was changed by hand is named.

use lowside_session::{
    Bay, HoseAct, Sight, Sitting, TICKS_PER_SECOND, Take, TakeError, VehicleAct, VesselAct,
    scramble::unscramble,
    take::{Card, End, Hint, PHYSICS, Part, Replay, Undone},
    timeline::Timeline,
};
use lowside_tests::{
    acts::{Dice, any},
    root,
    runs::scenario,
};
use serde_json::{Value, json};

/// A van with a fault and a leak that a file must not tell.
fn faulty() -> Bay {
    let set = [
        "start.charge=500g",
        "condition.orifice_open=20%",
        r#"condition.leak=[{at="low-port",rate="40 g/yr"}]"#,
    ];
    Bay::new(&scenario("healthy", &set))
}

fn job() -> Sitting {
    Sitting {
        card: Some(Card::Job("1-first-charge".to_owned())),
        ..Sitting::default()
    }
}

fn value(take: &Take) -> Value {
    serde_json::from_str(&take.to_text()).expect("JSON")
}

/// What reading says of a take in which something was changed.
fn said(take: &Take, change: impl FnOnce(&mut Value)) -> Result<Take, TakeError> {
    let mut value = value(take);
    change(&mut value);
    Take::parse(&value.to_string())
}

/// Some sitting.
fn sitting(dice: &mut Dice) -> Sitting {
    let tick = |dice: &mut Dice| dice.bits() % 4_000_000;
    let acts = |dice: &mut Dice| {
        (0..dice.bits() % 4)
            .map(|_| (tick(dice), any(dice)))
            .collect()
    };
    Sitting {
        card: match dice.bits() % 3 {
            0 => None,
            1 => Some(Card::Job("2-a_b.c".to_owned())),
            _ => Some(Card::Own("title = \"Año\"\n\t\\ {\"}".to_owned())),
        },
        sight: [Sight::Open, Sight::Hands, Sight::Exam][(dice.bits() % 3) as usize],
        handed_in: dice.chance(0.5).then(|| tick(dice)),
        opened: dice.chance(0.5).then(|| tick(dice)),
        learner: dice.chance(0.5).then(|| "K-17.b_C".to_owned()),
        seed: if dice.chance(0.5) { dice.bits() } else { 0 },
        hints: (0..dice.bits() % 3)
            .map(|_| Hint {
                tick: tick(dice),
                step: 3,
                hint: 1,
            })
            .collect(),
        lines: (0..dice.bits() % 3)
            .map(|_| Undone {
                tick: tick(dice),
                acts: acts(dice),
            })
            .collect(),
        mixed: dice.chance(0.5),
    }
}

#[test]
fn any_take_comes_back_from_its_text() {
    for seed in 0..200 {
        let mut dice = Dice::new(seed);
        let mut bay = faulty();
        for _ in 0..dice.bits() % 12 {
            // A refused act changes nothing.
            drop(bay.apply(any(&mut dice)));
            for _ in 0..dice.bits() % 4 {
                drop(bay.step());
            }
        }
        let take = Take::in_sitting(&bay, sitting(&mut dice));
        let text = take.to_text();
        let read = Take::parse(&text).unwrap_or_else(|e| panic!("seed {seed}: {e}\n{text}"));
        assert_eq!(read, take, "seed {seed}");
        assert_eq!(read.to_text(), text, "seed {seed}");
    }
}

#[test]
fn what_is_at_its_default_is_left_out() {
    let text = value(&Take::of(&faulty()));
    let keys: Vec<&String> = text.as_object().expect("an object").keys().collect();
    let there = [
        "format", "hash", "log", "physics", "scenario", "seal", "ticks",
    ];
    assert_eq!(keys, there);
    assert_eq!(text["physics"], PHYSICS);
}

/// A take of format 2 as it was before it had more than five fields.
#[test]
fn a_take_without_the_newer_fields_opens() {
    let file = root().join("tests/takes/healthy-cycling-4min.json");
    let text = std::fs::read_to_string(file).expect("a take");
    let mut text: Value = serde_json::from_str(&text).expect("JSON");
    for newer in ["physics", "seal"] {
        let fields = text.as_object_mut().expect("an object");
        assert!(fields.remove(newer).is_some(), "{newer}");
    }
    let text = text.to_string();
    let take = Take::parse(&text).expect("a take");
    assert_eq!(
        (take.physics.as_ref(), &take.sitting),
        (None, &Sitting::default())
    );
    assert!(take.is_comparable() && take.has_comparable_mark());
}

#[test]
fn what_a_technician_cannot_know_is_not_in_a_closed_takes_text() {
    let (bay, open) = (faulty(), Sitting::default());
    let hands = Sitting {
        sight: Sight::Hands,
        ..Sitting::default()
    };
    let own = Sitting {
        card: Some(Card::Own(
            "[scenario.condition]\norifice_open = \"20 %\"".to_owned(),
        )),
        ..Sitting::default()
    };
    let tells = |sitting: &Sitting| {
        let text = Take::in_sitting(&bay, sitting.clone()).to_text();
        [
            "orifice_open",
            "low-port",
            "\"0.5 kg\"",
            "condition",
            "\"start\"",
        ]
        .into_iter()
        .filter(|word| text.contains(word))
        .collect::<Vec<_>>()
    };
    assert!(tells(&open).len() >= 4, "an open bay's take is readable");
    for sitting in [job(), hands, own] {
        assert_eq!(tells(&sitting), [""; 0], "{sitting:?}");
        let take = Take::in_sitting(&bay, sitting);
        assert_eq!(Take::parse(&take.to_text()).as_ref(), Ok(&take));
        // A lid and no lock: the documented way opens it.
        let hidden = unscramble(value(&take)["hidden"].as_str().expect("text"));
        assert!(hidden.expect("scrambled").contains("orifice_open"));
    }
}

/// Every change of a value is found; spaces and the order of the parts are not what is sealed.
#[test]
fn a_careless_edit_is_named() {
    let mut bay = faulty();
    bay.apply(VehicleAct::Engine { on: true }).expect("on");
    let mut sitting = job();
    sitting.hints.push(Hint {
        tick: 0,
        step: 1,
        hint: 1,
    });
    let take = Take::in_sitting(&bay, sitting);
    let text = take.to_text();
    for (from, to) in [
        ("Healthy van", "Sound van"),
        ("\"tick\":0", "\"tick\":1"),
        ("\"on\":true", "\"on\":false"),
        ("1-first-charge", "2-first-charge"),
        ("\"ticks\":0", "\"ticks\":50"),
        ("kg\"", "g\""),
    ] {
        let e = Take::parse(&text.replacen(from, to, 1)).expect_err(from);
        let sealed = matches!(e, TakeError::Seal { .. });
        assert!(
            sealed && e.to_string().contains("changed after"),
            "{from}: {e}"
        );
    }
    let spaced = text.replace("\":", "\" :\n\t").replace(",\"", " ,  \"");
    assert!(spaced.len() > text.len() + 200);
    assert_eq!(Take::parse(&spaced).as_ref(), Ok(&take));
    let (rest, seal) = text.rsplit_once(",\"seal\":").expect("sealed last");
    let seal = seal.trim_end_matches('}');
    let first = rest.replacen('{', &format!("{{\"seal\":{seal},"), 1) + "}";
    assert_eq!(Take::parse(&first).as_ref(), Ok(&take));
    // It proves nothing: without its seal an edited take is read.
    let bare = said(&take, |v| {
        v["learner"] = json!("somebody");
        v.as_object_mut().map(|v| v.remove("seal"));
    });
    assert_eq!(
        bare.expect("read").sitting.learner.as_deref(),
        Some("somebody")
    );
}

#[test]
fn what_is_out_of_bounds_is_refused_by_its_part() {
    let take = Take::in_sitting(&faulty(), job());
    let long = "x".repeat(41);
    let many: Vec<Value> = (0..1001)
        .map(|tick| json!({"tick": tick, "step": 1, "hint": 1}))
        .collect();
    let act = json!([0, {"do": "tap", "on": true}]);
    let line = |acts: usize| json!({"tick": 0, "acts": vec![act.clone(); acts]});
    let cases = [
        ("learner", json!(""), Part::Learner),
        ("learner", json!(long), Part::Learner),
        ("learner", json!("Ana María"), Part::Learner),
        ("card", json!({"job": "../secret"}), Part::Card),
        ("card", json!({"own": "in clear"}), Part::Card),
        ("card", json!({"other": "x"}), Part::Card),
        ("sight", json!("through walls"), Part::Sight),
        ("seed", json!(-1), Part::Seed),
        ("hints", json!(many), Part::Hints),
        (
            "hints",
            json!([{"tick": 1_000_000_000, "step": 1, "hint": 1}]),
            Part::Hints,
        ),
        ("lines", json!([line(60_000), line(60_000)]), Part::Lines),
        ("lines", json!(vec![line(0); 201]), Part::Lines),
        (
            "lines",
            json!([{"tick": u64::MAX, "acts": []}]),
            Part::Lines,
        ),
        ("opened", json!(u64::MAX), Part::Opened),
        ("handed_in", json!("soon"), Part::HandedIn),
        ("mixed", json!(2), Part::Mixed),
        ("hidden", json!("7"), Part::Hidden),
        ("physics", json!(7), Part::Physics),
        ("seal", json!(7), Part::Seal),
    ];
    for (key, wrong, expected) in cases {
        let e = said(&take, |v| v[key] = wrong.clone()).expect_err(key);
        match &e {
            TakeError::Form { part, .. }
            | TakeError::TooLarge { part, .. }
            | TakeError::Range { part, .. } => assert_eq!(*part, expected, "{key}: {e}"),
            other => panic!("{key}: {other}"),
        }
    }
    // What is hidden is what may be hidden, and stands nowhere else.
    let scrambled = |text: &str| json!(lowside_session::scramble::scramble(text));
    for (hidden, clear) in [
        (r#"{"name":"Another"}"#, None),
        ("[]", None),
        (r#"{"start":{}}"#, Some(json!({}))),
    ] {
        let e = said(&take, |v| {
            v["hidden"] = scrambled(hidden);
            if let Some(start) = clear {
                v["scenario"]["start"] = start;
            }
        });
        let of = |e: TakeError| {
            matches!(
                e,
                TakeError::Form {
                    part: Part::Hidden,
                    ..
                }
            )
        };
        assert!(of(e.expect_err(hidden)), "{hidden}");
    }
}

/// An act that this physics refuses.
fn with_refused(physics: Option<&str>) -> Take {
    let mut bay = faulty();
    bay.apply(VehicleAct::Engine { on: true }).expect("on");
    let mut take = Take::of(&bay);
    take.log.push((0, VesselAct::Tap { on: true }.into()));
    take.log
        .push((0, VehicleAct::AirConditioning { on: true }.into()));
    take.ticks = TICKS_PER_SECOND;
    take.physics = physics.map(str::to_owned);
    Take::parse(&take.to_text()).expect("a take")
}

#[test]
fn a_take_of_another_physics_opens_without_what_is_refused() {
    let take = with_refused(Some("0123456789abcdef"));
    assert!(!take.is_comparable() && !take.has_comparable_mark());
    let mut replay = take.replay();
    assert_eq!(replay.run(u64::MAX), Ok(true));
    let [skipped] = replay.skipped() else {
        panic!("{:?}", replay.skipped());
    };
    assert_eq!((skipped.index, skipped.action), (1, take.log[1].1));
    let (bay, end) = replay.end();
    assert_eq!(
        (end, bay.tick(), bay.log().len()),
        (End::Unknown, TICKS_PER_SECOND, 2)
    );
    // What goes on from there stays apart, also when it is recorded under this physics.
    let on = Take::in_sitting(&bay, take.sitting_here());
    assert!(on.is_comparable() && !on.has_comparable_mark());
    assert!(Take::parse(&on.to_text()).expect("a take").sitting.mixed);
}

#[test]
fn a_refused_act_of_the_same_physics_is_an_error() {
    for physics in [None, Some(PHYSICS)] {
        let take = with_refused(physics);
        let refused = take.resume().expect_err("a tap without a can");
        assert!(
            matches!(refused, TakeError::Act { index: 1, .. }),
            "{refused}"
        );
    }
}

/// An undone act counts once the bay has gone on without it, and so does what was left on another line.
#[test]
fn undone_acts_are_kept_with_the_tick_gone_back_to() {
    let mut bay = faulty();
    let mut past = Timeline::new(&bay);
    let pass = |bay: &mut Bay, past: &mut Timeline| {
        past.go_on(bay);
        for _ in 0..100 {
            bay.step().expect("it goes on");
            past.record(bay);
        }
    };
    pass(&mut bay, &mut past);
    bay.apply(HoseAct::LowCoupler { on: false }).expect("off");
    pass(&mut bay, &mut past);
    bay.apply(HoseAct::HighCoupler { on: false }).expect("off");
    let log = bay.log().to_vec();
    // Undone and done again is not undone.
    bay = past.undo(&bay).expect("an act");
    bay = past.redo(&bay).expect("the act");
    assert_eq!(past.undone(), []);
    bay = past.seek(&bay, 50);
    assert_eq!(past.undone(), [], "a look back is none");
    past.go_on(&bay);
    bay.apply(VehicleAct::Windows { on: true }).expect("open");
    let first = Undone {
        tick: 50,
        acts: log.clone(),
    };
    assert_eq!(past.undone(), [first]);
    let first = past.lines(&bay)[0].id;
    let other = bay.log().to_vec();
    bay = past.switch(&bay, first).expect("the first line");
    assert_eq!(bay.log(), log);
    let second = Undone {
        tick: 50,
        acts: other,
    };
    assert_eq!(past.undone()[1..], [second]);
    let sitting = Sitting {
        lines: past.undone().to_vec(),
        ..Sitting::default()
    };
    let take = Take::in_sitting(&bay, sitting);
    assert_eq!(Take::parse(&take.to_text()), Ok(take));
}

#[test]
fn the_oldest_undone_acts_make_room() {
    let mut past = Timeline::new(&faulty());
    let undone = |tick: u64, acts: usize| Undone {
        tick,
        acts: vec![(tick, VesselAct::TakeCan.into()); acts],
    };
    past.remember((0..300).map(|tick| undone(tick, 1)));
    assert_eq!((past.undone().len(), past.undone()[0].tick), (200, 100));
    past.remember([undone(400, 99_999)]);
    let ticks: Vec<u64> = past.undone().iter().map(|u| u.tick).collect();
    assert_eq!(ticks, [299, 400], "at most 100 000 acts in all");
}

/// A replay that begins at a checkpoint ends in the same bits, and a checkpoint that does not fit is let go.
#[test]
fn a_checkpoint_shortens_a_replay_and_never_changes_it() {
    let mut bay = faulty();
    let pass = |bay: &mut Bay, ticks: u64| {
        for _ in 0..ticks {
            bay.step().expect("it goes on");
        }
    };
    pass(&mut bay, 300);
    bay.apply(HoseAct::LowCoupler { on: false }).expect("off");
    pass(&mut bay, 300);
    let kept = bay.save().expect("finite");
    let early = Take::of(&bay);
    bay.apply(HoseAct::HighCoupler { on: false }).expect("off");
    pass(&mut bay, 300);
    let take = Take::of(&bay);
    let from = |take: &Take, text: &str| {
        let mut replay = Replay::from_checkpoint(take, text)?;
        assert_eq!(replay.bay().tick(), 600);
        assert_eq!(replay.run(u64::MAX), Ok(true));
        let (bay, end) = replay.end();
        assert_eq!(end, End::Same);
        Some(bay)
    };
    let again = from(&take, &kept).expect("its own");
    assert_eq!(
        (again.log(), again.differences(&bay)),
        (bay.log(), Vec::new())
    );
    from(&early, &kept).expect("its end");

    let other = |from: &str, to: &str| {
        let text = kept.replacen(from, to, 1);
        assert_ne!(text, kept);
        text
    };
    let physics = other(PHYSICS, "0123456789abcdef");
    let edited = other("\"tick\":600", "\"tick\":601");
    for text in [&physics, &edited, "{}", ""] {
        assert!(Replay::from_checkpoint(&take, text).is_none(), "{text:.60}");
    }
    let mut shorter = early.clone();
    shorter.ticks = 599;
    let mut elsewhere = take.clone();
    elsewhere.physics = Some("0123456789abcdef".to_owned());
    let mut undone = take.clone();
    undone.log.clear();
    for take in [shorter, elsewhere, undone] {
        assert!(Replay::from_checkpoint(&take, &kept).is_none());
    }
}
