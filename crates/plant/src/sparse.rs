//! Small sparse linear systems of one fixed pattern: the pressures of a network.
//!
//! A network has a few dozen nodes and hardly more links, so its matrix is nearly a tree. The elimination order
//! (fewest neighbours first; Tinney & Walker, Proc. IEEE 55 (1967) 1801, scheme 2) is found once per topology; each
//! solve then touches only what is filled. Rows are dominated by their diagonal, so no pivoting is needed.

/// Largest number of unknowns (one bit each in a word).
pub const MAX_UNKNOWNS: usize = 64;

/// Elimination order and fill of one pattern, with room for its numbers.
#[derive(Debug, Clone, Default)]
pub struct Sparse {
    n: usize,
    /// For each pivot in order: the pivot, then where its not yet eliminated neighbours stand in `neighbours`.
    pivots: Vec<(usize, usize, usize)>,
    neighbours: Vec<usize>,
    a: Vec<f64>,
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
        let mut adjacent = vec![0u64; n];
        for (i, j) in edges {
            assert!(i < n && j < n, "edge {i}-{j} lies outside {n} unknowns");
            if i != j {
                adjacent[i] |= 1 << j;
                adjacent[j] |= 1 << i;
            }
        }
        let mut left: u64 = if n == 64 { u64::MAX } else { (1 << n) - 1 };
        let mut pivots = Vec::with_capacity(n);
        let mut neighbours = Vec::new();
        while left != 0 {
            let pivot = (0..n)
                .filter(|k| left >> k & 1 == 1)
                .min_by_key(|&k| (adjacent[k] & left).count_ones())
                .unwrap_or(0);
            left &= !(1 << pivot);
            let around = adjacent[pivot] & left;
            let start = neighbours.len();
            for (i, adjacent) in adjacent.iter_mut().enumerate() {
                if around >> i & 1 == 1 {
                    neighbours.push(i);
                    *adjacent |= around & !(1 << i);
                }
            }
            pivots.push((pivot, start, neighbours.len()));
        }
        Self {
            n,
            pivots,
            neighbours,
            a: vec![0.0; n * n],
        }
    }

    /// Starts a new matrix: zero, with ones on the diagonal.
    pub fn clear(&mut self) {
        self.a.fill(0.0);
        for i in 0..self.n {
            self.a[i * self.n + i] = 1.0;
        }
    }

    /// Adds to an entry that lies in the pattern.
    #[inline]
    pub fn add(&mut self, row: usize, col: usize, value: f64) {
        self.a[row * self.n + col] += value;
    }

    /// Solves in place: `b` holds the right-hand side before and the unknowns after. The matrix is used up.
    pub fn solve(&mut self, b: &mut [f64]) {
        let n = self.n;
        for &(k, start, end) in &self.pivots {
            let inv = 1.0 / self.a[k * n + k];
            for &i in &self.neighbours[start..end] {
                let factor = self.a[i * n + k] * inv;
                if factor == 0.0 {
                    continue;
                }
                for &j in &self.neighbours[start..end] {
                    self.a[i * n + j] -= factor * self.a[k * n + j];
                }
                b[i] -= factor * b[k];
            }
        }
        for &(k, start, end) in self.pivots.iter().rev() {
            let mut rest = b[k];
            for &j in &self.neighbours[start..end] {
                rest -= self.a[k * n + j] * b[j];
            }
            b[k] = rest / self.a[k * n + k];
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
        for (k, (i, j)) in edges.into_iter().enumerate() {
            let g = 0.3 + 0.1 * f64::from(u32::try_from(k).unwrap());
            m.add(i, i, g);
            m.add(j, j, 2.0 * g);
            m.add(i, j, -g);
            m.add(j, i, -0.5 * g);
        }
        let dense = m.a.clone();
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
