//! Timber strength classes.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of the strength classes.
pub const SOURCE: Source = Source::new(
    "EN 338:2016",
    "Tables 1 and 3",
    Seen::Library("eurocodepy 2026.1.1 for C16 and C24 (G mean of C16 by a public table); D40 from memory"),
);

/// A strength class with its characteristic values.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TimberGrade {
    /// Name, as `C24`.
    pub name: &'static str,
    /// Bending strength f_m,k, N/mm².
    pub fmk_n_mm2: f64,
    /// Compression along the grain f_c,0,k, N/mm².
    pub fc0k_n_mm2: f64,
    /// Compression across the grain f_c,90,k, N/mm².
    pub fc90k_n_mm2: f64,
    /// Shear strength f_v,k, N/mm².
    pub fvk_n_mm2: f64,
    /// Mean modulus of elasticity along the grain, N/mm².
    pub e0_mean_n_mm2: f64,
    /// Fifth percentile of the same, N/mm².
    pub e005_n_mm2: f64,
    /// Mean modulus of elasticity across the grain, N/mm².
    pub e90_mean_n_mm2: f64,
    /// Mean shear modulus, N/mm².
    pub g_mean_n_mm2: f64,
    /// Characteristic density, kg/m³.
    pub rho_k_kg_m3: f64,
    /// Mean density, kg/m³.
    pub rho_mean_kg_m3: f64,
    /// Whether it is a hardwood.
    pub hardwood: bool,
}

/// The classes used here.
pub const GRADES: [TimberGrade; 3] = [
    TimberGrade {
        name: "C16",
        fmk_n_mm2: 16.0,
        fc0k_n_mm2: 17.0,
        fc90k_n_mm2: 2.2,
        fvk_n_mm2: 3.2,
        e0_mean_n_mm2: 8000.0,
        e005_n_mm2: 5400.0,
        e90_mean_n_mm2: 270.0,
        g_mean_n_mm2: 500.0,
        rho_k_kg_m3: 310.0,
        rho_mean_kg_m3: 370.0,
        hardwood: false,
    },
    TimberGrade {
        name: "C24",
        fmk_n_mm2: 24.0,
        fc0k_n_mm2: 21.0,
        fc90k_n_mm2: 2.5,
        fvk_n_mm2: 4.0,
        e0_mean_n_mm2: 11000.0,
        e005_n_mm2: 7400.0,
        e90_mean_n_mm2: 370.0,
        g_mean_n_mm2: 690.0,
        rho_k_kg_m3: 350.0,
        rho_mean_kg_m3: 420.0,
        hardwood: false,
    },
    TimberGrade {
        name: "D40",
        fmk_n_mm2: 40.0,
        fc0k_n_mm2: 27.0,
        fc90k_n_mm2: 5.5,
        fvk_n_mm2: 4.2,
        e0_mean_n_mm2: 13000.0,
        e005_n_mm2: 10900.0,
        e90_mean_n_mm2: 870.0,
        g_mean_n_mm2: 810.0,
        rho_k_kg_m3: 550.0,
        rho_mean_kg_m3: 660.0,
        hardwood: true,
    },
];

/// A class by its name.
#[must_use]
pub fn grade(name: &str) -> Option<&'static TimberGrade> {
    GRADES.iter().find(|grade| grade.name.eq_ignore_ascii_case(name))
}
