//! A worn compressor: what one reads on it and what it costs. That it keeps the laws is shown in `loop_laws`.

use lowside_tests::runs::{play, scenario};

/// Low and high side (psi gauge), shaft power (W), discharge line and vent (degC) after twenty minutes.
fn worn(wear: u32, more: &[&str]) -> [f64; 5] {
    let wear = format!("condition.compressor_wear={wear}%");
    let own = [&[wear.as_str(), "until=20min"], more].concat();
    let (_, s) = play(&scenario("healthy", &own));
    let psi = |kpa: Option<f64>| (kpa.expect("the clutch is in") - 101.325) / 6.894_757;
    [
        psi(s.low_kPa_abs_clutch_on_mean),
        psi(s.high_kPa_abs_clutch_on_mean),
        s.shaft_W,
        s.discharge_degC,
        s.vent_degC_mean,
    ]
}

const MILD_IDLE: &[&str] = &["day.ambient=27degC", "engine.speed=800rpm"];

/// Low side high, high side low, nearly equal: the sign of a compressor that is worn out (fault table, common practice). In between
/// every step of wear shows more, and the shaft never takes noticeably more than a sound one's; the gas it still gives is hotter.
#[test]
fn a_worn_out_compressor_stands_at_nearly_equal_pressures() {
    let steps = [0, 15, 30, 45, 60, 80, 100].map(|wear| worn(wear, MILD_IDLE));
    let column = |k: usize| steps.map(|s| s[k]);
    let (lows, highs, powers) = (column(0), column(1), column(2));
    assert!(lows.is_sorted_by(|a, b| a < b), "low side {lows:?}");
    assert!(highs.is_sorted_by(|a, b| a > b), "high side {highs:?}");
    assert!(column(4).is_sorted_by(|a, b| a < b), "vent {:?}", column(4));
    assert!((58.0..72.0).contains(&lows[6]), "low side {lows:?} psi");
    assert!(
        (125.0..145.0).contains(&highs[6]),
        "high side {highs:?} psi"
    );
    for power in powers {
        assert!((0.7..1.06).contains(&(power / powers[0])), "{powers:?} W");
    }
    assert!(powers[6] < powers[0], "{powers:?} W");
    assert!(
        steps[6][3] > steps[0][3] + 20.0,
        "discharge {:?}",
        column(3)
    );
}

/// What leaks has less time when the shaft turns faster (common practice: a worn compressor does better off idle).
#[test]
fn speed_helps_a_worn_compressor() {
    let lost = |speed: &str| {
        let day = ["day.ambient=38degC", speed];
        let (sound, old) = (worn(0, &day), worn(80, &day));
        (old[0] - sound[0], old[4] - sound[4])
    };
    let ((idle, vent_idle), (fast, vent_fast)) =
        (lost("engine.speed=800rpm"), lost("engine.speed=2500rpm"));
    assert!(
        fast < 0.8 * idle && vent_fast < vent_idle,
        "low side +{idle:.1} and +{fast:.1} psi, vent +{vent_idle:.1} and +{vent_fast:.1} K"
    );
}
