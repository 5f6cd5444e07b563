//! Names of nodes and links. Only the network counts them: nobody else makes one or reckons with it. The default stands in a state that
//! was read, till it is put into a bay.

use core::ops::{Index, IndexMut};

use serde::{Deserialize, Serialize};

use super::Network;

/// Which node of the network.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct NodeId(usize);

/// Which link of the network.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct LinkId(usize);

/// The room air: a node without end that nothing done in the bay changes.
pub const ROOM: NodeId = NodeId(0);
/// The first node after the room.
pub const FIRST: NodeId = NodeId(1);

impl NodeId {
    pub(super) const fn at(index: usize) -> Self {
        Self(index)
    }

    pub(super) const fn index(self) -> usize {
        self.0
    }
}

impl LinkId {
    pub(super) const fn at(index: usize) -> Self {
        Self(index)
    }

    pub(super) const fn index(self) -> usize {
        self.0
    }
}

/// One value for each node, the room's first.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PerNode<T>(Vec<T>);

impl<T: Clone> PerNode<T> {
    /// Returns `value` for each of `count` nodes.
    pub(super) fn new(count: usize, value: T) -> Self {
        Self(vec![value; count])
    }

    /// Gives every node of a network `value`.
    pub fn reset(&mut self, net: &Network, value: T) {
        self.0.clear();
        self.0.resize(net.nodes.len(), value);
    }
}

impl<T> PerNode<T> {
    /// Returns the values in the order of the nodes, the room's first.
    pub fn values(&self) -> &[T] {
        &self.0
    }
}

impl<T> Index<NodeId> for PerNode<T> {
    type Output = T;

    fn index(&self, id: NodeId) -> &T {
        &self.0[id.0]
    }
}

impl<T> IndexMut<NodeId> for PerNode<T> {
    fn index_mut(&mut self, id: NodeId) -> &mut T {
        &mut self.0[id.0]
    }
}
