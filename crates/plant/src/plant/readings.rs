//! What can be asked of the vehicle as it stands: speeds, powers, and what the loop holds. Nothing here changes it.

use lowside_fluids::{Blend, Refrigerant, moisture::FUSION};
use lowside_units::Quantity;

use super::{BY_HAND, Plant, TRICKLE};
use crate::{
    cabin::Heater,
    engine::RAD_S,
    network::Node,
    oil,
    species::{DISSOLVED, OIL, REFRIGERANT, WATER},
};

impl Plant {
    /// Wear of the compressor: the condition it came in and what use has added, 0 to 1.
    pub fn wear(&self) -> f64 {
        (self.condition.compressor_wear + self.damage.wear()).min(1.0)
    }

    /// The heater core and what a leaking door lets through it; without its coolant it soon is as cold as the air.
    pub fn heater_core(&self) -> Heater {
        Heater {
            coolant: self.engine.coolant,
            share: if self.settings.heater_pinched {
                0.0
            } else {
                self.condition.blend_leak
            },
        }
    }

    /// Speed of the clutch's pulley, 1/min.
    pub fn pulley_rpm(&self) -> f64 {
        if self.settings.engine_on && !self.settings.loose.belt {
            self.settings.engine_rpm * self.vehicle.compressor.pulley_ratio.si()
        } else {
            0.0
        }
    }

    /// Speed of the compressor, 1/min.
    pub fn compressor_rpm(&self) -> f64 {
        if self.drive.engaged && self.fitted.compressor && !self.damage.seized {
            self.pulley_rpm() * self.clutch.grip
        } else if self.by_hand > 0.0 && self.fitted.compressor && !self.damage.seized {
            BY_HAND
        } else {
            0.0
        }
    }

    /// Power that a slipping clutch takes from the engine and turns into heat, W; 0 while the hub keeps up.
    pub fn slip_power(&self) -> f64 {
        if self.drive.engaged && self.fitted.compressor {
            let pulley = self.pulley_rpm() * RAD_S;
            self.clutch.slips(self.condition.clutch_hold, pulley)
        } else {
            0.0
        }
    }

    /// Oil in the compressor with its suction line, kg.
    pub fn compressor_oil(&self) -> f64 {
        self.network.node(self.circuit.compressor_inlet()).content[OIL]
    }

    /// How far the compressor is short of oil, 0 (enough) to 1 (none).
    pub fn oil_shortage(&self) -> f64 {
        oil::shortage(self.compressor_oil(), self.vehicle.oil.si())
    }

    /// Power at the compressor's shaft in the last tick, W: what compresses, and friction for want of oil.
    pub fn shaft_power(&self) -> f64 {
        self.network.link(self.circuit.compressor()).shaft
            + oil::friction(self.oil_shortage(), self.compressor_rpm())
    }

    /// Oil in circulation: its share of the flow in the liquid line (where SAE 980286 measured it), 0 to 1.
    pub fn oil_circulation(&self) -> f64 {
        self.network.link(self.circuit.orifice()).oil
    }

    /// Refrigerant dissolved in the loop's oil, kg.
    pub fn dissolved(&self) -> f64 {
        self.held(DISSOLVED)
    }

    /// Returns the loop's volumes in the order of the flow, without hoses and vessels.
    pub fn volumes(&self) -> impl Iterator<Item = &Node> {
        self.circuit.nodes().iter().map(|id| self.network.node(*id))
    }

    /// Returns how much of a species the loop's volumes hold, kg; refrigerant without what the oil has dissolved.
    pub fn held(&self, species: usize) -> f64 {
        self.volumes().map(|n| n.content[species]).sum()
    }

    /// Returns the water in the loop that no desiccant, ice or rubber holds, with that in the oil, kg.
    pub fn free_water(&self) -> f64 {
        self.volumes().map(|n| n.content[WATER] + n.oil_water).sum()
    }

    /// Returns the refrigerant in the loop with what its oil has dissolved, kg.
    pub fn charge(&self) -> f64 {
        self.volumes().map(|n| n.content.whole()[REFRIGERANT]).sum()
    }

    /// Share of the orifice tube that is free of debris, 0 to 1: the condition it came in, and what its screen has caught.
    pub fn orifice_clean(&self) -> f64 {
        self.condition.orifice_open * self.debris.open(self.seat.turned)
    }

    /// Ice in the orifice tube, kg.
    pub fn ice(&self) -> f64 {
        self.network.node(self.circuit.evaporator.inlet()).bound
    }

    /// Water the desiccant holds, kg.
    pub fn desiccant_water(&self) -> f64 {
        self.network.node(self.circuit.accumulator.outlet()).bound
    }

    /// Liquid refrigerant in what the compressor draws now, kg per kg; 0 with the clutch out. A trickle counts for little: while
    /// the clutch catches, the bleed alone is a large share of a small flow.
    pub fn suction_liquid(&self) -> f64 {
        let c = self.network.link(self.circuit.compressor());
        if self.drive.engaged && c.flow > 0.0 {
            c.liquid * (c.flow / TRICKLE).min(1.0)
        } else {
            0.0
        }
    }

    /// Mass share of a refrigerant in that of the loop; that of its tables when the loop is empty.
    pub fn share_of(&self, gas: Refrigerant) -> f64 {
        let own = self.network.gas();
        if [own, gas].map(Blend::partner).contains(&None) {
            f64::from(u8::from(gas == own))
        } else if gas == Refrigerant::R12 {
            self.r12_share()
        } else {
            1.0 - self.r12_share()
        }
    }

    /// Mass share of the one of R-12 and R-134a that the loop has less of; 0 in a loop of another gas.
    pub fn other_share(&self) -> f64 {
        let other = Blend::partner(self.network.mostly());
        other.map_or(0.0, |gas| self.share_of(gas))
    }

    /// Mass share of R-12 in the loop's refrigerant; that of its tables when the loop is empty.
    pub fn r12_share(&self) -> f64 {
        self.network.r12_mean()
    }

    /// Energy held by volumes and walls, J: what the account of the network's edge must explain.
    pub fn energy(&self) -> f64 {
        let shells: f64 = self.shells.iter().map(|s| s.metal * s.t).sum();
        // Ice holds less than the water it came from.
        let fusion = self.ice() * FUSION;
        self.network.energy() + self.condenser.energy() + self.evaporator.energy() + shells - fusion
    }
}
