//! Which message is said for what on drawings and charts.
use lowside_present::{
    notes::{Idea, Note},
    parts::{
        Coat, Part,
        inside::{Cause, Figure},
    },
    plot::{Name, Plot},
    whatif::Reading,
};

use crate::{views::View, words};

/// Name of a view.
pub(crate) fn view(v: View) -> &'static str {
    match v {
        View::Levels => words::levels(),
        View::Parts => words::view_parts(),
        View::Strip => words::chart(),
        View::Job => words::job(),
        View::Plot(p) => plot(p),
    }
}

/// Name of a chart.
pub(crate) fn plot(p: Plot) -> &'static str {
    match p {
        Plot::PressureEnthalpy => words::plot_pressure_enthalpy(),
        Plot::MoistAir => words::plot_moist_air(),
        Plot::PressureTemperature => words::plot_pressure_temperature(),
        Plot::WaterBoils => words::plot_water_boils(),
    }
}

/// What a chart is for.
pub(crate) fn plot_idea(p: Plot) -> &'static str {
    match p {
        Plot::PressureEnthalpy => words::plot_pressure_enthalpy_idea(),
        Plot::MoistAir => words::plot_moist_air_idea(),
        Plot::PressureTemperature => words::plot_pressure_temperature_idea(),
        Plot::WaterBoils => words::plot_water_boils_idea(),
    }
}

/// Name of a part.
pub(crate) fn part(p: Part) -> &'static str {
    match p {
        Part::Compressor => words::part_compressor(),
        Part::Discharge => words::part_discharge(),
        Part::Condenser => words::part_condenser(),
        Part::Liquid => words::part_liquid(),
        Part::Orifice => words::part_orifice(),
        Part::Evaporator => words::part_evaporator(),
        Part::Accumulator => words::part_accumulator(),
        Part::Suction => words::part_suction(),
        Part::LowHose => words::part_low_hose(),
        Part::HighHose => words::part_high_hose(),
        Part::ServiceHose => words::part_service_hose(),
        Part::Can => words::part_can(),
    }
}

/// What a part does, in a sentence.
pub(crate) fn part_does(p: Part) -> &'static str {
    match p {
        Part::Compressor => words::part_compressor_does(),
        Part::Discharge => words::part_discharge_does(),
        Part::Condenser => words::part_condenser_does(),
        Part::Liquid => words::part_liquid_does(),
        Part::Orifice => words::part_orifice_does(),
        Part::Evaporator => words::part_evaporator_does(),
        Part::Accumulator => words::part_accumulator_does(),
        Part::Suction => words::part_suction_does(),
        Part::LowHose => words::part_low_hose_does(),
        Part::HighHose => words::part_high_hose_does(),
        Part::ServiceHose => words::part_service_hose_does(),
        Part::Can => words::part_can_does(),
    }
}

/// Name of a figure.
pub(crate) fn figure(f: Figure) -> &'static str {
    match f {
        Figure::Temperature => words::figure_temperature(),
        Figure::Pressure => words::figure_pressure(),
        Figure::BoilsAt => words::figure_boils_at(),
        Figure::Superheat => words::figure_superheat(),
        Figure::Subcooling => words::figure_subcooling(),
        Figure::Refrigerant => words::figure_refrigerant(),
        Figure::Liquid => words::figure_liquid(),
        Figure::Level => words::figure_level(),
        Figure::SpillsAt => words::figure_spills_at(),
        Figure::LiquidLeaving => words::figure_liquid_leaving(),
        Figure::Flow => words::figure_flow(),
        Figure::Oil => words::figure_oil(),
        Figure::Air => words::figure_air(),
        Figure::AirShare => words::figure_air_share(),
        Figure::Water => words::figure_water(),
        Figure::Desiccant => words::figure_desiccant(),
        Figure::DesiccantLoad => words::figure_desiccant_load(),
        Figure::Ice => words::figure_ice(),
        Figure::Open => words::figure_open(),
        Figure::Debris => words::figure_debris(),
        Figure::Heat => words::figure_heat(),
        Figure::Shaft => words::figure_shaft(),
        Figure::Turns => words::figure_turns(),
        Figure::Wear => words::figure_wear(),
        Figure::OnFins => words::figure_on_fins(),
        Figure::Dripped => words::figure_dripped(),
        Figure::DryCells => words::figure_dry_cells(),
        Figure::FullCells => words::figure_full_cells(),
    }
}

/// What wears a compressor.
pub(crate) fn cause(c: Cause) -> &'static str {
    match c {
        Cause::Age => words::cause_age(),
        Cause::Slugging => words::cause_slugging(),
        Cause::Washing => words::cause_washing(),
        Cause::Dryness => words::cause_dryness(),
        Cause::Heat => words::cause_heat(),
        Cause::Pressure => words::cause_pressure(),
        Cause::Grit => words::cause_grit(),
    }
}

/// What clings to a surface.
pub(crate) fn coat(c: Coat) -> &'static str {
    match c {
        Coat::Dry => words::coat_dry(),
        Coat::Dew => words::coat_dew(),
        Coat::Frost => words::coat_frost(),
    }
}

/// Name of what is on a chart.
pub(crate) fn name(n: Name) -> &'static str {
    match n {
        Name::Enthalpy => words::name_enthalpy(),
        Name::AbsolutePressure => words::name_absolute_pressure(),
        Name::GaugePressure => words::name_gauge_pressure(),
        Name::Temperature => words::name_temperature(),
        Name::HumidityRatio => words::name_humidity_ratio(),
        Name::Saturation => words::name_saturation(),
        Name::Isotherm => words::name_isotherm(),
        Name::Quality => words::name_quality(),
        Name::RelativeHumidity => words::name_relative_humidity(),
        Name::Freezing => words::name_freezing(),
        Name::Cycle => words::name_cycle(),
        Name::Mixing => words::name_mixing(),
        Name::Coil => words::name_coil(),
        Name::Reheat => words::name_reheat(),
        Name::Reading => words::name_reading(),
        Name::Suction => words::name_suction(),
        Name::Discharge => words::name_discharge(),
        Name::InCondenser => words::name_in_condenser(),
        Name::BeforeOrifice => words::name_before_orifice(),
        Name::BehindOrifice => words::name_behind_orifice(),
        Name::InEvaporator => words::name_in_evaporator(),
        Name::AccumulatorOut => words::name_accumulator_out(),
        Name::Outside => words::name_outside(),
        Name::Cabin => words::name_cabin(),
        Name::Mixed => words::name_mixed(),
        Name::CoilOut => words::name_coil_out(),
        Name::Vent => words::name_vent(),
        Name::LowSide => words::name_low_side(),
        Name::HighSide => words::name_high_side(),
        Name::Static => words::name_static(),
        Name::BoilsHere => words::name_boils_here(),
        Name::OutsideWarmth => words::name_outside_warmth(),
        Name::Superheat => words::name_superheat(),
        Name::Subcooling => words::name_subcooling(),
    }
}

/// A note of the drawing of levels: one sentence with its figure.
pub(crate) fn note(n: &Note) -> String {
    let x = &n.shown;
    match n.idea {
        Idea::FallsIntoCan => words::note_falls_into_can(x),
        Idea::AboveBurst => words::note_above_burst(x),
        Idea::AirFallsIn => words::note_air_falls_in(x),
        Idea::AirIntoLoop => words::note_air_into_loop(x),
        Idea::BelowAtmosphere => words::note_below_atmosphere(x),
        Idea::Escapes => words::note_escapes(x),
        Idea::AirOnTop => words::note_air_on_top(x),
        Idea::Dries => words::note_dries(x),
        Idea::NotDryYet => words::note_not_dry_yet(x),
        Idea::Static => words::note_static(x),
        Idea::AllVapour => words::note_all_vapour(x),
        Idea::CanAbove => words::note_can_above(x),
        Idea::CanSunk => words::note_can_sunk(x),
        Idea::CanLevel => words::note_can_level(x),
        Idea::IceGrows => words::note_ice_grows(x),
        Idea::Worn => words::note_worn(x),
        Idea::HighAbove => words::note_high_above(x),
        Idea::LowBelow => words::note_low_below(x),
    }
}

/// A part and its state, for those who listen.
pub(crate) fn part_spoken(p: Part, t: Option<&str>, c: Coat) -> String {
    match t {
        Some(t) => words::part_spoken(part(p), t, coat(c)),
        None => words::part_is(part(p), coat(c)),
    }
}

/// What a strip chart's cursor reads.
pub(crate) fn cursor(time: &str, values: &[String; 4]) -> String {
    let [low, high, vent, cabin] = values;
    words::strip_cursor(time, low, high, vent, cabin)
}

/// What a shipped scenario is called where one starts.
pub(crate) fn start(id: &str) -> &'static str {
    match id {
        "healthy" => words::healthy(),
        "healthy-compact" => words::start_compact(),
        "healthy-crossover" => words::start_crossover(),
        "before-retrofit" => words::start_retrofit(),
        _ => words::evacuated(),
    }
}

/// A reading that an act left out would change, in a sentence.
pub(crate) fn whatif_reading(reading: Reading) -> &'static str {
    match reading {
        Reading::High => words::whatif_high(),
        Reading::Low => words::whatif_low(),
        Reading::Vent => words::whatif_vent(),
        Reading::Charge => words::whatif_charge(),
    }
}
