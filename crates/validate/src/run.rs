//! Runs of the healthy van with overrides and acts, kept so that several checks can look at one run.

use std::{
    collections::BTreeMap,
    sync::{Arc, Mutex, OnceLock, PoisonError},
};

use lowside_plant::{
    circuit::Section,
    network::{Node, NodeId},
    species::{AIR, REFRIGERANT, WATER},
};
use lowside_session::{
    Action, Bay, Scenario, greater, library,
    summary::{Summary, WINDOW, Window},
};

use crate::{error::Error, second_law::Tally};

/// The atmosphere of every run, kPa.
const ATMOSPHERE: f64 = 101.325;

/// The bay at one moment; pressures in kPa gauge, temperatures in degC.
#[derive(Debug, Clone, Copy, Default)]
pub struct Sample {
    /// Bay time, s.
    pub t: f64,
    /// Accumulator.
    pub low: f64,
    /// Discharge line.
    pub high: f64,
    /// Air at the centre vent.
    pub vent: f64,
    /// Cabin air.
    pub cabin: f64,
    /// Superheat at the evaporator's outlet, K.
    pub superheat: f64,
    /// Subcooling ahead of the orifice, K.
    pub subcooling: f64,
    /// Discharge line.
    pub discharge: f64,
    /// Clutch in: 1, out: 0.
    pub engaged: f64,
    /// Liquid share of what the compressor draws.
    pub liquid: f64,
    /// Liquid level in the accumulator, share of its volume.
    pub level: f64,
    /// First evaporator cell.
    pub inlet: f64,
    /// Last evaporator cell.
    pub outlet: f64,
    /// Warmest evaporator wall.
    pub wall: f64,
    /// Refrigerant from the discharge line to the liquid line, kg.
    pub mass_high: f64,
    /// Refrigerant in the evaporator, kg.
    pub mass_evaporator: f64,
    /// Refrigerant in the accumulator, kg.
    pub mass_accumulator: f64,
    /// Shell of the compressor.
    pub body: f64,
    /// Mean pressure of the loop by volume, Pa absolute.
    pub mean: f64,
    /// Air in the loop, kg.
    pub air: f64,
    /// Water in the loop without what is bound, kg.
    pub water: f64,
    /// Water in the loop's oil, kg.
    pub oil_water: f64,
    /// Ice in the orifice tube, kg.
    pub ice: f64,
    /// Refrigerant in the recovery machine's cylinder, kg.
    pub recovered: f64,
    /// Refrigerant in the loop, kg.
    pub charge: f64,
    /// Oil in circulation, share of the flow in the liquid line.
    pub oil: f64,
    /// Oil in the compressor with its suction line, kg.
    pub compressor_oil: f64,
    /// Share of a clean coil's air that passes the frost on it.
    pub air_share: f64,
}

impl Sample {
    fn of(bay: &Bay) -> Self {
        let plant = bay.plant();
        let c = &plant.circuit;
        let table = plant.network.table();
        let node = |i: NodeId| &plant.network.node(i).state;
        let (outlet, liquid) = (node(c.evaporator.outlet()), node(c.liquid_line.outlet()));
        let accumulator = node(c.low_side());
        let mass = |section: &Section| -> f64 {
            let held = |id: &NodeId| plant.network.node(*id).content[REFRIGERANT];
            section.nodes().iter().map(held).sum()
        };
        let of_loop = |of: &dyn Fn(&Node) -> f64| -> f64 { plant.volumes().map(of).sum() };
        Self {
            t: bay.seconds(),
            low: accumulator.p / 1e3 - ATMOSPHERE,
            high: node(c.high_side()).p / 1e3 - ATMOSPHERE,
            vent: plant.cabin.vent.t - 273.15,
            cabin: plant.cabin.air.t - 273.15,
            superheat: (outlet.t - table.t_sat(outlet.p)).max(0.0),
            subcooling: (table.t_sat(liquid.p) - liquid.t).max(0.0),
            discharge: node(c.high_side()).t - 273.15,
            engaged: f64::from(u8::from(plant.drive.engaged)),
            liquid: plant.suction_liquid(),
            level: accumulator.v_liq / (accumulator.v_liq + accumulator.v_gas).max(1e-12),
            inlet: node(c.evaporator.inlet()).t - 273.15,
            outlet: outlet.t - 273.15,
            wall: plant
                .evaporator
                .wall
                .iter()
                .fold(0.0, |a, b| greater(a, *b))
                - 273.15,
            mass_high: mass(&c.discharge_line) + mass(&c.condenser) + mass(&c.liquid_line),
            mass_evaporator: mass(&c.evaporator),
            mass_accumulator: mass(&c.accumulator),
            body: plant.shells[c.body].t - 273.15,
            mean: of_loop(&|n| n.state.p * n.volume) / of_loop(&|n| n.volume),
            air: of_loop(&|n| n.content[AIR]),
            water: of_loop(&|n| n.content[WATER]),
            oil_water: of_loop(&|n| n.oil_water),
            ice: plant.ice(),
            recovered: bay.shop().recovered(plant),
            charge: bay.charge(),
            oil: plant.oil_circulation(),
            compressor_oil: plant.compressor_oil(),
            air_share: plant.evaporator.air_share(),
        }
    }

    fn add(&mut self, s: &Self, by: f64) {
        let pairs: [(&mut f64, f64); 28] = [
            (&mut self.t, s.t),
            (&mut self.low, s.low),
            (&mut self.high, s.high),
            (&mut self.vent, s.vent),
            (&mut self.cabin, s.cabin),
            (&mut self.superheat, s.superheat),
            (&mut self.subcooling, s.subcooling),
            (&mut self.discharge, s.discharge),
            (&mut self.engaged, s.engaged),
            (&mut self.liquid, s.liquid),
            (&mut self.level, s.level),
            (&mut self.inlet, s.inlet),
            (&mut self.outlet, s.outlet),
            (&mut self.wall, s.wall),
            (&mut self.mass_high, s.mass_high),
            (&mut self.mass_evaporator, s.mass_evaporator),
            (&mut self.mass_accumulator, s.mass_accumulator),
            (&mut self.body, s.body),
            (&mut self.mean, s.mean),
            (&mut self.air, s.air),
            (&mut self.water, s.water),
            (&mut self.oil_water, s.oil_water),
            (&mut self.ice, s.ice),
            (&mut self.recovered, s.recovered),
            (&mut self.charge, s.charge),
            (&mut self.oil, s.oil),
            (&mut self.compressor_oil, s.compressor_oil),
            (&mut self.air_share, s.air_share),
        ];
        for (mine, theirs) in pairs {
            *mine += by * theirs;
        }
    }
}

/// The clutch letting go.
#[derive(Debug, Clone, Copy)]
pub struct Trip {
    /// When, s.
    pub t: f64,
    /// Low side, kPa gauge.
    pub low: f64,
    /// High side, kPa gauge.
    pub high: f64,
}

/// A run that has been played to its end.
#[derive(Debug, Clone)]
pub struct Run {
    /// What was changed from the healthy van.
    pub label: String,
    /// Day's temperature at the end, degC.
    pub ambient: f64,
    /// The bay once a second.
    pub samples: Vec<Sample>,
    /// Means over the last two minutes while the clutch was in; over all of it when it never was.
    pub on: Sample,
    /// Means over the last two minutes.
    pub all: Sample,
    /// Times the clutch let go.
    pub trips: Vec<Trip>,
    /// The numbers of the last two minutes.
    pub summary: Summary,
    /// Steps of the network on which forecast and truth did not agree.
    pub unsettled: u64,
    /// Entropy made, as audited.
    pub second_law: Tally,
    /// The bay at its end.
    pub bay: Bay,
}

impl Run {
    /// One reading over time.
    pub fn curve(&self, of: fn(&Sample) -> f64) -> Vec<(f64, f64)> {
        self.samples.iter().map(|s| (s.t, of(s))).collect()
    }

    /// One reading over time in minutes.
    pub fn minutes(&self, of: impl Fn(&Sample) -> f64) -> Vec<(f64, f64)> {
        self.samples.iter().map(|s| (s.t / 60.0, of(s))).collect()
    }

    /// The bay at a time or just after it, s; none past the end.
    pub fn at(&self, t: f64) -> Option<&Sample> {
        self.samples.iter().find(|s| s.t >= t)
    }

    /// The bay after `from` and up to `to`, s.
    pub fn between(&self, from: f64, to: f64) -> impl Iterator<Item = &Sample> {
        self.samples.iter().filter(move |s| s.t > from && s.t <= to)
    }

    /// Clutch cycles a minute over the last two minutes.
    pub fn cycles_per_minute(&self) -> f64 {
        f64::from(self.summary.clutch_cycles) / (WINDOW / 60.0)
    }

    /// Standing pressures or running pressures at the end, kPa gauge.
    pub fn last(&self) -> Sample {
        self.samples.last().copied().unwrap_or_default()
    }
}

/// What every run is asked for besides: the books, and Carnot.
#[derive(Debug, Clone)]
pub struct Record {
    /// Which run.
    pub label: String,
    /// Worst share of mass the books cannot explain.
    pub mass: f64,
    /// Worst share of energy the books cannot explain.
    pub energy: f64,
    /// Coefficient of performance over Carnot's, where the compressor ran and the bound says anything.
    pub of_carnot: Option<f64>,
    /// Steps that did not settle.
    pub unsettled: u64,
    /// Entropy made, as audited.
    pub second_law: Tally,
}

type Kept = Arc<OnceLock<Arc<Run>>>;

/// Plays runs, each once, and keeps them.
#[derive(Debug, Default)]
pub struct Runs {
    kept: Mutex<BTreeMap<String, Kept>>,
}

impl Runs {
    /// The healthy van with overrides, to the end of its ten minutes or what they say.
    ///
    /// # Errors
    /// When an override is wrong.
    pub fn healthy(&self, overrides: &[&str]) -> Result<Arc<Run>, Error> {
        self.play("healthy", overrides, &[])
    }

    /// A shipped scenario with overrides, and acts at given seconds besides its own.
    ///
    /// # Errors
    /// When the scenario is not shipped, an override is wrong, or the bay refuses an act.
    pub fn play(
        &self,
        scenario: &str,
        overrides: &[&str],
        acts: &[(f64, Action)],
    ) -> Result<Arc<Run>, Error> {
        let mut label = format!("{scenario} {}", overrides.join(", "));
        for (t, act) in acts {
            label = format!("{label}; {t} s {act:?}");
        }
        let slot = {
            let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
            Arc::clone(kept.entry(label.clone()).or_default())
        };
        if let Some(run) = slot.get() {
            return Ok(Arc::clone(run));
        }
        // Two threads may play the same run at once; both find the same.
        let run = Arc::new(play(scenario, overrides, acts, label)?);
        Ok(Arc::clone(slot.get_or_init(|| run)))
    }

    /// What every run so far says of the laws that hold always.
    pub fn records(&self) -> Vec<Record> {
        let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.values()
            .filter_map(|slot| slot.get())
            .map(|run| Record {
                label: run.label.clone(),
                mass: run.summary.max_mass_error_rel,
                energy: run.summary.max_energy_error_rel,
                of_carnot: of_carnot(run),
                unsettled: run.unsettled,
                second_law: run.second_law.clone(),
            })
            .collect()
    }
}

/// Share of Carnot's coefficient between the warmest evaporator wall and the day.
fn of_carnot(run: &Run) -> Option<f64> {
    let (cold, hot) = (run.on.wall + 273.15, run.ambient + 273.15);
    if run.summary.shaft_W < 50.0 || hot - cold < 3.0 {
        return None;
    }
    let cop = run.summary.capacity_W / run.summary.shaft_W;
    Some(cop / (cold / (hot - cold)))
}

/// A shipped scenario with overrides.
///
/// # Errors
/// When it is not shipped or an override is wrong.
pub fn scenario(name: &str, overrides: &[&str]) -> Result<Scenario, Error> {
    let text = library::scenario(name).ok_or_else(|| Error::NoScenario(name.to_owned()))?;
    let overrides: Vec<String> = overrides.iter().map(|o| (*o).to_owned()).collect();
    Scenario::parse(text, &overrides).map_err(|why| Error::Scenario {
        overrides,
        why: Box::new(why),
    })
}

fn play(
    name: &str,
    overrides: &[&str],
    acts: &[(f64, Action)],
    label: String,
) -> Result<Run, Error> {
    let scenario = scenario(name, overrides)?;
    let mut bay = Bay::new(&scenario);
    let mut window = Window::default();
    let until = scenario.until.s();
    let mut acts = acts.iter().peekable();
    let (mut samples, mut trips) = (Vec::new(), Vec::new());
    let (mut on, mut all) = (Sample::default(), Sample::default());
    let (mut ticks_on, mut ticks) = (0.0, 0.0);
    let mut was_on = false;
    let mut second_law = Tally::default();
    while bay.seconds() < until - 1e-9 {
        while let Some((_, act)) = acts.next_if(|(t, _)| *t <= bay.seconds() + 1e-9) {
            bay.apply(*act).map_err(|why| Error::Refused {
                act: format!("{act:?}"),
                why: Box::new(why),
            })?;
            second_law.happened(&bay);
        }
        second_law.look(&bay);
        bay.step()?;
        window.take(&bay);
        let full = bay.tick().is_multiple_of(lowside_session::TICKS_PER_SECOND);
        let late = bay.seconds() > until - WINDOW;
        let engaged = bay.plant().drive.engaged;
        if full || late || engaged != was_on {
            let s = Sample::of(&bay);
            if full {
                samples.push(s);
            }
            if late {
                all.add(&s, 1.0);
                ticks += 1.0;
                if engaged {
                    on.add(&s, 1.0);
                    ticks_on += 1.0;
                }
            }
            if was_on && !engaged {
                trips.push(Trip {
                    t: s.t,
                    low: s.low,
                    high: s.high,
                });
            }
        }
        if engaged != was_on {
            second_law.happened(&bay);
        }
        was_on = engaged;
    }
    let mean = |sum: &Sample, n: f64| {
        let mut mean = Sample::default();
        mean.add(sum, 1.0 / f64::max(n, 1.0));
        mean
    };
    let all = mean(&all, ticks);
    Ok(Run {
        label,
        ambient: bay.plant().day().t - 273.15,
        samples,
        on: if ticks_on > 0.0 {
            mean(&on, ticks_on)
        } else {
            all
        },
        all,
        trips,
        summary: window.summary(&bay),
        unsettled: bay.plant().network.unsettled,
        second_law,
        bay,
    })
}
