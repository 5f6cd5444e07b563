//! Boiling point of water over pressure: how deep a vacuum must be before water in the loop boils at the warmth of the day.

use lowside_fluids::water;
use lowside_session::Bay;
use lowside_units::{
    AbsolutePressure, Temperature,
    display::{self, PressureUnit, UnitSystem},
};

use super::{Axis, Dot, Frame, Line, Live, Name, Scales};
use crate::parts::Part;

/// Pressures of the chart, Pa absolute.
const PRESSURES: [f64; 2] = [20.0, 110e3];

pub(super) fn frame(units: UnitSystem) -> Frame {
    const N: u32 = 70;
    let s = Scales(units);
    let [low, high] = PRESSURES;
    let points = (0..=N)
        .map(|k| low * libm::pow(high / low, f64::from(k) / f64::from(N)))
        .map(|p| (s.vacuum(p), s.t(water::boiling_temperature(p))))
        .collect();
    let frost = s.t(water::T_TRIPLE);
    let x = [s.vacuum(low), s.vacuum(high)];
    let (t, ticks) = if s.fahrenheit() {
        (
            [-30.0, 220.0],
            vec![0.0, 32.0, 60.0, 100.0, 140.0, 180.0, 212.0],
        )
    } else {
        (
            [-35.0, 105.0],
            vec![-20.0, 0.0, 20.0, 40.0, 60.0, 80.0, 100.0],
        )
    };
    let decades: &[f64] = match s.pressure() {
        PressureUnit::Psi => &[
            200.0, 500.0, 1e3, 2e3, 5e3, 10e3, 25e3, 50e3, 100e3, 250e3, 760e3,
        ],
        PressureUnit::Kpa => &[
            20.0, 50.0, 100.0, 250.0, 600.0, 1.5e3, 5e3, 10e3, 25e3, 50e3, 100e3,
        ],
        PressureUnit::Bar => &[
            0.2, 0.5, 1.0, 2.5, 6.0, 15.0, 50.0, 100.0, 250.0, 500.0, 1e3,
        ],
    };
    Frame {
        x: Axis {
            name: Name::AbsolutePressure,
            unit: s.pressure().vacuum_symbol(),
            range: x,
            log: true,
            decimals: usize::from(s.pressure() == PressureUnit::Bar),
            ticks: decades.to_vec(),
        },
        y: Axis {
            name: Name::Temperature,
            unit: s.t_unit(),
            range: t,
            log: false,
            decimals: 0,
            ticks,
        },
        lines: vec![
            Line {
                name: Name::Saturation,
                label: None,
                points,
            },
            Line {
                name: Name::Freezing,
                label: None,
                points: vec![(x[0], frost), (x[1], frost)],
            },
        ],
    }
}

pub(super) fn live(bay: &Bay, units: UnitSystem) -> Live {
    let s = Scales(units);
    let plant = bay.plant();
    let day = plant.day();
    let [low, high] = PRESSURES;
    let vacuum = |pa: f64| display::vacuum(AbsolutePressure::from_pa(pa), units);
    let pa = plant.network.node(plant.circuit.low_side()).state.p;
    let at = pa.clamp(low, high);
    let boils = water::boiling_temperature(at);
    let t = |k: f64| display::temperature(Temperature::from_k(k), units);
    let dots = vec![
        Dot {
            name: Name::BoilsHere,
            part: Some(Part::Accumulator),
            at: (s.vacuum(at), s.t(boils)),
            shown: [vacuum(pa), t(boils)],
            small: false,
        },
        Dot {
            name: Name::OutsideWarmth,
            part: None,
            at: (s.vacuum(at), s.t(day.t)),
            shown: [vacuum(pa), t(day.t)],
            small: false,
        },
    ];
    let paths = vec![Line {
        name: Name::Reading,
        label: None,
        points: vec![(s.vacuum(at), s.t(boils)), (s.vacuum(at), s.t(day.t))],
    }];
    Live {
        paths,
        dots,
        spans: Vec::new(),
    }
}
