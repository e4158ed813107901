//! Strength of a leaf's masonry, from what is known of it.

use crate::clause::NationalParameters;
use crate::clause::en1996::strength::{self as clause, Strength, StrengthResult, f_k};
use crate::job::{Leaf, Material, Mortar};
use crate::proposal::Assumption;
use crate::tables::masonry::{default_mortar_n_mm2, default_unit_n_mm2, material, shape_factor};
use serde_json::json;

/// A wall thicker than one unit has a joint inside, mm.
const ONE_UNIT_MM: f64 = 110.0;

/// A leaf with its strength.
#[derive(Clone, Debug, PartialEq)]
pub struct LeafStrength {
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Characteristic strength, N/mm².
    pub fk_n_mm2: f64,
    /// Whether the mortar is lime or weaker than 2 N/mm²: then the rule for historic brick governs under needles.
    pub weak_mortar: bool,
    /// Whether the units are of group 1.
    pub group1: bool,
    /// Partial factor γ_M of masonry, nationally determined.
    pub gamma_m: f64,
    found: StrengthResult,
}

/// K of units of groups 2 to 4 against group 1: the least ratios of EN 1996-1-1 Table 3.3, from memory.
const fn group_factor(group: u32) -> f64 {
    match group {
        1 => 1.0,
        2 => 0.8,
        _ => 0.63,
    }
}

impl LeafStrength {
    /// Finds the strength of a leaf; low defaults for what is unknown are listed.
    #[must_use]
    pub fn of(
        leaf: &Leaf,
        index: usize,
        national: &NationalParameters,
        assumptions: &mut Vec<Assumption>,
    ) -> Option<Self> {
        let row = material(leaf.material.name())?;
        let k = national.k_masonry.of(row.name)?;
        let unit = leaf.unit_n_mm2.unwrap_or_else(|| {
            let taken = default_unit_n_mm2(row, leaf.year);
            assumptions.push(Assumption {
                path: format!("/wall/leaves/{index}/unit_n_mm2"),
                value: json!(taken.value),
                words: format!(
                    "units taken as {} N/mm², a low value for their kind and age",
                    taken.value
                ),
                source: taken.source.to_string(),
            });
            taken.value
        });
        let mortar = leaf.mortar_n_mm2.unwrap_or_else(|| {
            let taken = default_mortar_n_mm2(leaf.mortar.name());
            let value = taken.map_or(1.0, |taken| taken.value);
            assumptions.push(Assumption {
                path: format!("/wall/leaves/{index}/mortar_n_mm2"),
                value: json!(value),
                words: format!("mortar taken as {value} N/mm²"),
                source: taken.map_or_else(|| "own judgement".to_owned(), |taken| taken.source.to_string()),
            });
            value
        });
        let shape = if leaf.unit_is_normalised {
            1.0
        } else {
            shape_factor(row, leaf.thickness_mm)
        };
        let brick = matches!(leaf.material, Material::ClayBrick | Material::CalciumSilicateBrick);
        let joint_along = brick && leaf.thickness_mm > ONE_UNIT_MM;
        let found = f_k(&Strength {
            k: k.value * group_factor(leaf.unit_group),
            fb_n_mm2: unit * shape,
            fm_n_mm2: mortar,
            joint_along,
        });
        Some(Self {
            thickness_mm: leaf.thickness_mm,
            fk_n_mm2: found.f_k_n_mm2,
            weak_mortar: leaf.mortar != Mortar::Cement || mortar < 2.0,
            group1: leaf.unit_group == 1,
            gamma_m: national.gamma_m_masonry.value,
            found,
        })
    }

    /// The part of the leaf that a plate reaching in from its face bears on.
    #[must_use]
    pub fn reached(mut self, into_mm: f64) -> Self {
        self.thickness_mm = self.thickness_mm.min(into_mm);
        self
    }

    /// The weaker of two leaves one above the other, property by property.
    #[must_use]
    pub fn weaker(self, other: Self) -> Self {
        let weak_mortar = self.weak_mortar || other.weak_mortar;
        let group1 = self.group1 && other.group1;
        let thickness_mm = self.thickness_mm.min(other.thickness_mm);
        let weaker = if self.fk_n_mm2 <= other.fk_n_mm2 { self } else { other };
        Self {
            weak_mortar,
            group1,
            thickness_mm,
            ..weaker
        }
    }

    /// Design strength f_k / γ_M, N/mm².
    #[must_use]
    pub fn fd_n_mm2(&self) -> f64 {
        self.fk_n_mm2 / self.gamma_m
    }

    /// How the strength was found.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let mut steps = self.found.steps();
        steps.push(clause::SOURCE.to_string());
        steps.push(format!(
            "f_d = f_k / γ_M = {:.3} / {} = {:.3} N/mm²",
            self.fk_n_mm2,
            self.gamma_m,
            self.fd_n_mm2()
        ));
        steps
    }
}
