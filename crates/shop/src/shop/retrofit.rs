//! A conversion by hand: the gauge set for another gas, fittings over the old ports, switches, every O-ring.

use super::{HURTS, Shop};
use crate::{
    cylinder::Stored,
    joints::{Joint, Seal, Side},
    manifold::HOSE_VOLUME,
};
use lowside_fluids::Refrigerant;
use lowside_plant::plant::Plant;

/// What a whole turn of the cycling switch's screw moves its two points, Pa (4 psi: "a quarter of a turn for a psi", from memory;
/// makers differ, 2 to 6).
pub const SCREW: f64 = 27.58e3;
/// Where a high-pressure cut-out of the conversion kit closes again, Pa gauge (250 psi; makers' 150 to 250, from memory).
pub const CUT_OUT_CLOSES: f64 = 1.724e6;
/// Time for which a port's bore stands open while its core is changed under a conversion fitting, s (own figure).
const CORE_TIME: f64 = 6.0;
/// The same while a fitting is screwed over a core that is left in: its pin presses the core before its seal holds (own figure).
const PIN_TIME: f64 = 2.0;
/// Time for which the plug's hole stands open while the cut-out is screwed in, s (own figure).
const SWITCH_TIME: f64 = 5.0;
/// Time in which all joints are changed over, s: ten minutes (own figure); each stands open for a part of it.
const SEALS_TIME: f64 = 60.0;

impl Shop {
    /// Hangs the gauge set on the wall and takes down that for `gas`, with what was left in its hoses; the first time, air.
    pub fn take_gauge_set(&mut self, plant: &mut Plant, gas: Refrigerant) {
        let t = plant.day().t;
        let fresh = self.other_set.is_none();
        let air = Stored {
            content: plant.network.room_air(HOSE_VOLUME),
            r12: 0.0,
            t,
        };
        let mut set = self.other_set.unwrap_or([air; 3]);
        let hoses = self.manifold.hoses();
        for (held, node) in set.iter_mut().zip(hoses) {
            if fresh {
                plant.network.count_to_room(&held.content, -1.0);
            }
            let was = plant.network.node(node).state.t;
            let (content, r12) =
                plant
                    .network
                    .exchange(node, HOSE_VOLUME, (held.content, held.r12), held.t, false);
            *held = Stored {
                content,
                r12,
                t: was,
            };
        }
        self.other_set = Some(set);
        self.hands.hoses = gas;
        self.hands.low_valve = 0.0;
        self.hands.high_valve = 0.0;
        self.hands.purging = false;
    }

    /// Screws a conversion fitting for `gas` over a port, the old core changed for a new one or left in. With pressure behind the
    /// port it blows off meanwhile, and hurts; true when it did.
    pub fn convert_port(
        &mut self,
        plant: &Plant,
        side: Side,
        gas: Refrigerant,
        new_core: bool,
    ) -> bool {
        self.openings.ports[side as usize].convert(gas, new_core);
        let time = if new_core { CORE_TIME } else { PIN_TIME };
        self.open_briefly(plant, side, time)
    }

    /// Screws a high-pressure cut-out into the discharge line that opens at so much, Pa gauge. As a port, it blows off under
    /// pressure; true when that hurt.
    pub fn fit_cut_out(&mut self, plant: &mut Plant, opens: f64) -> bool {
        plant.drive.fit_cut_out(opens, CUT_OUT_CLOSES);
        self.open_briefly(plant, Side::High, SWITCH_TIME)
    }

    fn open_briefly(&mut self, plant: &Plant, side: Side, time: f64) -> bool {
        let blows = self.openings.behind_port(plant, side) > HURTS;
        self.openings.work_at_port(side, time);
        self.ventings += u32::from(blows && Self::holds(plant));
        self.hurt(blows)
    }

    /// Turns the cycling switch's screw by so many turns, anticlockwise negative: lower.
    pub fn turn_switch(&mut self, plant: &mut Plant, turns: f64) {
        self.switch_turns += turns;
        plant.drive.reset_cycling(turns * SCREW);
    }

    /// Takes every joint apart in turn and puts it together with new oiled O-rings; with pressure in the loop that hurts, once.
    /// True when it did.
    pub fn renew_seals(&mut self, plant: &Plant) -> bool {
        let mut worst = (0.0, false);
        for joint in Joint::ALL {
            let (pressure, liquid) = self.openings.behind(plant, joint);
            worst = (f64::max(worst.0, pressure), worst.1 || liquid);
            self.openings.take_apart(joint);
            self.make_joint(joint, Seal::NewOiled);
        }
        self.openings.work_at_all(SEALS_TIME);
        self.ventings += u32::from(worst.0 > HURTS && Self::holds(plant));
        self.hurt(worst.0 > HURTS || worst.1)
    }
}
