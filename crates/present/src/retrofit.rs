//! What a conversion needs to be shown: the charge by rule, the pressure switches.

use lowside_fluids::Refrigerant;
use lowside_lessons::Shown as Known;
use lowside_units::{
    GaugePressure, Mass,
    display::{self, Shown, Style, UnitSystem},
};

/// Where the cut-out of the conversion kit opens, Pa gauge (420 psi; makers' 410 to 450, from memory).
const CUT_OUT: f64 = 2.896e6;

/// The charge calculator of a vehicle whose kind is converted.
#[derive(Debug, Clone, PartialEq)]
pub struct Charge {
    /// What it was built for.
    pub from: Refrigerant,
    /// What it is converted to.
    pub to: Refrigerant,
    /// Charge on the maker's label.
    pub label: Shown,
    /// Least and most of the new gas by the rule.
    pub range: [Shown; 2],
    /// The same as shares of the label's charge.
    pub shares: [Shown; 2],
    /// Half way between, g: what the dose is set to first.
    pub middle_g: f64,
}

/// The calculator; none for a vehicle whose kind is not converted.
pub fn charge(shown: &Known<'_>, units: UnitSystem) -> Option<Charge> {
    let retrofit = shown.printed.built_for.data().retrofit?;
    let label = shown.printed.label_charge;
    let mass = |kg: f64| display::mass(Mass::from_kg(kg), units);
    let [least, most] = retrofit.charge;
    Some(Charge {
        from: shown.printed.built_for,
        to: retrofit.to,
        label: mass(label),
        range: [mass(least * label), mass(most * label)],
        shares: retrofit.charge.map(|x| Style::new(0, "%").show(100.0 * x)),
        middle_g: Mass::from_kg(retrofit.middle() * label).g().round(),
    })
}

/// The two pressure switches.
#[derive(Debug, Clone, PartialEq)]
pub struct Switches {
    /// Where the cycling switch opens and closes.
    pub cycling: [Shown; 2],
    /// Where the high-pressure cut-out opens, if there is one.
    pub cut_out: Option<Shown>,
    /// Where the one in the conversion kit opens.
    pub kit: (GaugePressure, Shown),
}

/// How they are set, by data sheet, print and turns of the screw.
pub fn switches(shown: &Known<'_>, units: UnitSystem) -> Switches {
    let text = |pa: f64| display::gauge_pressure(GaugePressure::from_pa(pa), units);
    Switches {
        cycling: shown.printed.cycling.map(text),
        cut_out: shown.printed.cut_out.map(text),
        kit: (GaugePressure::from_pa(CUT_OUT), text(CUT_OUT)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;

    /// 44 oz of R-12 make 33 to 37 oz of R-134a.
    #[test]
    fn the_rule_goes_by_the_r12_label() {
        let c =
            charge(&Known::of(&bay("before-retrofit")), UnitSystem::US).expect("built for R-12");
        assert_eq!(c.label.to_string(), "44.0 oz");
        assert_eq!(
            c.range.map(|r| r.to_string()),
            ["33.0 oz".to_owned(), "37.4 oz".to_owned()]
        );
        assert_eq!(c.shares.map(|s| s.to_string()), ["75 %", "85 %"]);
        assert_eq!((c.from, c.to), (Refrigerant::R12, Refrigerant::R134a));
        assert!(charge(&Known::of(&bay("healthy")), UnitSystem::US).is_none());
        assert!(
            switches(&Known::of(&bay("before-retrofit")), UnitSystem::SI)
                .cut_out
                .is_none()
        );
    }
}
