//! What a caution says in figures.

use lowside_units::{
    Temperature,
    display::{self, UnitSystem},
};

use crate::tools::Refrigerant;

/// Where a gas boils in the open, as text in degC and degF.
pub fn boils(gas: Refrigerant) -> [String; 2] {
    let t = Temperature::from_k(gas.data().boiling_point);
    [UnitSystem::SI, UnitSystem::US].map(|units| display::temperature(t, units).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Normal boiling points: -29.8, -26.1 and -29.5 degC (ASHRAE Handbook - Fundamentals, table of refrigerants; from memory).
    #[test]
    fn each_gas_boils_where_the_handbook_says() {
        let told = Refrigerant::ALL.map(|gas| (gas, boils(gas)[0].replace('\u{2212}', "-")));
        let found = |gas| {
            let (_, text) = told.iter().find(|(g, _)| *g == gas).expect("all");
            let number = text.split_whitespace().next().expect("a number");
            number.parse::<f64>().expect("a number")
        };
        for (gas, t) in [
            (Refrigerant::R12, -29.8),
            (Refrigerant::R134a, -26.1),
            (Refrigerant::R1234yf, -29.5),
        ] {
            assert!((found(gas) - t).abs() < 0.11, "{gas}: {told:?}");
        }
    }
}
