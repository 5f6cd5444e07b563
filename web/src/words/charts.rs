//! Words of drawings and charts.
use lowside_present::{
    notes::{Idea, Note},
    parts::{
        Coat, Part,
        inside::{Cause, Figure},
    },
    plot::{Name, Plot},
};

use crate::views::View;

pub(crate) const VIEWS: &str = "Views";
pub(crate) const SAVE: &str = "Save as";
pub(crate) const PARTS_IDEA: &str = "where the hands go; press a part to look inside";
pub(crate) const CLOSE: &str = "Close it";
pub(crate) const CLOSED: &str =
    "Closed: read it from outside, by gauge, thermometer, touch and eye.";
pub(crate) const CLOSE_ALL: &str = "Close the loop";
pub(crate) const OPEN_ALL: &str = "Open the loop";
pub(crate) const NOTES: &str = "What it shows";
pub(crate) const CABIN_SIDE: &str = "cabin";
pub(crate) const ENGINE_BAY: &str = "engine bay";
pub(crate) const GRILLE: &str = "grille";
pub(crate) const ENGINE_BLOCK: &str = "engine";
pub(crate) const LARGE: &str = "Large gauges";
pub(crate) const EARLIER: &str = "Earlier";
pub(crate) const LATER: &str = "Later";
pub(crate) const CLOSER: &str = "Closer";
pub(crate) const WIDER: &str = "Wider";
pub(crate) const POINTS: &str = "Points as a table";
pub(crate) const STRIP_KEYS: &str = "Arrow keys move the cursor, Shift with them the window, plus and minus zoom, End goes back to now";

/// Name of a view.
pub(crate) fn view(v: View) -> &'static str {
    match v {
        View::Levels => "Levels",
        View::Parts => "Parts",
        View::Strip => "Strip chart",
        View::Plot(p) => plot(p),
    }
}

/// Name of a chart.
pub(crate) fn plot(p: Plot) -> &'static str {
    match p {
        Plot::PressureEnthalpy => "Cycle",
        Plot::MoistAir => "Air",
        Plot::PressureTemperature => "Boiling point",
        Plot::WaterBoils => "Vacuum",
    }
}

/// What a chart is for.
pub(crate) fn plot_idea(p: Plot) -> &'static str {
    match p {
        Plot::PressureEnthalpy => "pressure over enthalpy: the loop's states on the map of its gas",
        Plot::MoistAir => "psychrometric: what mixes, what the coil takes out, what the ducts warm",
        Plot::PressureTemperature => "at rest both sides stand on the line, at the outside air",
        Plot::WaterBoils => "how deep it must be before water boils away",
    }
}

/// Name of a part.
pub(crate) fn part(p: Part) -> &'static str {
    match p {
        Part::Compressor => "Compressor",
        Part::Discharge => "Discharge line",
        Part::Condenser => "Condenser",
        Part::Liquid => "Liquid line",
        Part::Orifice => "Orifice tube",
        Part::Evaporator => "Evaporator",
        Part::Accumulator => "Accumulator",
        Part::Suction => "Suction line",
        Part::LowHose => "Low hose",
        Part::HighHose => "High hose",
        Part::ServiceHose => "Service hose",
        Part::Can => "Can",
    }
}

/// What a part does, in a sentence.
pub(crate) fn part_does(p: Part) -> &'static str {
    match p {
        Part::Compressor => {
            "Lifts vapour from the low side to the high side. It cannot squeeze liquid."
        }
        Part::Discharge => {
            "Hot gas to the condenser. High port, cut-out switch and relief valve sit here."
        }
        Part::Condenser => "Gives its heat to the outside air, until all gas is liquid.",
        Part::Liquid => "Warm liquid on its way to the orifice tube.",
        Part::Orifice => {
            "A screen and a narrow brass tube: the fall from the high side to the low side."
        }
        Part::Evaporator => "Boils the liquid with the heat of the cabin air, and dries that air.",
        Part::Accumulator => {
            "Keeps liquid back, returns oil, dries with its bag. Low port and cycling switch sit here."
        }
        Part::Suction => "Cold vapour and oil back to the compressor.",
        Part::LowHose => "Blue: from the low port to the gauge set.",
        Part::HighHose => "Red: from the high port to the gauge set.",
        Part::ServiceHose => "Yellow: from the gauge set to the can.",
        Part::Can => "Liquid below, vapour above. Valve up gives vapour, valve down liquid.",
    }
}

/// Name of a figure.
pub(crate) fn figure(f: Figure) -> &'static str {
    match f {
        Figure::Temperature => "Temperature",
        Figure::Pressure => "Pressure",
        Figure::BoilsAt => "Boils at",
        Figure::Superheat => "Superheat",
        Figure::Subcooling => "Subcooling",
        Figure::Refrigerant => "Refrigerant in it",
        Figure::Liquid => "of that liquid",
        Figure::Level => "Liquid level",
        Figure::SpillsAt => "Spills above",
        Figure::LiquidLeaving => "Liquid in what leaves",
        Figure::Flow => "Flow",
        Figure::Oil => "Oil in it",
        Figure::Air => "Air in it",
        Figure::AirShare => "Air's share of the pressure",
        Figure::Water => "Free water",
        Figure::Desiccant => "Water in the bag",
        Figure::DesiccantLoad => "Bag full to",
        Figure::Ice => "Ice in the bore",
        Figure::Open => "Bore open",
        Figure::Debris => "Debris on the screen",
        Figure::Heat => "Heat",
        Figure::Shaft => "Shaft power",
        Figure::Turns => "Turns",
        Figure::Wear => "Wear",
        Figure::OnFins => "Water on the fins",
        Figure::Dripped => "Dripped off",
        Figure::DryCells => "Sections boiled dry",
        Figure::FullCells => "Sections full of liquid",
    }
}

/// What wears a compressor.
pub(crate) fn cause(c: Cause) -> &'static str {
    match c {
        Cause::Age => "as it came",
        Cause::Slugging => "liquid slugging",
        Cause::Washing => "oil washed off",
        Cause::Dryness => "run without oil",
        Cause::Heat => "run too hot",
        Cause::Pressure => "too much pressure",
    }
}

/// What clings to a surface.
pub(crate) fn coat(c: Coat) -> &'static str {
    match c {
        Coat::Dry => "dry",
        Coat::Dew => "wet with condensate",
        Coat::Frost => "frosted",
    }
}

/// Name of what is on a chart.
pub(crate) fn name(n: Name) -> &'static str {
    match n {
        Name::Enthalpy => "enthalpy",
        Name::AbsolutePressure => "absolute pressure",
        Name::GaugePressure => "gauge pressure",
        Name::Temperature => "temperature",
        Name::HumidityRatio => "water in the air",
        Name::Saturation => "saturation",
        Name::Isotherm => "one temperature",
        Name::Quality => "share of vapour",
        Name::RelativeHumidity => "relative humidity",
        Name::Freezing => "ice below",
        Name::Cycle => "round the loop",
        Name::Mixing => "mixing",
        Name::Coil => "coil",
        Name::Reheat => "ducts",
        Name::Reading => "reading",
        Name::Suction => "suction",
        Name::Discharge => "discharge",
        Name::InCondenser => "in the condenser",
        Name::BeforeOrifice => "before the orifice",
        Name::BehindOrifice => "behind it",
        Name::InEvaporator => "in the evaporator",
        Name::AccumulatorOut => "out of the accumulator",
        Name::Outside => "outside",
        Name::Cabin => "cabin",
        Name::Mixed => "onto the coil",
        Name::CoilOut => "off the coil",
        Name::Vent => "vent",
        Name::LowSide => "low side",
        Name::HighSide => "high side",
        Name::Static => "at rest",
        Name::BoilsHere => "water boils",
        Name::OutsideWarmth => "outside air",
        Name::Superheat => "superheat",
        Name::Subcooling => "subcooling",
        Name::Above => "above the line",
    }
}

/// A note of the drawing of levels: one sentence with its figure.
pub(crate) fn note(n: &Note) -> String {
    let x = &n.shown;
    match n.idea {
        Idea::FallsIntoCan => {
            format!("The high side falls into the can, {x} deep. Shut the red valve: a can bursts.")
        }
        Idea::AboveBurst => format!(
            "The high side stands {x} above the mark where a can bursts. The red valve stays shut."
        ),
        Idea::AirFallsIn => format!("The room stands {x} higher than this hose, so air falls in."),
        Idea::BelowAtmosphere => format!(
            "Lower than the air outside ({x}): through any leak here air and moisture fall in."
        ),
        Idea::Escapes => format!("The hose stands {x} above the room, so refrigerant runs out."),
        Idea::AirOnTop => format!(
            "Trapped air lifts this by {x}. It does not condense, and only a vacuum takes it out."
        ),
        Idea::Dries => format!(
            "So deep that water boils at {x}, colder than the day: what is wet in there boils away."
        ),
        Idea::NotDryYet => format!(
            "Nearly empty, yet water boils only at {x}, warmer than the day: it does not dry yet."
        ),
        Idea::Static => format!(
            "At rest the loop is a thermometer: any liquid in it holds it level with the outside air, {x}, be it much or little."
        ),
        Idea::AllVapour => format!(
            "Not a drop of liquid is in it: at {x} it stands below the line of the outside air."
        ),
        Idea::CanAbove => {
            format!("The can stands {x} above the low side. That drop is all that drives its gas.")
        }
        Idea::CanSunk => format!(
            "Boiling has cooled the can to {x}, down to the low side: nothing drives its gas. Warm water lifts it."
        ),
        Idea::HighAbove => format!(
            "The high side must stand above the outside air, here by {x}: only downhill does heat run out of it."
        ),
        Idea::LowBelow => format!(
            "The low side must hang below the cabin air, here by {x}: down there its heat runs in."
        ),
    }
}

/// A part and its state, for those who listen.
pub(crate) fn part_spoken(p: Part, t: &str, c: Coat) -> String {
    format!("{}, {t}, {}", part(p), coat(c))
}

/// What a strip chart's cursor reads.
pub(crate) fn cursor(time: &str, values: &[String; 4]) -> String {
    let [low, high, vent, cabin] = values;
    format!("{time}: low {low}, high {high}, vent {vent}, cabin {cabin}")
}
