//! Density and energy to temperature and pressure: the tables against the equation of state.
//!
//! The points are what a running loop and its service meet: two phases from nearly dry to nearly full,
//! superheated vapour down to a vacuum, compressed liquid. Guesses are half a kelvin off, more than a tick
//! moves a node.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use lowside_fluids::saturation;
use lowside_fluids::{Refrigerant, Table};
use std::hint::black_box;

/// Density, internal energy and guessed temperature.
type Point = (f64, f64, f64);

fn points(gas: Refrigerant) -> Vec<Point> {
    let table = gas.table();
    let mut out = Vec::new();
    for i in 0..24 {
        let t = 233.15 + 5.2 * f64::from(i);
        let s = table.sat(t);
        for x in [0.002, 0.05, 0.2, 0.5, 0.8, 0.97, 0.998] {
            let v = (1.0 - x) / s.rho_l + x / s.rho_g;
            out.push((1.0 / v, (1.0 - x) * s.u_l + x * s.u_g, t + 0.5));
        }
        for (share, hotter) in [
            (1e-5, 20.0),
            (1e-3, 5.0),
            (0.1, 10.0),
            (0.5, 15.0),
            (0.9, 4.0),
            (0.99, 30.0),
        ] {
            let rho = share * s.rho_g;
            out.push((rho, table.vapour(rho, t + hotter).u, t + hotter + 0.5));
        }
        let rho = 1.001 * s.rho_l;
        out.push((rho, table.liquid(rho, t, &s).u, t + 0.5));
    }
    out
}

/// The same root with the equation itself: equilibrium at the guessed temperature, Newton in temperature.
fn by_equation(gas: Refrigerant, (rho, u, guess): Point) -> f64 {
    let eq = gas.equation();
    let (mut t, mut p) = (guess, 0.0);
    for _ in 0..20 {
        let Ok(sat) = saturation::at_temperature(eq, t) else {
            return f64::NAN;
        };
        let (residual, slope);
        if rho > sat.rho_g && rho < sat.rho_l {
            let (l, g) = sat.phases(eq);
            let x = (1.0 / rho - 1.0 / l.rho) / (1.0 / g.rho - 1.0 / l.rho);
            residual = (1.0 - x) * l.u + x * g.u - u;
            let dp = (g.s - l.s) / (1.0 / g.rho - 1.0 / l.rho);
            let cv = |f: &lowside_fluids::eos::Properties| {
                let d = (dp - f.dp_dt) / f.dp_drho;
                (f.cv + f.du_drho * d, -d / (f.rho * f.rho))
            };
            let ((du_l, dv_l), (du_g, dv_g)) = (cv(&l), cv(&g));
            let dx = -(dv_l + x * (dv_g - dv_l)) / (1.0 / g.rho - 1.0 / l.rho);
            slope = (1.0 - x) * du_l + x * du_g + dx * (g.u - l.u);
            p = sat.p;
        } else {
            let f = eq.properties(rho, t);
            residual = f.u - u;
            slope = f.cv;
            p = f.p;
        }
        let step = -residual / slope;
        t += step;
        if step.abs() < 1e-3 {
            break;
        }
    }
    p
}

fn bench(c: &mut Criterion) {
    for gas in Refrigerant::ALL {
        let (table, set) = (gas.table(), points(gas));
        let mut group = c.benchmark_group(gas.name());
        group.bench_function("build tables", |b| {
            b.iter(|| Table::build(black_box(gas.equation())));
        });
        group.throughput(Throughput::Elements(set.len() as u64));
        group.bench_function("state, tables", |b| {
            b.iter(|| {
                set.iter()
                    .map(|&(rho, u, t)| table.state(black_box(rho), u, t).p)
                    .sum::<f64>()
            });
        });
        group.bench_function("state, tables, settled", |b| {
            b.iter(|| {
                set.iter()
                    .map(|&(rho, u, t)| table.state(black_box(rho), u, t - 0.4999).p)
                    .sum::<f64>()
            });
        });
        group.bench_function("state, equation", |b| {
            b.iter(|| {
                set.iter()
                    .map(|&point| by_equation(gas, black_box(point)))
                    .sum::<f64>()
            });
        });
        group.bench_function("saturation", |b| {
            b.iter(|| {
                set.iter()
                    .map(|&(_, _, t)| table.sat(black_box(t)).u_g)
                    .sum::<f64>()
            });
        });
        group.finish();
    }
}

criterion_group!(benches, bench);
criterion_main!(benches);
