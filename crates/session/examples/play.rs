//! Plays a shipped scenario and prints what the instruments show: `cargo run --release --example play -- charge-from-cans`.
use lowside_session::{Bay, Scenario, library, script::Player};

#[expect(clippy::print_stdout, reason = "a tool for the terminal")]
fn main() {
    let mut args = std::env::args().skip(1);
    let name = args.next().unwrap_or_else(|| "charge-from-cans".into());
    let sets: Vec<String> = args.collect();
    let scenario = Scenario::parse(library::scenario(&name).expect("known scenario"), &sets)
        .expect("sound scenario");
    let mut bay = Bay::new(&scenario);
    let mut player = Player::new(&scenario.act);
    let mut seen = 0;
    let end = (scenario.until.s() * 50.0) as u64;
    let clock = std::time::Instant::now();
    while bay.tick() < end {
        player.play(&mut bay).expect("acts are taken");
        if bay.tick() % 1500 == 0 || (bay.tick() < 3000 && bay.tick() % 100 == 0) {
            let i = &bay.shop().instruments;
            let can = bay.plant().network.node(bay.shop().places.can);
            println!(
                "{:6.1}s LP {:6.0} HP {:6.0} vent {:5.1} cab {:5.1} scale {:.3} charge {:.3} can {:5.1}C {:6.0}kPa cycles {} on {} suct liq {:.2}",
                bay.seconds(),
                i.low.reading() / 1e3,
                i.high.reading() / 1e3,
                i.vent.reading() - 273.15,
                i.cabin.reading() - 273.15,
                i.scale.reading(),
                bay.charge(),
                can.state.t - 273.15,
                can.state.p / 1e3,
                bay.plant().drive.cycles,
                u8::from(bay.plant().drive.engaged),
                bay.plant().suction_liquid()
            );
        }
        bay.step();
        for (t, e) in &bay.events()[seen..] {
            if !matches!(
                e,
                lowside_session::Event::ClutchIn | lowside_session::Event::LowSwitchOpened
            ) {
                println!("   {:.1}s {e:?}", *t as f64 / 50.0);
            }
        }
        seen = bay.events().len();
    }
    println!(
        "mass error {:.1e} energy error {:.1e} hash {:016x}",
        bay.mass_error(),
        bay.energy_error(),
        bay.state_hash()
    );
    println!("{:.0} x", bay.seconds() / clock.elapsed().as_secs_f64());
}
