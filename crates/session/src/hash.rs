//! A fingerprint of a bay's state: equal bits, equal hash, natively and in the browser.

use lowside_plant::plant::Plant;
use lowside_shop::{Shop, can::Stance, gauge::Instrument};

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

    fn numbers<const N: usize>(&mut self, all: [f64; N]) {
        for x in all {
            self.number(x);
        }
    }

    fn flags<const N: usize>(&mut self, all: [bool; N]) {
        self.word(
            all.iter()
                .fold(0, |word, &flag| word << 1 | u64::from(flag)),
        );
    }
}

/// Hash of everything that decides how the bay goes on, and of the books.
pub(crate) fn state_hash(tick: u64, plant: &Plant, shop: &Shop) -> u64 {
    let mut h = Fnv(0xcbf2_9ce4_8422_2325);
    h.word(tick);
    for node in plant.network.nodes() {
        h.numbers(node.content.0);
        h.numbers([node.energy, node.state.t, node.bound]);
        h.numbers([node.oil_water, node.oil.creep, node.dissolving]);
        h.flags([node.oil.mixes]);
    }
    for link in plant.network.links() {
        h.numbers([link.flow, link.oil]);
    }
    h.word(plant.oil.turn as u64);
    let account = plant.network.account();
    h.numbers(account.mass_in.0);
    h.numbers(account.to_room.0);
    h.number(account.energy_in);
    h.numbers(plant.condenser.wall);
    h.numbers(plant.evaporator.wall);
    h.numbers([
        plant.evaporator.held,
        plant.evaporator.drained,
        plant.hood_t,
    ]);
    for s in &plant.shells {
        h.numbers([s.t, s.outside]);
    }
    let c = &plant.cabin;
    h.numbers([c.air.t, c.air.w, c.interior, c.vent.t, c.vent.w]);
    let (d, k, s) = (plant.day(), &plant.condition, &plant.settings);
    h.numbers([d.t, d.humidity, d.p, d.sun]);
    h.numbers([
        k.compressor_wear,
        k.orifice_open,
        k.condenser_air,
        k.evaporator_air,
    ]);
    h.numbers([s.engine_rpm, s.road_speed]);
    h.word(s.blower as u64);
    h.flags([s.engine_on, s.ac_on, s.recirculate, s.windows_open]);
    let w = &plant.damage;
    h.numbers([w.slugging, w.washing, w.dryness, w.heat, w.pressure]);
    let d = &plant.drive;
    h.flags([d.engaged, d.cycling.closed, d.cut_out.closed]);
    h.numbers(d.felt());
    h.number(d.grip);
    h.word(u64::from(d.cycles));
    let hands = &shop.hands;
    h.numbers([hands.low_valve, hands.high_valve]);
    h.flags([
        hands.low_coupled,
        hands.high_coupled,
        hands.purging,
        hands.can.is_some(),
    ]);
    h.word(u64::from(hands.cans_taken));
    if let Some(can) = &hands.can {
        h.flags([can.open, can.burst, can.stance == Stance::Inverted]);
        h.number(can.bath.unwrap_or(0.0));
    }
    h.numbers(shop.shelf.0);
    let i = &shop.instruments;
    h.numbers([&i.low, &i.high, &i.vent, &i.cabin, &i.scale].map(Instrument::pointer));
    h.0
}
