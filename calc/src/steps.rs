//! Load along the wall as a step function with exact break points, in channels that keep apart what the method combines
//! differently.

use crate::clause::NationalParameters;

/// Channels of a load: permanent first, imposed after.
pub const CHANNELS: usize = 8;

/// What a channel holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(usize)]
pub enum Channel {
    /// Masonry, plaster and glazing.
    WallG = 0,
    /// Floors, permanent.
    FloorG = 1,
    /// Roof, permanent.
    RoofG = 2,
    /// Point loads, permanent.
    PointG = 3,
    /// Floors and partitions, imposed.
    FloorQ = 4,
    /// Roof, imposed for maintenance.
    RoofQ = 5,
    /// Snow.
    SnowQ = 6,
    /// Point loads, imposed.
    PointQ = 7,
}

/// A load (kN) or load per metre (kN/m) by channel.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shares(pub [f64; CHANNELS]);

impl Shares {
    /// All in one channel.
    #[must_use]
    pub fn one(channel: Channel, value: f64) -> Self {
        let mut out = Self::default();
        if let Some(cell) = out.0.get_mut(channel as usize) {
            *cell = value;
        }
        out
    }

    /// One channel.
    #[must_use]
    pub fn get(&self, channel: Channel) -> f64 {
        self.0.get(channel as usize).copied().unwrap_or_default()
    }

    /// Sum of two.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        let mut out = *self;
        for (cell, more) in out.0.iter_mut().zip(other.0) {
            *cell += more;
        }
        out
    }

    /// All channels times a factor.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        let mut out = *self;
        for cell in &mut out.0 {
            *cell *= factor;
        }
        out
    }

    /// Permanent part.
    #[must_use]
    pub fn permanent(&self) -> f64 {
        self.0.iter().take(4).sum()
    }

    /// Imposed part.
    #[must_use]
    pub fn imposed(&self) -> f64 {
        self.0.iter().skip(4).sum()
    }

    /// Frequent part of the imposed load by the national ψ1: points as floors.
    #[must_use]
    pub fn frequent(&self, national: &NationalParameters) -> f64 {
        national.psi1_floor.value * (self.get(Channel::FloorQ) + self.get(Channel::PointQ))
            + national.psi1_snow.value * self.get(Channel::SnowQ)
            + national.psi1_roof.value * self.get(Channel::RoofQ)
    }
}

/// A step function: value `i` holds from break `i` to break `i + 1`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Steps {
    breaks: Vec<f64>,
    values: Vec<Shares>,
}

impl Steps {
    /// Intervals with their values.
    pub fn intervals(&self) -> impl Iterator<Item = (f64, f64, &Shares)> {
        let pairs = self.breaks.iter().zip(self.breaks.iter().skip(1));
        pairs.zip(&self.values).map(|((from, to), value)| (*from, *to, value))
    }

    /// Break points.
    #[must_use]
    pub fn breaks(&self) -> &[f64] {
        &self.breaks
    }

    /// Adds a load per metre from `a` to `b`.
    pub fn add(&mut self, a: f64, b: f64, per_m: &Shares) {
        if b - a <= 1e-9 {
            return;
        }
        self.split(a);
        self.split(b);
        for ((from, to), value) in self.breaks.iter().zip(self.breaks.iter().skip(1)).zip(&mut self.values) {
            if *from >= a - 1e-9 && *to <= b + 1e-9 {
                *value = value.plus(per_m);
            }
        }
    }

    /// Load between `a` and `b`, kN.
    #[must_use]
    pub fn between(&self, a: f64, b: f64) -> Shares {
        let mut out = Shares::default();
        for (from, to, value) in self.intervals() {
            let length = to.min(b) - from.max(a);
            if length > 0.0 {
                out = out.plus(&value.times(length));
            }
        }
        out
    }

    /// Reactions at `a` and `b` of a simple beam under the load between them, kN.
    #[must_use]
    pub fn simple_beam(&self, a: f64, b: f64) -> (Shares, Shares) {
        let (mut left, mut right) = (Shares::default(), Shares::default());
        for (from, to, value) in self.intervals() {
            let (from, to) = (from.max(a), to.min(b));
            if to > from {
                let share = (0.5 * (from + to) - a) / (b - a);
                left = left.plus(&value.times((to - from) * (1.0 - share)));
                right = right.plus(&value.times((to - from) * share));
            }
        }
        (left, right)
    }

    /// Largest moment of a simple beam from `a` to `b` under the load between them, kNm, by the figure that `combine` makes
    /// of a load: where the shear force changes its sign, closed form in each interval.
    #[must_use]
    pub fn largest_moment(&self, a: f64, b: f64, combine: impl Fn(&Shares) -> f64) -> f64 {
        let span = b - a;
        if span <= 1e-9 {
            return 0.0;
        }
        let inside = || {
            self.intervals()
                .map(|(from, to, value)| (from.max(a), to.min(b), combine(value)))
                .filter(|(from, to, _)| to > from)
        };
        let mut shear: f64 = inside()
            .map(|(from, to, w)| w * (to - from) * (b - 0.5 * (from + to)) / span)
            .sum();
        let (mut at, mut moment, mut largest) = (a, 0.0, 0.0_f64);
        for (from, to, w) in inside() {
            // Nothing may stand between two intervals.
            moment += shear * (from - at);
            let length = to - from;
            let zero = if w > 0.0 { shear / w } else { -1.0 };
            if zero > 0.0 && zero < length {
                largest = largest.max(moment + 0.5 * shear * zero);
            }
            moment += shear * length - 0.5 * w * length * length;
            shear -= w * length;
            at = to;
            largest = largest.max(moment);
        }
        largest
    }

    /// Value at a place, kN/m.
    #[must_use]
    pub fn at(&self, x: f64) -> Shares {
        self.intervals()
            .find(|(from, to, _)| x >= *from && x < *to)
            .map_or_else(Shares::default, |(_, _, value)| *value)
    }

    /// Takes the load between `a` and `b` away and gives it back as the reactions of a simple beam at `a` and `b`, kN.
    pub fn lift(&mut self, a: f64, b: f64) -> (Shares, Shares) {
        self.split(a);
        self.split(b);
        let (mut left, mut right) = (Shares::default(), Shares::default());
        for ((from, to), value) in self.breaks.iter().zip(self.breaks.iter().skip(1)).zip(&mut self.values) {
            if *from >= a - 1e-9 && *to <= b + 1e-9 {
                let share = (0.5 * (from + to) - a) / (b - a);
                left = left.plus(&value.times((to - from) * (1.0 - share)));
                right = right.plus(&value.times((to - from) * share));
                *value = Shares::default();
            }
        }
        (left, right)
    }

    fn split(&mut self, x: f64) {
        let at = self.breaks.partition_point(|b| *b < x - 1e-9);
        match self.breaks.get(at) {
            Some(here) if (here - x).abs() <= 1e-9 => return,
            _ => {}
        }
        self.breaks.insert(at, x);
        if self.breaks.len() < 2 {
            return;
        }
        // A new interval inside an old one takes its value; one beyond the ends starts empty.
        let value = if at == 0 || at == self.breaks.len() - 1 {
            Shares::default()
        } else {
            self.values.get(at - 1).copied().unwrap_or_default()
        };
        let place = if at == 0 { 0 } else { at.min(self.values.len()) };
        self.values.insert(place, value);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Textbook moments of a simple beam: w·L²/8 even; 9·w·L²/128 over its left half; P·a·b/L of a load that stands on next
    /// to nothing; what lies beyond the beam counts for nothing.
    #[test]
    fn the_largest_moment_is_found_where_the_shear_changes_sign() {
        let beam = |loads: &[(f64, f64, f64)]| {
            let mut steps = Steps::default();
            for (from, to, w) in loads {
                steps.add(*from, *to, &Shares::one(Channel::WallG, *w));
            }
            steps.largest_moment(1.0, 5.0, |load| 2.0 * load.permanent())
        };
        let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-6, "{found} {expected}");
        near(beam(&[(0.0, 9.0, 3.0)]), 2.0 * 3.0 * 16.0 / 8.0);
        near(beam(&[(1.0, 3.0, 3.0)]), 2.0 * 9.0 * 3.0 * 16.0 / 128.0);
        near(beam(&[(3.0, 8.0, 3.0)]), 2.0 * 9.0 * 3.0 * 16.0 / 128.0);
        near(
            beam(&[(2.0 - 1e-7, 2.0 + 1e-7, 7.0 / 2e-7)]),
            2.0 * 7.0 * 1.0 * 3.0 / 4.0,
        );
        // Two equal loads a quarter in from both ends: P·a between them, with a gap in the loads.
        near(
            beam(&[
                (2.0 - 1e-7, 2.0 + 1e-7, 1.0 / 2e-7),
                (4.0 - 1e-7, 4.0 + 1e-7, 1.0 / 2e-7),
            ]),
            2.0,
        );
        near(beam(&[(6.0, 8.0, 3.0)]), 0.0);
        near(beam(&[]), 0.0);
    }

    #[test]
    fn lifting_keeps_the_load_and_its_moment() {
        let mut steps = Steps::default();
        steps.add(0.0, 4.0, &Shares::one(Channel::WallG, 3.0));
        steps.add(1.0, 2.0, &Shares::one(Channel::WallG, 5.0));
        let before = steps.between(0.0, 4.0).permanent();
        let (left, right) = steps.lift(1.0, 3.0);
        // Statics of a simple beam of 2 m: 8 kN/m on its left metre, 3 kN/m on its right.
        assert!((left.permanent() - (8.0 * 0.75 + 3.0 * 0.25)).abs() < 1e-12);
        assert!((right.permanent() - (8.0 * 0.25 + 3.0 * 0.75)).abs() < 1e-12);
        let after = steps.between(0.0, 4.0).permanent() + left.permanent() + right.permanent();
        assert!((before - after).abs() < 1e-12);
        assert!(steps.at(2.5).permanent().abs() < 1e-12);
    }
}
