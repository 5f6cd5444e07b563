//! What a job has cost, in the units of the page.

use lowside_session::Bay;
use lowside_units::{
    Duration, Mass,
    display::{self, Shown, Style, UnitSystem},
};

pub use lowside_lessons::Severity;
use lowside_lessons::{Cost, Truth, toll};

/// Parts of a thousand of a compressor's life count.
const LIFE: Style = Style::new(2, "%");
/// Traces.
const MILLIGRAMS: Style = Style::new(0, "mg");

/// A harm in figures.
#[derive(Debug, Clone, PartialEq)]
pub enum Told {
    /// People hurt, so often.
    Hurt(usize),
    /// So many cans burst.
    Burst(usize),
    /// The discharge hose burst, at such a time.
    HoseBurst(Shown),
    /// The compressor seized at such a time, and whether the clutch burnt with it.
    Seized(Shown, bool),
    /// Liquid drawn by the compressor: how often, for how long, and how much of its life that took.
    Liquid(usize, Shown, Shown),
    /// Life that dryness, heat, pressure and grit took of it.
    Wear(Shown),
    /// Air let into the loop.
    Air(Shown),
    /// Water let into the loop.
    Water(Shown),
    /// Refrigerant let into the room.
    Vented(Shown),
}

/// All that counts, the worst first.
pub fn told(bay: &Bay, units: UnitSystem) -> Vec<(Severity, Told)> {
    texts(toll(&Truth::of(bay)), units)
}

/// Costs as text.
pub fn texts(costs: Vec<(Severity, Cost)>, units: UnitSystem) -> Vec<(Severity, Told)> {
    let trace = |kg: f64| {
        if kg < 1e-3 {
            MILLIGRAMS.show(kg * 1e6)
        } else {
            Style::new(1, "g").show(kg * 1e3)
        }
    };
    let life = |share: f64| LIFE.show(share * 100.0);
    let tell = |cost| match cost {
        Cost::Hurt { times } => Told::Hurt(times),
        Cost::Burst { cans } => Told::Burst(cans),
        Cost::HoseBurst { seconds } => {
            Told::HoseBurst(display::duration(Duration::from_s(seconds)))
        }
        Cost::Seized {
            seconds,
            clutch_burnt,
        } => Told::Seized(display::duration(Duration::from_s(seconds)), clutch_burnt),
        Cost::Liquid {
            times,
            seconds,
            wear,
        } => Told::Liquid(
            times,
            display::duration(Duration::from_s(seconds)),
            life(wear),
        ),
        Cost::Wear(share) => Told::Wear(life(share)),
        Cost::Air(kg) => Told::Air(trace(kg)),
        Cost::Water(kg) => Told::Water(trace(kg)),
        Cost::Vented(kg) => Told::Vented(display::mass(Mass::from_kg(kg), units)),
    };
    costs.into_iter().map(|(s, c)| (s, tell(c))).collect()
}
