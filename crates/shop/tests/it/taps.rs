//! Two low-side ports: at the accumulator liquid falls into the accumulator and boils there, at the compressor it is drawn in as liquid;
//! the gauge reads the pressure of the place where it sits. Common practice, no source.

use lowside_session::{Bay, BenchAct, HoseAct, VesselAct};
use lowside_shop::joints::{LowPort, Side};
use lowside_tests::runs::{act, run, scenario};
use lowside_units::{Mass, Ratio};

fn go_to(bay: &mut Bay, at: LowPort) {
    act(bay, HoseAct::LowCoupler { on: false });
    act(bay, HoseAct::LowPort { at });
    if bay.shop().openings.ports[Side::Low as usize].cap {
        act(
            bay,
            BenchAct::PortCap {
                side: Side::Low,
                on: false,
            },
        );
    }
    act(bay, HoseAct::LowCoupler { on: true });
}

/// Low side on the gauge after a minute at a port, Pa gauge.
fn reads(tap: LowPort) -> f64 {
    let mut bay = Bay::new(&scenario("healthy", &[]));
    go_to(&mut bay, tap);
    run(&mut bay, 600.0);
    bay.shop().instruments.low.pointer()
}

#[test]
fn the_gauge_reads_lower_at_the_compressor_by_what_the_line_loses() {
    let drop = reads(LowPort::Accumulator) - reads(LowPort::Compressor);
    assert!((2e3..25e3).contains(&drop), "{drop} Pa");
}

/// Liquid from a cylinder through the low side of a running loop: the wettest draw, and what slugging and washing wear in twelve seconds.
fn charged(tap: LowPort) -> (f64, f64) {
    let mut bay = Bay::new(&scenario("healthy", &["start.charge=400g"]));
    run(&mut bay, 120.0);
    go_to(&mut bay, tap);
    let gas = bay.scenario().vehicle.refrigerant;
    act(
        &mut bay,
        VesselAct::TakeCylinder {
            gas,
            holds: Mass::from_kg(9.0),
        },
    );
    act(&mut bay, VesselAct::Invert { on: true });
    act(&mut bay, VesselAct::Tap { on: true });
    act(
        &mut bay,
        HoseAct::LowValve {
            open: Ratio::from_fraction(1.0),
        },
    );
    let mut wettest = 0.0_f64;
    for _ in 0..600 {
        run(&mut bay, 0.02);
        wettest = wettest.max(bay.plant().suction_liquid());
    }
    let damage = bay.plant().damage;
    (wettest, damage.slugging + damage.washing)
}

#[test]
fn liquid_at_the_compressors_port_slugs_and_at_the_accumulators_boils_first() {
    let (at_accumulator, worn) = charged(LowPort::Accumulator);
    let (at_compressor, slugged) = charged(LowPort::Compressor);
    assert!(
        at_compressor > 0.25 && at_compressor > 2.0 * at_accumulator,
        "liquid share of the draw: {at_compressor}, {at_accumulator} at the accumulator"
    );
    // Pure liquid washes a compressor to ruin in three hours: a twentieth of that, at least.
    assert!(
        slugged > 5.0 * worn && slugged > 0.05 * 12.0 / 10_800.0,
        "wear in twelve seconds: {slugged}, {worn}"
    );
}

#[test]
fn the_other_port_keeps_its_own_cap_and_core() {
    let mut bay = Bay::new(&scenario("healthy", &["engine.on=false"]));
    assert!(
        bay.apply(HoseAct::LowPort {
            at: LowPort::Compressor
        })
        .is_err(),
        "not with the coupler on"
    );
    act(&mut bay, HoseAct::LowCoupler { on: false });
    let side = Side::Low;
    act(&mut bay, BenchAct::PortCap { side, on: true });
    act(
        &mut bay,
        HoseAct::LowPort {
            at: LowPort::Compressor,
        },
    );
    // The compressor's core is taken out: the loop empties there, and the accumulator's port is as it was left.
    act(&mut bay, BenchAct::PortCap { side, on: false });
    let before = bay.charge();
    act(
        &mut bay,
        BenchAct::ValveCore {
            side,
            fitted: false,
        },
    );
    assert!(bay.shop().injuries > 0);
    run(&mut bay, 20.0);
    assert!(bay.charge() < before - 0.05, "{before} to {}", bay.charge());
    let openings = &bay.shop().openings;
    assert_eq!(openings.low_tap(), LowPort::Compressor);
    assert!(openings.other_low_port().is_some_and(|p| p.cap && p.core));
    // A new core here mends no leak of the core there.
    let mut bay = Bay::new(&scenario(
        "healthy",
        &[
            "engine.on=false",
            "condition.leak=[{at=\"low-port\",rate=\"4000 g/yr\"}]",
        ],
    ));
    act(&mut bay, HoseAct::LowCoupler { on: false });
    for (at, left) in [(LowPort::Compressor, 1), (LowPort::Accumulator, 0)] {
        act(&mut bay, HoseAct::LowPort { at });
        act(&mut bay, BenchAct::PortCap { side, on: false });
        for fitted in [false, true] {
            act(&mut bay, BenchAct::ValveCore { side, fitted });
        }
        assert_eq!(bay.plant().leaks().len(), left, "{at:?}");
    }
}

#[test]
fn one_port_is_one() {
    let mut bay = Bay::new(&scenario("healthy-compact", &[]));
    act(&mut bay, HoseAct::LowCoupler { on: false });
    let other = bay.apply(HoseAct::LowPort {
        at: LowPort::Compressor,
    });
    assert!(other.is_err());
}
