//! Abuse wears the compressor, ordinary use does not (common practice, no source; the rates are our own).

use lowside_session::{Bay, Event, HoseAct, VesselAct};
use lowside_tests::runs::{act, play, run, scenario};
use lowside_units::Ratio;

#[test]
fn an_hour_of_ordinary_use_wears_nothing() {
    for more in [
        &[][..],
        &["day.ambient=21degC"][..],
        &["engine.speed=2500rpm"][..],
        &["controls.windows_open=false"][..],
    ] {
        let mut all = vec!["until=1h"];
        all.extend(more);
        let (bay, s) = play(&scenario("healthy", &all));
        assert!(
            s.compressor_wear < 0.02,
            "{more:?}: {:?}",
            bay.plant().damage
        );
    }
}

#[test]
fn an_overfull_loop_washes_the_oil_off() {
    let wear = |charge: &str| {
        play(&scenario("healthy", &[charge, "until=1h"]))
            .0
            .plant()
            .damage
    };
    let (right, over) = (wear("start.charge=1.02kg"), wear("start.charge=1.7kg"));
    assert!(
        over.washing > 0.02 && over.washing > 10.0 * right.washing,
        "{over:?} against {right:?}"
    );
}

#[test]
fn liquid_poured_into_the_running_suction_slugs() {
    // An over-full loop and can after can upside down, the low valve wide open.
    let mut bay = Bay::new(&scenario(
        "healthy",
        &["start.charge=1.7kg", "day.ambient=27degC"],
    ));
    run(&mut bay, 120.0);
    for _ in 0..4 {
        act(&mut bay, VesselAct::TakeCan);
        act(&mut bay, VesselAct::Invert { on: true });
        act(&mut bay, VesselAct::Tap { on: true });
        act(
            &mut bay,
            HoseAct::LowValve {
                open: Ratio::from_fraction(1.0),
            },
        );
        run(&mut bay, 60.0);
    }
    let d = bay.plant().damage;
    assert!(d.wear() > 0.1, "{d:?}");
    assert!(
        bay.events()
            .iter()
            .any(|(_, e)| *e == Event::CompressorHurt)
    );
}

#[test]
fn a_dry_compressor_wears_out() {
    let (bay, s) = play(&scenario("healthy", &["start.oil=5g", "until=10min"]));
    assert!(bay.plant().damage.dryness > 0.3, "{:?}", bay.plant().damage);
    assert!(
        bay.events()
            .iter()
            .any(|(_, e)| *e == Event::CompressorHurt)
    );
    // Worn, it pumps less: the low side stands higher and the vent is warmer than with oil.
    let (_, well) = play(&scenario("healthy", &["until=10min"]));
    assert!(
        s.vent_degC_mean > well.vent_degC_mean + 1.0,
        "{:.1} against {:.1}",
        s.vent_degC_mean,
        well.vent_degC_mean
    );
    assert!(s.low_kPa_abs_clutch_on_mean > well.low_kPa_abs_clutch_on_mean);
}

#[test]
fn heat_and_pressure_beyond_the_cut_out_wear() {
    // A cut-out set far too high, and a bag before the condenser on a hot day, heavy enough that the fan's clutch, all in, does
    // not make up for it; then a worn and hurried compressor as well.
    let abuse = [
        "vehicle.switches.high_opens=3300kPag",
        "condition.condenser_air=12%",
        "day.ambient=45degC",
        "until=10min",
    ];
    let (bay, _) = play(&scenario("healthy", &abuse));
    assert!(
        bay.plant().damage.pressure > 0.01,
        "{:?}",
        bay.plant().damage
    );
    let worn = [
        &abuse[..],
        &["condition.compressor_wear=70%", "engine.speed=2500rpm"],
    ]
    .concat();
    let (bay, _) = play(&scenario("healthy", &worn));
    assert!(bay.plant().damage.heat > 0.0, "{:?}", bay.plant().damage);
}
