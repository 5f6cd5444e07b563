//! Every word of the page in one place, ready to be translated. Short, plain, in the trade's terms.
use lowside_present::{Place, history::MarkKind, levels::Levels, next::NextStep, readout::Readout};
use lowside_session::{Caution, Event};

pub(crate) use labels::*;

mod labels;

pub(crate) mod charts;

pub(crate) const TAGLINE: &str = "A service bay for learning car A/C";
pub(crate) const EVACUATED: &str = "Evacuated van";
pub(crate) const HEALTHY: &str = "Healthy van, running";
pub(crate) const FOOTER: &str = "A simulator to practise in. It gives no licence: on a real vehicle follow the maker's data and local code; \
     service for pay needs certification, and refrigerant is recovered, never vented.";
pub(crate) const STANDING: &str =
    "Real vehicles: follow the maker's data and local code; service for pay needs certification.";
pub(crate) const STORAGE_DENIED: &str =
    "This browser keeps nothing for this page, so a reload starts over. Everything else works.";
pub(crate) const RESUMING: &str = "Taking up where you left off";
/// The last visit could not be taken up: why.
pub(crate) fn resume_broken(why: &str) -> String {
    format!("The last visit could not be taken up again: {why}")
}

pub(crate) const RESUME_ONCE: &str =
    "The last visit ended while it was being taken up, so the bay starts anew.";

/// The next step: what to do, and why.
#[expect(clippy::too_many_lines, reason = "a list of sentences")]
pub(crate) fn next(step: NextStep, given: &str, label: &str) -> (String, &'static str) {
    let (what, why) = match step {
        NextStep::BurstCan => (
            "The can has burst: shut the valves and take it off",
            "What was in it is in the room now.",
        ),
        NextStep::ShutHighValve => (
            "Shut the high-side valve",
            "With the engine running, discharge gas falls through it into the can.",
        ),
        NextStep::ShutOpenHose => (
            "Shut the low-side valve: the yellow hose is open to the room",
            "Air flows into an empty loop, refrigerant out of a full one.",
        ),
        NextStep::PutLowCoupler => (
            "Put the low-side coupler back on its port",
            "The can feeds the loop through the blue hose.",
        ),
        NextStep::TakeCan => (
            "Screw a can onto the yellow service hose",
            "The loop is under vacuum and wants vapour.",
        ),
        NextStep::OpenTap => (
            "Open the can's tap",
            "Its pressure then stands in the yellow hose, still shut off from the loop.",
        ),
        NextStep::Purge => (
            "Purge the yellow hose until the air is out",
            "Air in the hose would go into the loop and never condense.",
        ),
        NextStep::StopPurge => (
            "The air is out: tighten the hose again",
            "From here on only refrigerant is lost.",
        ),
        NextStep::StartEngine => (
            "Start the engine",
            "The compressor will make the low side lower than the can.",
        ),
        NextStep::AcOn => (
            "Switch the A/C on",
            "The clutch can pull in once the low side has pressure.",
        ),
        NextStep::BlowerHigh => (
            "Set the blower to high",
            "Warm air over the evaporator keeps the load up while charging.",
        ),
        NextStep::OpenLowValve => (
            "Open the low-side valve",
            "The can stands higher than the low side, so vapour runs down into it.",
        ),
        NextStep::WatchCharging => (
            "Vapour is flowing: watch can, clutch and gauges",
            "The clutch short-cycles on the low switch until enough is in.",
        ),
        NextStep::WarmCan => (
            "The can has gone cold and slow: stand it in warm water",
            "Boiling cools it, its level sinks to the low side's. Water up to 52 \u{b0}C (125 \u{b0}F).",
        ),
        NextStep::CoolBath => (
            "The water is too hot for a can: cool it below 52 \u{b0}C (125 \u{b0}F)",
            "The level in the can climbs towards its burst mark.",
        ),
        NextStep::TurnUpright => (
            "Turn the can upright",
            "Liquid into a running suction can break the compressor.",
        ),
        NextStep::CanEmptyShut => (
            "The can is empty: shut the low-side valve",
            "Then nothing flows back while you change cans.",
        ),
        NextStep::CanEmptySwap => (
            "Take a fresh can",
            "The label asks for more than this one held.",
        ),
        NextStep::ChargedShut => (
            "shut the low-side valve and let it settle",
            "The label's charge is in, as near as cans allow.",
        ),
        NextStep::Overcharged => (
            "too much: shut the low-side valve",
            "Watch the high side: liquid stacks up in the condenser.",
        ),
        NextStep::TooMuch => (
            "More is in than the label says: watch the high side, then start over",
            "Only a recovery machine takes it out again, and this bay has none yet.",
        ),
        NextStep::Settle => (
            "Charged and shut: let it settle",
            "Cycling slows, pressures settle, the vent falls below 10 \u{b0}C (50 \u{b0}F).",
        ),
        NextStep::ShutTap => (
            "The vent is cold. Shut the can's tap",
            "The job's goal is reached; now pack up.",
        ),
        NextStep::TakeLowCoupler => (
            "Take the low-side coupler off",
            "Its core shuts as it comes off.",
        ),
        NextStep::TakeHighCoupler => (
            "Take the high-side coupler off",
            "At rest its hose no longer holds hot discharge gas.",
        ),
        NextStep::AllWell => (
            "Nothing needs doing: this is what right looks like",
            "Try a valve, a can too many, a hotter day, a slower engine, and watch the levels.",
        ),
        NextStep::Done => (
            "Done: the vent is cold and the charge is in. Try what one can or six would have done",
            "Start over at the top, or go on and see.",
        ),
    };
    let what = match step {
        NextStep::ChargedShut | NextStep::Overcharged => {
            format!("{given} of {label} given: {what}")
        }
        _ => what.to_owned(),
    };
    (what, why)
}

/// A caution: title and text.
pub(crate) fn caution(c: Caution) -> (&'static str, &'static str) {
    match c {
        Caution::HighValveRunning => (
            "High-side valve open with the engine running",
            "Discharge pressure goes straight into the can. A small can bursts at about 270 psi (1860 kPa). Never do this on a vehicle.",
        ),
        Caution::BathTooHot => (
            "Water above 52 \u{b0}C (125 \u{b0}F)",
            "A can is not made for the pressure that its contents reach in hotter water. No flame, no kettle.",
        ),
        Caution::LiquidToSuction => (
            "Liquid into a running suction",
            "A turned-over can gives liquid. A compressor cannot compress liquid: valves and pistons break.",
        ),
        Caution::BeltAndFan => (
            "Belt and fan turn",
            "Keep hoses, sleeves and fingers away; the electric fan can start by itself. Vent the exhaust outdoors.",
        ),
        Caution::EyesAndHands => (
            "Eyes and hands",
            "Escaping liquid boils at \u{2212}26 \u{b0}C (\u{2212}15 \u{b0}F) and freezes skin and eyes. Goggles and gloves on, good air in the room.",
        ),
        Caution::Venting => (
            "That lets refrigerant into the room",
            "Venting is forbidden and harms the climate. Shut the tap before the can comes off.",
        ),
        Caution::OpenHose => (
            "The yellow hose is open to the room",
            "An open valve now connects the loop with the air: it takes air and moisture in, or lets refrigerant out.",
        ),
        // The session may learn of more.
        #[expect(
            unreachable_patterns,
            reason = "cautions yet to come are shown in general words"
        )]
        _ => (
            "Take care",
            "This act can harm people, the vehicle or the climate.",
        ),
    }
}

/// An event.
pub(crate) fn event(e: Event) -> &'static str {
    match e {
        Event::ClutchIn => "Clutch pulled in",
        Event::LowSwitchOpened => "Low switch let the clutch go",
        Event::CutOutOpened => "High-pressure cut-out opened: the clutch lets go",
        Event::ReliefLifted => "Relief valve lifted: refrigerant blows into the room",
        Event::ReliefSeated => "Relief valve seated again",
        Event::CanBurst => "The can has burst",
        Event::CanEmpty => "The can is empty: no liquid is left in it",
        Event::LiquidAtCompressor => "Liquid reaches the compressor",
        Event::LiquidGone => "The suction is dry again",
        Event::CompressorHurt => "The compressor has suffered lasting wear",
        #[expect(
            unreachable_patterns,
            reason = "events yet to come are shown in general words"
        )]
        _ => "Something happened",
    }
}

/// A place of the ledger.
pub(crate) fn place(p: Place) -> &'static str {
    match p {
        Place::DischargeLine => "Discharge line",
        Place::Condenser => "Condenser",
        Place::LiquidLine => "Liquid line",
        Place::Evaporator => "Evaporator",
        Place::Accumulator => "Accumulator",
        Place::SuctionLine => "Suction, compressor",
        Place::Hoses => "Hoses",
        Place::Can => "Can",
        Place::Shelf => "Used cans",
        Place::Room => "Room (lost)",
        #[expect(
            unreachable_patterns,
            reason = "places yet to come are shown in general words"
        )]
        _ => "Elsewhere",
    }
}

/// A mark on the strip chart.
pub(crate) fn mark(kind: MarkKind) -> String {
    match kind {
        MarkKind::Can(n) => format!("can {n}"),
        MarkKind::CanEmpty => "empty".into(),
        MarkKind::EngineOn => "engine".into(),
        MarkKind::EngineOff => "engine off".into(),
        MarkKind::Burst => "burst".into(),
        MarkKind::CutOut => "cut-out".into(),
        MarkKind::Relief => "relief".into(),
    }
}

/// The drawing of levels in words.
pub(crate) fn levels(r: &Readout, l: &Levels) -> String {
    let middle = &l.high[l.high.len() / 2];
    let high = if middle.height > l.outside.height + 0.01 {
        "above the line of the outside air, shedding heat"
    } else {
        "not above the line of the outside air"
    };
    let low = if l.accumulator.height < l.cabin.height - 0.01 {
        "below the line of the cabin air"
    } else {
        "not below the line of the cabin air"
    };
    let compressor = if r.clutch {
        "The compressor lifts gas from the low shelf to the high one"
    } else {
        "The compressor rests"
    };
    let can = l.can.as_ref().map_or_else(
        || "No can is on the service hose".to_owned(),
        |c| {
            let flow = if l.tap.flow > 0.02 {
                "and gives"
            } else if l.tap.flow < -0.02 {
                "and is being filled"
            } else {
                "and gives nothing"
            };
            let part = if c.block.height > l.accumulator.height {
                "above"
            } else {
                "at or below"
            };
            format!(
                "Can {} at {} stands {part} the low shelf {flow}",
                c.number, c.shown.spoken
            )
        },
    );
    format!(
        "Levels by pressure. High shelf: gauge {}, {high}. Low shelf: gauge {}, {low}. {compressor}. {can}.",
        r.high.spoken, r.low.spoken
    )
}

/// Saturation temperature beside a gauge.
pub(crate) fn boils_at(t: &str) -> String {
    format!("boils at {t}")
}

/// Saturation temperature beside the high gauge.
pub(crate) fn condenses_at(t: &str) -> String {
    format!("condenses at {t}")
}
