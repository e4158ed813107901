//! Textbook struts beside the two-tube model: secant formula, amplification, stepped columns.

use crate::source::{Seen, Source};
use serde::Serialize;
use std::f64::consts::PI;

/// Source of [`secant`].
pub const SECANT_SOURCE: Source = Source::new(
    "Gere, Mechanics of Materials",
    "11.6, secant formula",
    Seen::Secondary("posted solutions"),
);
/// Source of [`stepped_column`].
pub const STEPPED_SOURCE: Source = Source::new(
    "Timoshenko and Gere, Theory of Elastic Stability",
    "table of symmetric stepped columns",
    Seen::Library("scipy 1.17.1 roots of the characteristic equation"),
);

/// Arguments of [`secant`], in any consistent units.
#[derive(Clone, Copy, Debug)]
pub struct Secant {
    /// Area.
    pub area: f64,
    /// Second moment.
    pub i: f64,
    /// Distance of the outer fibre.
    pub c: f64,
    /// Length between pins.
    pub length: f64,
    /// Load.
    pub p: f64,
    /// Eccentricity at both ends.
    pub e: f64,
    /// Modulus of elasticity.
    pub modulus: f64,
    /// Yield stress.
    pub fy: f64,
}

/// Result of [`secant`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SecantResult {
    /// e·c/r².
    pub ec_r2: f64,
    /// Largest stress.
    pub sigma_max: f64,
    /// Load at first yield.
    pub p_yield: f64,
    /// That load over P.
    pub factor: f64,
}

fn secant_stress(args: &Secant, p: f64) -> f64 {
    let angle = args.length / 2.0 * (p / (args.modulus * args.i)).sqrt();
    if angle >= PI / 2.0 {
        return f64::INFINITY;
    }
    p / args.area * (1.0 + args.e * args.c * args.area / args.i / angle.cos())
}

/// Stress by the secant formula, P/A·(1 + e·c/r²·sec(L/2·√(P/EI))), and the load at first yield.
#[must_use]
pub fn secant(args: &Secant) -> SecantResult {
    let (mut low, mut high) = (0.0, args.fy * args.area);
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if secant_stress(args, middle) < args.fy {
            low = middle
        } else {
            high = middle
        }
    }
    let p_yield = f64::midpoint(low, high);
    SecantResult {
        ec_r2: args.e * args.c * args.area / args.i,
        sigma_max: secant_stress(args, args.p),
        p_yield,
        factor: p_yield / args.p,
    }
}

impl SecantResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!("e·c/r² = {:.4}, σ_max = {:.4}", self.ec_r2, self.sigma_max),
            format!("first yield at {:.3}, {:.3} times the load", self.p_yield, self.factor),
        ]
    }
}

/// Growth of a sine bow and of equal end eccentricities under P, as a share of the critical load: 1/(1 − P/P_cr) and
/// sec(π/2·√(P/P_cr)).
#[must_use]
pub fn amplification(p_over_pcr: f64) -> (f64, f64) {
    (1.0 / (1.0 - p_over_pcr), 1.0 / (PI / 2.0 * p_over_pcr.sqrt()).cos())
}

/// m in P_cr = m·E·I₂/l² of a pinned column with I₂ over a middle part a and I₁ at both ends; `i1_over_i2` and `a_over_l` are
/// above 0, a at most l.
#[must_use]
pub fn stepped_column(i1_over_i2: f64, a_over_l: f64) -> f64 {
    let (end, middle) = ((1.0 - a_over_l) / 2.0, a_over_l / 2.0);
    // Slope in the middle of the symmetric mode; it falls from positive through zero at the critical load.
    let slope = |m: f64| {
        let (k1, k2) = ((m / i1_over_i2).sqrt(), m.sqrt());
        k1 * (k1 * end).cos() * (k2 * middle).cos() - k2 * (k1 * end).sin() * (k2 * middle).sin()
    };
    let (mut low, mut high) = (0.0, (PI * PI).max(PI * PI * i1_over_i2));
    // The first zero lies below a half wave of the weaker part over the whole length's stiffer Euler load, so the span is
    // scanned before it is halved.
    for i in 1..=400 {
        let m = f64::from(i) / 400.0 * high;
        if slope(m) <= 0.0 {
            high = m;
            break;
        }
        low = m;
    }
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if slope(middle) > 0.0 {
            low = middle
        } else {
            high = middle
        }
    }
    f64::midpoint(low, high)
}
