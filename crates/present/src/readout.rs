//! What the instruments read, as text.

use lowside_lessons::Shown as Known;
use lowside_session::{Event, TICKS_PER_SECOND};
use lowside_shop::vacuum::GaugePlace;
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Mass, Quantity, Temperature,
    display::{self, Shown, UnitSystem},
};

/// Instruments read at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Readout {
    /// Bay time.
    pub clock: Shown,
    /// Compound gauge.
    pub low: Shown,
    /// High-pressure gauge.
    pub high: Shown,
    /// Saturation temperature at the compound gauge's pointer; none in a vacuum too deep for it to mean anything, and none where the loop
    /// was opened or evacuated and holds air.
    pub low_saturation: Option<Shown>,
    /// Saturation temperature at the high-pressure gauge's pointer, likewise.
    pub high_saturation: Option<Shown>,
    /// Centre vent.
    pub vent: Shown,
    /// The vent is at or below 10 degC, what the job asks for.
    pub vent_cold: bool,
    /// Cabin.
    pub cabin: Shown,
    /// Electronic vacuum gauge; none above its range.
    pub vacuum: Option<Shown>,
    /// It hangs at the loop, not at the pump.
    pub vacuum_at_loop: bool,
    /// Scale under the can or cylinder; none with nothing on it.
    pub scale: Option<Shown>,
    /// What was charged by weight: what cans and cylinder have given so far.
    pub given: Shown,
    /// The label's charge.
    pub label: Shown,
    /// Given over the label's charge.
    pub given_share: f64,
    /// Clutch engaged.
    pub clutch: bool,
    /// Times the clutch pulled in within the last minute.
    pub cycles: usize,
}

/// What is in the loop by weight, as text; nothing where that is not known.
pub fn weighed(shown: &Known<'_>, units: UnitSystem) -> String {
    let kg = shown.charge.unwrap_or(0.0);
    display::mass(Mass::from_kg(kg.max(0.0)), units).to_string()
}

/// Clutch engagements in the last minute of bay time.
pub fn cycles_per_minute(shown: &Known<'_>) -> usize {
    let since = shown.tick.saturating_sub(60 * TICKS_PER_SECOND);
    let lately = shown.noticed.iter().rev().take_while(|(t, _)| *t > since);
    lately.filter(|(_, e)| *e == Event::ClutchIn).count()
}

impl Readout {
    /// Reads the instruments.
    pub fn of(shown: &Known<'_>, units: UnitSystem) -> Self {
        let t = |k: f64| display::temperature(Temperature::from_k(k), units);
        let m = |kg: f64| display::mass(Mass::from_kg(kg), units);
        // Rounding to the gauge's resolution must not show more vacuum than there is.
        let p =
            |pa: f64| display::gauge_pressure(GaugePressure::from_pa(pa.max(-shown.day.p)), units);
        let [low_saturation, high_saturation] = shown.saturation.map(|k| k.map(t));
        let [low, high] = shown.dials.map(p);
        let [vent, cabin] = shown.air.map(t);
        let given = shown.weighed.given;
        Self {
            clock: display::duration(Duration::from_s(shown.seconds())),
            low,
            high,
            low_saturation,
            high_saturation,
            vent,
            vent_cold: shown.vent_cold,
            cabin,
            scale: shown.hands.attached.weighed().then(|| m(shown.scale)),
            vacuum: vacuum(shown, units),
            vacuum_at_loop: shown.hands.vacuum_gauge == GaugePlace::Loop,
            given: m(given),
            label: m(shown.target),
            given_share: given / shown.target.max(1e-3),
            clutch: shown.clutch,
            cycles: cycles_per_minute(shown),
        }
    }
}

/// Reading of the vacuum gauge; none above its range.
pub fn vacuum(shown: &Known<'_>, units: UnitSystem) -> Option<Shown> {
    let reading = shown.vacuum?;
    Some(display::vacuum(
        AbsolutePressure::from_si(reading.max(0.0)),
        units,
    ))
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use lowside_session::{Bay, HoseAct, Scenario, VesselAct, library};
    use lowside_units::Ratio;

    /// A shipped bay without its script.
    pub(crate) fn bay(name: &str) -> Bay {
        let mut scenario =
            Scenario::parse(library::scenario(name).expect("shipped"), &[]).expect("sound");
        scenario.act.clear();
        Bay::new(&scenario)
    }

    /// What the cans have given, kg, as a technician adds it up.
    fn given(bay: &Bay) -> f64 {
        Known::of(bay).weighed.given
    }

    fn pass(bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
    }

    #[test]
    fn the_scale_tells_what_went_in() {
        let mut bay = bay("charge-from-cans");
        assert!(given(&bay).abs() < 1e-9);
        bay.apply(VesselAct::TakeCan).unwrap();
        pass(&mut bay, 5);
        assert!(
            given(&bay) < 1e-9,
            "nothing has left a can whose tap is shut: {}",
            given(&bay)
        );
        bay.apply(VesselAct::Tap { on: true }).unwrap();
        bay.apply(HoseAct::LowValve {
            open: Ratio::from_fraction(1.0),
        })
        .unwrap();
        pass(&mut bay, 60);
        let (by_scale, true_gain) = (given(&bay), bay.charge());
        assert!(true_gain > 0.02, "a static can gives: {true_gain}");
        assert!(
            (by_scale - true_gain).abs() < 8e-3,
            "scale {by_scale} against books {true_gain} (hoses hold a little)"
        );
        let before = given(&bay);
        bay.apply(VesselAct::RemoveCan).unwrap();
        pass(&mut bay, 5);
        assert!(
            (given(&bay) - before).abs() < 4e-3,
            "what a used can keeps counts as not given"
        );
    }

    #[test]
    fn a_healthy_van_reads_in_both_systems() {
        let mut bay = bay("healthy");
        pass(&mut bay, 30);
        let us = Readout::of(&Known::of(&bay), UnitSystem::US);
        let si = Readout::of(&Known::of(&bay), UnitSystem::SI);
        assert!(us.low.unit == "psig" && si.low.unit == "kPag");
        assert_eq!(us.clock.number, "0:30");
        assert!(us.low_saturation.is_some() && si.high_saturation.is_some());
        let evacuated = self::bay("charge-from-cans");
        let empty = Readout::of(&Known::of(&evacuated), UnitSystem::US);
        assert_eq!(empty.low_saturation, None, "a vacuum boils at nothing");
        assert_eq!(us.scale, None);
        assert_eq!(us.label.to_string(), "36.0 oz");
        assert_eq!(si.label.to_string(), "1021 g");
    }
}
