//! Props at hand, read into what is known of them.

use crate::job::{PropInput, SheetBasis};
use crate::props::{LoadKind, PropData, Refusal, Sheet, State, Tubes, en1065, strut::Tube};

/// A prop ready for the search.
#[derive(Clone, Debug, PartialEq)]
pub struct Ready {
    /// What is known of it.
    pub data: PropData,
    /// Kind of data, the contract's word.
    pub kind: String,
    /// Size, class or name.
    pub size: String,
    /// Words for a parts list.
    pub words: String,
    /// Mass, kg.
    pub mass_kg: f64,
    /// Length of the outer tube, m.
    pub outer_m: f64,
    /// Area of the outer tube, mm².
    pub outer_mm2: f64,
    /// Area of the inner tube, mm².
    pub inner_mm2: f64,
}

/// Trade size 0 to 4 as a described prop.
#[must_use]
pub fn trade_size(size: u32) -> PropInput {
    PropInput {
        name: format!("size {size}"),
        data: "tn79".to_owned(),
        size: Some(size),
        class: None,
        table: None,
        load: None,
        basis: None,
        min_m: None,
        max_m: None,
        tubes: None,
    }
}

/// Reads a described prop.
///
/// # Errors
///
/// What is wrong and what would be right.
pub fn ready(input: &PropInput) -> Result<Ready, (String, String)> {
    let data = match input.data.as_str() {
        "tn79" => PropData::Tn79(input.size.and_then(|size| u8::try_from(size).ok()).unwrap_or(u8::MAX)),
        "en1065" => {
            let class = input.class.as_deref().unwrap_or_default();
            let parsed = en1065::parse(class);
            PropData::En1065(parsed.ok_or_else(|| {
                (
                    format!("`{class}` is no class"),
                    "a class such as A25, B35, C40, D35 or E30".to_owned(),
                )
            })?)
        }
        _ => PropData::Sheet(sheet(input)),
    };
    let refuse = |refusal: Refusal| (refusal.to_string(), "a prop whose sizes are known".to_owned());
    let tubes = data.tubes().map_err(refuse)?;
    let ([od, ot], [id, it]) = (tubes.outer_mm, tubes.inner_mm);
    if id >= od - 2.0 * ot + 1e-9 || 2.0 * it >= id {
        return Err((
            format!("an inner tube of {id} mm does not slide in {od} × {ot} mm"),
            "an inner tube smaller than the bore of the outer one".to_owned(),
        ));
    }
    let size = match (&data, input.name.is_empty()) {
        (PropData::Sheet(_), false) => input.name.clone(),
        _ => data.size(),
    };
    let words = match &data {
        PropData::Tn79(_) => format!("trade size {size}"),
        PropData::En1065(_) => format!("class {size}"),
        PropData::Sheet(_) => format!("{size}, by its maker's sheet"),
    };
    Ok(Ready {
        kind: data.kind().to_owned(),
        size,
        words,
        mass_kg: data.mass_kg().map_err(refuse)?,
        outer_m: tubes.closed_m - 0.1,
        outer_mm2: Tube::round(od, ot).area_mm2,
        inner_mm2: Tube::round(id, it).area_mm2,
        data,
    })
}

fn sheet(input: &PropInput) -> Sheet {
    let table: Vec<(f64, f64)> = input
        .table
        .iter()
        .flatten()
        .map(|[length, load]| (*length, *load))
        .collect();
    let ends = |start: f64, pick: fn(f64, f64) -> f64| table.iter().map(|(length, _)| *length).fold(start, pick);
    let basis = |given: &SheetBasis| State::new(given.head_mm, given.foot_mm, given.lean_deg);
    Sheet {
        load: if input.load.as_deref() == Some("characteristic") {
            LoadKind::Characteristic
        } else {
            LoadKind::SafeWorking
        },
        basis: input.basis.as_ref().map(basis),
        min_m: input.min_m.unwrap_or_else(|| ends(f64::INFINITY, f64::min)),
        max_m: input.max_m.unwrap_or_else(|| ends(0.0, f64::max)),
        tubes: input.tubes.as_ref().map(|t| Tubes {
            outer_mm: t.outer_mm,
            inner_mm: t.inner_mm,
            closed_m: t.closed_m,
        }),
        table,
    }
}
