//! The ledger: where every gram is, as lines and as shares of a bar.

use lowside_plant::species::{AIR, OIL, REFRIGERANT, WATER};
use lowside_session::Bay;
use lowside_shop::ledger::Place;
use lowside_units::{
    Mass, Quantity,
    display::{self, Shown, Style, UnitSystem},
};

/// Air and water come in traces: milligrams in both systems.
const TRACE: Style = Style::new(0, "mg");

/// One place.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Which place.
    pub place: Place,
    /// All refrigerant there.
    pub all: Shown,
    /// Liquid refrigerant.
    pub liquid: Shown,
    /// Refrigerant vapour.
    pub vapour: Shown,
    /// Oil.
    pub oil: Shown,
    /// Air.
    pub air: Shown,
    /// Water.
    pub water: Shown,
    /// Liquid refrigerant over all refrigerant counted, 0 to 1.
    pub liquid_share: f64,
    /// Vapour over all refrigerant counted, 0 to 1.
    pub vapour_share: f64,
}

/// The ledger of a bay.
#[derive(Debug, Clone, PartialEq)]
pub struct Ledger {
    /// Places in the order of the flow, then what is outside the loop.
    pub rows: Vec<Row>,
    /// Refrigerant in the loop.
    pub in_loop: Shown,
    /// All refrigerant counted.
    pub total: Shown,
}

impl Ledger {
    /// Reads the ledger.
    pub fn of(bay: &Bay, units: UnitSystem) -> Self {
        let entries = bay.ledger();
        let total: f64 = entries
            .iter()
            .map(|e| e.content[REFRIGERANT].max(0.0))
            .sum();
        let mass = |kg: f64| display::mass(Mass::from_kg(kg), units);
        let rows = entries
            .iter()
            .map(|e| {
                let all = e.content[REFRIGERANT].max(0.0);
                let liquid = e.liquid.clamp(0.0, all);
                let share = |kg: f64| if total > 0.0 { kg / total } else { 0.0 };
                Row {
                    place: e.place,
                    all: mass(all),
                    liquid: mass(liquid),
                    vapour: mass(all - liquid),
                    oil: mass(e.content[OIL]),
                    air: TRACE.show(e.content[AIR] * 1e6),
                    water: TRACE.show(e.content[WATER] * 1e6),
                    liquid_share: share(liquid),
                    vapour_share: share(all - liquid),
                }
            })
            .collect();
        Self {
            rows,
            in_loop: mass(bay.charge()),
            total: mass(total),
        }
    }

    /// Share of a part of the loop in words: how much of all refrigerant is at `place`.
    pub fn share_of(&self, place: Place) -> f64 {
        self.rows
            .iter()
            .filter(|r| r.place == place)
            .map(|r| r.liquid_share + r.vapour_share)
            .sum()
    }
}

/// Mass in kg that the ledger counts as refrigerant, for the page's bar when it is empty.
pub fn is_empty(ledger: &Ledger) -> bool {
    ledger
        .rows
        .iter()
        .all(|r| r.liquid_share + r.vapour_share <= 0.0)
}

/// A mass as shown.
pub fn shown(kg: f64, units: UnitSystem) -> Shown {
    display::mass(Mass::from_si(kg), units)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;

    #[test]
    fn shares_add_up() {
        let mut bay = bay("healthy");
        for _ in 0..500 {
            bay.step().expect("the engine goes on");
        }
        let l = Ledger::of(&bay, UnitSystem::SI);
        let sum: f64 = l.rows.iter().map(|r| r.liquid_share + r.vapour_share).sum();
        assert!((sum - 1.0).abs() < 1e-9);
        assert!(l.share_of(Place::Condenser) > 0.1);
        assert!(!is_empty(&l));
        assert_eq!(l.in_loop.unit, "g");
    }

    #[test]
    fn an_evacuated_loop_is_empty() {
        assert!(is_empty(&Ledger::of(
            &bay("charge-from-cans"),
            UnitSystem::US
        )));
    }
}
