//! One bay: a vehicle, a shop, and how they came to be as they are.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

#[cfg(feature = "checkpoint")]
use lowside_plant::built::Misfit;
use lowside_plant::{
    built::Built,
    halt::{Halt, greater},
    plant::{Plant, TICK},
    species::{Content, REFRIGERANT, SPECIES},
};
use lowside_shop::{
    Shop,
    ledger::{Entry, PLACES, ledger},
    record::{Performance, Prices, Record, Totals, record},
};

use crate::{
    action::{Action, Outcome, RecordAct, Refused, takes},
    event::Event,
    event_detector::EventDetector,
    scenario::Scenario,
    state::{self, Difference, StateError},
};

/// Ticks of bay time.
pub type Tick = u64;
/// Ticks in a second of bay time.
pub const TICKS_PER_SECOND: u64 = 50;
/// Ticks after an act, and after the start, for which each is taken by itself: half a second.
const ALERT: Tick = TICKS_PER_SECOND / 2;
/// Events kept for the page; older ones are dropped.
const EVENTS_KEPT: usize = 4000;

/// An act and when it was done.
pub type Entered = (Tick, Action);

/// A vehicle and a shop with their history. A plain value: clone it to branch.
///
/// Serialised it is its state. Read one with [`Bay::load`]: what scenario and tables give is not in the state.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Bay {
    #[serde(skip)]
    scenario: Built<Scenario>,
    plant: Plant,
    shop: Shop,
    tick: Tick,
    /// Until then an act that takes time has the hands.
    #[serde(default)]
    busy_until: Tick,
    #[serde(skip)]
    log: Vec<Entered>,
    #[serde(skip)]
    events: Vec<(Tick, Event)>,
    watch: EventDetector,
    /// Ticks that have passed and that vehicle and shop have yet to take, and how many they will take at once.
    owed: u64,
    stride: u64,
    /// Until this tick they take each by itself.
    alert: Tick,
    mass_at_start: Content,
    ledger_at_start: Content,
    energy_at_start: f64,
    energy_moved: f64,
    /// A performance test is under way.
    testing: bool,
    /// The last one's outcome, and whether it was broken off.
    performance: Option<Performance>,
    disturbed: bool,
}

impl Bay {
    /// Opens a bay as the scenario sets it. Acts of the scenario are the host's to apply (see [`crate::script`]).
    pub fn new(scenario: &Scenario) -> Self {
        Self::open(Arc::new(scenario.clone()))
    }

    /// As [`Bay::new`], of a scenario that others may share.
    pub(crate) fn open(scenario: Arc<Scenario>) -> Self {
        let mut plant = scenario.build();
        let mut shop = Shop::new(&mut plant);
        scenario.condition.equip(&mut shop, &mut plant);
        shop.errors = scenario.instruments.errors();
        shop.rest_gauges(&plant);
        let account = plant.network.account();
        let mut mass_at_start = plant.network.held();
        mass_at_start.add(&account.mass_in, -1.0);
        let energy_at_start = plant.energy() - account.energy_in;
        let ledger_at_start = total(&ledger(&plant, &shop, account.to_room));
        Self {
            scenario: scenario.into(),
            plant,
            shop,
            tick: 0,
            busy_until: 0,
            log: Vec::new(),
            events: Vec::new(),
            watch: EventDetector::default(),
            owed: 0,
            stride: 1,
            alert: ALERT,
            mass_at_start,
            ledger_at_start,
            energy_at_start,
            energy_moved: 0.0,
            testing: false,
            performance: None,
            disturbed: false,
        }
    }

    /// Does an act now, or refuses it and changes nothing.
    ///
    /// # Errors
    /// [`Refused`], naming the field and its limits or what is missing.
    pub fn apply(&mut self, act: impl Into<Action>) -> Result<(), Refused> {
        if let Some(halt) = self.halt() {
            return Err(Refused::Halted { place: halt.place });
        }
        let action = act.into();
        if action.is_entry() && !self.testing {
            return Err(Refused::NoTest);
        }
        let takes = ticks(takes(action));
        let left = self.busy_until.saturating_sub(self.tick);
        if takes > 0 && left > 0 {
            let left = left as f64 / TICKS_PER_SECOND as f64;
            return Err(Refused::Busy { left });
        }
        let log = core::mem::take(&mut self.log);
        let readings = || log.iter().filter(|(_, act)| act.reads()).count();
        let done = self.act(action, readings);
        self.log = log;
        done?;
        if takes > 0 {
            self.busy_until = self.tick + takes;
        }
        self.log.push((self.tick, action));
        self.alert = self.tick + ALERT;
        Ok(())
    }

    /// Does an act, the time first that has passed on the clock; the vehicle takes none before an act that is refused.
    fn act(&mut self, action: Action, readings: impl FnOnce() -> usize) -> Result<(), Refused> {
        if self.owed == 0 {
            return self.act_now(action, readings);
        }
        let mut due = self.without_past();
        due.take_time(due.owed)
            .map_err(|halt| Refused::Halted { place: halt.place })?;
        due.act_now(action, readings)?;
        let mut events = core::mem::take(&mut self.events);
        events.append(&mut due.events);
        *self = Self { events, ..due };
        Ok(())
    }

    /// Does an act where the vehicle stands.
    fn act_now(&mut self, action: Action, readings: impl FnOnce() -> usize) -> Result<(), Refused> {
        match action.apply(&mut self.plant, &mut self.shop, readings)? {
            Outcome::Done => {}
            Outcome::Hurt => self.events.push((self.tick, Event::Injury)),
            Outcome::TestBegins => {
                (self.testing, self.performance, self.disturbed) = (true, None, false);
            }
            Outcome::TestEnds(found) => {
                (self.testing, self.performance, self.disturbed) = (false, found, found.is_none());
            }
        }
        Ok(())
    }

    /// Lets one tick (20 ms) of bay time pass.
    ///
    /// Where little happens, vehicle and shop take up to four ticks at once, with the last of them: until then what is read of them is as
    /// it was at the first. When they do is told by their state and by the acts that were done, so that it is the same whoever
    /// looks, stops or replays; an act finds them where the clock stands.
    ///
    /// # Errors
    /// [`Halt`] when the engine cannot vouch for the tick: no time passes, then or later, and the books do not close.
    pub fn step(&mut self) -> Result<(), Halt> {
        if let Some(halt) = self.halt() {
            return Err(halt);
        }
        if self.owed == 0 {
            self.stride = if self.tick < self.alert {
                1
            } else {
                self.plant.stride(self.tick)
            };
        }
        if self.owed + 1 < self.stride {
            self.owed += 1;
            self.tick += 1;
        } else {
            self.take_time(self.owed + 1)?;
        }
        self.shop.time(TICK);
        Ok(())
    }

    /// Vehicle and shop take so many ticks at once, of which the owed ones have passed on the clock.
    fn take_time(&mut self, ticks: u64) -> Result<(), Halt> {
        let dt = ticks as f64 * TICK;
        self.plant.tick_of(dt)?;
        let happened = self.shop.tick(&mut self.plant, dt);
        self.tick += ticks - self.owed;
        self.owed = 0;
        self.energy_moved += self.plant.evaporator.duty.abs() * dt;
        let Self {
            watch,
            plant,
            shop,
            events,
            tick,
            ..
        } = self;
        watch.look(plant, shop, happened, dt, |e| {
            if events.len() >= EVENTS_KEPT {
                events.drain(..EVENTS_KEPT / 4);
            }
            events.push((*tick, e));
        });
        Ok(())
    }

    /// Why the bay stands still for good, if it does.
    pub fn halt(&self) -> Option<Halt> {
        self.plant.halt()
    }

    /// A clone without log and events.
    pub(crate) fn without_past(&self) -> Self {
        Self {
            scenario: self.scenario.clone(),
            plant: self.plant.clone(),
            shop: self.shop.clone(),
            log: Vec::new(),
            events: Vec::new(),
            ..*self
        }
    }

    /// A clone of a bay without log and events, given the first `acts` of another's log and its events up to now.
    pub(crate) fn with_past(&self, later: &Self, acts: usize) -> Self {
        let events = later.events.partition_point(|(t, _)| *t <= self.tick);
        Self {
            log: later.log[..acts].to_vec(),
            events: later.events[..events].to_vec(),
            ..self.clone()
        }
    }

    /// The bay with the acts that were done in it.
    #[cfg(feature = "checkpoint")]
    pub(crate) fn with_log(self, log: &[Entered]) -> Self {
        let log = log.to_vec();
        Self { log, ..self }
    }

    /// Opens a bay as the scenario sets it, then puts it on another's present day, with its settings, its cabin and hood as warm, and
    /// what hands have fitted there: an orifice tube of another bore, a cut-out. Both are sound in it however they were fitted.
    pub(crate) fn open_beside(scenario: Arc<Scenario>, other: &Self) -> Self {
        let mut bay = Self::open(scenario);
        let (plant, now) = (&mut bay.plant, &other.plant);
        plant.set_day(now.day());
        plant.settings = now.settings;
        plant.cabin = now.cabin.clone();
        plant.hood_t = now.hood_t;
        if now.seat.fitted {
            (plant.seat.bore, plant.seat.length) = (now.seat.bore, now.seat.length);
        }
        let closed = plant.drive.cut_out.closed;
        plant.drive.cut_out = now.drive.cut_out;
        plant.drive.cut_out.closed = closed;
        bay
    }

    /// The vehicle holds what its own gas is converted to.
    pub(crate) fn converted(&self) -> bool {
        let retrofit = self.plant.vehicle.refrigerant.data().retrofit;
        retrofit.is_some_and(|r| r.to == self.plant.network.mostly())
    }

    /// Opens a bay as the scenario sets it and puts a state into it that was read; log and events are not in it.
    ///
    /// # Errors
    /// [`Misfit`] when the state belongs to another vehicle.
    #[cfg(feature = "checkpoint")]
    pub(crate) fn with_state(scenario: &Scenario, state: Self) -> Result<Self, Misfit> {
        let built = Self::new(scenario);
        let (mut plant, mut shop) = (built.plant, built.shop);
        plant.put(state.plant).map_err(|e| e.inside("plant"))?;
        shop.put(state.shop);
        Ok(Self {
            scenario: built.scenario,
            plant,
            shop,
            ..state
        })
    }

    /// When the performance test under way was begun, and the acts done by then, that one among them.
    pub fn test_begun(&self) -> Option<(Tick, usize)> {
        let begins = |(_, act): &Entered| *act == RecordAct::PerformanceTest.into();
        let mark = self.testing.then(|| self.log.iter().rposition(begins))??;
        Some((self.log[mark].0, mark + 1))
    }

    /// The last performance test was broken off: day or settings were changed.
    pub fn test_disturbed(&self) -> bool {
        self.disturbed
    }

    /// The bay as it was when so many of its acts had just been done: opened anew and played up to there.
    #[must_use]
    pub fn after(&self, acts: usize) -> Self {
        let mut bay = Self::open(self.shared_scenario());
        bay.play(&self.log[..acts]);
        bay
    }

    /// Does acts of a log at their ticks, until the last is done or the engine halts. What it took then it takes now: the same state, the
    /// same act.
    pub(crate) fn play(&mut self, acts: &[Entered]) {
        for (tick, action) in acts {
            while self.tick < *tick {
                if self.step().is_err() {
                    return;
                }
            }
            drop(self.apply(*action));
        }
    }

    /// What the last performance test found.
    pub fn performance(&self) -> Option<Performance> {
        self.performance
    }

    /// The scenario it was opened with.
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// The scenario, to share.
    pub(crate) fn shared_scenario(&self) -> Arc<Scenario> {
        self.scenario.shared()
    }

    /// The vehicle, to read.
    pub fn plant(&self) -> &Plant {
        &self.plant
    }

    /// The shop, to read.
    pub fn shop(&self) -> &Shop {
        &self.shop
    }

    /// Time for which an act still has the hands, s: until then no other that takes time is begun.
    pub fn busy(&self) -> f64 {
        self.busy_until.saturating_sub(self.tick) as f64 / TICKS_PER_SECOND as f64
    }

    /// Ticks since the start.
    pub fn tick(&self) -> Tick {
        self.tick
    }

    /// Bay time since the start, s.
    pub fn seconds(&self) -> f64 {
        self.tick as f64 / TICKS_PER_SECOND as f64
    }

    /// All acts so far.
    pub fn log(&self) -> &[Entered] {
        &self.log
    }

    /// What happened so far (the latest few thousand).
    pub fn events(&self) -> &[(Tick, Event)] {
        &self.events
    }

    /// Refrigerant in the loop, without hoses and cans, with what its oil has dissolved, kg.
    pub fn charge(&self) -> f64 {
        self.plant.charge()
    }

    /// Refrigerant that went into the room, kg: through openings, and with what was taken off open.
    pub fn vented(&self) -> f64 {
        self.plant.network.account().to_room[REFRIGERANT] + self.shop.lost[REFRIGERANT]
    }

    /// Where every gram is.
    pub fn ledger(&self) -> [Entry; PLACES] {
        ledger(
            &self.plant,
            &self.shop,
            self.plant.network.account().to_room,
        )
    }

    /// What the ledger cannot explain, kg, the worst of all species: all its places together hold what they held at the start and
    /// what was brought in by hand. Not a number if one of them is none.
    pub fn ledger_gap(&self) -> f64 {
        let now = total(&self.ledger());
        (0..SPECIES)
            .map(|k| (now[k] - self.shop.brought[k] - self.ledger_at_start[k]).abs())
            .fold(0.0, greater)
    }

    /// The job record, filled from what happened.
    pub fn record(&self, prices: &Prices) -> Record {
        let totals = Totals {
            in_loop: self.charge(),
            vented: self.vented(),
            seconds: self.seconds(),
            performance: self.performance,
        };
        record(&self.plant, &self.shop, &totals, prices)
    }

    /// Fingerprint of the state: of every leaf of it that is not at its default (see [`crate::state`]).
    ///
    /// # Errors
    /// [`StateError::NotFinite`] when a number in it is none, as in some bays that have halted.
    pub fn state_hash(&self) -> Result<u64, StateError> {
        state::hash_of(self)
    }

    /// Every leaf of the state in which another bay's differs, and what volume or link it is of.
    pub fn differences(&self, other: &Self) -> Vec<Difference> {
        let mut found = state::differences(self, other);
        for difference in &mut found {
            if let Some(name) = self.name_at(&difference.path) {
                difference.path = format!("{} ({name})", difference.path);
            }
        }
        found
    }

    /// The volume or link that a path of the state leads to.
    fn name_at(&self, path: &str) -> Option<&'static str> {
        let (list, rest) = path.strip_prefix("plant.network.")?.split_once('.')?;
        let place: usize = rest.split('.').next()?.parse().ok()?;
        let network = &self.plant.network;
        match list {
            "nodes" => network.nodes().get(place).map(|node| node.name),
            "links" => network.links().get(place).map(|link| link.name),
            _ => None,
        }
    }

    /// Largest share of any species' mass that the books cannot explain; all of it in a bay that has halted.
    pub fn mass_error(&self) -> f64 {
        if self.halt().is_some() {
            return 1.0;
        }
        let account = self.plant.network.account();
        let held = self.plant.network.held();
        (0..SPECIES)
            .map(|k| {
                let gap = held[k] - account.mass_in[k] - self.mass_at_start[k];
                let size = held[k].abs() + account.mass_in[k].abs();
                gap.abs() / size.max(1e-6)
            })
            .fold(0.0, greater)
    }

    /// Share of the energy moved so far that the books cannot explain; all of it in a bay that has halted.
    pub fn energy_error(&self) -> f64 {
        if self.halt().is_some() {
            return 1.0;
        }
        let gap =
            self.plant.energy() - self.plant.network.account().energy_in - self.energy_at_start;
        gap.abs() / self.energy_moved.max(1e5)
    }
}

/// Seconds in whole ticks.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "of a table of durations: none is below zero or longer than an hour"
)]
fn ticks(seconds: f64) -> Tick {
    (seconds * TICKS_PER_SECOND as f64).round() as Tick
}

/// What all places of a ledger hold together.
fn total(entries: &[Entry]) -> Content {
    let mut sum = Content::default();
    for e in entries {
        sum.add(&e.content, 1.0);
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Take, TakeError, VehicleAct, library};
    use lowside_plant::halt::Cause;
    use lowside_shop::fault::Table;
    use lowside_units::Volume;

    /// What is no number ends the step, is told by place and cause, stays told, and fails the books; nothing else moves.
    #[test]
    fn a_number_that_is_none_halts_the_bay() {
        let mut bay = Bay::new(&library::shipped("healthy").expect("shipped"));
        bay.step().expect("sound");
        let place = bay.plant.circuit.condenser.inlet();
        bay.plant.network.inject(place, &Content::air(f64::NAN));
        let halt = bay.step().expect_err("no number");
        assert_eq!(halt.place, "condenser");
        assert!(matches!(halt.cause, Cause::NotFinite(_)), "{halt}");
        assert_eq!((bay.tick(), bay.halt()), (1, Some(halt.clone())));
        assert_eq!(bay.step(), Err(halt));
        assert!(bay.mass_error() >= 1.0 && bay.energy_error() >= 1.0);
    }

    /// Likewise an energy that no temperature of the tables has, and walls outside the network.
    #[test]
    fn what_no_table_holds_halts_the_bay() {
        let mut bay = Bay::new(&library::shipped("healthy").expect("shipped"));
        let hose = bay.plant.circuit.discharge_hose;
        bay.plant.shells[hose].t = 2e4;
        let halt = loop {
            if let Err(halt) = bay.step() {
                break halt;
            }
            assert!(bay.seconds() < 10.0);
        };
        assert_eq!(halt.place, "discharge line");
        assert!(matches!(halt.cause, Cause::Temperature { .. }), "{halt}");
        let mut bay = Bay::new(&library::shipped("healthy").expect("shipped"));
        bay.plant.cabin.interior = f64::INFINITY;
        let halt = bay.step().expect_err("infinite");
        assert_eq!(halt.place, "vehicle", "{halt}");
    }

    /// An overfull van whose suction line holds nothing and whose condenser gets no air: the step that fails is spent, and no tick counts it.
    #[test]
    fn a_halted_bay_is_taken_up_halted_and_refuses_acts() {
        let mut scenario = library::shipped("healthy").expect("shipped");
        Arc::make_mut(&mut scenario.vehicle).suction_line.volume = Volume::from_m3(20e-6);
        scenario.condition = serde_json::from_str(r#"{"condenser_air":"0 %"}"#).expect("a share");
        assert!(scenario.set(Table::Start, "charge", 1.5));
        let mut bay = Bay::new(&scenario);
        let halt = loop {
            if let Err(halt) = bay.step() {
                break halt;
            }
            assert!(bay.seconds() < 120.0);
        };
        let hash = bay.state_hash().expect("finite");
        let refused = Err(Refused::Halted {
            place: halt.place.clone(),
        });
        assert_eq!(bay.apply(VehicleAct::Engine { on: false }), refused);
        assert_eq!((bay.state_hash(), bay.log().len()), (Ok(hash), 0));
        let take = Take::parse(&Take::of(&bay).to_text()).expect("a take");
        let again = take.resume().expect("it ends where it says");
        assert_eq!((again.halt(), again.tick()), (Some(halt), bay.tick()));
        assert_eq!(again.state_hash(), Ok(hash));
        // A take that claims another end is not helped by the step more.
        let mut edited = take.clone();
        edited.hash = "0".repeat(16);
        assert!(matches!(edited.resume(), Err(TakeError::Differs { .. })));
        assert_eq!(edited.replay().end().0.halt(), None);
    }

    /// A bay that stands still is kept standing still; one with a number that is none is not kept, and the place is named.
    #[test]
    fn a_halted_bay_is_kept_if_all_its_numbers_are() {
        let scenario = library::shipped("healthy").expect("shipped");
        let mut bay = Bay::new(&scenario);
        let hose = bay.plant.circuit.discharge_hose;
        bay.plant.shells[hose].t = 2e4;
        let halt = loop {
            if let Err(halt) = bay.step() {
                break halt;
            }
        };
        let mut back = Bay::load(&scenario, &[], &bay.save().expect("finite")).expect("its own");
        assert_eq!((back.halt(), back.step()), (Some(halt.clone()), Err(halt)));
        assert_eq!(back.differences(&bay), []);

        bay.plant.cabin.interior = f64::INFINITY;
        let refused = bay.save().expect_err("infinite").to_string();
        assert_eq!(refused, "plant.cabin.interior = inf is not a finite number");
        assert_eq!(bay.state_hash(), Err(bay.save().expect_err("infinite")));
        assert!(!Take::of(&bay).is_comparable());
    }
}
