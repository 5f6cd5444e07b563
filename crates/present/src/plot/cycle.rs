//! Pressure over enthalpy: the dome of the gas, isotherms and quality lines from its equation of state, and the loop's states.

use lowside_fluids::{eos::Helmholtz, saturation, table::Table};
use lowside_plant::{
    circuit::Section,
    network::{LinkId, Node, NodeId},
};
use lowside_session::Bay;
use lowside_units::{
    Quantity, SpecificEnergy,
    display::{PressureUnit, Shown, Style, UnitSystem},
};

use super::{Axis, Dot, Frame, Line, Live, Name, Scales, Span, steps};
use crate::parts::{Part, liquid_share};

/// Lowest and highest pressure of the chart, Pa absolute.
const PRESSURES: [f64; 2] = [50e3, 4.5e6];
/// Flow below which the loop counts as at rest, kg/s.
const REST: f64 = 5e-4;

impl Scales {
    fn h(self, j: f64) -> f64 {
        let h = SpecificEnergy::from_si(j);
        if self.us() { h.btu_lb() } else { h.kj_kg() }
    }

    fn h_unit(self) -> &'static str {
        if self.us() { "Btu/lb" } else { "kJ/kg" }
    }

    fn show_h(self, j: f64) -> Shown {
        let style = if self.us() {
            Style::new(1, "Btu/lb")
        } else {
            Style::new(0, "kJ/kg")
        };
        style.show(self.h(j))
    }
}

/// Enthalpies of saturated liquid and vapour at a temperature, J/kg.
fn borders(table: &Table, t: f64) -> (f64, f64) {
    let s = table.sat(t);
    (s.u_l + s.p / s.rho_l, s.u_g + s.p / s.rho_g)
}

pub(super) fn frame(bay: &Bay, units: UnitSystem) -> Frame {
    let s = Scales(units);
    let gas = bay.plant().network.mostly();
    let (table, eq) = (gas.table(), gas.equation());
    let [low, high] = PRESSURES;
    let (t0, t1) = (table.t_sat(low), table.t_max());
    let mut lines = vec![dome(s, table, eq, t0, t1)];
    for k in 1..10 {
        lines.push(quality(s, table, t0, t1, f64::from(k) / 10.0));
    }
    let shown = if s.fahrenheit() {
        steps(-40.0, 280.0, 40.0)
    } else {
        steps(-40.0, 140.0, 20.0)
    };
    for t in shown {
        lines.extend(isotherm(s, table, eq, t));
    }
    // From saturated liquid at the cold end to hot discharge gas at the low pressure.
    let from = s.h(borders(table, table.t_sat(low)).0);
    let hot = eq.properties(2.0, 400.0).h;
    let by = if s.us() { 20.0 } else { 50.0 };
    let range = [(from / by).floor() * by, (s.h(hot) / by).ceil() * by];
    let pressures: &[f64] = match s.pressure() {
        PressureUnit::Psi => &[10.0, 20.0, 50.0, 100.0, 200.0, 500.0],
        PressureUnit::Kpa => &[50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 4000.0],
        PressureUnit::Bar => &[0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 40.0],
    };
    Frame {
        x: Axis {
            name: Name::Enthalpy,
            unit: s.h_unit(),
            range,
            log: false,
            decimals: 0,
            ticks: steps(range[0], range[1], by),
        },
        y: Axis {
            name: Name::AbsolutePressure,
            unit: s.absolute_unit(),
            range: [s.absolute(low), s.absolute(high)],
            log: true,
            decimals: usize::from(s.pressure() == PressureUnit::Bar),
            ticks: pressures.to_vec(),
        },
        lines,
    }
}

fn dome(s: Scales, table: &Table, eq: &Helmholtz, t0: f64, t1: f64) -> Line {
    const N: u32 = 60;
    const NEAR: u32 = 8;
    let at = |k: u32| t0 + (t1 - t0) * f64::from(k) / f64::from(N);
    let p = |t: f64| s.absolute(table.p_sat(t));
    // Next to the critical point, where the tables end, the equation itself.
    let end = eq.t_crit() - 0.1;
    let top: Vec<_> = (1..=NEAR)
        .filter_map(|k| {
            let share = f64::from(k) / f64::from(NEAR);
            let t = end - (end - t1) * (1.0 - share) * (1.0 - share);
            let (l, v) = saturation::at_temperature(eq, t).ok()?.phases(eq);
            Some((l, v))
        })
        .collect();
    let mut points: Vec<_> = (0..=N)
        .map(|k| (s.h(borders(table, at(k)).0), p(at(k))))
        .collect();
    points.extend(top.iter().map(|(l, _)| (s.h(l.h), s.absolute(l.p))));
    points.extend(top.iter().rev().map(|(_, v)| (s.h(v.h), s.absolute(v.p))));
    points.extend(
        (0..=N)
            .rev()
            .map(|k| (s.h(borders(table, at(k)).1), p(at(k)))),
    );
    Line {
        name: Name::Saturation,
        label: None,
        points,
    }
}

fn quality(s: Scales, table: &Table, t0: f64, t1: f64, x: f64) -> Line {
    const N: u32 = 24;
    let points = (0..=N)
        .map(|k| {
            let t = t0 + (t1 - t0) * f64::from(k) / f64::from(N);
            let (l, v) = borders(table, t);
            (s.h(l + x * (v - l)), s.absolute(table.p_sat(t)))
        })
        .collect();
    Line {
        name: Name::Quality,
        label: None,
        points,
    }
}

/// One temperature (as shown): down the liquid, across the dome, down the vapour.
fn isotherm(s: Scales, table: &Table, eq: &Helmholtz, shown: f64) -> Option<Line> {
    const LIQUID: u32 = 16;
    const VAPOUR: u32 = 28;
    let [low, high] = PRESSURES;
    let t = s.k(shown);
    let mut points = Vec::new();
    let mut put = |rho: f64| {
        let q = eq.properties(rho, t);
        if q.p >= low * 0.9 && q.p <= high {
            points.push((s.h(q.h), s.absolute(q.p)));
        }
    };
    let from = if t < table.t_max() {
        let sat = table.sat(t);
        for k in (0..=LIQUID).rev() {
            put(sat.rho_l * (1.0 + 0.15 * (f64::from(k) / f64::from(LIQUID)).powi(3)));
        }
        sat.rho_g
    } else if t > eq.t_crit() {
        0.6 * eq.rho_crit()
    } else {
        // Next to the critical point the tables end.
        return None;
    };
    // Evenly spread in the logarithm of density, down to the lowest pressure as an ideal gas has it.
    let to = 0.9 * low / (eq.gas_constant() * t);
    for k in 0..=VAPOUR {
        put(from * libm::pow(to / from, f64::from(k) / f64::from(VAPOUR)));
    }
    (points.len() > 1).then(|| Line {
        name: Name::Isotherm,
        label: Some(format!(
            "{}{:.0}\u{b0}",
            if shown < -0.5 { "\u{2212}" } else { "" },
            shown.abs()
        )),
        points,
    })
}

/// Enthalpy of what leaves a node with so much liquid in it, J/kg.
fn leaving(node: &Node, liquid: f64) -> f64 {
    let s = &node.state;
    let liquid = liquid_share(node, liquid);
    liquid * s.h_liq + (1.0 - liquid) * s.h_gas
}

/// Mean enthalpy of what a node holds, J/kg.
fn held(node: &Node) -> f64 {
    leaving(node, 1.0 - node.state.quality())
}

pub(super) fn live(bay: &Bay, units: UnitSystem) -> Live {
    let s = Scales(units);
    let plant = bay.plant();
    let (net, c) = (&plant.network, &plant.circuit);
    let flows = net.link(c.compressor()).flow > REST && net.link(c.orifice()).flow > REST;
    let dot = |name: Name, part: Part, pa: f64, h: f64, small: bool| Dot {
        name,
        part: Some(part),
        at: (s.h(h), s.absolute(pa)),
        shown: [s.show_h(h), s.show_absolute(pa)],
        small,
    };
    let out = |node: NodeId, link: LinkId| {
        let n = net.node(node);
        if flows {
            leaving(n, net.link(link).liquid)
        } else {
            held(n)
        }
    };
    let point = |name, part, node: NodeId, link, small| {
        dot(name, part, net.node(node).state.p, out(node, link), small)
    };
    let leaves = |name, part, s: &Section| point(name, part, s.outlet(), s.out(), false);
    let cells = |name, part, coil: &Section| -> Vec<Dot> {
        let ends = coil.nodes().iter().zip(coil.links());
        ends.map(|(node, out)| point(name, part, *node, *out, true))
            .collect()
    };
    let mut dots = vec![
        leaves(Name::Suction, Part::Suction, &c.suction_line),
        leaves(Name::Discharge, Part::Discharge, &c.discharge_line),
    ];
    dots.extend(cells(Name::InCondenser, Part::Condenser, &c.condenser));
    dots.push(leaves(Name::BeforeOrifice, Part::Liquid, &c.liquid_line));
    let first = net.node(c.evaporator.inlet());
    // Throttling keeps the enthalpy.
    let h = if flows {
        out(c.liquid_line.outlet(), c.orifice())
    } else {
        held(first)
    };
    dots.push(dot(
        Name::BehindOrifice,
        Part::Orifice,
        first.state.p,
        h,
        false,
    ));
    dots.extend(cells(Name::InEvaporator, Part::Evaporator, &c.evaporator));
    dots.push(leaves(
        Name::AccumulatorOut,
        Part::Accumulator,
        &c.accumulator,
    ));
    // An empty node has no state to show.
    dots.retain(|d| d.at.1 > s.absolute(PRESSURES[0]) && d.at.0.is_finite());
    let mut paths = Vec::new();
    let mut spans = Vec::new();
    if flows && dots.len() > 12 {
        let mut points: Vec<_> = dots.iter().map(|d| d.at).collect();
        points.push(points[0]);
        paths.push(Line {
            name: Name::Cycle,
            label: None,
            points,
        });
        spans = dimensions(bay, s);
    }
    Live { paths, dots, spans }
}

/// Superheat of the suction gas and subcooling before the orifice, each where it applies.
fn dimensions(bay: &Bay, s: Scales) -> Vec<Span> {
    let (net, c) = (&bay.plant().network, &bay.plant().circuit);
    let mut spans = Vec::new();
    let table = net.table();
    let suction = net.node(c.suction_line.outlet());
    let over = suction.state.t - table.t_sat(suction.state.p);
    if over > 0.3 && net.link(c.compressor()).liquid < 0.01 {
        let h = borders(table, table.t_sat(suction.state.p)).1;
        let y = s.absolute(suction.state.p);
        spans.push(Span {
            name: Name::Superheat,
            from: (s.h(h), y),
            to: (s.h(leaving(suction, 0.0)), y),
            shown: s.show_difference(over),
        });
    }
    let liquid = net.node(c.liquid_line.outlet());
    let under = table.t_sat(liquid.state.p) - liquid.state.t;
    if under > 0.3 && liquid.state.m_gas <= 0.0 {
        let h = borders(table, table.t_sat(liquid.state.p)).0;
        let y = s.absolute(liquid.state.p);
        spans.push(Span {
            name: Name::Subcooling,
            from: (s.h(leaving(liquid, 1.0)), y),
            to: (s.h(h), y),
            shown: s.show_difference(under),
        });
    }
    spans
}
