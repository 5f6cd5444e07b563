//! A figure of the report: as text in SI and US units, and its difference from another.

use lowside_units::{
    AbsolutePressure, GaugePressure, Mass, Power, PressureDifference, Ratio, Temperature,
    TemperatureDifference,
    display::{self, Shown, UnitSystem},
};

/// A figure, in the unit it is summed up in.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Figure {
    /// Nothing to show.
    None,
    /// Pressure over the atmosphere, Pa.
    Gauge(f64),
    /// Pressure, kPa.
    Absolute(f64),
    /// Temperature, degC.
    Temperature(f64),
    /// Difference of temperatures, K.
    Kelvin(f64),
    /// Mass, kg.
    Mass(f64),
    /// Flow of heat, W.
    Heat(f64),
    /// Power at a shaft, W.
    Power(f64),
    /// Share of a whole.
    Share(f64),
    /// Whether the clutch is in.
    Clutch(bool),
    /// How often.
    Count(u32),
}

impl Figure {
    /// The figure in SI and in US units; the second is empty where it would say the same.
    pub(crate) fn shown(self) -> [String; 2] {
        match self {
            Self::None => ["-".into(), "-".into()],
            Self::Gauge(pa) => both(|u| display::gauge_pressure(GaugePressure::from_pa(pa), u)),
            Self::Absolute(kpa) => {
                both(|u| display::absolute_pressure(AbsolutePressure::from_kpa(kpa), u))
            }
            Self::Temperature(t) => both(|u| display::temperature(Temperature::from_deg_c(t), u)),
            Self::Kelvin(t) => {
                both(|u| display::temperature_difference(TemperatureDifference::from_k(t), u))
            }
            Self::Mass(kg) => both(|u| display::mass(Mass::from_kg(kg), u)),
            Self::Heat(w) => both(|u| display::heat_flow(Power::from_w(w), u)),
            Self::Power(w) => both(|u| display::power(Power::from_w(w), u)),
            Self::Share(share) => one(display::ratio(Ratio::from_fraction(share)).to_string()),
            Self::Clutch(engaged) => one(if engaged { "in" } else { "out" }.into()),
            Self::Count(times) => one(times.to_string()),
        }
    }

    /// How much this is more than `other`, with a sign, in SI and in US units.
    pub(crate) fn over(self, other: Self) -> [String; 2] {
        match (self, other) {
            (Self::Gauge(a), Self::Gauge(b)) => apart(PressureDifference::from_pa(a - b)),
            (Self::Absolute(a), Self::Absolute(b)) => apart(PressureDifference::from_kpa(a - b)),
            (Self::Temperature(a), Self::Temperature(b)) | (Self::Kelvin(a), Self::Kelvin(b)) => {
                signed(Self::Kelvin(a - b).shown())
            }
            (Self::Mass(a), Self::Mass(b)) => signed(Self::Mass(a - b).shown()),
            (Self::Heat(a), Self::Heat(b)) => signed(Self::Heat(a - b).shown()),
            (Self::Power(a), Self::Power(b)) => signed(Self::Power(a - b).shown()),
            (Self::Share(a), Self::Share(b)) => signed(Self::Share(a - b).shown()),
            (Self::Count(a), Self::Count(b)) => {
                let more = (i64::from(a) - i64::from(b))
                    .to_string()
                    .replace('-', "\u{2212}");
                signed(one(more))
            }
            (Self::Clutch(a), Self::Clutch(b)) => one(if a == b { "same" } else { "other" }.into()),
            _ => Self::None.shown(),
        }
    }
}

fn both(show: impl Fn(UnitSystem) -> Shown) -> [String; 2] {
    [UnitSystem::SI, UnitSystem::US].map(|u| show(u).to_string())
}

fn one(text: String) -> [String; 2] {
    [text, String::new()]
}

fn apart(dp: PressureDifference) -> [String; 2] {
    signed(both(|u| display::pressure_difference(dp, u)))
}

/// Puts a plus before what is above zero.
fn signed(shown: [String; 2]) -> [String; 2] {
    shown.map(|text| {
        let number = text.split(' ').next().unwrap_or_default();
        let above =
            number.bytes().any(|b| (b'1'..=b'9').contains(&b)) && !number.starts_with('\u{2212}');
        if above { format!("+{text}") } else { text }
    })
}
