//! A fingerprint of a bay's state: equal bits, equal hash, natively and in the browser.

use lowside_plant::plant::Plant;
use lowside_shop::Shop;

/// Fowler-Noll-Vo, variant 1a, 64 bit: simple, the same everywhere, good enough to tell two states apart.
struct Fnv(u64);

impl Fnv {
    fn word(&mut self, w: u64) {
        for b in w.to_le_bytes() {
            self.0 = (self.0 ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3);
        }
    }

    fn number(&mut self, x: f64) {
        // One zero and one NaN only.
        let bits = if x == 0.0 {
            0
        } else if x.is_nan() {
            u64::MAX
        } else {
            x.to_bits()
        };
        self.word(bits);
    }
}

/// Hash of everything that decides how the bay goes on.
pub(crate) fn state_hash(tick: u64, plant: &Plant, shop: &Shop) -> u64 {
    let mut h = Fnv(0xcbf2_9ce4_8422_2325);
    h.word(tick);
    for node in plant.network.nodes() {
        for m in node.content.0 {
            h.number(m);
        }
        h.number(node.energy);
        h.number(node.state.t);
    }
    for link in plant.network.links() {
        h.number(link.flow);
    }
    for t in plant.condenser.wall.iter().chain(&plant.evaporator.wall) {
        h.number(*t);
    }
    for s in &plant.shells {
        h.number(s.t);
    }
    let c = &plant.cabin;
    for x in [
        c.air.t,
        c.air.w,
        c.interior,
        c.vent.t,
        c.vent.w,
        plant.hood_t,
        plant.evaporator.held,
    ] {
        h.number(x);
    }
    let i = &shop.instruments;
    for g in [&i.low, &i.high, &i.vent, &i.cabin, &i.scale] {
        h.number(g.pointer());
    }
    h.word(u64::from(plant.drive.engaged) | u64::from(plant.drive.cycles) << 1);
    h.0
}
