//! Heat transfer in the coils: the correlations against values worked out apart from this code, their tables against them, and
//! the geometry of the shipped vehicles.
//!
//! `coil_correlations.csv` holds R-134a at 55 degC, 250 kg/(s m2) in 2 mm (Shah 1979, checked there against an open heat-transfer
//! library; Gnielinski), at 5 degC, 150 kg/(s m2), 10 kW/m2 in 6 mm (Gungor & Winterton 1986, from memory), and the louvre fin of Chang
//! & Wang 1997 (from memory) at three air velocities. Its fluid properties are CoolProp's.

use lowside_fluids::Refrigerant;
use lowside_plant::{
    in_tube::{Saturated, cooper, film, gnielinski, gungor_winterton, shah, single_phase},
    inside::Inside,
    louver::Fins,
};
use lowside_session::library;
use lowside_tests::{csv::Csv, runs::scenario};

/// Argument and value of the rows whose quantity begins so.
fn rows(quantity: &str) -> Vec<(f64, f64)> {
    let rows: Vec<(f64, f64)> = Csv::read("coil_correlations.csv")
        .rows()
        .filter(|r| r.text("quantity").starts_with(quantity))
        .map(|r| {
            (
                r.text("argument").parse().unwrap_or(f64::NAN),
                r.get("value"),
            )
        })
        .collect();
    assert!(!rows.is_empty(), "{quantity} stands in the table");
    rows
}

fn near(what: &str, got: f64, asked: f64, share: f64) {
    assert!(
        (got / asked - 1.0).abs() < share,
        "{what}: {got:.4} for {asked:.4}"
    );
}

#[test]
fn condensing_is_shah_1979() {
    let s = Saturated::of(Refrigerant::R134a, 328.15);
    let points = rows("h_shah79");
    assert_eq!(points.len(), 5);
    for (x, asked) in points {
        near(&format!("x = {x}"), shah(&s, 250.0, 2e-3, x), asked, 0.005);
    }
}

#[test]
fn boiling_is_gungor_and_winterton_1986() {
    let s = Saturated::of(Refrigerant::R134a, 278.15);
    let points = rows("h_gw86");
    assert_eq!(points.len(), 5);
    for (x, asked) in points {
        let got = gungor_winterton(&s, 150.0, 6e-3, x, 1e4);
        near(&format!("x = {x}"), got, asked, 0.01);
    }
}

#[test]
fn one_phase_is_gnielinski() {
    let s = Saturated::of(Refrigerant::R134a, 328.15);
    let h = |mu, pr, k| film(250.0, 2e-3, mu, pr, k);
    let vapour = h(s.t.mu_g, s.prandtl_g(), s.t.k_g);
    near("vapour", vapour, rows("h_gniel vapour")[0].1, 0.01);
    // At the liquid's Reynolds number, below 4 000, the check value is Gnielinski's formula as it stands.
    let re = 250.0 * 2e-3 / s.t.mu_l;
    let liquid = gnielinski(re, s.prandtl_l()) * s.t.k_l / 2e-3;
    near("liquid", liquid, rows("h_gniel liquid")[0].1, 0.01);
    let ours = h(s.t.mu_l, s.prandtl_l(), s.t.k_l);
    assert!((3500.0..4000.0).contains(&re) && ours < liquid && ours > 0.9 * liquid);
    // No jump where laminar flow ends, none where turbulent flow begins.
    for re in [2300.0, 4000.0] {
        let (below, above) = (single_phase(re - 1e-6, 3.0), single_phase(re + 1e-6, 3.0));
        assert!((below - above).abs() < 1e-6, "{re}: {below} and {above}");
    }
    assert!((single_phase(900.0, 0.9) - 3.66).abs() < 1e-12);
    // Incropera & DeWitt's worked range: Re 1e5, Pr 0.7 gives Nu about 180 (Dittus-Boelter 199, Gnielinski 10 % lower).
    assert!((170.0..190.0).contains(&gnielinski(1e5, 0.7)));
}

fn check_fin() -> Fins {
    Fins {
        pitch: 1.4e-3,
        height: 8e-3,
        depth: 20e-3,
        thickness: 0.1e-3,
        louver_pitch: 1e-3,
        louver_length: 6.8e-3,
        louver_angle: 27.0,
        tube_pitch: 10e-3,
    }
}

#[test]
fn louvred_fins_are_chang_and_wang_1997() {
    let fins = check_fin();
    // Kinematic viscosity of air at 35 degC, as the check values have it.
    for (velocity, row) in [
        (2.0, "j_louver v2"),
        (3.0, "j_louver v3"),
        (4.0, "j_louver v4"),
    ] {
        let re = velocity * fins.louver_pitch / 1.65e-5;
        near(row, fins.colburn(re), rows(row)[0].1, 0.01);
    }
    // Typical films of such fins: 80-200 W/(m2 K) at 1 to 4 m/s face velocity (common practice); a fin this short is good for 85 % and more.
    let metres = 24.8;
    let (finned, bare) = fins.area_per_tube();
    for velocity in [1.0, 2.0, 4.0] {
        let flow = velocity * 1.15 * metres * fins.tube_pitch;
        let h = fins.conductance(metres, flow, 308.15) / (metres * (finned + bare));
        assert!(
            (60.0..220.0).contains(&h),
            "{velocity} m/s: {h:.0} W/(m2 K)"
        );
    }
    assert!((0.85..1.0).contains(&fins.efficiency(150.0)));
    assert!(fins.efficiency(400.0) < fins.efficiency(100.0));
}

/// What a tick uses against the correlations, over the range a loop can meet, for every gas.
#[test]
fn tables_are_the_correlations() {
    for gas in [Refrigerant::R134a, Refrigerant::R12, Refrigerant::R1234yf] {
        for bore in [1.2e-3, 2e-3, 4e-3] {
            let inside = Inside::new(gas, bore);
            for t in [253.0, 268.4, 281.7, 300.0, 318.9, 340.2] {
                let s = Saturated::of(gas, t);
                for flux in [45.0, 90.0, 200.0, 420.0] {
                    let (powers, boils) = (inside.flux(flux), inside.boiling_flux(flux));
                    let at = format!("{gas}, {bore} m, {t} K, {flux} kg/(s m2)");
                    for x in [0.03, 0.117, 0.3, 0.55, 0.82, 0.96] {
                        let (got, asked) =
                            (inside.condensing(&powers, t, x), shah(&s, flux, bore, x));
                        near(&format!("{at}, x {x} condensing"), got, asked, 0.01);
                        for heat in [800.0, 5e3, 25e3] {
                            let got = inside.boiling(&boils, t, x, heat, 1.0);
                            let asked = gungor_winterton(&s, flux, bore, x, heat);
                            near(
                                &format!("{at}, x {x}, {heat} W/m2 boiling"),
                                got,
                                asked,
                                0.01,
                            );
                        }
                    }
                    let got = inside.vapour(&powers, t);
                    let asked = film(flux, bore, s.t.mu_g, s.prandtl_g(), s.t.k_g);
                    near(&format!("{at} vapour"), got, asked, 0.01);
                    let got = inside.liquid(&powers, t);
                    let asked = film(flux, bore, s.t.mu_l, s.prandtl_l(), s.t.k_l);
                    near(&format!("{at} liquid"), got, asked, 0.01);
                }
            }
        }
    }
}

/// Pool boiling of R-134a at 10 kW/m2: 2-4 kW/(m2 K) (common practice; Cooper's own scatter is 20 % and more).
#[test]
fn pools_boil_as_they_do() {
    let h = cooper(&Saturated::of(Refrigerant::R134a, 278.15), 1e4);
    assert!((1.5e3..4e3).contains(&h), "{h:.0} W/(m2 K)");
}

/// The cells of a coil join vapour, mixture and liquid without a jump.
#[test]
fn cells_change_smoothly() {
    let inside = Inside::new(Refrigerant::R134a, 1.6e-3);
    let (powers, boils) = (inside.flux(250.0), inside.boiling_flux(250.0));
    let condenser = |i: u32| {
        // From bare vapour to full of liquid: static quality and void fall together, flowing quality ahead of them.
        let dry = f64::from(i) / 4000.0;
        inside.condenser_cell(&powers, 325.0, dry, dry.sqrt(), dry, 1.0)
    };
    let evaporator =
        |i: u32| inside.evaporator_cell(&boils, 278.0, f64::from(i) / 4000.0, 0.9, 8e3, 1.0);
    for i in 0..4000 {
        for (name, a, b) in [
            ("condenser", condenser(i), condenser(i + 1)),
            ("evaporator", evaporator(i), evaporator(i + 1)),
        ] {
            assert!(
                a > 0.0 && (b - a).abs() < 0.06 * a.max(b),
                "{name} {i}: {a} to {b}"
            );
        }
    }
    assert!(
        evaporator(4000) < 0.4 * evaporator(2000),
        "a dry wall takes little"
    );
}

/// The channels of every shipped coil fit into its volume, and its air side lies where the correlation was made.
#[test]
fn shipped_coils_are_possible() {
    for vehicle in library::vehicle_names().split(", ") {
        let v = scenario(
            "healthy",
            &[&format!("vehicle={vehicle}"), "start.charge=300g"],
        )
        .vehicle;
        for (name, tubes, volume) in [
            ("condenser", &v.condenser.tubes, v.condenser.volume),
            ("evaporator", &v.evaporator.tubes, v.evaporator.volume),
        ] {
            let channels = tubes.volume() * 1e3;
            assert!(
                channels < 0.95 * volume.l() && channels > 0.5 * volume.l(),
                "{vehicle}, {name}: {channels:.2} L of channels in {:.2} L",
                volume.l()
            );
        }
    }
}
