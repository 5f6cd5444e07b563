//! A charge by weight, and the same recovered.

use lowside_fluids::Refrigerant;
use lowside_session::{HoseAct, InstrumentAct, MachineAct, VehicleAct, VesselAct};
use lowside_units::{Mass, Ratio};

use super::LABEL;
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::Runs,
};

/// The liquid has gone over as far as it will, s; the rest is drawn in as vapour.
const RUNS: f64 = 600.0;
/// The engine stops and the couplers come off, s.
const STOPS: f64 = 2400.0;
/// The machine starts, s.
const RECOVERS: f64 = 3000.0;

pub(super) fn charged_and_recovered(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "19. A charge by weight, checked by recovery",
        "The label's charge from a cylinder into an evacuated loop at 25 degC, within 15 g (half an ounce) of the label; then recovered and weighed: at least \
         95 %, and no more than was in. Hose purged with vapour, then liquid into the high side with the engine off, the rest as vapour into the low side running; then the \
         hose is drawn empty. Both hoses, half an hour.",
        "SAE J639 for the charge (from memory); SAE J2788 (2020) for the recovery",
    );
    let open = |share| Ratio::from_fraction(share);
    let low = |share| HoseAct::LowValve { open: open(share) }.into();
    let high = |share| HoseAct::HighValve { open: open(share) }.into();
    let acts = [
        (
            0.0,
            VesselAct::TakeCylinder {
                gas: Refrigerant::R134a,
                holds: Mass::from_kg(9.0),
            }
            .into(),
        ),
        (0.0, VesselAct::Tap { on: true }.into()),
        (0.0, HoseAct::Purge { on: true }.into()),
        (3.0, HoseAct::Purge { on: false }.into()),
        (5.0, VesselAct::Tap { on: false }.into()),
        (8.0, VesselAct::Invert { on: true }.into()),
        (8.0, InstrumentAct::ZeroScale.into()),
        (8.0, high(1.0)),
        (
            8.0,
            VesselAct::Dose {
                mass: Mass::from_kg(LABEL),
            }
            .into(),
        ),
        (RUNS, high(0.0)),
        (RUNS, VesselAct::Invert { on: false }.into()),
        (RUNS, VehicleAct::Engine { on: true }.into()),
        (RUNS, VehicleAct::AirConditioning { on: true }.into()),
        (RUNS, VehicleAct::Blower { step: 4 }.into()),
        (RUNS, low(1.0)),
        (STOPS, low(0.0)),
        (STOPS, VehicleAct::AirConditioning { on: false }.into()),
        (STOPS, VehicleAct::Engine { on: false }.into()),
        (RECOVERS, HoseAct::Disconnect.into()),
        (
            RECOVERS,
            MachineAct::TakeRecoveryMachine {
                gas: Refrigerant::R134a,
            }
            .into(),
        ),
        (RECOVERS, low(1.0)),
        (RECOVERS, high(1.0)),
        (RECOVERS, MachineAct::RecoveryMachine { on: true }.into()),
    ];
    let run = runs.play(
        "healthy",
        &[
            "start.charge=0g",
            "start.air=0.1mg",
            "day.ambient=25degC",
            "engine.on=false",
            "controls.ac=false",
            "controls.blower=0",
            "until=80min",
        ],
        &acts,
    )?;
    let held = |s: &crate::run::Sample| 1e3 * s.charge;
    let before = run.samples.iter().rfind(|s| s.t < RECOVERS);
    let charged = before.map_or(f64::NAN, held);
    check.find(Finding::within(
        "in the loop after charging",
        charged,
        1e3 * LABEL - 15.0,
        1e3 * LABEL + 15.0,
        "g",
        0,
    ));
    check.find(Finding::within(
        "recovered of it in half an hour",
        100.0 * 1e3 * run.last().recovered / charged,
        95.0,
        100.0,
        "%",
        1,
    ));
    check.plots.push(
        Plot::new("By weight", "time, min", "g")
            .line("in the loop", run.minutes(held))
            .line("recovered", run.minutes(|s| 1e3 * s.recovered)),
    );
    Ok(vec![check])
}
