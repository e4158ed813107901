//! Masonry clauses by name.

use super::reader::{ArgError, Entry, Outcome, Reader, arg, opt};
use crate::clause::bs::{bs5628, weights};
use crate::clause::en1996::{arch, concentrated, historic, strength};
use crate::tables::masonry;

pub(super) const ENTRIES: &[Entry] = &[
    Entry {
        name: "f_k",
        source: strength::SOURCE,
        args: &[
            arg("k", "1", "0.5"),
            arg("fb_n_mm2", "N/mm²", "20"),
            arg("fm_n_mm2", "N/mm²", "4"),
            opt("joint_along", "true or false", "false"),
        ],
        symbol: "f_k",
        unit: "N/mm²",
        run: f_k,
    },
    Entry {
        name: "n_rdc_concentrated",
        source: concentrated::SOURCE,
        args: &[
            arg("lb_mm", "mm", "300"),
            arg("t_mm", "mm", "215"),
            arg("hc_mm", "mm", "900"),
            arg("a1_mm", "mm", "300"),
            arg("f_k_n_mm2", "N/mm²", "4.4"),
            opt("gamma_m", "1", "3.0"),
            opt("group_1", "true or false", "true"),
            opt("left_mm", "mm or inf", "inf"),
            opt("right_mm", "mm or inf", "inf"),
        ],
        symbol: "N_Rdc",
        unit: "kN",
        run: n_rdc_concentrated,
    },
    Entry {
        name: "historic_bearing",
        source: historic::SOURCE,
        args: &[
            arg("load_kn", "kN", "98.1"),
            arg("width_mm", "mm", "203.6"),
            arg("t_mm", "mm", "327"),
        ],
        symbol: "F_allow",
        unit: "kN",
        run: historic_bearing,
    },
    Entry {
        name: "flat_arch",
        source: arch::SOURCE,
        args: &[
            arg("w_kn_m", "kN/m", "20"),
            arg("s_mm", "mm", "700"),
            arg("depth_mm", "mm", "600"),
            arg("t_mm", "mm", "102.5"),
            arg("f_k_n_mm2", "N/mm²", "3.1"),
            opt("gamma_m", "1", "3.0"),
        ],
        symbol: "H",
        unit: "record",
        run: flat_arch,
    },
    Entry {
        name: "end_bay",
        source: arch::END_BAY_SOURCE,
        args: &[
            arg("h_kn", "kN", "1.2"),
            arg("d_mm", "mm", "300"),
            arg("n_kn", "kN", "14"),
            arg("width_mm", "mm", "900"),
            arg("least_width_mm", "mm", "720"),
        ],
        symbol: "H_Rd",
        unit: "kN",
        run: end_bay,
    },
    Entry {
        name: "stage_stress",
        source: arch::STAGE_SOURCE,
        args: &[
            arg("load_kn", "kN", "40"),
            arg("t_mm", "mm", "102.5"),
            arg("clear_mm", "mm", "2900"),
            arg("f_k_n_mm2", "N/mm²", "3.1"),
            opt("gamma_m", "1", "3.0"),
        ],
        symbol: "σ",
        unit: "N/mm²",
        run: stage,
    },
    Entry {
        name: "f_k_bs5628",
        source: bs5628::STRENGTH_SOURCE,
        args: &[
            arg("unit_n_mm2", "N/mm²", "10"),
            arg("mortar", "designation i to iv", "iv"),
        ],
        symbol: "f_k",
        unit: "N/mm²",
        run: f_k_bs5628,
    },
    Entry {
        name: "bearing_types",
        source: bs5628::BEARING_SOURCE,
        args: &[arg("f_k_n_mm2", "N/mm²", "5"), arg("gamma_m", "1", "3.5")],
        symbol: "f",
        unit: "record",
        run: bearing_types,
    },
    Entry {
        name: "shape_factor",
        source: masonry::SHAPE,
        args: &[
            arg("material", "a masonry material", "dense_block"),
            arg("width_mm", "mm", "100"),
        ],
        symbol: "δ",
        unit: "1",
        run: shape_factor,
    },
    Entry {
        name: "surface_weight",
        source: weights::SOURCE,
        args: &[
            arg("t_mm", "list of mm", "102.5,100"),
            arg("kg_m2_per_25mm", "list of kg/m² per 25 mm", "55,15"),
            opt("plaster_kg_m2", "kg/m²", "0"),
        ],
        symbol: "g",
        unit: "kN/m²",
        run: surface_weight,
    },
];

fn f_k(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = strength::f_k(&strength::Strength {
        k: r.positive("k")?,
        fb_n_mm2: r.positive("fb_n_mm2")?,
        fm_n_mm2: r.positive("fm_n_mm2")?,
        joint_along: r.flag("joint_along")?,
    });
    Ok(Outcome::number(result.f_k_n_mm2, result, result.steps()))
}

fn n_rdc_concentrated(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (lb_mm, hc_mm) = (r.positive("lb_mm")?, r.positive("hc_mm")?);
    let a1_mm = r.non_negative("a1_mm")?;
    let (left, right) = (r.positive_or_infinite("left_mm")?, r.positive_or_infinite("right_mm")?);
    let result = concentrated::n_rdc_concentrated(&concentrated::Concentrated {
        lb_mm,
        t_mm: r.positive("t_mm")?,
        hc_mm,
        a1_mm,
        // The nearer end of the wall stops the spread on one side whatever is entered.
        lefm_mm: concentrated::effective_length_mm(lb_mm, hc_mm, left.min(a1_mm), right),
        f_k_n_mm2: r.positive("f_k_n_mm2")?,
        gamma_m: r.positive("gamma_m")?,
        group_1: r.flag("group_1")?,
    });
    Ok(Outcome::number(result.n_rdc_kn, result, result.steps()))
}

fn historic_bearing(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = historic::historic_bearing(&historic::Historic {
        load_kn: r.non_negative("load_kn")?,
        width_mm: r.positive("width_mm")?,
        t_mm: r.positive("t_mm")?,
    });
    Ok(Outcome::number(result.allow_kn, result, result.steps()))
}

fn flat_arch(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = arch::flat_arch(&arch::Arch {
        w_kn_m: r.non_negative("w_kn_m")?,
        s_mm: r.positive("s_mm")?,
        depth_mm: r.positive("depth_mm")?,
        t_mm: r.positive("t_mm")?,
        f_k_n_mm2: r.positive("f_k_n_mm2")?,
        gamma_m: r.positive("gamma_m")?,
    });
    Ok(Outcome::record(result, result.steps()))
}

fn end_bay(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = arch::end_bay(&arch::EndBay {
        h_kn: r.non_negative("h_kn")?,
        d_mm: r.positive("d_mm")?,
        n_kn: r.non_negative("n_kn")?,
        width_mm: r.non_negative("width_mm")?,
        least_width_mm: r.non_negative("least_width_mm")?,
    });
    Ok(Outcome::number(result.h_rd_kn, result, result.steps()))
}

fn stage(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = arch::stage(&arch::Stage {
        load_kn: r.non_negative("load_kn")?,
        t_mm: r.positive("t_mm")?,
        clear_mm: r.positive("clear_mm")?,
        f_k_n_mm2: r.positive("f_k_n_mm2")?,
        gamma_m: r.positive("gamma_m")?,
    });
    Ok(Outcome::number(result.stress_n_mm2, result, result.steps()))
}

fn f_k_bs5628(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let unit = r.positive("unit_n_mm2")?;
    let mortar = r.text("mortar")?;
    if bs5628::f_k_bs5628(10.0, mortar).is_none() {
        return Err(r.refuse("mortar", format!("“{mortar}” is no designation")));
    }
    let f_k = bs5628::f_k_bs5628(unit, mortar)
        .ok_or_else(|| r.refuse("unit_n_mm2", format!("{unit} is outside the table's 5 to 100")))?;
    Ok(Outcome::plain(
        f_k,
        format!("unit {unit} N/mm² in mortar {mortar}: f_k = {f_k:.2} N/mm²"),
    ))
}

fn bearing_types(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = bs5628::bearing_types(r.positive("f_k_n_mm2")?, r.positive("gamma_m")?);
    Ok(Outcome::record(result, result.steps()))
}

fn shape_factor(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let name = r.text("material")?;
    let width = r.positive("width_mm")?;
    let row = masonry::material(name).ok_or_else(|| r.refuse("material", format!("“{name}” is not known")))?;
    let factor = masonry::shape_factor(row, width);
    Ok(Outcome::plain(
        factor,
        format!("{name} {width} mm wide: δ = {factor:.3}"),
    ))
}

fn surface_weight(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (t, per) = (r.list("t_mm")?, r.list("kg_m2_per_25mm")?);
    let plaster = r.non_negative("plaster_kg_m2")?;
    if t.len() != per.len() {
        return Err(r.refuse("kg_m2_per_25mm", "there must be one for each thickness"));
    }
    let layers: Vec<(f64, f64)> = t.into_iter().zip(per).collect();
    let result = weights::surface_weight(&layers, plaster);
    Ok(Outcome::number(result.kn_m2, result, result.steps()))
}
