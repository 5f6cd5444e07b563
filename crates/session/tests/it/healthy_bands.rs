//! The healthy van against the bands of common practice (R-134a, recirculation, high blower; no single source), and against
//! published figures that its loop can run.

use lowside_session::summary::Summary;
use lowside_tests::runs::healthy;

/// Gauge pressure while the clutch is in, kPa.
fn gauge(kpa_abs: Option<f64>) -> f64 {
    kpa_abs.expect("the clutch was in") - 101.325
}

fn at(ambient: f64, more: &[&str]) -> Summary {
    let ambient = format!("day.ambient={ambient}degC");
    let mut all = vec![ambient.as_str()];
    all.extend(more);
    healthy(&all)
}

/// Low side and high side with the clutch in, centre vent, after 10 min at 1 500 rpm: common practice, no source.
#[test]
fn pressures_and_vent_lie_in_the_bands_of_common_practice() {
    let bands = [
        (21.0, 150.0..=280.0, 830.0..=1200.0, 2.0..=8.0),
        (27.0, 150.0..=290.0, 1000.0..=1550.0, 3.0..=9.0),
        (32.0, 150.0..=310.0, 1250.0..=1900.0, 4.0..=12.0),
        (35.0, 160.0..=330.0, 1350.0..=2100.0, 4.0..=13.0),
        (38.0, 170.0..=345.0, 1500.0..=2250.0, 5.0..=15.0),
        (43.0, 190.0..=380.0, 1700.0..=2500.0, 7.0..=18.0),
    ];
    for (t, low, high, vent) in bands {
        let s = at(t, &[]);
        let (l, h) = (
            gauge(s.low_kPa_abs_clutch_on_mean),
            gauge(s.high_kPa_abs_clutch_on_mean),
        );
        assert!(
            low.contains(&l),
            "{t} degC: low side {l:.0} kPag, band {low:?}"
        );
        assert!(
            high.contains(&h),
            "{t} degC: high side {h:.0} kPag, band {high:?}"
        );
        assert!(
            vent.contains(&s.vent_degC_mean),
            "{t} degC: vent {:.1} degC, band {vent:?}",
            s.vent_degC_mean
        );
    }
}

/// A 44 oz R-12 loop refilled with 36 oz of R-134a, idling on recirculation on a 34-35 degC day: centre vent 3-8 degC
/// (common practice, no source).
#[test]
fn at_idle_on_a_hot_day_the_vent_is_cold() {
    for t in [34.0, 35.0] {
        let s = at(
            t,
            &[
                "engine.speed=800rpm",
                "start.charge=36oz",
                "controls.windows_open=false",
            ],
        );
        assert!(
            (3.0..=8.0).contains(&s.vent_degC_mean),
            "{t} degC: vent {:.1} degC",
            s.vent_degC_mean
        );
    }
}

/// Below 70 % charge the clutch cycles faster; the fewer grams the faster (common practice, no source).
#[test]
fn cycling_quickens_below_seventy_percent_charge() {
    let cycles =
        |charge: f64| at(35.0, &[&format!("start.charge={}kg", 1.0206 * charge)]).clutch_cycles;
    let (full, mild, low) = (cycles(1.0), cycles(0.6), cycles(0.35));
    assert!(
        f64::from(mild) > 1.5 * f64::from(full),
        "60 %: {mild} cycles in two minutes against {full}"
    );
    assert!(low >= mild, "35 %: {low} cycles against {mild} at 60 %");
    assert!(
        low >= 16,
        "a badly low loop cycles more than eight times a minute: {low} in two"
    );
}

/// The accumulator hides the charge: between 80 and 105 % pressures and vent stand still (check model and a trade association's
/// article of 2021 on a 25 % under-charge: high side -2 psi, low side -3 psi, vent +0.6 degF).
#[test]
fn the_accumulator_hides_the_charge() {
    let full = at(35.0, &[]);
    for share in [0.80, 0.90, 1.05] {
        let s = at(35.0, &[&format!("start.charge={}kg", 1.0206 * share)]);
        let psi = |a: Option<f64>, b: Option<f64>| (gauge(a) - gauge(b)) / 6.894_757;
        let dh = psi(
            s.high_kPa_abs_clutch_on_mean,
            full.high_kPa_abs_clutch_on_mean,
        );
        let dl = psi(
            s.low_kPa_abs_clutch_on_mean,
            full.low_kPa_abs_clutch_on_mean,
        );
        let dv = (s.vent_degC_mean - full.vent_degC_mean) * 1.8;
        assert!(
            dh.abs() < 5.0 && dl.abs() < 2.0 && dv.abs() < 2.0,
            "{share}: {dh:.1} psi, {dl:.1} psi, {dv:.1} degF"
        );
    }
}

/// Above 130 % the head pressure climbs and liquid reaches the compressor; subcooling grows and the discharge cools before
/// that (order of over-charge: check model).
#[test]
fn overcharge_raises_head_and_floods_the_compressor() {
    let full = at(38.0, &[]);
    let over: Vec<Summary> = [1.45, 1.55, 1.65]
        .iter()
        .map(|c| at(38.0, &[&format!("start.charge={}kg", 1.0206 * c)]))
        .collect();
    assert!(
        full.suction_liquid < 0.06,
        "the full loop draws {:.2} liquid",
        full.suction_liquid
    );
    for s in &over {
        assert!(
            s.suction_liquid > 0.03 && s.suction_liquid > 5.0 * full.suction_liquid,
            "{:.2} kg: {:.2} liquid",
            s.refrigerant_kg,
            s.suction_liquid
        );
        assert!(
            s.discharge_degC < full.discharge_degC - 8.0,
            "{:.2} kg: discharge {:.0}",
            s.refrigerant_kg,
            s.discharge_degC
        );
        assert!(
            s.subcooling_K > full.subcooling_K + 2.0,
            "{:.2} kg: subcooling {:.1}",
            s.refrigerant_kg,
            s.subcooling_K
        );
    }
    let head: Vec<f64> = over
        .iter()
        .map(|s| gauge(s.high_kPa_abs_clutch_on_mean))
        .collect();
    let base = gauge(full.high_kPa_abs_clutch_on_mean);
    assert!(
        head.is_sorted() && head[2] > base + 150.0,
        "head {head:?} kPag against {base:.0}"
    );
}

/// Air raises both sides and warms the vent (common practice, no source): the high side by 200 kPa and more for the 3.6 g that a
/// never-evacuated loop holds, and by no more than air wholly held in condenser and discharge line would: by hand 110 kPa a gram by its own
/// pressure (m R T over the 0.85 L that liquid leaves, 325 K), and as much again for what it hinders. Two grams are felt at the vent; five stop
/// no loop.
#[test]
fn air_raises_both_sides_and_warms_the_vent() {
    let run = |air: f64| at(35.0, &["engine.speed=800rpm", &format!("start.air={air}g")]);
    let none = run(0.0);
    let mut last = 0.0;
    for air in [1.0, 2.0, 3.6, 5.0] {
        let s = run(air);
        let more = |a: Option<f64>, b: Option<f64>| gauge(a) - gauge(b);
        let head = more(
            s.high_kPa_abs_clutch_on_mean,
            none.high_kPa_abs_clutch_on_mean,
        );
        let low = more(
            s.low_kPa_abs_clutch_on_mean,
            none.low_kPa_abs_clutch_on_mean,
        );
        let warmer = s.vent_degC_mean - none.vent_degC_mean;
        assert!(
            head > last + 20.0 && head < 220.0 * air && low > 5.0,
            "{air} g: {low:+.0} and {head:+.0} kPa"
        );
        assert!(air < 3.6 || head > 200.0, "{air} g: {head:+.0} kPa");
        assert!(
            (0.5..=5.0).contains(&warmer),
            "{air} g: vent {warmer:+.1} K"
        );
        last = head;
    }
}

/// No single fault makes the vent of a healthy van colder in the performance test, but a choked orifice at first by a little
/// and less air through the evaporator (fault table, common practice).
#[test]
fn faults_warm_the_vent() {
    for t in [35.0, 38.0] {
        let healthy = at(t, &[]);
        for fault in [
            "condition.compressor_wear=20%",
            "condition.compressor_wear=50%",
            "condition.condenser_air=70%",
            "condition.condenser_air=50%",
            "condition.orifice_open=40%",
            "start.charge=0.7kg",
            "start.charge=0.5kg",
            "start.charge=1.6kg",
            "start.air=2g",
        ] {
            let s = at(t, &[fault]);
            let warmer = s.vent_degC_mean - healthy.vent_degC_mean;
            assert!(
                warmer > -0.5,
                "{t} degC, {fault}: vent {warmer:+.1} K against the healthy van"
            );
        }
    }
}

/// A hotter day blows warmer (performance test, common practice).
#[test]
fn hotter_days_blow_warmer() {
    let vents: Vec<f64> = [35.0, 38.0, 41.0, 43.0]
        .iter()
        .map(|t| at(*t, &[]).vent_degC_mean)
        .collect();
    assert!(vents.is_sorted(), "{vents:?}");
}

/// Pressures equalise within some minutes after switching off, the faster the leakier the compressor: 1-3 min healthy, 10-40 s
/// worn out (common practice; the time here is that to 50 kPa, so some seconds shorter).
#[test]
fn pressures_equalise_after_switching_off() {
    let seconds = |wear: &str| {
        let wear = format!("condition.compressor_wear={wear}");
        let mut bay =
            lowside_session::Bay::new(&lowside_tests::runs::scenario("healthy", &[&wear]));
        lowside_tests::runs::run(&mut bay, 300.0);
        bay.apply(lowside_session::VehicleAct::Engine { on: false })
            .expect("it can be done");
        let start = bay.seconds();
        while bay.seconds() < start + 600.0 {
            bay.step().expect("the engine goes on");
            let p = bay.plant();
            let gap = p.network.node(p.circuit.high_side()).state.p
                - p.network.node(p.circuit.low_side()).state.p;
            if gap < 50e3 {
                break;
            }
        }
        bay.seconds() - start
    };
    let (healthy, worn) = (seconds("0 %"), seconds("80 %"));
    assert!((30.0..=180.0).contains(&healthy), "healthy: {healthy:.0} s");
    assert!((5.0..=40.0).contains(&worn), "worn: {worn:.0} s");
}

/// An hour after switching off everything is at the day's temperature and its saturation pressure again (common practice:
/// static pressure is read after a full soak).
#[test]
fn a_soaked_loop_stands_at_saturation() {
    use lowside_session::{VehicleAct, acts};
    let mut bay = lowside_session::Bay::new(&lowside_tests::runs::scenario("healthy", &[]));
    lowside_tests::runs::run(&mut bay, 300.0);
    for act in acts![
        VehicleAct::Engine { on: false },
        VehicleAct::AirConditioning { on: false },
        VehicleAct::Blower { step: 0 },
    ] {
        bay.apply(act).expect("it can be done");
    }
    lowside_tests::runs::run(&mut bay, 5400.0);
    let p = bay
        .plant()
        .network
        .node(bay.plant().circuit.low_side())
        .state
        .p;
    // R-134a at 35 degC: 887 kPa (CoolProp).
    assert!((p / 887e3 - 1.0).abs() < 0.03, "{:.0} kPa", p / 1e3);
}

/// Less air over the condenser raises the high side (fault table, common practice).
#[test]
fn a_blocked_condenser_raises_the_high_side() {
    let high = |air: &str| {
        gauge(
            at(
                35.0,
                &[
                    "engine.speed=800rpm",
                    &format!("condition.condenser_air={air}"),
                ],
            )
            .high_kPa_abs_clutch_on_mean,
        )
    };
    let (clean, half) = (high("100 %"), high("50 %"));
    assert!(
        half > clean + 150.0,
        "half the air: {half:.0} against {clean:.0} kPag"
    );
}
