//! The job record: what really happened, to hold against what is stated.

use lowside_fluids::Refrigerant;
use lowside_plant::plant::Plant;
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

use crate::{
    detect::{Finding, Spot},
    hold::Hold,
    label::Label,
    oil::{RHO_OIL, worksheet},
    parts::{PARTS, Part},
    shop::Shop,
};

/// Instruments as they stood when the technician wrote them down. SI units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Readings {
    /// Compound gauge, Pa gauge.
    pub low: f64,
    /// High-pressure gauge, Pa gauge.
    pub high: f64,
    /// Centre vent, K.
    pub vent: f64,
    /// The day, K.
    pub ambient: f64,
    /// Relative humidity.
    pub humidity: f64,
    /// Engine speed, 1/min; 0 with the engine off.
    pub rpm: f64,
}

/// A reading of the performance test and its limits.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Checked {
    /// What was read.
    pub found: f64,
    /// Least that passes.
    pub least: f64,
    /// Most that passes.
    pub most: f64,
}

impl Checked {
    /// It lies within its limits.
    pub fn passes(&self) -> bool {
        (self.least..=self.most).contains(&self.found)
    }
}

/// What the performance test found: means of readings, against those of a healthy vehicle of the kind on the same day. SI units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Performance {
    /// The day, K.
    pub ambient: f64,
    /// Its relative humidity.
    pub humidity: f64,
    /// Compound gauge, Pa gauge.
    pub low: Checked,
    /// High-pressure gauge, Pa gauge.
    pub high: Checked,
    /// Centre vent, K.
    pub vent: Checked,
}

impl Performance {
    /// All of it lies within the limits.
    pub fn passes(&self) -> bool {
        self.low.passes() && self.high.passes() && self.vent.passes()
    }
}

/// What so much vented (kg) warms, kilograms of carbon dioxide by AR4 and AR5: each gas by its own figure.
fn warming(plant: &Plant, vented: f64) -> (f64, f64) {
    let of = |gas: Refrigerant, kg: f64| {
        let gwp = gas.data().gwp;
        (kg * gwp.ar4, kg * gwp.ar5)
    };
    let Some((_, r12)) = plant.network.r12() else {
        return of(plant.network.gas(), vented);
    };
    let old = of(Refrigerant::R12, r12.clamp(0.0, vented));
    let other = of(Refrigerant::R134a, vented - r12.clamp(0.0, vented));
    (old.0 + other.0, old.1 + other.1)
}

/// Prices for the sum on the record: our own round figures, to be set by whoever teaches.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Prices {
    /// A kilogram of refrigerant.
    pub refrigerant: f64,
    /// An hour of labour.
    pub hour: f64,
    /// Each new part, in the order of [`Part::ALL`].
    pub parts: [f64; PARTS],
}

impl Default for Prices {
    fn default() -> Self {
        Self {
            refrigerant: 25.0,
            hour: 100.0,
            parts: [350.0, 60.0, 220.0, 50.0, 5.0, 260.0, 60.0, 60.0, 25.0],
        }
    }
}

/// The record. Masses kg, volumes m3, pressures Pa gauge, temperatures K.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// Gas of the loop: the one it has most of.
    pub gas: Refrigerant,
    /// Gas the vehicle was built for.
    pub built_for: Refrigerant,
    /// Share of the other gas of R-12 and R-134a in the refrigerant, 0 to 1.
    pub other_gas: f64,
    /// Whose fittings the low-side and the high-side port carry.
    pub fittings: [Refrigerant; 2],
    /// Where the cycling switch opens, Pa gauge.
    pub low_switch: f64,
    /// Where the high-pressure cut-out opens, Pa gauge, if there is one.
    pub cut_out: Option<f64>,
    /// Where the relief valve opens, Pa gauge.
    pub relief: f64,
    /// Charge on the maker's label.
    pub label_charge: f64,
    /// Readings before the work.
    pub before: Option<Readings>,
    /// Readings after it.
    pub after: Option<Readings>,
    /// The last performance test.
    pub performance: Option<Performance>,
    /// Refrigerant recovered.
    pub recovered: f64,
    /// Refrigerant that left cans and cylinders.
    pub charged: f64,
    /// Refrigerant in the loop now.
    pub in_loop: f64,
    /// Refrigerant that went into the room.
    pub vented: f64,
    /// The same as carbon dioxide by IPCC AR4 and AR5.
    pub co2_equivalent: (f64, f64),
    /// Oil measured out: drained and separated.
    pub oil_out: f64,
    /// Oil put in: poured, injected and come with new parts.
    pub oil_in: f64,
    /// Oil of a kind that does not belong to the gas.
    pub oil_wrong: f64,
    /// New parts, each as often as laid ready.
    pub parts: Vec<Part>,
    /// Places searched for leaks, with the last finding at each.
    pub searched: Vec<(Spot, Finding)>,
    /// The last hold under vacuum.
    pub hold: Option<Hold>,
    /// The new label.
    pub new_label: Option<Label>,
    /// Both caps are on.
    pub caps_on: bool,
    /// Injuries.
    pub injuries: u32,
    /// Times that refrigerant was let out by hand: each breaks the law (US: Clean Air Act 608(c)).
    pub ventings: u32,
    /// Bay time, s.
    pub seconds: f64,
    /// What it cost.
    pub cost: f64,
}

/// What the record needs from the bay around the shop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Totals {
    /// Refrigerant in the loop, kg.
    pub in_loop: f64,
    /// Refrigerant that went into the room, kg.
    pub vented: f64,
    /// Bay time, s.
    pub seconds: f64,
    /// The last performance test.
    pub performance: Option<Performance>,
}

/// Fills the record from what happened.
pub fn record(plant: &Plant, shop: &Shop, totals: &Totals, prices: &Prices) -> Record {
    let sheet = worksheet(plant, shop);
    let charged = shop.given(plant);
    let parts: Vec<Part> = Part::ALL
        .into_iter()
        .flat_map(|p| (0..shop.renewed[p as usize]).map(move |_| p))
        .collect();
    let for_parts: f64 = parts.iter().map(|p| prices.parts[*p as usize]).sum();
    let vented = totals.vented;
    Record {
        gas: plant.network.mostly(),
        built_for: plant.vehicle.refrigerant,
        other_gas: plant.other_share(),
        fittings: shop.openings.ports.map(|p| p.fitting),
        low_switch: plant.drive.cycling_points()[0],
        cut_out: plant.drive.cut_out_opens(),
        relief: plant.vehicle.switches.relief_opens.si(),
        label_charge: plant.vehicle.label_charge.si(),
        before: shop.noted[0],
        after: shop.noted[1],
        performance: totals.performance,
        recovered: shop.recovered(plant),
        charged,
        in_loop: totals.in_loop,
        vented,
        co2_equivalent: warming(plant, vented),
        oil_out: sheet.out / RHO_OIL,
        oil_in: sheet.put_in / RHO_OIL,
        oil_wrong: shop.oil.wrong_kind / RHO_OIL,
        parts,
        searched: Spot::all()
            .filter_map(|s| shop.search[s.index()].map(|f| (s, f)))
            .collect(),
        hold: shop.holds.last,
        new_label: shop.label,
        caps_on: shop.openings.all_ports().all(|p| p.cap),
        injuries: shop.injuries,
        ventings: shop.ventings,
        seconds: totals.seconds,
        cost: charged * prices.refrigerant + totals.seconds / 3600.0 * prices.hour + for_parts,
    }
}
