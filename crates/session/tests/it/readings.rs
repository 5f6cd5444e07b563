//! Readings, suspicions, diagnoses and what is worn: real acts of the log, whose values follow from the bay.

use lowside_session::{
    Bay, HoseAct, InstrumentAct, LearnerAct, Reading, Refused, TICKS_PER_SECOND, Take, VehicleAct,
    action::{Evidence, FaultId, Meter},
    reading::Value,
};
use lowside_shop::{
    fault::{self, Cure, Severity},
    meters::Point,
    parts::Part,
    protection::Protection,
    vacuum::GaugePlace,
};
use lowside_tests::runs::scenario;
use lowside_units::{GaugePressure, Quantity, Ratio};

fn van() -> Bay {
    let mut scenario = scenario("healthy", &[]);
    scenario.act.clear();
    Bay::new(&scenario)
}

fn pass(bay: &mut Bay, seconds: u64) {
    for _ in 0..seconds * TICKS_PER_SECOND {
        bay.step().expect("it goes on");
    }
}

fn read(instrument: Meter) -> LearnerAct {
    LearnerAct::Read { instrument }
}

fn commit(evidence: &[u32]) -> LearnerAct {
    LearnerAct::Commit {
        fault: FaultId::find("orifice-clogged").expect("a row"),
        severity: Severity::Severe,
        evidence: Evidence::of(evidence).expect("few"),
        repair: Cure::NewPart(Part::Orifice),
    }
}

/// What a gauge shows when it is read is listed by a replay, to the bit, though the take holds no value.
#[test]
fn a_reading_is_derived_from_the_bay() {
    let mut bay = van();
    let mut seen = Vec::new();
    for (seconds, meter) in [
        (20, Meter::LowGauge),
        (7, Meter::HighGauge),
        (30, Meter::LowGauge),
    ] {
        pass(&mut bay, seconds);
        bay.apply(read(meter)).expect("connected");
        let i = &bay.shop().instruments;
        let gauge = if meter == Meter::LowGauge {
            i.low
        } else {
            i.high
        };
        let value = Value::Gauge(GaugePressure::from_si(gauge.reading()));
        seen.push(Reading {
            tick: bay.tick(),
            meter,
            value,
        });
    }
    assert_ne!(seen[0].value, seen[2].value, "the gauge has moved");
    pass(&mut bay, 5);
    let take = Take::parse(&Take::of(&bay).to_text()).expect("a take");
    assert!(!take.to_text().contains("value"));
    let mut replay = take.replay();
    assert_eq!(replay.run(u64::MAX), Ok(true));
    assert_eq!(replay.readings(), seen);
    replay.finish().expect("it ends where it says");
}

#[test]
fn what_is_not_connected_shows_nothing() {
    let mut bay = van();
    let at = Point::Suction;
    for (meter, connect) in [
        (Meter::Clamp(at), InstrumentAct::Clamp { at: Some(at) }),
        (Meter::ClutchMeter, InstrumentAct::ClutchMeter { on: true }),
        (
            Meter::VacuumGauge(GaugePlace::Loop),
            InstrumentAct::VacuumGauge {
                at: GaugePlace::Loop,
            },
        ),
    ] {
        let hash = bay.state_hash();
        let refused = bay.apply(read(meter));
        assert_eq!(refused, Err(Refused::NotConnected(meter)));
        assert_eq!(
            (bay.state_hash(), bay.busy()),
            (hash, 0.0),
            "nothing has changed"
        );
        bay.apply(connect).expect("it goes on");
        bay.apply(read(meter)).expect("it shows something");
        pass(&mut bay, 10);
    }
    bay.apply(HoseAct::LowCoupler { on: false }).expect("off");
    for meter in [
        Meter::LowGauge,
        Meter::Clamp(Point::Discharge),
        Meter::IdentifierAir,
    ] {
        let refused = bay.apply(read(meter));
        assert_eq!(refused, Err(Refused::NotConnected(meter)));
    }
}

/// The bay runs on while somebody reads; another reading waits, and a valve does not.
#[test]
fn a_reading_takes_its_time() {
    let mut bay = van();
    bay.apply(read(Meter::LowGauge)).expect("connected");
    pass(&mut bay, 1);
    let Err(Refused::Busy { left }) = bay.apply(read(Meter::HighGauge)) else {
        panic!("two dials at once");
    };
    assert!(
        (left - 1.0).abs() < 1e-9 && (bay.busy() - left).abs() < 1e-9,
        "{left}"
    );
    bay.apply(VehicleAct::Engine { on: false }).expect("a key");
    let open = Ratio::from_si(1.0);
    bay.apply(HoseAct::LowValve { open }).expect("a valve");
    pass(&mut bay, 1);
    bay.apply(read(Meter::HighGauge))
        .expect("hands are free again");
    assert!(bay.busy() > 1.0);
}

#[test]
fn a_diagnosis_is_founded_on_readings_that_were_taken() {
    let mut bay = van();
    bay.apply(commit(&[])).expect("a guess is allowed");
    let refused = bay.apply(commit(&[1]));
    assert_eq!(refused, Err(Refused::NoReading { asked: 1, taken: 0 }));
    bay.apply(read(Meter::LowGauge)).expect("connected");
    bay.apply(commit(&[1])).expect("it was taken");
    assert_eq!(
        bay.apply(commit(&[1, 2])),
        Err(Refused::NoReading { asked: 2, taken: 1 })
    );
    let suspect = |certainty| LearnerAct::Suspect {
        fault: FaultId::find("low-charge").expect("a row"),
        certainty: Ratio::from_si(certainty),
    };
    bay.apply(suspect(0.6)).expect("likely");
    assert!(matches!(
        bay.apply(suspect(1.2)),
        Err(Refused::OutOfRange(_))
    ));
    let take = Take::of(&bay);
    assert_eq!(Take::parse(&take.to_text()), Ok(take));
}

/// What is worn is state, in the fingerprint and in a checkpoint; without it there is no new leaf.
#[test]
fn what_is_worn_is_state() {
    let mut bay = van();
    let bare = bay.state_hash();
    let wear = |what, on| LearnerAct::Wear { what, on };
    bay.apply(wear(Protection::Goggles, true)).expect("on");
    let worn = bay.shop().worn;
    assert!(worn.goggles && !worn.gloves);
    assert_ne!(bay.state_hash(), bare);
    let text = bay.save().expect("finite");
    let back = Bay::load(bay.scenario(), bay.log(), &text).expect("its own");
    assert_eq!(
        (back.shop().worn, back.differences(&bay)),
        (worn, Vec::new())
    );
    bay.apply(wear(Protection::Goggles, false)).expect("off");
    assert_eq!(bay.state_hash(), bare);
}

#[test]
fn a_fault_that_is_in_no_row_is_answered_with_those_that_are() {
    assert_eq!(FaultId::find("gremlins"), None);
    let act = r#"{"do":"suspect","fault":"gremlins","certainty":"50 %"}"#;
    let e = serde_json::from_str::<lowside_session::Action>(act).expect_err("no row");
    let e = e.to_string();
    assert!(e.contains("unknown variant `gremlins`"), "{e}");
    for fault in fault::all() {
        assert!(e.contains(fault.id), "{e}");
        assert_eq!(FaultId::find(fault.id).map(FaultId::key), Some(fault.id));
    }
}
