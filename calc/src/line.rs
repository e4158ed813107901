//! The wall over the cut as a beam on rigid supports, one support a needle: reactions with free ends to the cut edges.
//!
//! Influence lines come from the reciprocal theorem (Müller-Breslau): the influence line of a reaction is the shape the
//! beam takes when that support moves by one unit. So one small solution per support serves every load case, and imposed
//! load can be left off where it would relieve.

/// Influence lines of all reactions of a beam on rigid supports: on each stretch a cubic.
#[derive(Clone, Debug)]
pub struct Influence {
    supports: Vec<f64>,
    /// `shapes[i]` holds for support `i` the deflection (1 at `i`, 0 elsewhere) and the rotation at each support.
    shapes: Vec<Vec<f64>>,
}

impl Influence {
    /// Solves for supports in rising order. One support carries all; none gives an empty set.
    #[must_use]
    pub fn of(supports: &[f64]) -> Self {
        let n = supports.len();
        let shapes = (0..n).map(|i| rotations(supports, i)).collect();
        Self {
            supports: supports.to_vec(),
            shapes,
        }
    }

    /// Influence ordinate of reaction `i` for a unit load at `x`.
    #[must_use]
    pub fn ordinate(&self, i: usize, x: f64) -> f64 {
        let n = self.supports.len();
        if n == 1 {
            return 1.0;
        }
        let Some(rotation) = self.shapes.get(i) else { return 0.0 };
        let at = |k: usize| self.supports.get(k).copied().unwrap_or_default();
        let slope = |k: usize| rotation.get(k).copied().unwrap_or_default();
        let level = |k: usize| if k == i { 1.0 } else { 0.0 };
        if x <= at(0) {
            return level(0) + slope(0) * (x - at(0));
        }
        if x >= at(n - 1) {
            return level(n - 1) + slope(n - 1) * (x - at(n - 1));
        }
        let k = self.supports.partition_point(|s| *s <= x).clamp(1, n - 1) - 1;
        let length = at(k + 1) - at(k);
        let t = (x - at(k)) / length;
        let (t2, t3) = (t * t, t * t * t);
        level(k) * (1.0 - 3.0 * t2 + 2.0 * t3)
            + slope(k) * length * (t - 2.0 * t2 + t3)
            + level(k + 1) * (3.0 * t2 - 2.0 * t3)
            + slope(k + 1) * length * (t3 - t2)
    }

    /// Integral of the influence line of reaction `i` from `a` to `b` as (positive part, negative part). On each stretch
    /// between supports the line is a cubic; three-point Gauss on pieces short enough keeps sign changes apart.
    #[must_use]
    pub fn integral(&self, i: usize, a: f64, b: f64) -> (f64, f64) {
        let (mut plus, mut minus) = (0.0, 0.0);
        self.by_pieces(i, a, b, |_, _, part| {
            if part >= 0.0 {
                plus += part;
            } else {
                minus += part;
            }
        });
        (plus, minus)
    }

    /// Goes from `a` to `b` in the pieces that [`Self::integral`] tells apart by sign, each with its part of the integral.
    pub fn by_pieces(&self, i: usize, a: f64, b: f64, mut each: impl FnMut(f64, f64, f64)) {
        let mut from = a;
        let inside = self.supports.iter().copied().filter(|s| *s > a && *s < b);
        for to in inside.chain(std::iter::once(b)) {
            // Three-point Gauss integrates a cubic exactly, so only the split by sign is approximate.
            let pieces = 4;
            let step = (to - from) / f64::from(pieces);
            for piece in 0..pieces {
                let middle = from + step * (f64::from(piece) + 0.5);
                let off = 0.5 * step * 0.774_596_669_241_483_4;
                let sum = 5.0 / 9.0 * (self.ordinate(i, middle - off) + self.ordinate(i, middle + off))
                    + 8.0 / 9.0 * self.ordinate(i, middle);
                each(middle - 0.5 * step, middle + 0.5 * step, 0.5 * step * sum);
            }
            from = to;
        }
    }
}

/// Rotations at all supports when support `moved` rises by one unit: the tridiagonal three-rotation equations.
fn rotations(supports: &[f64], moved: usize) -> Vec<f64> {
    let n = supports.len();
    if n < 2 {
        return vec![0.0; n];
    }
    let lengths: Vec<f64> = supports
        .iter()
        .zip(supports.iter().skip(1))
        .map(|(a, b)| (b - a).max(1e-6))
        .collect();
    let level = |k: usize| if k == moved { 1.0 } else { 0.0 };
    let length = |k: usize| lengths.get(k).copied().unwrap_or(1.0);
    // Row k: moment equilibrium at support k, EI = 1.
    let (mut lower, mut diagonal, mut upper, mut right) = (
        Vec::with_capacity(n),
        Vec::with_capacity(n),
        Vec::with_capacity(n),
        Vec::with_capacity(n),
    );
    for k in 0..n {
        let (mut d, mut r, mut l, mut u) = (0.0, 0.0, 0.0, 0.0);
        if k > 0 {
            let s = length(k - 1);
            d += 4.0 / s;
            l = 2.0 / s;
            r += 6.0 / (s * s) * (level(k) - level(k - 1));
        }
        if k + 1 < n {
            let s = length(k);
            d += 4.0 / s;
            u = 2.0 / s;
            r += 6.0 / (s * s) * (level(k + 1) - level(k));
        }
        lower.push(l);
        diagonal.push(d);
        upper.push(u);
        right.push(r);
    }
    solve(&lower, &mut diagonal, &upper, &mut right);
    right
}

/// Thomas algorithm; the matrix is diagonally dominant, so no pivoting is needed. The solution replaces `right`.
fn solve(lower: &[f64], diagonal: &mut [f64], upper: &[f64], right: &mut [f64]) {
    let (mut d_before, mut r_before, mut u_before) = (1.0, 0.0, 0.0);
    for (k, (((l, d), u), r)) in lower
        .iter()
        .zip(diagonal.iter_mut())
        .zip(upper)
        .zip(right.iter_mut())
        .enumerate()
    {
        if k > 0 {
            let factor = l / d_before;
            *d -= factor * u_before;
            *r -= factor * r_before;
        }
        (d_before, r_before, u_before) = (*d, *r, *u);
    }
    let mut after = 0.0;
    for ((d, u), r) in diagonal.iter().zip(upper).zip(right.iter_mut()).rev() {
        *r = (*r - u * after) / d;
        after = *r;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three-span beam, unit uniform load: reactions 0.4, 1.1, 1.1, 0.4 times span.
    /// Source: tables of continuous beams in handbooks of structural steelwork, from memory.
    #[test]
    fn three_equal_spans_give_the_tabulated_reactions() {
        let beam = Influence::of(&[0.0, 1.0, 2.0, 3.0]);
        for (i, expected) in [0.4, 1.1, 1.1, 0.4].into_iter().enumerate() {
            let (plus, minus) = beam.integral(i, 0.0, 3.0);
            assert!((plus + minus - expected).abs() < 1e-9, "{i}: {}", plus + minus);
        }
    }

    /// Overhang: beam on supports at 1 and 2 of a length of 3, uniform: half each by symmetry.
    #[test]
    fn free_ends_are_carried() {
        let beam = Influence::of(&[1.0, 2.0]);
        let (plus, minus) = beam.integral(0, 0.0, 3.0);
        assert!((plus + minus - 1.5).abs() < 1e-9);
    }
}
