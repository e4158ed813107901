//! Linear equations of the few unknowns that photo geometry has.

/// Solves augmented rows (n rows of n + 1 numbers) by elimination with row exchange; none where a pivot vanishes beside
/// the largest number of its row as given.
pub(super) fn solve(mut rows: Vec<Vec<f64>>) -> Option<Vec<f64>> {
    let n = rows.len();
    // Each row is brought to a largest coefficient of 1, so that one line serves to call a pivot nothing.
    for row in &mut rows {
        let largest = row.iter().take(n).fold(0.0_f64, |most, v| most.max(v.abs()));
        if !(largest > 0.0 && largest.is_finite()) {
            return None;
        }
        for v in row.iter_mut() {
            *v /= largest;
        }
    }
    for column in 0..n {
        let size = |row: &Vec<f64>| row.get(column).map_or(0.0, |v| v.abs());
        let best = (column..n).max_by(|a, b| {
            let of = |i: &usize| rows.get(*i).map_or(0.0, size);
            of(a).total_cmp(&of(b))
        })?;
        rows.swap(column, best);
        let (done, below) = rows.split_at_mut(column + 1);
        let pivot = done.last()?;
        let lead = *pivot.get(column)?;
        if lead.is_nan() || lead.abs() < 1e-13 {
            return None;
        }
        for row in below {
            let factor = row.get(column)? / lead;
            for (v, p) in row.iter_mut().zip(pivot) {
                *v -= factor * p;
            }
        }
    }
    let mut x = vec![0.0; n];
    for (i, row) in rows.iter().enumerate().rev() {
        let known: f64 = row.iter().zip(&x).take(n).skip(i + 1).map(|(a, x)| a * x).sum();
        *x.get_mut(i)? = (row.get(n)? - known) / row.get(i)?;
    }
    x.iter().all(|v| v.is_finite()).then_some(x)
}

/// Least squares: equations as rows of n coefficients and the right side, brought to n normal equations.
pub(super) fn least_squares(equations: &[Vec<f64>], n: usize) -> Option<Vec<f64>> {
    if equations.len() == n {
        return solve(equations.to_vec());
    }
    let mut normal = vec![vec![0.0; n + 1]; n];
    for equation in equations {
        for (row, a) in normal.iter_mut().zip(equation) {
            for (sum, b) in row.iter_mut().zip(equation) {
                *sum += a * b;
            }
        }
    }
    solve(normal)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_equations_by_hand() {
        // x = 1, y = −2, z = 3.
        let rows = vec![
            vec![0.0, 2.0, 1.0, -1.0],
            vec![1.0, 1.0, 1.0, 2.0],
            vec![3.0, 0.0, -1.0, 0.0],
        ];
        let x = solve(rows).unwrap_or_default();
        assert_eq!(x.len(), 3);
        for (got, want) in x.iter().zip([1.0, -2.0, 3.0]) {
            assert!((got - want).abs() < 1e-12, "{x:?}");
        }
    }

    #[test]
    fn equations_that_say_the_same_have_no_answer() {
        assert!(solve(vec![vec![1.0, 2.0, 3.0], vec![2.0, 4.0, 6.0]]).is_none());
        assert!(solve(vec![vec![0.0, 0.0, 0.0], vec![2.0, 4.0, 6.0]]).is_none());
    }

    /// Five pairs of points that the authors of a textbook give in their public library as their book's example, with the
    /// eight parameters it prints to six places (Burger and Burge, Principles of Digital Image Processing; ProjectiveMapping2D,
    /// read as text; the book was not seen). They solve the plain equations, without normalisation and without refining.
    #[test]
    fn a_textbook_s_projective_map() {
        let pairs = [
            ([2.0, 5.0], [4.0, 3.0]),
            ([4.0, 6.0], [5.0, 2.0]),
            ([7.0, 9.0], [9.0, 3.0]),
            ([5.0, 9.0], [7.0, 5.0]),
            ([5.2, 9.1], [7.0, 4.9]),
        ];
        let mut equations = Vec::new();
        for ([x, y], [u, v]) in pairs {
            equations.push(vec![x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y, u]);
            equations.push(vec![0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y, v]);
        }
        let printed = [
            -0.732_424, 1.208_712, 0.244_379, -1.702_388, 1.725_545, -1.654_658, -0.206_047, 0.123_181,
        ];
        let found = least_squares(&equations, 8).unwrap_or_default();
        assert_eq!(found.len(), 8);
        for (found, printed) in found.iter().zip(printed) {
            assert!((found - printed).abs() <= 0.51e-6, "{found} {printed}");
        }
    }
}
