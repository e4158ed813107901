//! How much of a wall a small opening carries: load triangle and interaction zone.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`load_triangle`] and [`triangle_share`].
pub const SOURCE: Source = Source::new(
    "BS 5977-1:1981",
    "clauses 4 and 5",
    Seen::Secondary("engineers' forum threads and scope texts"),
);

/// Arguments of [`load_triangle`].
#[derive(Clone, Copy, Debug)]
pub struct Triangle {
    /// Clear span, m.
    pub span_m: f64,
    /// Base of the triangle over the clear span: 1.1 in BS 5977-1, 1.0 in older tables.
    pub base_factor: f64,
    /// Weight of the wall per area, kN/m².
    pub wall_kn_m2: f64,
    /// Height of masonry over the opening, m.
    pub height_m: f64,
    /// Uniform load beside it (the lintel's own weight), kN/m.
    pub uniform_kn_m: f64,
}

/// Result of [`load_triangle`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TriangleResult {
    /// Base, m.
    pub base_m: f64,
    /// Height of the load triangle, cut at the top of the wall, m.
    pub height_m: f64,
    /// Height of the interaction zone (60°), m.
    pub interaction_height_m: f64,
    /// Whether the wall is lower than the triangle.
    pub truncated: bool,
    /// Weight of the masonry carried, kN.
    pub weight_kn: f64,
    /// The same over the clear span, kN/m.
    pub equivalent_kn_m: f64,
    /// Largest moment over the base, with the uniform load, kNm.
    pub moment_kn_m: f64,
}

/// Weight of the masonry in the 45° triangle over an opening, cut at the top of the wall.
#[must_use]
pub fn load_triangle(args: &Triangle) -> TriangleResult {
    let base = args.base_factor * args.span_m;
    let full = base / 2.0;
    let h = args.height_m.clamp(0.0, full);
    let w = args.wall_kn_m2;
    let weight_kn = w * (base * h - h * h);
    // Half the load on its lever to the middle, less what stands between the support and the middle.
    let inner = h * h * full / 2.0 - h.powi(3) / 3.0 + h * (full - h).powi(2) / 2.0;
    let moment_kn_m = weight_kn / 2.0 * full - w * inner + args.uniform_kn_m * base * base / 8.0;
    TriangleResult {
        base_m: base,
        height_m: h,
        interaction_height_m: full * 3.0_f64.sqrt(),
        truncated: args.height_m < full,
        weight_kn,
        equivalent_kn_m: weight_kn / args.span_m,
        moment_kn_m,
    }
}

impl TriangleResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!(
                "base {:.3} m, height {:.3} m{}",
                self.base_m,
                self.height_m,
                if self.truncated {
                    ", cut at the top of the wall"
                } else {
                    ""
                }
            ),
            format!(
                "weight {:.3} kN, {:.3} kN/m over the span, moment {:.3} kNm",
                self.weight_kn, self.equivalent_kn_m, self.moment_kn_m
            ),
        ]
    }
}

/// Share of a load that the opening carries by where the load stands: 1 in the load triangle (45°), 0.5 in the interaction
/// zone (60°), 0 outside both. `off_middle_m` is from the middle of the opening, `above_m` from its head.
#[must_use]
pub fn triangle_share(base_m: f64, off_middle_m: f64, above_m: f64) -> f64 {
    let room = base_m / 2.0 - off_middle_m.abs();
    if room >= above_m {
        1.0
    } else if room * 3.0_f64.sqrt() >= above_m {
        0.5
    } else {
        0.0
    }
}

/// Arguments of [`triangle_allowed`].
#[derive(Clone, Copy, Debug)]
pub struct Scope {
    /// Clear span, m.
    pub span_m: f64,
    /// Storeys of the building.
    pub storeys: u32,
    /// Masonry beside the opening on its narrower side, mm.
    pub pier_mm: f64,
    /// Whether an opening stands in the load triangle.
    pub opening_in_triangle: bool,
    /// Whether the mortar is perished.
    pub perished: bool,
}

/// Result of [`triangle_allowed`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ScopeResult {
    /// Whether the triangle may be used.
    pub allowed: bool,
    /// Longest clear span, m.
    pub span_limit_m: f64,
    /// Whether the span is too long.
    pub span_too_long: bool,
    /// Least masonry beside, mm.
    pub pier_limit_mm: f64,
    /// Whether the masonry beside is too narrow.
    pub pier_too_narrow: bool,
    /// Whether an opening or the mortar forbids it.
    pub broken: bool,
}

/// Whether the triangle may be counted on: up to 4.5 m in one storey and 3.6 m in two or three, max(600 mm, 0.2 × span) of
/// masonry beside, no opening in the triangle, sound mortar.
#[must_use]
pub fn triangle_allowed(args: &Scope) -> ScopeResult {
    let span_limit_m = if args.storeys <= 1 { 4.5 } else { 3.6 };
    let pier_limit_mm = (200.0 * args.span_m).max(600.0);
    let span_too_long = args.span_m > span_limit_m || args.storeys > 3;
    let pier_too_narrow = args.pier_mm < pier_limit_mm;
    let broken = args.opening_in_triangle || args.perished;
    let allowed = !(span_too_long || pier_too_narrow || broken);
    ScopeResult {
        allowed,
        span_limit_m,
        span_too_long,
        pier_limit_mm,
        pier_too_narrow,
        broken,
    }
}

impl ScopeResult {
    /// The derivation, line by line: the limits, then what is against it.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let mut steps = vec![format!(
            "limits: {:.1} m of clear span, {:.0} mm beside",
            self.span_limit_m, self.pier_limit_mm
        )];
        if self.span_too_long {
            steps.push("the span is too long".to_owned());
        }
        if self.pier_too_narrow {
            steps.push("the masonry beside is too narrow".to_owned());
        }
        if self.broken {
            steps.push("an opening in the triangle or perished mortar".to_owned());
        }
        steps
    }
}
