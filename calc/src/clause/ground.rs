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
    let (x_mm, y_mm) = layers.iter().fold((plate_mm, plate_mm), |(x, y), layer| {
        let grow = |side: f64, ratio: f64, size: f64| (side + 2.0 * ratio * layer.t_mm).min(size);
        (grow(x, layer.spread_x, layer.x_mm), grow(y, layer.spread_y, layer.y_mm))
    });
    let area_m2 = x_mm * y_mm * 1e-6;
    SpreadResult {
        x_mm,
        y_mm,
        area_m2,
        pressure_kpa: load_kn / area_m2,
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

/// A foot that the search tries.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TriedFoot {
    /// Name for parts lists.
    pub name: &'static str,
    /// Length, breadth and whole thickness, mm.
    pub board_mm: [f64; 3],
    /// Layers from the top down; single boards repeat none.
    pub layers: &'static [Layer],
    /// Breadth and thickness of the board that bends, mm.
    pub strip_mm: [f64; 2],
    /// Timber in it, m³.
    pub timber_m3: f64,
}

/// A layer of a crossed pile spreads along its own grain only.
const fn crossed(x_mm: f64, y_mm: f64, t_mm: f64, along_x: bool) -> Layer {
    let (spread_x, spread_y) = if along_x { (2.0, 0.0) } else { (0.0, 2.0) };
    Layer {
        x_mm,
        y_mm,
        t_mm,
        spread_x,
        spread_y,
    }
}

/// Feet tried, all C24: one board, a sleeper, two crossed layers.
pub const TRIED_FEET: [TriedFoot; 6] = [
    TriedFoot {
        name: "sole board 225 × 38 × 450",
        board_mm: [450.0, 225.0, 38.0],
        layers: &[Layer::board(450.0, 225.0, 38.0)],
        strip_mm: [225.0, 38.0],
        timber_m3: 0.003_847_5,
    },
    TriedFoot {
        name: "sole board 225 × 63 × 600",
        board_mm: [600.0, 225.0, 63.0],
        layers: &[Layer::board(600.0, 225.0, 63.0)],
        strip_mm: [225.0, 63.0],
        timber_m3: 0.008_505,
    },
    TriedFoot {
        name: "sole board 225 × 75 × 900",
        board_mm: [900.0, 225.0, 75.0],
        layers: &[Layer::board(900.0, 225.0, 75.0)],
        strip_mm: [225.0, 75.0],
        timber_m3: 0.015_187_5,
    },
    TriedFoot {
        name: "sleeper 250 × 125 × 900",
        board_mm: [900.0, 250.0, 125.0],
        layers: &[Layer::board(900.0, 250.0, 125.0)],
        strip_mm: [250.0, 125.0],
        timber_m3: 0.028_125,
    },
    TriedFoot {
        name: "two crossed layers of 225 × 75, 450 × 900",
        board_mm: [900.0, 450.0, 150.0],
        layers: &[crossed(900.0, 450.0, 75.0, false), crossed(900.0, 450.0, 75.0, true)],
        strip_mm: [450.0, 75.0],
        timber_m3: 0.060_75,
    },
    TriedFoot {
        name: "two crossed layers of 200 × 100, 600 × 1200",
        board_mm: [1200.0, 600.0, 200.0],
        layers: &[
            crossed(1200.0, 600.0, 100.0, false),
            crossed(1200.0, 600.0, 100.0, true),
        ],
        strip_mm: [600.0, 100.0],
        timber_m3: 0.144,
    },
];

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
    /// Bending stress, N/mm².
    pub sigma_n_mm2: f64,
}

/// Bending of a board beyond the plate: load in kN carried evenly over a length in mm, board breadth × thickness in mm.
#[must_use]
pub fn board_strip(load_kn: f64, plate_mm: f64, length_mm: f64, board_mm: [f64; 2]) -> StripResult {
    let [breadth, t] = board_mm;
    let q_kn_m = load_kn / length_mm * 1e3;
    let projection_mm = ((length_mm - plate_mm) / 2.0).max(0.0);
    let m_kn_m = q_kn_m * projection_mm * projection_mm / 2.0 * 1e-6;
    StripResult {
        q_kn_m,
        projection_mm,
        m_kn_m,
        v_kn: q_kn_m * projection_mm * 1e-3,
        sigma_n_mm2: m_kn_m * 1e6 / (breadth * t * t / 6.0),
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
