//! Tools, parts and joints by their names, and what is seen in them.
use lowside_present::{
    Shown, UnitSystem,
    bench::{
        Joint, JointTool, Lead, Loosened, Much, OilKind, Part, Plug, Seal, Side, Sight, Standing,
    },
    record::{Breach, Line},
    toll::{Severity, Told},
    tools::{Device, Glass, Point, Protection, PumpOilLook, Site, Spot, Tool, Tools},
};
use lowside_session::{
    library,
    predicate::{Predicate, Reading, Test},
};
use lowside_units::{
    AbsolutePressure, GaugePressure, Mass, Quantity, Ratio, Temperature, Volume, display,
};
use lowside_words as say;

use super::labels;
use crate::host;

/// What can be taken.
pub(crate) fn tool(tool: Tool, tools: &Tools, units: UnitSystem) -> String {
    match tool {
        Tool::Can => say::tool_can().to_owned(),
        Tool::SelfSealingCan => say::tool_self_sealing().to_owned(),
        Tool::OtherCan => say::tool_other_can(tools.other_gas.unwrap_or_default()),
        Tool::Machine => say::tool_machine().to_owned(),
        Tool::Pump { .. } => {
            say::tool_pump(tool.size(units).map_or_else(String::new, |s| s.to_string()))
        }
        Tool::Cylinder => say::tool_cylinder().to_owned(),
        Tool::Nitrogen => say::tool_nitrogen().to_owned(),
    }
}

pub(crate) fn pump_oil_look(oil: PumpOilLook) -> &'static str {
    match oil {
        PumpOilLook::Clear => say::pump_oil_clear(),
        PumpOilLook::Milky => say::pump_oil_milky(),
        PumpOilLook::Low => say::pump_oil_low(),
    }
}

pub(crate) fn part(p: Part) -> &'static str {
    match p {
        Part::Compressor => say::piece_compressor(),
        Part::DischargeHose => say::piece_discharge_hose(),
        Part::Condenser => say::piece_condenser(),
        Part::LiquidLine => say::piece_liquid_line(),
        Part::Orifice => say::piece_orifice(),
        Part::Evaporator => say::piece_evaporator(),
        Part::Accumulator => say::piece_accumulator(),
        Part::SuctionHose => say::piece_suction_hose(),
        Part::ReliefValve => say::piece_relief_valve(),
    }
}

pub(crate) fn joint_name(j: Joint) -> String {
    let (from, to) = match j {
        Joint::CompressorOut => (Part::Compressor, Part::DischargeHose),
        Joint::CondenserIn => (Part::DischargeHose, Part::Condenser),
        Joint::CondenserOut => (Part::Condenser, Part::LiquidLine),
        Joint::EvaporatorIn => (Part::LiquidLine, Part::Evaporator),
        Joint::EvaporatorOut => (Part::Evaporator, Part::Accumulator),
        Joint::AccumulatorOut => (Part::Accumulator, Part::SuctionHose),
        Joint::CompressorIn => (Part::SuctionHose, Part::Compressor),
        Joint::ReliefThread => (Part::DischargeHose, Part::ReliefValve),
    };
    say::joint(host::lower(part(from)), host::lower(part(to)))
}

pub(crate) fn port_name(side: Side) -> &'static str {
    match side {
        Side::Low => say::port_low(),
        Side::High => say::port_high(),
    }
}

pub(crate) fn spot_name(spot: Spot) -> String {
    let site = match spot {
        Spot::Joint(joint) => return joint_name(joint),
        Spot::Site(site) => site,
    };
    match site {
        Site::ShaftSeal => say::shaft_seal(),
        Site::DischargeHose => part(Part::DischargeHose),
        Site::CondenserTop => point(Point::CondenserIn),
        Site::CondenserBottom => point(Point::CondenserOut),
        Site::LiquidLine => part(Part::LiquidLine),
        Site::EvaporatorInlet => point(Point::EvaporatorIn),
        Site::EvaporatorOutlet => point(Point::EvaporatorOut),
        Site::Accumulator => part(Part::Accumulator),
        Site::SuctionHose => part(Part::SuctionHose),
        Site::LowPort => say::port_low(),
        Site::HighPort => say::port_high(),
        Site::ReliefValve => part(Part::ReliefValve),
    }
    .to_owned()
}

pub(crate) fn point(p: Point) -> &'static str {
    match p {
        Point::Discharge => say::point_discharge(),
        Point::CondenserIn => say::point_condenser_in(),
        Point::CondenserMiddle => say::point_condenser_middle(),
        Point::CondenserOut => say::point_condenser_out(),
        Point::LiquidLine => say::point_liquid_line(),
        Point::EvaporatorIn => say::point_evaporator_in(),
        Point::EvaporatorOut => say::point_evaporator_out(),
        Point::Accumulator => say::point_accumulator(),
        Point::Suction => say::point_suction(),
        Point::RadiatorHose => say::point_radiator_hose(),
    }
}

pub(crate) fn mend(device: Device) -> &'static str {
    match device {
        Device::BlendDoor => say::mend_blend_door(),
        Device::Radiator => say::mend_radiator(),
        Device::CyclingSwitch => say::mend_cycling_switch(),
        Device::CutOut => say::mend_cut_out(),
        Device::ClutchCircuit => say::mend_clutch_circuit(),
        Device::Fan => say::mend_fan(),
        Device::HoodSeals => say::mend_hood_seals(),
        Device::RecirculationDoor => say::mend_recirculation_door(),
        Device::CompoundGauge => say::mend_compound_gauge(),
        Device::HighGauge => say::mend_high_gauge(),
        Device::LowCoupler => say::mend_low_coupler(),
        Device::HighCoupler => say::mend_high_coupler(),
    }
}

pub(crate) fn glass(g: Glass) -> &'static str {
    match g {
        Glass::Clear => say::glass_clear(),
        Glass::Wet => say::glass_wet(),
        Glass::Bubbles => say::glass_bubbles(),
        Glass::Liquid => say::glass_liquid(),
    }
}

pub(crate) fn seal(s: Seal) -> &'static str {
    match s {
        Seal::NewOiled => say::seal_new_oiled(),
        Seal::NewDry => say::seal_new_dry(),
        Seal::OldOiled => say::seal_old_oiled(),
        Seal::OldDry => say::seal_old_dry(),
        Seal::Missing => say::seal_missing(),
    }
}

/// Oils go by designation but for two.
pub(crate) fn oil_name(kind: OilKind) -> &'static str {
    match kind {
        OilKind::Pag46 => "PAG 46",
        OilKind::Pag100 => "PAG 100",
        OilKind::Pag150 => "PAG 150",
        OilKind::Ester => say::oil_ester(),
        OilKind::Mineral => say::oil_mineral(),
    }
}

/// What a goal or a harm asks for.
pub(crate) fn condition(c: Predicate, units: UnitSystem) -> String {
    let gauge = |si| display::gauge_pressure(GaugePressure::from_si(si), units);
    let vacuum = |si| display::vacuum(AbsolutePressure::from_si(si), units);
    let mass = |si| display::small_mass(Mass::from_si(si), units);
    let volume = |si| display::volume(Volume::from_si(si), units);
    let temperature = |si| display::temperature(Temperature::from_si(si), units);
    let ratio = |si| display::ratio(Ratio::from_si(si));
    let year = |si| mass(si * 365.25 * 86_400.0);
    let answers = [say::no(), say::yes()];
    let on = labels::engine_states();
    let machine = machine_states();
    let coupler = labels::coupler_states();
    let valve = labels::tap_states();
    let (name, show, states): (_, &dyn Fn(f64) -> Shown, _) = match c.reading {
        Reading::Low => (say::low_side(), &gauge, answers),
        Reading::High => (say::high_side(), &gauge, answers),
        Reading::LowSwitch => (say::reading_low_switch(), &gauge, answers),
        Reading::Vacuum => (say::vacuum_gauge(), &vacuum, answers),
        Reading::Vent => (say::vent(), &temperature, answers),
        Reading::Cabin => (say::cabin_t(), &temperature, answers),
        Reading::Clamp => (say::act_clamp(), &temperature, answers),
        Reading::CanLiquid => (say::reading_can_liquid(), &mass, answers),
        Reading::Charge => (say::reading_charge(), &mass, answers),
        Reading::Air => (say::reading_air(), &mass, answers),
        Reading::Water => (say::reading_water(), &mass, answers),
        Reading::DesiccantWater => (say::reading_desiccant_water(), &mass, answers),
        Reading::Oil => (say::reading_oil(), &mass, answers),
        Reading::OilVolume => (say::reading_oil(), &volume, answers),
        Reading::Vented => (say::record_vented(), &mass, answers),
        Reading::Recovered => (say::recovered(), &mass, answers),
        Reading::Scale => (say::scale(), &mass, answers),
        Reading::SealsLeak => (say::reading_seals_leak(), &year, answers),
        Reading::Leaks => (say::reading_leaks(), &year, answers),
        Reading::LooseBeads => (say::reading_loose_beads(), &mass, answers),
        Reading::SuctionLiquid => (say::reading_suction_liquid(), &ratio, answers),
        Reading::R12 => (say::reading_r12(), &ratio, answers),
        Reading::Purity => (say::reading_purity(), &ratio, answers),
        Reading::Wear => (say::reading_wear(), &ratio, answers),
        Reading::MineralOil => (say::reading_mineral_oil(), &ratio, answers),
        Reading::Engine => (say::engine(), &ratio, on),
        Reading::AirConditioning => (say::ac(), &ratio, on),
        Reading::Pump => (say::act_pump(), &ratio, machine),
        Reading::Machine => (say::act_machine(), &ratio, machine),
        Reading::Clutch => (say::clutch(), &ratio, labels::in_out()),
        Reading::LowCoupler => (say::low_coupler(), &ratio, coupler),
        Reading::HighCoupler => (say::high_coupler(), &ratio, coupler),
        Reading::LowValve => (say::low_valve(), &ratio, valve),
        Reading::HighValve => (say::high_valve(), &ratio, valve),
        Reading::Hurt => (say::reading_hurt(), &ratio, answers),
        Reading::Caps => (say::state_caps(), &ratio, answers),
        Reading::LoopOpen => (say::reading_loop_open(), &ratio, answers),
        Reading::LeakFound => (say::reading_leak_found(), &ratio, answers),
        Reading::RepairsCleared => (say::reading_repairs_cleared(), &ratio, answers),
        Reading::ColdAtOrifice => (say::reading_cold_at_orifice(), &ratio, answers),
        Reading::LetOut => (say::reading_let_out(), &ratio, answers),
        Reading::Label => (say::new_label(), &ratio, answers),
        Reading::NewFittings => (say::reading_new_fittings(), &ratio, answers),
        Reading::CutOut => (say::cut_out(), &ratio, answers),
        Reading::NewSeals => (say::reading_new_seals(), &ratio, answers),
        Reading::NewAccumulator => (say::reading_new_accumulator(), &ratio, answers),
        Reading::ConversionInOrder => (say::reading_in_order(), &ratio, answers),
        Reading::NotedBefore => (say::reading_noted_before(), &ratio, answers),
        Reading::NotedAfter => (say::reading_noted_after(), &ratio, answers),
        Reading::Can => (say::reading_can(), &ratio, answers),
        Reading::CanBurst => (say::reading_can_burst(), &ratio, answers),
    };
    match c.test {
        Test::Below(si) => say::asked_below(name, show(si)),
        Test::Above(si) => say::asked_above(name, show(si)),
        Test::Is(so) => labels::named(name, states[usize::from(so)]),
    }
}

/// How bad a harm is.
pub(crate) fn severity(s: Severity) -> &'static str {
    match s {
        Severity::Slight => say::severity_slight(),
        Severity::Serious => say::severity_serious(),
        Severity::Grave => say::severity_grave(),
    }
}

/// What was done, in figures.
pub(crate) fn cost(told: &Told) -> String {
    match told {
        Told::Hurt(n) => say::cost_hurt(*n as f64),
        Told::Burst(n) => say::cost_burst(*n as f64),
        Told::HoseBurst(time) => say::cost_hose_burst(&time.number),
        Told::Seized(time, false) => say::cost_seized(&time.number),
        Told::Seized(time, true) => say::cost_seized_clutch(&time.number),
        Told::Liquid(n, time, life) => say::cost_liquid(*n as f64, &time.number, life),
        Told::Wear(life) => say::cost_wear(life),
        Told::Air(mass) => say::cost_air(mass),
        Told::Water(mass) => say::cost_water(mass),
        Told::Vented(mass) => say::cost_vented(mass),
    }
}

/// How an item stands.
pub(crate) fn standing_of(s: Standing) -> String {
    match s {
        Standing::Unopened { leak: None } => say::stand_unopened(),
        Standing::Unopened { leak: Some(true) } => say::stand_leaks(),
        Standing::Unopened { leak: Some(false) } => say::stand_no_leak(),
        Standing::Made(with) => return say::stand_made(seal(with)),
        Standing::Open => say::stand_open(),
        Standing::Capped => say::stand_capped(),
        Standing::Fitted => say::stand_fitted(),
        Standing::OnBench => say::stand_bench(),
        Standing::Loosened => say::stand_loosened(),
        Standing::None => say::record_none(),
        Standing::Port {
            fitting,
            coupled,
            cap,
            core,
            ..
        } => {
            let state = if coupled {
                say::stand_coupled()
            } else if cap {
                say::stand_cap()
            } else if core {
                say::stand_core()
            } else {
                say::stand_no_core()
            };
            return format!("{fitting}, {state}");
        }
    }
    .to_owned()
}

/// What a conversion lacks.
pub(crate) fn lacks(b: Breach) -> String {
    match b {
        Breach::OldGas => say::lacks_old_gas(),
        Breach::Fittings => say::lacks_fittings(),
        Breach::Label => say::new_label(),
        Breach::LabelLine(line) => return super::named(say::new_label(), label_line(line)),
        Breach::CutOut => say::cut_out(),
    }
    .to_owned()
}

/// A line of a conversion's label.
pub(crate) fn label_line(line: Line) -> &'static str {
    match line {
        Line::Technician => say::label_technician(),
        Line::Shop => say::label_shop(),
        Line::Date => say::label_date(),
        Line::Oil => say::oil_kind(),
        Line::OilMaker => say::label_oil_maker(),
        Line::OilVolume => say::label_oil_volume(),
        Line::OldCovered => say::label_old_covered(),
    }
}

/// What is seen in a part.
pub(crate) fn sight(s: &Sight) -> String {
    let word = |m: &Much| match m {
        Much::None => "none",
        Much::Some => "some",
        Much::Lots => "lots",
    };
    match s {
        Sight::Blocked(m, share) => say::sight_blocked(word(m), share),
        Sight::Face(m, share) => say::sight_face(word(m), share),
        Sight::Beads(m) => say::sight_beads(word(m)),
        Sight::Metal(m) => say::sight_metal(word(m)),
        Sight::Dark(m) => say::sight_dark(word(m)),
        Sight::Water(m) => say::sight_water(word(m)),
        Sight::Oil(m) => say::sight_oil(word(m)),
    }
}

/// A port's cap: off and on.
pub(crate) fn cap_states() -> [&'static str; 2] {
    [say::port_cap_states_off(), say::port_cap_states_on()]
}

/// Pump and recovery machine: at rest and running.
pub(crate) fn machine_states() -> [&'static str; 2] {
    [say::machine_states_off(), say::machine_states_on()]
}

pub(crate) fn low_tap_states() -> [&'static str; 2] {
    [say::low_tap_states_off(), say::low_tap_states_on()]
}

/// Goggles or gloves: id of the control, and name.
pub(crate) fn protection(what: Protection) -> (&'static str, &'static str) {
    match what {
        Protection::Goggles => ("goggles", say::goggles()),
        Protection::Gloves => ("gloves", say::gloves()),
    }
}

pub(crate) fn worn_states() -> [&'static str; 2] {
    [say::worn_states_off(), say::worn_states_on()]
}

/// The battery's lead: off its post and on it.
pub(crate) fn battery_states() -> [&'static str; 2] {
    [say::battery_states_off(), say::battery_states_on()]
}

/// The belt: off the pulley and on it.
pub(crate) fn belt_states() -> [&'static str; 2] {
    [say::belt_states_off(), say::belt_states_on()]
}

/// Bolts: out and in.
pub(crate) fn bolts_states() -> [&'static str; 2] {
    [say::bolts_states_off(), say::bolts_states_on()]
}

/// Caps of a part on the bench: off and on.
pub(crate) fn part_caps_states() -> [&'static str; 2] {
    [say::part_caps_states_off(), say::part_caps_states_on()]
}

/// The places that were searched, with what was found.
pub(crate) fn searched_places(tools: &Tools) -> impl Iterator<Item = String> + '_ {
    tools.search.iter().filter_map(|(spot, searched)| {
        let name = spot_name(*spot);
        searched.map(|s| {
            if s.found {
                say::search_found(name)
            } else {
                say::search_clear(name)
            }
        })
    })
}

/// Everything that is still on, one after the other.
pub(crate) fn still_on_it(what: &[Loosened]) -> String {
    let names: Vec<_> = what
        .iter()
        .map(|w| say::loosened(super::loosened_key(*w)))
        .collect();
    say::still_on(names.join(", "))
}

/// A pressure switch.
pub(crate) fn switch_name(side: Side) -> &'static str {
    match side {
        Side::Low => say::low_pressure_switch(),
        Side::High => say::cut_out(),
    }
}

/// Whose plug it is.
pub(crate) fn plug_name(lead: Lead) -> &'static str {
    match lead {
        Lead::Clutch => say::plug_clutch(),
        Lead::LowSwitch => say::plug_low_switch(),
        Lead::CutOut => say::plug_cut_out(),
    }
}

/// How a plug is.
pub(crate) fn plug_state(plug: Plug) -> &'static str {
    match plug {
        Plug::On => say::plug_states_on(),
        Plug::Off => say::plug_states_off(),
        Plug::Bridged => say::plug_states_bridged(),
    }
}

/// What is in hand for joints; the one that fits is not told.
pub(crate) fn joint_tool(tool: JointTool) -> &'static str {
    match tool {
        JointTool::Fitting => say::record_none(),
        JointTool::Wrenches => say::tool_wrenches(),
        JointTool::SpringLock => say::tool_spring_lock(),
    }
}

/// Name of a vehicle; one of somebody's own has the name that was given to it.
pub(crate) fn vehicle_name(name: &str) -> String {
    let shipped = |id| library::shipped(id).is_some_and(|s| s.vehicle.name == name);
    match [
        "healthy",
        "healthy-compact",
        "healthy-crossover",
        "before-retrofit",
    ]
    .map(shipped)
    {
        [true, ..] => say::vehicle_van(),
        [_, true, ..] => say::vehicle_compact(),
        [_, _, true, _] => say::vehicle_crossover(),
        [.., true] => say::vehicle_van_as_built(),
        _ => name,
    }
    .to_owned()
}
