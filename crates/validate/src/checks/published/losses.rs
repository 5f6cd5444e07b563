//! What is lost at idle and on the road.

use lowside_plant::entropy;
use lowside_session::TICKS_PER_SECOND;

use super::with;
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Run, Runs},
};

/// How long the losses are counted after a run's end, s: two minutes hold several cycles of the clutch.
const COUNTED: u64 = 120;
/// One tick in so many is audited: two a second.
const EVERY: u64 = TICKS_PER_SECOND / 2;

/// Entropy made by loop and coils from the end of a run, times the day's temperature, W: what is lost of the work.
fn lost(run: &Run) -> Result<f64, Error> {
    let mut bay = run.bay.clone();
    let (mut made, mut audits) = (0.0, 0.0);
    for tick in 0..COUNTED * TICKS_PER_SECOND {
        if tick.is_multiple_of(EVERY) {
            made += entropy::audit(bay.plant())
                .iter()
                .filter(|m| m.slack.is_finite())
                .map(|m| m.entropy)
                .sum::<f64>();
            audits += 1.0;
        }
        bay.step()?;
    }
    Ok(made / (audits * lowside_plant::plant::TICK) * (run.ambient + 273.15))
}

const OTHER_CAR: &str = "A car whose displacement, day and engine speeds are not told: which of its runs cycle decides, and cannot be known.";

pub(super) fn on_the_road(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "9. Irreversibility at idle and on the road",
        "A cycling-clutch orifice-tube car: +18 % from idle to 48 km/h, +5 % from 48 to 97 km/h. Only the abstract was \
         reachable, and its day and engine speeds are not told: no verdict; ours at 35 and 24 degC, 800, 1 500 and 2 200 rpm (own figures). Entropy made by loop and both coils \
         over two minutes with the clutch as it cycles, times the day's temperature.",
        "Ratts & Brown, Appl. Therm. Eng. 20 (2000) 1039, abstract",
    );
    let mut plot = Plot::new("Work lost", "road speed, km/h", "W");
    for day in [35.0, 24.0] {
        let (mut points, mut cycles) = (Vec::new(), Vec::new());
        for (road, rpm) in [(0.0, 800.0), (48.0, 1500.0), (97.0, 2200.0)] {
            let run = runs.healthy(&[
                &with("engine.speed", rpm, "rpm"),
                &with("controls.road_speed", road, "km/h"),
                &with("day.ambient", day, "degC"),
            ])?;
            points.push((road, lost(&run)?));
            cycles.push(run.cycles_per_minute());
        }
        for (k, what, asked) in [(1, "idle to 48 km/h", 18.0), (2, "48 to 97 km/h", 5.0)] {
            check.find(Finding::beside(
                format!(
                    "{day} degC, {what} ({:.1} and {:.1} cycles a minute)",
                    cycles[k - 1],
                    cycles[k]
                ),
                format!("{:+.1} %", 100.0 * (points[k].1 / points[k - 1].1 - 1.0)),
                format!("{asked:+.0} %"),
                OTHER_CAR,
            ));
        }
        plot = plot.curve(format!("{day} degC"), points);
    }
    check.plots.push(plot);
    Ok(vec![check])
}
