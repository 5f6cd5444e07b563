//! Charts of properties as plain lines in display units: what does not move, what does, and the same as text.
//!
//! A chart is a [`Frame`] (axes and the lines that stand still) and a [`Live`] (points of this moment, paths between them, and
//! spans with their figure). The page puts both on a canvas or into a file and computes nothing; names are ids for its words.

use lowside_session::Bay;
use lowside_units::{
    AbsolutePressure, GaugePressure, Quantity, Temperature, TemperatureDifference,
    display::{self, Family, PressureUnit, Shown, TemperatureUnit, UnitSystem},
};

use crate::parts::Part;

mod air;
mod cycle;
mod saturation;
mod water;

/// Which chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Plot {
    /// Pressure over enthalpy of the gas in the loop.
    PressureEnthalpy,
    /// Humidity ratio over temperature of the air.
    MoistAir,
    /// Pressure over saturation temperature of the gas in the loop.
    PressureTemperature,
    /// Boiling point of water over pressure.
    WaterBoils,
}

impl Plot {
    /// All charts, in the order they are offered.
    pub const ALL: [Self; 4] = [
        Self::PressureEnthalpy,
        Self::MoistAir,
        Self::PressureTemperature,
        Self::WaterBoils,
    ];

    /// What stands still on the chart, for the bay's gas, day and units.
    pub fn frame(self, bay: &Bay, units: UnitSystem) -> Frame {
        match self {
            Self::PressureEnthalpy => cycle::frame(bay, units),
            Self::MoistAir => air::frame(bay, units),
            Self::PressureTemperature => saturation::frame(bay, units),
            Self::WaterBoils => water::frame(units),
        }
    }

    /// What the bay puts on the chart now.
    pub fn live(self, bay: &Bay, units: UnitSystem) -> Live {
        match self {
            Self::PressureEnthalpy => cycle::live(bay, units),
            Self::MoistAir => air::live(bay, units),
            Self::PressureTemperature => saturation::live(bay, units),
            Self::WaterBoils => water::live(bay, units),
        }
    }

    /// What [`frame`](Self::frame) depends on, so that it is made anew only when this changes.
    pub fn key(self, bay: &Bay, units: UnitSystem) -> Key {
        let p = bay.plant().day().p.to_bits();
        let range = match self {
            Self::MoistAir => air::range(bay),
            _ => [0, 0],
        };
        (self, units, bay.plant().network.mostly().name(), p, range)
    }
}

/// What the lines of a chart that stand still depend on: chart, units, gas, pressure of the day (bits), ranges of the axes.
pub type Key = (Plot, UnitSystem, &'static str, u64, [usize; 2]);

/// An axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// What it shows.
    pub name: Name,
    /// Its unit.
    pub unit: &'static str,
    /// From and to, in that unit; both above zero if logarithmic.
    pub range: [f64; 2],
    /// Logarithmic.
    pub log: bool,
    /// Decimals of its numbers.
    pub decimals: usize,
    /// Numbers to be written at it.
    pub ticks: Vec<f64>,
}

/// What a line, point, span or axis is; the words are the page's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Name {
    /// Axis: specific enthalpy.
    Enthalpy,
    /// Axis: absolute pressure.
    AbsolutePressure,
    /// Axis: gauge pressure.
    GaugePressure,
    /// Axis: temperature.
    Temperature,
    /// Axis: humidity ratio.
    HumidityRatio,
    /// Line: saturated liquid and vapour.
    Saturation,
    /// Line: one temperature.
    Isotherm,
    /// Line: one share of vapour.
    Quality,
    /// Line: one relative humidity.
    RelativeHumidity,
    /// Line: freezing point of water.
    Freezing,
    /// Path: round the loop.
    Cycle,
    /// Path: mixing of two airs.
    Mixing,
    /// Path: cooling and drying in the coil.
    Coil,
    /// Path: warming in the ducts.
    Reheat,
    /// Path: from a reading to the line.
    Reading,
    /// Point: suction gas as the compressor draws it.
    Suction,
    /// Point: discharge gas.
    Discharge,
    /// Point: out of a condenser cell.
    InCondenser,
    /// Point: before the orifice.
    BeforeOrifice,
    /// Point: behind the orifice.
    BehindOrifice,
    /// Point: out of an evaporator cell.
    InEvaporator,
    /// Point: out of the accumulator.
    AccumulatorOut,
    /// Point: outside air.
    Outside,
    /// Point: cabin air.
    Cabin,
    /// Point: what reaches the coil.
    Mixed,
    /// Point: what leaves the coil.
    CoilOut,
    /// Point: the centre vent.
    Vent,
    /// Point: low side.
    LowSide,
    /// Point: high side.
    HighSide,
    /// Point: where the loop would stand at rest at the outside temperature, with liquid in it and no air.
    Static,
    /// Point: where water boils at the low side's pressure.
    BoilsHere,
    /// Point: as warm as the outside.
    OutsideWarmth,
    /// Span: superheat.
    Superheat,
    /// Span: subcooling.
    Subcooling,
}

/// A line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is.
    pub name: Name,
    /// The figure it stands for, where it is one of several, written at its last point.
    pub label: Option<String>,
    /// Its points, in the units of the axes.
    pub points: Vec<(f64, f64)>,
}

/// A point.
#[derive(Debug, Clone, PartialEq)]
pub struct Dot {
    /// What it is.
    pub name: Name,
    /// The part it belongs to.
    pub part: Option<Part>,
    /// Where it stands, in the units of the axes.
    pub at: (f64, f64),
    /// Its own text: the figures, spoken in full by the page's table.
    pub shown: [Shown; 2],
    /// Small: one of a row.
    pub small: bool,
}

/// A dimension between two points.
#[derive(Debug, Clone, PartialEq)]
pub struct Span {
    /// What it is.
    pub name: Name,
    /// From.
    pub from: (f64, f64),
    /// To.
    pub to: (f64, f64),
    /// How much.
    pub shown: Shown,
}

/// What stands still.
#[derive(Debug, Clone, PartialEq)]
pub struct Frame {
    /// Across.
    pub x: Axis,
    /// Upward.
    pub y: Axis,
    /// Lines.
    pub lines: Vec<Line>,
}

/// What moves.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Live {
    /// Paths.
    pub paths: Vec<Line>,
    /// Points.
    pub dots: Vec<Dot>,
    /// Dimensions.
    pub spans: Vec<Span>,
}

impl Live {
    /// A dimension, if it applies now.
    pub fn span(&self, name: Name) -> Option<&Span> {
        self.spans.iter().find(|s| s.name == name)
    }
}

/// The chart as comma-separated values: `line,figure,x,y`, one point a row, first the still lines, then paths and points.
/// `word` gives the names.
pub fn csv(frame: &Frame, live: &Live, word: &dyn Fn(Name) -> String) -> String {
    use core::fmt::Write;

    use crate::record_file::cell;
    let head = |a: &Axis| cell(&format!("{} ({})", word(a.name), a.unit));
    let mut out = format!("line,figure,{},{}\n", head(&frame.x), head(&frame.y));
    let mut row = |name: Name, figure: &str, (x, y): (f64, f64)| {
        // Writing into a string cannot fail.
        let _ = writeln!(out, "{},{},{x:.5},{y:.5}", cell(&word(name)), cell(figure));
    };
    for line in frame.lines.iter().chain(&live.paths) {
        for &at in &line.points {
            row(line.name, line.label.as_deref().unwrap_or(""), at);
        }
    }
    for dot in &live.dots {
        row(dot.name, "", dot.at);
    }
    out
}

/// Numbers of a unit system on an axis.
#[derive(Debug, Clone, Copy)]
pub struct Scales(pub UnitSystem);

impl Scales {
    /// Is all that has no choice of its own in US customary units?
    fn us(self) -> bool {
        self.0.rest == Family::Us
    }

    fn fahrenheit(self) -> bool {
        self.0.temperature == TemperatureUnit::Fahrenheit
    }

    fn pressure(self) -> PressureUnit {
        self.0.pressure
    }

    /// A temperature (K) as a number.
    pub fn t(self, k: f64) -> f64 {
        let t = Temperature::from_k(k);
        if self.fahrenheit() {
            t.deg_f()
        } else {
            t.deg_c()
        }
    }

    fn k(self, shown: f64) -> f64 {
        if self.fahrenheit() {
            Temperature::from_deg_f(shown).k()
        } else {
            Temperature::from_deg_c(shown).k()
        }
    }

    /// Unit of temperatures.
    pub fn t_unit(self) -> &'static str {
        self.0.temperature.symbol()
    }

    fn absolute(self, pa: f64) -> f64 {
        let p = AbsolutePressure::from_pa(pa);
        match self.pressure() {
            PressureUnit::Psi => p.psi(),
            PressureUnit::Kpa => p.kpa(),
            PressureUnit::Bar => p.bar(),
        }
    }

    fn absolute_unit(self) -> &'static str {
        self.pressure().absolute_symbol()
    }

    /// A vacuum (Pa absolute) as a number, in the unit a vacuum gauge has.
    pub fn vacuum(self, pa: f64) -> f64 {
        let p = AbsolutePressure::from_pa(pa);
        match self.pressure() {
            PressureUnit::Psi => p.micron(),
            PressureUnit::Kpa => p.pa(),
            PressureUnit::Bar => p.mbar(),
        }
    }

    /// Unit of a vacuum.
    pub fn vacuum_unit(self) -> &'static str {
        match self.pressure() {
            PressureUnit::Psi => "micron",
            PressureUnit::Kpa => "Pa",
            PressureUnit::Bar => "mbar",
        }
    }

    /// A gauge pressure (Pa) as a number.
    pub fn gauge(self, pa: f64) -> f64 {
        let p = GaugePressure::from_pa(pa);
        match self.pressure() {
            PressureUnit::Psi => p.psi(),
            PressureUnit::Kpa => p.kpa(),
            PressureUnit::Bar => p.bar(),
        }
    }

    /// Unit of gauge pressures.
    pub fn gauge_unit(self) -> &'static str {
        self.pressure().gauge_symbol()
    }

    fn show_t(self, k: f64) -> Shown {
        display::temperature(Temperature::from_k(k), self.0)
    }

    fn show_absolute(self, pa: f64) -> Shown {
        display::absolute_pressure(AbsolutePressure::from_pa(pa.max(0.0)), self.0)
    }

    fn show_gauge(self, pa: f64) -> Shown {
        display::gauge_pressure(GaugePressure::from_pa(pa), self.0)
    }

    fn show_difference(self, k: f64) -> Shown {
        display::temperature_difference(TemperatureDifference::from_si(k), self.0)
    }
}

/// The axis of temperature of a chart over a range (K), ticked in steps of the shown unit.
fn temperature_axis(s: Scales, [t0, t1]: [f64; 2], by: f64) -> Axis {
    let range = [s.t(t0), s.t(t1)];
    Axis {
        name: Name::Temperature,
        unit: s.t_unit(),
        range,
        log: false,
        decimals: 0,
        ticks: steps((range[0] / by).ceil() * by, range[1], by),
    }
}

/// Numbers from `from` to `to` in steps.
pub(crate) fn steps(from: f64, to: f64, by: f64) -> Vec<f64> {
    let n = ((to - from) / by + 1e-9).floor();
    let mut out = Vec::new();
    let mut k = 0.0;
    while k <= n {
        out.push(from + k * by);
        k += 1.0;
    }
    out
}

#[cfg(test)]
mod tests;
