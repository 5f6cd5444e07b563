//! Pressure over temperature of the loop's gas: the line on which it boils, and where both sides and a loop at rest stand.

use lowside_plant::network::NodeId;
use lowside_session::Bay;
use lowside_units::display::{PressureUnit, UnitSystem};

use super::{Axis, Dot, Frame, Line, Live, Name, Scales, Span, steps, temperature_axis};
use crate::parts::Part;

/// Range of temperature, K: up to where the relief valve lifts.
const RANGE: [f64; 2] = [243.15, 368.15];

pub(super) fn frame(bay: &Bay, units: UnitSystem) -> Frame {
    const N: u32 = 60;
    let s = Scales(units);
    let table = bay.plant().network.table();
    let atmosphere = bay.plant().day().p;
    let [t0, t1] = RANGE;
    let points = (0..=N)
        .map(|k| t0 + (t1 - t0) * f64::from(k) / f64::from(N))
        .map(|t| (s.t(t), s.gauge(table.p_sat(t) - atmosphere)))
        .collect();
    let by_t = if s.fahrenheit() { 20.0 } else { 10.0 };
    let (most, by_p) = match s.pressure() {
        PressureUnit::Psi => (500.0, 50.0),
        PressureUnit::Kpa => (3600.0, 400.0),
        PressureUnit::Bar => (36.0, 4.0),
    };
    Frame {
        x: temperature_axis(s, [t0, t1], by_t),
        y: Axis {
            name: Name::GaugePressure,
            unit: s.gauge_unit(),
            range: [s.gauge(-atmosphere), most],
            log: false,
            decimals: 0,
            ticks: steps(0.0, most, by_p),
        },
        lines: vec![Line {
            name: Name::Saturation,
            label: None,
            points,
        }],
    }
}

pub(super) fn live(bay: &Bay, units: UnitSystem) -> Live {
    let s = Scales(units);
    let plant = bay.plant();
    let (net, c, day) = (&plant.network, &plant.circuit, plant.day());
    let table = net.table();
    let point = |name, part, t: f64, gauge: f64| Dot {
        name,
        part,
        at: (s.t(t), s.gauge(gauge)),
        shown: [s.show_t(t), s.show_gauge(gauge)],
        small: false,
    };
    // Lines of the vehicle where a thermometer would be clamped: suction line and liquid line.
    let side = |node: NodeId| {
        let state = &net.node(node).state;
        (state.t, state.p)
    };
    let mut live = Live::default();
    let rest = table.p_sat(day.t) - day.p;
    live.dots.push(point(Name::Static, None, day.t, rest));
    for (name, part, node) in [
        (Name::LowSide, Part::Suction, c.suction_line.outlet()),
        (Name::HighSide, Part::Liquid, c.liquid_line.outlet()),
    ] {
        let (t, pa) = side(node);
        live.dots.push(point(name, Some(part), t, pa - day.p));
        let boils = table.t_sat(pa);
        let y = s.gauge(pa - day.p);
        // Warmer than the line: superheat; colder: subcooling. With air in it, a loop at rest stands above the line.
        let (span, from, to) = if t > boils {
            (Name::Superheat, boils, t)
        } else {
            (Name::Subcooling, t, boils)
        };
        if to - from > 0.3 && pa > 20e3 {
            live.spans.push(Span {
                name: span,
                from: (s.t(from), y),
                to: (s.t(to), y),
                shown: s.show_difference(to - from),
            });
        }
    }
    live
}
