//! Struts by name: the two-tube model and the textbook ones beside it.

use super::props::{FOOT, HEAD, LEAN, LENGTH, refused, state};
use super::reader::{ArgError, Entry, Outcome, Reader, arg, opt};
use crate::clause::struts;
use crate::props::strut::{self, Strut, Tube};
use crate::props::{LoadKind, PropData, Sheet, Tubes};
use serde_json::json;

pub(super) const ENTRIES: &[Entry] = &[
    Entry {
        name: "strut_first_yield",
        source: strut::SOURCE,
        args: &[
            LENGTH,
            opt("closed_m", "m", "1.98"),
            opt("outer_mm", "list of diameter and wall in mm", "60.3,3.2"),
            opt("inner_mm", "list of diameter and wall in mm", "48.3,4.0"),
            HEAD,
            FOOT,
            LEAN,
        ],
        symbol: "R",
        unit: "kN",
        run: strut_first_yield,
    },
    Entry {
        name: "strut_response",
        source: strut::SOURCE,
        args: &[
            arg("outer_length_mm", "mm", "1700"),
            arg("inner_length_mm", "mm", "1300"),
            opt("p_kn", "kN", "15"),
            opt("e_foot_mm", "mm", "25"),
            opt("e_head_mm", "mm", "0"),
            opt("bow_mm", "mm", "0"),
            opt("e_n_mm2", "N/mm²", "210000"),
            arg("outer", "list of A mm², I mm⁴, c mm", "574,234700,30.15"),
            arg("inner", "list of A mm², I mm⁴, c mm", "453.4,115900,24.15"),
        ],
        symbol: "P_cr, y, M, σ",
        unit: "record",
        run: strut_response,
    },
    Entry {
        name: "strut_critical",
        source: struts::STEPPED_SOURCE,
        args: &[
            arg("stiff_part", "share of the length", "0.4"),
            arg("i_in_over_i_out", "1", "0.5"),
        ],
        symbol: "P_cr·l²/(E·I_out)",
        unit: "1",
        run: strut_critical,
    },
    Entry {
        name: "stepped_column",
        source: struts::STEPPED_SOURCE,
        args: &[arg("i1_over_i2", "1", "0.4"), arg("a_over_l", "1", "0.6")],
        symbol: "m",
        unit: "1",
        run: |r| {
            let (ratio, part) = (r.positive("i1_over_i2")?, r.positive("a_over_l")?);
            if part > 1.0 {
                return Err(r.refuse("a_over_l", format!("{part} is above 1")));
            }
            let m = struts::stepped_column(ratio, part);
            Ok(Outcome::plain(m, format!("P_cr = m·E·I₂/l² with m = {m:.4}")))
        },
    },
    Entry {
        name: "secant",
        source: struts::SECANT_SOURCE,
        args: &[
            arg("area", "consistent", "4"),
            arg("i", "consistent", "1.3333333"),
            arg("c", "consistent", "1"),
            arg("length", "consistent", "36"),
            arg("p", "consistent", "20"),
            arg("e", "consistent", "0.75"),
            arg("modulus", "consistent", "29000"),
            opt("fy", "consistent", "36"),
        ],
        symbol: "σ_max",
        unit: "record",
        run: secant,
    },
    Entry {
        name: "amplification",
        source: struts::SECANT_SOURCE,
        args: &[arg("p_over_pcr", "1, below 1", "0.5")],
        symbol: "1/(1 − P/P_cr)",
        unit: "record",
        run: |r| {
            let ratio = r.non_negative("p_over_pcr")?;
            if ratio >= 1.0 {
                return Err(r.refuse("p_over_pcr", format!("{ratio} is not below 1")));
            }
            let (sine_bow, equal_ends) = struts::amplification(ratio);
            let record = json!({ "sine_bow": sine_bow, "equal_ends": equal_ends });
            Ok(Outcome::record(
                record,
                vec![format!("bow × {sine_bow:.4}, equal ends × {equal_ends:.4}")],
            ))
        },
    },
];

fn strut_first_yield(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let length_m = r.positive("length_m")?;
    let (outer_mm, inner_mm) = (r.positive_of::<2>("outer_mm")?, r.positive_of::<2>("inner_mm")?);
    for (name, [d, t]) in [("outer_mm", outer_mm), ("inner_mm", inner_mm)] {
        if 2.0 * t >= d {
            return Err(r.refuse(name, "the wall fills the tube"));
        }
    }
    let tubes = Tubes {
        outer_mm,
        inner_mm,
        closed_m: r.positive("closed_m")?,
    };
    let sheet = Sheet {
        table: Vec::new(),
        load: LoadKind::SafeWorking,
        basis: None,
        min_m: tubes.closed_m,
        max_m: length_m,
        tubes: Some(tubes),
    };
    let strut = PropData::Sheet(sheet)
        .strut(length_m, &state(r)?)
        .map_err(|e| refused(r, &e))?;
    let (first, critical) = (strut.first_yield_kn(), strut.critical_kn());
    let steps = vec![
        format!(
            "eccentricity {:.1} mm at the head, {:.1} mm at the foot, bow {:.1} mm",
            strut.e_head_mm, strut.e_foot_mm, strut.bow_mm
        ),
        format!("P_cr = {critical:.2} kN; first yield at {first:.2} kN"),
    ];
    Ok(Outcome::number(
        first,
        json!({ "r_kn": first, "p_cr_kn": critical, "strut": strut }),
        steps,
    ))
}

fn strut_response(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let tube = |name: &str| {
        r.positive_of::<3>(name)
            .map(|[area_mm2, i_mm4, c_mm]| Tube { area_mm2, i_mm4, c_mm })
    };
    let strut = Strut {
        outer: tube("outer")?,
        inner: tube("inner")?,
        outer_mm: r.positive("outer_length_mm")?,
        inner_mm: r.positive("inner_length_mm")?,
        e_foot_mm: r.num("e_foot_mm")?,
        e_head_mm: r.num("e_head_mm")?,
        bow_mm: r.num("bow_mm")?,
        e_n_mm2: r.positive("e_n_mm2")?,
        fy_n_mm2: strut::FY_N_MM2,
    };
    let (p, critical) = (r.positive("p_kn")?, strut.critical_kn());
    let response = strut
        .response(p)
        .ok_or_else(|| r.refuse("p_kn", format!("{p} is not below P_cr = {critical:.2} kN")))?;
    let steps = vec![
        format!("P_cr = {critical:.3} kN"),
        format!(
            "y_max = {:.3} mm; M {:.3} and {:.3} kNm",
            response.y_max_mm, response.m_outer_kn_m, response.m_inner_kn_m
        ),
    ];
    Ok(Outcome::record(
        json!({ "p_cr_kn": critical, "response": response }),
        steps,
    ))
}

fn strut_critical(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (part, ratio) = (r.positive("stiff_part")?, r.positive("i_in_over_i_out")?);
    if part >= 1.0 {
        return Err(r.refuse("stiff_part", format!("{part} is not below 1")));
    }
    let tube = |i_mm4: f64| Tube {
        area_mm2: 1.0,
        i_mm4,
        c_mm: 1.0,
    };
    let strut = Strut {
        outer: tube(1.0),
        inner: tube(ratio),
        outer_mm: part,
        inner_mm: 1.0 - part,
        e_foot_mm: 0.0,
        e_head_mm: 0.0,
        bow_mm: 0.0,
        e_n_mm2: 1.0,
        fy_n_mm2: 1.0,
    };
    // Unit length and stiffness: the critical load in N is the factor.
    let factor = strut.critical_kn() * 1e3;
    Ok(Outcome::plain(factor, format!("P_cr·l²/(E·I_out) = {factor:.4}")))
}

fn secant(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = struts::secant(&struts::Secant {
        area: r.positive("area")?,
        i: r.positive("i")?,
        c: r.positive("c")?,
        length: r.positive("length")?,
        p: r.positive("p")?,
        e: r.non_negative("e")?,
        modulus: r.positive("modulus")?,
        fy: r.positive("fy")?,
    });
    Ok(Outcome::record(result, result.steps()))
}
