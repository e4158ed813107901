//! Loads, combinations, small openings and beams by name.

use super::reader::{ANNEX, ArgError, Entry, Outcome, Reader, arg, opt};
use crate::clause::bs::bs5977;
use crate::clause::en1991::{imposed, snow, wind};
use crate::clause::{beam, en1990};

pub(super) const ENTRIES: &[Entry] = &[
    Entry {
        name: "strength_load",
        source: en1990::SOURCE,
        args: &[
            arg("g", "any", "14"),
            arg("q", "the same", "19"),
            opt("xi", "1", "1.0"),
            ANNEX,
        ],
        symbol: "ξ·γ_G·G + γ_Q·Q",
        unit: "as given",
        run: |r| {
            let result = en1990::strength(r.num("g")?, r.num("q")?, r.positive("xi")?, &r.national()?);
            Ok(Outcome::number(result.total, result, result.steps()))
        },
    },
    Entry {
        name: "accidental_load",
        source: en1990::ACCIDENTAL_SOURCE,
        args: &[
            arg("g", "any", "20"),
            arg("q_floor", "the same", "6"),
            opt("q_snow", "the same", "0"),
            opt("q_roof", "the same", "0"),
            ANNEX,
        ],
        symbol: "G + ψ1·Q",
        unit: "as given",
        run: |r| {
            let (g, floor) = (r.num("g")?, r.num("q_floor")?);
            let total = en1990::accidental(g, floor, r.num("q_snow")?, r.num("q_roof")?, &r.national()?);
            Ok(Outcome::plain(total, format!("G + ψ1·Q = {total:.3}")))
        },
    },
    Entry {
        name: "q_roof",
        source: imposed::ROOF_SOURCE,
        args: &[arg("pitch_deg", "degrees", "35"), ANNEX],
        symbol: "q_k",
        unit: "kN/m²",
        run: |r| {
            let result = imposed::q_roof(r.non_negative("pitch_deg")?, &r.national()?);
            Ok(Outcome::number(result.q_kn_m2, result, result.steps()))
        },
    },
    Entry {
        name: "q_partitions",
        source: imposed::PARTITIONS_SOURCE,
        args: &[arg("line_kn_m", "kN/m, up to 3", "2.0")],
        symbol: "q_k",
        unit: "kN/m²",
        run: |r| {
            let line = r.non_negative("line_kn_m")?;
            let q = imposed::q_partitions(line)
                .ok_or_else(|| r.refuse("line_kn_m", format!("{line} is above 3 kN/m: use the line load itself")))?;
            Ok(Outcome::plain(q, format!("{line} kN/m of partition: {q} kN/m²")))
        },
    },
    Entry {
        name: "partition_line",
        source: imposed::LINE_SOURCE,
        args: &[
            arg("rho_kg_m3", "kg/m³", "1400"),
            arg("t_mm", "mm", "75"),
            arg("height_m", "m", "2.7"),
            opt("plaster_kn_m2", "kN/m²", "0.53"),
        ],
        symbol: "g",
        unit: "kN/m",
        run: |r| {
            let (rho, t) = (r.positive("rho_kg_m3")?, r.positive("t_mm")?);
            let g = imposed::partition_line(rho, t, r.positive("height_m")?, r.non_negative("plaster_kn_m2")?);
            Ok(Outcome::plain(g, format!("h·(ρ·g·t + plaster) = {g:.3} kN/m")))
        },
    },
    Entry {
        name: "s_k_uk",
        source: snow::GROUND_SOURCE,
        args: &[arg("zone", "1 to 5", "3"), arg("altitude_m", "m", "100")],
        symbol: "s_k",
        unit: "kN/m²",
        run: |r| {
            let result = snow::s_k_uk(r.positive("zone")?, r.num("altitude_m")?);
            Ok(Outcome::number(result.s_k_kn_m2, result, result.steps()))
        },
    },
    Entry {
        name: "s_roof",
        source: snow::ROOF_SOURCE,
        args: &[
            arg("pitch_deg", "degrees", "35"),
            arg("s_k_kn_m2", "kN/m²", "0.5"),
            opt("c_e", "1", "1.0"),
            opt("c_t", "1", "1.0"),
        ],
        symbol: "s",
        unit: "kN/m²",
        run: |r| {
            let result = snow::s_roof(&snow::RoofSnow {
                pitch_deg: r.non_negative("pitch_deg")?,
                s_k_kn_m2: r.non_negative("s_k_kn_m2")?,
                c_e: r.positive("c_e")?,
                c_t: r.positive("c_t")?,
            });
            Ok(Outcome::number(result.s_kn_m2, result, result.steps()))
        },
    },
    Entry {
        name: "q_p",
        source: wind::SOURCE,
        args: &[
            arg("vb_m_s", "m/s", "26"),
            arg("z0_m", "m", "0.3"),
            arg("z_min_m", "m", "5"),
            arg("z_m", "m", "8"),
            opt("rho_kg_m3", "kg/m³", "1.25"),
        ],
        symbol: "q_p",
        unit: "kN/m²",
        run: q_p,
    },
    Entry {
        name: "gust_pressure",
        source: wind::GUST_SOURCE,
        args: &[arg("gust_m_s", "m/s", "20")],
        symbol: "q",
        unit: "kN/m²",
        run: |r| {
            let q = wind::gust_kn_m2(r.non_negative("gust_m_s")?);
            Ok(Outcome::plain(q, format!("0.613·v² = {q:.3} kN/m²")))
        },
    },
    Entry {
        name: "load_triangle",
        source: bs5977::SOURCE,
        args: &[
            arg("span_m", "m", "1.8"),
            opt("base_factor", "1", "1.1"),
            arg("wall_kn_m2", "kN/m²", "1.8"),
            opt("height_m", "m", "1000"),
            opt("uniform_kn_m", "kN/m", "0"),
        ],
        symbol: "W",
        unit: "kN",
        run: load_triangle,
    },
    Entry {
        name: "triangle_share",
        source: bs5977::SOURCE,
        args: &[
            arg("base_m", "m", "2"),
            arg("off_middle_m", "m", "0.2"),
            arg("above_m", "m", "0.5"),
            opt("load_kn", "kN", "4"),
        ],
        symbol: "P carried",
        unit: "kN",
        run: |r| {
            let (base, off) = (r.positive("base_m")?, r.num("off_middle_m")?);
            let share = bs5977::triangle_share(base, off, r.non_negative("above_m")?);
            let load = r.num("load_kn")?;
            Ok(Outcome::plain(share * load, format!("{share} of {load} kN is carried")))
        },
    },
    Entry {
        name: "triangle_allowed",
        source: bs5977::SOURCE,
        args: &[
            arg("span_m", "m", "3.8"),
            arg("storeys", "1, 2, 3, …", "2"),
            arg("pier_mm", "mm", "500"),
            opt("opening_in_triangle", "true or false", "false"),
            opt("perished", "true or false", "false"),
        ],
        symbol: "allowed",
        unit: "record",
        run: triangle_allowed,
    },
    Entry {
        name: "beam_reactions",
        source: beam::SOURCE,
        args: &[
            arg("x_m", "list of m", "1,2,3"),
            opt("k_kn_m", "rigid, one kN/m or a list", "rigid"),
            arg("length_m", "m", "3"),
            opt("w_kn_m", "kN/m over the whole length", "20"),
            opt("point_x_m", "list of m", ""),
            opt("point_kn", "list of kN", ""),
            opt("e_n_mm2", "N/mm²", "210000"),
            arg("i_cm4", "cm⁴", "2340"),
            opt("push_only", "true or false", "true"),
        ],
        symbol: "R, M, d",
        unit: "record",
        run: beam_reactions,
    },
];

fn q_p(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = wind::q_p(&wind::Wind {
        vb_m_s: r.non_negative("vb_m_s")?,
        z0_m: r.positive("z0_m")?,
        z_min_m: r.positive("z_min_m")?,
        z_m: r.non_negative("z_m")?,
        rho_kg_m3: r.positive("rho_kg_m3")?,
    });
    Ok(Outcome::number(result.q_p_kn_m2, result, result.steps()))
}

fn load_triangle(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let result = bs5977::load_triangle(&bs5977::Triangle {
        span_m: r.positive("span_m")?,
        base_factor: r.positive("base_factor")?,
        wall_kn_m2: r.non_negative("wall_kn_m2")?,
        height_m: r.non_negative("height_m")?,
        uniform_kn_m: r.non_negative("uniform_kn_m")?,
    });
    Ok(Outcome::number(result.weight_kn, result, result.steps()))
}

fn triangle_allowed(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let text = r.text("storeys")?;
    let storeys: u32 = text
        .parse()
        .map_err(|_| r.refuse("storeys", format!("“{text}” is not a number of storeys")))?;
    let result = bs5977::triangle_allowed(&bs5977::Scope {
        span_m: r.positive("span_m")?,
        storeys,
        pier_mm: r.non_negative("pier_mm")?,
        opening_in_triangle: r.flag("opening_in_triangle")?,
        perished: r.flag("perished")?,
    });
    Ok(Outcome::record(result, result.steps()))
}

fn beam_reactions(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let x = r.list("x_m")?;
    let k = match r.text("k_kn_m")? {
        "rigid" => vec![f64::INFINITY; x.len()],
        _ => match r.list("k_kn_m")?.as_slice() {
            [one] => vec![*one; x.len()],
            many => many.to_vec(),
        },
    };
    if k.len() != x.len() || k.iter().any(|k| *k <= 0.0) {
        return Err(r.refuse("k_kn_m", "there must be one above 0 for each support"));
    }
    let (at, p) = (r.list("point_x_m")?, r.list("point_kn")?);
    if at.len() != p.len() {
        return Err(r.refuse("point_kn", "there must be one for each place"));
    }
    let length_m = r.positive("length_m")?;
    let w_kn_m = r.num("w_kn_m")?;
    let mut loads = vec![beam::BeamLoad::Uniform {
        from_m: 0.0,
        to_m: length_m,
        w_kn_m,
    }];
    loads.extend(
        at.into_iter()
            .zip(p)
            .map(|(x_m, p_kn)| beam::BeamLoad::Point { x_m, p_kn }),
    );
    let supports: Vec<beam::Support> = x
        .into_iter()
        .zip(k)
        .map(|(x_m, k_kn_m)| beam::Support { x_m, k_kn_m })
        .collect();
    // N/mm² × cm⁴ to kN·m².
    let ei = r.positive("e_n_mm2")? * r.positive("i_cm4")? * 1e-5;
    let result =
        beam::beam_reactions(length_m, ei, &supports, &loads, r.flag("push_only")?).map_err(|error| match error {
            beam::BeamError::Mechanism => r.refuse("x_m", "these supports do not hold the beam"),
            beam::BeamError::BadInput => r.refuse("x_m", "a support or a load lies off the beam"),
        })?;
    let steps = result.steps();
    Ok(Outcome::record(result, steps))
}
