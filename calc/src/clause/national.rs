//! Nationally determined parameters, passed in, never global.

use crate::source::{Seen, Sourced};
use serde::Serialize;

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
    /// ψ1 of snow up to 1000 m.
    pub psi1_snow: Sourced,
    /// ψ1 of the imposed load on roofs.
    pub psi1_roof: Sourced,
    /// Density of air, kg/m³.
    pub air_kg_m3: Sourced,
}

const NA_EC: &str = "UK National Annexes to the Eurocodes";

/// Values for the United Kingdom, used for every country: a country changes words and stops, never physics.
#[must_use]
pub const fn uk() -> NationalParameters {
    let sec = Seen::Secondary("a public data file citing the annex's tables");
    NationalParameters {
        gamma_g: Sourced::new(1.35, "EN 1990", "6.10, Table A1.2(B)", Seen::Memory),
        gamma_q: Sourced::new(1.5, "EN 1990", "6.10, Table A1.2(B)", Seen::Memory),
        gamma_m0: Sourced::new(1.0, "EN 1993-1-1", "6.1, UK NA.2.15", Seen::Memory),
        gamma_m1: Sourced::new(1.0, "EN 1993-1-1", "6.1, UK NA.2.15", Seen::Memory),
        gamma_m_hired: Sourced::new(
            1.1,
            "EN 12812",
            "class B1",
            Seen::Secondary("texts on falsework design"),
        ),
        lambda_lt0: Sourced::new(0.4, "EN 1993-1-1", "6.3.2.3, UK NA.2.17", Seen::Memory),
        beta_lt: Sourced::new(0.75, "EN 1993-1-1", "6.3.2.3, UK NA.2.17", Seen::Memory),
        gamma_m_timber: Sourced::new(1.3, "EN 1995-1-1", "Table 2.3", Seen::Memory),
        k_cr: Sourced::new(0.67, "EN 1995-1-1:2004+A1", "6.1.7(2)", Seen::Memory),
        gamma_m_masonry: Sourced::new(
            3.0,
            NA_EC,
            "EN 1996-1-1 Table NA.1, category II units, class 2",
            Seen::Memory,
        ),
        floor_imposed_kn_m2: Sourced::new(1.5, NA_EC, "EN 1991-1-1 Table NA.3, A1", sec),
        roof_imposed_kn_m2: Sourced::new(0.6, NA_EC, "EN 1991-1-1 Table NA.7", sec),
        roof_falls_from_deg: Sourced::new(30.0, NA_EC, "EN 1991-1-1 Table NA.7", sec),
        roof_zero_from_deg: Sourced::new(60.0, NA_EC, "EN 1991-1-1 Table NA.7", sec),
        psi1_floor: Sourced::new(0.5, "EN 1990", "Table A1.1", Seen::Memory),
        psi1_snow: Sourced::new(0.2, "EN 1990", "Table A1.1", Seen::Memory),
        psi1_roof: Sourced::new(0.0, "EN 1990", "Table A1.1", Seen::Memory),
        air_kg_m3: Sourced::new(1.25, "EN 1991-1-4", "4.5", Seen::Memory),
    }
}

/// Values recommended in the standards themselves, for comparison with published examples that use them.
#[must_use]
pub const fn recommended() -> NationalParameters {
    let uk = uk();
    NationalParameters {
        floor_imposed_kn_m2: Sourced::new(2.0, "EN 1991-1-1", "Table 6.2, category A, upper value", Seen::Memory),
        roof_imposed_kn_m2: Sourced::new(0.4, "EN 1991-1-1", "Table 6.10", Seen::Memory),
        gamma_m_masonry: Sourced::new(2.7, "EN 1996-1-1", "2.4.3, class 4, category II", Seen::Memory),
        ..uk
    }
}
