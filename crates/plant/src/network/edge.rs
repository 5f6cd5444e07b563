//! What comes into the network and leaves it by hand, counted at its edge: fillings, water, oil, breath.

use super::{Network, NodeId, ROOM};
use crate::{
    species::{AIR, Content, REFRIGERANT, WATER},
    state,
};

impl Network {
    /// Refills a node with other matter, as when a can is swapped; what it held before is returned with its energy.
    /// The books count it as taken in from outside.
    pub fn refill(&mut self, id: NodeId, volume: f64, content: Content, t: f64) -> (Content, f64) {
        self.mix_refilled(id, &content);
        self.work.fresh = false;
        let own = self.mix.as_ref().and_then(|m| m.own(id));
        let table = &**own.unwrap_or(&self.table);
        let node = &mut self.nodes[id.index()];
        let before = (node.content.whole(), node.energy);
        node.volume = volume;
        node.content = content;
        node.energy = state::energy_at(table, &content, volume, t);
        node.state = state::solve(table, &content, node.energy, volume, t);
        self.account.mass_in.add(&content.whole(), 1.0);
        self.account.mass_in.add(&before.0, -1.0);
        self.account.energy_in += node.energy - before.1;
        before
    }

    /// Puts matter of its own temperature into a node from outside (a charge at the start, water left in, oil poured).
    pub fn inject(&mut self, id: NodeId, content: &Content) {
        self.work.fresh = false;
        let own = self.mix.as_ref().and_then(|m| m.own(id));
        let table = &**own.unwrap_or(&self.table);
        let node = &mut self.nodes[id.index()];
        let mut all = node.content;
        all.add(content, 1.0);
        all.drop_dust();
        let energy = state::energy_at(table, &all, node.volume, node.state.t);
        self.account.mass_in.add(&content.whole(), 1.0);
        self.account.energy_in += energy - node.energy;
        node.content = all;
        node.energy = energy;
        node.state = state::solve(table, &all, energy, node.volume, node.state.t);
        self.mix_injected(id, content);
    }

    /// Takes matter out of a node at the node's own temperature (oil drained, refrigerant lost from an opened part). Takes no
    /// more of anything than is there; returns what was taken.
    pub fn take_out(&mut self, id: NodeId, content: &Content) -> Content {
        let held = self.nodes[id.index()].content;
        let mut taken = *content;
        for (t, have) in taken.0.iter_mut().zip(held.0) {
            *t = t.min(have).max(0.0);
        }
        let mut minus = Content::default();
        minus.add(&taken, -1.0);
        self.inject(id, &minus);
        taken
    }

    /// Binds so much of a node's water, kg (negative: sets it free), which gives off so much heat for each kilogram, J/kg. What
    /// is bound counts no energy of its own but minus that heat: the water's own warmth stays in the node.
    pub fn bind(&mut self, id: NodeId, water: f64, heat: f64) {
        let node = &mut self.nodes[id.index()];
        let moved = water.min(node.content[WATER]).max(-node.bound);
        node.content[WATER] -= moved;
        node.bound += moved;
        node.energy += moved * heat;
        node.keep_water_within();
        self.work.fresh = false;
    }

    /// Puts bound water into a node from outside (a desiccant that was not dry), kg.
    pub fn inject_bound(&mut self, id: NodeId, water: f64) {
        self.nodes[id.index()].bound += water;
        self.account.mass_in[WATER] += water;
    }

    /// Lets the oil of a node take up so much of its water, kg (negative: gives it back).
    pub fn absorb(&mut self, id: NodeId, water: f64) {
        let node = &mut self.nodes[id.index()];
        let moved = water.min(node.content[WATER]).max(-node.oil_water);
        node.content[WATER] -= moved;
        node.oil_water += moved;
        node.keep_water_within();
        self.work.fresh = false;
    }

    /// Takes out the water bound in a node, with the part that holds it, kg.
    pub fn take_bound(&mut self, id: NodeId) -> f64 {
        let water = core::mem::take(&mut self.nodes[id.index()].bound);
        self.account.mass_in[WATER] -= water;
        water
    }

    /// Takes out such a share (0 to 1) of the water in a node's oil, with the oil that goes, kg.
    pub fn take_oil_water(&mut self, id: NodeId, share: f64) -> f64 {
        let water = self.nodes[id.index()].oil_water * share;
        self.nodes[id.index()].oil_water -= water;
        self.account.mass_in[WATER] -= water;
        water
    }

    /// Puts water into a node's oil from outside, kg.
    pub fn inject_oil_water(&mut self, id: NodeId, water: f64) {
        self.nodes[id.index()].oil_water += water;
        self.account.mass_in[WATER] += water;
    }

    /// Lets an open end breathe: so much of the node's gas (m3) is swapped for room air at the node's pressure, moisture and all.
    /// It comes in at the node's own temperature: a breath's warmth is nothing beside the metal's.
    pub fn breathe(&mut self, id: NodeId, volume: f64) {
        let room = &self.nodes[ROOM.index()];
        let mut swap = room.content;
        let per_pa = 1.0 / (room.state.p * room.volume);
        let node = &self.nodes[id.index()];
        let s = node.state;
        if s.v_gas <= 0.0 {
            return;
        }
        let swapped = (volume / s.v_gas).min(0.5);
        for m in &mut swap.0 {
            *m *= s.p * swapped * s.v_gas * per_pa;
        }
        swap[REFRIGERANT] -= s.m_gas * swapped;
        swap[AIR] -= node.content[AIR] * swapped;
        swap[WATER] -= (s.m_steam * swapped).min(node.content[WATER]);
        let r12 = self.r12_in(id);
        self.inject(id, &swap);
        self.account.to_room.add(&swap, -1.0);
        self.mix_to_room(r12 - self.r12_in(id));
    }

    /// Counts matter that went into the room otherwise than through a link (`sign` 1), or came from there (-1).
    pub fn count_to_room(&mut self, content: &Content, sign: f64) {
        self.account.to_room.add(content, sign);
    }

    /// Counts heat that came in from outside the bay, J.
    pub fn count_energy(&mut self, joules: f64) {
        self.account.energy_in += joules;
    }
}
