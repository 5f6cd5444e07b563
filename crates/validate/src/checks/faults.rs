//! Faults: each alone against the healthy van, and sweeps of the ones that have a size.

use super::{
    Sweep, curve, list, rises,
    truths::{JUMPED, rises_at_first},
    with,
};
use crate::{
    Job,
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Run, Runs},
};

mod course;
mod drive;
mod signs;

pub(super) use signs::on_the_switch;

/// What fills the section.
pub const JOBS: &[Job] = &[
    signs::table,
    course::table,
    air,
    condenser_air,
    orifice_area,
    bore,
    wear,
    drive::worn_out,
    drive::clutch,
    drive::radiator,
    drive::oil,
    humidity,
];

const PRACTICE: &str = "fault table of common practice, no source";
const IDLE: &str = "engine.speed=800rpm";

fn sweep(
    runs: &Runs,
    values: &[f64],
    overrides: impl Fn(f64) -> Vec<String>,
) -> Result<Sweep, Error> {
    values
        .iter()
        .map(|v| {
            let own = overrides(*v);
            let texts: Vec<&str> = own.iter().map(String::as_str).collect();
            Ok((*v, runs.healthy(&texts)?))
        })
        .collect()
}

fn values(sweep: &Sweep, of: fn(&Run) -> f64) -> Vec<f64> {
    sweep.iter().map(|(_, r)| of(r)).collect()
}

/// Value at a place of the sweep.
fn at(sweep: &Sweep, x: f64, of: fn(&Run) -> f64) -> f64 {
    sweep
        .iter()
        .find(|(v, _)| (v - x).abs() < 1e-9)
        .map_or(f64::NAN, |(_, r)| of(r))
}

/// Readings that ought to rise from value to value of a sweep, but for so much slack, in their unit; kelvins are shown to a tenth.
fn rising(what: &str, values: &[f64], slack: f64, unit: &str) -> Finding {
    let asked = if slack > 0.0 {
        format!("rising, slack {slack} {unit}")
    } else {
        "rising".into()
    };
    let decimals = usize::from(unit == "K");
    Finding::holds(what, list(values, decimals), asked, rises(values, slack))
}

/// Pressures, temperatures and differences over the sweep.
fn plots(sweep: &Sweep, name: &str, x: &str) -> Vec<Plot> {
    vec![
        Plot::new(format!("{name}: pressures, clutch in"), x, "kPa gauge")
            .curve("high side", curve(sweep, |r| r.on.high))
            .curve("low side", curve(sweep, |r| r.on.low)),
        Plot::new(
            format!("{name}: temperatures and differences"),
            x,
            "degC or K",
        )
        .curve("vent", curve(sweep, |r| r.all.vent))
        .curve("superheat", curve(sweep, |r| r.on.superheat))
        .curve("subcooling", curve(sweep, |r| r.on.subcooling)),
        Plot::new(format!("{name}: capacity"), x, "kW")
            .curve("capacity", curve(sweep, |r| r.summary.capacity_W / 1e3)),
    ]
}

fn air(runs: &Runs) -> Result<Vec<Check>, Error> {
    let grams = [0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 3.6, 4.0];
    let s = sweep(runs, &grams, |g| {
        vec![IDLE.into(), with("start.air", g, "g")]
    })?;
    let mut check = Check::new(
        "Air in the loop, 0 to 4 g (idle, 35 degC)",
        "Air raises the high side, 3.6 g, what a loop never evacuated holds, by 200 kPa and more. High side never falls, vent gets warmer: 2 g \
         are felt.",
        "common practice, no source; m R T / V by hand",
    );
    check.tuned = "how much air at the film hinders condensing (4-8)".into();
    let over = |g| at(&s, g, |r| r.on.high) - at(&s, 0.0, |r| r.on.high);
    check.find(
        Finding::within("1 g: high side", over(1.0), 30.0, 200.0, "kPa more", 0).instead_of(
            "150 to 200 kPa more",
            "Held wholly in condenser and discharge line, a gram has 110 kPa by its own pressure (m R T over the 0.85 L that liquid leaves, 325 K), and \
             up to as much again for what it hinders. At idle two or three kelvins of subcooling are all the seal there is, and air takes it away: a \
             part goes round with the bubbles.",
        ),
    );
    check.find(
        Finding::holds(
            "3.6 g: high side",
            format!("{:+.0} kPa", over(3.6)),
            "at least +200 kPa",
            over(3.6) >= 200.0,
        )
        .instead_of(
            "at least +400 kPa",
            "By its own pressure, wholly held, it would have 390 kPa: the same bound.",
        ),
    );
    let vent_over = |g| at(&s, g, |r| r.all.vent) - at(&s, 0.0, |r| r.all.vent);
    check.find(Finding::within(
        "2 g: vent",
        vent_over(2.0),
        0.5,
        5.0,
        "K warmer",
        1,
    ));
    check.find(rising(
        "high side rises with air",
        &values(&s, |r| r.on.high),
        5.0,
        "kPa",
    ));
    let vents = values(&s, |r| r.all.vent);
    check.find(Finding::holds(
        "vent warms with air",
        list(&vents, 1),
        "rising, slack 0.2 K; warmer at 3.6 g",
        rises(&vents, 0.2) && at(&s, 3.6, |r| r.all.vent) > vents[0],
    ));
    check.plots = plots(&s, "Air", "air, g");
    Ok(vec![check])
}

fn condenser_air(runs: &Runs) -> Result<Vec<Check>, Error> {
    let shares = [30.0, 40.0, 50.0, 60.0, 70.0, 85.0, 100.0];
    let s = sweep(runs, &shares, |v| {
        vec![IDLE.into(), with("condition.condenser_air", v, "%")]
    })?;
    let mut check = Check::new(
        "Condenser air flow, 30 to 100 % (idle, 35 degC)",
        "Less air: low side, high side and vent up, capacity down, at every step.",
        PRACTICE,
    );
    let down = |of: fn(&Run) -> f64| -> Vec<f64> {
        let mut v = values(&s, of);
        v.reverse();
        v
    };
    check.find(rising(
        "high side rises as air falls",
        &down(|r| r.on.high),
        0.0,
        "kPa",
    ));
    check.find(rising(
        "low side rises as air falls",
        &down(|r| r.on.low),
        2.0,
        "kPa",
    ));
    check.find(rising(
        "vent rises as air falls",
        &down(|r| r.all.vent),
        0.2,
        "K",
    ));
    check.find(Finding::holds(
        "half the air: high side",
        format!(
            "{:+.0} kPa",
            at(&s, 50.0, |r| r.on.high) - at(&s, 100.0, |r| r.on.high)
        ),
        "at least +150 kPa",
        at(&s, 50.0, |r| r.on.high) - at(&s, 100.0, |r| r.on.high) >= 150.0,
    ));
    check.plots = plots(&s, "Condenser air", "air flow, %");
    Ok(vec![check])
}

fn orifice_area(runs: &Runs) -> Result<Vec<Check>, Error> {
    let shares = [20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0];
    let s = sweep(runs, &shares, |v| {
        vec![with("condition.orifice_open", v, "%")]
    })?;
    let mut check = Check::new(
        "Open area of the orifice, 20 to 100 % (1 500 rpm, 35 degC)",
        "Choked a little: high side up as liquid moves to the condenser, 45 kPa at most at 90 % open and 120 at 80 %. By 40 % the \
         accumulator runs dry, capacity falls, and the high side is within 10 psi of healthy or below. Choked much: low side and high side down, vent up, subcooling high, superheat high.",
        PRACTICE,
    );
    let base = |of: fn(&Run) -> f64| at(&s, 100.0, of);
    rises_at_first(&mut check, &s);
    let over = |v: f64| at(&s, v, |r| r.on.high) - base(|r| r.on.high);
    check.find(Finding::holds(
        "40 %: high side over healthy",
        format!("{:+.0} kPa", over(40.0)),
        "at most +69 kPa (10 psi)",
        over(40.0) <= 69.0,
    ));
    check.find(Finding::holds(
        "40 %: liquid left in the accumulator",
        format!("{:.1} %", 100.0 * at(&s, 40.0, |r| r.all.level)),
        "at most 1 %",
        at(&s, 40.0, |r| r.all.level) <= 0.01,
    ));
    let less =
        100.0 * (1.0 - at(&s, 40.0, |r| r.summary.capacity_W) / base(|r| r.summary.capacity_W));
    check.find(Finding::within(
        "40 %: capacity",
        less,
        10.0,
        100.0,
        "% less",
        0,
    ));
    for v in [20.0, 30.0] {
        check.find(Finding::holds(
            format!("{v} %: high side below its highest"),
            format!("{:.0} kPag", at(&s, v, |r| r.on.high)),
            format!("below {:.0} kPag", base(|r| r.on.high)),
            at(&s, v, |r| r.on.high) < base(|r| r.on.high),
        ));
        check.find(Finding::holds(
            format!("{v} %: vent warmer than healthy"),
            format!("{:.1} degC", at(&s, v, |r| r.all.vent)),
            format!("above {:.1} degC", base(|r| r.all.vent)),
            at(&s, v, |r| r.all.vent) > base(|r| r.all.vent),
        ));
        check.find(Finding::holds(
            format!("{v} %: superheat"),
            format!("{:.1} K", at(&s, v, |r| r.on.superheat)),
            "at least 8 K",
            at(&s, v, |r| r.on.superheat) >= 8.0,
        ));
        check.find(Finding::holds(
            format!("{v} %: subcooling"),
            format!("{:.1} K", at(&s, v, |r| r.on.subcooling)),
            "at least 8 K",
            at(&s, v, |r| r.on.subcooling) >= 8.0,
        ));
    }
    check.plots = plots(&s, "Orifice area", "open area, %");
    Ok(vec![check])
}

fn bore(runs: &Runs) -> Result<Vec<Check>, Error> {
    let bores = [1.2, 1.3, 1.45, 1.6, 1.7, 1.83];
    let mut checks = Vec::new();
    for (rpm, speed) in [(800.0, "idle"), (1500.0, "1 500 rpm")] {
        let own = |v: f64| {
            vec![
                with("engine.speed", rpm, "rpm"),
                with("vehicle.orifice.bore", v, "mm"),
            ]
        };
        let s = sweep(runs, &bores, own)?;
        let jumped = sweep(runs, &bores, |v| {
            own(v).into_iter().chain([JUMPED.to_owned()]).collect()
        })?;
        let mut check = Check::new(
            format!("Bore of the orifice, 1.2 to 1.83 mm ({speed}, 35 degC)"),
            "A wider bore raises the low side; one 0.3 mm too small lowers it and warms the vent.",
            PRACTICE,
        );
        let lows = values(&jumped, |r| r.on.low);
        check.find(
            Finding::holds(
                "low side rises with the bore, cycling switch jumped",
                list(&lows, 0),
                "rising, slack 2 kPa",
                rises(&lows, 2.0),
            )
            .instead_of(
                "the same with the switch at work",
                "At 1 500 rpm the loop balances just above its switch at 1.3 mm and cycles at 1.2, where the mean with the clutch in is the switch's: like \
                 is compared with like.",
            ),
        );
        check.find(Finding::holds(
            "1.3 mm: vent against 1.7 mm",
            format!(
                "{:+.1} K",
                at(&s, 1.3, |r| r.all.vent) - at(&s, 1.7, |r| r.all.vent)
            ),
            "warmer",
            at(&s, 1.3, |r| r.all.vent) > at(&s, 1.7, |r| r.all.vent),
        ));
        check.plots = plots(&s, &format!("Bore, {speed}"), "bore, mm");
        checks.push(check);
    }
    Ok(checks)
}

fn wear(runs: &Runs) -> Result<Vec<Check>, Error> {
    let shares = [0.0, 15.0, 30.0, 45.0, 60.0, 80.0];
    let s = sweep(runs, &shares, |v| {
        vec![with("condition.compressor_wear", v, "%")]
    })?;
    let mut check = Check::new(
        "Worn compressor, 0 to 80 % (1 500 rpm, 35 degC)",
        "Volumetric efficiency falls: low side up, high side down, capacity down, vent warmer.",
        PRACTICE,
    );
    check.find(rising(
        "low side rises with wear",
        &values(&s, |r| r.on.low),
        2.0,
        "kPa",
    ));
    let mut heads = values(&s, |r| r.on.high);
    check.find(Finding::holds(
        "high side falls with wear",
        list(&heads, 0),
        "falling, slack 5 kPa",
        {
            heads.reverse();
            rises(&heads, 5.0)
        },
    ));
    let vents = values(&s, |r| r.all.vent);
    check.find(Finding::holds(
        "vent warms with wear",
        list(&vents, 1),
        "rising, slack 0.3 K; warmer at 60 %",
        rises(&vents, 0.3) && vents[4] > vents[0] + 0.3,
    ));
    check.plots = plots(&s, "Wear", "wear, %");
    Ok(vec![check])
}

fn humidity(runs: &Runs) -> Result<Vec<Check>, Error> {
    let shares = [10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0];
    let mut checks = Vec::new();
    for (more, name) in [("true", "recirculation"), ("false", "outside air")] {
        let s = sweep(runs, &shares, |v| {
            vec![
                IDLE.into(),
                format!("controls.recirculation={more}"),
                with("day.humidity", v, "%"),
                "day.ambient=30degC".into(),
            ]
        })?;
        let mut check = Check::new(
            format!("Humidity, 10 to 90 % (idle, 30 degC, {name})"),
            "Muggier air asks more of the coil: capacity, low side, high side and vent rise with humidity.",
            "common practice, no source; enthalpy of moist air",
        );
        for (what, of, slack, decimals) in [
            (
                "capacity, W",
                (|r: &Run| r.summary.capacity_W) as fn(&Run) -> f64,
                20.0,
                0,
            ),
            ("low side, kPag", |r| r.on.low, 2.0, 0),
            ("high side, kPag", |r| r.on.high, 5.0, 0),
            ("vent, degC", |r| r.all.vent, 0.2, 1),
        ] {
            let v = values(&s, of);
            check.find(Finding::holds(
                format!("{what} rises with humidity"),
                list(&v, decimals),
                format!("rising, slack {slack}"),
                rises(&v, slack) && v[8] > v[0],
            ));
        }
        check.plots = plots(&s, &format!("Humidity, {name}"), "relative humidity, %");
        checks.push(check);
    }
    Ok(checks)
}
