//! scratch
use lowside_session::{Action, Bay};
use lowside_shop::vacuum::MICRON;
use lowside_tests::runs::scenario;
use lowside_units::{Quantity, Ratio, VolumeFlow};

#[test]
fn explore() {
    let water = std::env::var("W").unwrap_or("0g".into());
    let air = std::env::var("A").unwrap_or("3.9g".into());
    let mut bay = Bay::new(&scenario(
        "healthy",
        &[
            "start.charge=0g",
            &format!("start.air={air}"),
            &format!("start.water={water}"),
            "engine.on=false",
            "controls.ac=false",
            "controls.blower=0",
            "day.ambient=25degC",
            "condition.desiccant_load=100%",
        ],
    ));
    let cfm: f64 = std::env::var("CFM").map_or(3.0, |s| s.parse().unwrap());
    for a in [
        Action::TakePump {
            speed: VolumeFlow::from_cfm(cfm),
        },
        Action::Isolation { on: true },
        Action::Pump { on: true },
        Action::LowValve {
            open: Ratio::from_si(1.0),
        },
        Action::HighValve {
            open: Ratio::from_si(1.0),
        },
    ] {
        bay.apply(a).unwrap();
    }
    let p0 = bay.plant().places;
    println!(
        "vol {}",
        (p0.discharge..=p0.suction)
            .map(|i| bay.plant().network.node(i).volume)
            .sum::<f64>()
    );
    let end: f64 = std::env::var("END").map_or(1200.0, |s| s.parse().unwrap());
    let t0 = std::time::Instant::now();
    let mut next = 0.0;
    while bay.seconds() < end {
        if bay.seconds() >= next {
            let net = &bay.plant().network;
            let p = bay.plant().places;
            let n = |i: usize| &net.node(i).state;
            let w: f64 = (p.discharge..=p.suction)
                .map(|i| net.node(i).content[2])
                .sum();
            let ice: f64 = (p.discharge..=p.suction).map(|i| n(i).m_ice).sum();
            let f = bay.shop().places;
            println!(
                "{:6.0} s acc {:9.1} um {:6.1} C dis {:9.1} ev {:9.1} um {:5.1}C cond {:9.1} {:5.1}C  lowhose {:8.1} svc {:8.1} pump {:8.1} um {:5.1}C  water {:.4} g ice {:.4} oilw {:.3} corr {} uns {} errs {:.1e} {:.1e}",
                next,
                n(p.accumulator).p / MICRON,
                n(p.accumulator).t - 273.15,
                n(p.discharge).p / MICRON,
                n(p.evaporator + 2).p / MICRON,
                n(p.evaporator + 2).t - 273.15,
                n(p.condenser + 3).p / MICRON,
                n(p.condenser + 3).t - 273.15,
                n(f.low_hose).p / MICRON,
                n(f.service_hose).p / MICRON,
                n(f.can).p / MICRON,
                n(f.can).t - 273.15,
                w * 1e3,
                ice * 1e3,
                bay.shop().pump_oil.water * 1e3,
                net.corrections,
                net.unsettled,
                bay.mass_error(),
                bay.energy_error()
            );
            next = if next < 10.0 { next + 1.0 } else { next * 1.25 };
        }
        bay.step();
    }
    println!("wall {:?} parts", t0.elapsed());
}
