//! What is asked before an act that can hurt: it needs a second, deliberate press, with what the gauges show before it.
//!
//! The question goes by what is shown, as the advice does. A loop counts as empty only if that was seen: both gauges connected and down, or
//! stayed down before they came off, or something open that does not blow.

use lowside_lessons::{Caution, Shown, cautions};
use lowside_session::{Action, Bay, BenchAct, HoseAct, VehicleAct, VesselAct};
use lowside_shop::{Attached, can::Can, joints::Fit, parts::Part, weighed::NO_PRESSURE};
use lowside_units::{
    GaugePressure, Mass,
    display::{self, UnitSystem},
};

use crate::{Shown as Text, tools::Refrigerant};

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The caution of the act.
    pub caution: Caution,
    /// The gas it speaks of.
    pub gas: Refrigerant,
    /// Low and high gauge; none where its coupler is off.
    pub gauges: [Option<Text>; 2],
    /// One of them shows pressure.
    pub pressure: bool,
    /// What is left in the open can that is to come off, by the scale.
    pub can: Option<Text>,
}

/// What is to be asked before an act; nothing where it does no harm by what is shown, or would be refused.
pub fn question(bay: &Bay, action: Action, units: UnitSystem) -> Option<Question> {
    let now = Shown::of(bay);
    let caution = peril(bay, &now, action)?;
    let text = |pa: f64| display::gauge_pressure(GaugePressure::from_pa(pa), units);
    Some(Question {
        caution,
        gas: cautions::gas(bay, action),
        gauges: [now.low.map(text), now.high.map(text)],
        pressure: shows_pressure(&now),
        can: open_can(&now).map(|_| display::mass(Mass::from_kg(now.weighs.max(0.0)), units)),
    })
}

fn peril(bay: &Bay, now: &Shown, action: Action) -> Option<Caution> {
    let caution = risk(bay, now, action)?;
    let mut after = bay.clone();
    after.apply(action).ok()?;
    let at_once = matches!(
        caution,
        Caution::OpensUnderPressure | Caution::Venting | Caution::OpenHose
    );
    let begins = at_once || {
        let holds = |s: &Shown| match caution {
            Caution::BathTooHot => s.bath_too_hot(),
            _ => s.feeds_can(),
        };
        !holds(now) && holds(&Shown::of(&after))
    };
    begins.then_some(caution)
}

/// Returns what an act may do to people: give a can heat or pressure, let gas out or air in, or open the loop to the room.
fn risk(bay: &Bay, now: &Shown, action: Action) -> Option<Caution> {
    if action.changes_hose() {
        return frees(now, action);
    }
    match action {
        Action::Vehicle(act) => {
            (act == VehicleAct::Engine { on: true }).then_some(Caution::HighValveRunning)
        }
        Action::Hose(act) => match act {
            HoseAct::HighValve { .. } => Some(Caution::HighValveRunning),
            HoseAct::GaugeSet { .. }
            | HoseAct::LowCoupler { .. }
            | HoseAct::LowPort { .. }
            | HoseAct::HighCoupler { .. }
            | HoseAct::LowValve { .. }
            | HoseAct::Purge { .. }
            | HoseAct::Disconnect => None,
        },
        Action::Vessel(act) => match act {
            VesselAct::Bath { .. } => Some(Caution::BathTooHot),
            VesselAct::Tap { on: true } | VesselAct::TapScrew { .. } => {
                Some(Caution::HighValveRunning)
            }
            VesselAct::TakeCan
            | VesselAct::TakeCanOf { .. }
            | VesselAct::TakeSelfSealingCan
            | VesselAct::DropCan
            | VesselAct::Tap { on: false }
            | VesselAct::Invert { .. }
            | VesselAct::TakeCylinder { .. }
            | VesselAct::Dose { .. }
            | VesselAct::TakeNitrogen
            | VesselAct::Regulator { .. } => None,
        },
        Action::Bench(act) => {
            (opens(bay, act) && !shown_empty(now)).then_some(Caution::OpensUnderPressure)
        }
        // They neither heat a can nor open anything to the room.
        Action::Machine(_) | Action::Instrument(_) | Action::Record(_) => None,
    }
}

/// Returns whether an act leaves the service hose open to the room.
fn leaves_open(action: Action) -> bool {
    matches!(
        action,
        Action::Vessel(VesselAct::DropCan) | Action::Hose(HoseAct::Disconnect)
    )
}

/// Returns what gets out, or in, as the service hose comes off.
fn frees(s: &Shown, action: Action) -> Option<Caution> {
    if s.hands.attached == Attached::Nothing {
        return None;
    }
    let pressure = s.behind_valves.is_some_and(|p| p > NO_PRESSURE);
    if pressure || open_can(s).is_some() {
        return Some(Caution::Venting);
    }
    // A vacuum behind an open hand valve draws the room's air in.
    let vacuum = s.behind_valves.is_some_and(|p| p < -NO_PRESSURE);
    (leaves_open(action) && vacuum).then_some(Caution::OpenHose)
}

/// Returns a pierced can without a valve of its own that its tap does not shut: it empties itself into the room as it comes off.
fn open_can(s: &Shown) -> Option<Can> {
    s.can().filter(|c| c.open() && !c.self_sealing && !c.burst)
}

/// Returns whether an act opens the loop to the room.
fn opens(bay: &Bay, act: BenchAct) -> bool {
    let fit = |j| bay.shop().openings.fit(j);
    match act {
        BenchAct::OpenJoint { .. }
        | BenchAct::ValveCore { fitted: false, .. }
        | BenchAct::ConvertPort { .. }
        | BenchAct::FitCutOut { .. }
        | BenchAct::RenewSeals => true,
        // Caps come off with it.
        BenchAct::RemovePart { part } => Part::joints(part).iter().any(|j| fit(*j) == Fit::Capped),
        BenchAct::CapJoint { .. }
        | BenchAct::CloseJoint { .. }
        | BenchAct::RefitPart { .. }
        | BenchAct::NewPart { .. }
        | BenchAct::FitOrifice { .. }
        | BenchAct::DrainPart { .. }
        | BenchAct::FlushPart { .. }
        | BenchAct::PourOil { .. }
        | BenchAct::InjectOil { .. }
        | BenchAct::PortCap { .. }
        | BenchAct::ValveCore { fitted: true, .. }
        | BenchAct::SwitchScrew { .. } => false,
    }
}

/// Everybody can see that nothing is behind what is to be opened.
fn shown_empty(s: &Shown) -> bool {
    !shows_pressure(s) && (s.down || s.left_open && !s.blows && !s.hurt)
}

fn shows_pressure(s: &Shown) -> bool {
    [s.low, s.high].iter().flatten().any(|p| *p > NO_PRESSURE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{TICKS_PER_SECOND, acts};
    use lowside_shop::joints::{Joint, Seal, Side};
    use lowside_units::{Ratio, Temperature};

    fn pass(bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
    }

    fn asked(bay: &Bay, action: impl Into<Action>) -> Option<Question> {
        question(bay, action.into(), UnitSystem::US)
    }

    const JOINT: Joint = Joint::EvaporatorOut;
    const OPEN: BenchAct = BenchAct::OpenJoint { joint: JOINT };

    #[test]
    fn whatever_opens_a_loop_under_pressure_is_asked_about_with_the_gauges_figures() {
        let mut bay = bay("healthy");
        assert!(asked(&bay, OPEN).is_some(), "needles that still rise");
        pass(&mut bay, 30);
        let q = asked(&bay, OPEN).expect("asked");
        assert_eq!(q.caution, Caution::OpensUnderPressure);
        let shown = crate::readout::Readout::of(&bay, UnitSystem::US);
        assert_eq!(q.gauges, [Some(shown.low), Some(shown.high)]);
        assert!(q.pressure);
        assert!(asked(&bay, BenchAct::RenewSeals).is_some());
        // A core under its coupler is refused, not asked about.
        let core = BenchAct::ValveCore {
            side: Side::Low,
            fitted: false,
        };
        assert_eq!(asked(&bay, core), None);
        bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
        let q = asked(&bay, core).expect("asked");
        assert!(q.gauges[0].is_none() && q.gauges[1].is_some());
        bay.apply(HoseAct::HighCoupler { on: false }).unwrap();
        let q = asked(&bay, OPEN).expect("asked");
        assert_eq!(q.gauges, [None, None], "nobody knows");
        assert!(!q.pressure);
        // Nothing happened by asking.
        assert_eq!(bay.shop().openings.fit(JOINT), Fit::Untouched);
        bay.apply(OPEN).unwrap();
        assert_eq!(asked(&bay, OPEN), None, "it is apart already");
        let again = BenchAct::OpenJoint {
            joint: Joint::CondenserIn,
        };
        pass(&mut bay, 2);
        assert!(asked(&bay, again).is_some(), "it still blows");
        pass(&mut bay, 900);
        assert_eq!(asked(&bay, again), None, "it has blown off for all to see");
    }

    #[test]
    fn fittings_and_the_cut_out_of_a_conversion_are_asked_about() {
        let mut bay = bay("before-retrofit");
        pass(&mut bay, 5);
        bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
        bay.apply(HoseAct::HighCoupler { on: false }).unwrap();
        let kit = crate::retrofit::switches(&bay, UnitSystem::US).kit.0;
        for act in acts![
            BenchAct::ConvertPort {
                side: Side::Low,
                new_core: true,
            },
            BenchAct::ConvertPort {
                side: Side::High,
                new_core: false,
            },
            BenchAct::FitCutOut { opens: kit },
        ] {
            let q = asked(&bay, act).expect("asked");
            assert_eq!(q.caution, Caution::OpensUnderPressure, "{act:?}");
        }
    }

    #[test]
    fn what_was_seen_to_be_empty_is_opened_without_a_question() {
        let mut bay = bay("charge-from-cans");
        pass(&mut bay, 5);
        assert_eq!(asked(&bay, OPEN), None, "both gauges stand in a vacuum");
        for act in acts![
            HoseAct::LowCoupler { on: false },
            HoseAct::HighCoupler { on: false },
        ] {
            bay.apply(act).unwrap();
        }
        pass(&mut bay, 5);
        assert_eq!(asked(&bay, OPEN), None, "and did until they came off");
        // What is let in, nobody has seen the end of.
        let mut filled = bay.clone();
        for act in acts![
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            HoseAct::LowCoupler { on: true },
            HoseAct::LowValve {
                open: Ratio::from_fraction(1.0),
            },
        ] {
            filled.apply(act).unwrap();
        }
        pass(&mut filled, 1);
        filled.apply(HoseAct::LowCoupler { on: false }).unwrap();
        assert!(asked(&filled, OPEN).is_some(), "a can was let in");
        bay.apply(OPEN).unwrap();
        let other = BenchAct::OpenJoint {
            joint: Joint::AccumulatorOut,
        };
        pass(&mut bay, 120);
        assert_eq!(asked(&bay, other), None);
    }

    #[test]
    fn one_gauge_shows_one_side_and_caps_hide_what_is_behind_them() {
        let mut bay = bay("healthy");
        bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
        bay.apply(OPEN).unwrap();
        pass(&mut bay, 900);
        let other = Joint::AccumulatorOut;
        bay.apply(BenchAct::OpenJoint { joint: other }).unwrap();
        for joint in [JOINT, other] {
            bay.apply(BenchAct::CapJoint { joint }).unwrap();
        }
        let part = Part::Accumulator;
        assert!(asked(&bay, BenchAct::RemovePart { part }).is_some());
        let seal = Seal::NewOiled;
        let close = BenchAct::CloseJoint { joint: JOINT, seal };
        assert_eq!(asked(&bay, close), None);
        assert!(asked(&bay, OPEN).is_some());
    }

    #[test]
    fn the_high_valve_into_a_can_is_asked_about_by_whichever_act_completes_it() {
        let [valve, tap, engine] = acts![
            HoseAct::HighValve {
                open: Ratio::from_fraction(0.3),
            },
            VesselAct::Tap { on: true },
            VehicleAct::Engine { on: true },
        ];
        for order in [
            [valve, tap, engine],
            [engine, valve, tap],
            [tap, engine, valve],
        ] {
            let mut bay = bay("healthy");
            for act in acts![VehicleAct::Engine { on: false }, VesselAct::TakeCan] {
                bay.apply(act).unwrap();
            }
            let [first, second, last] = order;
            for act in [first, second] {
                assert_eq!(asked(&bay, act), None, "{act:?} of {order:?}");
                bay.apply(act).unwrap();
            }
            let q = asked(&bay, last).expect("asked");
            assert_eq!(q.caution, Caution::HighValveRunning, "{order:?}");
            bay.apply(last).unwrap();
            let wider = HoseAct::HighValve {
                open: Ratio::from_fraction(0.9),
            };
            assert_eq!(asked(&bay, wider), None, "asked once");
        }
    }

    /// 52 degC (125 degF) is the limit printed on small cans (common practice).
    #[test]
    fn water_too_hot_for_a_can_is_asked_about_once() {
        let mut bay = bay("healthy");
        let bath = |c| VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(c)),
        };
        assert_eq!(asked(&bay, bath(70.0)), None, "there is no can");
        bay.apply(VesselAct::TakeCan).unwrap();
        assert_eq!(asked(&bay, bath(51.0)), None);
        let q = asked(&bay, bath(53.0)).expect("asked");
        assert_eq!(q.caution, Caution::BathTooHot);
        bay.apply(bath(53.0)).unwrap();
        assert_eq!(asked(&bay, bath(70.0)), None, "it is hot already");
    }

    /// What hangs on an open hose is shut off before it comes off (common practice): else can or loop blow into the room.
    #[test]
    fn what_comes_off_the_hose_open_is_asked_about_with_the_figures() {
        let off = acts![VesselAct::TakeCan, VesselAct::DropCan, HoseAct::Disconnect];
        let open = Ratio::from_fraction(1.0);
        let mut bay = bay("healthy");
        pass(&mut bay, 10);
        for act in off {
            assert_eq!(asked(&bay, act), None, "nothing hangs on the hose");
        }
        bay.apply(VesselAct::TakeCan).unwrap();
        pass(&mut bay, 5);
        for act in off {
            assert_eq!(asked(&bay, act), None, "a can that was never pierced");
        }
        let mut tap = bay.clone();
        tap.apply(VesselAct::Tap { on: true }).unwrap();
        pass(&mut tap, 5);
        for act in off {
            let q = asked(&tap, act).expect("asked");
            assert_eq!(q.caution, Caution::Venting, "{act:?}");
            let left = q.can.expect("the scale shows it");
            // A small can holds 12 oz.
            assert_eq!((left.number.as_str(), left.unit), ("12.0", "oz"));
            let mut done = tap.clone();
            done.apply(act).unwrap();
            let vented = lowside_lessons::toll(&lowside_lessons::Truth::of(&done))
                .into_iter()
                .find_map(|(_, c)| match c {
                    lowside_lessons::Cost::Vented(kg) => Some(kg),
                    _ => None,
                });
            assert!(vented.is_some_and(|kg| kg > 0.3), "{vented:?}");
        }
        tap.apply(VesselAct::Tap { on: false }).unwrap();
        assert_eq!(asked(&tap, VesselAct::TakeCan), None);
        // A hand valve leads from the loop to the end of the hose.
        let mut valve = bay.clone();
        valve.apply(HoseAct::LowValve { open }).unwrap();
        pass(&mut valve, 5);
        for act in off {
            let q = asked(&valve, act).expect("asked");
            assert_eq!((q.caution, q.can), (Caution::Venting, None), "{act:?}");
            assert!(q.gauges[0].is_some() && q.pressure);
        }
        // A can with a valve of its own shuts as the tap leaves it.
        let mut own = bay.clone();
        for act in acts![VesselAct::TakeSelfSealingCan, VesselAct::Tap { on: true }] {
            own.apply(act).unwrap();
        }
        assert_eq!(asked(&own, VesselAct::DropCan), None);
        // What hangs there turns, and is refused.
        let mut empty = self::bay("charge-from-cans");
        pass(&mut empty, 5);
        for act in acts![VesselAct::TakeCan, HoseAct::LowValve { open }] {
            empty.apply(act).unwrap();
        }
        let q = asked(&empty, HoseAct::Disconnect).expect("asked");
        assert_eq!(q.caution, Caution::OpenHose, "air would run in");
        assert_eq!(
            asked(&empty, VesselAct::TakeCan),
            None,
            "another takes its place"
        );
    }
}
