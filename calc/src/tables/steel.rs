//! Steel sections: open sections as tabulated, hollow sections from their dimensions.

use crate::source::{Seen, Source};
use serde::Serialize;
use std::f64::consts::PI;

/// Source of the open sections' properties.
pub const OPEN_SOURCE: Source = Source::new(
    "EN 10365:2017",
    "section properties of universal beams, columns and IPE",
    Seen::Library("steelsnakes 0.0.1a11; areas and second moments also from the dimensions"),
);

/// Source of the hollow sections' formulas.
pub const HOLLOW_SOURCE: Source = Source::new(
    "EN 10210-2:2006, EN 10219-2:2006",
    "Annex B, formulas for properties",
    Seen::Library("steelsnakes 0.0.1a11 tables"),
);

/// Kind of section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Shape {
    /// Universal beam or IPE.
    Beam,
    /// Universal column.
    Column,
    /// Hot-finished hollow section, square or rectangular.
    Hollow,
    /// Cold-formed hollow section, square or rectangular.
    ColdHollow,
}

/// A section with the properties that the checks use; y is the strong axis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SteelSection {
    /// Kind.
    pub shape: Shape,
    /// Depth, mm.
    pub h_mm: f64,
    /// Width, mm.
    pub b_mm: f64,
    /// Web thickness, or wall thickness of a hollow section, mm.
    pub tw_mm: f64,
    /// Flange thickness, or wall thickness of a hollow section, mm.
    pub tf_mm: f64,
    /// Root radius, or outer corner radius of a hollow section, mm.
    pub r_mm: f64,
    /// Area, mm².
    pub area_mm2: f64,
    /// Second moment about the strong axis, mm⁴.
    pub iy_mm4: f64,
    /// Second moment about the weak axis, mm⁴.
    pub iz_mm4: f64,
    /// Elastic modulus about the strong axis, mm³.
    pub wel_y_mm3: f64,
    /// Plastic modulus about the strong axis, mm³.
    pub wpl_y_mm3: f64,
    /// Torsion constant, mm⁴.
    pub it_mm4: f64,
    /// Warping constant, mm⁶; 0 for hollow sections.
    pub iw_mm6: f64,
    /// Mass, kg/m.
    pub mass_kg_m: f64,
}

impl SteelSection {
    /// Whether the section is hollow.
    #[must_use]
    pub const fn is_hollow(&self) -> bool {
        matches!(self.shape, Shape::Hollow | Shape::ColdHollow)
    }

    /// Self-weight, kN/m.
    #[must_use]
    pub fn weight_kn_m(&self) -> f64 {
        self.mass_kg_m * 9.81e-3
    }
}

/// One tabulated open section: name, then `[h, b, tw, tf, r]` in mm, `[A cm², Iy cm⁴, Iz cm⁴, Wel cm³, Wpl cm³, It cm⁴,
/// Iw dm⁶]`, mass kg/m.
struct Row {
    name: &'static str,
    size: [f64; 5],
    properties: [f64; 7],
    mass_kg_m: f64,
}

const fn row(name: &'static str, size: [f64; 5], properties: [f64; 7], mass_kg_m: f64) -> Row {
    Row {
        name,
        size,
        properties,
        mass_kg_m,
    }
}

#[rustfmt::skip]
const OPEN: &[Row] = &[
    row("UB127x76x13", [127.0, 76.0, 4.0, 7.6, 7.6], [16.5, 473.0, 55.7, 74.6, 84.2, 2.85, 0.002], 13.0),
    row("UB152x89x16", [152.4, 88.7, 4.5, 7.7, 7.6], [20.3, 834.0, 89.8, 109.0, 123.0, 3.56, 0.0047], 16.0),
    row("UB178x102x19", [177.8, 101.2, 4.8, 7.9, 7.6], [24.3, 1360.0, 137.0, 153.0, 171.0, 4.41, 0.0099], 19.0),
    row("UB203x102x23", [203.2, 101.8, 5.4, 9.3, 7.6], [29.4, 2100.0, 164.0, 207.0, 234.0, 7.02, 0.0154], 23.1),
    row("UB203x133x25", [203.2, 133.2, 5.7, 7.8, 7.6], [32.0, 2340.0, 308.0, 230.0, 258.0, 5.96, 0.0294], 25.1),
    row("UB203x133x30", [206.8, 133.9, 6.4, 9.6, 7.6], [38.2, 2900.0, 385.0, 280.0, 314.0, 10.3, 0.0374], 30.0),
    row("UB254x102x22", [254.0, 101.6, 5.7, 6.8, 7.6], [28.0, 2840.0, 119.0, 224.0, 259.0, 4.15, 0.0182], 22.0),
    row("UB254x102x25", [257.2, 101.9, 6.0, 8.4, 7.6], [32.0, 3410.0, 149.0, 266.0, 306.0, 6.42, 0.023], 25.2),
    row("UB254x146x31", [251.4, 146.1, 6.0, 8.6, 7.6], [39.7, 4410.0, 448.0, 351.0, 393.0, 8.55, 0.066], 31.1),
    row("UB305x102x25", [305.1, 101.6, 5.8, 7.0, 7.6], [31.6, 4460.0, 123.0, 292.0, 342.0, 4.77, 0.027], 24.8),
    row("UB305x165x40", [303.4, 165.0, 6.0, 10.2, 8.9], [51.3, 8500.0, 764.0, 560.0, 623.0, 14.7, 0.164], 40.3),
    row("UB356x127x33", [349.0, 125.4, 6.0, 8.5, 10.2], [42.1, 8250.0, 280.0, 473.0, 543.0, 8.79, 0.081], 33.1),
    row("UC152x152x23", [152.4, 152.2, 5.8, 6.8, 7.6], [29.2, 1250.0, 400.0, 164.0, 182.0, 4.63, 0.021], 23.0),
    row("UC152x152x30", [157.6, 152.9, 6.5, 9.4, 7.6], [38.3, 1750.0, 560.0, 222.0, 248.0, 10.5, 0.031], 30.0),
    row("UC152x152x37", [161.8, 154.4, 8.0, 11.5, 7.6], [47.1, 2210.0, 706.0, 273.0, 309.0, 19.2, 0.04], 37.0),
    row("UC203x203x46", [203.2, 203.6, 7.2, 11.0, 10.2], [58.7, 4570.0, 1550.0, 450.0, 497.0, 22.2, 0.143], 46.1),
    row("UC203x203x52", [206.2, 204.3, 7.9, 12.5, 10.2], [66.3, 5260.0, 1780.0, 510.0, 567.0, 31.8, 0.167], 52.0),
    row("UC203x203x60", [209.6, 205.8, 9.4, 14.2, 10.2], [76.4, 6120.0, 2060.0, 584.0, 656.0, 47.2, 0.197], 60.0),
    row("IPE100", [100.0, 55.0, 4.1, 5.7, 7.0], [10.3, 171.0, 15.9, 34.2, 39.4, 1.16, 0.00035], 8.1),
    row("IPE120", [120.0, 64.0, 4.4, 6.3, 7.0], [13.2, 318.0, 27.7, 53.0, 60.7, 1.69, 0.00089], 10.4),
    row("IPE140", [140.0, 73.0, 4.7, 6.9, 7.0], [16.4, 541.0, 44.9, 77.3, 88.3, 2.4, 0.00198], 12.9),
    row("IPE160", [160.0, 82.0, 5.0, 7.4, 9.0], [20.1, 869.0, 68.3, 109.0, 124.0, 3.54, 0.00396], 15.8),
    row("IPE200", [200.0, 100.0, 5.6, 8.5, 12.0], [28.5, 1940.0, 142.0, 194.0, 221.0, 6.92, 0.013], 22.4),
    row("IPE400", [400.0, 180.0, 8.6, 13.5, 21.0], [84.5, 23100.0, 1320.0, 1160.0, 1310.0, 51.3, 0.49], 66.3),];

/// Names of all tabulated open sections.
pub fn open_names() -> impl Iterator<Item = &'static str> {
    OPEN.iter().map(|row| row.name)
}

/// A tabulated open section by its name, as `UC152x152x23`; `None` if it is not tabulated.
#[must_use]
pub fn open(name: &str) -> Option<SteelSection> {
    let row = OPEN.iter().find(|row| row.name.eq_ignore_ascii_case(name))?;
    let [h_mm, b_mm, tw_mm, tf_mm, r_mm] = row.size;
    let [area, iy, iz, wel, wpl, it, iw] = row.properties;
    Some(SteelSection {
        shape: if row.name.starts_with("UC") {
            Shape::Column
        } else {
            Shape::Beam
        },
        h_mm,
        b_mm,
        tw_mm,
        tf_mm,
        r_mm,
        area_mm2: area * 1e2,
        iy_mm4: iy * 1e4,
        iz_mm4: iz * 1e4,
        wel_y_mm3: wel * 1e3,
        wpl_y_mm3: wpl * 1e3,
        it_mm4: it * 1e4,
        iw_mm6: iw * 1e12,
        mass_kg_m: row.mass_kg_m,
    })
}

/// Properties of a square or rectangular hollow section, sharp rectangle less its corners, inside and outside.
///
/// Source: [`HOLLOW_SOURCE`]. Corner radii hot-finished 1.5 t outside and 1.0 t inside; cold-formed 2.0 and 1.0 t up to
/// 6 mm, 2.5 and 1.5 t up to 10 mm, 3.0 and 2.0 t above. `None` if the walls leave no room inside.
#[must_use]
pub fn hollow(h_mm: f64, b_mm: f64, t_mm: f64, cold_formed: bool) -> Option<SteelSection> {
    let (ro, ri) = match (cold_formed, t_mm) {
        (false, t) => (1.5 * t, t),
        (true, t) if t <= 6.0 => (2.0 * t, t),
        (true, t) if t <= 10.0 => (2.5 * t, 1.5 * t),
        (true, t) => (3.0 * t, 2.0 * t),
    };
    let fits = h_mm.is_finite() && b_mm.is_finite() && t_mm > 0.0 && h_mm.min(b_mm) > 2.0 * ro && b_mm <= h_mm;
    if !fits {
        return None;
    }
    let (hi, bi) = (h_mm - 2.0 * t_mm, b_mm - 2.0 * t_mm);
    let corner = |r: f64| {
        let area = (1.0 - PI / 4.0) * r * r;
        let arm = (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI) * r;
        let own = (1.0 / 3.0 - PI / 16.0 - 1.0 / (3.0 * (12.0 - 3.0 * PI))) * r.powi(4);
        (area, arm, own)
    };
    let ((ao, co, io), (ai, ci, ii)) = (corner(ro), corner(ri));
    let second = |h: f64, b: f64, hi: f64, bi: f64| {
        (b * h.powi(3) - bi * hi.powi(3)) / 12.0 - 4.0 * (io + ao * (h / 2.0 - co).powi(2))
            + 4.0 * (ii + ai * (hi / 2.0 - ci).powi(2))
    };
    let area_mm2 = 2.0 * t_mm * (b_mm + h_mm - 2.0 * t_mm) - (4.0 - PI) * (ro * ro - ri * ri);
    let iy_mm4 = second(h_mm, b_mm, hi, bi);
    let wpl_y_mm3 =
        (b_mm * h_mm * h_mm - bi * hi * hi) / 4.0 - 4.0 * ao * (h_mm / 2.0 - co) + 4.0 * ai * (hi / 2.0 - ci);
    // Mid-wall perimeter and the area inside it.
    let rc = f64::midpoint(ro, ri);
    let perimeter = 2.0 * (b_mm + h_mm - 2.0 * t_mm) - 2.0 * rc * (4.0 - PI);
    let enclosed = (b_mm - t_mm) * (h_mm - t_mm) - rc * rc * (4.0 - PI);
    let it_mm4 = t_mm.powi(3) * perimeter / 3.0 + 4.0 * enclosed * enclosed * t_mm / perimeter;
    Some(SteelSection {
        shape: if cold_formed { Shape::ColdHollow } else { Shape::Hollow },
        h_mm,
        b_mm,
        tw_mm: t_mm,
        tf_mm: t_mm,
        r_mm: ro,
        area_mm2,
        iy_mm4,
        iz_mm4: second(b_mm, h_mm, bi, hi),
        wel_y_mm3: iy_mm4 / (h_mm / 2.0),
        wpl_y_mm3,
        it_mm4,
        iw_mm6: 0.0,
        mass_kg_m: area_mm2 * 7.85e-3,
    })
}

/// A steel grade.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SteelGrade {
    /// Name, as `S275`.
    pub name: &'static str,
    /// Yield strength for thickness up to 16 mm, N/mm².
    pub fy_n_mm2: f64,
}

/// Source of the yield strengths: every section here is at most 16 mm thick.
pub const GRADE_SOURCE: Source = Source::new(
    "EN 10025-2, EN 10210-1",
    "minimum yield strength, thickness up to 16 mm",
    Seen::Memory,
);

/// Grades used here.
pub const STEEL_GRADES: [SteelGrade; 3] = [
    SteelGrade {
        name: "S235",
        fy_n_mm2: 235.0,
    },
    SteelGrade {
        name: "S275",
        fy_n_mm2: 275.0,
    },
    SteelGrade {
        name: "S355",
        fy_n_mm2: 355.0,
    },
];

/// A steel grade by its name.
#[must_use]
pub fn steel_grade(name: &str) -> Option<SteelGrade> {
    STEEL_GRADES
        .into_iter()
        .find(|grade| grade.name.eq_ignore_ascii_case(name))
}

/// Modulus of elasticity of steel, N/mm².
pub const E_N_MM2: f64 = 210_000.0;
/// Shear modulus of steel, N/mm².
pub const G_N_MM2: f64 = 81_000.0;

#[cfg(test)]
mod tests;
