//! Which message is said for what. The words themselves stand in the Fluent files of `crates/words`.
use lowside_lessons::{
    Caution, Job, Loosened, Text,
    link::{LARGEST, LONGEST, LinkError},
    next::{Advice, Harm, NextStep},
};
use lowside_present::{
    Place,
    ahead::Ahead,
    ask::Question,
    caution,
    history::{GaugePlace, MarkKind},
    levels::{Levels, Tool},
    readout::Readout,
    tools::Refrigerant,
};
use lowside_session::{Action, Event, NoSample, Refused, TICKS_PER_SECOND, TakeError, size, take};
use lowside_units::UnitError;

use crate::later;

pub(crate) use help::*;
pub(crate) use labels::*;
pub(crate) use lowside_words::*;
pub(crate) use time::*;
pub(crate) use work::*;

mod help;
mod labels;
mod time;
mod work;

pub(crate) mod charts;

/// What is advised, and why.
pub(crate) fn advice(
    advice: Advice,
    job: Option<&Job>,
    given: &str,
    label: &str,
) -> (String, String) {
    let card = |i: usize| job.and_then(|job| job.card.step.get(i));
    match advice {
        Advice::Step(step) => next_step(step, given, label),
        Advice::Card(i) => card(i).map_or_else(Default::default, |step| {
            (told(&step.title), told(&step.reason))
        }),
        Advice::Spoilt => (next_spoilt().to_owned(), next_spoilt_why().to_owned()),
        Advice::SignOff => (next_sign_off().to_owned(), next_sign_off_why().to_owned()),
    }
}

/// What is off, by its key in the words.
pub(crate) fn loosened_key(what: Loosened) -> &'static str {
    match what {
        Loosened::Battery => "battery",
        Loosened::Belt => "belt",
        Loosened::Bolts(_) => "bolts",
        Loosened::Bridge => "bridge",
        Loosened::Plug(lead) => lead.key(),
    }
}

/// A card's text in the language of the page.
pub(crate) fn told(text: &Text) -> String {
    match current() {
        Language::Spanish => text.es.clone(),
        _ => text.en.clone(),
    }
}

/// The next step: what to do, and why.
pub(crate) fn next_step(step: NextStep, given: &str, label: &str) -> (String, String) {
    let (what, why) = match step {
        NextStep::StopEngine => (next_stop_engine(), next_stop_engine_why()),
        NextStep::BurstCan(_) => (next_burst_can(), next_burst_can_why()),
        NextStep::KeepAway => (next_keep_away(), next_keep_away_why()),
        NextStep::AirDrawnIn => (next_air_drawn_in(), next_air_drawn_in_why()),
        NextStep::VacuumLost => (next_vacuum_lost(), next_vacuum_lost_why()),
        NextStep::CapEnds => (next_cap_ends(), next_cap_ends_why()),
        NextStep::UnknownCharge => (next_unknown_charge(), next_unknown_charge_why()),
        NextStep::ShutHighValve => (next_shut_high_valve(), next_shut_high_valve_why()),
        NextStep::ShutOpenHose => (next_shut_open_hose(), next_shut_open_hose_why()),
        NextStep::PutLowCoupler => (next_put_low_coupler(), next_put_low_coupler_why()),
        NextStep::TakeCan => {
            return (next_take_can().to_owned(), next_take_can_why(given, label));
        }
        NextStep::PutBack(what) => {
            let why = next_put_back_why().to_owned();
            return (next_put_back(loosened(loosened_key(what))), why);
        }
        NextStep::TurnHub => (next_turn_hub(), next_turn_hub_why()),
        NextStep::WorkTool => (next_work_tool(), next_work_tool_why()),
        NextStep::OpenTap => (next_open_tap(), next_open_tap_why()),
        NextStep::Purge => (next_purge(), next_purge_why()),
        NextStep::StopPurge => (next_stop_purge(), next_stop_purge_why()),
        NextStep::StartEngine => (next_start_engine(), next_start_engine_why()),
        NextStep::AcOn => (next_ac_on(), next_ac_on_why()),
        NextStep::BlowerHigh => (next_blower_high(), next_blower_high_why()),
        NextStep::OpenLowValve => (next_open_low_valve(), next_open_low_valve_why()),
        NextStep::WatchCharging => (next_watch_charging(), next_watch_charging_why()),
        NextStep::WarmCan => (next_warm_can(), next_warm_can_why()),
        NextStep::CoolBath => (next_cool_bath(), next_cool_bath_why()),
        NextStep::TurnUpright => (next_turn_upright(), next_turn_upright_why()),
        NextStep::CanEmptyShut => (next_can_empty_shut(), next_can_empty_shut_why()),
        NextStep::CanEmptyTap => (next_can_empty_tap(), next_can_empty_tap_why()),
        NextStep::CanEmptySwap => (next_can_empty_swap(), next_can_empty_swap_why()),
        NextStep::ChargedShut => {
            return (
                next_charged_shut(given, label),
                next_charged_shut_why().to_owned(),
            );
        }
        NextStep::Overcharged => {
            return (
                next_overcharged(given, label),
                next_overcharged_why().to_owned(),
            );
        }
        NextStep::TooMuch => {
            return (next_too_much(given, label), next_too_much_why().to_owned());
        }
        NextStep::Settle => (next_settle(), next_settle_why()),
        NextStep::ShutTap => (next_shut_tap(), next_shut_tap_why()),
        NextStep::TakeLowCoupler => (next_take_low_coupler(), next_take_low_coupler_why()),
        NextStep::EngineOff => (next_engine_off(), next_engine_off_why()),
        NextStep::TakeHighCoupler => (next_take_high_coupler(), next_take_high_coupler_why()),
        NextStep::Done => (next_done(), next_done_why()),
        NextStep::TryHotter => (next_try_hotter(), next_try_hotter_why()),
        NextStep::Free => (next_free(), next_free_why()),
    };
    (what.to_owned(), why.to_owned())
}

/// A caution: title and text, of the gas it has to do with.
pub(crate) fn caution_text(c: Caution, gas: Refrigerant) -> (&'static str, String) {
    let (title, text) = match c {
        Caution::HighValveRunning => (caution_high_valve(), caution_high_valve_text()),
        Caution::BathTooHot => (caution_bath(), caution_bath_text()),
        Caution::LiquidToSuction => (caution_liquid(), caution_liquid_text()),
        Caution::BeltAndFan => (caution_belt(), caution_belt_text()),
        Caution::EyesAndHands => {
            let [celsius, fahrenheit] = caution::boils(gas);
            let text = caution_eyes_text(gas, celsius, fahrenheit);
            return (caution_eyes(), with_fire(text, gas));
        }
        Caution::OtherGas => (caution_other_gas(), caution_other_gas_text()),
        Caution::Venting => (caution_venting(), caution_venting_text()),
        Caution::OpenHose => (caution_open_hose(), caution_open_hose_text()),
        Caution::PressureToPump => (caution_pressure_to_pump(), caution_pressure_to_pump_text()),
        Caution::PumpStopsOpen => (caution_pump_stops_open(), caution_pump_stops_open_text()),
        Caution::HotOil => (caution_hot_oil(), caution_hot_oil_text()),
        Caution::RecoveryCylinder => (
            caution_recovery_cylinder(),
            caution_recovery_cylinder_text(),
        ),
        Caution::OpensUnderPressure => (
            caution_opens_under_pressure(),
            caution_opens_under_pressure_text(),
        ),
        Caution::Nitrogen => (caution_nitrogen(), caution_nitrogen_text()),
        Caution::CapAtOnce => (caution_cap_at_once(), caution_cap_at_once_text()),
        Caution::Solvent => (caution_solvent(), caution_solvent_text()),
        Caution::Oil => (caution_oil(), caution_oil_text()),
        Caution::SwitchBridged => (caution_switch_bridged(), caution_switch_bridged_text()),
        Caution::HandsAtBelt => (caution_hands_at_belt(), caution_hands_at_belt_text()),
        Caution::LiquidInCompressor => (
            caution_liquid_in_compressor(),
            caution_liquid_in_compressor_text(),
        ),
    };
    let escapes = matches!(
        c,
        Caution::Venting | Caution::OpenHose | Caution::OpensUnderPressure
    );
    let text = text.to_owned();
    let text = if escapes { with_fire(text, gas) } else { text };
    (title, text)
}

/// A text, and that the gas burns if it does.
fn with_fire(text: String, gas: Refrigerant) -> String {
    if gas.data().safety.burns() {
        text + " " + &caution_burns(gas)
    } else {
        text
    }
}

/// Harm to people: title, by what was worn, and first aid.
pub(crate) fn harm_text(harm: Harm) -> (&'static str, &'static str) {
    let title = match harm {
        Harm::Injury(worn) => match (worn.goggles, worn.gloves) {
            (false, false) => harm_bare(),
            (true, false) => harm_goggles(),
            (false, true) => harm_gloves(),
            (true, true) => harm_protected(),
        },
        Harm::Burst => return (harm_burst(), harm_burst_text()),
    };
    (title, first_aid())
}

/// What comes at once after a harm, in its order.
pub(crate) fn emergency() -> [&'static str; 3] {
    [emergency_engine(), emergency_shut(), emergency_away()]
}

/// What of goggles and gloves is missing; nothing where nothing is.
pub(crate) fn missing(missing: [bool; 2]) -> Option<&'static str> {
    match missing {
        [false, false] => None,
        [true, false] => Some(missing_goggles()),
        [false, true] => Some(missing_gloves()),
        [true, true] => Some(missing_both()),
    }
}

/// What a copy of the bay comes to after an act.
pub(crate) fn ahead(a: &Ahead) -> String {
    let mut what = Vec::new();
    if a.hurt {
        what.push(ahead_hurt().to_owned());
    }
    if a.burst {
        what.push(ahead_burst().to_owned());
    }
    if let Some([pressure, mass]) = &a.can {
        what.push(ahead_can(pressure, mass));
    }
    if let Some(mass) = &a.lost {
        what.push(ahead_lost(mass));
    }
    if let Some(mass) = &a.air {
        what.push(ahead_air(mass));
    }
    if what.is_empty() {
        ahead_nothing(&a.after)
    } else {
        ask_ahead(&a.after, what.join(", "))
    }
}

/// A question before an act: title, what the gauges show, and the caution.
pub(crate) fn question_text(q: &Question) -> (&'static str, Option<String>, String) {
    let (title, text) = caution_text(q.caution, q.gas);
    let shows = |gauge: &Option<_>| {
        gauge
            .as_ref()
            .map_or_else(|| ask_off().to_owned(), ToString::to_string)
    };
    let gauges = match &q.gauges {
        [None, None] => ask_nobody().to_owned(),
        [low, high] => ask_gauges(shows(low), shows(high)),
    };
    let gauges = match &q.can {
        Some(mass) => gauges + " " + &ask_can(mass),
        None => gauges,
    };
    match (q.caution, q.pressure) {
        (Caution::OpensUnderPressure, true) => (ask_open(), Some(gauges), text),
        (Caution::OpensUnderPressure, false) => (ask_unknown(), Some(gauges), text),
        (Caution::BathTooHot, _) => (title, None, text),
        _ => (title, Some(gauges), text),
    }
}

/// An event.
pub(crate) fn event(e: Event) -> String {
    match e {
        Event::AirDrawnIn(at) => {
            let place = later::hands().map(|l| (l.place)(at));
            return event_air_drawn_in(place.unwrap_or_default());
        }
        Event::AirByTheHose => event_air_by_hose(),
        Event::ClutchBurnt => event_clutch_burnt(),
        Event::ClutchIn => event_clutch_in(),
        Event::LowSwitchOpened => event_low_switch(),
        Event::CutOutOpened => event_cut_out(),
        Event::EngineTooHot => event_engine_too_hot(),
        Event::GaugeRed => event_gauge_red(),
        Event::CoolantBoils => event_coolant_boils(),
        Event::EngineStalled => event_engine_stalled(),
        Event::ClutchSmells => event_clutch_smells(),
        Event::CompressorSeized => event_compressor_seized(),
        Event::LetOut => event_let_out(),
        Event::HoseBurst => event_hose_burst(),
        Event::ReliefLifted => event_relief_lifted(),
        Event::ReliefSeated => event_relief_seated(),
        Event::CanBurst => event_can_burst(),
        Event::CanEmpty => event_can_empty(),
        Event::LiquidAtCompressor => event_liquid(),
        Event::LiquidGone => event_liquid_gone(),
        Event::CompressorHurt => event_compressor_hurt(),
        Event::PumpOilBlown => event_pump_oil_blown(),
        Event::Injury => event_injury(),
        Event::Dosed => event_dosed(),
        Event::MachineAtVacuum => event_machine_at_vacuum(),
        Event::CylinderFull => event_cylinder_full(),
    }
    .to_owned()
}

/// A place of the ledger.
pub(crate) fn place(p: Place) -> &'static str {
    match p {
        Place::DischargeLine => place_discharge_line(),
        Place::Condenser => place_condenser(),
        Place::LiquidLine => place_liquid_line(),
        Place::Evaporator => place_evaporator(),
        Place::Accumulator => place_accumulator(),
        Place::SuctionLine => place_suction_line(),
        Place::Hoses => place_hoses(),
        Place::Can => place_can(),
        Place::Shelf => place_shelf(),
        Place::Room => place_room(),
        Place::Cylinder => place_cylinder(),
        Place::RecoveryCylinder => place_recovery_cylinder(),
        Place::Separator => place_separator(),
        Place::Bench => place_bench(),
        Place::Waste => place_waste(),
        Place::Lost => place_lost(),
    }
}

/// A mark on the strip chart.
pub(crate) fn mark(kind: MarkKind) -> String {
    match kind {
        MarkKind::Can(n) => return mark_can(n),
        MarkKind::CanEmpty => mark_empty(),
        MarkKind::EngineOn => mark_engine_on(),
        MarkKind::EngineOff => mark_engine_off(),
        MarkKind::Burst => mark_burst(),
        MarkKind::CutOut => mark_cut_out(),
        MarkKind::Relief => mark_relief(),
        MarkKind::HoseBurst => mark_hose_burst(),
        MarkKind::PumpOn => mark_pump_on(),
        MarkKind::PumpOff => mark_pump_off(),
        MarkKind::Gauge(GaugePlace::Loop) => mark_gauge_loop(),
        MarkKind::Gauge(GaugePlace::Pump) => mark_gauge_pump(),
    }
    .to_owned()
}

/// Why an act was refused.
pub(crate) fn refused_why(why: &Refused) -> String {
    match why {
        Refused::Halted { place } => refused_halted(halted_at(place)),
        Refused::NoCan => refused_no_can().to_owned(),
        Refused::NoPump => refused_no_pump().to_owned(),
        Refused::PumpRuns => refused_pump_runs().to_owned(),
        Refused::CanBurst => refused_can_burst().to_owned(),
        Refused::NoMixture(apart) => refused_mixture(apart.other, apart.gas),
        Refused::Identifier(NoSample::NoCoupler { .. }) => refused_no_coupler().to_owned(),
        Refused::Identifier(NoSample::NoPressure { .. }) => refused_no_pressure().to_owned(),
        Refused::Identifier(NoSample::Busy { .. }) => refused_identifier_busy().to_owned(),
        Refused::OutOfRange(UnitError::OutOfRange {
            field,
            value,
            lo,
            hi,
        }) => refused_range(field, value, lo, hi),
        Refused::OutOfRange(UnitError::Character { field, found }) => {
            refused_character(field, found)
        }
        Refused::NothingAttached => refused_nothing_attached().to_owned(),
        Refused::NoCylinder => refused_no_cylinder().to_owned(),
        Refused::NoMachine => refused_no_machine().to_owned(),
        Refused::NoNitrogen => refused_no_nitrogen().to_owned(),
        Refused::WrongFitting { fitting, hose } => refused_wrong_fitting(fitting, hose),
        Refused::WrongPort { hose, port } => refused_wrong_port(hose, port),
        Refused::SetInHand(gas) => refused_set_in_hand(gas),
        Refused::HoseTaken => refused_hose_taken().to_owned(),
        Refused::OnePort => refused_one_port().to_owned(),
        Refused::FittingLocked { fitting } => refused_fitting_locked(fitting),
        Refused::CutOutFitted => refused_cut_out_fitted().to_owned(),
        Refused::ScrewAtEnd => refused_screw_at_end().to_owned(),
        Refused::CylinderFull => refused_cylinder_full().to_owned(),
        Refused::JointMade(_) => refused_joint_made().to_owned(),
        Refused::JointApart(_) => refused_joint_apart().to_owned(),
        Refused::PartOut(_) => refused_part_out().to_owned(),
        Refused::PartIn(_) => refused_part_in().to_owned(),
        Refused::NoRoom(_) => refused_no_room().to_owned(),
        Refused::NotFlushed(_) => refused_not_flushed().to_owned(),
        Refused::NotCoupled => refused_not_coupled().to_owned(),
        Refused::Coupled => refused_coupled().to_owned(),
        Refused::CapOn => refused_cap_on().to_owned(),
        Refused::CylinderTooEmpty { asked_g, held_g } => {
            refused_cylinder_empty(format!("{asked_g:.0}"), format!("{held_g:.0}"))
        }
        Refused::EngineRuns => refused_engine_runs().to_owned(),
        Refused::BatteryOff => refused_battery_off().to_owned(),
        Refused::Unbolted(_) => refused_unbolted().to_owned(),
        Refused::BeltOn => refused_belt_on().to_owned(),
        Refused::WrongTool { joint, .. } => refused_wrong_tool(if joint.has_spring_lock() {
            "spring"
        } else {
            "nut"
        }),
        Refused::Busy { left } => refused_busy(format!("{left:.0}")),
        Refused::NotConnected(meter) => refused_not_connected(meter_name(meter.name())),
        Refused::ByHand(id) => refused_by_hand(fault(id.key()).unwrap_or_default()),
        Refused::NoReading { asked, taken } => refused_no_reading(asked, taken),
        // The session may learn of more.
        other => other.to_string(),
    }
}

/// A part of a take.
fn take_part_of(part: take::Part) -> String {
    use take::Part;
    let number = match part {
        Part::Act(index) => index + 1,
        _ => 0,
    };
    let name = match part {
        Part::Act(_) => "act",
        Part::Whole => "log",
        part => part.key(),
    };
    take_part(name, number)
}

/// Why a link could not be opened.
pub(crate) fn link_why(why: &LinkError) -> String {
    match why {
        LinkError::TooLong(length) => link_length(length, LONGEST),
        LinkError::Damaged => link_damaged().to_owned(),
        LinkError::TooLarge => link_large(size(LARGEST)),
        LinkError::Version(version) => link_version(version),
        LinkError::Unknown(name) => link_unknown(name),
        LinkError::Take(why) => take_why(why),
    }
}

/// Why a take could not be taken up.
pub(crate) fn take_why(why: &TakeError) -> String {
    match why {
        TakeError::TooLarge {
            part: take::Part::Whole,
            most,
        } => take_too_large(size(*most)),
        TakeError::TooLarge { part, most } => take_part_too_large(take_part_of(*part), size(*most)),
        TakeError::Empty => take_empty().to_owned(),
        TakeError::CutShort => take_cut_short().to_owned(),
        TakeError::Form {
            part: take::Part::Whole,
            ..
        } => take_not_one().to_owned(),
        TakeError::Form { part, .. } => take_part_broken(take_part_of(*part)),
        TakeError::Format(format) => take_format(format, take::FORMAT),
        TakeError::Scenario(UnitError::Character { field, found }) => {
            take_value(refused_character(field, found))
        }
        // A field goes by its name in the format; what stands behind it in brackets is English.
        TakeError::Scenario(UnitError::OutOfRange {
            field,
            value,
            lo,
            hi,
        }) => {
            let field = field.split(" (").next().unwrap_or_default();
            take_value(refused_range(field, value, lo, hi))
        }
        TakeError::Scenario(_) => take_part_broken(take_part_of(take::Part::Scenario)),
        TakeError::Range {
            part: take::Part::Log,
            value,
            most,
        } => take_many_acts(value, most),
        TakeError::Range {
            part: part @ take::Part::Act(_),
            ..
        } => take_out_of_order(take_part_of(*part)),
        TakeError::Range { .. } => take_too_long(take::LONGEST / TICKS_PER_SECOND / 3600),
        TakeError::Seal { .. } => take_seal().to_owned(),
        TakeError::Act { index, why } => take_act(index + 1, refused_why(why)),
        TakeError::Halted { why, .. } => halted(&why.place),
        TakeError::Differs { .. } => take_differs().to_owned(),
    }
}

/// The bay stands still: where.
pub(crate) fn halted(place: &str) -> String {
    bay_halted(halted_at(place))
}

/// A place where the bay came to a halt.
fn halted_at(place: &str) -> &str {
    halt_place(&place.replace(' ', "-")).unwrap_or(place)
}

/// Most acts that are named of those left out.
const NAMED: usize = 3;

/// That a bay was recorded under another physics, and the acts that were left out of it.
pub(crate) fn other_physics(skipped: &[Action]) -> String {
    let mut text = resume_unknown().to_owned();
    if !skipped.is_empty() {
        let names: Vec<String> = skipped.iter().take(NAMED).map(|a| act(*a)).collect();
        let more = if skipped.len() > NAMED { ", …" } else { "" };
        text.push(' ');
        text += &resume_skipped(skipped.len(), names.join(", ") + more);
    }
    text
}

/// What hangs on the service hose and is no can: its name, and that it hangs there.
pub(crate) fn hangs(tool: Option<Tool>) -> [&'static str; 2] {
    match tool {
        None => [no_can(), levels_no_can()],
        Some(Tool::Pump) => [hangs_pump(), hangs_pump_spoken()],
        Some(Tool::Cylinder) => [hangs_cylinder(), hangs_cylinder_spoken()],
        Some(Tool::Nitrogen) => [hangs_nitrogen(), hangs_nitrogen_spoken()],
        Some(Tool::Machine) => [hangs_machine(), hangs_machine_spoken()],
    }
}

/// The drawing of levels in words.
pub(crate) fn levels_text(r: &Readout, l: &Levels) -> String {
    let middle = &l.condenser_cells[l.condenser_cells.len() / 2];
    let side = |above: bool| if above { "above" } else { "below" };
    let can = l.can.as_ref().map_or_else(
        || hangs(l.tool)[1].to_owned(),
        |c| {
            let flow = if l.tap.flow > 0.02 {
                "gives"
            } else if l.tap.flow < -0.02 {
                "takes"
            } else {
                "rests"
            };
            let place = side(c.block.height > l.accumulator.height);
            levels_can(c.number, spoken(&c.shown), place, flow)
        },
    );
    levels_spoken(
        spoken(&r.high),
        side(middle.height > l.outside.height + 0.01),
        spoken(&r.low),
        side(l.accumulator.height >= l.cabin.height - 0.01),
        if r.clutch { "in" } else { "out" },
        can,
    )
}
