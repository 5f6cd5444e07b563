//! Probe.
use lowside_session::{Bay, script::Player};
use lowside_tests::runs::scenario;
#[test]
fn probe() {
    let sets = std::env::var("SETS").unwrap_or_default();
    let o: Vec<&str> = sets.split(',').filter(|s| !s.is_empty()).collect();
    let name = std::env::var("SCN").unwrap_or("healthy".into());
    let sc = scenario(&name, &o);
    let mut bay = Bay::new(&sc);
    let mut player = Player::new(&sc.act);
    let end = sc.until.s();
    let every: f64 = std::env::var("EVERY")
        .ok()
        .and_then(|s| s.parse().ok())
        .unwrap_or(20.0);
    let mut next = 0.0;
    while bay.seconds() < end {
        if bay.seconds() >= next - 1e-9 {
            next += every;
            let p = bay.plant();
            let n = |i: usize| p.network.node(i);
            let g =
                |r: std::ops::Range<usize>, k: usize| r.map(|i| n(i).content[k]).sum::<f64>() * 1e3;
            let pl = p.places;
            let mut s = format!(
                "{:6.1} eng {} lo {:5.0} hi {:5.0} ocr {:5.2}% comp {:5.2}% dT {:5.1} body {:5.1} |",
                bay.seconds(),
                u8::from(p.drive.engaged),
                n(pl.accumulator).state.p / 1e3,
                n(pl.discharge).state.p / 1e3,
                100.0 * p.oil_circulation(),
                100.0 * p.network.link(pl.compressor).oil,
                n(pl.discharge).state.t - 273.15,
                p.shells[0].t - 273.15
            );
            for (name, r) in [
                ("dis", pl.discharge..pl.discharge + 1),
                ("con", pl.condenser..pl.liquid),
                ("liq", pl.liquid..pl.liquid + 1),
                ("eva", pl.evaporator..pl.accumulator),
                ("acc", pl.accumulator..pl.accumulator + 1),
                ("suc", pl.suction..pl.suction + 1),
            ] {
                s += &format!(
                    " {name} {:.0}/{:.0}/{:.0}",
                    g(r.clone(), 3),
                    g(r.clone(), 4),
                    g(r, 0)
                );
            }
            println!("{s}");
        }
        player.play(&mut bay).unwrap();
        bay.step();
    }
}
