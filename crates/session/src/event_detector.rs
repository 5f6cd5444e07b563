//! Watches the bay for what is worth telling.

use serde::{Deserialize, Serialize};

use lowside_plant::{lag, plant::Plant, species::REFRIGERANT};
use lowside_shop::{Shop, recovery::Stop, shop::Happened};

use crate::event::Event;

/// Liquid share of what the compressor draws that counts as flooding; an oil bleed alone brings a few percent.
const FLOODED: f64 = 0.12;
/// Share below which flooding has passed.
const DRAINED: f64 = 0.06;
/// Time over which the liquid share is smoothed for that, s.
const FLOOD_LAG: f64 = 0.5;
/// Liquid in a can below which it is empty, kg.
pub(crate) const EMPTY: f64 = 1e-3;

/// Refrigerant let out by hand from which it is told, and told again, kg: an ounce. A purge done well takes a few grams.
const TELLS: f64 = 0.028;

/// Air drawn into the loop from which it is told, kg: what a hose that was not purged brings.
const TELLS_AIR: f64 = 0.1e-3;

/// Where the room's air flows into the loop by what hands have left open, and how much, kg/s.
fn air_in(plant: &Plant, shop: &Shop) -> Option<(Event, f64)> {
    let net = &plant.network;
    let hose = (-net.link(shop.manifold.hose_end).flow).max(0.0);
    if hose > 0.0 && shop.hose_leads_in() {
        return Some((Event::AirByTheHose, hose));
    }
    let coupled = [shop.hands.low_coupled, shop.hands.high_coupled];
    let (at, flow) = shop.openings.draws(net, coupled)?;
    Some((Event::AirDrawnIn(at), flow))
}

/// What was the case at the last tick.
#[derive(Debug, Clone, Copy, Default, Serialize, Deserialize)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is one independent thing that was so a tick ago"
)]
pub(crate) struct EventDetector {
    engaged: bool,
    cut_out_open: bool,
    held_back: bool,
    red: bool,
    boiled: f64,
    smells: bool,
    relief: bool,
    hose_burst: bool,
    flooded: bool,
    can_had_liquid: bool,
    pump_oil_low: bool,
    seized: bool,
    burnt: bool,
    /// Air that has flowed in since it last did not, kg.
    air_in: f64,
    /// What hands have let out since it was last told, kg.
    let_out: f64,
    /// What went with cans and parts by the last tick, kg.
    lost: f64,
    tenths_worn: u8,
    wet: f64,
}

impl EventDetector {
    /// Compares with `dt` seconds ago and reports each change.
    pub(crate) fn look(
        &mut self,
        plant: &Plant,
        shop: &Shop,
        happened: Happened,
        dt: f64,
        mut tell: impl FnMut(Event),
    ) {
        let d = &plant.drive;
        if d.engaged && !self.engaged {
            tell(Event::ClutchIn);
        }
        if self.engaged && !d.engaged && !d.cycling.closed {
            tell(Event::LowSwitchOpened);
        }
        self.engaged = d.engaged;
        let open = !d.cut_out.closed;
        if open && !self.cut_out_open {
            tell(Event::CutOutOpened);
        }
        self.cut_out_open = open;
        self.look_at_engine(plant, &mut tell);
        let smells = plant.clutch.smells();
        if smells && !self.smells {
            tell(Event::ClutchSmells);
        }
        self.smells = smells;
        let relief = plant.relief.lifted;
        if relief != self.relief {
            tell(if relief {
                Event::ReliefLifted
            } else {
                Event::ReliefSeated
            });
        }
        self.relief = relief;
        let torn = plant.hose_burst();
        if torn && !self.hose_burst {
            tell(Event::HoseBurst);
        }
        self.hose_burst = torn;
        if happened.burst {
            tell(Event::CanBurst);
        }
        if happened.dosed {
            tell(Event::Dosed);
        }
        match happened.stopped {
            Some(Stop::Vacuum) => tell(Event::MachineAtVacuum),
            Some(Stop::Full) => tell(Event::CylinderFull),
            None => {}
        }
        self.look_for_flood(plant, dt, &mut tell);
        // A new compressor starts again.
        while self.tenths_worn > 0 && plant.damage.wear() < 0.1 * f64::from(self.tenths_worn) {
            self.tenths_worn -= 1;
        }
        // One more tenth at a time: a tick adds far less than that.
        if plant.damage.wear() >= 0.1 * f64::from(self.tenths_worn + 1) {
            self.tenths_worn += 1;
            tell(Event::CompressorHurt);
        }
        let seized = plant.damage.seized;
        if seized && !self.seized {
            tell(Event::CompressorSeized);
        }
        self.seized = seized;
        let flows = shop.out_of_hose(plant) + shop.out_of_joints(plant);
        self.let_out += shop.lost[REFRIGERANT] - self.lost + flows * dt;
        self.lost = shop.lost[REFRIGERANT];
        if self.let_out > TELLS {
            self.let_out = 0.0;
            tell(Event::LetOut);
        }
        let inward = air_in(plant, shop);
        let before = self.air_in;
        self.air_in = inward.map_or(0.0, |(_, flow)| before + flow * dt);
        if let Some((event, _)) = inward
            && before < TELLS_AIR
            && self.air_in >= TELLS_AIR
        {
            tell(event);
        }
        let burnt = plant.clutch.burnt();
        if burnt && !self.burnt {
            tell(Event::ClutchBurnt);
        }
        self.burnt = burnt;
        let low = shop.pump_oil.low();
        if low && !self.pump_oil_low {
            tell(Event::PumpOilBlown);
        }
        self.pump_oil_low = low;
        let can_liquid = plant.network.node(shop.manifold.can).state.m_liq > EMPTY;
        let on = shop.hands.attached.can().is_some();
        if self.can_had_liquid && !can_liquid && on {
            tell(Event::CanEmpty);
        }
        self.can_had_liquid = can_liquid && on;
    }

    /// A breath of wet vapour as the clutch catches is no flood: what counts is what goes on.
    fn look_for_flood(&mut self, plant: &Plant, dt: f64, mut tell: impl FnMut(Event)) {
        let drawn = plant.suction_liquid();
        self.wet = lag::follow(self.wet, drawn, drawn, FLOOD_LAG, dt);
        let wet = self.wet;
        if !self.flooded && wet > FLOODED {
            self.flooded = true;
            tell(Event::LiquidAtCompressor);
        } else if self.flooded && wet < DRAINED {
            self.flooded = false;
            tell(Event::LiquidGone);
        }
    }

    fn look_at_engine(&mut self, plant: &Plant, mut tell: impl FnMut(Event)) {
        let engine = &plant.engine;
        if plant.drive.held_back && !self.held_back {
            tell(Event::EngineTooHot);
        }
        self.held_back = plant.drive.held_back;
        if engine.red && !self.red {
            tell(Event::GaugeRed);
        }
        self.red = engine.red;
        // Told once for each filling.
        if engine.boiled > 0.0 && self.boiled <= 0.0 {
            tell(Event::CoolantBoils);
        }
        self.boiled = engine.boiled;
        if engine.stalled {
            tell(Event::EngineStalled);
        }
    }
}
