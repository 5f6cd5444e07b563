//! The job record as it is shown: readings, masses and the performance test as text.

use lowside_lessons::{Shown as Known, shown::TestSheet};
use lowside_shop::{
    oil::RHO_OIL,
    record::{Checked, Readings},
};
use lowside_units::{
    Duration, GaugePressure, Mass, Quantity, Ratio, RotationSpeed, Temperature, Volume,
    display::{self, Shown, UnitSystem},
};

pub use lowside_shop::{
    conversion::Breach,
    label::{Line, Particulars, written},
};

use crate::{
    bench::{OilKind, Part},
    retrofit::{self, Switches},
    tools::Spot,
};

/// The readings a technician noted.
#[derive(Debug, Clone, PartialEq)]
pub struct Noted {
    /// Compound gauge.
    pub low: Shown,
    /// High-pressure gauge.
    pub high: Shown,
    /// Centre vent.
    pub vent: Shown,
    /// The day.
    pub outside: Shown,
    /// Relative humidity.
    pub humidity: Shown,
    /// Engine speed.
    pub rpm: Shown,
}

/// A reading of the performance test: found, least and most that pass, and whether it does.
pub type CheckedView = ([Shown; 3], bool);

/// The performance test.
#[derive(Debug, Clone, PartialEq)]
pub struct PerformanceView {
    /// What it asks for and is so: engine at 1500 to 2000 rpm, A/C on, blower at its highest, recirculation, windows shut, hand
    /// valves shut and couplers on.
    pub asked: [bool; 6],
    /// Share that is done, while it runs.
    pub progress: Option<Shown>,
    /// It was broken off.
    pub disturbed: bool,
    /// Low side, high side and vent, once it is over.
    pub found: Option<[CheckedView; 3]>,
}

fn performance(test: &TestSheet, units: UnitSystem) -> PerformanceView {
    let p = |pa| display::gauge_pressure(GaugePressure::from_pa(pa), units);
    let t = |k| display::temperature(Temperature::from_k(k), units);
    let checked = |c: Checked, show: &dyn Fn(f64) -> Shown| {
        ([show(c.found), show(c.least), show(c.most)], c.passes())
    };
    let share = |done| display::ratio(Ratio::from_fraction(done));
    PerformanceView {
        asked: test.asked,
        progress: test.progress.map(share),
        disturbed: test.disturbed,
        found: test
            .found
            .map(|f| [checked(f.low, &p), checked(f.high, &p), checked(f.vent, &t)]),
    }
}

/// The new label under the hood.
#[derive(Debug, Clone, PartialEq)]
pub struct NewLabel {
    /// Refrigerant.
    pub gas: &'static str,
    /// Its amount.
    pub charge: Shown,
    /// Oil, if it is named.
    pub oil: Option<OilKind>,
    /// How much of it was put in.
    pub oil_volume: Option<Shown>,
    /// As it was written.
    pub particulars: Particulars,
}

/// A hold under vacuum.
#[derive(Debug, Clone, PartialEq)]
pub struct HoldView {
    /// Pressure at its beginning and at its end; none in a closed bay.
    pub pressures: Option<[Shown; 2]>,
    /// How long it took.
    pub time: Shown,
}

/// The job record as it is printed. What nobody in the bay can know is none where it was made of what is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct RecordView {
    /// Gas of the loop; in a closed bay that of its label and fittings.
    pub gas: &'static str,
    /// Charge on the label.
    pub label: Shown,
    /// Readings before and after.
    pub noted: [Option<Noted>; 2],
    /// The performance test.
    pub performance: PerformanceView,
    /// Recovered.
    pub recovered: Shown,
    /// Charged.
    pub charged: Shown,
    /// Let into the room, and the same as carbon dioxide, by the later of the two figures (IPCC AR5).
    pub vented: Option<[Shown; 2]>,
    /// Oil measured out and put in.
    pub oil: [Shown; 2],
    /// Oil measured out of each part that was drained.
    pub drained: Vec<(Part, Shown)>,
    /// Gas it was built for.
    pub built_for: &'static str,
    /// Fittings of the low-side and the high-side port.
    pub fittings: [&'static str; 2],
    /// The switches.
    pub switches: Switches,
    /// The new label.
    pub new_label: Option<NewLabel>,
    /// It is being converted to another gas.
    pub converted: bool,
    /// What a conversion still lacks.
    pub lacks: Option<Vec<Breach>>,
    /// New parts.
    pub parts: Vec<Part>,
    /// Places searched, and whether a leak was found there.
    pub searched: Vec<(Spot, bool)>,
    /// The last hold under vacuum.
    pub hold: Option<HoldView>,
    /// Both caps are on.
    pub caps_on: bool,
    /// Injuries.
    pub injuries: u32,
    /// Times refrigerant was let out by hand.
    pub ventings: Option<u32>,
    /// Time taken.
    pub time: Shown,
    /// Faults that the vehicle came with, by their ids; none where nobody has seen inside.
    pub faults: Option<Vec<&'static str>>,
    /// What was altered in its data sheet, by path.
    pub altered: Vec<String>,
}

fn noted(r: &Readings, units: UnitSystem) -> Noted {
    let p = |pa| display::gauge_pressure(GaugePressure::from_pa(pa), units);
    let t = |k| display::temperature(Temperature::from_k(k), units);
    Noted {
        low: p(r.low),
        high: p(r.high),
        vent: t(r.vent),
        outside: t(r.ambient),
        humidity: display::ratio(Ratio::from_fraction(r.humidity)),
        rpm: display::rotation(RotationSpeed::from_rpm(r.rpm)),
    }
}

/// Oil measured out of each part that was drained.
fn drained(shown: &Known<'_>, units: UnitSystem) -> Vec<(Part, Shown)> {
    let out = Part::ALL.map(|part| (part, shown.part(part).drained));
    let some = out.into_iter().filter(|(_, kg)| *kg > 0.0);
    some.map(|(part, kg)| (part, display::volume(Volume::from_si(kg / RHO_OIL), units)))
        .collect()
}

/// What the new label does not say, for all that is shown: a conversion's own lines, and whether it names the gas of the new fittings.
pub fn label_lacks(shown: &Known<'_>) -> Vec<Breach> {
    let Some((new, label)) = shown.converted_to().zip(shown.label) else {
        return Vec::new();
    };
    if label.gas != new {
        return vec![Breach::Label];
    }
    let lines = label.lacks(shown.oil_in());
    lines.map(Breach::LabelLine).collect()
}

/// The record of what was done and read.
pub fn record(shown: &Known<'_>, units: UnitSystem) -> RecordView {
    let mass = |kg| display::mass(Mass::from_kg(kg), units);
    let oil = |m3| display::volume(Volume::from_si(m3), units);
    let searched = Spot::all().zip(shown.searched);
    let renewed = |part: Part| (0..shown.part(part).renewed).map(move |_| part);
    let [low, high] = &shown.ports;
    RecordView {
        gas: shown.label.map_or(low.fitting, |l| l.gas).name(),
        label: mass(shown.printed.label_charge),
        noted: shown.noted.map(|n| n.map(|n| noted(&n, units))),
        performance: performance(&shown.test, units),
        built_for: shown.printed.built_for.name(),
        fittings: [low.fitting.name(), high.fitting.name()],
        switches: retrofit::switches(shown, units),
        new_label: shown.label.map(|l| NewLabel {
            gas: l.gas.name(),
            charge: mass(l.charge),
            oil: l.oil,
            oil_volume: l.particulars.oil_volume.map(|v| display::volume(v, units)),
            particulars: l.particulars,
        }),
        converted: shown.converted_to().is_some(),
        lacks: None,
        recovered: mass(shown.weighed.recovered),
        charged: mass(shown.weighed.given),
        vented: None,
        oil: [oil(shown.oil_out()), oil(shown.oil_in())],
        drained: drained(shown, units),
        searched: searched
            .filter_map(|(spot, s)| s.map(|s| (spot, s.found)))
            .collect(),
        parts: Part::ALL.into_iter().flat_map(renewed).collect(),
        hold: shown.hold.map(|seconds| HoldView {
            pressures: None,
            time: display::duration(Duration::from_s(seconds)),
        }),
        caps_on: shown.caps_on,
        injuries: shown.injuries,
        ventings: None,
        time: display::duration(Duration::from_s(shown.seconds())),
        faults: None,
        altered: Vec::new(),
    }
}
