//! Going back in time gives the same bits as having been there, whatever was done since; nothing outside is needed to check it.
use std::time::Instant;

use lowside_session::{
    Action, Bay, Event, HoseAct, TICKS_PER_SECOND, Take, VehicleAct, VesselAct, acts,
    predicate::Predicate,
    timeline::{self, Timeline},
    wait::{Goal, Outcome, Wait},
};
use lowside_tests::{
    acts::{Dice, any},
    runs::scenario,
};
use lowside_units::{Duration, Quantity, Ratio, Temperature};

/// A running bay whose past is recorded.
struct Run {
    bay: Bay,
    past: Timeline,
}

impl Run {
    fn new(name: &str) -> Self {
        let mut scenario = scenario(name, &[]);
        scenario.act.clear();
        let bay = Bay::new(&scenario);
        let past = Timeline::new(&bay);
        Self { bay, past }
    }

    fn act(&mut self, action: impl Into<Action>) {
        self.past.go_on(&self.bay);
        // A refused act changes nothing.
        drop(self.bay.apply(action));
    }

    fn pass(&mut self, ticks: u64) {
        self.past.go_on(&self.bay);
        for _ in 0..ticks {
            self.bay.step().expect("the engine goes on");
            self.past.record(&self.bay);
        }
    }
}

#[test]
fn any_moment_comes_back_to_the_bit() {
    for seed in 0..4 {
        let mut dice = Dice::new(seed);
        let mut run = Run::new(if seed % 2 == 0 {
            "healthy"
        } else {
            "charge-from-cans"
        });
        let mut seen = Vec::new();
        for _ in 0..60 {
            run.act(any(&mut dice));
            run.pass(dice.bits() % 200);
            seen.push((
                run.bay.tick(),
                run.bay.log().len(),
                run.bay.state_hash().expect("finite"),
            ));
            run.pass(1);
        }
        let end = run.bay.state_hash().expect("finite");
        for k in [3, 59, 0, 31, 30, 12] {
            let (tick, acts, hash) = seen[k];
            run.bay = run.past.seek(&run.bay, tick);
            assert_eq!(run.bay.tick(), tick);
            assert_eq!(run.bay.log().len(), acts, "the acts up to then, no more");
            assert_eq!(
                run.bay.state_hash().expect("finite"),
                hash,
                "seed {seed}, moment {k}"
            );
            assert!(run.past.looks_back());
        }
        run.bay = run.past.seek(&run.bay, u64::MAX);
        assert_eq!(
            run.bay.state_hash().expect("finite"),
            end,
            "and the end comes back too"
        );
        assert!(!run.past.looks_back());
        assert_eq!(
            Take::of(&run.bay)
                .resume()
                .expect("replays")
                .state_hash()
                .expect("finite"),
            end,
            "a take made after all that is sound"
        );
    }
}

#[test]
fn going_on_from_the_past_parts_the_lines() {
    let mut run = Run::new("healthy");
    run.pass(40 * TICKS_PER_SECOND);
    run.act(VehicleAct::Engine { on: false });
    run.pass(40 * TICKS_PER_SECOND);
    let old = (run.bay.tick(), run.bay.state_hash().expect("finite"));
    run.bay = run.past.seek(&run.bay, 20 * TICKS_PER_SECOND);
    assert_eq!(run.past.end(&run.bay), old.0, "the line is still there");
    run.act(VehicleAct::Windows { on: true });
    run.pass(30 * TICKS_PER_SECOND);
    let new = run.bay.state_hash().expect("finite");
    let lines = run.past.lines(&run.bay);
    assert_eq!(lines.len(), 2);
    assert!(lines[1].current && lines[1].from == 20 * TICKS_PER_SECOND);
    assert_eq!((lines[0].end, lines[0].acts), (old.0, 1));
    assert!(
        run.past.switch(&run.bay, lines[1].id).is_none(),
        "one is there"
    );
    run.bay = run
        .past
        .switch(&run.bay, lines[0].id)
        .expect("the old line");
    assert_eq!((run.bay.tick(), run.bay.state_hash().expect("finite")), old);
    run.bay = run
        .past
        .switch(&run.bay, lines[1].id)
        .expect("the new line");
    assert_eq!(run.bay.state_hash().expect("finite"), new);
    // Without acts to lose nothing parts.
    run.bay = run.past.seek(&run.bay, 45 * TICKS_PER_SECOND);
    run.pass(5 * TICKS_PER_SECOND);
    assert_eq!(run.past.lines(&run.bay).len(), 2);
    assert_eq!(
        run.bay.state_hash().expect("finite"),
        new,
        "the same came again"
    );
    for k in 1..20 {
        run.pass(50);
        run.act(VehicleAct::Engine { on: k % 2 == 0 });
        run.pass(50);
        run.bay = run.past.seek(&run.bay, run.bay.tick() - 60);
        run.pass(10);
    }
    assert_eq!(run.past.lines(&run.bay).len(), timeline::MOST_LINES);
}

#[test]
fn acts_are_taken_back_and_done_again() {
    let mut run = Run::new("charge-from-cans");
    assert_eq!(run.past.can(&run.bay), (false, false));
    assert!(run.past.undo(&run.bay).is_none());
    let mut states = vec![run.bay.state_hash().expect("finite")];
    run.act(VesselAct::TakeCan);
    run.act(VesselAct::Tap { on: true });
    states.push(run.bay.state_hash().expect("finite"));
    run.pass(500);
    states.push(run.bay.state_hash().expect("finite"));
    run.act(HoseAct::LowValve {
        open: Ratio::from_si(1.0),
    });
    run.pass(700);
    let end = run.bay.state_hash().expect("finite");

    run.bay = run.past.undo(&run.bay).expect("the valve");
    assert_eq!(
        (run.bay.tick(), run.bay.state_hash().expect("finite")),
        (500, states[2])
    );
    run.bay = run.past.undo(&run.bay).expect("the tap");
    run.bay = run.past.undo(&run.bay).expect("the can");
    assert_eq!(
        (run.bay.tick(), run.bay.state_hash().expect("finite")),
        (0, states[0])
    );
    assert_eq!(run.past.can(&run.bay), (false, true));
    run.bay = run.past.redo(&run.bay).expect("the can again");
    run.bay = run.past.redo(&run.bay).expect("the tap again");
    assert_eq!(
        run.bay.state_hash().expect("finite"),
        states[2],
        "up to the valve"
    );
    run.bay = run.past.redo(&run.bay).expect("the valve again");
    assert_eq!(run.bay.state_hash().expect("finite"), end);
    assert!(run.past.redo(&run.bay).is_none());
    // After another act the one taken back stays on the old line.
    run.bay = run.past.undo(&run.bay).expect("the valve");
    run.act(VesselAct::Tap { on: false });
    assert_eq!(run.past.lines(&run.bay).len(), 2);
    assert!(run.past.redo(&run.bay).is_none());
}

#[test]
fn a_long_past_stays_small_and_near() {
    let mut run = Run::new("charge-from-cans");
    let hours = 3;
    run.pass(hours * 3600 * TICKS_PER_SECOND);
    let kept = run.past.checkpoints();
    assert!(kept <= timeline::MOST_CHECKPOINTS, "{kept} checkpoints");
    // Going anywhere costs at most one gap: in three hours, twice three hours shared among the checkpoints.
    let gap = 2.0 * hours as f64 * 3600.0 / kept as f64;
    let mut worst: f64 = 0.0;
    for k in 1..40 {
        let start = Instant::now();
        run.bay = run.past.seek(&run.bay, k * 263 * TICKS_PER_SECOND + 949);
        worst = worst.max(start.elapsed().as_secs_f64());
    }
    // Generous: test machines are shared, and this one is not the browser.
    assert!(worst < 1.0, "the slowest of 39 jumps took {worst:.3} s");
    assert!(gap < 90.0, "checkpoints stand {gap} s apart");
}

/// Ticks until a wait ends, looked at every `stride` ticks.
fn ends(goal: Goal, name: &str, acts: &[Action]) -> (u64, Outcome) {
    let mut run = Run::new(name);
    for a in acts {
        run.act(*a);
    }
    let mut wait = Wait::new(goal, &run.bay);
    loop {
        run.pass(1);
        match wait.look(&run.bay) {
            Outcome::Waiting => {}
            other => return (run.bay.tick(), other),
        }
    }
}

#[test]
fn waits_end_when_what_was_waited_for_is_there() {
    let passed = Goal::Passed(Duration::from_s(90.0));
    assert_eq!(
        ends(passed, "healthy", &[]),
        (90 * TICKS_PER_SECOND, Outcome::Met)
    );

    let charging = acts![
        VesselAct::TakeCan,
        VesselAct::Tap { on: true },
        HoseAct::LowValve {
            open: Ratio::from_si(1.0),
        },
        VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(45.0)),
        },
        VehicleAct::Engine { on: true },
        VehicleAct::AirConditioning { on: true },
        VehicleAct::Blower { step: 4 },
    ];
    let (t, outcome) = ends(Goal::Event(Event::CanEmpty), "charge-from-cans", &charging);
    assert_eq!(outcome, Outcome::Met);
    assert!(
        (60..1800).contains(&(t / TICKS_PER_SECOND)),
        "a can takes minutes: {t} ticks"
    );
    let (third, _) = ends(Goal::Cycles(3), "charge-from-cans", &charging);
    let (first, _) = ends(Goal::Cycles(1), "charge-from-cans", &charging);
    assert!(first < third && third < t, "{first} {third} {t}");

    let low: Predicate = "low > 0 psig".parse().expect("a condition");
    let (t, outcome) = ends(Goal::Predicate(low), "charge-from-cans", &charging);
    assert!(outcome == Outcome::Met && t < 120 * TICKS_PER_SECOND, "{t}");
    let (t, outcome) = ends(
        Goal::VentSteady,
        "healthy",
        &acts![VehicleAct::Engine { on: false }],
    );
    assert!(outcome == Outcome::Met && t > 60 * TICKS_PER_SECOND, "{t}");
    let never: Predicate = "vent > 90 degC".parse().expect("a condition");
    assert_eq!(
        ends(Goal::Predicate(never), "charge-from-cans", &[]).1,
        Outcome::GivenUp
    );
}

/// A line put aside is told with the whole log of its end, and a visit that begins anew goes on with the numbers of the last.
#[test]
fn lines_aside_are_told_and_numbered_on() {
    let mut run = Run::new("healthy");
    run.pass(200);
    run.act(VehicleAct::Windows { on: true });
    run.pass(200);
    let end = run.bay.clone();
    let back = run.past.seek(&run.bay, 100);
    run.bay = back;
    run.pass(50);
    let aside: Vec<_> = run.past.aside().collect();
    assert_eq!(aside.len(), 1);
    let (id, _, bay) = aside[0];
    assert_eq!((bay.log(), bay.tick()), (end.log(), end.tick()));
    assert_ne!(id, run.past.line());
    assert_eq!(run.past.from(), 100);
    assert!(run.past.next_id() > id.max(run.past.line()));

    let mut again = Timeline::new(&run.bay);
    again.number(7, 100, 9);
    assert_eq!((again.line(), again.from(), again.next_id()), (7, 100, 9));
    again.number(7, 100, 3);
    assert_eq!(again.next_id(), 8, "no number is given twice");
}
