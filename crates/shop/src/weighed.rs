//! What is known of the loop's content: the charge by weight, given and not recovered since both gauges last showed an empty loop; and whether
//! there is pressure in it at all.
//!
//! It goes by what a technician reads and does, never by what is in the loop: a leak takes from it unseen.

use serde::{Deserialize, Serialize};

use lowside_plant::plant::Plant;

use crate::{attached::Attached, gauge::Instrument, shop::Shop};

/// A loop counts as empty up to here by the compound gauge, Pa absolute: 27 inHg of vacuum at sea level, the least that makers ask for
/// (from memory).
const EMPTY: f64 = 10e3;
/// How long both gauges have to show that before it is believed, s: needles rise from the vacuum that hoses are brought in (own figure).
const BELIEVED: f64 = 3.0;

/// A gauge that shows no more than this shows no pressure, Pa gauge: the step of the coarser one.
pub const NO_PRESSURE: f64 = 10e3;
/// How long both gauges have to stay down until the loop is known to have no pressure, s (own figure; the trade waits some minutes for what
/// boils out of the oil).
const STAYS_DOWN: f64 = 60.0;

/// Least mass given that counts, kg: the step of a scale.
const LEAST: f64 = 2e-3;

/// The account of what is in the loop.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub(crate) struct Account {
    /// Given less recovered when the loop was last shown empty, kg; none where its content is not known by weight.
    then: Option<f64>,
    /// How long both gauges have shown a vacuum, s.
    empty_for: f64,
    /// How long both gauges have shown no pressure, s.
    down_for: f64,
    /// They did so for long enough, and nothing was let in since.
    stayed_down: bool,
    /// The loop was shown empty, and nothing was let in since by any vessel.
    emptied: bool,
}

impl Shop {
    /// What is in the loop by weight, kg; none where nobody can know: it was never seen empty, or was open since.
    pub fn weighed_in(&self, plant: &Plant) -> Option<f64> {
        self.account.then.map(|then| self.balance(plant) - then)
    }

    /// There is no pressure in the loop, for all that anybody can tell: both gauges are down and do not rise, or stayed down for long enough
    /// and nothing was let in since.
    pub fn shown_down(&self) -> bool {
        self.account.stayed_down || self.account.down_for >= BELIEVED
    }

    /// The loop was shown empty and no vessel has let anything in since: what is in it has come from the room.
    pub fn only_air_since(&self, plant: &Plant) -> bool {
        self.account.emptied && !self.weighed_in(plant).is_some_and(|kg| kg > LEAST)
    }

    /// No refrigerant can be in the loop, for all that is shown: a gauge on it reads air, a vacuum or nitrogen, and no boiling point.
    pub fn shown_without_refrigerant(&self, plant: &Plant) -> bool {
        self.shown_down()
            || self.only_air_since(plant)
            || self.weighed_in(plant).is_some_and(|kg| kg <= LEAST)
    }

    /// Given less recovered so far, kg.
    fn balance(&self, plant: &Plant) -> f64 {
        self.given(plant) - self.recovered(plant)
    }

    /// Opens the account by what the gauges show as they come onto the vehicle.
    pub(crate) fn open_account(&mut self, plant: &Plant) {
        let empty = self.gauges_show_empty(plant);
        self.account.then = empty.then_some(0.0);
        self.account.stayed_down = empty;
        self.account.emptied = empty;
    }

    /// Both gauges show a vacuum; the high-pressure gauge rests on its pin in one.
    fn gauges_show_empty(&self, plant: &Plant) -> bool {
        let i = &self.instruments;
        i.low.reading() + plant.day().p <= EMPTY && i.high.reading() <= 0.0
    }

    /// Begins the account anew while both gauges show an empty loop, and gives it up once gas has a way out; `dt` seconds pass.
    pub(crate) fn keep_account(&mut self, plant: &Plant, dt: f64) {
        let (h, i) = (&self.hands, &self.instruments);
        let both = h.low_coupled && h.high_coupled;
        if both && self.gauges_show_empty(plant) {
            self.account.empty_for += dt;
        } else {
            self.account.empty_for = 0.0;
        }
        let shows_none = |on: bool, gauge: &Instrument| !on || gauge.reading() <= NO_PRESSURE;
        let down = shows_none(h.low_coupled, &i.low) && shows_none(h.high_coupled, &i.high);
        self.account.down_for = if both && down {
            self.account.down_for + dt
        } else {
            0.0
        };
        self.account.stayed_down &= down && !self.lets_in();
        self.account.stayed_down |= self.account.down_for >= STAYS_DOWN;
        self.account.emptied &= !self.lets_in();
        self.account.emptied |= self.account.empty_for >= BELIEVED;
        if self.account.empty_for >= BELIEVED {
            self.account.then = Some(self.balance(plant));
        } else if self.account.then.is_some() && self.has_way_out(plant) {
            self.account.then = None;
        }
    }

    /// A hand valve leads from what can give something into the loop.
    fn lets_in(&self) -> bool {
        let gives = match self.hanging() {
            Attached::Can(c) => c.open(),
            Attached::Cylinder(c) => c.open,
            Attached::Nitrogen(n) => n.open,
            Attached::Nothing | Attached::Machine(_) | Attached::Pump(_) => false,
        };
        gives && self.hose_leads_in()
    }

    /// A hand valve is open and its coupler on.
    pub fn hose_leads_in(&self) -> bool {
        let h = &self.hands;
        h.low_valve > 0.0 && h.low_coupled || h.high_valve > 0.0 && h.high_coupled
    }

    /// Somebody let gas out of the loop, or saw the relief valve do it.
    fn has_way_out(&self, plant: &Plant) -> bool {
        let h = &self.hands;
        let bare = h.purging
            || self.hanging() == Attached::Nothing
            || h.attached.can().is_some_and(|c| c.burst);
        let coupled = [h.low_coupled, h.high_coupled];
        self.hose_leads_in() && bare || self.openings.left_open(coupled) || plant.relief.lifted
    }
}
