//! What a person in the bay can know: by the instruments that are connected, by eyes, ears, nose and hands. Advice and questions go by this
//! alone, so that they cannot know what nobody there knows; the rest is [`Truth`](crate::Truth).

use lowside_plant::{controls::Settings, plant::Day};
use lowside_session::{Action, Bay, Event, HoseAct, TICKS_PER_SECOND, Tick, VesselAct};
use lowside_shop::{
    Attached, Hands,
    can::{self, Can, Stance},
    detect::SPOTS,
    joints::{Fit, JOINTS, Joint},
    record::Readings,
    vacuum::MICRON,
};
use lowside_units::Ratio;

use crate::{
    caution::BATH_LIMIT,
    sound::Sound,
    target::{VENT_GOAL, target},
};

/// Instruments that are connected, settings, hands, what was weighed, searched and noted, and what is seen, heard and smelt. SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a thing of its own that is seen or not"
)]
pub struct Shown {
    /// Compound gauge, Pa gauge; none while its coupler is off: it shows its hose.
    pub low: Option<f64>,
    /// High-pressure gauge, likewise.
    pub high: Option<f64>,
    /// Boiling point that the ring of each gauge shows at its pointer, low and high, K: see [`saturation`].
    pub saturation: [Option<f64>; 2],
    /// The thermometer in the vent is down to what the job asks for.
    pub vent_cold: bool,
    /// What stands in the vent and in the cabin is read as, K.
    pub air: [f64; 2],
    /// Clamp thermometer, K; none while it is nowhere.
    pub clamp: Option<f64>,
    /// Electronic vacuum gauge, Pa absolute; none above its range.
    pub vacuum: Option<f64>,
    /// The day as thermometer, hygrometer and barometer give it.
    pub day: Day,
    /// The vehicle's controls, and what hands have done beside them.
    pub settings: Settings,
    /// Blower at its highest.
    pub blower_high: bool,
    /// What is heard.
    pub sound: Sound,
    /// The clutch slips and smells.
    pub smells: bool,
    /// What the last search at each place showed, in the order of [`Spot::all`].
    ///
    /// [`Spot::all`]: lowside_shop::detect::Spot::all
    pub found: [Option<bool>; SPOTS],
    /// Joints that are apart with both ends capped, in the order of [`Joint::ALL`].
    pub capped: [bool; JOINTS],
    /// Readings that were written down before and after the work.
    pub noted: [Option<Readings>; 2],
    /// Couplers, valves, and what hangs on the service hose.
    pub hands: Hands,
    /// What is in the loop by weight, kg; none where that is not known.
    pub charge: Option<f64>,
    /// Both gauges are down, or stayed down before they came off and nothing was let in since.
    pub down: bool,
    /// What it is to hold by its label, kg.
    pub target: f64,
    /// What the scale shows of a can's or cylinder's content, kg.
    pub weighs: f64,
    /// The scale shows a can that has given all its liquid.
    pub can_empty: bool,
    /// The can is cold to the hand.
    pub can_cold: bool,
    /// The service hose was blown out for long enough since something was last screwed onto it.
    pub purged: bool,
    /// Hands have left something open: a joint, a port without its core.
    pub left_open: bool,
    /// Gas is seen and heard to blow out of it.
    pub blows: bool,
    /// Something stands open on a loop that was shown empty, or air is heard to hiss in: nothing but air runs through it.
    pub draws: bool,
    /// The loop was shown empty, no vessel has let anything in since, and the compound gauge has risen.
    pub vacuum_lost: bool,
    /// Greatest pressure shown on a hose whose hand valve leads to the service hose, Pa gauge; none with both valves shut.
    pub behind_valves: Option<f64>,
    /// Somebody was hurt within the last minute.
    pub hurt: bool,
    /// Nothing has been done in this bay yet.
    pub untouched: bool,
}

/// Least that is heard and seen to blow, kg/s (own figure).
const BLOWS: f64 = 0.5e-3;
/// Least air that is heard to hiss in, kg/s (own figure).
const HISSES: f64 = 0.05e-3;
/// A vacuum is lost from here on, Pa absolute: far above what water boils off at the warmest day (own figure).
const LOST: f64 = 25e3;
/// Pressure at and below which a gauge's pointer tells no boiling point, Pa absolute (its resolution is not better).
const MEANS_NOTHING: f64 = 20e3;
/// From here on the vacuum gauge is over its range of 25 000 micron, Pa absolute.
const VACUUM_MOST: f64 = 25_000.0 * 0.999 * MICRON;
/// How long a hurt person comes first, s (own figure).
const FIRST_AID: f64 = 60.0;
/// How long a hose is blown out (common practice: about three seconds).
const PURGE: f64 = 3.0;
/// Time the scale takes to come to rest under a new can, s.
const AT_REST: f64 = 3.0;
/// What a can without liquid still holds of vapour, kg (own figure: a can at 30 degC and 400 kPa holds 6 g).
const VAPOUR: f64 = 12e-3;
/// A can this much colder than the day is felt as cold, K (own figure).
const COLD: f64 = 18.0;

impl Shown {
    /// Looks around in a bay. This is the only place where what is shown meets the bay: what is taken here must be there for everybody to know.
    pub fn of(bay: &Bay) -> Self {
        let (plant, shop) = (bay.plant(), bay.shop());
        let (hands, i, s) = (shop.hands, &shop.instruments, &plant.settings);
        let coupled = [hands.low_coupled, hands.high_coupled];
        let connected = taken_up(bay);
        let weighs = i.scale.reading() + hands.scale_zero - can::TARE;
        let felt = plant.network.node(shop.manifold.can).state.t;
        let left_open = shop.openings.left_open(coupled);
        let blows = shop.openings.blows(&plant.network, coupled) > BLOWS;
        let hisses = shop
            .openings
            .draws(&plant.network, coupled)
            .is_some_and(|(_, kg_s)| kg_s > HISSES);
        let only_air = shop.only_air_since(plant);
        let dials = [i.low.reading(), i.high.reading()];
        // The high-pressure gauge shows no vacuum.
        let risen = coupled[0] && i.low.reading() + plant.day().p > LOST;
        let valves = [hands.low_valve, hands.high_valve];
        let behind = dials.iter().zip(valves).filter(|(_, open)| *open > 0.0);
        Self {
            low: hands.low_coupled.then(|| i.low.reading()),
            high: hands.high_coupled.then(|| i.high.reading()),
            saturation: saturation(bay),
            vent_cold: i.vent.reading() <= VENT_GOAL,
            air: [i.vent.reading(), i.cabin.reading()],
            clamp: hands.clamp.map(|_| i.clamp.reading()),
            vacuum: Some(i.vacuum.reading()).filter(|pa| *pa < VACUUM_MOST),
            day: plant.day(),
            settings: *s,
            sound: Sound::of(bay),
            smells: plant.clutch.smells(),
            found: shop.search.map(|f| f.map(|f| f.found)),
            capped: Joint::ALL.map(|joint| shop.openings.fit(joint) == Fit::Capped),
            noted: shop.noted,
            blower_high: s.blower >= plant.cabin.blower_steps(),
            charge: shop.weighed_in(plant),
            down: shop.shown_down(),
            target: target(bay),
            weighs,
            can_empty: connected.seconds > AT_REST && weighs <= VAPOUR,
            can_cold: felt < plant.day().t - COLD,
            purged: connected.purged >= PURGE,
            left_open,
            blows,
            draws: left_open && (hisses || only_air && !blows),
            vacuum_lost: only_air && risen,
            behind_valves: behind.map(|(p, _)| *p).reduce(f64::max),
            hurt: last(bay, Event::Injury).is_some_and(|at| since(bay, at) < FIRST_AID),
            untouched: bay.log().is_empty(),
            hands,
        }
    }

    /// The can on the hose.
    pub fn can(&self) -> Option<Can> {
        self.hands.attached.can()
    }

    /// A joint is apart with both ends capped.
    pub fn is_capped(&self, joint: Joint) -> bool {
        self.capped[joint as usize]
    }

    /// A can hangs on the hose and has burst.
    pub fn burst(&self) -> bool {
        self.can().is_some_and(|c| c.burst)
    }

    /// The low hand valve is open.
    pub fn low_open(&self) -> bool {
        self.hands.low_valve > 0.0
    }

    /// A pump, machine, cylinder or nitrogen hangs on the hose.
    pub fn tool(&self) -> bool {
        self.hands.attached != Attached::Nothing && self.can().is_none()
    }

    /// The can stands in water that is too hot for it.
    pub fn bath_too_hot(&self) -> bool {
        let bath = self.can().and_then(|c| c.bath);
        bath.is_some_and(|t| t > BATH_LIMIT)
    }

    /// With the engine running, the high side has its way into a can.
    pub fn feeds_can(&self) -> bool {
        let open = self.can().is_some_and(|c| c.open() && !c.burst);
        self.settings.engine_on && self.hands.high_valve > 0.0 && open
    }

    /// A can gives liquid.
    pub fn inverted(&self) -> bool {
        self.can().is_some_and(|c| c.stance == Stance::Inverted)
    }
}

/// Returns the boiling point that the ring of each gauge shows at its pointer, low and high, K. None in a vacuum too deep for it to mean
/// anything, and none where the loop was opened or evacuated and holds air.
pub fn saturation(bay: &Bay) -> [Option<f64>; 2] {
    let (plant, shop) = (bay.plant(), bay.shop());
    let (hands, i) = (&shop.hands, &shop.instruments);
    // As the gauge set's own ring would say, unless all that is shown tells that what stands behind it is no refrigerant.
    let none = shop.shown_without_refrigerant(plant);
    let at = |gauge: f64, coupled: bool| {
        let pa = gauge + plant.day().p;
        (pa > MEANS_NOTHING && !(none && coupled)).then(|| hands.hoses.table().t_sat(pa))
    };
    let low = at(i.low.pointer(), hands.low_coupled);
    let high = at(i.high.pointer(), hands.high_coupled);
    [low, high.filter(|_| i.high.reading() > 0.0)]
}

/// When something happened last.
pub(crate) fn last(bay: &Bay, what: Event) -> Option<Tick> {
    let mut events = bay.events().iter().rev();
    events.find(|(_, e)| *e == what).map(|(t, _)| *t)
}

fn since(bay: &Bay, tick: Tick) -> f64 {
    bay.tick().saturating_sub(tick) as f64 / TICKS_PER_SECOND as f64
}

/// Time since something was last screwed onto the service hose or taken off it, and for how much of it an open can blew it out, s.
struct Connected {
    seconds: f64,
    purged: f64,
}

fn taken_up(bay: &Bay) -> Connected {
    let changes =
        |a: &Action| a.changes_hose() || matches!(a, Action::Hose(HoseAct::GaugeSet { .. }));
    let log = bay.log();
    let Some(at) = log.iter().rposition(|(_, a)| changes(a)) else {
        return Connected {
            seconds: since(bay, 0),
            purged: 0.0,
        };
    };
    let earlier = log[..at].iter().rev().find_map(|(_, a)| match a {
        Action::Hose(HoseAct::Purge { on }) => Some(*on),
        _ => None,
    });
    let (mut tap, mut cracked) = (false, earlier.unwrap_or(false));
    let mut ticks = 0;
    let until = log[at + 1..].iter().map(|(tick, _)| *tick);
    for ((tick, act), until) in log[at..].iter().zip(until.chain([bay.tick()])) {
        match act {
            Action::Hose(HoseAct::Purge { on }) => cracked = *on,
            Action::Vessel(VesselAct::Tap { on }) => tap = *on,
            Action::Vessel(VesselAct::TapScrew { back }) => tap = *back > Ratio::default(),
            // No other act opens or shuts a can's way out.
            _ => {}
        }
        if tap && cracked {
            ticks += until - tick;
        }
    }
    Connected {
        seconds: since(bay, log[at].0),
        purged: ticks as f64 / TICKS_PER_SECOND as f64,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Truth;
    use lowside_session::{Scenario, library};

    /// A parked van with the gauge set off, whose loop and compressor nobody has looked into.
    fn parked(set: &[&str]) -> Bay {
        let mut all = vec!["engine.on=false".to_owned()];
        all.extend(set.iter().map(|s| (*s).to_owned()));
        let text = library::scenario("healthy").expect("shipped");
        let mut scenario = Scenario::parse(text, &all).expect("sound");
        scenario.act.clear();
        let mut bay = Bay::new(&scenario);
        for act in [
            HoseAct::LowCoupler { on: false },
            HoseAct::HighCoupler { on: false },
        ] {
            bay.apply(act).expect("it comes off");
        }
        bay
    }

    #[test]
    fn what_nobody_has_looked_into_is_not_shown_and_is_the_truth() {
        let sound = parked(&[]);
        let (shown, truth) = (Shown::of(&sound), Truth::of(&sound));
        for set in [
            &["condition.compressor_wear=30%"][..],
            &["condition.clutch_hold=40%", "condition.radiator=50%"],
            &["condition.blend_leak=40%"],
            &["condition.orifice_open=20%"],
        ] {
            let other = parked(set);
            assert_eq!(Shown::of(&other), shown, "{set:?}");
            assert_ne!(Truth::of(&other).faults, truth.faults, "{set:?}");
        }
    }

    #[test]
    fn a_gauge_tells_only_what_it_hangs_on() {
        let mut bay = parked(&[]);
        assert_eq!([Shown::of(&bay).low, Shown::of(&bay).high], [None; 2]);
        assert!(Truth::of(&bay).high > 400e3, "at rest on a summer's day");
        bay.apply(HoseAct::HighCoupler { on: true }).expect("on");
        for _ in 0..10 * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
        let (shown, truth) = (Shown::of(&bay), Truth::of(&bay));
        let (dial, true_p) = (shown.high.expect("connected"), truth.high);
        assert!((dial - true_p).abs() < 30e3, "{dial} against {true_p}");
        assert_eq!(shown.low, None);
    }
}
