//! Runs the van and prints a row every few seconds: a look into the loop while working on it.
//!
//! `cargo run --release -p lowside-plant --example trace -- AMBIENT_C RPM CHARGE_KG MINUTES [AIR_G]`
use lowside_plant::plant::{Day, Plant, Start};

#[expect(clippy::print_stdout, reason = "a tool for the terminal")]
fn main() {
    let arg: Vec<f64> = std::env::args()
        .skip(1)
        .filter_map(|a| a.parse().ok())
        .collect();
    let get = |i: usize, d: f64| arg.get(i).copied().unwrap_or(d);
    let text = include_str!("../../../scenarios/vehicles/utility-van.toml");
    let vehicle: lowside_plant::vehicle::Vehicle =
        toml::from_str(text).expect("the van's file is sound");
    vehicle.check().expect("the van's numbers are possible");
    let day = Day {
        t: get(0, 35.0) + 273.15,
        humidity: 0.4,
        p: 101_325.0,
        sun: 0.0,
    };
    let start = Start {
        charge: get(2, 1.0),
        air: get(4, 0.0) * 1e-3,
        water: 0.0,
        oil: 0.237,
        cabin_t: day.t,
    };
    let mut plant = Plant::new(&vehicle, day, &start);
    let e0 = plant.energy() - plant.network.account().energy_in;
    let m0 = plant.network.held().0[0] - plant.network.account().mass_in.0[0];
    plant.settings.blower = 4;
    plant.settings.engine_rpm = get(1, 1500.0);
    plant.settings.engine_on = true;
    plant.settings.ac_on = true;
    let ticks = (get(3, 10.0) * 3000.0) as usize;
    let clock = std::time::Instant::now();
    let mut on = 0;
    for k in 0..ticks {
        if k % if k < 500 { 50 } else { 750 } == 0 {
            let p = plant.places;
            let n = |i| &plant.network.node(i).state;
            let t = plant.network.table();
            let ev = n(p.evaporator + 4);
            println!(
                "{:6.1}s HP {:6.0} LP {:5.0} kPag vent {:5.1} cab {:5.1} Q {:5.0} W {:5.0} SH {:4.1} SC {:4.1} Tdis {:5.1} accL {:.2} m {:4.1} g/s or {:4.1} on {} cyc {} oilF {:.2} evx {} corr {}",
                k as f64 * 0.02,
                (n(p.discharge).p - 101_325.0) / 1e3,
                (n(p.accumulator).p - 101_325.0) / 1e3,
                plant.cabin.vent.t - 273.15,
                plant.cabin.air.t - 273.15,
                plant.evaporator.duty,
                plant.network.link(p.compressor).shaft,
                ev.t - t.t_sat(ev.p),
                t.t_sat(n(p.liquid).p) - n(p.liquid).t,
                n(p.discharge).t - 273.15,
                n(p.accumulator).v_liq / 0.75e-3,
                plant.network.link(p.compressor).flow * 1e3,
                plant.network.link(p.orifice).flow * 1e3,
                u8::from(plant.drive.engaged),
                plant.drive.cycles,
                n(p.condenser + 5).void_fraction(),
                (0..5)
                    .map(|i| format!("{:.2}", n(p.evaporator + i).quality()))
                    .collect::<Vec<_>>()
                    .join(","),
                plant.network.corrections,
            );
        }
        plant.tick();
        on += usize::from(plant.drive.engaged);
    }
    let e = plant.energy() - plant.network.account().energy_in;
    let m = plant.network.held().0[0] - plant.network.account().mass_in.0[0];
    println!(
        "energy off by {:.3e} J, mass by {:.3e} kg, duty {:.2}",
        e - e0,
        m - m0,
        on as f64 / ticks as f64
    );
    println!(
        "{:.0} times real time",
        ticks as f64 * 0.02 / clock.elapsed().as_secs_f64()
    );
}
