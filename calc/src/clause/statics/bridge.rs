//! A needle on its two props, each leaf's load over its own thickness; quick, for the search.

use super::{Placed, SpanLoad};
use crate::checks::needle::OVERHANG_MM;

/// A needle between its outside and inside prop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bridge {
    /// Axis of the outside prop, mm (negative).
    pub outside_mm: f64,
    /// Axis of the inside prop, mm.
    pub inside_mm: f64,
    /// Up to two leaves.
    pub strips: [SpanLoad; 2],
    /// Self-weight along the needle, kN/m.
    pub weight_kn_m: f64,
}

impl Bridge {
    /// Distance between the prop axes, mm.
    #[must_use]
    pub fn span_mm(&self) -> f64 {
        self.inside_mm - self.outside_mm
    }

    /// The same needle with its prop axes moved, mm (positive is inwards).
    #[must_use]
    pub fn moved(&self, outside_by: f64, inside_by: f64) -> Self {
        Self {
            outside_mm: self.outside_mm + outside_by,
            inside_mm: self.inside_mm + inside_by,
            ..*self
        }
    }

    /// Reactions outside and inside, kN, with the needle's ends beyond the props.
    #[must_use]
    pub fn reactions_kn(&self) -> (f64, f64) {
        let (outside, inside) = self.between_kn();
        let end = self.weight_kn_m * OVERHANG_MM / 1000.0;
        (outside + end, inside + end)
    }

    /// Reactions to what lies between the props, kN: the ends beyond would relieve the bending and are left out of it.
    fn between_kn(&self) -> (f64, f64) {
        self.placed().reactions_kn()
    }

    /// Bending moment at a place, kNm.
    #[must_use]
    pub fn moment_kn_m(&self, y_mm: f64) -> f64 {
        self.placed().moment_kn_m(y_mm)
    }

    fn placed(&self) -> Placed<'_> {
        Placed {
            left_mm: self.outside_mm,
            right_mm: self.inside_mm,
            loads: &self.strips,
            weight_kn_m: self.weight_kn_m,
        }
    }

    /// Largest bending moment, kNm: where the shear force changes sign. Leaves lie beside each other, outer one first, so
    /// the place is found without a search.
    #[must_use]
    pub fn largest_moment_kn_m(&self) -> f64 {
        let (mut shear, _) = self.between_kn();
        let mut largest: f64 = 0.0;
        let mut place = self.outside_mm;
        for strip in &self.strips {
            if strip.load_kn <= 0.0 {
                continue;
            }
            shear -= self.weight_kn_m * (strip.from_mm - place) / 1000.0;
            let per_mm = strip.load_kn / (strip.to_mm - strip.from_mm) + self.weight_kn_m / 1000.0;
            let zero = strip.from_mm + (shear / per_mm).clamp(0.0, strip.to_mm - strip.from_mm);
            largest = largest
                .max(self.moment_kn_m(strip.from_mm))
                .max(self.moment_kn_m(zero))
                .max(self.moment_kn_m(strip.to_mm));
            shear -= per_mm * (strip.to_mm - strip.from_mm);
            place = strip.to_mm;
        }
        largest
    }

    /// Largest deflection, mm, for a bending stiffness `ei`, N·mm²: leaves as four point loads each, largest of
    /// nine places, within some per cent above the true one: the search asks it of every candidate.
    #[must_use]
    pub fn deflection_mm(&self, ei: f64) -> f64 {
        let span = self.span_mm();
        let mut largest: f64 = 0.0;
        for tenth in 1..10 {
            let x = span * f64::from(tenth) / 10.0;
            // Self-weight, N/mm.
            let w = self.weight_kn_m;
            let mut sum = w * x * (span.powi(3) - 2.0 * span * x * x + x.powi(3)) / (24.0 * ei);
            for strip in &self.strips {
                for quarter in 0..4 {
                    let share = (f64::from(quarter) + 0.5) / 4.0;
                    let a = strip.from_mm + share * (strip.to_mm - strip.from_mm) - self.outside_mm;
                    let (near, far) = if x <= a { (x, span - a) } else { (span - x, a) };
                    sum += strip.load_kn * 250.0 * far * near * (span * span - far * far - near * near)
                        / (6.0 * ei * span);
                }
            }
            largest = largest.max(sum);
        }
        largest
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Point load off centre: R, M by statics, deflection P a² b² / (3 E I L); 20 kN at 0.45 of 1.2 m on UC152x152x23.
    /// Source: statics, as in the published check values (needle off-centre).
    #[test]
    fn a_narrow_strip_acts_like_a_point_load() {
        let bridge = Bridge {
            outside_mm: 0.0,
            inside_mm: 1200.0,
            strips: [
                SpanLoad {
                    from_mm: 449.5,
                    to_mm: 450.5,
                    load_kn: 20.0,
                },
                SpanLoad::default(),
            ],
            weight_kn_m: 0.0,
        };
        let (outside, inside) = bridge.reactions_kn();
        assert!((outside - 12.5).abs() < 1e-9 && (inside - 7.5).abs() < 1e-9);
        assert!((bridge.largest_moment_kn_m() - 5.625).abs() < 0.006);
        let below_load = 20e3 * 450f64.powi(2) * 750f64.powi(2) / (3.0 * 210e3 * 1250e4 * 1200.0);
        let largest = bridge.deflection_mm(210e3 * 1250e4);
        assert!(
            largest >= below_load && largest < 1.05 * below_load,
            "{largest} against {below_load}"
        );
    }
}
