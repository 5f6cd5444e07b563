//! The loop taken apart and put together: joints, ports, parts and their oil, and who gets hurt by it.

use super::{HURTS, Shop};
use crate::{
    detect::Spot,
    flush::{self, Flush},
    joints::{Fit, Joint, LowPort, Seal, Side},
    oil::OilKind,
    parts::{self, OnBench, Part},
};
use lowside_fluids::oil::Oils;
use lowside_plant::{
    leak::Site,
    plant::Plant,
    seat::Seat,
    species::{Content, OIL, WATER},
};

/// Refrigerant in the loop below which nothing worth the name is vented, kg (own figure: what a deep recovery leaves).
const TRACES: f64 = 0.03;

impl Shop {
    /// Takes a joint apart. With pressure or liquid behind it that hurts; true when it did.
    pub fn open_joint(&mut self, plant: &Plant, joint: Joint) -> bool {
        let (pressure, liquid) = self.openings.behind(plant, joint);
        self.openings.take_apart(joint);
        self.work_at(Spot::Joint(joint));
        self.ventings += u32::from(pressure > HURTS && Self::holds(plant));
        self.hurt(pressure > HURTS || liquid)
    }

    pub(super) fn hurt(&mut self, hurts: bool) -> bool {
        self.injuries += u32::from(hurts);
        hurts
    }

    /// Takes a core out of its port, or puts a new one in. Taking it out under pressure with the coupler off hurts; true when it
    /// did.
    pub fn set_core(&mut self, plant: &mut Plant, side: Side, fitted: bool) -> bool {
        let coupled = match side {
            Side::Low => self.hands.low_coupled,
            Side::High => self.hands.high_coupled,
        };
        let pressure = self.openings.behind_port(plant, side);
        let port = &mut self.openings.ports[side as usize];
        let out = port.core && !fitted;
        port.core = fitted;
        port.old_core &= !fitted;
        self.work_at(Spot::Site(match side {
            Side::Low => Site::LowPort,
            Side::High => Site::HighPort,
        }));
        // A leak that the loop came with is at the accumulator's core, where there are two on the low side.
        if fitted && side == Side::High {
            plant.mend(Site::HighPort);
        } else if fitted && self.openings.low_tap() == LowPort::Accumulator {
            plant.mend(Site::LowPort);
        }
        let blows = out && !coupled && pressure > HURTS;
        self.ventings += u32::from(blows && Self::holds(plant));
        self.hurt(blows)
    }

    /// Takes a coupler off its port. A port without its core then blows.
    pub fn uncouple(&mut self, plant: &Plant, side: Side) {
        let bare = self.openings.ports[side as usize].lets().0 > 0.0;
        let was_on = match side {
            Side::Low => core::mem::take(&mut self.hands.low_coupled),
            Side::High => core::mem::take(&mut self.hands.high_coupled),
        };
        let blows = bare && was_on && self.openings.behind_port(plant, side) > HURTS;
        self.ventings += u32::from(blows && Self::holds(plant));
    }

    /// Puts a joint together.
    pub fn make_joint(&mut self, joint: Joint, seal: Seal) {
        self.openings.joints[joint as usize] = Fit::Made(seal);
        self.work_at(Spot::Joint(joint));
    }

    /// Lays a part on the bench.
    pub fn take_part(&mut self, plant: &mut Plant, part: Part) {
        let (bench, lost) = parts::take_out(plant, part);
        self.lost.add(&lost, 1.0);
        self.bench[part as usize] = Some(bench);
    }

    /// Puts the part from the bench back in; its oil comes to the loop's.
    pub fn refit_part(&mut self, plant: &mut Plant, part: Part) {
        if let Some(bench) = self.bench[part as usize].take() {
            mix_oil(plant, &bench.oils, bench.oil);
            parts::put_in(plant, part, &bench);
        }
    }

    /// Throws the part on the bench away and lays a new one there, sealed and with the oil it comes with.
    pub fn new_part(&mut self, plant: &mut Plant, part: Part) {
        if let Some(old) = self.bench[part as usize].take() {
            self.scrap[OIL] += old.oil;
            self.scrap[WATER] += old.bound + old.oil_water;
            let work = &mut self.oil;
            work.scrapped_of.mix(&old.oils, old.oil, work.scrapped);
            work.scrapped += old.oil;
            let oil = part.ships_with(plant);
            self.oil.shipped += oil;
            self.brought[OIL] += oil;
            // It comes with the oil of the gas whose fittings the vehicle has.
            let fitting = self.openings.ports[Side::Low as usize].fitting;
            parts::renew(plant, self, part);
            for site in part.sites() {
                self.work_at(Spot::Site(*site));
            }
            self.renewed[part as usize] += 1;
            let seat = old.seat.map(|_| Seat::of(&plant.vehicle.orifice));
            self.bench[part as usize] = Some(OnBench {
                oil,
                oils: Oils::pure(fitting.data().oil),
                seat,
                ..OnBench::default()
            });
        }
    }

    /// Turns a part on the bench over above the measuring cup; gives what ran out, kg: of the part's own oils, with their water.
    pub fn drain_part(&mut self, part: Part) -> f64 {
        let out = self.waste_oil(part, part.drains());
        self.oil.drained[part as usize] += out;
        out
    }

    /// A share of the oil in a part on the bench goes to the waste can with its water; gives how much, kg.
    fn waste_oil(&mut self, part: Part, share: f64) -> f64 {
        let Some(bench) = &mut self.bench[part as usize] else {
            return 0.0;
        };
        let out = bench.oil * share;
        bench.oil -= out;
        let water = bench.oil_water * share;
        bench.oil_water -= water;
        self.scrap[WATER] += water;
        let work = &mut self.oil;
        work.waste_of.mix(&bench.oils, out, work.waste);
        work.waste += out;
        out
    }

    /// Flushes a part on the bench: what is washed out of it goes to the waste can, unmeasured.
    pub fn flush_part(&mut self, plant: &mut Plant, part: Part, with: Flush) {
        let (solids, oil) = flush::carries(plant, part, with);
        self.waste_oil(part, oil);
        let Some(bench) = &mut self.bench[part as usize] else {
            return;
        };
        if part == Part::Condenser {
            plant.debris.flush_condenser(solids);
            bench.seen.beads = plant.debris.beads_in_condenser();
        }
        bench.seen.oil = bench.oil;
        bench.seen.metal *= 1.0 - oil;
        bench.seen.dark *= 1.0 - oil;
    }

    /// Pours oil (kg) from the bottle into a part on the bench.
    pub fn pour_oil(&mut self, part: Part, kg: f64, kind: OilKind) {
        if let Some(bench) = &mut self.bench[part as usize] {
            bench.oils.pour(kind.oil(), kg, bench.oil);
            bench.oil += kg;
            self.oil.poured[part as usize] += kg;
            self.note_oil(kg, kind);
        }
    }

    /// Presses oil (kg) through the low-side port into the loop.
    pub fn inject_oil(&mut self, plant: &mut Plant, kg: f64, kind: OilKind) {
        mix_oil(plant, &Oils::pure(kind.oil()), kg);
        let mut oil = Content::default();
        oil[OIL] = kg;
        plant
            .network
            .inject(self.openings.port_node(Side::Low), &oil);
        self.oil.injected += kg;
        self.note_oil(kg, kind);
    }

    fn note_oil(&mut self, kg: f64, kind: OilKind) {
        self.brought[OIL] += kg;
        self.oil.kind = Some(kind);
        let fitting = self.openings.ports[Side::Low as usize].fitting;
        if !fitting.data().takes(kind.oil()) {
            self.oil.wrong_kind += kg;
        }
    }

    /// What is seen in a part: nothing unless it is out or one of its joints is apart.
    pub fn inspect(&self, plant: &Plant, part: Part) -> Option<parts::Seen> {
        if let Some(bench) = &self.bench[part as usize] {
            return Some(bench.seen);
        }
        // The tube is seen only out of its line.
        let apart = part != Part::Orifice && part.joints().iter().any(|j| self.openings.apart(*j));
        apart.then(|| parts::look(plant, part))
    }

    /// There is enough refrigerant in the loop that letting it out counts as venting: more than traces.
    pub(super) fn holds(plant: &Plant) -> bool {
        plant.charge() > TRACES
    }
}

/// So much oil (kg) comes to what the loop holds.
fn mix_oil(plant: &mut Plant, oils: &Oils, kg: f64) {
    let held = plant.held(OIL);
    plant.oil.pour(oils, kg, held);
}
