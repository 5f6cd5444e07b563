//! A job under way: its card, how far it has come, and how that stood at every moment before, so that going back in time goes back
//! here too.

use lowside_lessons::{JobCard, Progress, library, progress::Standing};
use lowside_session::{Bay, Tick, performance::asked};
use lowside_shop::oil::RHO_OIL;
use lowside_shop::record::{Checked, Performance, Prices, Readings, breaches, converted_to};
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Mass, Quantity, Ratio, RotationSpeed, Temperature,
    Volume,
    display::{self, Shown, UnitSystem},
};

pub use lowside_shop::{
    label::{Line, Particulars, written},
    record::Breach,
};

use crate::{
    bench::{OilKind, Part},
    retrofit::{self, Switches},
    tools::Spot,
};

/// Changes kept; beyond that every other one of the older half is let go, and going back there is a little coarse.
const MOST: usize = 4000;

/// A job and its past.
#[derive(Debug, Clone)]
pub struct Job {
    /// The name by which the library knows it.
    pub name: &'static str,
    /// Its card.
    pub card: JobCard,
    /// How far it is.
    pub progress: Progress,
    /// The progress at each tick at which it changed, oldest first.
    trail: Vec<(Tick, Progress)>,
}

impl Job {
    /// Opens a shipped job; none if there is none of that name.
    pub fn open(name: &str) -> Option<Self> {
        let name = library::names().find(|n| *n == name)?;
        let card = library::card(name)?;
        let progress = Progress::new(&card);
        Some(Self {
            name,
            trail: vec![(0, progress.clone())],
            card,
            progress,
        })
    }

    /// The bay it starts with.
    pub fn bay(&self) -> Bay {
        let mut scenario = self.card.scenario.clone();
        scenario.act.clear();
        Bay::new(&scenario)
    }

    /// Was a bay opened for this job?
    pub fn owns(&self, bay: &Bay) -> bool {
        bay.scenario().name == self.card.scenario.name
    }

    /// Looks at the bay after a step of it.
    pub fn look(&mut self, bay: &Bay) {
        self.progress.look(&self.card, bay);
        let last = self.trail.last();
        if last.is_none_or(|(_, p)| self.progress.moved_since(p)) {
            self.trail.push((bay.tick(), self.progress.clone()));
            if self.trail.len() > MOST {
                let mut n = 0;
                self.trail.retain(|_| {
                    n += 1;
                    n > MOST / 2 || n % 2 == 1
                });
            }
        }
    }

    /// Goes to how it stood at a tick; what came later stays known.
    pub fn seek(&mut self, tick: Tick) {
        let after = self.trail.partition_point(|(t, _)| *t <= tick);
        if let Some((_, then)) = self.trail.get(after.saturating_sub(1)) {
            self.progress = then.clone().at(tick);
        }
    }

    /// Forgets what came after a tick: the bay goes on from there otherwise.
    pub fn cut(&mut self, tick: Tick) {
        let after = self.trail.partition_point(|(t, _)| *t <= tick);
        self.trail.truncate(after.max(1));
        self.seek(tick);
    }

    /// Where each step stands.
    pub fn steps(&self) -> Vec<Standing> {
        self.progress.steps(&self.card)
    }

    /// Every step done, nothing that fails the job.
    pub fn passed(&self) -> bool {
        self.progress.passed(&self.card)
    }

    /// Harms that happened, by their place on the card.
    pub fn harms(&self) -> Vec<(usize, Tick)> {
        let all = self.progress.harms().enumerate();
        all.filter_map(|(i, t)| t.map(|t| (i, t))).collect()
    }
}

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
        progress: bay
            .test()
            .map(|test| display::ratio(Ratio::from_fraction(test.progress()))),
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
        fittings: r.fittings.map(crate::tools::Gas::name),
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
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lowside_session::{HoseAct, TICKS_PER_SECOND, VesselAct};
    use lowside_units::Ratio;

    fn pass(job: &mut Job, bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
            job.look(bay);
        }
    }

    #[test]
    fn going_back_goes_back() {
        let mut job = Job::open("1-first-charge").expect("shipped");
        let mut bay = job.bay();
        pass(&mut job, &mut bay, 5);
        let (early, tick) = (job.steps(), bay.tick());
        assert!(early.iter().all(|s| !matches!(s, Standing::Done { .. })));
        bay.apply(VesselAct::TakeCan).unwrap();
        bay.apply(VesselAct::Tap { on: true }).unwrap();
        bay.apply(HoseAct::LowValve {
            open: Ratio::from_si(1.0),
        })
        .unwrap();
        pass(&mut job, &mut bay, 60);
        let late = job.steps();
        assert!(matches!(late[0], Standing::Done { .. }), "{late:?}");
        job.seek(tick);
        assert_eq!(job.steps(), early);
        job.seek(bay.tick());
        assert_eq!(job.steps(), late);
        job.cut(tick);
        job.seek(bay.tick());
        assert!(matches!(job.steps()[0], Standing::Open), "the other course");
        assert!(!job.passed());
    }
}
