//! Design values of timber.

use crate::source::{Seen, Source};
use crate::tables::timber::TimberGrade;
use serde::Serialize;

/// Source of [`design_values`].
pub const SOURCE: Source = Source::new("EN 1995-1-1:2004+A1", "2.4.1, Table 3.1", Seen::Library("metku 0.1.35"));

/// How long the load stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Duration {
    /// More than ten years.
    Permanent,
    /// Six months to ten years.
    Long,
    /// One week to six months.
    Medium,
    /// Less than one week.
    Short,
    /// A blow.
    Instantaneous,
}

/// Class of duration of a number of days: up to a week short, up to half a year medium, up to ten years long.
#[must_use]
pub fn duration_of_days(days: f64) -> Duration {
    match days {
        d if d < 7.0 => Duration::Short,
        d if d <= 183.0 => Duration::Medium,
        d if d <= 3650.0 => Duration::Long,
        _ => Duration::Permanent,
    }
}

/// k_mod of solid timber by duration and service class (1, 2 or 3).
#[must_use]
pub fn k_mod(duration: Duration, service_class: u8) -> f64 {
    let wet = service_class >= 3;
    match duration {
        Duration::Permanent => {
            if wet {
                0.50
            } else {
                0.60
            }
        }
        Duration::Long => {
            if wet {
                0.55
            } else {
                0.70
            }
        }
        Duration::Medium => {
            if wet {
                0.65
            } else {
                0.80
            }
        }
        Duration::Short => {
            if wet {
                0.70
            } else {
                0.90
            }
        }
        Duration::Instantaneous => {
            if wet {
                0.90
            } else {
                1.10
            }
        }
    }
}

/// Design strengths of a class of timber, N/mm².
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DesignValues {
    /// k_mod used.
    pub k_mod: f64,
    /// γ_M used.
    pub gamma_m: f64,
    /// f_m,d, bending.
    pub fmd_n_mm2: f64,
    /// f_c,0,d, compression along the grain.
    pub fc0d_n_mm2: f64,
    /// f_c,90,d, compression across the grain.
    pub fc90d_n_mm2: f64,
    /// f_v,d, shear.
    pub fvd_n_mm2: f64,
}

/// Design strengths X_d = k_mod·X_k/γ_M.
#[must_use]
pub fn design_values(grade: &TimberGrade, k_mod: f64, gamma_m: f64) -> DesignValues {
    let factor = k_mod / gamma_m;
    DesignValues {
        k_mod,
        gamma_m,
        fmd_n_mm2: grade.fmk_n_mm2 * factor,
        fc0d_n_mm2: grade.fc0k_n_mm2 * factor,
        fc90d_n_mm2: grade.fc90k_n_mm2 * factor,
        fvd_n_mm2: grade.fvk_n_mm2 * factor,
    }
}

/// What its use makes of timber: how long it stands, and the national partial factor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimberUse {
    /// Days it stands.
    pub days: f64,
    /// γ_M of solid timber.
    pub gamma_m: f64,
}

impl TimberUse {
    /// Design strengths of a class in a service class (1, 2 or 3).
    #[must_use]
    pub fn design_values(self, grade: &TimberGrade, service_class: u8) -> DesignValues {
        design_values(grade, k_mod(duration_of_days(self.days), service_class), self.gamma_m)
    }
}

impl DesignValues {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "k_mod/γ_M = {:.2}/{:.2}: f_m,d = {:.3}, f_v,d = {:.3}, f_c,0,d = {:.3}, f_c,90,d = {:.3} N/mm²",
            self.k_mod, self.gamma_m, self.fmd_n_mm2, self.fvd_n_mm2, self.fc0d_n_mm2, self.fc90d_n_mm2
        )]
    }
}
