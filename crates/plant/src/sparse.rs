//! Small sparse linear systems of one fixed pattern: the pressures of a network.
//!
//! A network has a few dozen nodes and hardly more links, so its matrix is nearly a tree. The elimination order
//! (fewest neighbours first; Tinney & Walker, Proc. IEEE 55 (1967) 1801, scheme 2) is found once per topology; each
//! solve then touches only what is filled. Rows are dominated by their diagonal, so no pivoting is needed.

/// Largest number of unknowns (one bit each in a word).
pub const MAX_UNKNOWNS: usize = 64;

/// Elimination order and fill of one pattern, with room for its numbers: entries outside the pattern have no place.
#[derive(Debug, Clone, Default)]
pub struct Sparse {
    pivots: Vec<Pivot>,
    /// Neighbours of every pivot that are not yet eliminated when its turn comes, in the order of the pivots.
    neighbours: Vec<usize>,
    /// For every pivot and every pair of its neighbours: the place of what the elimination changes, counted from the end of the
    /// pivot's own entries.
    changed: Vec<usize>,
    /// For every edge: the places of its entries, by row and column.
    edges: Vec<[[usize; 2]; 2]>,
    /// For every pivot in order: its diagonal, its row, its column.
    a: Vec<f64>,
}

/// One unknown in the order of elimination.
#[derive(Debug, Clone, Copy)]
struct Pivot {
    unknown: usize,
    /// How many neighbours it has.
    around: usize,
}

impl Pivot {
    /// How many entries are its own.
    fn entries(self) -> usize {
        1 + 2 * self.around
    }
}

impl Sparse {
    /// Finds an elimination order for `n` unknowns coupled pairwise by `edges`.
    ///
    /// # Panics
    /// When `n` is above [`MAX_UNKNOWNS`] or an edge names an unknown that does not exist: a fault of the program.
    pub fn new(n: usize, edges: impl Iterator<Item = (usize, usize)>) -> Self {
        assert!(
            n <= MAX_UNKNOWNS,
            "{n} unknowns are more than {MAX_UNKNOWNS}"
        );
        let edges: Vec<_> = edges.collect();
        let mut adjacent = vec![0u64; n];
        for &(i, j) in &edges {
            assert!(i < n && j < n, "edge {i}-{j} lies outside {n} unknowns");
            if i != j {
                adjacent[i] |= 1 << j;
                adjacent[j] |= 1 << i;
            }
        }
        let mut left: u64 = if n == 64 { u64::MAX } else { (1 << n) - 1 };
        let mut pivots = Vec::with_capacity(n);
        let mut neighbours = Vec::new();
        // Where each entry stands, by row and column; what is outside the pattern stays zero and is not asked for.
        let mut places = vec![vec![0; n]; n];
        let mut end = 0;
        while left != 0 {
            let unknown = (0..n)
                .filter(|k| left >> k & 1 == 1)
                .min_by_key(|&k| (adjacent[k] & left).count_ones())
                .unwrap_or(0);
            left &= !(1 << unknown);
            let mask = adjacent[unknown] & left;
            let around: Vec<_> = (0..n).filter(|i| mask >> i & 1 == 1).collect();
            places[unknown][unknown] = end;
            for (s, &i) in around.iter().enumerate() {
                adjacent[i] |= mask & !(1 << i);
                places[unknown][i] = end + 1 + s;
                places[i][unknown] = end + 1 + around.len() + s;
            }
            let pivot = Pivot {
                unknown,
                around: around.len(),
            };
            end += pivot.entries();
            neighbours.extend(around);
            pivots.push(pivot);
        }
        let mut changed = Vec::new();
        let (mut rest, mut from) = (&neighbours[..], 0);
        for pivot in &pivots {
            let around;
            (around, rest) = rest.split_at(pivot.around);
            from += pivot.entries();
            for &i in around {
                changed.extend(around.iter().map(|&j| places[i][j] - from));
            }
        }
        let of_edge = |(i, j): (usize, usize)| [i, j].map(|row| [i, j].map(|col| places[row][col]));
        Self {
            edges: edges.into_iter().map(of_edge).collect(),
            a: vec![0.0; end],
            pivots,
            neighbours,
            changed,
        }
    }

    /// Starts a new matrix: zero, with ones on the diagonal.
    pub fn clear(&mut self) {
        self.a.fill(0.0);
        let mut place = 0;
        for pivot in &self.pivots {
            self.a[place] = 1.0;
            place += pivot.entries();
        }
    }

    /// Adds to the entries of an edge in the row of its first (0) or second end (1): those in the columns of both.
    #[inline]
    pub fn add(&mut self, edge: usize, row: usize, values: [f64; 2]) {
        for (place, value) in self.edges[edge][row].into_iter().zip(values) {
            self.a[place] += value;
        }
    }

    /// Solves in place: `b` holds the right-hand side before and the unknowns after. The matrix is used up.
    pub fn solve(&mut self, b: &mut [f64]) {
        let mut rest = &mut self.a[..];
        let (mut neighbours, mut changed) = (&self.neighbours[..], &self.changed[..]);
        for &pivot in &self.pivots {
            let (own, around);
            (own, rest) = rest.split_at_mut(pivot.entries());
            (around, neighbours) = neighbours.split_at(pivot.around);
            let (row, column) = own[1..].split_at(pivot.around);
            let inv = 1.0 / own[0];
            for (&i, below) in around.iter().zip(column) {
                let places;
                (places, changed) = changed.split_at(pivot.around);
                let factor = below * inv;
                if factor == 0.0 {
                    continue;
                }
                for (&place, beside) in places.iter().zip(row) {
                    rest[place] -= factor * beside;
                }
                b[i] -= factor * b[pivot.unknown];
            }
        }
        let (mut rest, mut neighbours) = (&self.a[..], &self.neighbours[..]);
        for &pivot in self.pivots.iter().rev() {
            let (own, around);
            (rest, own) = rest.split_at(rest.len() - pivot.entries());
            (neighbours, around) = neighbours.split_at(neighbours.len() - pivot.around);
            let mut right = b[pivot.unknown];
            for (&i, beside) in around.iter().zip(&own[1..]) {
                right -= beside * b[i];
            }
            b[pivot.unknown] = right / own[0];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A ring with a branch: the product of matrix and answer gives the right-hand side back.
    #[test]
    fn a_ring_with_a_branch_is_solved() {
        let edges = [(0, 1), (1, 2), (2, 3), (3, 0), (2, 4), (4, 5)];
        let mut m = Sparse::new(6, edges.into_iter());
        m.clear();
        let mut dense = [0.0; 36];
        (0..6).for_each(|i| dense[i * 7] = 1.0);
        for (k, (i, j)) in edges.into_iter().enumerate() {
            let g = 0.3 + 0.1 * f64::from(u32::try_from(k).unwrap());
            for (row, values) in [[g, -g], [-0.5 * g, 2.0 * g]].into_iter().enumerate() {
                m.add(k, row, values);
                dense[[i, j][row] * 6 + i] += values[0];
                dense[[i, j][row] * 6 + j] += values[1];
            }
        }
        let right = [1.0, -2.0, 3.0, 0.5, 4.0, -1.0];
        let mut x = right;
        m.solve(&mut x);
        for i in 0..6 {
            let sum: f64 = (0..6).map(|j| dense[i * 6 + j] * x[j]).sum();
            assert!(
                (sum - right[i]).abs() < 1e-12,
                "row {i}: {sum} against {}",
                right[i]
            );
        }
    }
}
