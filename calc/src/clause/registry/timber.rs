//! Timber clauses by name.

use super::reader::{Arg, ArgError, Entry, Outcome, Reader, arg, opt};
use crate::clause::en1995::{beam, bearing, column, design};
use crate::tables::timber;

const GRADE: Arg = arg("grade", "C16, C24 or D40", "C24");
const K_MOD: Arg = arg("k_mod", "1", "0.8");
const GAMMA: Arg = opt("gamma_m", "1", "1.3");

pub(super) const ENTRIES: &[Entry] = &[
    Entry {
        name: "timber_grade",
        source: timber::SOURCE,
        args: &[GRADE],
        symbol: "f, E, ρ",
        unit: "record",
        run: |r| {
            let grade = grade(r)?;
            Ok(Outcome::record(grade, vec![format!("{} as tabulated", grade.name)]))
        },
    },
    Entry {
        name: "k_mod",
        source: design::SOURCE,
        args: &[arg("days", "days", "21"), arg("service_class", "1, 2 or 3", "3")],
        symbol: "k_mod",
        unit: "1",
        run: k_mod,
    },
    Entry {
        name: "design_values",
        source: design::SOURCE,
        args: &[GRADE, K_MOD, GAMMA],
        symbol: "f_d",
        unit: "record",
        run: |r| {
            let result = design::design_values(grade(r)?, r.positive("k_mod")?, r.positive("gamma_m")?);
            Ok(Outcome::record(result, result.steps()))
        },
    },
    Entry {
        name: "timber_bending",
        source: beam::BENDING_SOURCE,
        args: &[
            GRADE,
            arg("b_mm", "mm", "75"),
            arg("h_mm", "mm", "200"),
            arg("m_kn_m", "kNm", "3.702"),
            K_MOD,
            GAMMA,
            opt("k_sys", "1", "1.0"),
            opt("use_k_h", "true or false", "false"),
        ],
        symbol: "M_Rd",
        unit: "kNm",
        run: timber_bending,
    },
    Entry {
        name: "timber_shear",
        source: beam::SHEAR_SOURCE,
        args: &[
            GRADE,
            arg("b_mm", "mm", "150"),
            arg("h_mm", "mm", "150"),
            arg("v_kn", "kN", "15"),
            K_MOD,
            GAMMA,
            opt("k_cr", "1", "0.67"),
        ],
        symbol: "V_Rd",
        unit: "kN",
        run: timber_shear,
    },
    Entry {
        name: "k_crit",
        source: beam::LATERAL_SOURCE,
        args: &[
            GRADE,
            arg("b_mm", "mm", "75"),
            arg("h_mm", "mm", "225"),
            arg("span_mm", "mm", "1350"),
        ],
        symbol: "k_crit",
        unit: "1",
        run: k_crit,
    },
    Entry {
        name: "timber_deflection",
        source: beam::DEFLECTION_SOURCE,
        args: &[
            GRADE,
            arg("b_mm", "mm", "75"),
            arg("h_mm", "mm", "200"),
            arg("span_mm", "mm", "4500"),
            arg("w_kn_m", "kN/m", "0.75"),
        ],
        symbol: "w_inst",
        unit: "mm",
        run: timber_deflection,
    },
    Entry {
        name: "f_c90_rd",
        source: bearing::SOURCE,
        args: &[
            GRADE,
            arg("length_mm", "mm", "150"),
            arg("width_mm", "mm", "150"),
            opt("beyond_mm", "list of two mm", "30,30"),
            K_MOD,
            GAMMA,
            opt("k_c90", "1", "1.25"),
        ],
        symbol: "F_c,90,Rd",
        unit: "kN",
        run: f_c90_rd,
    },
    Entry {
        name: "timber_column",
        source: column::SOURCE,
        args: &[
            GRADE,
            arg("b_mm", "mm", "97"),
            arg("h_mm", "mm", "97"),
            arg("length_mm", "mm", "2700"),
            arg("n_kn", "kN", "30"),
            K_MOD,
            GAMMA,
        ],
        symbol: "N_Rd",
        unit: "kN",
        run: timber_column,
    },
];

fn grade(r: &Reader<'_>) -> Result<&'static timber::TimberGrade, ArgError> {
    let name = r.text("grade")?;
    timber::grade(name).ok_or_else(|| r.refuse("grade", format!("“{name}” is not in the table")))
}

fn design(r: &Reader<'_>) -> Result<design::DesignValues, ArgError> {
    Ok(design::design_values(
        grade(r)?,
        r.positive("k_mod")?,
        r.positive("gamma_m")?,
    ))
}

fn k_mod(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let duration = design::duration_of_days(r.positive("days")?);
    let class = r.choice("service_class", &[("1", 1_u8), ("2", 2), ("3", 3)])?;
    let value = design::k_mod(duration, class);
    Ok(Outcome::plain(
        value,
        format!("{duration:?} in service class {class}: k_mod = {value:.2}"),
    ))
}

fn timber_bending(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = beam::timber_bending(&beam::TimberBending {
        b_mm: r.positive("b_mm")?,
        h_mm: r.positive("h_mm")?,
        m_kn_m: r.non_negative("m_kn_m")?,
        fmd_n_mm2: design(r)?.fmd_n_mm2,
        k_sys: r.positive("k_sys")?,
        use_k_h: r.flag("use_k_h")?,
    });
    Ok(Outcome::number(result.m_rd_kn_m, result, result.steps()))
}

fn timber_shear(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = beam::timber_shear(&beam::TimberShear {
        b_mm: r.positive("b_mm")?,
        h_mm: r.positive("h_mm")?,
        v_kn: r.non_negative("v_kn")?,
        fvd_n_mm2: design(r)?.fvd_n_mm2,
        k_cr: r.positive("k_cr")?,
    });
    Ok(Outcome::number(result.v_rd_kn, result, result.steps()))
}

fn k_crit(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (b, h, span) = (r.positive("b_mm")?, r.positive("h_mm")?, r.positive("span_mm")?);
    let value = beam::k_crit(grade(r)?, b, h, span);
    Ok(Outcome::plain(
        value,
        format!("{b} × {h} mm over {span} mm, load on top: k_crit = {value:.3}"),
    ))
}

fn timber_deflection(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let grade = grade(r)?;
    let result = beam::timber_deflection(
        r.positive("span_mm")?,
        r.num("w_kn_m")?,
        [grade.e0_mean_n_mm2, grade.g_mean_n_mm2],
        [r.positive("b_mm")?, r.positive("h_mm")?],
    );
    Ok(Outcome::number(result.total_mm, result, result.steps()))
}

fn f_c90_rd(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = bearing::f_c90_rd(&bearing::AcrossGrain {
        length_mm: r.positive("length_mm")?,
        width_mm: r.positive("width_mm")?,
        beyond_mm: r.list_of("beyond_mm")?,
        fc90d_n_mm2: design(r)?.fc90d_n_mm2,
        k_c90: r.positive("k_c90")?,
    });
    Ok(Outcome::number(result.f_rd_kn, result, result.steps()))
}

fn timber_column(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = column::timber_column(&column::TimberColumn {
        grade: *grade(r)?,
        b_mm: r.positive("b_mm")?,
        h_mm: r.positive("h_mm")?,
        length_mm: r.positive("length_mm")?,
        n_kn: r.non_negative("n_kn")?,
        k_mod: r.positive("k_mod")?,
        gamma_m: r.positive("gamma_m")?,
    });
    Ok(Outcome::number(result.n_rd_kn, result, result.steps()))
}
