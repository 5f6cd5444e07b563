//! Square root of a covariance (Cholesky), row by row.

/// Lower triangle whose product with its transpose is the covariance.
#[derive(Debug, Clone)]
pub(super) struct Root {
    rows: Vec<Vec<f64>>,
}

impl Root {
    /// Takes the root of a symmetric matrix of which the lower triangle is given. What rounding would make negative on the diagonal is held
    /// above zero by its share of the entry.
    pub(super) fn of(mut rows: Vec<Vec<f64>>) -> Self {
        for i in 0..rows.len() {
            let (above, here) = rows.split_at_mut(i);
            let row = &mut here[0];
            for j in 0..=i {
                let other: &[f64] = if j < i { &above[j] } else { &[] };
                let sum: f64 = if j < i {
                    row[..j].iter().zip(other).map(|(a, b)| a * b).sum()
                } else {
                    row[..i].iter().map(|a| a * a).sum()
                };
                let left = row[j] - sum;
                row[j] = if j < i {
                    left / other[j]
                } else {
                    left.max(1e-12 * row[j]).sqrt()
                };
            }
        }
        Self { rows }
    }

    /// Of differences, in order: the square of their distance and the logarithm of the root's determinant, both up to each of them.
    pub(super) fn distances(&self, differences: &[f64]) -> Vec<(f64, f64)> {
        let mut whitened: Vec<f64> = Vec::with_capacity(differences.len());
        let (mut square, mut log) = (0.0, 0.0);
        let mut so_far = Vec::with_capacity(differences.len());
        for (row, difference) in self.rows.iter().zip(differences) {
            let known: f64 = row.iter().zip(&whitened).map(|(a, b)| a * b).sum();
            let diagonal = row[whitened.len()];
            let z = (difference - known) / diagonal;
            whitened.push(z);
            square += z * z;
            log += libm::log(diagonal);
            so_far.push((square, log));
        }
        so_far
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: variances 4 and 2, covariance 2; of (2, 2) the square is (x' inverse x) = 2, the determinant 4.
    #[test]
    fn a_distance_is_as_by_hand() {
        let root = Root::of(vec![vec![4.0], vec![2.0, 2.0]]);
        let distances = root.distances(&[2.0, 2.0]);
        assert!((distances[0].0 - 1.0).abs() < 1e-12, "{distances:?}");
        assert!((distances[1].0 - 2.0).abs() < 1e-12, "{distances:?}");
        assert!(
            (distances[1].1 - libm::log(2.0)).abs() < 1e-12,
            "{distances:?}"
        );
    }
}
