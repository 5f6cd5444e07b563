//! Metal around a volume: lines, accumulator, compressor body, hoses, cans.

use core::ops::{Index, IndexMut};

use serde::{Deserialize, Serialize};

use crate::{
    built::Misfit,
    exchange::between,
    network::{Node, NodeId},
    puddles,
};

/// What a shell stands in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Around {
    /// Air under the hood, warmed by the engine.
    Hood,
    /// Air of the room.
    Room,
    /// A bath held at a temperature, K.
    Bath(f64),
}

/// A metal shell between a node and its surroundings.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Shell {
    /// The node inside.
    #[serde(skip)]
    pub node: NodeId,
    /// Temperature, K.
    pub t: f64,
    /// Heat capacity, J/K.
    pub metal: f64,
    /// Conductance to the inside, W/K.
    pub inside: f64,
    /// Conductance to the surroundings, W/K.
    pub outside: f64,
    /// Surroundings.
    pub around: Around,
}

impl Shell {
    /// Passes heat for `dt` seconds to the node inside. Returns the heat into the node and the heat in from the surroundings at
    /// `t_around`, J.
    pub fn pass(&mut self, node: &Node, t_around: f64, dt: f64) -> (f64, f64) {
        let (s, inside) = (&node.state, puddles::touching(node, self.inside));
        let capacity = s.capacity_towards(self.t);
        let inward = between(inside, self.t, s.t, self.metal, capacity, dt);
        let from_out = between(
            self.outside,
            t_around,
            self.t,
            f64::MAX.sqrt(),
            self.metal,
            dt,
        );
        self.t += (from_out - inward) / self.metal;
        (inward, from_out)
    }
}

/// Which shell.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct ShellId(usize);

/// All shells of a bay.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Shells(Vec<Shell>);

impl Shells {
    /// Adds a shell and returns which it is.
    pub fn add(&mut self, shell: Shell) -> ShellId {
        self.0.push(shell);
        ShellId(self.0.len() - 1)
    }

    /// Gives a state that was read the nodes of shells that were built.
    ///
    /// # Errors
    /// [`Misfit`] when there are more or fewer.
    pub(crate) fn put_with(&mut self, built: &Self) -> Result<(), Misfit> {
        Misfit::count("shells", self.0.len(), built.0.len())?;
        for (shell, built) in self.iter_mut().zip(built) {
            shell.node = built.node;
        }
        Ok(())
    }

    /// Returns all shells in the order in which they were added.
    pub fn iter(&self) -> core::slice::Iter<'_, Shell> {
        self.0.iter()
    }

    /// As [`iter`](Self::iter), to change them.
    pub fn iter_mut(&mut self) -> core::slice::IterMut<'_, Shell> {
        self.0.iter_mut()
    }

    /// Returns which they are, in that order.
    pub fn ids(&self) -> impl Iterator<Item = ShellId> + use<> {
        (0..self.0.len()).map(ShellId)
    }
}

impl<'a> IntoIterator for &'a Shells {
    type Item = &'a Shell;
    type IntoIter = core::slice::Iter<'a, Shell>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<'a> IntoIterator for &'a mut Shells {
    type Item = &'a mut Shell;
    type IntoIter = core::slice::IterMut<'a, Shell>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}

impl Index<ShellId> for Shells {
    type Output = Shell;

    fn index(&self, id: ShellId) -> &Shell {
        &self.0[id.0]
    }
}

impl IndexMut<ShellId> for Shells {
    fn index_mut(&mut self, id: ShellId) -> &mut Shell {
        &mut self.0[id.0]
    }
}
