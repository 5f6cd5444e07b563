//! The strip chart's axes: where the two plots lie, and what stands still on them.
use lowside_present::{history::Trace, palette::Theme, plot::Scales};
use lowside_units::display::{PressureUnit, TemperatureUnit, UnitSystem};

use crate::{
    ink::{Marks, Side},
    words,
};

/// What the axes depend on; they are drawn anew when it changes.
#[derive(Clone, PartialEq)]
pub(super) struct Frame {
    pub(super) units: UnitSystem,
    pub(super) dark: bool,
    pub(super) minutes: f64,
    pub(super) back: f64,
    /// There is a vacuum to show, on an axis of its own at the right.
    pub(super) vacuum: bool,
    pub(super) size: (f64, f64),
}

/// Room at the right of the plots, px.
pub(super) fn margin(vacuum: bool) -> f64 {
    if vacuum { 88.0 } else { 14.0 }
}

/// Where the two plots lie: pressures above, temperatures below.
pub(super) struct Grid {
    pub(super) scales: Scales,
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) top: f64,
    pub(super) middle: f64,
    pub(super) floor: f64,
    pub(super) bottom: f64,
    pub(super) pressures: [f64; 2],
    pub(super) temperatures: [f64; 2],
}

impl Grid {
    pub(super) fn new(f: &Frame) -> Self {
        let (w, h) = f.size;
        // Names of what happened stand above.
        let (top, bottom) = (17.0, h - 20.0);
        Self {
            scales: Scales(f.units),
            left: 42.0,
            right: w - margin(f.vacuum),
            top,
            middle: top + (bottom - top) * 0.56,
            floor: top + (bottom - top) * 0.56 + 8.0,
            bottom,
            pressures: match f.units.pressure {
                PressureUnit::Psi => [0.0, 450.0],
                PressureUnit::Kpa => [0.0, 3100.0],
                PressureUnit::Bar => [0.0, 31.0],
            },
            temperatures: match f.units.temperature {
                TemperatureUnit::Fahrenheit => [30.0, 110.0],
                TemperatureUnit::Celsius => [0.0, 44.0],
            },
        }
    }

    fn upper(&self, v: f64) -> f64 {
        let [a, b] = self.pressures;
        self.middle - (self.middle - self.top) * ((v - a) / (b - a)).clamp(-0.04, 1.0)
    }

    fn lower(&self, v: f64) -> f64 {
        let [a, b] = self.temperatures;
        let top = self.floor + 10.0;
        self.bottom - (self.bottom - top) * ((v - a) / (b - a)).clamp(0.0, 1.02)
    }

    /// Height of a value of a trace, in its SI unit.
    pub(super) fn value(&self, which: Trace, v: f64) -> f64 {
        match which {
            Trace::Low | Trace::High => self.upper(self.scales.gauge(v)),
            Trace::Vent | Trace::Cabin => self.lower(self.scales.t(v)),
            Trace::Vacuum => self.deep(v),
        }
    }

    /// Height of a vacuum (Pa): equal steps are equal factors, so that what a leak adds bends over and what boils off is seen to stop.
    fn deep(&self, pa: f64) -> f64 {
        let [least, most] = VACUUM;
        let share = (pa.max(least) / least).ln() / (most / least).ln();
        self.middle - (self.middle - self.top) * share.clamp(0.0, 1.0)
    }
}

/// Ends of the axis of vacuum, Pa: 7.5 to 30 000 micron, what pumps reach and gauges read.
const VACUUM: [f64; 2] = [1.0, 4000.0];

/// The axis of the vacuum trace, at the right: a mark each factor of ten, in the gauge's unit.
fn decades(m: &mut Marks, g: &Grid, t: &Theme) {
    let per_pa = g.scales.vacuum(1.0);
    let unit = g.scales.vacuum_unit();
    for power in -2..=5 {
        let shown = 10f64.powi(power);
        let pa = shown / per_pa;
        if !(VACUUM[0]..=VACUUM[1]).contains(&pa) {
            continue;
        }
        let y = g.deep(pa);
        m.line(vec![(g.right, y), (g.right + 4.0, y)], t.ink, 1.2);
        let text = format!("{shown} {unit}");
        m.text(text, (g.right + 7.0, y), 10.5, Side::Left, t.ink);
    }
}

/// Steps of the time axis that give four to nine marks, minutes.
fn step(minutes: f64) -> f64 {
    [0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 15.0, 30.0]
        .into_iter()
        .find(|s| minutes / s <= 7.0)
        .unwrap_or(30.0)
}

pub(super) fn still(f: &Frame, t: &Theme) -> Marks {
    let g = Grid::new(f);
    let mut m = Marks::default();
    let pressures: &[f64] = match f.units.pressure {
        PressureUnit::Psi => &[0.0, 100.0, 200.0, 300.0, 400.0],
        PressureUnit::Kpa => &[0.0, 1000.0, 2000.0, 3000.0],
        PressureUnit::Bar => &[0.0, 10.0, 20.0, 30.0],
    };
    let temperatures: &[f64] = match f.units.temperature {
        TemperatureUnit::Fahrenheit => &[40.0, 70.0, 100.0],
        TemperatureUnit::Celsius => &[0.0, 20.0, 40.0],
    };
    for &v in pressures {
        let y = g.upper(v);
        m.line(vec![(g.left, y), (g.right, y)], t.rule, 1.0);
        let unit = if v == 0.0 {
            g.scales.gauge_unit().to_owned()
        } else {
            format!("{v:.0}")
        };
        m.text(unit, (g.left - 5.0, y), 10.5, Side::Right, t.soft);
    }
    for &v in temperatures {
        let y = g.lower(v);
        m.line(vec![(g.left, y), (g.right, y)], t.rule, 1.0);
        m.text(
            format!("{v:.0}\u{b0}"),
            (g.left - 5.0, y),
            10.5,
            Side::Right,
            t.soft,
        );
    }
    let by = step(f.minutes);
    let mut k = (f.back / by).ceil();
    while k * by <= f.back + f.minutes + 1e-9 {
        let ago = k * by;
        let x = g.right - (g.right - g.left) * (ago - f.back) / f.minutes;
        m.line(vec![(x, g.top), (x, g.bottom)], t.rule, 1.0);
        let text = if ago < 1e-9 {
            words::now().to_owned()
        } else if by < 1.0 {
            format!("\u{2212}{:.0} s", ago * 60.0)
        } else {
            words::minutes_ago(ago)
        };
        let side = if x > g.right - 20.0 {
            Side::Right
        } else {
            Side::Centre
        };
        m.text(text, (x.min(g.right), g.bottom + 11.0), 10.5, side, t.soft);
        k += 1.0;
    }
    m.line(vec![(g.left, g.top), (g.left, g.middle)], t.edge, 1.0);
    if f.vacuum {
        m.line(vec![(g.right, g.top), (g.right, g.middle)], t.edge, 1.0);
        decades(&mut m, &g, t);
    }
    m.line(
        vec![
            (g.left, g.floor + 10.0),
            (g.left, g.bottom),
            (g.right, g.bottom),
        ],
        t.edge,
        1.0,
    );
    m
}
