//! The job record: what really happened, to hold against what the learner states.

use lowside_fluids::Gas;
use lowside_plant::plant::Plant;
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

use crate::{
    detect::{Finding, Spot},
    hold::{Hold, Outcome},
    identifier::PURE,
    label::{Label, Line},
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
    let of = |gas: Gas, kg: f64| {
        let gwp = gas.data().gwp;
        (kg * gwp.ar4, kg * gwp.ar5)
    };
    let Some((_, r12)) = plant.network.r12() else {
        return of(plant.network.gas(), vented);
    };
    let old = of(Gas::R12, r12.clamp(0.0, vented));
    let other = of(Gas::R134a, vented - r12.clamp(0.0, vented));
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
    pub gas: Gas,
    /// Gas the vehicle was built for.
    pub built_for: Gas,
    /// Share of the other gas of R-12 and R-134a in the refrigerant, 0 to 1.
    pub other_gas: f64,
    /// Whose fittings the low-side and the high-side port carry.
    pub fittings: [Gas; 2],
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

/// A condition of a lawful conversion that is not met (US: 40 CFR 82 subpart G, appendix B lists R-134a on condition of fittings, label
/// and all R-12 taken out, appendix D has what is on the label and, from memory, the cut-out; local rules may ask more).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Breach {
    /// Old gas is left in the loop: more than the 2 % that an identifier takes for pure.
    OldGas,
    /// A port does not carry the new gas's own fitting.
    Fittings,
    /// There is no label with the new gas and its amount as charged.
    Label,
    /// A line of that label is empty or wrong.
    LabelLine(Line),
    /// There is a relief valve and no switch that stops the compressor before it opens.
    CutOut,
}

/// A label's charge may differ from what is in the loop by this, kg: two ounces (own figure).
pub const LABEL: f64 = 0.0567;

/// The gas that the vehicle is being converted to: that of its fittings or of its loop, where it was built for another.
pub fn converted_to(record: &Record) -> Option<Gas> {
    let gases = record.fittings.into_iter().chain([record.gas]);
    gases.into_iter().find(|gas| *gas != record.built_for)
}

/// What a conversion still lacks; nothing where there is none.
pub fn breaches(record: &Record) -> Vec<Breach> {
    let Some(new) = converted_to(record) else {
        return Vec::new();
    };
    let label = record
        .new_label
        .filter(|l| l.gas == new && (l.charge - record.in_loop).abs() <= LABEL);
    let lines = label
        .iter()
        .flat_map(|l| l.lacks(record.oil_in))
        .map(Breach::LabelLine);
    let stops = record.cut_out.is_some_and(|p| p < record.relief);
    let all = [
        (
            record.gas != new || record.other_gas > 1.0 - PURE,
            Breach::OldGas,
        ),
        (record.fittings.iter().any(|f| *f != new), Breach::Fittings),
        (label.is_none(), Breach::Label),
        (!stops, Breach::CutOut),
    ];
    all.into_iter()
        .filter(|(lacks, _)| *lacks)
        .map(|(_, b)| b)
        .chain(lines)
        .collect()
}

/// What of that is for the label to say.
pub fn label_lacks(record: &Record) -> Vec<Breach> {
    let mut lacks = breaches(record);
    lacks.retain(|b| matches!(b, Breach::Label | Breach::LabelLine(_)));
    lacks
}

/// What the learner writes down. SI units; what is left out is not checked.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Statement {
    /// Refrigerant recovered, kg.
    pub recovered: Option<f64>,
    /// Refrigerant charged, kg.
    pub charged: Option<f64>,
    /// Oil measured out, m3.
    pub oil_out: Option<f64>,
    /// Oil put in, m3.
    pub oil_in: Option<f64>,
    /// New parts, each once.
    pub parts: Option<Vec<Part>>,
    /// How the hold under vacuum came out.
    pub hold: Option<Outcome>,
    /// Where a leak was found.
    pub leaks: Option<Vec<Spot>>,
    /// Nothing was vented.
    pub nothing_vented: Option<bool>,
    /// Both caps are on.
    pub caps_on: Option<bool>,
    /// Gas that is in the loop now.
    pub gas: Option<Gas>,
    /// A conversion meets its conditions ([`Breach`]).
    pub conversion_in_order: Option<bool>,
}

/// A line of the statement that does not match.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mismatch {
    /// Mass recovered.
    Recovered,
    /// Mass charged.
    Charged,
    /// Oil out.
    OilOut,
    /// Oil in.
    OilIn,
    /// Parts.
    Parts,
    /// Hold under vacuum.
    Hold,
    /// Leaks found.
    Leaks,
    /// Vented.
    Vented,
    /// Caps.
    Caps,
    /// Gas.
    Gas,
    /// Conditions of a conversion.
    Conversion,
}

/// Masses may differ by this, kg: half an ounce, what a charging machine is allowed (SAE J2788; from memory).
const MASS: f64 = 0.015;
/// Volumes of oil may differ by this, m3: 5 mL, a line of the cup (own figure).
const OIL: f64 = 5e-6;
/// Less vented than this counts as none, kg: what couplers and purging cost (own figure).
const NONE: f64 = 5e-3;

/// Where a statement does not match what happened.
pub fn mismatches(record: &Record, stated: &Statement) -> Vec<Mismatch> {
    let off = |said: Option<f64>, truth: f64, by: f64| {
        said.is_some_and(|s| s.is_nan() || (s - truth).abs() > by)
    };
    let sorted = |parts: &[Part]| {
        let mut p = parts.to_vec();
        p.sort_unstable();
        p.dedup();
        p
    };
    let wrong_parts = |p: &Vec<Part>| sorted(p) != sorted(&record.parts);
    let found: Vec<Spot> = record
        .searched
        .iter()
        .filter(|(_, f)| f.found)
        .map(|(s, _)| *s)
        .collect();
    let wrong_leaks = |l: &Vec<Spot>| {
        l.iter().any(|s| !found.contains(s)) || found.iter().any(|s| !l.contains(s))
    };
    let lines = [
        (
            off(stated.recovered, record.recovered, MASS),
            Mismatch::Recovered,
        ),
        (off(stated.charged, record.charged, MASS), Mismatch::Charged),
        (off(stated.oil_out, record.oil_out, OIL), Mismatch::OilOut),
        (off(stated.oil_in, record.oil_in, OIL), Mismatch::OilIn),
        (
            stated.parts.as_ref().is_some_and(wrong_parts),
            Mismatch::Parts,
        ),
        (
            stated.hold.is_some_and(|h| !h.fits(record.hold.as_ref())),
            Mismatch::Hold,
        ),
        (
            stated.leaks.as_ref().is_some_and(wrong_leaks),
            Mismatch::Leaks,
        ),
        (
            stated
                .nothing_vented
                .is_some_and(|n| n != (record.vented < NONE)),
            Mismatch::Vented,
        ),
        (
            stated.caps_on.is_some_and(|c| c != record.caps_on),
            Mismatch::Caps,
        ),
        (stated.gas.is_some_and(|g| g != record.gas), Mismatch::Gas),
        (
            stated
                .conversion_in_order
                .is_some_and(|ok| ok != breaches(record).is_empty()),
            Mismatch::Conversion,
        ),
    ];
    lines
        .into_iter()
        .filter(|(wrong, _)| *wrong)
        .map(|(_, line)| line)
        .collect()
}
