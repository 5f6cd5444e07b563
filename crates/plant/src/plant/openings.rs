//! What is not as it was built: places that leak, passages that are narrowed, and the hose that burst.

use lowside_units::Quantity;

use super::{LEAK, Plant};
use crate::{
    hose,
    leak::{Leak, Site},
    network::{Law, Link, ROOM},
    passage::Passage,
    stream::Offtake,
};

impl Plant {
    /// Lets the loop leak, at the start of a visit.
    pub fn add_leak(&mut self, leak: Leak) {
        let node = leak.at.node(&self.circuit);
        // The accumulator and its port leak from above the liquid; a tube loses what flows by.
        let draw = match leak.at {
            Site::Accumulator | Site::LowPort => Offtake::Top {
                floods: self.vehicle.accumulator.floods_above.si(),
            },
            _ => Offtake::Mixed,
        };
        let law = leak.law(self.network.table());
        let link = self
            .network
            .add_link(LEAK, (node, draw), (ROOM, Offtake::Slip), law);
        self.leaks.push(leak);
        self.leak_links.push(link);
    }

    /// Where the loop leaks.
    pub fn leaks(&self) -> &[Leak] {
        &self.leaks
    }

    /// Leaks that were ever made; those that were mended stand among the links as shut.
    pub fn leaks_made(&self) -> usize {
        let links = self.network.links().iter();
        links.filter(|link| link.name == LEAK).count()
    }

    /// What the leaks of a site let out now, kg/s; 0 while they draw in.
    pub fn leaks_out(&self, at: Site) -> f64 {
        self.outward(at).map(|link| link.flow).sum()
    }

    /// Oil in that, kg/s.
    pub fn oil_leaks_out(&self, at: Site) -> f64 {
        self.outward(at).map(|link| link.flow * link.oil).sum()
    }

    /// The links by which a site lets something out now.
    fn outward(&self, at: Site) -> impl Iterator<Item = &Link> {
        let here = self.leaks.iter().zip(&self.leak_links);
        let lifted = (at == Site::ReliefValve).then_some(&self.circuit.relief);
        here.filter(move |(leak, _)| leak.at == at)
            .map(|(_, link)| link)
            .chain(lifted)
            .map(|link| self.network.link(*link))
            .filter(|link| link.flow > 0.0)
    }

    /// The discharge hose has burst and was not renewed.
    pub fn hose_burst(&self) -> bool {
        hose::burst(&self.leaks)
    }

    /// Makes a site tight: what leaked there was replaced.
    pub fn mend(&mut self, at: Site) {
        for i in (0..self.leaks.len()).rev() {
            if self.leaks[i].at == at {
                self.leaks.remove(i);
                let link = self.leak_links.remove(i);
                self.network.set_law(link, Law::Passage(0.0));
            }
        }
    }

    /// Restricts a passage to an open share of its flow area, 0 (blocked) to 1 (sound). At a given flow its pressure drop goes with
    /// one over the square of it.
    pub fn restrict(&mut self, at: Passage, open: f64) {
        let Self {
            network,
            circuit,
            vehicle,
            ..
        } = self;
        self.open.set(network, circuit, vehicle, at, open);
    }

    /// Returns the open share of a passage, 0 (blocked) to 1 (sound).
    pub fn open_share(&self, at: Passage) -> f64 {
        self.open.of(at)
    }
}
