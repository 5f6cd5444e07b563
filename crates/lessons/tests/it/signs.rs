//! Every suspect has a sign of its own: against a sound van, and against each fault that shows like it, on a mild day and on a hot one.
//!
//! Signs and what tells look-alikes apart are common practice, no source. Nothing is read but what a technician reads.

use std::{collections::BTreeMap, sync::OnceLock, thread};

use lowside_lessons::rivals::{Case, twins};
use lowside_session::{
    Bay, HoseAct, LearnerAct, Reading, VehicleAct, action::Meter, reading::Value, scenario::setting,
};
use lowside_shop::{
    fault::{Fault, Severity},
    meters::{self, Point},
};
use lowside_tests::runs::{act, run, scenario};
use lowside_units::{Quantity, RotationSpeed, Speed};

/// What is read, and by how much it has to differ to count: what an instrument of the trade tells for certain.
const READ: [(&str, f64); 17] = [
    ("low side, clutch in, psig", 1.5),
    ("high side, clutch in, psig", 5.0),
    ("vent, K", 1.0),
    ("share of the time the clutch is in", 0.1),
    ("clutch-ins a minute", 0.6),
    ("standing pressure above that of the day, psi", 3.0),
    ("discharge line, K", 4.0),
    ("condenser outlet, K", 2.5),
    ("liquid line, K", 2.5),
    ("evaporator outlet above inlet, K", 3.0),
    ("suction line, K", 3.0),
    ("hub, 1/min", 60.0),
    ("seconds until both sides meet", 6.0),
    ("other refrigerant, share", 0.02),
    ("air at the vent, m/s", 0.5),
    ("high side at idle above that on the road, psi", 10.0),
    ("low gauge above the high one at rest, psi", 3.0),
];

type Seen = [f64; READ.len()];

const PSI: f64 = 6894.76;

fn read(bay: &Bay, instrument: Meter) -> f64 {
    let action = LearnerAct::Read { instrument }.into();
    match Reading::of(bay, action).map(|r| r.value) {
        Some(Value::Gauge(p)) => p.si() / PSI,
        other => panic!("{instrument:?}: {other:?}"),
    }
}

fn gauges(bay: &Bay) -> [f64; 2] {
    [Meter::LowGauge, Meter::HighGauge].map(|meter| read(bay, meter))
}

/// Looks at a vehicle as one does: at rest, at 1 500 rpm, at idle, on the road, and after it is switched off.
fn look(day: &str, fault: Option<&str>) -> Seen {
    let mut set = vec!["act=[]", "engine.on=false", "controls.ac=false", day];
    set.extend(fault);
    let mut bay = Bay::new(&scenario("healthy", &set));
    let mut seen = [0.0; READ.len()];
    for connect in [
        HoseAct::LowCoupler { on: true },
        HoseAct::HighCoupler { on: true },
    ] {
        act(&mut bay, connect);
    }
    run(&mut bay, 25.0);
    let plant = bay.plant();
    let table = plant.network.table();
    let standing = (table.p_sat(plant.day().t) - plant.day().p) / PSI;
    seen[13] = plant.other_share();
    let rest = gauges(&bay);
    seen[5] = rest[1] - standing;
    seen[16] = rest[0] - rest[1];
    let speed = |rpm| VehicleAct::EngineSpeed {
        speed: RotationSpeed::from_rpm(rpm),
    };
    for setting in [
        VehicleAct::Engine { on: true },
        speed(1500.0),
        VehicleAct::AirConditioning { on: true },
        VehicleAct::Blower { step: 4 },
        VehicleAct::Windows { on: true },
    ] {
        act(&mut bay, setting);
    }
    run(&mut bay, 300.0);
    let (mut on, before) = (0.0, bay.plant().drive.cycles);
    for _ in 0..240 {
        run(&mut bay, 1.0);
        let [low, high] = gauges(&bay);
        let p = bay.plant();
        seen[2] += p.cabin.vent.t / 240.0;
        seen[14] += meters::vent_speed(p) / 240.0;
        seen[11] += meters::turning(p)[0] / 240.0;
        if p.drive.engaged {
            on += 1.0;
            seen[0] += low;
            seen[1] += high;
        }
        for (k, at) in [
            (6, Point::Discharge),
            (7, Point::CondenserOut),
            (8, Point::LiquidLine),
            (10, Point::Suction),
        ] {
            seen[k] += meters::felt(p, at) / 240.0;
        }
        let [inlet, outlet] =
            [Point::EvaporatorIn, Point::EvaporatorOut].map(|at| meters::felt(p, at));
        seen[9] += (outlet - inlet) / 240.0;
    }
    seen[3] = on / 240.0;
    seen[4] = f64::from(bay.plant().drive.cycles - before) / 4.0;
    seen[0] /= f64::max(on, 1.0);
    seen[1] /= f64::max(on, 1.0);
    act(&mut bay, speed(800.0));
    run(&mut bay, 180.0);
    let idle = gauges(&bay)[1];
    act(&mut bay, speed(1500.0));
    act(
        &mut bay,
        VehicleAct::RoadSpeed {
            speed: Speed::from_km_h(60.0),
        },
    );
    run(&mut bay, 120.0);
    seen[15] = idle - gauges(&bay)[1];
    act(&mut bay, VehicleAct::AirConditioning { on: false });
    while seen[12] < 180.0 && {
        let [low, high] = gauges(&bay);
        (high - low).abs() > 10.0
    } {
        run(&mut bay, 1.0);
        seen[12] += 1.0;
    }
    seen
}

const DAYS: [&str; 2] = ["day.ambient=27degC", "day.ambient=38degC"];

/// What is seen of every suspect and of a sound van, both days.
fn all() -> &'static BTreeMap<&'static str, [Seen; 2]> {
    static ALL: OnceLock<BTreeMap<&'static str, [Seen; 2]>> = OnceLock::new();
    ALL.get_or_init(|| {
        let vehicle = scenario("healthy", &[]).vehicle;
        let mut work: Vec<(&'static str, Option<String>)> = vec![("sound", None)];
        for fault in Case::suspects() {
            work.push((fault.id, Some(setting(fault, plain(fault), &vehicle))));
        }
        let halves = work.split_at(work.len() / 2);
        let seen = |half: &[(&'static str, Option<String>)]| -> Vec<(&'static str, [Seen; 2])> {
            half.iter()
                .map(|(id, set)| (*id, DAYS.map(|day| look(day, set.as_deref()))))
                .collect()
        };
        thread::scope(|scope| {
            let other = scope.spawn(|| seen(halves.1));
            let mut all = seen(halves.0);
            all.extend(other.join().expect("looked at"));
            all.into_iter().collect()
        })
    })
}

/// The severity at which a fault is plain.
fn plain(fault: &Fault) -> Severity {
    fault
        .shown_at
        .last()
        .copied()
        .unwrap_or(Severity::Severe)
        .max(Severity::Severe)
}

/// When a sign shows.
#[derive(Debug, Clone, Copy, PartialEq)]
enum On {
    Both,
    /// On the mild day alone, on which a sound van's clutch cycles.
    Mild,
    /// On the hot day alone, on which it stays in.
    Hot,
}
use On::{Both, Hot, Mild};

const LOW: usize = 0;
const HIGH: usize = 1;
const VENT: usize = 2;
const DUTY: usize = 3;
const CYCLES: usize = 4;
const STANDING: usize = 5;
const DISCHARGE: usize = 6;
const OUTLET: usize = 7;
const LIQUID: usize = 8;
const COIL: usize = 9;
const HUB: usize = 11;
const MEET: usize = 12;
const OTHER: usize = 13;
const AIR: usize = 14;
const IDLE: usize = 15;
const GAUGES: usize = 16;
const UP: f64 = 1.0;
const DOWN: f64 = -1.0;

/// A reading, which way it goes, and when.
type Sign = (usize, f64, On);

/// What a fault does against a sound van that somebody finds: the reading, which way, when.
const SIGNS: &[(&str, &[Sign])] = &[
    (
        "low-charge",
        &[
            (HIGH, DOWN, Both),
            (VENT, UP, Both),
            (COIL, UP, Both),
            (CYCLES, UP, Both),
        ],
    ),
    ("over-charge", &[(HIGH, UP, Both), (DISCHARGE, DOWN, Hot)]),
    ("blend", &[(OTHER, UP, Both), (HIGH, UP, Both)]),
    ("wrong-gas", &[(OTHER, UP, Both), (HIGH, UP, Both)]),
    ("air", &[(STANDING, UP, Both), (HIGH, UP, Both)]),
    ("water", &[(MEET, UP, Mild), (VENT, UP, Mild)]),
    (
        "compressor-worn",
        &[
            (DISCHARGE, UP, Both),
            (LOW, UP, Hot),
            (HIGH, DOWN, Hot),
            (VENT, UP, Hot),
        ],
    ),
    (
        "orifice-clogged",
        &[
            (OUTLET, DOWN, Both),
            (LIQUID, DOWN, Both),
            (COIL, UP, Both),
            (MEET, UP, Both),
        ],
    ),
    (
        "condenser-air-blocked",
        &[(HIGH, UP, Both), (OUTLET, UP, Both)],
    ),
    (
        "evaporator-air-blocked",
        &[(AIR, DOWN, Both), (HIGH, DOWN, Both)],
    ),
    (
        "clutch-slips",
        &[(HUB, DOWN, Both), (LOW, UP, Both), (HIGH, DOWN, Both)],
    ),
    (
        "orifice-rings",
        &[(MEET, DOWN, Both), (DISCHARGE, DOWN, Both)],
    ),
    (
        "cycling-switch-stuck",
        &[(LOW, DOWN, Mild), (DUTY, UP, Mild)],
    ),
    (
        "cycling-switch-early",
        &[(LOW, UP, Both), (CYCLES, UP, Both), (VENT, UP, Both)],
    ),
    (
        "cycling-switch-late",
        &[(LOW, DOWN, Mild), (DUTY, UP, Mild)],
    ),
    ("cut-out-early", &[(DUTY, DOWN, Hot), (VENT, UP, Hot)]),
    (
        "clutch-circuit-open",
        &[(HUB, DOWN, Both), (DUTY, DOWN, Both)],
    ),
    (
        "fan-weak",
        &[(HIGH, UP, Both), (IDLE, UP, Both), (OUTLET, UP, Both)],
    ),
    (
        "hood-seals-missing",
        &[(HIGH, UP, Both), (OUTLET, UP, Both)],
    ),
    (
        "recirculation-stuck",
        &[(HIGH, UP, Both), (LOW, UP, Hot), (VENT, UP, Hot)],
    ),
    ("blend-door-leaks", &[(VENT, UP, Both)]),
    ("radiator-blocked", &[(HIGH, UP, Both)]),
    (
        "discharge-hose-kinked",
        &[(HIGH, UP, Both), (DISCHARGE, UP, Both)],
    ),
    (
        "condenser-plugged",
        &[(HIGH, UP, Both), (DISCHARGE, UP, Both)],
    ),
    (
        "liquid-line-crushed",
        &[(LIQUID, DOWN, Both), (MEET, UP, Both)],
    ),
    // Its inlet is where it boils at the higher pressure.
    (
        "evaporator-plugged",
        &[(COIL, DOWN, Both), (VENT, UP, Both)],
    ),
    (
        "pick-up-clogged",
        &[(LOW, UP, Both), (DISCHARGE, DOWN, Both)],
    ),
    (
        "suction-hose-kinked",
        &[(DISCHARGE, UP, Both), (VENT, UP, Hot)],
    ),
    ("oil-high", &[(HIGH, UP, Mild), (DISCHARGE, DOWN, Hot)]),
    ("low-gauge-off", &[(GAUGES, UP, Both), (LOW, UP, Both)]),
    ("high-gauge-off", &[(GAUGES, DOWN, Both), (HIGH, UP, Both)]),
    ("low-core-stuck", &[(GAUGES, DOWN, Both), (LOW, DOWN, Both)]),
    ("high-core-stuck", &[(GAUGES, UP, Both), (HIGH, DOWN, Both)]),
];

/// Faults without a sign in half an hour, and where they show instead.
const SIGNLESS: [(&str, &str); 7] = [
    ("oil-low", "over hours: the compressor wears"),
    ("desiccant-wet", "once more water comes: ice, or acid"),
    (
        "bag-burst",
        "over hours: beads on the orifice tube's screen",
    ),
    (
        "orifice-reversed",
        "once there is debris: its short screen clogs first",
    ),
    (
        "relief-weak",
        "on a hot day at idle: it lifts, and the charge is short",
    ),
    (
        "cut-out-welded",
        "where the high side is far too high: nothing stops it",
    ),
    (
        "accumulator-screen-clogged",
        "over hours: the compressor wears for want of oil",
    ),
];
#[test]
fn every_suspect_shows_on_a_mild_and_on_a_hot_day() {
    let sound = &all()["sound"];
    let mut wrong = Vec::new();
    for fault in Case::suspects() {
        let id = fault.id;
        let seen = &all()[id];
        let change = |day: usize, k: usize| seen[day][k] - sound[day][k];
        let signs = SIGNS.iter().find(|(of, _)| *of == id);
        let signless = SIGNLESS.iter().any(|(of, _)| *of == id);
        assert!(
            signs.is_some() != signless,
            "{id}: signs or a reason why there are none"
        );
        for (k, way, on) in signs.map_or(&[][..], |(_, signs)| *signs) {
            let (what, least) = READ[*k];
            for day in [0, 1] {
                let asked = *on == Both || (*on == Mild) == (day == 0);
                let got = change(day, *k);
                if asked && got * way <= least {
                    wrong.push(format!(
                        "{id}, {}: {what}: {got:+.2}, asked {:+} or more",
                        DAYS[day],
                        least * way
                    ));
                }
            }
        }
        for (k, (what, least)) in READ.iter().enumerate().filter(|_| signless) {
            // What wears or clogs within the half hour is no more than what instruments leave open.
            let loud = [0, 1].iter().all(|day| change(*day, k).abs() > *least);
            if loud && ![HUB, MEET].contains(&k) {
                wrong.push(format!("{id} shows in {what}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What tells two that show alike is a reading that differs the same way on both days, or on the one day on which either shows at all. Where
/// there is none they are twins, and only there.
#[test]
fn look_alikes_are_told_apart_or_are_twins() {
    let mut wrong = Vec::new();
    for fault in Case::suspects() {
        let alike = fault
            .look_alikes()
            .filter(|o| all().contains_key(o.id) && fault.id < o.id);
        for other in alike {
            let (a, b) = (&all()[fault.id], &all()[other.id]);
            let tells = |k: usize| {
                let d = [0, 1].map(|day: usize| a[day][k] - b[day][k]);
                d.iter().all(|d| d.abs() > READ[k].1) && d[0] * d[1] > 0.0
            };
            let told = (0..READ.len()).any(tells);
            if told == twins(fault, other) {
                wrong.push(format!("{} and {}: told apart {told}", fault.id, other.id));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
