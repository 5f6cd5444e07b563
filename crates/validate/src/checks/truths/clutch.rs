//! Cycling is normal wherever the loop's own balance lies under the switch.

use super::{JUMPED, TRADE, with};
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Run, Runs},
};

/// Lowest pressures at which the clutch let go in the last two minutes: their mean, psig.
fn trips_at(run: &Run) -> f64 {
    let late: Vec<f64> = run
        .trips
        .iter()
        .filter(|t| t.t > run.summary.t_s - 120.0)
        .map(|t| t.low / 6.894_757)
        .collect();
    late.iter().sum::<f64>() / late.len() as f64
}

/// 11: cycling, a bad switch, a low charge.
pub(super) fn cycling(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "11. Cycling is normal",
        "The clutch cycles exactly where the balance low side (switch jumped) would lie under the switch's 152 kPag, 5 kPa either way \
         not counted. A bad switch lets go at 33 psig, a low charge at the switch's true 24 (here set so), each as set to 2 psi.",
        TRADE,
    );
    let mut plots = Vec::new();
    for (rpm, speed) in [
        ("800", "idle"),
        ("1500", "1 500 rpm"),
        ("2500", "2 500 rpm"),
    ] {
        let speed_set = format!("engine.speed={rpm}rpm");
        let (mut balance, mut cycles) = (Vec::new(), Vec::new());
        for day in [21.0, 27.0, 32.0, 38.0, 43.0] {
            let ambient = with("day.ambient", day, "degC");
            let low = runs.healthy(&[JUMPED, &ambient, &speed_set])?.on.low;
            let own = runs.healthy(&[
                "vehicle=utility-van",
                "start.charge=1.02058275kg",
                &ambient,
                &speed_set,
            ])?;
            // The high-pressure cut-out lets go too; only the cycling switch is meant here.
            let from = own.summary.t_s - 120.0;
            let on_low = own.trips.iter().filter(|t| t.t > from && t.low < 180.0);
            let c = on_low.count() as f64 / 2.0;
            balance.push((day, low));
            cycles.push((day, c));
            if (low - 152.0).abs() > 5.0 {
                check.find(Finding::holds(
                    format!("{day} degC, {speed}"),
                    format!("balance {low:.0} kPag, {c:.1} cycles a minute"),
                    if low < 152.0 {
                        "cycles"
                    } else {
                        "does not cycle"
                    },
                    (low < 152.0) == (c > 0.0),
                ));
            }
        }
        plots.push((speed, balance, cycles));
    }
    let bad = runs.healthy(&[
        "vehicle.switches.low_opens=33psig",
        "vehicle.switches.low_closes=48psig",
    ])?;
    check.find(Finding::within(
        "bad switch set to 33 psig lets go at",
        trips_at(&bad),
        31.0,
        35.0,
        "psig",
        1,
    ));
    let low = runs.healthy(&["vehicle.switches.low_opens=24psig", "start.charge=450g"])?;
    check.find(Finding::within(
        "low charge (450 g), switch at 24 psig, lets go at",
        trips_at(&low),
        22.0,
        26.0,
        "psig",
        1,
    ));
    let mut a = Plot::new(
        "Balance of the low side, switch jumped",
        "day, degC",
        "kPa gauge",
    )
    .band(
        "under the switch",
        vec![(21.0, 0.0, 152.0), (43.0, 0.0, 152.0)],
    );
    let mut b = Plot::new("Cycles with the switch", "day, degC", "a minute");
    for (speed, balance, cycles) in plots {
        a = a.curve(speed, balance);
        b = b.curve(speed, cycles);
    }
    check.plots = vec![
        a,
        b,
        Plot::new("Low side, last two minutes", "time, s", "kPa gauge")
            .line("bad switch", late(&bad))
            .line("low charge", late(&low)),
    ];
    Ok(vec![check])
}

fn late(run: &Run) -> Vec<(f64, f64)> {
    let from = run.summary.t_s - 120.0;
    run.curve(|s| s.low)
        .into_iter()
        .filter(|p| p.0 > from)
        .collect()
}
