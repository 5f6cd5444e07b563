//! Which unit a quantity is shown in, by unit system.

use super::{Family, MassUnit, PressureUnit, Shown, Style, TemperatureUnit, UnitSystem};
use crate::{
    AbsolutePressure, Duration, GaugePressure, Length, Mass, MassFlow, Power, PressureDifference,
    Ratio, RotationSpeed, Speed, Temperature, TemperatureDifference, Volume, VolumeFlow,
};

const PSIG: Style = Style::new(0, "psig");
const IN_HG_VACUUM: Style = Style::new(1, "inHg vac");
const KPAG: Style = Style::new(0, "kPag");
const BAR_G: Style = Style::new(2, "barg");
const BAR_A: Style = Style::new(2, "bara");
const MBAR: Style = Style::new(2, "mbar");
const PSIA: Style = Style::new(1, "psia");
const KPA: Style = Style::new(0, "kPa");
const PSI: Style = Style::new(0, "psi");
const BAR: Style = Style::new(2, "bar");
const MICRON: Style = Style::new(0, "micron");
const PA: Style = Style::new(1, "Pa");
const DEG_F: Style = Style::new(1, "\u{b0}F");
const DEG_C: Style = Style::new(1, "\u{b0}C");
const KELVIN: Style = Style::new(1, "K");
const OZ: Style = Style::new(1, "oz");
const GRAM: Style = Style::new(0, "g");
const LB: Style = Style::new(1, "lb");
const KG: Style = Style::new(2, "kg");
/// Most decimals of a trace.
const SMALLEST: u8 = 4;
const FL_OZ: Style = Style::new(1, "fl oz");
const CM3: Style = Style::new(0, "cm\u{b3}");
const OZ_MIN: Style = Style::new(1, "oz/min");
const G_S: Style = Style::new(1, "g/s");
const OZ_YR: Style = Style::new(2, "oz/yr");
const G_YR: Style = Style::new(1, "g/yr");
const CFM: Style = Style::new(0, "cfm");
const M3_H: Style = Style::new(0, "m\u{b3}/h");
const INCH: Style = Style::new(3, "in");
const MM: Style = Style::new(2, "mm");
const MPH: Style = Style::new(0, "mph");
const FT_MIN: Style = Style::new(0, "ft/min");
const M_S: Style = Style::new(1, "m/s");
const KM_H: Style = Style::new(0, "km/h");
const RPM: Style = Style::new(0, "rpm");
const HP: Style = Style::new(1, "hp");
const BTU_H: Style = Style::new(0, "Btu/h");
const KW: Style = Style::new(2, "kW");
const PERCENT: Style = Style::new(0, "%");

/// Gauge pressure: psig, and inches of mercury of vacuum below the atmosphere; kPag and barg throughout.
#[must_use]
pub fn gauge_pressure(p: GaugePressure, system: UnitSystem) -> Shown {
    match system.pressure {
        PressureUnit::Kpa => KPAG.show(p.kpa()),
        PressureUnit::Bar => BAR_G.show(p.bar()),
        PressureUnit::Psi if p.pa() < 0.0 && !IN_HG_VACUUM.shows_zero(p.in_hg_vacuum()) => {
            IN_HG_VACUUM.show(p.in_hg_vacuum())
        }
        PressureUnit::Psi => PSIG.show(p.psi().max(0.0)),
    }
}

/// Absolute pressure in the running range: psia, kPa or bara.
#[must_use]
pub fn absolute_pressure(p: AbsolutePressure, system: UnitSystem) -> Shown {
    match system.pressure {
        PressureUnit::Psi => PSIA.show(p.psi()),
        PressureUnit::Kpa => KPA.show(p.kpa()),
        PressureUnit::Bar => BAR_A.show(p.bar()),
    }
}

/// Difference of two pressures: psi, kPa or bar, never a gauge's or an absolute unit.
#[must_use]
pub fn pressure_difference(dp: PressureDifference, system: UnitSystem) -> Shown {
    match system.pressure {
        PressureUnit::Psi => PSI.show(dp.psi()),
        PressureUnit::Kpa => KPA.show(dp.kpa()),
        PressureUnit::Bar => BAR.show(dp.bar()),
    }
}

/// Absolute pressure as an electronic vacuum gauge shows it: microns, Pa or mbar.
#[must_use]
pub fn vacuum(p: AbsolutePressure, system: UnitSystem) -> Shown {
    match system.pressure {
        PressureUnit::Psi => MICRON.show(p.micron()),
        PressureUnit::Kpa => PA.show(p.pa()),
        PressureUnit::Bar => MBAR.show(p.mbar()),
    }
}

/// Temperature: degF or degC.
#[must_use]
pub fn temperature(t: Temperature, system: UnitSystem) -> Shown {
    match system.temperature {
        TemperatureUnit::Fahrenheit => DEG_F.show(t.deg_f()),
        TemperatureUnit::Celsius => DEG_C.show(t.deg_c()),
    }
}

/// Temperature difference: degF or K.
#[must_use]
pub fn temperature_difference(dt: TemperatureDifference, system: UnitSystem) -> Shown {
    match system.temperature {
        TemperatureUnit::Fahrenheit => DEG_F.show(dt.deg_f()),
        TemperatureUnit::Celsius => KELVIN.show(dt.k()),
    }
}

/// Mass of refrigerant: oz or g.
#[must_use]
pub fn mass(m: Mass, system: UnitSystem) -> Shown {
    match system.mass {
        MassUnit::Ounce => OZ.show(m.oz()),
        MassUnit::Gram => GRAM.show(m.g()),
    }
}

/// Mass with two figures at least, where [`mass`] would show none of a trace: a limit of 0.5 g is 0.018 oz, not 0.0 oz.
#[must_use]
pub fn small_mass(m: Mass, system: UnitSystem) -> Shown {
    /// What shows of the first two figures, rounding counted in.
    const TWO_FIGURES: f64 = 9.95;
    let (style, number) = match system.mass {
        MassUnit::Ounce => (OZ, m.oz()),
        MassUnit::Gram => (GRAM, m.g()),
    };
    let figures = |decimals: u8| number.abs() * 10_f64.powi(i32::from(decimals));
    let enough = |d: &u8| number == 0.0 || figures(*d) >= TWO_FIGURES;
    let decimals = (style.decimals()..SMALLEST)
        .find(enough)
        .unwrap_or(SMALLEST);
    let decimals = if number == 0.0 {
        style.decimals()
    } else {
        decimals
    };
    style.with_decimals(decimals).show(number)
}

/// Mass of any size, as of carbon dioxide: in pounds from 16 oz, in kilograms from 1000 g.
#[must_use]
pub fn large_mass(m: Mass, system: UnitSystem) -> Shown {
    match system.mass {
        MassUnit::Ounce if m.oz() >= 16.0 => LB.show(m.lb()),
        MassUnit::Gram if m.g() >= 1000.0 => KG.show(m.kg()),
        _ => mass(m, system),
    }
}

/// Small volume, such as oil in a measuring glass: fl oz or cm3.
#[must_use]
pub fn volume(v: Volume, system: UnitSystem) -> Shown {
    match system.rest {
        Family::Us => FL_OZ.show(v.fl_oz()),
        Family::Si => CM3.show(v.cm3()),
    }
}

/// Mass flow in the running loop: oz/min or g/s.
#[must_use]
pub fn mass_flow(m: MassFlow, system: UnitSystem) -> Shown {
    match system.mass {
        MassUnit::Ounce => OZ_MIN.show(m.oz_min()),
        MassUnit::Gram => G_S.show(m.g_s()),
    }
}

/// Leak rate: oz/yr or g/yr.
#[must_use]
pub fn leak_rate(m: MassFlow, system: UnitSystem) -> Shown {
    match system.mass {
        MassUnit::Ounce => OZ_YR.show(m.oz_yr()),
        MassUnit::Gram => G_YR.show(m.g_yr()),
    }
}

/// Air flow: cfm or m3/h.
#[must_use]
pub fn volume_flow(v: VolumeFlow, system: UnitSystem) -> Shown {
    match system.rest {
        Family::Us => CFM.show(v.cfm()),
        Family::Si => M3_H.show(v.m3_h()),
    }
}

/// Length of a small part: in or mm.
#[must_use]
pub fn length(l: Length, system: UnitSystem) -> Shown {
    match system.rest {
        Family::Us => INCH.show(l.inches()),
        Family::Si => MM.show(l.mm()),
    }
}

/// Road or air speed: mph or km/h.
#[must_use]
pub fn speed(v: Speed, system: UnitSystem) -> Shown {
    match system.rest {
        Family::Us => MPH.show(v.mph()),
        Family::Si => KM_H.show(v.km_h()),
    }
}

/// Speed of air at an outlet: ft/min, to tens as an anemometer shows it, or m/s.
#[must_use]
pub fn air_speed(v: Speed, system: UnitSystem) -> Shown {
    match system.rest {
        Family::Us => FT_MIN.show((v.ft_min() / 10.0).round() * 10.0),
        Family::Si => M_S.show(v.m_s()),
    }
}

/// Speed of rotation: rpm in both systems.
#[must_use]
pub fn rotation(n: RotationSpeed) -> Shown {
    RPM.show(n.rpm())
}

/// Heat flow: Btu/h, to the nearest hundred (0.03 kW: what lies below is never still), or kW.
#[must_use]
pub fn heat_flow(p: Power, system: UnitSystem) -> Shown {
    match system.rest {
        Family::Us => BTU_H.show((p.btu_h() / 100.0).round() * 100.0),
        Family::Si => KW.show(p.kw()),
    }
}

/// Power: hp or kW.
#[must_use]
pub fn power(p: Power, system: UnitSystem) -> Shown {
    match system.rest {
        Family::Us => HP.show(p.hp()),
        Family::Si => KW.show(p.kw()),
    }
}

/// Ratio as per cent, both systems.
#[must_use]
pub fn ratio(r: Ratio) -> Shown {
    PERCENT.show(r.percent())
}

/// Time of the bay: `m:ss` below an hour, `h:mm:ss` above; the same in both systems. Whole seconds, cut not rounded.
#[must_use]
pub fn duration(t: Duration) -> Shown {
    /// Seconds a clock of this form can show without losing a second in `f64`.
    const MOST_S: f64 = 1e12;
    if t.s().is_nan() || t.s().abs() > MOST_S {
        return Shown {
            number: "\u{2014}".into(),
            unit: "",
        };
    }
    let (hours, minutes, seconds) = hms(t.s().abs());
    let negative = t.s() <= -1.0;
    let clock = if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    };
    let sign = if negative { "\u{2212}" } else { "" };
    Shown {
        number: format!("{sign}{clock}"),
        unit: "",
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the caller bounds it to 0..=1e12"
)]
fn hms(s: f64) -> (u64, u64, u64) {
    let s = s as u64;
    (s / 3600, s / 60 % 60, s % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heat_in_the_us_system_is_told_to_the_hundred() {
        let shown = |btu_h| heat_flow(Power::from_btu_h(btu_h), UnitSystem::US).to_string();
        assert_eq!(shown(18_576.0), "18600 Btu/h");
        assert_eq!(shown(-12.0), shown(0.0));
    }

    #[test]
    fn a_compound_gauge_changes_scale_at_the_atmosphere() {
        let us = |psi| gauge_pressure(GaugePressure::from_psi(psi), UnitSystem::US);
        assert_eq!(us(42.0).to_string(), "42 psig");
        assert_eq!(us(-5.0).to_string(), "10.2 inHg vac");
        assert_eq!(us(-0.001).to_string(), "0 psig");
        assert_eq!(
            gauge_pressure(GaugePressure::from_kpa(-34.47), UnitSystem::SI).to_string(),
            "\u{2212}34 kPag"
        );
    }

    /// NIST SP 811 app. B: 1 psi = 6.894757 kPa. A difference has no atmosphere to stand above.
    #[test]
    fn a_difference_of_pressures_is_neither_gauge_nor_absolute() {
        let shown = |system| pressure_difference(PressureDifference::from_kpa(689.4757), system);
        assert_eq!(shown(UnitSystem::US).to_string(), "100 psi");
        assert_eq!(shown(UnitSystem::SI).to_string(), "689 kPa");
        let bars = UnitSystem {
            pressure: PressureUnit::Bar,
            ..UnitSystem::SI
        };
        assert_eq!(shown(bars).to_string(), "6.89 bar");
    }

    #[test]
    fn both_systems() {
        let t = Temperature::from_deg_c(35.0);
        assert_eq!(temperature(t, UnitSystem::US).to_string(), "95.0 \u{b0}F");
        assert_eq!(temperature(t, UnitSystem::SI).to_string(), "35.0 \u{b0}C");
        let m = Mass::from_oz(36.0);
        assert_eq!(mass(m, UnitSystem::US).number, "36.0");
        assert_eq!(mass(m, UnitSystem::SI).to_string(), "1021 g");
        assert_eq!(
            vacuum(AbsolutePressure::from_micron(500.0), UnitSystem::US).to_string(),
            "500 micron"
        );
        assert_eq!(
            vacuum(AbsolutePressure::from_micron(500.0), UnitSystem::SI).to_string(),
            "66.7 Pa"
        );
        assert_eq!(
            leak_rate(MassFlow::from_g_yr(450.0), UnitSystem::US).to_string(),
            "15.87 oz/yr"
        );
        assert_eq!(ratio(Ratio::from_fraction(0.4)).to_string(), "40 %");
    }

    /// NIST SP 811 app. B: 1 oz = 28.349 52 g, 1 lb = 16 oz = 453.592 4 g.
    #[test]
    fn a_trace_keeps_its_figures_and_a_load_is_told_in_pounds() {
        let both = |g: f64, show: fn(Mass, UnitSystem) -> Shown| {
            [UnitSystem::US, UnitSystem::SI].map(|u| show(Mass::from_g(g), u).to_string())
        };
        assert_eq!(both(0.5, small_mass), ["0.018 oz", "0.50 g"]);
        assert_eq!(both(0.0, small_mass), ["0.0 oz", "0 g"]);
        assert_eq!(both(964.0, small_mass), ["34.0 oz", "964 g"]);
        assert_eq!(both(27_116.0, large_mass), ["59.8 lb", "27.12 kg"]);
        assert_eq!(both(453.0, large_mass), ["16.0 oz", "453 g"]);
    }

    #[test]
    fn bay_time_reads_like_a_clock() {
        assert_eq!(duration(Duration::from_s(0.99)).number, "0:00");
        assert_eq!(duration(Duration::from_s(3671.0)).number, "1:01:11");
        assert_eq!(duration(Duration::from_s(-61.0)).number, "\u{2212}1:01");
        assert_eq!(duration(Duration::from_s(f64::INFINITY)).number, "\u{2014}");
    }
}
