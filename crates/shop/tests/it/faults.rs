//! The rows of the faults: each is whole, and what its row names cures it.

use std::collections::BTreeSet;

use lowside_plant::{condition::Condition, plant::Plant, relief::Relief};
use lowside_session::{Bay, BenchAct, Scenario, VehicleAct, scenario::setting};
use lowside_shop::{
    fault::{self, Cure, Device, Severity, Signs, Table},
    joints::Seal,
    parts::Part,
};
use lowside_tests::runs::{act, run, scenario};

#[test]
fn rows_are_whole() {
    let vehicle = scenario("healthy", &[]).vehicle;
    let ids: BTreeSet<&str> = fault::all().map(|f| f.id).collect();
    assert_eq!(ids.len(), fault::all().count(), "no two are alike");
    for fault in fault::all() {
        let id = fault.id;
        for other in fault.look_alikes {
            assert!(ids.contains(other) && *other != id, "{id}: {other}");
        }
        assert!(fault.hours > 0.0, "{id}");
        assert_eq!(
            fault.shown_at.is_empty(),
            fault.signs == Signs::UNSAID,
            "{id}"
        );
        let (least, most) = (fault.field.range)(&vehicle);
        let values = Severity::ALL.map(|s| fault.at(s, &vehicle));
        let away = values.map(|v| (v - fault.field.sound.of(&vehicle)).abs());
        assert!(away[0] > 0.0 && away.is_sorted(), "{id}: {values:?}");
        if fault.field.table != Table::Joint {
            assert!(
                values.iter().all(|v| (least..=most).contains(v)),
                "{id}: {values:?}"
            );
        }
        for severity in Severity::ALL {
            if let Some(set) = setting(fault, severity, &vehicle) {
                scenario("healthy", &[&set]);
            }
        }
    }
}

/// What of a plant a fault may change, and its state at the start apart.
fn faults_of(plant: &Plant) -> (Condition, Vec<f64>, Relief, f64) {
    let open = fault::passages().map(|at| plant.open_share(at)).collect();
    (plant.condition, open, plant.relief, plant.debris.loose)
}

/// Planted, each is there; and the new part that its row names takes it away.
#[test]
fn a_new_part_cures_what_its_row_says() {
    let sound = Bay::new(&scenario("healthy", &["act=[]"]));
    let vehicle = &sound.scenario().vehicle;
    let mut cured = 0;
    for fault in fault::all() {
        let (Cure::NewPart(part), Some(set)) =
            (fault.cure, setting(fault, Severity::Severe, vehicle))
        else {
            continue;
        };
        if matches!(fault.field.applies, fault::Applies::Start(_)) {
            continue;
        }
        let empty = ["act=[]", "start.charge=0g", "start.air=3g", &set];
        let mut bay = Bay::new(&scenario("healthy", &empty));
        assert_ne!(
            faults_of(bay.plant()),
            faults_of(sound.plant()),
            "{}",
            fault.id
        );
        renew(&mut bay, part);
        assert_eq!(
            faults_of(bay.plant()),
            faults_of(sound.plant()),
            "{}",
            fault.id
        );
        cured += 1;
    }
    assert!(cured >= 12, "{cured}");
}

/// A device outside the loop is mended where it sits, and only that one.
#[test]
fn a_device_is_mended_by_the_act_for_it() {
    let all = [
        "act=[]",
        "condition.blend_leak=30%",
        "condition.radiator=20%",
        "condition.cycling_switch_stuck=true",
    ];
    for device in Device::ALL {
        let mut bay = Bay::new(&scenario("healthy", &all));
        act(&mut bay, VehicleAct::Mend { device });
        let c = &bay.plant().condition;
        let sound = [
            c.blend_leak <= 0.0,
            c.radiator >= 1.0,
            !c.cycling_switch_stuck,
        ];
        assert_eq!(sound, Device::ALL.map(|d| d == device), "{device:?}");
    }
}

/// The vent of a van whose blend door leaks is as cold as a sound one's once it is mended (common practice, no source: within 2 K).
#[test]
fn a_mended_blend_door_gives_the_vent_its_cold_back() {
    let vent = |overrides: &[&str], mend: bool| {
        let mut bay = Bay::new(&scenario("healthy", overrides));
        run(&mut bay, 400.0);
        if mend {
            let device = Device::BlendDoor;
            act(&mut bay, VehicleAct::Mend { device });
        }
        run(&mut bay, 400.0);
        bay.plant().cabin.vent.t
    };
    let leaks = ["condition.blend_leak=20%"];
    let (sound, leaking, mended) = (vent(&[], false), vent(&leaks, false), vent(&leaks, true));
    assert!(leaking > sound + 5.0, "{leaking} K against {sound} K");
    assert!((mended - sound).abs() < 2.0, "{mended} K against {sound} K");
}

/// Takes a part out, lays a new one there and closes the loop with new oiled O-rings.
fn renew(bay: &mut Bay, part: Part) {
    for joint in part.joints() {
        act(bay, BenchAct::OpenJoint { joint: *joint });
    }
    run(bay, 30.0);
    act(bay, BenchAct::RemovePart { part });
    act(bay, BenchAct::NewPart { part });
    act(bay, BenchAct::RefitPart { part });
    for joint in part.joints() {
        let seal = Seal::NewOiled;
        act(
            bay,
            BenchAct::CloseJoint {
                joint: *joint,
                seal,
            },
        );
    }
}

/// A passage that no row names cannot be restricted; a share beyond the range is refused by name; what was written before reads on.
#[test]
fn restrictions_are_read_by_the_rows() {
    let trouble = |set: &str| {
        let text = lowside_session::library::scenario("healthy").expect("shipped");
        Scenario::parse(text, &[set.to_owned()])
            .expect_err(set)
            .to_string()
    };
    for (set, said) in [
        (
            r#"condition.restriction=[{at="heater",open="30 %"}]"#,
            "unknown variant `heater`, expected one of `discharge-line`, `condenser`",
        ),
        (
            r#"condition.restriction=[{at="condenser",open="0.5 %"}]"#,
            "condition.restriction 1.open: 0.5 % is outside 1 % to 100 %",
        ),
        (
            r#"condition.restriction=[{at="condenser"}]"#,
            "missing field `open`",
        ),
        (
            "condition.orifice_open=120%",
            "condition.orifice_open: 120 % is outside 0 % to 100 %",
        ),
        (
            "condition.orifice_shut=1",
            "unknown field `orifice_shut`, expected one of `compressor_wear`",
        ),
    ] {
        let e = trouble(set);
        assert!(e.contains(said), "{set}: {e}");
    }
    // Scenarios of saved visits name every field, sound or not.
    let old = r#"{"compressor_wear":"0 %","orifice_open":"100 %","condenser_air":"40 %","evaporator_air":"100 %",
        "cycling_switch_stuck":false,"desiccant_load":"5 %","low_gauge_offset":"0 Pag","high_gauge_offset":"0 Pag",
        "low_core_stuck":false,"high_core_stuck":true,"leak":[{"at":"shaft-seal","rate":"40 g/yr"}]}"#;
    let condition: lowside_session::scenario::ConditionSpec =
        serde_json::from_str(old).expect("reads");
    let same = scenario(
        "healthy",
        &[
            "condition.condenser_air=40%",
            "condition.high_core_stuck=true",
            r#"condition.leak=[{at="shaft-seal",rate="40 g/yr"}]"#,
        ],
    );
    assert_eq!(condition, same.condition);
    let written = serde_json::to_string(&condition).expect("written");
    assert!(!written.contains("orifice_open"), "{written}");
    assert_eq!(
        serde_json::from_str::<lowside_session::scenario::ConditionSpec>(&written).expect("again"),
        condition
    );
}
