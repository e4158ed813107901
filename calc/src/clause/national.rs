//! Nationally determined parameters: a value that travels with the job, never a global.

mod values;

pub use values::{recommended, uk};

use crate::source::{Seen, Sourced};
use serde::{Deserialize, Serialize};

/// Whose choices are taken where a standard leaves a value to the nations.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Annex {
    /// The national annexes of the United Kingdom.
    #[default]
    Uk,
    /// The values recommended in the standards themselves.
    Recommended,
}

impl Annex {
    /// The parameters of this annex.
    #[must_use]
    pub const fn parameters(self) -> NationalParameters {
        match self {
            Self::Uk => uk(),
            Self::Recommended => recommended(),
        }
    }

    /// In words, as in "nationally determined values …".
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Uk => "nationally determined values of the UK",
            Self::Recommended => "nationally determined values as recommended in the standards themselves",
        }
    }
}

/// One value for each choice that a national annex makes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NationalParameters {
    /// γ_G, permanent actions, unfavourable.
    pub gamma_g: Sourced,
    /// γ_Q, variable actions, unfavourable.
    pub gamma_q: Sourced,
    /// γ_M0, cross-sections of steel.
    pub gamma_m0: Sourced,
    /// γ_M1, steel members in buckling.
    pub gamma_m1: Sourced,
    /// γ_M of hired or second-hand steel, used in place of γ_M0 and γ_M1.
    pub gamma_m_hired: Sourced,
    /// λ_LT,0, plateau of lateral-torsional buckling of rolled sections.
    pub lambda_lt0: Sourced,
    /// β of the same clause.
    pub beta_lt: Sourced,
    /// γ_M of solid timber.
    pub gamma_m_timber: Sourced,
    /// k_cr, share of the width that carries shear in solid timber.
    pub k_cr: Sourced,
    /// γ_M of masonry.
    pub gamma_m_masonry: Sourced,
    /// K of Group 1 units in general purpose mortar, by kind of unit.
    pub k_masonry: MasonryK,
    /// Imposed load on floors of dwellings, kN/m².
    pub floor_imposed_kn_m2: Sourced,
    /// Imposed load on roofs without access at low pitch, kN/m².
    pub roof_imposed_kn_m2: Sourced,
    /// Pitch where the roof load begins to fall, degrees.
    pub roof_falls_from_deg: Sourced,
    /// Pitch where the roof load reaches zero, degrees.
    pub roof_zero_from_deg: Sourced,
    /// ψ1 of floors and partitions in dwellings.
    pub psi1_floor: Sourced,
    /// ψ1 of snow; a set holds the value up to 1000 m, [`NationalParameters::at_altitude`] gives the one above.
    pub psi1_snow: Sourced,
    /// ψ1 of the imposed load on roofs.
    pub psi1_roof: Sourced,
    /// Density of air, kg/m³.
    pub air_kg_m3: Sourced,
}

/// Altitude above which snow lies longer, m. EN 1990 Table A1.1, from memory.
const HIGH_M: f64 = 1000.0;

impl NationalParameters {
    /// The same set for a site at an altitude: above 1000 m ψ1 of snow is 0.5.
    #[must_use]
    pub fn at_altitude(self, altitude_m: f64) -> Self {
        if altitude_m <= HIGH_M {
            return self;
        }
        Self {
            psi1_snow: Sourced::new(0.5, "EN 1990:2002", "Table A1.1, snow above 1000 m", Seen::Memory),
            ..self
        }
    }
}

/// K of EN 1996-1-1 Eq. (3.1) for Group 1 units in general purpose mortar, dimensionless (N and mm).
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MasonryK {
    /// Clay.
    pub clay: Sourced,
    /// Calcium silicate.
    pub calcium_silicate: Sourced,
    /// Aggregate concrete, dense or light.
    pub aggregate: Sourced,
    /// Autoclaved aerated concrete.
    pub aerated: Sourced,
    /// Dimensioned natural stone; taken for rubble too, for which no value is given.
    pub stone: Sourced,
}

impl MasonryK {
    /// K of a masonry material by its contract name; none for another name.
    #[must_use]
    pub fn of(&self, material: &str) -> Option<Sourced> {
        match material {
            "clay_brick" => Some(self.clay),
            "calcium_silicate_brick" => Some(self.calcium_silicate),
            "dense_block" | "medium_block" => Some(self.aggregate),
            "aerated_block" => Some(self.aerated),
            "coursed_stone" | "rubble" => Some(self.stone),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::masonry::MATERIALS;

    #[test]
    fn every_material_has_a_k_in_both_sets() {
        for row in MATERIALS {
            for annex in [Annex::Uk, Annex::Recommended] {
                let k = annex.parameters().k_masonry.of(row.name).map_or(0.0, |k| k.value);
                assert!(k > 0.3 && k < 0.9, "{} {annex:?}: {k}", row.name);
            }
        }
    }

    #[test]
    fn no_value_recommended_in_a_standard_cites_an_annex() {
        let text = serde_json::to_string(&recommended()).unwrap_or_default();
        assert!(text.contains("EN 1990") && !text.contains("UK"), "{text}");
    }
}
