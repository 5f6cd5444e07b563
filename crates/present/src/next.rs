//! The one obvious next thing to do, from what a person in the bay is shown, never from a click order and never from what is hidden.

use lowside_lessons::progress::Standing;
use lowside_session::{Bay, Event, Tick};
use lowside_shop::Attached;
use lowside_units::{
    Mass,
    display::{self, UnitSystem},
};

use crate::{controls::Control, job::Job};

pub use shown::Shown;

mod shown;

/// What is worth doing next. The words are the page's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NextStep {
    /// Something blows, stands open or somebody is hurt, and the engine runs: get away and shut it off.
    StopEngine,
    /// The can has burst: shut what is open, then take it off; the control that comes first.
    BurstCan(Control),
    /// Something blows or somebody is hurt: keep away, help.
    KeepAway,
    /// The high valve is open with the engine running: shut it.
    ShutHighValve,
    /// A valve stands open to the room: shut it.
    ShutOpenHose,
    /// A joint or port stands open: cap it.
    CapEnds,
    /// The low coupler is off and is needed.
    PutLowCoupler,
    /// Pump, machine, cylinder or nitrogen hangs on the hose: work with it.
    WorkTool,
    /// What is in the loop is not known by weight: recover it and weigh it in.
    UnknownCharge,
    /// Screw a can onto the service hose.
    TakeCan,
    /// Open the can's tap.
    OpenTap,
    /// Purge until the air is out of the service hose.
    Purge,
    /// The air is out: tighten the hose.
    StopPurge,
    /// Start the engine.
    StartEngine,
    /// Press the A/C button.
    AcOn,
    /// Set the blower high.
    BlowerHigh,
    /// Open the low valve.
    OpenLowValve,
    /// Vapour flows: watch.
    WatchCharging,
    /// The can has become cold and slow: warm it.
    WarmCan,
    /// The bath is too hot.
    CoolBath,
    /// The can is turned over with the engine running.
    TurnUpright,
    /// The can is empty: shut the low valve.
    CanEmptyShut,
    /// The can is empty and shut off: take a fresh one.
    CanEmptySwap,
    /// The charge is in: shut the low valve.
    ChargedShut,
    /// More than the label says was given.
    Overcharged,
    /// More than the label says was given and the valve is shut.
    TooMuch,
    /// Charged and shut: let it settle.
    Settle,
    /// Vent cold: shut the tap.
    ShutTap,
    /// Vent cold, tap shut: take the low coupler off.
    TakeLowCoupler,
    /// Shut the engine off, so that the high coupler can come off.
    EngineOff,
    /// Take the high coupler off.
    TakeHighCoupler,
    /// Done.
    Done,
    /// Nothing is asked and nothing was done yet: make the day hotter, for a try.
    TryHotter,
    /// Nothing is asked: whatever one likes, or a job card.
    Free,
}

/// Charge within so much of the label counts as in, kg (1.5 oz: what a small can keeps back and a purge costs; common practice).
const NEAR: f64 = 0.0425;
/// Charge above the label that counts as too much, kg (2.5 oz; common practice, no source).
const OVER: f64 = 0.071;
/// High side up to which a hotter day is a harmless thing to try, Pa gauge (250 psi; own figure).
const CALM: f64 = 1.72e6;

impl NextStep {
    /// The control it refers to.
    pub fn control(self) -> Option<Control> {
        Some(match self {
            Self::BurstCan(first) => first,
            Self::ShutHighValve => Control::HighValve,
            Self::ShutOpenHose
            | Self::OpenLowValve
            | Self::CanEmptyShut
            | Self::ChargedShut
            | Self::Overcharged => Control::LowValve,
            Self::PutLowCoupler | Self::TakeLowCoupler => Control::LowCoupler,
            Self::TakeHighCoupler => Control::HighCoupler,
            Self::TakeCan | Self::CanEmptySwap => Control::TakeCan,
            Self::OpenTap | Self::ShutTap => Control::Tap,
            Self::Purge | Self::StopPurge => Control::Purge,
            Self::StopEngine | Self::StartEngine | Self::EngineOff => Control::Engine,
            Self::AcOn => Control::Ac,
            Self::BlowerHigh => Control::Blower,
            Self::WarmCan | Self::CoolBath => Control::Bath,
            Self::TurnUpright => Control::Invert,
            Self::TryHotter => Control::Ambient,
            Self::KeepAway
            | Self::CapEnds
            | Self::WorkTool
            | Self::UnknownCharge
            | Self::WatchCharging
            | Self::Settle
            | Self::TooMuch
            | Self::Done
            | Self::Free => return None,
        })
    }

    /// Somebody is in danger now.
    pub fn emergency(self) -> bool {
        matches!(self, Self::StopEngine | Self::BurstCan(_) | Self::KeepAway)
    }

    /// It goes before the steps of an open job card.
    fn urgent(self) -> bool {
        self.emergency()
            || matches!(
                self,
                Self::ShutHighValve
                    | Self::ShutOpenHose
                    | Self::CoolBath
                    | Self::TurnUpright
                    | Self::Overcharged
            )
    }
}

/// What is advised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Advice {
    /// A step that follows from what is shown.
    Step(NextStep),
    /// A step of the open job card, by its place.
    Card(usize),
    /// Every step of the card is done: sign off.
    SignOff,
    /// Every step is done, and a harm on the way keeps the card from being passed.
    Spoilt,
}

impl Advice {
    /// The control it refers to; a card's step leaves the way to the learner.
    pub fn control(self) -> Option<Control> {
        match self {
            Self::Step(step) => step.control(),
            Self::Card(_) | Self::SignOff | Self::Spoilt => None,
        }
    }

    /// Somebody is in danger now.
    pub fn emergency(self) -> bool {
        matches!(self, Self::Step(step) if step.emergency())
    }
}

/// What is advised in a bay, with the job that is open: its card's first step that is not done, unless something is dangerous now.
pub fn advice(bay: &Bay, job: Option<&Job>) -> Advice {
    let step = next_step(&Shown::of(bay));
    let Some(job) = job.filter(|_| !step.urgent()) else {
        return Advice::Step(step);
    };
    let done = |s: &Standing| matches!(s, Standing::Done { .. });
    let first = job.steps().iter().position(|s| !done(s));
    match first {
        Some(step) => Advice::Card(step),
        None if job.passed() => Advice::SignOff,
        None => Advice::Spoilt,
    }
}

/// What is in the loop by weight, as text; nothing where that is not known.
pub fn weighed(bay: &Bay, units: UnitSystem) -> String {
    let kg = bay.shop().weighed_in(bay.plant()).unwrap_or(0.0);
    display::mass(Mass::from_kg(kg.max(0.0)), units).to_string()
}

/// Harm to people, told large until somebody has read it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Harm {
    /// Somebody was hurt at what was opened.
    Injury,
    /// A can burst.
    Burst,
}

/// The last harm to people in a bay and when it happened.
pub fn harm(bay: &Bay) -> Option<(Tick, Harm)> {
    let at = |event, harm| shown::last(bay, event).map(|tick| (tick, harm));
    at(Event::Injury, Harm::Injury)
        .into_iter()
        .chain(at(Event::CanBurst, Harm::Burst))
        .max_by_key(|(tick, _)| *tick)
}

/// The next step by what is shown.
pub fn next_step(s: &Shown) -> NextStep {
    danger(s)
        .or_else(|| s.left_open.then_some(NextStep::CapEnds))
        .or_else(|| s.tool().then_some(NextStep::WorkTool))
        .unwrap_or_else(|| match s.charge {
            Some(charge) => by_weight(s, charge),
            None if s.can().is_some() => NextStep::UnknownCharge,
            None => free(s),
        })
}

/// What harms somebody or something now.
fn danger(s: &Shown) -> Option<NextStep> {
    let h = &s.hands;
    let blows = s.blows || s.hurt;
    if s.engine && (blows || s.left_open || s.burst()) {
        return Some(NextStep::StopEngine);
    }
    if s.burst() {
        let first = if h.high_valve > 0.0 {
            Control::HighValve
        } else if s.low_open() {
            Control::LowValve
        } else {
            Control::DropCan
        };
        return Some(NextStep::BurstCan(first));
    }
    if blows {
        return Some(NextStep::KeepAway);
    }
    if h.high_valve > 0.0 && (s.engine || h.attached == Attached::Nothing) {
        return Some(NextStep::ShutHighValve);
    }
    if s.low_open() && h.attached == Attached::Nothing {
        return Some(NextStep::ShutOpenHose);
    }
    let can = s.can()?;
    if s.bath_too_hot() {
        return Some(NextStep::CoolBath);
    }
    (s.inverted() && s.engine && can.open() && s.low_open()).then_some(NextStep::TurnUpright)
}

/// What is worth doing where nothing is asked.
fn free(s: &Shown) -> NextStep {
    let calm = s.engine && s.ac && s.high.is_some_and(|p| p < CALM);
    if calm && s.untouched {
        NextStep::TryHotter
    } else {
        NextStep::Free
    }
}

/// What brings the charge, known by weight, to the label's.
fn by_weight(s: &Shown, charge: f64) -> NextStep {
    let open = s.low_open();
    if charge > s.target + OVER {
        return if open {
            NextStep::Overcharged
        } else {
            NextStep::TooMuch
        };
    }
    if charge >= s.target - NEAR {
        return finish(s);
    }
    let Some(can) = s.can() else {
        return NextStep::TakeCan;
    };
    if s.can_empty {
        return if open {
            NextStep::CanEmptyShut
        } else {
            NextStep::CanEmptySwap
        };
    }
    let Some(low) = s.low else {
        return NextStep::PutLowCoupler;
    };
    if !can.open() {
        return NextStep::OpenTap;
    }
    if s.hands.purging {
        return if s.purged {
            NextStep::StopPurge
        } else {
            NextStep::Purge
        };
    }
    if !s.purged && !open {
        return NextStep::Purge;
    }
    // A loop in a vacuum draws the first gas in by itself, and the clutch needs its pressure.
    if low < 0.0 && !s.engine {
        return if open {
            NextStep::WatchCharging
        } else {
            NextStep::OpenLowValve
        };
    }
    if !s.engine {
        return NextStep::StartEngine;
    }
    if !s.blower_high {
        return NextStep::BlowerHigh;
    }
    if !s.ac {
        return NextStep::AcOn;
    }
    if !open {
        return NextStep::OpenLowValve;
    }
    if can.bath.is_none() && s.can_cold {
        return NextStep::WarmCan;
    }
    NextStep::WatchCharging
}

/// What is left to do when the charge is in.
fn finish(s: &Shown) -> NextStep {
    let h = &s.hands;
    if s.low_open() {
        return NextStep::ChargedShut;
    }
    if h.purging {
        return NextStep::StopPurge;
    }
    let tap = s.can().is_some_and(|c| c.open());
    if !s.vent_cold && (h.low_coupled || tap) {
        if !s.engine {
            return NextStep::StartEngine;
        }
        if !s.blower_high {
            return NextStep::BlowerHigh;
        }
        if !s.ac {
            return NextStep::AcOn;
        }
        return NextStep::Settle;
    }
    if tap {
        return NextStep::ShutTap;
    }
    if h.low_coupled {
        return NextStep::TakeLowCoupler;
    }
    // The high coupler comes off at rest: its hose holds hot discharge gas while the engine runs.
    if h.high_coupled {
        return if s.engine {
            NextStep::EngineOff
        } else {
            NextStep::TakeHighCoupler
        };
    }
    NextStep::Done
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{
        Action, BenchAct, HoseAct, MachineAct, Scenario, TICKS_PER_SECOND, VehicleAct, VesselAct,
        acts, library,
    };
    use lowside_shop::joints::Joint;
    use lowside_units::{Quantity, Ratio, Temperature};

    /// What is said in a bay without a card.
    fn said(bay: &Bay) -> NextStep {
        next_step(&Shown::of(bay))
    }

    fn opened(set: &[&str]) -> Bay {
        let set: Vec<String> = set.iter().map(|s| (*s).to_owned()).collect();
        let text = library::scenario("healthy").expect("shipped");
        let mut scenario = Scenario::parse(text, &set).expect("sound");
        scenario.act.clear();
        Bay::new(&scenario)
    }

    fn pass(bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
    }

    /// The act that a step asks for, as an obedient learner does it.
    fn obey(step: NextStep) -> Option<Action> {
        let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
        Some(match step {
            NextStep::TakeCan | NextStep::CanEmptySwap => VesselAct::TakeCan.into(),
            NextStep::OpenTap => VesselAct::Tap { on: true }.into(),
            NextStep::ShutTap => VesselAct::Tap { on: false }.into(),
            NextStep::Purge => HoseAct::Purge { on: true }.into(),
            NextStep::StopPurge => HoseAct::Purge { on: false }.into(),
            NextStep::StartEngine => VehicleAct::Engine { on: true }.into(),
            NextStep::StopEngine | NextStep::EngineOff => VehicleAct::Engine { on: false }.into(),
            NextStep::AcOn => VehicleAct::AirConditioning { on: true }.into(),
            NextStep::BlowerHigh => VehicleAct::Blower { step: 4 }.into(),
            NextStep::OpenLowValve => HoseAct::LowValve { open: full }.into(),
            NextStep::CanEmptyShut
            | NextStep::ChargedShut
            | NextStep::Overcharged
            | NextStep::ShutOpenHose => HoseAct::LowValve { open: shut }.into(),
            NextStep::WarmCan => VesselAct::Bath {
                temperature: Some(Temperature::from_deg_c(45.0)),
            }
            .into(),
            NextStep::TakeLowCoupler => HoseAct::LowCoupler { on: false }.into(),
            NextStep::TakeHighCoupler => HoseAct::HighCoupler { on: false }.into(),
            NextStep::PutLowCoupler => HoseAct::LowCoupler { on: true }.into(),
            _ => return None,
        })
    }

    #[test]
    fn who_obeys_every_step_finishes_the_job() {
        let mut bay = bay("charge-from-cans");
        let mut seen = Vec::new();
        let mut last = None;
        while bay.seconds() < 3600.0 {
            let step = said(&bay);
            if last != Some(step) {
                seen.push(step);
                if let Some(act) = obey(step) {
                    bay.apply(act).expect("the act is possible");
                }
                last = Some(step);
            }
            if step == NextStep::Done {
                break;
            }
            pass(&mut bay, 2);
            last = last.filter(|s| *s == said(&bay));
        }
        assert_eq!(
            seen.last(),
            Some(&NextStep::Done),
            "{seen:?} at {} s",
            bay.seconds()
        );
        assert_eq!(seen.first(), Some(&NextStep::TakeCan));
        assert_eq!(bay.shop().hands.cans_taken, 3, "{seen:?}");
        let label = bay.plant().vehicle.label_charge.si();
        assert!(
            (bay.charge() - label).abs() < 0.09,
            "charge {} (hoses, cans and purges keep some)",
            bay.charge()
        );
        assert!(seen.len() < 60, "no flapping: {seen:?}");
        let at = |step| seen.iter().position(|s| *s == step);
        assert!(
            at(NextStep::OpenLowValve) < at(NextStep::StartEngine),
            "a loop in a vacuum draws the first gas in before the engine runs: {seen:?}"
        );
        assert!(!bay.shop().hands.high_coupled && !bay.plant().settings.engine_on);
    }

    #[test]
    fn an_open_card_leads_unless_there_is_danger() {
        let mut job = Job::open("1-first-charge").expect("shipped");
        let mut bay = job.bay();
        assert_eq!(advice(&bay, None), Advice::Step(NextStep::TakeCan));
        assert_eq!(advice(&bay, Some(&job)), Advice::Card(0));
        let full = Ratio::from_si(1.0);
        bay.apply(HoseAct::LowValve { open: full }).unwrap();
        let shut = Advice::Step(NextStep::ShutOpenHose);
        assert_eq!(advice(&bay, Some(&job)), shut);
        bay.apply(VesselAct::TakeCan).unwrap();
        bay.apply(VesselAct::Tap { on: true }).unwrap();
        for _ in 0..60 * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
            job.look(&bay);
        }
        assert!(matches!(advice(&bay, Some(&job)), Advice::Card(n) if n > 0));
    }

    fn give_a_can(bay: &mut Bay) {
        let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
        let temperature = Some(Temperature::from_deg_c(50.0));
        for act in acts![
            HoseAct::LowValve { open: shut },
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            VesselAct::Bath { temperature },
            HoseAct::LowValve { open: full },
        ] {
            bay.apply(act).unwrap();
        }
        pass(bay, 400);
    }

    #[test]
    fn a_can_too_many_is_told_where_the_charge_is_known() {
        let mut bay = bay("charge-from-cans");
        for act in acts![
            VehicleAct::Engine { on: true },
            VehicleAct::AirConditioning { on: true },
            VehicleAct::Blower { step: 4 },
        ] {
            bay.apply(act).unwrap();
        }
        for _ in 0..4 {
            give_a_can(&mut bay);
        }
        assert_eq!(said(&bay), NextStep::Overcharged);
        let open = Ratio::from_si(0.0);
        bay.apply(HoseAct::LowValve { open }).unwrap();
        assert_eq!(said(&bay), NextStep::TooMuch);
    }

    /// Whether it came full, short or with air: nobody has weighed what is in it.
    #[test]
    fn a_can_on_an_unknown_charge_is_a_guess() {
        for set in [&[][..], &["start.charge=22 oz"], &["start.air=0.3 g"]] {
            let mut bay = opened(set);
            pass(&mut bay, 120);
            assert_eq!(said(&bay), NextStep::TryHotter, "{set:?}");
            bay.apply(VehicleAct::Blower { step: 3 }).unwrap();
            assert_eq!(said(&bay), NextStep::Free, "{set:?}");
            give_a_can(&mut bay);
            assert_eq!(said(&bay), NextStep::UnknownCharge, "{set:?}");
        }
        // A head that stands high is no invitation to a hotter day.
        let mut hot = opened(&["start.air=15 g", "day.ambient=40 degC"]);
        pass(&mut hot, 60);
        let high = Shown::of(&hot).high.expect("connected");
        assert!(high > CALM, "{high} Pa");
        assert_eq!(said(&hot), NextStep::Free);
        let off = opened(&["engine.on=false"]);
        assert_eq!(said(&off), NextStep::Free, "nobody asks for the engine");
    }

    /// Recovered and evacuated in the bay: from then on the charge is known by weight again; opened, it is not.
    #[test]
    fn an_evacuated_loop_is_charged_by_weight() {
        let mut bay = opened(&["start.charge=22 oz"]);
        let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
        let gas = bay.shop().hands.hoses;
        for act in acts![
            VehicleAct::Engine { on: false },
            MachineAct::TakeRecoveryMachine { gas },
            HoseAct::LowValve { open: full },
            HoseAct::HighValve { open: full },
            MachineAct::RecoveryMachine { on: true },
        ] {
            bay.apply(act).unwrap();
        }
        pass(&mut bay, 1500);
        bay.apply(MachineAct::TakePump {
            speed: lowside_units::VolumeFlow::from_cfm(6.0),
        })
        .unwrap();
        assert_eq!(said(&bay), NextStep::WorkTool);
        bay.apply(MachineAct::Pump { on: true }).unwrap();
        bay.apply(MachineAct::Isolation { on: true }).unwrap();
        pass(&mut bay, 600);
        bay.apply(HoseAct::LowValve { open: shut }).unwrap();
        bay.apply(HoseAct::HighValve { open: shut }).unwrap();
        bay.apply(MachineAct::Isolation { on: false }).unwrap();
        bay.apply(MachineAct::Pump { on: false }).unwrap();
        bay.apply(HoseAct::Disconnect).unwrap();
        pass(&mut bay, 5);
        assert_eq!(said(&bay), NextStep::TakeCan);
        give_a_can(&mut bay);
        let by_weight = Shown::of(&bay).charge.expect("known");
        assert!(
            (by_weight - bay.charge()).abs() < 0.03,
            "{by_weight} by weight, {} in the loop",
            bay.charge()
        );
        assert_ne!(said(&bay), NextStep::UnknownCharge);
        let joint = Joint::CompressorIn;
        bay.apply(BenchAct::OpenJoint { joint }).unwrap();
        pass(&mut bay, 1);
        assert_eq!(Shown::of(&bay).charge, None);
    }

    #[test]
    fn what_blows_comes_first_whatever_the_card_says() {
        let mut job = Job::open("2-low-charge").expect("shipped");
        let mut bay = job.bay();
        pass(&mut bay, 30);
        bay.apply(VehicleAct::Engine { on: true }).unwrap();
        pass(&mut bay, 30);
        job.look(&bay);
        assert!(matches!(advice(&bay, Some(&job)), Advice::Card(_)));
        assert_eq!(harm(&bay), None);
        let joint = Joint::CondenserOut;
        bay.apply(BenchAct::OpenJoint { joint }).unwrap();
        let first = |bay: &Bay| advice(bay, Some(&job));
        assert_eq!(first(&bay), Advice::Step(NextStep::StopEngine));
        assert_eq!(harm(&bay), Some((bay.tick(), Harm::Injury)));
        pass(&mut bay, 1);
        assert_eq!(first(&bay), Advice::Step(NextStep::StopEngine));
        bay.apply(VehicleAct::Engine { on: false }).unwrap();
        assert_eq!(first(&bay), Advice::Step(NextStep::KeepAway));
        pass(&mut bay, 300);
        assert!(matches!(first(&bay), Advice::Card(_)));
        assert_eq!(said(&bay), NextStep::CapEnds);
    }

    #[test]
    fn a_burst_can_comes_first_and_the_engine_before_it() {
        let mut bay = opened(&["day.ambient=45 degC"]);
        pass(&mut bay, 60);
        let open = Ratio::from_si(1.0);
        for act in acts![
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            HoseAct::HighValve { open },
        ] {
            bay.apply(act).unwrap();
        }
        pass(&mut bay, 60);
        assert!(matches!(harm(&bay), Some((_, Harm::Burst))));
        assert_eq!(said(&bay), NextStep::StopEngine);
        bay.apply(VehicleAct::Engine { on: false }).unwrap();
        assert_eq!(said(&bay), NextStep::BurstCan(Control::HighValve));
    }

    /// Bays that differ only in what nobody sees (charge, air, leaks, wear, the state of tube and coils), at rest at one temperature so that
    /// every instrument shows the same, are advised the same whatever hands do.
    #[test]
    fn what_is_hidden_changes_no_advice() {
        let hidden: [&[&str]; 6] = [
            &[],
            &["start.charge=300 g"],
            &["start.charge=1.6 kg"],
            &["condition.condenser_air=40%"],
            &["condition.joint=[{at=\"condenser-in\",seal=\"old-dry\"}]"],
            &["start.charge=22 oz", "condition.compressor_wear=30%"],
        ];
        let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
        let acts = acts![
            HoseAct::LowCoupler { on: false },
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            HoseAct::Purge { on: true },
            HoseAct::Purge { on: false },
            HoseAct::Disconnect,
            VesselAct::TakeNitrogen,
            VesselAct::TakeCan,
            HoseAct::HighCoupler { on: false },
            HoseAct::LowValve { open: full },
            VesselAct::DropCan,
            HoseAct::LowValve { open: shut },
            VehicleAct::AirConditioning { on: false },
        ];
        let told = |set: &[&str]| {
            let parked = ["engine.on=false"];
            let mut bay = opened(&[&parked[..], set].concat());
            let mut told = vec![(said(&bay), weighed(&bay, UnitSystem::SI))];
            for act in acts {
                bay.apply(act).unwrap();
                for _ in 0..4 {
                    pass(&mut bay, 1);
                    told.push((said(&bay), weighed(&bay, UnitSystem::SI)));
                }
            }
            told
        };
        let one = told(hidden[0]);
        assert!(one.iter().any(|(s, _)| *s == NextStep::UnknownCharge));
        for set in &hidden[1..] {
            assert_eq!(told(set), one, "{set:?}");
        }
    }

    #[test]
    fn wrong_turns_are_answered() {
        let mut bay = bay("charge-from-cans");
        bay.apply(HoseAct::LowValve {
            open: Ratio::from_si(1.0),
        })
        .unwrap();
        assert_eq!(said(&bay), NextStep::ShutOpenHose);
        bay.apply(HoseAct::LowValve {
            open: Ratio::from_si(0.0),
        })
        .unwrap();
        bay.apply(VesselAct::TakeCan).unwrap();
        bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
        assert_eq!(said(&bay), NextStep::PutLowCoupler);
        bay.apply(VehicleAct::Engine { on: true }).unwrap();
        bay.apply(HoseAct::HighValve {
            open: Ratio::from_si(1.0),
        })
        .unwrap();
        assert_eq!(said(&bay), NextStep::ShutHighValve);
        bay.apply(HoseAct::HighValve {
            open: Ratio::from_si(0.0),
        })
        .unwrap();
        bay.apply(VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(80.0)),
        })
        .unwrap();
        assert_eq!(said(&bay), NextStep::CoolBath);
    }
}
