//! What hand and eye tell of the surfaces, against the plant's walls and the day's air; where oil stains; what of a job card is seen.

use lowside_lessons::{
    Coat, Job, Shown, Surface, Touch,
    next::{Advice, NextStep, advice, closed_advice},
    progress::Standing,
    seen_toll,
    senses::{ICY, TELLS_APART, TOO_HOT, is_shown},
    toll,
};
use lowside_session::{Bay, BenchAct, HoseAct, TICKS_PER_SECOND, VehicleAct, VesselAct, acts};
use lowside_shop::{
    detect::Spot,
    joints::{Joint, Seal},
};
use lowside_tests::runs::scenario;
use lowside_units::Ratio;

/// The healthy van with overrides and without its script.
fn van(set: &[&str]) -> Bay {
    Bay::new(&scenario("healthy", &[&["act=[]"], set].concat()))
}

fn pass(bay: &mut Bay, seconds: u64) {
    for _ in 0..seconds * TICKS_PER_SECOND {
        bay.step().expect("the engine goes on");
    }
}

fn touch(bay: &Bay, surface: Surface) -> Touch {
    let feel = Shown::of(bay).surface(surface);
    feel.expect("it is there").touch
}

/// Dew point (K) by the Magnus form of Alduchov and Eskridge, "Improved Magnus Form Approximation of Saturation Vapor Pressure", 1996,
/// doi:10.1175/1520-0450(1996)035<0601:IMFAOS>2.0.CO;2, over water.
fn dew_point(t_k: f64, humidity: f64) -> f64 {
    let (a, b) = (17.625, 243.04);
    let t = t_k - 273.15;
    let x = humidity.ln() + a * t / (b + t);
    b * x / (a - x) + 273.15
}

/// A surface sweats below the dew point, and what is below it and below 0 degC is frosted; the day's air decides, not the loop.
#[test]
fn sweat_is_below_the_dew_point_and_frost_below_freezing_too() {
    let mut told = [0; 3];
    for (ambient, humidity) in [(308.15, 0.4), (303.15, 0.85), (313.15, 0.1), (289.15, 0.6)] {
        let day = [
            format!("day.ambient={ambient}K"),
            format!("day.humidity={humidity}"),
        ];
        let stuck = "condition.cycling_switch_stuck=true";
        let mut bay = van(&[&day[0], &day[1], stuck, "controls.blower=1"]);
        for _ in 0..60 {
            pass(&mut bay, 5);
            let dew = dew_point(ambient, humidity);
            for surface in Surface::ALL {
                let Some(feel) = Shown::of(&bay).surface(surface) else {
                    assert_eq!(surface, Surface::Vessel, "nothing hangs there");
                    continue;
                };
                let t = surface
                    .temperature(bay.plant(), bay.shop())
                    .expect("it is there");
                // Over ice the Magnus form is off by as much as a kelvin and a half here.
                let near = if dew < 273.15 { 1.5 } else { 0.3 };
                if (t - dew).abs() < near || (t - 273.16).abs() < 0.05 {
                    continue;
                }
                let coat = match (t < dew, t < 273.16) {
                    (false, _) => Coat::Dry,
                    (true, false) => Coat::Dew,
                    (true, true) => Coat::Frost,
                };
                assert_eq!(feel.coat, coat, "{surface:?} at {t} K, dew point {dew} K");
                told[coat as usize] += 1;
            }
        }
    }
    assert!(told.iter().all(|n| *n > 20), "dry, dew, frost: {told:?}");
}

/// A hand never takes the colder of two surfaces for the warmer one, whatever the day; and its steps lie where their names say.
#[test]
fn touch_rises_with_the_temperature_of_the_wall() {
    for day in [263.15, 283.15, 293.15, 308.15, 323.15, 331.15] {
        let steps: Vec<_> = (2300..3800)
            .map(|t| Touch::of(f64::from(t) / 10.0, day))
            .collect();
        assert!(steps.is_sorted(), "on a day of {day} K");
        assert_eq!((steps[0], steps[1499]), (Touch::Icy, Touch::TooHot));
    }
    let day = 298.15;
    for (t, step) in [
        (273.15, Touch::Icy),
        (ICY + 0.1, Touch::Cool),
        (day - TELLS_APART - 0.1, Touch::Cool),
        (day, Touch::AsTheDay),
        (day + TELLS_APART + 0.1, Touch::Warm),
        (TOO_HOT - 0.1, Touch::Warm),
        (TOO_HOT, Touch::TooHot),
    ] {
        assert_eq!(Touch::of(t, day), step, "{t} K");
    }
}

/// Common practice, no source: at rest all is as the day; running, the discharge line cannot be held, the liquid line is warm, the pipe behind
/// the orifice tube and the accumulator are cold; a van short of gas has a warmer accumulator than the pipe behind its tube.
#[test]
fn a_hand_tells_the_sides_of_a_running_loop() {
    let parked = van(&["engine.on=false"]);
    for surface in Surface::ALL.into_iter().filter(|s| *s != Surface::Vessel) {
        assert_eq!(touch(&parked, surface), Touch::AsTheDay, "{surface:?}");
    }
    let mut runs = van(&["day.ambient=303.15K"]);
    pass(&mut runs, 300);
    assert_eq!(touch(&runs, Surface::Discharge), Touch::TooHot);
    assert_eq!(touch(&runs, Surface::Liquid), Touch::Warm);
    for cold in [Surface::EvaporatorInlet, Surface::Accumulator] {
        assert!(touch(&runs, cold) <= Touch::Cool, "{cold:?}");
    }
    let mut short = van(&["day.ambient=303.15K", "start.charge=300 g"]);
    pass(&mut short, 300);
    let [pipe, accumulator] = [Surface::EvaporatorInlet, Surface::Accumulator].map(|surface| {
        surface
            .temperature(short.plant(), short.shop())
            .expect("it is there")
    });
    assert!(accumulator > pipe + 3.0, "{accumulator} K behind {pipe} K");
    assert!(touch(&short, Surface::EvaporatorInlet) <= touch(&short, Surface::Accumulator));
}

/// A can that gives its gas turns cold to the hand.
#[test]
fn a_can_that_gives_turns_cold() {
    let mut bay = Bay::new(&scenario("charge-from-cans", &["act=[]"]));
    assert_eq!(Shown::of(&bay).surface(Surface::Vessel), None);
    bay.apply(VesselAct::TakeCan).expect("possible");
    assert_eq!(touch(&bay, Surface::Vessel), Touch::AsTheDay);
    let open = Ratio::from_fraction(1.0);
    for act in acts![VesselAct::Tap { on: true }, HoseAct::LowValve { open }] {
        bay.apply(act).expect("possible");
    }
    pass(&mut bay, 120);
    assert!(touch(&bay, Surface::Vessel) <= Touch::Cool);
}

/// Where a loop leaks, its oil comes out too and stays (common practice, no source): the trade looks for it first.
#[test]
fn oil_stains_where_the_loop_leaks_or_has_blown() {
    let stains = |bay: &Bay| -> Vec<Spot> {
        let stained = Shown::of(bay).stained;
        Spot::all().filter(|spot| stained[spot.index()]).collect()
    };
    assert_eq!(stains(&van(&[])), []);
    let joint = Joint::CondenserIn;
    let leaky = van(&["condition.joint=[{at=\"condenser-in\",seal=\"old-dry\"}]"]);
    assert_eq!(stains(&leaky), [Spot::Joint(joint)]);
    let weep = van(&["condition.leak=[{at=\"shaft-seal\",rate=\"10 g/yr\"}]"]);
    assert_eq!(stains(&weep), [], "too little");
    let inside = van(&["condition.leak=[{at=\"evaporator-outlet\",hole=\"300 um\"}]"]);
    assert_eq!(stains(&inside), [], "its case hides it");
    // Opened under pressure it sprays; hands that close it wipe it.
    let mut bay = van(&[]);
    pass(&mut bay, 60);
    bay.apply(VehicleAct::Engine { on: false })
        .expect("possible");
    bay.apply(BenchAct::OpenJoint { joint }).expect("possible");
    pass(&mut bay, 60);
    assert_eq!(stains(&bay), [Spot::Joint(joint)]);
    let seal = Seal::NewOiled;
    bay.apply(BenchAct::CloseJoint { joint, seal })
        .expect("possible");
    assert_eq!(stains(&bay), []);
    // Nothing comes out of an empty one.
    let mut empty = Bay::new(&scenario("charge-from-cans", &["act=[]"]));
    empty
        .apply(BenchAct::OpenJoint { joint })
        .expect("possible");
    pass(&mut empty, 60);
    assert_eq!(stains(&empty), []);
}

/// A card's step whose goal nobody can see stands nowhere, nor does one that waits for such a step, and advice does not wait for it.
#[test]
fn a_closed_job_tells_only_the_steps_that_are_seen() {
    let mut hidden = 0;
    for name in lowside_lessons::library::names() {
        let mut job = Job::open(name).expect("shipped");
        let mut bay = job.bay();
        pass(&mut bay, 2);
        job.look(&bay);
        let (seen, all) = (job.seen_steps(), job.steps());
        for (n, step) in job.card.step.iter().enumerate() {
            let shown = step.goal.iter().all(|c| is_shown(c.reading));
            let waits = step.after.iter().any(|before| seen[before - 1].is_none());
            let wanted = (shown && !waits).then_some(all[n]);
            assert_eq!(seen[n], wanted, "{name}, step {}", n + 1);
            hidden += usize::from(wanted.is_none());
        }
        let shown = Shown::of(&bay);
        let open = seen
            .iter()
            .position(|s| s.is_some_and(|s| !matches!(s, Standing::Done { .. })));
        match closed_advice(&shown, Some(&job)) {
            Advice::Card(n) => assert_eq!(Some(n), open, "{name}"),
            Advice::SignOff => assert_eq!(open, None, "{name}"),
            Advice::Step(step) => assert_eq!(advice(&shown, Some(&job)), Advice::Step(step)),
            Advice::Spoilt => panic!("{name}: a closed bay tells no verdict"),
        }
    }
    assert!(hidden > 10, "{hidden} steps on what nobody sees");
}

/// Harm that nobody noticed is in the toll of an open bay alone.
#[test]
fn a_closed_toll_has_what_was_noticed() {
    let mut bay = van(&["start.air=4 g"]);
    pass(&mut bay, 30);
    bay.apply(BenchAct::OpenJoint {
        joint: Joint::CondenserIn,
    })
    .expect("possible");
    pass(&mut bay, 30);
    let open = toll(&lowside_lessons::Truth::of(&bay));
    let shown = Shown::of(&bay);
    let closed = seen_toll(&shown);
    assert!(closed.len() < open.len(), "{open:?}");
    assert!(closed.iter().all(|c| open.contains(c)), "{closed:?}");
    assert!(!closed.is_empty(), "somebody was hurt");
    assert_eq!(
        closed_advice(&shown, None),
        Advice::Step(NextStep::StopEngine)
    );
}
