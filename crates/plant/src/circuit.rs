//! The refrigerant circuit by name: which volumes and links of the network are which part.
//!
//! A section answers for its volumes in the order of the flow and for the link out of each. Whoever wants a place asks for it here;
//! how many volumes a section has, and which numbers they bear, is nobody else's business.

use std::sync::Arc;

use crate::{
    network::{LinkId, NodeId},
    shell::ShellId,
};

/// A stretch of the circuit: volumes in the order of the flow, and the link out of each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    nodes: Vec<NodeId>,
    links: Vec<LinkId>,
}

impl Section {
    /// Returns a section of at least one volume, with the link out of each.
    pub(crate) fn new(nodes: Vec<NodeId>, links: Vec<LinkId>) -> Self {
        debug_assert!(!nodes.is_empty() && nodes.len() == links.len());
        Self { nodes, links }
    }

    /// Returns its volumes in the order of the flow: the cells of a coil; of a line the muffler, if it has one, and the line itself.
    pub fn nodes(&self) -> &[NodeId] {
        &self.nodes
    }

    /// Returns the volume that the flow enters first.
    pub fn inlet(&self) -> NodeId {
        self.nodes[0]
    }

    /// Returns the volume that the flow leaves last.
    pub fn outlet(&self) -> NodeId {
        self.nodes[self.nodes.len() - 1]
    }

    /// Returns the volume half way along.
    pub fn middle(&self) -> NodeId {
        self.nodes[self.nodes.len() / 2]
    }

    /// Returns the link out of each volume, in the order of the flow.
    pub fn links(&self) -> &[LinkId] {
        &self.links
    }

    /// Returns the links between its volumes.
    pub fn inner(&self) -> &[LinkId] {
        &self.links[..self.links.len() - 1]
    }

    /// Returns the link out of the whole.
    pub fn out(&self) -> LinkId {
        self.links[self.links.len() - 1]
    }

    /// Returns the link into the volume half way along.
    pub fn half_way(&self) -> LinkId {
        self.links[(self.nodes.len() / 2).max(1) - 1]
    }

    /// Returns whether a volume is one of its own.
    pub fn has(&self, id: NodeId) -> bool {
        self.nodes.contains(&id)
    }
}

/// Where the parts of the refrigerant circuit stand in the network.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Circuit {
    /// Discharge line.
    pub discharge_line: Section,
    /// Condenser, cell by cell.
    pub condenser: Section,
    /// Liquid line.
    pub liquid_line: Section,
    /// Evaporator, cell by cell.
    pub evaporator: Section,
    /// Accumulator.
    pub accumulator: Section,
    /// Suction line; its outlet is the compressor's suction chamber and crankcase too.
    pub suction_line: Section,
    /// The way past the orifice tube: shut while the tube sits sealed.
    pub bypass: LinkId,
    /// Relief valve.
    pub relief: LinkId,
    /// Leak past the compressor's reeds and rings.
    pub reeds: LinkId,
    /// Metal of the compressor's body.
    pub body: ShellId,
    /// Wall of the discharge hose.
    pub discharge_hose: ShellId,
    pub(crate) nodes: Arc<[NodeId]>,
}

impl Circuit {
    /// Returns all volumes in the order of the flow, from the compressor round to the compressor.
    pub fn nodes(&self) -> &[NodeId] {
        &self.nodes
    }

    /// Returns the compressor, from the suction to the discharge line.
    pub fn compressor(&self) -> LinkId {
        self.suction_line.out()
    }

    /// Returns the orifice tube, from the liquid line to the evaporator.
    pub fn orifice(&self) -> LinkId {
        self.liquid_line.out()
    }

    /// Returns the accumulator's pick-up tube with the first stretch of the suction line.
    pub fn pick_up(&self) -> LinkId {
        self.accumulator.out()
    }

    /// Returns the volume with the high-side port, the cut-out and the relief valve.
    pub fn high_side(&self) -> NodeId {
        self.discharge_line.outlet()
    }

    /// Returns the volume with the low-side port and the cycling switch.
    pub fn low_side(&self) -> NodeId {
        self.accumulator.outlet()
    }

    /// Returns the volume from which the compressor draws; a second low-side port is there.
    pub fn compressor_inlet(&self) -> NodeId {
        self.suction_line.outlet()
    }
}
