//! The psychrometric chart: the day's air and the cabin's, their mixing before the coil, the coil, and the ducts behind it.

use lowside_fluids::moist_air;
use lowside_plant::evaporator::Air;
use lowside_session::Bay;
use lowside_units::display::{Shown, Style, UnitSystem};

use super::{Axis, Dot, Frame, Line, Live, Name, Scales, steps, temperature_axis};
use crate::parts::Part;

/// Lowest temperature, K.
const COLD: f64 = 273.15;
/// Highest temperatures, K, and most humidity ratios, kg/kg: the smallest that hold the air of the moment are shown.
const HOT: [f64; 2] = [328.15, 348.15];
const WET: [f64; 3] = [0.030, 0.060, 0.090];
/// Grains in a pound: 7 000 by definition.
const GRAINS: f64 = 7_000.0;
/// Air flow below which nothing is drawn through the coil, kg/s.
const STILL: f64 = 0.01;

impl Scales {
    fn w(self, w: f64) -> f64 {
        w * if self.us() { GRAINS } else { 1e3 }
    }

    fn w_unit(self) -> &'static str {
        if self.us() { "gr/lb" } else { "g/kg" }
    }

    fn show_w(self, w: f64) -> Shown {
        let style = if self.us() {
            Style::new(0, "gr/lb")
        } else {
            Style::new(1, "g/kg")
        };
        style.show(self.w(w))
    }
}

/// Which ranges the air of outside and cabin asks for.
pub(super) fn range(bay: &Bay) -> [usize; 2] {
    let (day, cabin) = (bay.plant().day(), bay.plant().cabin.air);
    let least = |most: &[f64], v: f64| most.iter().take(most.len() - 1).filter(|m| **m < v).count();
    [
        least(&HOT, day.t.max(cabin.t)),
        least(&WET, day.w().max(cabin.w)),
    ]
}

pub(super) fn frame(bay: &Bay, units: UnitSystem) -> Frame {
    let s = Scales(units);
    let p = bay.plant().day().p;
    let [hot, wet] = range(bay);
    let (t0, t1, most) = (COLD, HOT[hot], WET[wet]);
    let lines = [1.0, 0.8, 0.6, 0.4, 0.2]
        .map(|rh| {
            const N: u32 = 44;
            // One point lies beyond the range, so that the line is cut where it leaves the chart.
            let mut within = true;
            let points = (0..=N)
                .map(|k| t0 + (t1 - t0) * f64::from(k) / f64::from(N))
                .map(|t| (t, moist_air::humidity_ratio(t, rh, p)))
                .take_while(|&(_, w)| core::mem::replace(&mut within, w <= most))
                .map(|(t, w)| (s.t(t), s.w(w)))
                .collect();
            Line {
                name: if rh < 1.0 {
                    Name::RelativeHumidity
                } else {
                    Name::Saturation
                },
                label: Some(format!("{:.0} %", rh * 100.0)),
                points,
            }
        })
        .into();
    let by_t = if s.fahrenheit() { 10.0 } else { 5.0 };
    // Twice as much between the lines where twice as much is shown, and so on.
    let by_w = [1.0, 2.0, 4.0][wet] * if s.us() { 30.0 } else { 5.0 };
    Frame {
        x: temperature_axis(s, [t0, t1], by_t),
        y: Axis {
            name: Name::HumidityRatio,
            unit: s.w_unit(),
            range: [0.0, s.w(most)],
            log: false,
            decimals: 0,
            ticks: steps(0.0, s.w(most), by_w),
        },
        lines,
    }
}

/// Air as it leaves the coil: the vent's air less what ducts and heater core warm it (the plant's own, turned round).
fn coil_out(bay: &Bay) -> Air {
    let plant = bay.plant();
    let (vent, k) = (plant.cabin.vent, plant.cabin.duct_share());
    let heater = plant.heater_core();
    let h = plant.cabin.heater_share(&heater);
    let ducts_in = (vent.t - k * plant.day().t) / (1.0 - k);
    Air {
        t: (ducts_in - h * heater.coolant) / (1.0 - h),
        w: vent.w,
    }
}

pub(super) fn live(bay: &Bay, units: UnitSystem) -> Live {
    let s = Scales(units);
    let plant = bay.plant();
    let day = plant.day();
    let outside = lowside_plant::cabin::Outside {
        t: day.t,
        w: day.w(),
        p: day.p,
        sun: day.sun,
    };
    let at = |a: Air| (s.t(a.t), s.w(a.w));
    let dot = |name, part, a: Air| Dot {
        name,
        part,
        at: at(a),
        shown: [s.show_t(a.t), s.show_w(a.w)],
        small: false,
    };
    let (out, cabin) = (
        Air {
            t: day.t,
            w: day.w(),
        },
        plant.cabin.air,
    );
    let mut dots = vec![dot(Name::Outside, None, out), dot(Name::Cabin, None, cabin)];
    let path = |name, points| Line {
        name,
        label: None,
        points,
    };
    let mut paths = vec![path(Name::Mixing, vec![at(out), at(cabin)])];
    if plant.cabin.flow > STILL {
        let mixed = plant.cabin.inlet(&outside, plant.settings.recirculate);
        let (coil, vent) = (coil_out(bay), plant.cabin.vent);
        let part = Some(Part::Evaporator);
        dots.push(dot(Name::Mixed, part, mixed));
        dots.push(dot(Name::CoilOut, part, coil));
        dots.push(dot(Name::Vent, None, vent));
        paths.push(path(Name::Coil, vec![at(mixed), at(coil)]));
        paths.push(path(Name::Reheat, vec![at(coil), at(vent)]));
    }
    Live {
        paths,
        dots,
        spans: Vec::new(),
    }
}
