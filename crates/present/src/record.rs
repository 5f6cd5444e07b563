//! The job record as it is shown: readings, masses and the performance test as text.

use lowside_lessons::performance_test::{asked, progress};
use lowside_session::{Bay, scenario::Altered};
use lowside_shop::oil::RHO_OIL;
use lowside_shop::{
    conversion::{breaches, converted_to},
    record::{Checked, Performance, Prices, Readings},
};
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Mass, Quantity, Ratio, RotationSpeed, Temperature,
    Volume,
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

fn performance(bay: &Bay, found: Option<Performance>, units: UnitSystem) -> PerformanceView {
    let p = |pa| display::gauge_pressure(GaugePressure::from_pa(pa), units);
    let t = |k| display::temperature(Temperature::from_k(k), units);
    let checked = |c: Checked, show: &dyn Fn(f64) -> Shown| {
        ([show(c.found), show(c.least), show(c.most)], c.passes())
    };
    PerformanceView {
        asked: asked(bay),
        progress: progress(bay).map(|share| display::ratio(Ratio::from_fraction(share))),
        disturbed: bay.test_disturbed(),
        found: found.map(|f| [checked(f.low, &p), checked(f.high, &p), checked(f.vent, &t)]),
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

/// The job record as it is printed.
#[derive(Debug, Clone, PartialEq)]
pub struct RecordView {
    /// Gas of the loop.
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
    /// Let into the room.
    pub vented: Shown,
    /// The same as carbon dioxide, by the later of the two figures (IPCC AR5).
    pub co2: Shown,
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
    pub lacks: Vec<Breach>,
    /// New parts.
    pub parts: Vec<Part>,
    /// Places searched, and whether a leak was found there.
    pub searched: Vec<(Spot, bool)>,
    /// The last hold under vacuum: pressure at its beginning, at its end, and how long.
    pub hold: Option<[Shown; 3]>,
    /// Both caps are on.
    pub caps_on: bool,
    /// Injuries.
    pub injuries: u32,
    /// Times refrigerant was let out by hand.
    pub ventings: u32,
    /// Time taken.
    pub time: Shown,
    /// Faults that the vehicle came with, by their ids.
    pub faults: Vec<&'static str>,
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
fn drained(bay: &Bay, units: UnitSystem) -> Vec<(Part, Shown)> {
    let out = Part::ALL.map(|part| (part, bay.shop().oil.drained[part as usize]));
    let some = out.into_iter().filter(|(_, kg)| *kg > 0.0);
    some.map(|(part, kg)| (part, display::volume(Volume::from_si(kg / RHO_OIL), units)))
        .collect()
}

/// The record of a bay.
pub fn record(bay: &Bay, units: UnitSystem) -> RecordView {
    let r = bay.record(&Prices::default());
    let mass = |kg| display::mass(Mass::from_kg(kg), units);
    let oil = |m3| display::volume(Volume::from_si(m3), units);
    RecordView {
        gas: r.gas.name(),
        label: mass(r.label_charge),
        noted: [
            r.before.map(|n| noted(&n, units)),
            r.after.map(|n| noted(&n, units)),
        ],
        performance: performance(bay, r.performance, units),
        built_for: r.built_for.name(),
        fittings: r.fittings.map(crate::tools::Refrigerant::name),
        switches: retrofit::switches(bay, units),
        new_label: r.new_label.map(|l| NewLabel {
            gas: l.gas.name(),
            charge: mass(l.charge),
            oil: l.oil,
            oil_volume: l.particulars.oil_volume.map(|v| display::volume(v, units)),
            particulars: l.particulars,
        }),
        converted: converted_to(&r).is_some(),
        lacks: breaches(&r),
        recovered: mass(r.recovered),
        charged: mass(r.charged),
        vented: mass(r.vented),
        co2: display::large_mass(Mass::from_kg(r.co2_equivalent.1), units),
        oil: [oil(r.oil_out), oil(r.oil_in)],
        drained: drained(bay, units),
        searched: r.searched.iter().map(|(s, f)| (*s, f.found)).collect(),
        parts: r.parts,
        hold: r.hold.map(|h| {
            let p = |pa| display::vacuum(AbsolutePressure::from_si(pa), units);
            let time = display::duration(Duration::from_s(h.seconds));
            [p(h.from), p(h.to), time]
        }),
        caps_on: r.caps_on,
        injuries: r.injuries,
        ventings: r.ventings,
        time: display::duration(Duration::from_s(r.seconds)),
        faults: bay.scenario().faults().map(|fault| fault.id).collect(),
        altered: altered(bay),
    }
}

/// What was altered in the vehicle's data sheet, by path.
fn altered(bay: &Bay) -> Vec<String> {
    let list = bay.scenario().altered.iter().flat_map(Altered::list);
    list.map(|a| a.field.clone()).collect()
}
