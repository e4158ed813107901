//! Spread of a prop's load through boards and slab to the ground, and bending of the board.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`spread`].
pub const SOURCE: Source = Source::new(
    "spread through timber and concrete",
    "2:1 along the grain, 1:1 across, 45° in a slab",
    Seen::Memory,
);
/// Source of [`board_strip`].
pub const STRIP_SOURCE: Source = Source::new(
    "statics of a strip",
    "cantilever beyond the plate under an even pressure",
    Seen::Text,
);
/// Side of a prop's plate, mm.
pub const PLATE_MM: f64 = 150.0;

/// One layer that a load spreads through; x runs along the upper board of a single layer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Layer {
    /// Size in x, mm; infinite for a slab.
    pub x_mm: f64,
    /// Size in y, mm.
    pub y_mm: f64,
    /// Thickness, mm.
    pub t_mm: f64,
    /// Spread in x, mm to each side per mm of depth.
    pub spread_x: f64,
    /// Spread in y.
    pub spread_y: f64,
}

impl Layer {
    /// Nothing: what comes in goes out.
    pub const NONE: Self = Self::slab(0.0);

    /// Patch under this layer, mm, of a load that comes in over `[x, y]` mm; never beyond the layer's own size.
    #[must_use]
    pub fn under(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let grow = |side: f64, ratio: f64, size: f64| (side + 2.0 * ratio * self.t_mm).min(size);
        [grow(x, self.spread_x, self.x_mm), grow(y, self.spread_y, self.y_mm)]
    }

    /// A board lying with its grain along x: 2:1 along, 1:1 across.
    #[must_use]
    pub const fn board(length_mm: f64, breadth_mm: f64, t_mm: f64) -> Self {
        Self {
            x_mm: length_mm,
            y_mm: breadth_mm,
            t_mm,
            spread_x: 2.0,
            spread_y: 1.0,
        }
    }

    /// A layer of crossed boards, which spreads along its own grain only.
    #[must_use]
    pub const fn crossed(x_mm: f64, y_mm: f64, t_mm: f64, grain_along_x: bool) -> Self {
        let (spread_x, spread_y) = if grain_along_x { (2.0, 0.0) } else { (0.0, 2.0) };
        Self {
            x_mm,
            y_mm,
            t_mm,
            spread_x,
            spread_y,
        }
    }

    /// A slab: 45° both ways, without end.
    #[must_use]
    pub const fn slab(t_mm: f64) -> Self {
        Self {
            x_mm: f64::INFINITY,
            y_mm: f64::INFINITY,
            t_mm,
            spread_x: 1.0,
            spread_y: 1.0,
        }
    }
}

/// Area that a plate's load reaches under a pile of layers.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SpreadResult {
    /// In x, mm.
    pub x_mm: f64,
    /// In y, mm.
    pub y_mm: f64,
    /// Area, m².
    pub area_m2: f64,
    /// Pressure, kPa.
    pub pressure_kpa: f64,
}

/// Spreads a load in kN from a square plate through layers from the top down, never beyond a layer's own size.
#[must_use]
pub fn spread(load_kn: f64, plate_mm: f64, layers: &[Layer]) -> SpreadResult {
    let [x_mm, y_mm] = layers
        .iter()
        .fold([plate_mm, plate_mm], |patch, layer| layer.under(patch));
    SpreadResult {
        x_mm,
        y_mm,
        area_m2: x_mm * y_mm * 1e-6,
        pressure_kpa: load_kn / (x_mm * y_mm) * 1e6,
    }
}

impl SpreadResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "{:.0} × {:.0} mm = {:.4} m²: {:.1} kPa",
            self.x_mm, self.y_mm, self.area_m2, self.pressure_kpa
        )]
    }
}

/// Result of [`board_strip`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StripResult {
    /// Even reaction along the strip, kN/m.
    pub q_kn_m: f64,
    /// Projection beyond the plate, mm.
    pub projection_mm: f64,
    /// Moment at the plate's edge, kNm.
    pub m_kn_m: f64,
    /// Shear at the plate's edge, kN.
    pub v_kn: f64,
    /// Section modulus of the board, mm³.
    pub w_mm3: f64,
    /// Bending stress, N/mm².
    pub sigma_n_mm2: f64,
}

/// Bending of a board beyond the plate: load in kN carried evenly over a length in mm, board breadth × thickness in mm.
#[must_use]
pub fn board_strip(load_kn: f64, plate_mm: f64, length_mm: f64, board_mm: [f64; 2]) -> StripResult {
    let [breadth, t] = board_mm;
    let per_mm = load_kn / length_mm;
    let projection_mm = ((length_mm - plate_mm) / 2.0).max(0.0);
    let moment_kn_mm = per_mm * projection_mm * projection_mm / 2.0;
    let w_mm3 = breadth * t * t / 6.0;
    StripResult {
        q_kn_m: per_mm * 1e3,
        projection_mm,
        m_kn_m: moment_kn_mm / 1000.0,
        v_kn: per_mm * projection_mm,
        w_mm3,
        sigma_n_mm2: moment_kn_mm * 1e3 / w_mm3,
    }
}

impl StripResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "{:.2} kN/m over {:.0} mm: M = {:.3} kNm, σ = {:.2} N/mm²",
            self.q_kn_m, self.projection_mm, self.m_kn_m, self.sigma_n_mm2
        )]
    }
}
