//! Props and struts by name.

use super::reader::{Arg, ArgError, Entry, Outcome, Reader, arg, opt};
use crate::props::data::{self, LIMITS_SOURCE, PropData, Refusal, State};
use crate::props::en1065::{self, ClassOfProp};
use crate::props::strut;
use crate::props::{bracket, bracket_resistance, rate, tn79};
use serde_json::json;

pub(super) const LENGTH: Arg = arg("length_m", "m", "2.5");
const PROP: Arg = arg("prop", "a trade size 0 to 4 or a class as B35", "2");
pub(super) const HEAD: Arg = opt("head_mm", "mm", "25");
pub(super) const FOOT: Arg = opt("foot_mm", "mm", "0");
pub(super) const LEAN: Arg = opt("lean_deg", "degrees", "1.5");

pub(super) const ENTRIES: &[Entry] = &[
    Entry {
        name: "prop_nominal_en1065",
        source: en1065::SOURCE,
        args: &[arg("class", "a class as B35", "B40"), LENGTH],
        symbol: "R_y,k",
        unit: "kN",
        run: |r| {
            let result = en1065::prop_nominal_en1065(class(r, "class")?, r.positive("length_m")?);
            Ok(Outcome::number(result.ryk_kn, result, result.steps()))
        },
    },
    Entry {
        name: "prop_tn79",
        source: tn79::SOURCE,
        args: &[
            arg("size", "0 to 4", "2"),
            LENGTH,
            opt("concentric", "true or false", "false"),
        ],
        symbol: "SWL",
        unit: "kN",
        run: prop_tn79,
    },
    Entry {
        name: "prop_range",
        source: tn79::RANGE_SOURCE,
        args: &[PROP],
        symbol: "closed and extended length",
        unit: "record",
        run: |r| {
            let prop = prop(r)?;
            let ((min_m, max_m), (usable_min_m, usable_max_m)) = prop
                .range_m()
                .and_then(|range| Ok((range, prop.usable_m()?)))
                .map_err(|e| r.refuse("prop", e))?;
            let record =
                json!({ "min_m": min_m, "max_m": max_m, "usable_min_m": usable_min_m, "usable_max_m": usable_max_m });
            Ok(Outcome::record(
                record,
                vec!["50 mm of adjustment left at both ends".to_owned()],
            ))
        },
    },
    Entry {
        name: "prop_working_load",
        source: strut::SOURCE,
        args: &[PROP, LENGTH, HEAD, FOOT, LEAN],
        symbol: "κ·SWL",
        unit: "kN",
        run: |r| {
            let rating = rate(&prop(r)?, r.positive("length_m")?, &state(r)?).map_err(|e| refused(r, &e))?;
            Ok(Outcome::number(rating.working_load_kn, rating, rating.steps()))
        },
    },
    Entry {
        name: "bracket_resistance",
        source: bracket::SOURCE,
        args: &[PROP, LENGTH, arg("arm_mm", "mm", "150"), LEAN],
        symbol: "R",
        unit: "kN",
        run: |r| {
            let (prop, length, arm) = (prop(r)?, r.positive("length_m")?, r.non_negative("arm_mm")?);
            let result = bracket_resistance(&prop, length, arm, lean(r)?).map_err(|e| refused(r, &e))?;
            Ok(Outcome::number(result.can_kn, result, result.steps()))
        },
    },
    Entry {
        name: "prop_limits",
        source: LIMITS_SOURCE,
        args: &[
            opt("off_centre_mm", "mm", "0"),
            opt("offset_mm", "mm out of plumb", "40"),
            opt("gauge_mm", "mm of height", "1800"),
        ],
        symbol: "within limits",
        unit: "record",
        run: prop_limits,
    },
    Entry {
        name: "prop_least_details",
        source: en1065::SOURCE,
        args: &[],
        symbol: "t, d",
        unit: "record",
        run: |_| {
            let [tube_a, tube, pin, plate, plate_ce] = en1065::LEAST_DETAILS_MM;
            let record = json!({ "tube_a_mm": tube_a, "tube_mm": tube, "pin_mm": pin, "plate_abd_mm": plate, "plate_ce_mm": plate_ce });
            Ok(Outcome::record(record, vec!["as published".to_owned()]))
        },
    },
];

fn class(r: &Reader<'_>, name: &str) -> Result<ClassOfProp, ArgError> {
    let text = r.text(name)?;
    en1065::parse(text).ok_or_else(|| r.refuse(name, format!("“{text}” is not a class")))
}

fn prop(r: &Reader<'_>) -> Result<PropData, ArgError> {
    let text = r.text("prop")?;
    match text.parse::<u8>() {
        Ok(size) if tn79::range_m(size).is_some() => Ok(PropData::Tn79(size)),
        Ok(_) => Err(r.refuse("prop", format!("there is no trade size {text}"))),
        Err(_) => class(r, "prop").map(PropData::En1065),
    }
}

fn lean(r: &Reader<'_>) -> Result<f64, ArgError> {
    let lean = r.non_negative("lean_deg")?;
    if lean >= 45.0 {
        Err(r.refuse("lean_deg", format!("{lean} is no lean of a prop")))
    } else {
        Ok(lean)
    }
}

pub(super) fn state(r: &Reader<'_>) -> Result<State, ArgError> {
    Ok(State::new(
        r.non_negative("head_mm")?,
        r.non_negative("foot_mm")?,
        lean(r)?,
    ))
}

pub(super) fn refused(r: &Reader<'_>, refusal: &Refusal) -> ArgError {
    r.refuse("length_m", refusal)
}

fn prop_tn79(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let text = r.text("size")?;
    let unknown = || r.refuse("size", format!("there is no trade size “{text}”"));
    let size: u8 = text.parse().map_err(|_| unknown())?;
    let (min_m, max_m) = tn79::range_m(size).ok_or_else(unknown)?;
    let length_m = r.positive("length_m")?;
    let rows = tn79::rows(size, r.flag("concentric")?);
    let row = tn79::next_taller(rows, length_m).filter(|_| (min_m - 1e-6..=max_m + 1e-6).contains(&length_m));
    let (height, load) = row.ok_or_else(|| refused(r, &Refusal::OutOfRange { length_m, min_m, max_m }))?;
    Ok(Outcome::plain(load, format!("size {size}, row {height} m: {load} kN")))
}

fn prop_limits(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (off, offset, gauge) = (
        r.non_negative("off_centre_mm")?,
        r.non_negative("offset_mm")?,
        r.positive("gauge_mm")?,
    );
    let lean_mm_m = offset / gauge * 1e3;
    let state = State {
        head_mm: off,
        foot_mm: 0.0,
        lean_mm_m: [lean_mm_m, 0.0],
    };
    let record = json!({
        "lean_mm_m": lean_mm_m,
        "within": state.in_basis(),
        "lean_limit_mm_m": data::LEAN_LIMIT_MM_M,
        "off_centre_limit_mm": data::ECCENTRICITY_LIMIT_MM,
        "lean_of_the_tables_deg": tn79::LEAN_DEG,
    });
    Ok(Outcome::record(
        record,
        vec![format!("{lean_mm_m:.1} mm per m, {off:.0} mm off centre")],
    ))
}
