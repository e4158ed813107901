//! The banded stiffness of a beam.

/// Symmetric band of half-width 3 stored row by row: the diagonal and three entries to its left.
pub(super) struct Band(Vec<[f64; 4]>);

impl Band {
    /// An empty band of `rows` rows.
    pub(super) fn new(rows: usize) -> Self {
        Self(vec![[0.0; 4]; rows])
    }

    /// Adds to an entry and, by symmetry, to its mirror.
    pub(super) fn add(&mut self, row: usize, column: usize, value: f64) {
        let (row, column) = (row.max(column), row.min(column));
        if let Some(entry) = self.0.get_mut(row).and_then(|r| r.get_mut(3 - (row - column).min(3))) {
            *entry += value;
        }
    }

    fn at(&self, row: usize, column: usize) -> f64 {
        self.0
            .get(row)
            .and_then(|r| r.get(3 + column - row))
            .copied()
            .unwrap_or(0.0)
    }

    /// Cholesky factor in place; `false` if a pivot is not above zero.
    pub(super) fn factor(&mut self) -> bool {
        for i in 0..self.0.len() {
            for j in i.saturating_sub(3)..=i {
                let sum: f64 = (i.saturating_sub(3)..j).map(|k| self.at(i, k) * self.at(j, k)).sum();
                let value = self.at(i, j) - sum;
                let entry = if i == j {
                    if value <= 0.0 {
                        return false;
                    }
                    value.sqrt()
                } else {
                    value / self.at(j, j)
                };
                if let Some(cell) = self.0.get_mut(i).and_then(|r| r.get_mut(3 + j - i)) {
                    *cell = entry;
                }
            }
        }
        true
    }

    /// Solves with the factor for a right side, in place.
    pub(super) fn solve(&self, right: &mut [f64]) {
        let n = right.len();
        let get = |v: &[f64], i: usize| v.get(i).copied().unwrap_or(0.0);
        for i in 0..n {
            let sum: f64 = (i.saturating_sub(3)..i).map(|k| self.at(i, k) * get(right, k)).sum();
            let value = (get(right, i) - sum) / self.at(i, i);
            if let Some(cell) = right.get_mut(i) {
                *cell = value;
            }
        }
        for i in (0..n).rev() {
            let sum: f64 = (i + 1..(i + 4).min(n)).map(|k| self.at(k, i) * get(right, k)).sum();
            let value = (get(right, i) - sum) / self.at(i, i);
            if let Some(cell) = right.get_mut(i) {
                *cell = value;
            }
        }
    }
}
