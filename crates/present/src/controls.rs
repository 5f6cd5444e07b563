//! How each control stands.

use lowside_lessons::Shown as Known;
use lowside_shop::can::Stance;
use lowside_units::{
    Quantity, Ratio, RotationSpeed, Speed, Temperature,
    display::{self, Shown, UnitSystem},
};

pub use lowside_lessons::Control;

/// A number that can be set, with its text.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// The number in the unit of the control, see each field.
    pub value: f64,
    /// As shown.
    pub shown: Shown,
}

/// The can on the hose, as the hands see it.
#[expect(clippy::struct_excessive_bools, reason = "each is a thing of its own")]
#[derive(Debug, Clone, PartialEq)]
pub struct CanControls {
    /// Which can of the job, from 1.
    pub number: u32,
    /// Tap open.
    pub open: bool,
    /// Valve down.
    pub inverted: bool,
    /// Rocked in both hands.
    pub rocked: bool,
    /// Water bath, degC, if it stands in one.
    pub bath: Option<Setting>,
    /// It has burst.
    pub burst: bool,
}

/// How every control stands.
#[expect(clippy::struct_excessive_bools, reason = "a switch each")]
#[derive(Debug, Clone, PartialEq)]
pub struct Controls {
    /// Engine runs.
    pub engine: bool,
    /// Engine speed, 1/min.
    pub rpm: Setting,
    /// A/C button pressed.
    pub ac: bool,
    /// Blower step.
    pub blower: u8,
    /// Highest blower step.
    pub blower_most: u8,
    /// Recirculation on.
    pub recirculation: bool,
    /// Windows and doors open.
    pub windows: bool,
    /// Fan in front of the grille, km/h.
    pub road_speed: Setting,
    /// Day's temperature, degC.
    pub ambient: Setting,
    /// Day's relative humidity, per cent.
    pub humidity: Setting,
    /// Low coupler on its port.
    pub low_coupled: bool,
    /// High coupler on its port.
    pub high_coupled: bool,
    /// Low valve, per cent open.
    pub low_valve: u8,
    /// High valve, per cent open.
    pub high_valve: u8,
    /// Purging.
    pub purging: bool,
    /// The can, if one is on.
    pub can: Option<CanControls>,
    /// Cans taken so far.
    pub cans_taken: u32,
}

/// Per cent of an opening, whole.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to 0..=100 before"
)]
fn percent(open: f64) -> u8 {
    (open.clamp(0.0, 1.0) * 100.0).round() as u8
}

/// A temperature as a setting in degC.
pub fn celsius(t: Temperature, units: UnitSystem) -> Setting {
    Setting {
        value: t.deg_c().round(),
        shown: display::temperature(t, units),
    }
}

impl Controls {
    /// Reads the controls.
    pub fn of(shown: &Known<'_>, units: UnitSystem) -> Self {
        let s = &shown.settings;
        let h = &shown.hands;
        let small = |n: usize| u8::try_from(n).unwrap_or(u8::MAX);
        Self {
            engine: s.engine_on,
            rpm: Setting {
                value: s.engine_rpm.round(),
                shown: display::rotation(RotationSpeed::from_rpm(s.engine_rpm)),
            },
            ac: s.ac_on,
            blower: small(s.blower),
            blower_most: small(shown.blower_most),
            recirculation: s.recirculate,
            windows: s.windows_open,
            road_speed: {
                let v = Speed::from_si(s.road_speed);
                Setting {
                    value: v.km_h().round(),
                    shown: display::speed(v, units),
                }
            },
            ambient: celsius(Temperature::from_k(shown.day.t), units),
            humidity: {
                let share = Ratio::from_fraction(shown.day.humidity);
                Setting {
                    value: share.percent().round(),
                    shown: display::ratio(share),
                }
            },
            low_coupled: h.low_coupled,
            high_coupled: h.high_coupled,
            low_valve: percent(h.low_valve),
            high_valve: percent(h.high_valve),
            purging: h.purging,
            can: h.attached.can().map(|c| CanControls {
                number: c.number,
                open: c.open(),
                inverted: c.stance == Stance::Inverted,
                rocked: c.rocked,
                bath: c.bath.map(|t| celsius(Temperature::from_k(t), units)),
                burst: c.burst,
            }),
            cans_taken: h.cans_taken,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::VesselAct;

    #[test]
    fn controls_follow_the_acts() {
        let mut bay = bay("charge-from-cans");
        assert_eq!(Controls::of(&Known::of(&bay), UnitSystem::SI).can, None);
        bay.apply(VesselAct::TakeCan).unwrap();
        bay.apply(VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(45.0)),
        })
        .unwrap();
        let c = Controls::of(&Known::of(&bay), UnitSystem::US);
        let can = c.can.expect("a can is on");
        assert_eq!((can.number, can.open, can.inverted), (1, false, false));
        assert_eq!(
            can.bath.expect("in water").shown.to_string(),
            "113.0 \u{b0}F"
        );
        assert_eq!(c.ambient.shown.to_string(), "95.0 \u{b0}F");
        assert_eq!(c.humidity.shown.to_string(), "40 %");
    }
}
