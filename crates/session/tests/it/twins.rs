//! A bay beside a bay: without changes it is the same to the bit, with changes it is what a bay opened with them would be.

#![expect(
    clippy::print_stdout,
    reason = "what a twin takes is wanted in the log"
)]

use lowside_fluids::Blend;
use lowside_session::{
    Abreast, Action, Bay, BenchAct, Change, Halt, HoseAct, Scenario, Tick, Timeline, Twin,
    VehicleAct, VesselAct, acts, library, summary::Window,
};
use lowside_shop::{joints::Joint, parts::Part};
use lowside_tests::{
    acts::{Dice, any},
    runs::{act, run, scenario},
};
use lowside_units::{GaugePressure, Length, Quantity, Ratio};

/// A bay that is charged from cans, before anything was done.
fn opened() -> Bay {
    Bay::new(&scenario("charge-from-cans", &["act=[]"]))
}

fn start(first: &Bay, settings: &[&str]) -> Change {
    Change::Start(Box::new(with(first, settings)))
}

fn with(first: &Bay, settings: &[&str]) -> Scenario {
    let settings: Vec<String> = settings.iter().map(|s| (*s).to_owned()).collect();
    let shipped = |name: &str| library::vehicle(name).map(str::to_owned);
    let scenario = first.scenario().with(&settings, shipped);
    scenario.unwrap_or_else(|e| panic!("{settings:?}: {e}"))
}

/// Lets ticks pass with random acts, one every two seconds or so; `look` sees the bay after every act and every tick.
fn visit(first: &mut Bay, dice: &mut Dice, ticks: Tick, mut look: impl FnMut(&Bay)) {
    for _ in 0..ticks {
        if dice.chance(0.01) && first.apply(any(dice)).is_ok() {
            look(first);
        }
        first.step().expect("the engine goes on");
        look(first);
    }
}

/// What came of doing a log again.
struct Redone {
    refused: usize,
    halt: Option<Halt>,
}

/// Does a log in a bay as a person would who goes on when something is refused, up to a tick or where it halts.
fn redo(bay: &mut Bay, log: &[(Tick, Action)], end: Tick) -> Redone {
    let (mut refused, mut acts) = (0, log.iter().peekable());
    loop {
        while let Some((_, action)) = acts.next_if(|(tick, _)| *tick <= bay.tick()) {
            refused += usize::from(bay.apply(*action).is_err());
        }
        let halt = (bay.tick() < end).then(|| bay.step().err());
        if let None | Some(Some(_)) = halt {
            let halt = halt.flatten();
            return Redone { refused, halt };
        }
    }
}

fn assert_same(twin: &Twin, bay: &Bay, what: &str) {
    assert_eq!(twin.bay().state_hash(), bay.state_hash(), "{what}: state");
    assert_eq!(twin.bay().log(), bay.log(), "{what}: log");
    assert_eq!(twin.bay().events(), bay.events(), "{what}: events");
}

#[test]
fn a_twin_without_changes_is_its_bay_to_the_bit() {
    for seed in 0..40 {
        let mut first = opened();
        let mut twin = Twin::new(&first, &[]).expect("no change");
        visit(&mut first, &mut Dice::new(seed), 3000, |bay| {
            twin.follow(bay);
            if bay.tick().is_multiple_of(50) {
                let hashes = (twin.bay().state_hash(), bay.state_hash());
                assert_eq!(hashes.0, hashes.1, "seed {seed}, tick {}", bay.tick());
            }
        });
        assert_same(&twin, &first, &format!("seed {seed}"));
        assert_eq!(twin.refused(), 0, "seed {seed}");
        let mut late = Twin::new(&first, &[]).expect("no change");
        late.follow(&first);
        assert_same(&late, &first, &format!("seed {seed}, opened at the end"));
    }
}

#[test]
fn a_twin_with_another_start_is_the_bay_opened_so() {
    let settings = [
        "condition.condenser_air=40%",
        "condition.leak=[{at=\"condenser-top\",hole=\"0.5 mm\"}]",
        "condition.low_core_stuck=true",
        "start.charge=700g",
        "start.air=3g",
        "start.other_refrigerant=20%",
        "day.ambient=20degC",
        "engine.on=true",
        "vehicle=crossover",
        "vehicle=utility-van-r12",
    ];
    let mut refused = 0;
    for (setting, seed) in settings.iter().cycle().zip(100..140) {
        let what = format!("{setting}, seed {seed}");
        let mut first = opened();
        let mut twin = Twin::new(&first, &[start(&first, &[setting])]).expect("another start");
        visit(&mut first, &mut Dice::new(seed), 2500, |bay| {
            twin.follow(bay);
        });
        assert_ne!(twin.bay().state_hash(), first.state_hash(), "{what}");
        let mut alone = Bay::new(&with(&first, &[setting]));
        let skipped = redo(&mut alone, first.log(), first.tick()).refused;
        assert_same(&twin, &alone, &what);
        assert_eq!(twin.refused(), skipped, "{what}");
        refused += skipped;
    }
    assert!(refused > 5, "{refused} acts were refused");
}

/// What follows from an act that is left out is refused, skipped and counted; the rest is done.
#[test]
fn an_act_is_left_out() {
    let mut first = opened();
    let mut twin = Twin::new(&first, &[Change::LeaveOut(1)]).expect("one act less");
    let open = Ratio::from_percent(50.0);
    for action in acts![
        VehicleAct::Engine { on: true },
        VesselAct::TakeCan,
        VesselAct::Tap { on: true },
        HoseAct::LowValve { open },
        VesselAct::Invert { on: true },
        VehicleAct::AirConditioning { on: true },
    ] {
        act(&mut first, action);
        run(&mut first, 5.0);
        twin.follow(&first);
    }
    let done: Vec<Action> = twin.bay().log().iter().map(|(_, action)| *action).collect();
    let left = acts![
        VehicleAct::Engine { on: true },
        HoseAct::LowValve { open },
        VehicleAct::AirConditioning { on: true },
    ];
    assert_eq!(done, left);
    assert_eq!(twin.refused(), 2);
    let mut alone = opened();
    redo(&mut alone, twin.bay().log(), first.tick());
    assert_same(&twin, &alone, "left out");
}

/// Acts of its own are done after those of the log at the same tick, in the order stated, and the clock's order where ticks differ.
#[test]
fn acts_are_added() {
    let mut first = opened();
    let step = |step| Action::from(VehicleAct::Blower { step });
    let changes = [
        Change::Add(100, step(3)),
        Change::Add(50, step(1)),
        Change::Add(50, step(2)),
        Change::Add(9999, step(4)),
    ];
    let mut twin = Twin::new(&first, &changes).expect("acts more");
    run(&mut first, 1.0);
    act(&mut first, step(4));
    twin.follow(&first);
    run(&mut first, 3.0);
    twin.follow(&first);
    let log = [(50, step(4)), (50, step(1)), (50, step(2)), (100, step(3))];
    assert_eq!(twin.bay().log(), log);
    let mut alone = opened();
    redo(&mut alone, &log, first.tick());
    assert_same(&twin, &alone, "added");
}

/// A sound vehicle from now has the day, the settings and the cabin of now, no fault and the label's charge, and does what is done
/// from now on.
#[test]
fn a_sound_twin_begins_now() {
    let faults = ["condition.condenser_air=40%", "start.charge=500g"];
    let mut first = Bay::new(&scenario("healthy", &faults));
    act(&mut first, VehicleAct::Engine { on: true });
    run(&mut first, 200.0);
    let mut twin = Twin::sound(&first);
    let (then, now) = (first.plant(), twin.bay().plant());
    assert_eq!((now.day(), now.settings), (then.day(), then.settings));
    let cabin = |bay: &Bay| bay.plant().cabin.air.t.to_bits();
    assert_eq!(cabin(twin.bay()), cabin(&first));
    assert!((now.condition.condenser_air - 1.0).abs() < 1e-12);
    let label = now.vehicle.label_charge.kg();
    assert!((twin.bay().charge() - label).abs() < 1e-9, "{label} kg");
    act(&mut first, VehicleAct::Blower { step: 1 });
    run(&mut first, 10.0);
    twin.follow(&first);
    assert_eq!(twin.bay().log().len(), 1, "one act from now on");
    assert_eq!(twin.bay().plant().settings.blower, 1);
    assert!((twin.bay().seconds() - 10.0).abs() < 1e-9);
}

/// What hands have fitted belongs to the vehicle from then on, and is sound however they fitted it: a tube the wrong way round and
/// without its rings is a fault of the work.
#[test]
fn a_sound_twin_has_what_was_fitted() {
    let mut first = Bay::new(&scenario(
        "before-retrofit",
        &["act=[]", "start.charge=0 g"],
    ));
    let (bore, opens) = (Length::from_mm(1.6), GaugePressure::from_kpa(2800.0));
    assert_eq!(first.plant().drive.cut_out_opens(), None, "as it was built");
    act(&mut first, BenchAct::FitCutOut { opens });
    let (joint, part) = (Joint::EvaporatorIn, Part::Orifice);
    for on_bench in [
        BenchAct::OpenJoint { joint },
        BenchAct::RemovePart { part },
        BenchAct::FitOrifice {
            bore,
            reversed: true,
            rings: false,
        },
    ] {
        act(&mut first, on_bench);
    }
    let twin = Twin::sound(&first);
    let (now, then) = (twin.bay().plant(), first.plant());
    assert!(then.seat.turned && !then.seat.sealed);
    assert_eq!(now.seat.bore.to_bits(), then.seat.bore.to_bits());
    assert!(now.seat.fitted && !now.seat.turned && now.seat.sealed);
    let cut_out = now.drive.cut_out_opens().expect("fitted");
    assert!((cut_out - opens.si()).abs() < 1e-6, "{cut_out} Pa");
    assert!(now.drive.cut_out.closed);
}

/// A twin that cannot go on stands still and says so; the bay beside it goes on. A suction line that holds nothing and a condenser
/// without air halt a van with too much of everything within a minute.
#[test]
fn a_halted_twin_stops_nobody_else() {
    let mut first = Bay::new(&scenario("healthy", &["act=[]"]));
    let halts = [
        "vehicle.suction_line.volume=20 cm3",
        "condition.condenser_air=0 %",
        "start.charge=1.7 kg",
        "start.oil=800 g",
    ];
    let changes = [start(&first, &halts)];
    let mut twin = Twin::new(&first, &changes).expect("another start");
    for _ in 0..120 {
        run(&mut first, 0.5);
        act(&mut first, VehicleAct::Blower { step: 2 });
        twin.follow(&first);
    }
    let halt = twin.halt().expect("it says so");
    assert_eq!((first.halt(), first.tick()), (None, 3000));
    let mut alone = Bay::new(&with(&first, &halts));
    assert_eq!(redo(&mut alone, twin.bay().log(), 3000).halt, Some(halt));
    assert_same(&twin, &alone, "halted");
    assert_eq!(twin.refused(), 0, "what comes after is not refused");
}

/// Half the condenser's air lifts the high side of an idling van on a 35 degC day by at least 150 kPa (fault tables of the trade,
/// common practice, no single source).
#[test]
fn less_condenser_air_beside_sound_air_lifts_the_high_side() {
    let mut first = Bay::new(&scenario("healthy", &["act=[]", "engine.speed=800rpm"]));
    let setting = "condition.condenser_air=50%";
    let mut twin = Twin::new(&first, &[start(&first, &[setting])]).expect("less air");
    let mut windows = [Window::default(), Window::default()];
    while first.seconds() < 600.0 {
        first.step().expect("the engine goes on");
        twin.follow(&first);
        windows[0].take(&first);
        windows[1].take(twin.bay());
    }
    let high = |w: &Window, bay: &Bay| w.summary(bay).high_kPa_abs_clutch_on_mean.expect("in");
    let [first, twin] = [high(&windows[0], &first), high(&windows[1], twin.bay())];
    assert!(twin >= first + 150.0, "{twin:.0} against {first:.0} kPa");
}

/// Beside a bay that runs a twin allocates nothing that a bay alone would not, and holds its own state only: no second property
/// tables, no second data sheet, no second script.
#[test]
fn a_twin_is_cheap() {
    let ticks = |bay: &mut Bay, with: &mut dyn FnMut(&Bay)| {
        for _ in 0..3000 {
            bay.step().expect("the engine goes on");
            with(bay);
        }
    };
    let first = Bay::new(&scenario("healthy", &["start.other_refrigerant=20%"]));
    let mut warm = first.clone();
    ticks(&mut warm, &mut |_| {});

    let mut bay = first.clone();
    let alone = allocation_counter::measure(|| ticks(&mut bay, &mut |_| {}));
    let mut bay = first.clone();
    let mut twins = vec![Twin::new(&first, &[]).expect("no change"); 8];
    let beside = allocation_counter::measure(|| {
        ticks(&mut bay, &mut |bay| {
            for twin in &mut twins {
                twin.follow(bay);
            }
        });
    });
    let most = 9 * alone.count_total;
    assert!(beside.count_total <= most, "{beside:?}, alone {alone:?}");

    let changes = [start(&first, &["start.air=2g"])];
    let mut twin = None;
    let held = allocation_counter::measure(|| twin = Twin::new(&first, &changes).ok());
    let mut tables = None;
    let blend = Blend::by_mass(0.3).expect("a share");
    let of_tables = allocation_counter::measure(|| tables = Some(blend.table()));
    println!("alone {alone:?}\nbeside {beside:?}\ntwin {held:?}\ntables {of_tables:?}");
    assert!(twin.is_some() && tables.is_some());
    assert!(held.bytes_current < 64 * 1024, "{held:?}");
    assert!(
        held.bytes_current < of_tables.bytes_current / 4,
        "{held:?}, {of_tables:?}"
    );
}

/// Wherever the first bay goes, on, back, to what it did before or something else, a twin abreast of it is what a new one would be.
#[test]
fn a_twin_abreast_goes_back_in_time_and_on_another_line() {
    let mut bay = opened();
    let mut past = Timeline::new(&bay);
    let changes = [start(&bay, &["condition.condenser_air=50%"])];
    let mut beside = Abreast::new(&bay, &changes).expect("it can be changed");
    let mut dice = Dice::new(11);
    let (mut parted, mut longest) = (0, 0);
    for turn in 0..40 {
        match turn % 4 {
            // Back to any moment, and sometimes to the last.
            1 if dice.chance(0.7) => {
                let to = dice.bits() % (bay.tick() + 1);
                bay = past.seek(&bay, to);
            }
            1 => {
                let end = past.end(&bay);
                bay = past.seek(&bay, end);
            }
            2 => {
                if let Some(before) = past.undo(&bay) {
                    bay = before;
                }
            }
            3 => {
                if let Some(again) = past.redo(&bay) {
                    bay = again;
                }
            }
            _ => {
                let lines = past.lines(&bay).len();
                past.go_on(&bay);
                let mut record = |bay: &Bay| past.record(bay);
                visit(&mut bay, &mut dice, 2_500, &mut record);
                parted += usize::from(past.lines(&bay).len() > lines);
            }
        }
        let mut ticks = 0;
        while !beside.follow(&bay, 1_000, |_| ticks += 1) {}
        longest = longest.max(ticks);
        let mut fresh = Twin::new(&bay, &changes).expect("it can be changed");
        fresh.follow(&bay);
        assert_eq!(beside.bay().differences(fresh.bay()), [], "turn {turn}");
        assert_eq!(beside.bay().tick(), bay.tick());
        assert!(beside.is_beside(&bay));
    }
    assert!(parted > 3, "{parted} lines");
    assert!(longest < 6_000, "{longest} ticks at once");
    assert!(!beside.is_beside(&Bay::new(&scenario("healthy", &[]))));
}

/// Any moment of two hours is near.
#[test]
fn a_twin_abreast_is_a_minute_away_from_any_moment_at_most() {
    let mut bay = Bay::new(&scenario("healthy", &[]));
    let mut past = Timeline::new(&bay);
    let mut beside = Abreast::new(&bay, &[]).expect("no change");
    for _ in 0..7_200 * 50 {
        bay.step().expect("it goes on");
        past.record(&bay);
    }
    while !beside.follow(&bay, 10_000, |_| {}) {}
    for minutes in [3, 117, 60, 119, 1] {
        let then = past.seek(&bay, minutes * 3_000 + 1_234);
        let mut ticks = 0;
        while !beside.follow(&then, 1_000, |_| ticks += 1) {}
        assert_eq!(beside.bay().state_hash(), then.state_hash(), "no change");
        assert!(ticks <= 3_000, "{ticks} ticks to minute {minutes}");
    }
}
