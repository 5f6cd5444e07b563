//! The drawing of parts of a closed bay: what clings to surfaces, couplers, valves, wheels that turn, air by its thermometers. What is inside
//! stands at nothing, and is not drawn.

use lowside_lessons::{Shown as Known, Surface};
use lowside_units::{
    Power, Quantity, Temperature,
    display::{self, UnitSystem},
};

use crate::parts::{Cell, Coat, Parts, Tube, Tubes};

/// Cells of a coil as it is drawn from outside.
const CELLS: usize = 5;

/// The drawing by what is shown.
pub fn parts(shown: &Known<'_>, units: UnitSystem) -> Parts {
    let coat = |surface| shown.surface(surface).map_or(Coat::Dry, |feel| feel.coat);
    let tube = |coat| Tube {
        t: 0.0,
        speed: 0.0,
        flow: 0.0,
        liquid: 0.0,
        coat,
    };
    let cell = Cell {
        t: 0.0,
        wall: 0.0,
        fill: 0.0,
        air: 0.0,
        liquid: 0.0,
    };
    let hands = &shown.hands;
    let nothing = || (0.0, display::heat_flow(Power::from_si(0.0), units));
    let t = |k: f64| display::temperature(Temperature::from_k(k), units);
    Parts {
        tubes: Tubes {
            discharge: tube(coat(Surface::Discharge)),
            liquid: tube(coat(Surface::Liquid)),
            behind: tube(coat(Surface::EvaporatorInlet)),
            cold: tube(coat(Surface::EvaporatorOutlet)),
            suction: tube(coat(Surface::Suction)),
            low_hose: tube(Coat::Dry),
            high_hose: tube(Coat::Dry),
            service_hose: tube(Coat::Dry),
        },
        condenser: vec![cell; CELLS],
        evaporator: vec![cell; CELLS],
        accumulator: (0.0, 0.0, coat(Surface::Accumulator)),
        can: shown.can().map(|_| (0.0, 0.0, coat(Surface::Vessel))),
        body: 0.0,
        held: 0.0,
        drips: shown.drips,
        frosted: false,
        open: 1.0,
        turns: shown.turning[0] / 60.0,
        engine: shown.turning[1] / 60.0,
        relief: shown.relief,
        switches: [true; 2],
        coupled: [hands.low_coupled, hands.high_coupled],
        valves: [hands.low_valve, hands.high_valve],
        shed: nothing(),
        taken: nothing(),
        work: nothing(),
        air: [t(shown.day.t), t(shown.air[1]), t(shown.air[0])],
        air_flow: [0.0; 2],
    }
}
