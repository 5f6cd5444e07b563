//! What a person in the bay can know: by the instruments that are connected, by eyes, ears, nose and hands. Advice and questions go by this
//! alone, so that they cannot know what nobody there knows; the rest is [`Truth`](crate::Truth).

use lowside_fluids::Refrigerant;
use lowside_plant::{
    controls::Settings,
    loose::{Lead, Plug},
    plant::{Day, Plant},
};
use lowside_session::{
    Action, Bay, Entered, Event, HoseAct, Shares, TICKS_PER_SECOND, Tick, VesselAct,
};
use lowside_shop::{
    Attached, Hands,
    can::{self, Can, Stance},
    cylinder,
    detect::{SPOTS, Spot},
    joints::{JOINTS, Joint, LowPort, Port},
    label::Label,
    meters::{self, Glass},
    oil::RHO_OIL,
    parts::{PARTS, Part},
    protection::Worn,
    record::Readings,
    vacuum::MICRON,
};
use lowside_units::{Quantity, Ratio};

use crate::{
    caution::BATH_LIMIT,
    senses::{self, Feel, Noticed, SURFACES, Surface},
    sound::Sound,
    target::{VENT_GOAL, target},
};

/// Instruments that are connected, settings, hands, what was weighed, searched and noted, and what is seen, heard, felt and smelt. SI units.
#[derive(Debug, Clone, PartialEq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a thing of its own that is seen or not"
)]
pub struct Shown<'a> {
    /// Bay time.
    pub tick: Tick,
    /// Everything that hands have done.
    pub log: &'a [Entered],
    /// Everything that was noticed to happen.
    pub noticed: Noticed<'a>,
    /// Compound gauge, Pa gauge; none while its coupler is off: it shows its hose.
    pub low: Option<f64>,
    /// High-pressure gauge, likewise.
    pub high: Option<f64>,
    /// Readings of both dials, low and high, Pa gauge, coupled or not.
    pub dials: [f64; 2],
    /// Where their pointers stand, not rounded.
    pub pointers: [f64; 2],
    /// Boiling point that the ring of each gauge shows at its pointer, low and high, K: see [`saturation`].
    pub saturation: [Option<f64>; 2],
    /// The thermometer in the vent is down to what the job asks for.
    pub vent_cold: bool,
    /// What stands in the vent and in the cabin is read as, K.
    pub air: [f64; 2],
    /// The same, not rounded.
    pub air_pointers: [f64; 2],
    /// Clamp thermometer, K; none while it is nowhere.
    pub clamp: Option<f64>,
    /// Electronic vacuum gauge, Pa absolute; none above its range.
    pub vacuum: Option<f64>,
    /// The same, not rounded.
    pub vacuum_pointer: Option<f64>,
    /// Air at the centre vent by the anemometer, m/s, and relative humidity in the bay, 0 to 1.
    pub anemometer: f64,
    /// See [`anemometer`](Self::anemometer).
    pub hygrometer: f64,
    /// Volts and amperes at the clutch, while the meter is connected.
    pub clutch_meter: Option<(f64, f64)>,
    /// Clutch hub and pulley, 1/min.
    pub turning: [f64; 2],
    /// The stopwatch, s.
    pub stopwatch: f64,
    /// What the manifold's sight glass shows.
    pub glass: Glass,
    /// Time to the identifier's result, s; none when no sample is being worked on.
    pub sampling: Option<f64>,
    /// Its last result.
    pub sample: Option<Shares>,
    /// The day as thermometer, hygrometer and barometer give it.
    pub day: Day,
    /// The vehicle's controls, and what hands have done beside them.
    pub settings: Settings,
    /// Blower at its highest.
    pub blower_high: bool,
    /// Its highest step.
    pub blower_most: usize,
    /// What is heard.
    pub sound: Sound,
    /// The clutch is pulled in.
    pub clutch: bool,
    /// Whether low-pressure switch and cut-out conduct, by a meter at their pins; none while the plug is on.
    pub contacts: [Option<bool>; 2],
    /// Time for which hands still turn the hub, s.
    pub by_hand: f64,
    /// The clutch slips and smells.
    pub smells: bool,
    /// How each surface within reach feels and what clings to it, in the order of [`Surface::ALL`].
    pub surfaces: [Option<Feel>; SURFACES],
    /// Places with a stain of oil, in the order of [`Spot::all`].
    pub stained: [bool; SPOTS],
    /// Condensate drips from the evaporator's case.
    pub drips: bool,
    /// The relief valve blows.
    pub relief: bool,
    /// The last search of each place, in the order of [`Spot::all`].
    pub searched: [Option<Searched>; SPOTS],
    /// Dye was put into the loop.
    pub dye: bool,
    /// Readings that were written down before and after the work.
    pub noted: [Option<Readings>; 2],
    /// The performance test.
    pub test: TestSheet,
    /// Couplers, valves, and what hangs on the service hose.
    pub hands: Hands,
    /// Each joint, in the order of [`Joint::ALL`].
    pub joints: [JointLook; JOINTS],
    /// Each part, in the order of [`Part::ALL`].
    pub parts: [PartLook; PARTS],
    /// The low-side port that hands work at and the high-side port.
    pub ports: [Port; 2],
    /// Where that low-side port sits, if the vehicle has two.
    pub low_port: Option<LowPort>,
    /// Every cap is on its port.
    pub caps_on: bool,
    /// The pump's glass: its oil is below the mark.
    pub pump_oil_low: bool,
    /// The pump's glass: its oil is milky with water.
    pub pump_oil_milky: bool,
    /// What was weighed and measured.
    pub weighed: Weighed,
    /// What is in the loop by weight, kg; none where that is not known.
    pub charge: Option<f64>,
    /// Both gauges are down, or stayed down before they came off and nothing was let in since.
    pub down: bool,
    /// What it is to hold by its label, kg.
    pub target: f64,
    /// What is printed on the vehicle and its parts.
    pub printed: Printed,
    /// The new label.
    pub label: Option<Label>,
    /// How long the last hold under vacuum took, s.
    pub hold: Option<f64>,
    /// Injuries so far.
    pub injuries: u32,
    /// What whoever works there wears.
    pub worn: Worn,
    /// The scale's display, kg.
    pub scale: f64,
    /// What the scale shows of what the can or cylinder on it holds, kg.
    pub weighs: f64,
    /// Share of what the recovery cylinder may hold that is in it, by its scale.
    pub cylinder_full: f64,
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

mod looks;

use looks::by_scale;
pub use looks::{JointLook, PartLook, Printed, Searched, TestSheet, Weighed};

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
/// Share of its full effect from which water in the pump's oil is seen (own figure).
const MILKY: f64 = 0.5;
/// Share of what the evaporator's fins hold from which they drip.
const DRIPS: f64 = 0.98;

impl<'a> Shown<'a> {
    /// Looks around in a bay. This is the only place where what is shown meets the bay: what is taken here must be there for everybody to know.
    pub fn of(bay: &'a Bay) -> Self {
        let (plant, shop) = (bay.plant(), bay.shop());
        let (hands, i, s) = (shop.hands, &shop.instruments, &plant.settings);
        let noticed = Noticed::of(bay);
        let coupled = [hands.low_coupled, hands.high_coupled];
        let connected = taken_up(bay);
        let weighs = i.scale.reading() + hands.scale_zero - tare(&hands.attached);
        let vessel = Surface::Vessel.temperature(plant, shop);
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
        let fins = plant.vehicle.evaporator.held_water.si();
        Self {
            tick: bay.tick(),
            log: bay.log(),
            noticed,
            low: hands.low_coupled.then(|| i.low.reading()),
            high: hands.high_coupled.then(|| i.high.reading()),
            dials,
            pointers: [i.low.pointer(), i.high.pointer()],
            saturation: saturation(bay),
            vent_cold: i.vent.reading() <= VENT_GOAL,
            air: [i.vent.reading(), i.cabin.reading()],
            air_pointers: [i.vent.pointer(), i.cabin.pointer()],
            clamp: hands.clamp.map(|_| i.clamp.reading()),
            vacuum: Some(i.vacuum.reading()).filter(|pa| *pa < VACUUM_MOST),
            vacuum_pointer: (!i.vacuum.over_range()).then(|| i.vacuum.pointer()),
            anemometer: meters::vent_speed(plant),
            hygrometer: meters::humidity(plant),
            clutch_meter: hands.clutch_meter.then(|| meters::clutch(plant)),
            turning: meters::turning(plant),
            stopwatch: i.stopwatch,
            glass: meters::sight_glass(plant, &shop.manifold),
            sampling: shop.identifier.left(),
            sample: shop.identifier.result(),
            day: plant.day(),
            settings: *s,
            sound: Sound::of(bay),
            clutch: plant.drive.engaged,
            contacts: contacts(plant),
            by_hand: plant.turning_by_hand(),
            smells: plant.clutch.smells(),
            surfaces: senses::surfaces(bay),
            stained: shop.stained(plant),
            drips: plant.evaporator.held >= DRIPS * fins,
            relief: plant.relief.lifted,
            searched: shop.search.map(|f| f.as_ref().map(Searched::from)),
            dye: shop.dye,
            noted: shop.noted,
            test: TestSheet::of(bay),
            blower_high: s.blower >= plant.cabin.blower_steps(),
            blower_most: plant.cabin.blower_steps(),
            joints: Joint::ALL.map(|joint| JointLook::of(shop, joint)),
            parts: Part::ALL.map(|part| PartLook::of(bay, part)),
            ports: shop.openings.ports,
            low_port: shop
                .openings
                .other_low_port()
                .map(|_| shop.openings.low_tap()),
            caps_on: shop.openings.all_ports().all(|p| p.cap),
            pump_oil_low: shop.pump_oil.low(),
            pump_oil_milky: shop.pump_oil.wetness() > MILKY,
            weighed: Weighed::of(bay),
            charge: shop.weighed_in(plant).map(|kg| by_scale(shop, kg)),
            down: shop.shown_down(),
            target: target(bay),
            printed: Printed::of(bay),
            label: shop.label,
            hold: shop.holds.last.map(|hold| hold.seconds),
            injuries: shop.injuries,
            worn: shop.worn,
            scale: i.scale.reading(),
            weighs,
            cylinder_full: weighs / cylinder::limit(shop.station.gas.table()),
            can_empty: connected.seconds > AT_REST && weighs <= VAPOUR,
            can_cold: vessel.is_some_and(|t| t < plant.day().t - COLD),
            purged: connected.purged >= PURGE,
            left_open,
            blows,
            draws: left_open && (hisses || only_air && !blows),
            vacuum_lost: only_air && risen,
            behind_valves: behind.map(|(p, _)| *p).reduce(f64::max),
            hurt: noticed
                .last(Event::Injury)
                .is_some_and(|at| since(bay, at) < FIRST_AID),
            untouched: bay.log().is_empty(),
            hands,
        }
    }

    /// Bay time, s.
    pub fn seconds(&self) -> f64 {
        self.tick as f64 / TICKS_PER_SECOND as f64
    }

    /// How a surface feels and what clings to it; none where there is none.
    pub fn surface(&self, surface: Surface) -> Option<Feel> {
        self.surfaces[surface as usize]
    }

    /// How a joint looks.
    pub fn joint(&self, joint: Joint) -> JointLook {
        self.joints[joint as usize]
    }

    /// What is known of a part.
    pub fn part(&self, part: Part) -> &PartLook {
        &self.parts[part as usize]
    }

    /// Joints that still hold a part.
    pub fn held_by(&self, part: Part) -> impl Iterator<Item = Joint> {
        let apart = |j: Joint| matches!(self.joint(j), JointLook::Open | JointLook::Capped);
        part.joints().iter().copied().filter(move |j| !apart(*j))
    }

    /// What the last search at a place showed; none where there was none.
    pub fn found(&self, spot: Spot) -> Option<bool> {
        self.searched[spot.index()].map(|s| s.found)
    }

    /// Oil measured out, m3.
    pub fn oil_out(&self) -> f64 {
        self.weighed.oil_out / RHO_OIL
    }

    /// Oil put in, m3.
    pub fn oil_in(&self) -> f64 {
        self.weighed.oil_in / RHO_OIL
    }

    /// The gas that the vehicle's fittings say it is being converted to, if it is.
    pub fn converted_to(&self) -> Option<Refrigerant> {
        let fittings = self.ports.iter().map(|port| port.fitting);
        fittings
            .into_iter()
            .find(|gas| *gas != self.printed.built_for)
    }

    /// The can on the hose.
    pub fn can(&self) -> Option<Can> {
        self.hands.attached.can()
    }

    /// A joint is apart with both ends capped.
    pub fn is_capped(&self, joint: Joint) -> bool {
        self.joint(joint) == JointLook::Capped
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

/// Whether each pressure switch conducts, at its pins: with its plug off, a meter tells.
fn contacts(plant: &Plant) -> [Option<bool>; 2] {
    let drive = &plant.drive;
    let bare = |lead| plant.settings.loose.plug(lead) != Plug::On;
    [
        bare(Lead::LowSwitch).then_some(drive.cycling.closed),
        bare(Lead::CutOut).then_some(drive.cut_out.closed),
    ]
}

/// Weight of an empty vessel, kg.
fn tare(attached: &Attached) -> f64 {
    match attached {
        Attached::Cylinder(_) => cylinder::CHARGING_TARE,
        Attached::Machine(_) => cylinder::RECOVERY_TARE,
        Attached::Can(_) | Attached::Nothing | Attached::Nitrogen(_) | Attached::Pump(_) => {
            can::TARE
        }
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
