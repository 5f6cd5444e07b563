//! When the oil comes round after the clutch engages.

use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Runs, Sample},
};
use lowside_session::VehicleAct;

/// How long after the clutch a peak is looked for, s.
const LOOKED: f64 = 60.0;

pub(super) fn peak(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "12. Oil circulation after the clutch engages",
        "Peaks about 10 s after the clutch engages (5 to 20 s asked), at half above the steady value at least (our reading of a peak). 1 500 rpm, 35 degC; the \
         button pressed as the run begins, and after the engine has run without it for a minute; share of oil in the flow through the liquid line, once a \
         second.",
        "SAE 980286, abstract",
    );
    let mut plot = Plot::new(
        "Oil in circulation",
        "time after the clutch engages, s",
        "% of the flow",
    );
    for (what, off, acts) in [
        ("at once", "controls.ac=true", None),
        (
            "after a minute",
            "controls.ac=false",
            Some((60.0, VehicleAct::AirConditioning { on: true }.into())),
        ),
    ] {
        let run = runs.play("healthy", &[off], acts.as_slice())?;
        let engaged = run
            .samples
            .iter()
            .find(|s| s.engaged > 0.0)
            .map_or(f64::NAN, |s| s.t);
        let after = |s: &&Sample| s.t >= engaged && s.t <= engaged + LOOKED;
        let most = run
            .samples
            .iter()
            .filter(after)
            .max_by(|a, b| a.oil.total_cmp(&b.oil));
        let (at, share) = most.map_or((f64::NAN, f64::NAN), |s| (s.t - engaged, s.oil));
        check.find(Finding::within(
            format!("pressed {what}: peak after the clutch engages"),
            at,
            5.0,
            20.0,
            "s",
            0,
        ));
        check.find(Finding::holds(
            format!("pressed {what}: height of the peak"),
            format!("{:.2} % of the flow", 100.0 * share),
            format!("at least 1.5 times the steady {:.2} %", 100.0 * run.on.oil),
            share >= 1.5 * run.on.oil,
        ));
        let course = run
            .samples
            .iter()
            .filter(after)
            .map(|s| (s.t - engaged, 100.0 * s.oil));
        plot = plot.line(format!("pressed {what}"), course.collect());
    }
    check.plots.push(plot);
    Ok(vec![check])
}
