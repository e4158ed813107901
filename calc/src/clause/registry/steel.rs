//! Steel clauses by name.

use super::reader::{ANNEX, Arg, ArgError, Entry, Outcome, Reader, arg, opt};
use crate::clause::en1993::{buckling, class, ltb, resistance, web};
use crate::clause::statics;
use crate::tables::steel;

const SECTION: Arg = arg("section", "a steel section", "UC152x152x23 S275");
const GAMMA: Arg = opt("gamma_m", "1", "1.0");

pub(super) const ENTRIES: &[Entry] = &[
    Entry {
        name: "section_properties",
        source: steel::OPEN_SOURCE,
        args: &[SECTION],
        symbol: "A, I, W",
        unit: "record",
        run: |r| {
            let (section, grade) = r.steel("section")?;
            Ok(Outcome::record(
                section,
                vec![format!("as tabulated or by formula; {}", grade.name)],
            ))
        },
    },
    Entry {
        name: "section_class",
        source: class::SOURCE,
        args: &[SECTION],
        symbol: "class",
        unit: "record",
        run: |r| {
            let (section, grade) = r.steel("section")?;
            let result = class::section_class(&section, grade.fy_n_mm2);
            Ok(Outcome::record(result, result.steps()))
        },
    },
    Entry {
        name: "m_c_rd",
        source: resistance::BENDING_SOURCE,
        args: &[SECTION, GAMMA],
        symbol: "M_c,Rd",
        unit: "kNm",
        run: |r| {
            let result = resistance::m_c_rd(&cross(r)?);
            Ok(Outcome::number(result.m_c_rd_kn_m, result, result.steps()))
        },
    },
    Entry {
        name: "v_c_rd",
        source: resistance::SHEAR_SOURCE,
        args: &[SECTION, GAMMA],
        symbol: "V_c,Rd",
        unit: "kN",
        run: |r| {
            let result = resistance::v_c_rd(&cross(r)?);
            Ok(Outcome::number(result.v_c_rd_kn, result, result.steps()))
        },
    },
    Entry {
        name: "m_v_rd",
        source: resistance::BENDING_SHEAR_SOURCE,
        args: &[SECTION, GAMMA, arg("v_kn", "kN", "60")],
        symbol: "M_V,Rd",
        unit: "kNm",
        run: |r| {
            let result = resistance::m_v_rd(&cross(r)?, r.num("v_kn")?);
            Ok(Outcome::number(result.m_v_rd_kn_m, result, result.steps()))
        },
    },
    Entry {
        name: "m_permissible",
        source: resistance::PERMISSIBLE_SOURCE,
        args: &[SECTION],
        symbol: "M",
        unit: "kNm",
        run: |r| {
            let (section, grade) = r.steel("section")?;
            let cross = resistance::CrossSection {
                section,
                fy_n_mm2: grade.fy_n_mm2,
                gamma_m: 1.0,
            };
            let result = resistance::m_permissible(&cross);
            Ok(Outcome::number(result.m_kn_m, result, result.steps()))
        },
    },
    Entry {
        name: "m_b_rd",
        source: ltb::SOURCE,
        args: &[
            SECTION,
            GAMMA,
            arg("length_mm", "mm", "1500"),
            opt("c1", "1", "1.348"),
            opt("c2", "1", "0.63"),
            opt("zg_mm", "mm", "76.2"),
            opt("curve", "rolled or general", "rolled"),
            ANNEX,
        ],
        symbol: "M_b,Rd",
        unit: "kNm",
        run: m_b_rd,
    },
    Entry {
        name: "f_rd",
        source: web::SOURCE,
        args: &[
            arg("section", "an open steel section", "UC152x152x30 S275"),
            GAMMA,
            arg("ss_mm", "mm", "100"),
            arg("load", "a or c", "a"),
            opt("a_mm", "mm or inf", "inf"),
            opt("c_mm", "mm", "0"),
        ],
        symbol: "F_Rd",
        unit: "kN",
        run: f_rd,
    },
    Entry {
        name: "hollow_web",
        source: web::HOLLOW_SOURCE,
        args: &[
            arg("section", "a hollow steel section", "SHS100x100x5 S355"),
            GAMMA,
            arg("ss_mm", "mm", "102.5"),
            arg("load", "wall or prop", "wall"),
        ],
        symbol: "F_Rd",
        unit: "kN",
        run: hollow_web,
    },
    Entry {
        name: "n_b_rd",
        source: buckling::SOURCE,
        args: &[
            arg("area_mm2", "mm²", "557"),
            arg("i_mm4", "mm⁴", "138000"),
            arg("length_mm", "mm", "2000"),
            arg("fy_n_mm2", "N/mm²", "235"),
            arg("curve", "a0, a, b, c or d", "c"),
            GAMMA,
        ],
        symbol: "N_b,Rd",
        unit: "kN",
        run: n_b_rd,
    },
    Entry {
        name: "simple_span",
        source: statics::SOURCE,
        args: &[
            arg("span_mm", "mm", "1200"),
            arg("from_mm", "list of mm", "450"),
            arg("to_mm", "list of mm", "450"),
            arg("load_kn", "list of kN", "20"),
            arg("i_cm4", "cm⁴", "1250"),
            opt("e_n_mm2", "N/mm²", "210000"),
        ],
        symbol: "R, M, V, w",
        unit: "record",
        run: simple_span,
    },
];

fn cross(r: &Reader<'_>) -> Result<resistance::CrossSection, ArgError> {
    let (section, grade) = r.steel("section")?;
    Ok(resistance::CrossSection {
        section,
        fy_n_mm2: grade.fy_n_mm2,
        gamma_m: r.positive("gamma_m")?,
    })
}

fn m_b_rd(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let national = r.national()?;
    let result = ltb::m_b_rd(&ltb::Ltb {
        cross: cross(r)?,
        length_mm: r.positive("length_mm")?,
        c1: r.positive("c1")?,
        c2: r.non_negative("c2")?,
        zg_mm: r.num("zg_mm")?,
        curve: r.choice(
            "curve",
            &[("rolled", ltb::LtbCurve::Rolled), ("general", ltb::LtbCurve::General)],
        )?,
        lambda_lt0: national.lambda_lt0.value,
        beta: national.beta_lt.value,
    });
    Ok(Outcome::number(result.m_b_rd_kn_m, result, result.steps()))
}

fn f_rd(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (section, grade) = r.steel("section")?;
    if section.is_hollow() {
        return Err(r.refuse("section", "it is hollow; hollow_web covers it"));
    }
    let result = web::f_rd(&web::Web {
        section,
        fy_n_mm2: grade.fy_n_mm2,
        gamma_m1: r.positive("gamma_m")?,
        ss_mm: r.positive("ss_mm")?,
        load: r.choice("load", &[("a", web::WebLoad::Interior), ("c", web::WebLoad::End)])?,
        a_mm: r.positive_or_infinite("a_mm")?,
        c_mm: r.non_negative("c_mm")?,
    });
    Ok(Outcome::number(result.f_rd_kn, result, result.steps()))
}

fn hollow_web(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (section, grade) = r.steel("section")?;
    if !section.is_hollow() {
        return Err(r.refuse("section", "it is open; f_rd covers it"));
    }
    let result = web::hollow_web(&web::HollowWeb {
        t_mm: section.tw_mm,
        ss_mm: r.positive("ss_mm")?,
        fy_n_mm2: grade.fy_n_mm2,
        gamma_m: r.positive("gamma_m")?,
        load: r.choice("load", &[("wall", web::WebLoad::Interior), ("prop", web::WebLoad::End)])?,
    });
    Ok(Outcome::number(result.f_rd_kn, result, result.steps()))
}

fn n_b_rd(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let curve = r.text("curve")?;
    let alpha = buckling::imperfection(curve).ok_or_else(|| r.refuse("curve", format!("“{curve}” is no curve")))?;
    let result = buckling::n_b_rd(&buckling::Compression {
        area_mm2: r.positive("area_mm2")?,
        i_mm4: r.positive("i_mm4")?,
        length_mm: r.positive("length_mm")?,
        fy_n_mm2: r.positive("fy_n_mm2")?,
        alpha,
        gamma_m1: r.positive("gamma_m")?,
    });
    Ok(Outcome::number(result.n_b_rd_kn, result, result.steps()))
}

fn simple_span(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let span = r.positive("span_mm")?;
    let (from, to, load) = (r.list("from_mm")?, r.list("to_mm")?, r.list("load_kn")?);
    if from.len() != to.len() {
        return Err(r.refuse("to_mm", "there must be one for each load"));
    }
    if from.len() != load.len() {
        return Err(r.refuse("load_kn", "there must be one for each place"));
    }
    let loads: Vec<statics::SpanLoad> = from
        .into_iter()
        .zip(to)
        .zip(load)
        .map(|((from_mm, to_mm), load_kn)| statics::SpanLoad {
            from_mm,
            to_mm,
            load_kn,
        })
        .collect();
    if loads
        .iter()
        .any(|l| l.from_mm < 0.0 || l.to_mm > span || l.to_mm < l.from_mm)
    {
        return Err(r.refuse("from_mm", "a load stands off the span"));
    }
    let ei = r.positive("i_cm4")? * 1e4 * r.positive("e_n_mm2")?;
    let result = statics::simple_span(span, &loads, ei);
    Ok(Outcome::record(result, result.steps()))
}
