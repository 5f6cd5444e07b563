//! The orifice tube against published correlations.
//!
//! `tests/data/orifice_flow.csv` holds three, evaluated with CoolProp properties: Payne & O'Neal, HVAC&R Research 10(1)
//! (2004) 73-87; Choi, Chung & Kim, Int. J. Refrigeration 27 (2004) 393-400; and the form of Kim & O'Neal, ASHRAE Trans.
//! 100 (1994), with coefficients for R-134a and R-12. Downstream pressure 300 kPa, length 38 mm.

use lowside_fluids::Refrigerant;
use lowside_plant::orifice::{Inlet, Orifice};
use lowside_tests::csv::Csv;

const DOWNSTREAM: f64 = 300e3;

struct Row {
    gas: Refrigerant,
    inlet: Inlet,
    tube: Orifice,
    payne: f64,
    choi: Option<f64>,
    kim: Option<f64>,
}

fn rows() -> Vec<Row> {
    Csv::read("orifice_flow.csv")
        .rows()
        .map(|row| {
            let gas: Refrigerant = row.text("fluid").parse().expect("a refrigerant");
            let p = row.get("p_up_Pa");
            let subcooling = row.get("subcooling_K");
            let table = gas.table();
            let t_sat = table.t_sat(p);
            // The correlation takes saturation properties at the inlet pressure, the saturation pressure at its temperature.
            let sat = table.sat(t_sat);
            Row {
                gas,
                inlet: Inlet {
                    p,
                    p_sat: table.p_sat(t_sat - subcooling),
                    subcooling,
                    quality: row.get("quality"),
                    rho_liq: sat.rho_l,
                    rho_gas: sat.rho_g,
                    p_crit: table.p_crit(),
                    t_crit: table.t_crit(),
                },
                tube: Orifice {
                    bore: row.get("d_m"),
                    length: row.get("l_m"),
                    open: 1.0,
                },
                payne: row.get("payne_kgs"),
                choi: row.find("choi_kgs"),
                kim: row.find("kim_kgs"),
            }
        })
        .collect()
}

impl Row {
    fn choked(&self) -> f64 {
        self.tube.choked_flux(&self.inlet) * self.tube.area()
    }

    fn name(&self) -> String {
        let i = &self.inlet;
        format!(
            "{} {:.2} mm {} kPa, {} K, x {}",
            self.gas,
            self.tube.bore * 1e3,
            i.p / 1e3,
            i.subcooling,
            i.quality
        )
    }
}

#[test]
fn choked_flow_is_payne_and_o_neal() {
    let rows = rows();
    assert!(rows.len() > 200, "{} rows", rows.len());
    for row in &rows {
        let off = row.choked() / row.payne - 1.0;
        assert!(
            off.abs() < 1e-3,
            "{}: {:.4} of {:.4} g/s",
            row.name(),
            row.choked() * 1e3,
            row.payne * 1e3
        );
    }
}

#[test]
fn the_other_two_correlations_lie_near() {
    // Subcooled rows with a bore of 1.5 mm and more. The tables' header speaks of about 15 %; measured, Choi lies 19 % and Kim
    // 24 % away at worst (the validation report shows both as misses). A quarter guards against a gross mistake, no more.
    let mut worst: [f64; 2] = [0.0; 2];
    for row in rows()
        .iter()
        .filter(|r| r.tube.bore >= 1.5e-3 && r.inlet.subcooling >= 4.0)
    {
        for (k, other) in [row.choi, row.kim].into_iter().enumerate() {
            let off = row.choked() / other.expect("subcooled rows have all three") - 1.0;
            worst[k] = worst[k].max(off.abs());
            assert!(
                off.abs() < 0.25,
                "{}: {:.0} % from the other correlation",
                row.name(),
                100.0 * off
            );
        }
    }
    assert!(
        worst.iter().all(|w| *w > 0.001),
        "the comparison must have compared something"
    );
}

#[test]
fn flow_runs_smoothly_from_liquid_to_vapour_and_falls() {
    for p in [600e3, 1.0e6, 1.6e6, 2.4e6] {
        let table = Refrigerant::R134a.table();
        let sat = table.sat(table.t_sat(p));
        let tube = Orifice {
            bore: 1.7e-3,
            length: 38e-3,
            open: 1.0,
        };
        let at = |x: f64| {
            let inlet = Inlet {
                p,
                p_sat: p,
                subcooling: 0.0,
                quality: x,
                rho_liq: sat.rho_l,
                rho_gas: sat.rho_g,
                p_crit: table.p_crit(),
                t_crit: table.t_crit(),
            };
            tube.choked_flux(&inlet)
        };
        let mut last = at(0.0);
        for k in 1..=1000 {
            let x = f64::from(k) / 1000.0;
            let now = at(x);
            // The published fit bends up by a percent at the very start of boiling; after that flow only falls.
            let top = if x < 0.02 {
                at(0.0).max(last) * 1.01
            } else {
                last * 1.002
            };
            assert!(
                now <= top,
                "{p} Pa: flow rises from {last} to {now} at quality {x}"
            );
            assert!(
                now > last * 0.9,
                "{p} Pa: flow jumps from {last} to {now} at quality {x}"
            );
            last = now;
        }
        // Pure vapour: an ideal nozzle with its discharge coefficient, Saint-Venant & Wantzel, expansion number 1.12.
        let nozzle = 0.85 * 0.6342 * (p * sat.rho_g).sqrt();
        assert!((last / nozzle - 1.0).abs() < 1e-9);
    }
}

#[test]
fn no_flow_passes_what_the_difference_can_drive() {
    for row in rows() {
        for dp in [0.0, 1.0, 1e3, 20e3, 100e3, row.inlet.p - DOWNSTREAM] {
            let flow = row.tube.rate(&row.inlet, dp).flow;
            let x = row.inlet.quality;
            let v = x / row.inlet.rho_gas + (1.0 - x) / row.inlet.rho_liq;
            let bernoulli = row.tube.area() * (2.0 * dp / v).sqrt();
            assert!(
                flow <= bernoulli + 1e-12,
                "{} at {dp} Pa: {flow} above {bernoulli}",
                row.name()
            );
            assert!(
                flow <= row.choked() + 1e-12,
                "{} at {dp} Pa: above choked",
                row.name()
            );
        }
    }
}
