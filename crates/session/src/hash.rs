//! A fingerprint of a bay's state: equal bits, equal hash, natively and in the browser.

use lowside_fluids::{
    Blend,
    oil::{Oil, Oils},
};
use lowside_plant::{leak::Size, passage::Passage, plant::Plant, seat::Seat};
use lowside_shop::{
    Attached, Shop, can::Stance, gauge::Instrument, identifier::Identifier, joints::Fit,
    vacuum::GaugePlace,
};
use lowside_units::Quantity;

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

    fn text(&mut self, text: &str) {
        self.word(text.len() as u64);
        for b in text.bytes() {
            self.word(u64::from(b));
        }
    }

    fn numbers<const N: usize>(&mut self, all: [f64; N]) {
        for x in all {
            self.number(x);
        }
    }

    fn attached(&mut self, attached: &Attached) {
        match attached {
            Attached::Nothing => self.word(0),
            Attached::Can(c) => {
                self.word(1);
                let inverted = c.stance == Stance::Inverted;
                self.flags([c.pierced, c.burst, inverted, c.self_sealing]);
                self.numbers([c.back, c.bath.unwrap_or(0.0)]);
            }
            Attached::Cylinder(c) => {
                self.word(2);
                self.flags([c.open, c.stance == Stance::Inverted]);
                self.number(c.shuts_at.unwrap_or(-1.0));
            }
            Attached::Nitrogen(n) => {
                self.word(4);
                self.flags([n.open]);
                self.number(n.set);
            }
            Attached::Machine(m) => {
                self.word(3);
                self.flags([m.running]);
                self.numbers([m.stops_at, m.down]);
            }
            Attached::Pump(p) => {
                self.word(4);
                self.flags([p.on, p.valve_open, p.ballast]);
                self.number(p.speed);
            }
        }
    }

    fn seat(&mut self, seat: Option<&Seat>) {
        if let Some(s) = seat {
            self.numbers([s.bore, s.length]);
            self.flags([s.fitted, s.turned, s.sealed]);
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
    h.word(plant.oil.turn.word());
    let oils = &plant.oil.oils;
    if *oils != Oils::pure(plant.vehicle.oil_kind) {
        h.numbers(Oil::ALL.map(|o| oils.share(o)));
    }
    if let Some((held, to_room)) = plant.network.r12() {
        for &kg in held {
            h.number(kg);
        }
        let of_tables = plant
            .network
            .blend_of_tables()
            .map_or(0.0, Blend::mass_share);
        h.numbers([to_room, of_tables]);
    }
    h.vehicle(plant);
    h.hands(plant, shop);
    h.bench(shop);
    h.instruments(shop);
    h.0
}

/// A hash that takes in more numbers.
pub(crate) fn with(hash: u64, numbers: &[f64]) -> u64 {
    let mut h = Fnv(hash);
    for x in numbers {
        h.number(*x);
    }
    h.0
}

impl Fnv {
    /// Books, walls, cabin, day, controls and wear.
    fn vehicle(&mut self, plant: &Plant) {
        let h = self;
        let account = plant.network.account();
        h.numbers(account.mass_in.0);
        h.numbers(account.to_room.0);
        h.number(account.energy_in);
        h.numbers(plant.condenser.wall);
        h.numbers(plant.evaporator.wall);
        h.numbers(plant.evaporator.frost);
        h.numbers(plant.evaporator.boiling);
        h.numbers([
            plant.evaporator.held,
            plant.evaporator.drained,
            plant.hood_t,
            plant.fan_clutch,
            plant.condenser.duty,
            plant.condenser_air.0,
            plant.condenser_air.1,
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
            k.clutch_hold,
            k.blend_leak,
            k.radiator,
        ]);
        h.flags([k.cycling_switch_stuck]);
        for at in Passage::ALL {
            let open = plant.open_share(at);
            if (open - 1.0).abs() > 0.0 {
                h.word(at as u64);
                h.number(open);
            }
        }
        h.numbers([s.engine_rpm, s.road_speed]);
        h.word(s.blower as u64);
        h.flags([
            s.engine_on,
            s.ac_on,
            s.recirculate,
            s.windows_open,
            s.heater_pinched,
        ]);
        h.seat(Some(&plant.seat));
        h.flags([plant.fitted.compressor, plant.fitted.accumulator]);
        let w = &plant.damage;
        h.numbers([w.slugging, w.washing, w.dryness, w.heat, w.pressure]);
        if w.grit > 0.0 {
            h.number(w.grit);
        }
        if w.seized {
            h.word(1);
        }
        if plant.clutch.burnt {
            h.word(2);
        }
        for x in plant.debris.numbers() {
            h.number(x);
        }
        let r = &plant.relief;
        let spec = plant.vehicle.switches.relief_opens.si();
        if r.lifted || (r.opens - spec).abs() > 0.0 {
            h.flags([r.lifted]);
            h.number(r.opens);
        }
        let d = &plant.drive;
        h.flags([d.engaged, d.cycling.closed, d.cut_out.closed]);
        if plant.vehicle.switches.high_opens.is_none()
            && let Some(opens) = d.cut_out_opens()
        {
            h.number(opens);
        }
        h.numbers(d.felt());
        h.numbers([plant.clutch.grip, plant.clutch.t, plant.engine.coolant]);
        h.flags([d.held_back]);
        h.word(u64::from(d.cycles));
    }

    /// What the hands have set, and what leaks.
    fn hands(&mut self, plant: &Plant, shop: &Shop) {
        let h = self;
        let hands = &shop.hands;
        h.numbers([hands.low_valve, hands.high_valve]);
        h.flags([hands.low_coupled, hands.high_coupled, hands.purging]);
        h.word(u64::from(hands.cans_taken));
        h.number(hands.scale_zero);
        h.attached(&hands.attached);
        h.flags([hands.vacuum_gauge == GaugePlace::Loop]);
        h.numbers([shop.pump_oil.water, shop.pump_oil.level]);
        for leak in plant.leaks() {
            h.word(leak.at as u64);
            match leak.size {
                Size::Standing(x) => h.numbers([0.0, x]),
                Size::Hole(x) => h.numbers([1.0, x]),
            }
        }
        h.numbers(shop.shelf.0);
        if shop.identifier != Identifier::default() {
            h.numbers(shop.identifier.numbers());
        }
        h.numbers(shop.lost.0);
        h.numbers(shop.brought.0);
        if let Some(set) = &shop.other_set {
            h.word(hands.hoses as u64);
            for hose in set {
                h.numbers(hose.content.0);
                h.numbers([hose.r12, hose.t]);
            }
        }
        for number in shop.openings.work_numbers().filter(|n| *n > 0.0) {
            h.number(number);
        }
        if shop.switch_turns != 0.0 {
            h.number(shop.switch_turns);
        }
        if plant.network.r12().is_some() {
            h.number(shop.station.away.r12);
        }
        if let Some(other) = &shop.other_station {
            h.numbers(other.away.content.0);
            h.numbers([
                other.away.r12,
                other.away.t,
                other.at_start,
                other.separator,
            ]);
        }
    }

    /// Joints, parts and oil.
    fn bench(&mut self, shop: &Shop) {
        let h = self;
        for fit in shop.openings.joints {
            h.word(match fit {
                Fit::Untouched => 0,
                Fit::Open => 1,
                Fit::Capped => 2,
                Fit::Made(seal) => 3 + seal as u64,
            });
        }
        if shop.openings.other_low_port().is_some() {
            h.word(shop.openings.low_tap() as u64);
        }
        for port in shop.openings.all_ports() {
            h.flags([port.core, port.old_core, port.cap]);
            if let Some(over) = port.over {
                h.word(over as u64);
                h.word(port.fitting as u64);
            }
        }
        for part in &shop.bench {
            h.flags([part.is_some()]);
            if let Some(part) = part {
                h.numbers([part.oil, part.bound]);
                if part.oil > 0.0 || part.oil_water > 0.0 {
                    h.number(part.oil_water);
                    h.numbers(Oil::ALL.map(|o| part.oils.share(o)));
                }
                h.seat(part.seat.as_ref());
            }
        }
        let o = &shop.oil;
        h.numbers(o.drained);
        h.numbers(o.poured);
        h.numbers([o.shipped, o.scrapped, o.injected, o.wrong_kind, o.waste]);
        for (kg, oils) in [(o.waste, &o.waste_of), (o.scrapped, &o.scrapped_of)] {
            if kg > 0.0 {
                h.numbers(Oil::ALL.map(|kind| oils.share(kind)));
            }
        }
        h.numbers(shop.scrap.0);
        h.word(u64::from(shop.injuries));
        h.word(u64::from(shop.ventings));
    }

    /// What instruments and searches have shown.
    fn instruments(&mut self, shop: &Shop) {
        let h = self;
        h.flags([shop.dye, shop.hands.timing]);
        h.flags(shop.faults.stuck);
        h.numbers(shop.faults.offset);
        h.numbers(shop.stains);
        h.numbers([
            shop.stain_time,
            shop.shelf_supply,
            shop.label.map_or(0.0, |l| l.charge),
            shop.instruments.stopwatch,
        ]);
        if let Some(label) = shop.label.filter(|l| !l.particulars.none()) {
            let p = label.particulars;
            for text in [&p.technician[..], &p.shop, &p.oil_maker] {
                h.text(text);
            }
            h.text(&p.date.map_or_else(String::new, String::from));
            h.number(p.oil_volume.map_or(0.0, Quantity::si));
            h.flags([p.old_covered]);
        }
        h.word(shop.hands.clamp.map_or(0, |at| 1 + at as u64));
        for finding in shop.search.iter().flatten() {
            h.number(finding.signal);
        }
        for noted in shop.noted.iter().flatten() {
            h.numbers([noted.low, noted.high, noted.vent, noted.rpm]);
        }
        if shop.hands.clutch_meter {
            h.word(1);
        }
        if let Some(hold) = shop.holds.last {
            h.numbers([hold.from, hold.to, hold.seconds]);
        }
        let station = &shop.station;
        h.numbers(station.away.content.0);
        h.numbers([
            shop.supplied,
            station.away.t,
            station.at_start,
            station.separator,
        ]);
        let i = &shop.instruments;
        h.numbers(
            [
                &i.low, &i.high, &i.vent, &i.cabin, &i.scale, &i.vacuum, &i.clamp,
            ]
            .map(Instrument::pointer),
        );
    }
}
