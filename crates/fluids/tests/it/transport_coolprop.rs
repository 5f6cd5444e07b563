//! Transport properties of the refrigerants against CoolProp 8.0.0.

use lowside_fluids::{Refrigerant, Transport};
use lowside_tests::csv::{Csv, stem};

fn gas(name: &str) -> Refrigerant {
    name.parse().expect(name)
}

/// Points that are not those of the fit, 194 K to 2 K below critical: the stated 0.1 %.
#[test]
fn along_saturation() {
    let mut worst = [0.0f64; 7];
    let table = Csv::read("transport_saturation.csv");
    for gas in Refrigerant::ALL {
        let own = table.rows().filter(|r| r.text("gas").parse() == Ok(gas));
        let own = own.count();
        assert!(own >= 60, "{gas}: {own} rows");
    }
    for r in table.rows() {
        let v = r.numbers(1);
        let t = Transport::at(gas(r.text("gas")), v[0]);
        let ours = [t.mu_l, t.mu_g, t.k_l, t.k_g, t.sigma, t.cp_l, t.cp_g];
        for ((worst, ours), theirs) in worst.iter_mut().zip(ours).zip(&v[1..]) {
            *worst = worst.max((ours / theirs - 1.0).abs());
            assert!(
                (ours / theirs - 1.0).abs() < 1e-3,
                "{} {v:?}: {ours} against {theirs}",
                r.text("gas")
            );
        }
    }
    eprintln!("largest relative error, mu_l mu_g k_l k_g sigma cp_l cp_g: {worst:.5?}");
}

/// The reference tables that stand beside the equations of state, every refrigerant.
#[test]
fn reference_saturation_tables() {
    for gas in Refrigerant::ALL {
        for r in Csv::read(&format!("{}_saturation.csv", stem(gas))).rows() {
            let t_k = r.get("T_K");
            let t = Transport::at(gas, t_k);
            for (what, ours, column) in [
                ("cp_l", t.cp_l, "cp_JkgK_liq"),
                ("cp_g", t.cp_g, "cp_JkgK_vap"),
                ("mu_l", t.mu_l, "mu_Pas_liq"),
                ("mu_g", t.mu_g, "mu_Pas_vap"),
                ("k_l", t.k_l, "k_WmK_liq"),
                ("k_g", t.k_g, "k_WmK_vap"),
                ("sigma", t.sigma, "sigma_Nm"),
            ] {
                let theirs = r.get(column);
                assert!(
                    (ours / theirs - 1.0).abs() < 1e-3,
                    "{gas} {t_k} K {what}: {ours} against {theirs}"
                );
            }
        }
    }
}

/// Superheated vapour, 1 kPa to 2.5 MPa, 2 to 70 K above saturation: the errors stated at `Transport::vapour`.
#[test]
fn superheated_vapour() {
    let (mut low, mut high) = ([0.0f64; 3], [0.0f64; 3]);
    let table = Csv::read("transport_vapour.csv");
    assert!(table.rows().count() > 190);
    for r in table.rows() {
        let [t, t_sat, p, mu, k, cp] = r.numbers(1)[..] else {
            panic!("columns")
        };
        let ours = Transport::vapour(gas(r.text("gas")), t, t_sat);
        let worst = if p <= 1e6 { &mut low } else { &mut high };
        for (w, e) in
            worst
                .iter_mut()
                .zip([ours.mu / mu - 1.0, ours.k / k - 1.0, ours.cp / cp - 1.0])
        {
            *w = w.max(e.abs());
        }
    }
    eprintln!("largest relative error of mu, k, cp to 1 MPa: {low:.3?}, to 2.5 MPa: {high:.3?}");
    for (w, limit) in low
        .iter()
        .chain(&high)
        .zip([0.02, 0.03, 0.06, 0.07, 0.06, 0.16])
    {
        assert!(*w < limit, "{low:?} {high:?}");
    }
}

/// Handbook figures apart from the fits: R-134a saturated at 25 degC,
/// mu_l 194.9e-6 Pa s, k_l 0.0811 W/(m K), sigma 8.03e-3 N/m (ASHRAE Handbook Fundamentals, R-134a tables; from memory, hence 1 to 3 %).
#[test]
fn r134a_handbook_values() {
    let t = Transport::at(Refrigerant::R134a, 298.15);
    assert!((t.mu_l / 194.9e-6 - 1.0).abs() < 0.02, "{}", t.mu_l);
    assert!((t.k_l / 0.0811 - 1.0).abs() < 0.03, "{}", t.k_l);
    assert!((t.sigma / 8.03e-3 - 1.0).abs() < 0.01, "{}", t.sigma);
}

/// Any temperature gives finite positive figures, held at the ends of the range.
#[test]
fn outside_the_range() {
    for gas in Refrigerant::ALL {
        let (low, high) = Transport::range(gas);
        assert_eq!(Transport::at(gas, -1e9), Transport::at(gas, low));
        assert_eq!(Transport::at(gas, f64::INFINITY), Transport::at(gas, high));
        for t in [0.0, 193.15, 300.0, 460.0, 1e6] {
            for s in [0.0, 193.15, 300.0, 390.0, 1e6] {
                let v = Transport::vapour(gas, t, s);
                assert!(
                    v.mu > 0.0 && v.k > 0.0 && v.cp > 0.0 && (v.mu + v.k + v.cp).is_finite(),
                    "{gas} {t} {s} {v:?}"
                );
            }
        }
    }
}
