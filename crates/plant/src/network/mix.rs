//! Two refrigerants in one network: how much of each node's is R-12, and which composition the property tables are for.
//!
//! R-12 goes where the refrigerant goes, in the proportion of the node it leaves: its mass closes like any other. Properties are
//! a coarser matter. All of the loop has the tables of one composition, its mean: R-12 and R-134a hardly separate
//! ([`lowside_fluids::blend`]), and what flows about mixes within minutes. A can or cylinder keeps the tables of the gas it was
//! filled with. When the loop's mean has moved by [`STEP`], the tables are made anew; every node keeps its temperature, and the
//! energy that reckoning changes by counts as taken in from outside.

use serde::{Deserialize, Serialize};

use std::sync::Arc;

use lowside_fluids::{Blend, NoBlend, Refrigerant, Table};

use super::{Link, Network, Node, NodeId, ROOM, Workspace};
use crate::{
    built::{Built, Misfit},
    species::{Content, DISSOLVED, REFRIGERANT},
    state,
};

/// Mass share of R-12 by which the loop's mean may move away from its tables' (own figure: 0.3 % of the pressure at most).
const STEP: f64 = 0.0025;
/// Refrigerant in the loop below which its composition does not matter, kg (own figure).
const LITTLE: f64 = 0.002;

/// Where the R-12 is, and what the tables are for.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Mix {
    /// R-12 in each node, kg.
    r12: Vec<f64>,
    /// R-12 that has gone out into the room, kg.
    to_room: f64,
    /// Share of R-12 in each node's refrigerant at the start of a step.
    #[serde(skip)]
    share: Vec<f64>,
    /// Nodes with tables of their own: vessels filled with one gas.
    own: Vec<Own>,
    /// What the loop's tables are for.
    blend: Blend,
}

/// A node with tables of its own.
#[derive(Debug, Clone, Serialize, Deserialize)]
struct Own {
    node: NodeId,
    blend: Blend,
    #[serde(skip)]
    table: Built<Table>,
}

/// Refrigerant of a content with what its oil has dissolved, kg.
fn refrigerant(content: &Content) -> f64 {
    content[REFRIGERANT] + content[DISSOLVED]
}

impl Mix {
    /// A node's own tables.
    pub(super) fn own(&self, id: NodeId) -> Option<&Built<Table>> {
        self.own.iter().find(|o| o.node == id).map(|o| &o.table)
    }

    /// Gives a node the tables of this blend.
    fn give(&mut self, node: NodeId, blend: Blend) {
        self.take_from(node);
        let table = blend.table().into();
        self.own.push(Own { node, blend, table });
    }

    /// Gives a node the loop's tables.
    fn take_from(&mut self, node: NodeId) {
        self.own.retain(|o| o.node != node);
    }

    /// Finds the tables of a mixture that was read; gives those of the loop.
    pub(super) fn complete(&mut self, net: &Network) -> Result<Built<Table>, Misfit> {
        Misfit::count("mix.r12", self.r12.len(), net.nodes.len())?;
        for (k, own) in self.own.iter_mut().enumerate() {
            net.knows_node(&format!("mix.own.{k}.node"), own.node)?;
            own.table = own.blend.table().into();
        }
        Ok(self.blend.table().into())
    }

    /// Finds the state of nodes with tables of their own, over what the network's tables said of them: so a network of one gas
    /// need not ask every node in every step.
    #[cold]
    pub(super) fn solve_own(&self, nodes: &mut [Node]) {
        for Own { node, table, .. } in &self.own {
            let n = &mut nodes[node.index()];
            n.state = state::solve(table, &n.content, n.energy, n.volume, n.state.t);
        }
    }

    /// Moves R-12 along with what the links moved in a step of `dt` seconds.
    #[cold]
    pub(super) fn carry(&mut self, links: &[Link], w: &Workspace, dt: f64) {
        self.share.clear();
        let shares = self.r12.iter().zip(&w.start).map(|(r12, (held, ..))| {
            let all = refrigerant(held);
            if all > 0.0 {
                (r12 / all).clamp(0.0, 1.0)
            } else {
                0.0
            }
        });
        self.share.extend(shares);
        for (link, way) in links.iter().zip(&w.ways) {
            let mut moved = way.flow * refrigerant(&way.stream(way.flow).share) * dt;
            if link.stir > 0.0 {
                moved += refrigerant(&way.stirred.0) * dt;
            }
            if moved == 0.0 {
                continue;
            }
            let (from, to) = link.ends();
            let moved = moved * self.share[if moved > 0.0 { from } else { to }];
            for (node, gain) in [(from, -moved), (to, moved)] {
                if node == ROOM.index() {
                    self.to_room += gain;
                } else {
                    self.r12[node] += gain;
                }
            }
        }
    }

    /// The loop's mean composition, if there is enough in it to ask.
    fn mean(&self, nodes: &[Node], inside: &[NodeId]) -> Option<Blend> {
        let (share, all) = self.share_of(nodes, inside);
        Blend::by_mass(share).ok().filter(|_| all >= LITTLE)
    }

    /// Mass share of R-12 in the refrigerant of some nodes, and that refrigerant's mass, kg.
    fn share_of(&self, nodes: &[Node], some: &[NodeId]) -> (f64, f64) {
        let some = || some.iter().map(|id| id.index());
        let all: f64 = some().map(|i| refrigerant(&nodes[i].content)).sum();
        let r12: f64 = some().map(|i| self.r12[i]).sum();
        if all > 0.0 {
            ((r12 / all).clamp(0.0, 1.0), all)
        } else {
            (self.blend.mass_share(), 0.0)
        }
    }
}

impl Network {
    /// Makes `blend` the refrigerant of a network of R-134a or R-12; the mean composition of the loop decides its properties from now
    /// on.
    ///
    /// # Errors
    /// In a network of another gas.
    pub fn blend(&mut self, blend: Blend) -> Result<(), NoBlend> {
        Blend::partner(self.gas).ok_or(NoBlend::Alone(self.gas))?;
        let r12 = self
            .nodes
            .iter()
            .map(|n| blend.mass_share() * refrigerant(&n.content))
            .collect();
        self.mix = Some(Mix {
            r12,
            to_room: blend.mass_share() * self.account.to_room[REFRIGERANT],
            share: Vec::new(),
            own: Vec::new(),
            blend,
        });
        self.set_table(blend.table());
        Ok(())
    }

    /// Makes the tables anew when the loop's composition has moved away from theirs. To be asked once a tick.
    pub fn follow_mixture(&mut self) {
        let Some(mix) = &mut self.mix else { return };
        let Some(mean) = mix.mean(&self.nodes, &self.inside) else {
            return;
        };
        if (mean.mass_share() - mix.blend.mass_share()).abs() <= STEP {
            return;
        }
        mix.blend = mean;
        self.set_table(mean.table());
    }

    /// The refrigerant the loop has most of: what its oil, its coils and its water meet.
    pub fn mostly(&self) -> Refrigerant {
        self.mix.as_ref().map_or(self.gas, |mix| mix.blend.mostly())
    }

    /// Puts other matter with so much R-12 in it (kg) into a node, as when a hose or a cylinder is changed for another that holds
    /// something; returns what was there with its R-12. A `vessel` has tables of its own composition from then on, a hose those of
    /// the loop. There is R-12 only in a network of a gas that it [mixes](Blend::mixes) with: to be asked before.
    pub fn exchange(
        &mut self,
        id: NodeId,
        volume: f64,
        (content, r12): (Content, f64),
        t: f64,
        vessel: bool,
    ) -> (Content, f64) {
        let all = refrigerant(&content);
        let share = if all > 0.0 {
            (r12 / all).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let own = Blend::r12_in(self.gas);
        if self.mix.is_none() && all > 0.0 && (share - own).abs() > 1e-9 {
            let blended = Blend::with(self.gas, 0.0).and_then(|pure| self.blend(pure));
            debug_assert!(blended.is_ok(), "{blended:?}");
        }
        let held = self.mix.as_ref().map_or_else(
            || own * refrigerant(&self.nodes[id.index()].content),
            |m| m.r12[id.index()],
        );
        let before = self.refill(id, volume, content, t).0;
        if let Some(mix) = &mut self.mix {
            mix.r12[id.index()] = r12.clamp(0.0, all);
            mix.take_from(id);
            if vessel && let Ok(blend) = Blend::by_mass(share) {
                mix.give(id, blend);
            }
            let table = mix.own(id).unwrap_or(&self.table).clone();
            let node = &mut self.nodes[id.index()];
            let energy = state::energy_at(&table, &node.content, volume, t);
            self.account.energy_in += energy - node.energy;
            node.energy = energy;
            node.state = state::solve(&table, &node.content, energy, volume, t);
        }
        (before, held)
    }

    /// The composition of the loop's property tables; none where there is one gas only.
    pub fn blend_of_tables(&self) -> Option<Blend> {
        self.mix.as_ref().map(|m| m.blend)
    }

    /// Mass share of R-12 in the loop's refrigerant.
    pub fn r12_mean(&self) -> f64 {
        self.r12_among(&self.inside)
    }

    /// Mass share of R-12 in a node's refrigerant.
    pub fn r12_share(&self, id: NodeId) -> f64 {
        self.r12_among(&[id])
    }

    fn r12_among(&self, some: &[NodeId]) -> f64 {
        match &self.mix {
            None => Blend::r12_in(self.gas),
            Some(mix) => mix.share_of(&self.nodes, some).0,
        }
    }

    /// R-12 in each node, kg, and what has gone out into the room, where two gases are in the network.
    pub fn r12(&self) -> Option<(&[f64], f64)> {
        self.mix.as_ref().map(|m| (m.r12.as_slice(), m.to_room))
    }

    /// R-12 in a node, kg; 0 where there is one gas only.
    pub fn r12_in(&self, id: NodeId) -> f64 {
        self.mix.as_ref().map_or(0.0, |m| m.r12[id.index()])
    }

    /// Counts R-12 that went into the room otherwise than through a link, kg.
    pub(super) fn mix_to_room(&mut self, kg: f64) {
        if let Some(mix) = &mut self.mix {
            mix.to_room += kg;
        }
    }

    /// Counts a node that is new.
    pub(super) fn mix_added(&mut self) {
        let node = self.nodes.len() - 1;
        if let Some(mix) = &mut self.mix {
            mix.r12
                .push(mix.blend.mass_share() * refrigerant(&self.nodes[node].content));
        }
    }

    /// Counts what a node was given from outside, kg, in the loop's proportion, or what was taken out of it (negative), in its own. What
    /// only changes its state within a node goes in as one sum: it has no proportion to take.
    pub(super) fn mix_injected(&mut self, id: NodeId, content: &Content) {
        if let Some(mix) = &mut self.mix {
            let all = refrigerant(&self.nodes[id.index()].content);
            let given = refrigerant(content);
            let share = if given < 0.0 {
                mix.r12[id.index()] / (all - given)
            } else {
                mix.blend.mass_share()
            };
            mix.r12[id.index()] = (mix.r12[id.index()] + share * given).clamp(0.0, all);
        }
    }

    /// A node is about to be filled anew with the network's gas alone: from now on it has that gas's tables, if there are two in the
    /// network.
    pub(super) fn mix_refilled(&mut self, id: NodeId, content: &Content) {
        let gas = self.gas;
        if let Some(mix) = &mut self.mix {
            mix.r12[id.index()] = Blend::r12_in(gas) * refrigerant(content);
            if let Ok(pure) = Blend::by_mass(Blend::r12_in(gas)) {
                mix.give(id, pure);
            }
        }
    }

    /// Gives the loop other tables, every temperature kept.
    fn set_table(&mut self, table: Arc<Table>) {
        self.work.fresh = false;
        let mut gained = 0.0;
        for (i, node) in self.nodes.iter_mut().enumerate().skip(1) {
            let own = self.mix.as_ref().and_then(|m| m.own(NodeId::at(i)));
            if own.is_none() {
                let t = node.state.t;
                let energy = state::energy_at(&table, &node.content, node.volume, t);
                gained += energy - node.energy;
                node.energy = energy;
                node.state = state::solve(&table, &node.content, energy, node.volume, t);
            }
        }
        self.account.energy_in += gained;
        self.table = table.into();
    }
}
