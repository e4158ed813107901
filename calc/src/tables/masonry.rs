//! Masonry: weight, strength of units and mortars where unknown, and shape factor; the constant K is a nation's choice.

use crate::source::{Seen, Source, Sourced};

/// Published beside the values taken: Spanish building code table C.1, kN/m³, as public program code has it, and BS 648 as a
/// textbook reprints it.
const CLAY: &str = "two tables that bracket it (solid clay brickwork 18 in the Spanish code, 21.6 in BS 648)";
const SILICATE: &str = "a table close to it (calcium silicate brickwork 20 in the Spanish code)";
const DENSE: &str = "a table close to it (dense solid block 21.6 in BS 648)";
const AERATED: &str = "a table below it (aerated block 5.9 in BS 648)";
const STONE: &str = "a table that has it (sandstone rubble 24, limestone and granite 26 in the Spanish code)";
const EN_BLOCKS: &str =
    "a software note on BS 5628-1:2005 (2.8, 3.5, 7.0 became 2.9, 3.6, 7.3 when tested by EN 1052-1)";

/// What the tables know of one masonry material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MasonryRow {
    /// Name in the contract.
    pub name: &'static str,
    /// Weight density, kN/m³.
    pub density_kn_m3: Sourced,
    /// Mean compressive strength of the unit where nothing is known, N/mm², not normalised.
    pub unit_n_mm2: Sourced,
    /// Whether the units are blocks, so that the shape factor follows the width.
    pub is_block: bool,
    /// Whether they are stone, whose factor is 1.0.
    pub is_stone: bool,
    /// Length of one unit with its joint, mm: what falls with the cut edge.
    pub unit_length_mm: f64,
}

const fn density(value: f64, seen: Seen) -> Sourced {
    Sourced::new(
        value,
        "weight density of masonry",
        "ordinary value within published ranges",
        seen,
    )
}

const fn unit(value: f64, seen: Seen) -> Sourced {
    Sourced::new(value, "low default for an unknown unit", "by material", seen)
}

/// All materials of the contract.
pub const MATERIALS: &[MasonryRow] = &[
    MasonryRow {
        name: "clay_brick",
        density_kn_m3: density(19.0, Seen::Secondary(CLAY)),
        unit_n_mm2: unit(10.0, Seen::Own),
        is_block: false,
        is_stone: false,
        unit_length_mm: 225.0,
    },
    MasonryRow {
        name: "calcium_silicate_brick",
        density_kn_m3: density(19.0, Seen::Secondary(SILICATE)),
        unit_n_mm2: unit(14.0, Seen::Own),
        is_block: false,
        is_stone: false,
        unit_length_mm: 225.0,
    },
    MasonryRow {
        name: "dense_block",
        density_kn_m3: density(20.0, Seen::Secondary(DENSE)),
        unit_n_mm2: unit(7.3, Seen::Secondary(EN_BLOCKS)),
        is_block: true,
        is_stone: false,
        unit_length_mm: 450.0,
    },
    MasonryRow {
        name: "medium_block",
        density_kn_m3: density(14.0, Seen::Memory),
        unit_n_mm2: unit(3.6, Seen::Secondary(EN_BLOCKS)),
        is_block: true,
        is_stone: false,
        unit_length_mm: 450.0,
    },
    MasonryRow {
        name: "aerated_block",
        density_kn_m3: density(7.0, Seen::Secondary(AERATED)),
        unit_n_mm2: unit(2.9, Seen::Secondary(EN_BLOCKS)),
        is_block: true,
        is_stone: false,
        unit_length_mm: 450.0,
    },
    MasonryRow {
        name: "coursed_stone",
        density_kn_m3: density(24.0, Seen::Secondary(STONE)),
        unit_n_mm2: unit(10.0, Seen::Own),
        is_block: false,
        is_stone: true,
        unit_length_mm: 400.0,
    },
    MasonryRow {
        name: "rubble",
        density_kn_m3: density(24.0, Seen::Secondary(STONE)),
        unit_n_mm2: unit(10.0, Seen::Own),
        is_block: false,
        is_stone: true,
        unit_length_mm: 400.0,
    },
];

/// The row of a material by its contract name.
#[must_use]
pub fn material(name: &str) -> Option<&'static MasonryRow> {
    MATERIALS.iter().find(|row| row.name == name)
}

/// Weight density of plaster and render, kN/m³.
pub const PLASTER_KN_M3: Sourced = Sourced::new(17.0, "plaster and render", "weight density", Seen::Memory);

/// Weight of glazing per area of opening, kN/m².
pub const GLAZING_KN_M2: Sourced = Sourced::new(0.35, "glazing and frame", "per area of opening", Seen::Memory);

/// Strength of a clay brick where nothing is known but that the wall is older than 1920, N/mm².
pub const CLAY_BRICK_BEFORE_1920_N_MM2: Sourced = Sourced::new(
    7.0,
    "low default for an unknown unit",
    "clay brick before 1920",
    Seen::Own,
);

/// Mean strength of a unit where nothing is known, N/mm², lower for old clay brick.
#[must_use]
pub fn default_unit_n_mm2(row: &MasonryRow, year: Option<f64>) -> Sourced {
    match year {
        Some(year) if year < 1920.0 && row.name == "clay_brick" => CLAY_BRICK_BEFORE_1920_N_MM2,
        _ => row.unit_n_mm2,
    }
}

/// Mortar strength where nothing is known, N/mm²: cement 4, lime and perished 1; `None` for another name.
#[must_use]
pub fn default_mortar_n_mm2(mortar: &str) -> Option<Sourced> {
    let value = match mortar {
        "cement" => 4.0,
        "lime" | "perished" => 1.0,
        _ => return None,
    };
    Some(Sourced::new(
        value,
        "low default for an unknown mortar",
        "by kind",
        Seen::Own,
    ))
}

/// Source of the shape factors.
pub const SHAPE: Source = Source::new("EN 772-1", "Annex A, shape factors", Seen::Memory);

/// Blocks 215 mm high: width, mm → factor.
const BLOCK_SHAPE: [(f64, f64); 3] = [(100.0, 1.38), (140.0, 1.24), (215.0, 1.10)];

/// Shape factor δ that turns a unit's mean strength into a normalised one: brick 0.85, blocks 215 mm high by their width
/// (linear between the rows, the nearest row outside them), stone 1.0.
#[must_use]
pub fn shape_factor(row: &MasonryRow, width_mm: f64) -> f64 {
    if row.is_stone {
        return 1.0;
    }
    if !row.is_block {
        return 0.85;
    }
    let [(w0, d0), (w1, d1), (w2, d2)] = BLOCK_SHAPE;
    let width = width_mm.clamp(w0, w2);
    if width <= w1 {
        d0 + (d1 - d0) * (width - w0) / (w1 - w0)
    } else {
        d1 + (d2 - d1) * (width - w1) / (w2 - w1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shape_factors_meet_the_rows_and_fall_with_width() {
        let blocks: Vec<_> = MATERIALS.iter().filter(|row| row.is_block).collect();
        assert_eq!(blocks.len(), 3);
        for block in blocks {
            let factors: Vec<f64> = [100.0, 120.0, 140.0, 180.0, 215.0]
                .map(|w| shape_factor(block, w))
                .to_vec();
            assert!((factors.iter().copied().fold(0.0, f64::max) - 1.38).abs() < 1e-12);
            assert!(factors.is_sorted_by(|a, b| a >= b), "{factors:?}");
        }
    }

    #[test]
    fn every_material_has_a_weight_and_a_strength() {
        for row in MATERIALS {
            assert!(
                row.density_kn_m3.value > 5.0 && row.unit_n_mm2.value > 2.0,
                "{}",
                row.name
            );
        }
    }
}
