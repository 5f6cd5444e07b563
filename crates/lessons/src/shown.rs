//! What a person in the bay is shown. The advice goes by this alone, so that it cannot know what nobody there knows.

use lowside_session::{Action, Bay, Event, HoseAct, TICKS_PER_SECOND, Tick, VesselAct};
use lowside_shop::{
    Attached, Hands,
    can::{self, Can, Stance},
};
use lowside_units::Ratio;

use crate::target::{VENT_GOAL, target};

/// Instruments that are connected, settings, hands, what was weighed, and what is seen and heard. SI units.
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
    /// Engine runs.
    pub engine: bool,
    /// A/C button pressed.
    pub ac: bool,
    /// Blower at its highest.
    pub blower_high: bool,
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
    /// Looks around in a bay. This is the only place where advice meets the bay: what is taken here must be there for everybody to see.
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
            engine: s.engine_on,
            ac: s.ac_on,
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
        bath.is_some_and(|t| t > can::BATH_LIMIT)
    }

    /// With the engine running, the high side has its way into a can.
    pub fn feeds_can(&self) -> bool {
        let open = self.can().is_some_and(|c| c.open() && !c.burst);
        self.engine && self.hands.high_valve > 0.0 && open
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
