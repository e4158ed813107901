//! The two sets of values, each value with its source and how it was seen.

use super::{MasonryK, NationalParameters};
use crate::source::{Seen, Sourced};

const NA_EC: &str = "UK National Annexes to the Eurocodes";
const NA_MASONRY: &str = "UK National Annex to EN 1996-1-1";
const K_NA: &str = "Table NA.4, K, Group 1, general purpose mortar";
const K_EN: &str = "Table 3.3, K, Group 1, general purpose mortar";
const BLOCK_NEWS: &str = "a concrete-block association's newsletter on the revised UK annex (K 0.75 for Group 1 units)";
const CODE: &str = "public program code that cites the clause";

/// Values for the United Kingdom.
#[must_use]
pub const fn uk() -> NationalParameters {
    let sec = Seen::Secondary("a public data file citing the annex's tables");
    NationalParameters {
        gamma_g: Sourced::new(1.35, "EN 1990", "6.10, Table A1.2(B)", Seen::Memory),
        gamma_q: Sourced::new(1.5, "EN 1990", "6.10, Table A1.2(B)", Seen::Memory),
        gamma_m0: Sourced::new(1.0, "EN 1993-1-1", "6.1, UK NA.2.15", Seen::Memory),
        gamma_m1: Sourced::new(1.0, "EN 1993-1-1", "6.1, UK NA.2.15", Seen::Memory),
        gamma_m_hired: hired(),
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
        k_masonry: MasonryK {
            clay: Sourced::new(0.50, NA_MASONRY, K_NA, Seen::Memory),
            calcium_silicate: Sourced::new(0.50, NA_MASONRY, K_NA, Seen::Memory),
            aggregate: Sourced::new(0.75, NA_MASONRY, K_NA, Seen::Secondary(BLOCK_NEWS)),
            aerated: Sourced::new(0.75, NA_MASONRY, K_NA, Seen::Memory),
            stone: Sourced::new(0.45, NA_MASONRY, K_NA, Seen::Memory),
        },
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

/// Values recommended in the standards themselves, for whoever builds under them or compares with examples that use them.
#[must_use]
pub const fn recommended() -> NationalParameters {
    let code = Seen::Secondary(CODE);
    NationalParameters {
        gamma_g: Sourced::new(
            1.35,
            "EN 1990:2002",
            "Eq. (6.10), Table A1.2(B)",
            Seen::Secondary("the documentation of a public program library"),
        ),
        gamma_q: Sourced::new(
            1.5,
            "EN 1990:2002",
            "Eq. (6.10), Table A1.2(B)",
            Seen::Secondary("the documentation of a public program library"),
        ),
        gamma_m0: Sourced::new(1.0, "EN 1993-1-1:2005", "6.1(1) note 2B", code),
        gamma_m1: Sourced::new(1.0, "EN 1993-1-1:2005", "6.1(1) note 2B", code),
        gamma_m_hired: hired(),
        lambda_lt0: Sourced::new(0.4, "EN 1993-1-1:2005", "6.3.2.3(1), largest value recommended", code),
        beta_lt: Sourced::new(0.75, "EN 1993-1-1:2005", "6.3.2.3(1), least value recommended", code),
        gamma_m_timber: Sourced::new(1.3, "EN 1995-1-1:2004", "Table 2.3, solid timber", code),
        k_cr: Sourced::new(0.67, "EN 1995-1-1:2004+A1", "6.1.7(2), solid timber", code),
        // Nobody watched over the work of a wall that stands: the class with the least control.
        gamma_m_masonry: Sourced::new(
            3.0,
            "EN 1996-1-1:2005",
            "2.4.3, category II units, class 5",
            Seen::Memory,
        ),
        k_masonry: MasonryK {
            clay: Sourced::new(0.55, "EN 1996-1-1:2005", K_EN, code),
            calcium_silicate: Sourced::new(0.55, "EN 1996-1-1:2005", K_EN, code),
            aggregate: Sourced::new(0.55, "EN 1996-1-1:2005", K_EN, code),
            aerated: Sourced::new(0.55, "EN 1996-1-1:2005", K_EN, code),
            stone: Sourced::new(0.45, "EN 1996-1-1:2005", K_EN, code),
        },
        floor_imposed_kn_m2: Sourced::new(
            2.0,
            "EN 1991-1-1:2002",
            "Table 6.2, category A, floors, 1.5 to 2.0 with the upper value recommended",
            code,
        ),
        roof_imposed_kn_m2: Sourced::new(
            0.4,
            "EN 1991-1-1:2002",
            "Table 6.10 note 1, category H",
            Seen::Secondary("a public design note that cites the table"),
        ),
        roof_falls_from_deg: Sourced::new(90.0, "EN 1991-1-1:2002", NO_FALL, Seen::Memory),
        roof_zero_from_deg: Sourced::new(90.0, "EN 1991-1-1:2002", NO_FALL, Seen::Memory),
        psi1_floor: Sourced::new(0.5, "EN 1990:2002", "Table A1.1, category A", code),
        psi1_snow: Sourced::new(0.2, "EN 1990:2002", "Table A1.1, snow up to 1000 m", code),
        psi1_roof: Sourced::new(0.0, "EN 1990:2002", "Table A1.1, category H", Seen::Memory),
        air_kg_m3: Sourced::new(
            1.25,
            "EN 1991-1-4:2005",
            "4.5(1) note 2",
            Seen::Secondary("a public summary of the clauses"),
        ),
    }
}

const NO_FALL: &str = "Table 6.10 note 2: a fall with the pitch is the nations' choice, none is recommended";

/// Hired steel: no nation's choice, so the same in both sets.
const fn hired() -> Sourced {
    Sourced::new(
        1.1,
        "EN 12812",
        "class B1",
        Seen::Secondary("texts on falsework design"),
    )
}
