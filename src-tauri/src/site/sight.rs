//! Measuring on a photo of the job: the photo's size and lens come from the record, everything else from `calc::sight`.

use super::kept;
use crate::failure::{Answer, Failure};
use crate::form::number;
use crate::photos::{self, Meta, Photo, PhotoKind};
use crate::record::{Hash, Kind, Moment, NewEntry, Store};
use crate::report;
use calc::Problem;
use calc::sight;
use calc::units::Unit;
use serde_json::{Value, json};

/// Longest side of a drawn picture, pixels [own judgement: figures can be read when it is printed on A4].
const DRAWN_PX: usize = 2400;

type Call = fn(&Value) -> Result<Value, Vec<Problem>>;

/// Lengths, rectangles and courses read on a wall photo.
///
/// # Errors
///
/// What the photo, or what was tapped and typed, said.
pub fn measure(store: &Store, photo: Hash, mut request: Value) -> Answer<Value> {
    fit_view(store, photo, request.get_mut("view"))?;
    for row in rows(&mut request, "coursing") {
        read_texts(row, &[("count", None)])?;
    }
    call(sight::measure_value, &request)
}

/// The kept proposal drawn onto a wall photo.
///
/// # Errors
///
/// `no_proposal` before one is kept, otherwise as [`measure`].
pub fn set_out(store: &Store, photo: Hash, mut view: Value) -> Answer<Value> {
    fit_view(store, photo, Some(&mut view))?;
    let no_proposal = || Failure::new("no_proposal", "Keep a proposal first; then it is drawn on the photo.");
    let kept = kept(store)?.ok_or_else(no_proposal)?;
    let option = kept.chosen().ok_or_else(no_proposal)?;
    call(
        sight::set_out_value,
        &json!({ "view": view, "job": kept.job, "option": option }),
    )
}

/// The lean of a prop's axis against a known vertical.
///
/// # Errors
///
/// As [`measure`].
pub fn lean(store: &Store, photo: Hash, request: Value) -> Answer<Value> {
    of_photo(store, photo, request, &[], sight::lean_value)
}

/// How far a tube stands off the middle of its plate.
///
/// # Errors
///
/// As [`measure`].
pub fn off_centre(store: &Store, photo: Hash, request: Value) -> Answer<Value> {
    of_photo(
        store,
        photo,
        request,
        &[("plate_mm", Some(Unit::Millimetre))],
        sight::off_centre_value,
    )
}

/// The width of a crack beside a scale.
///
/// # Errors
///
/// As [`measure`].
pub fn crack(store: &Store, photo: Hash, request: Value) -> Answer<Value> {
    of_photo(
        store,
        photo,
        request,
        &[("scale_mm", Some(Unit::Millimetre))],
        sight::crack_value,
    )
}

/// Draws the set-out onto the photo as a picture of its own, keeps it in the record as a photo that says it is drawn, with
/// a note of its figures.
///
/// # Errors
///
/// As [`set_out`]; `not_drawn` where the set-out is refused.
pub fn drawn(store: &mut Store, photo: Hash, view: Value, moment: Moment) -> Answer<Photo> {
    let answer = set_out(store, photo, view)?;
    let svg = answer.get("svg").and_then(Value::as_str).unwrap_or_default();
    if svg.is_empty() {
        let why = words_of(answer.get("doubts")).join(" ");
        return Err(Failure::new(
            "not_drawn",
            format!("The set-out cannot be drawn on this photo. {why}"),
        ));
    }
    let info = store.info()?;
    let mut lines = vec![format!(
        "{}{}: set-out drawn on a photo, {}",
        if info.demo { "DEMO, " } else { "" },
        info.name,
        report::when(&moment.rfc3339())
    )];
    let marks = marks(&answer);
    lines.push(format!(
        "Middle of each needle from the left jamb, mm: {}.",
        marks.join(", ")
    ));
    lines.extend(answer.get("caution").and_then(Value::as_str).map(str::to_owned));
    lines.extend(words_of(answer.get("doubts")));
    let under = photos::pixels(store.folder(), photo, DRAWN_PX)?;
    let picture = report::lay_over(&under, svg, &lines)?;
    let jpeg = photos::jpeg_of(&picture).ok_or_else(|| Failure::new("not_drawn", "The picture cannot be written."))?;
    let meta = Meta {
        about: "wall, set-out drawn on it".to_owned(),
        kind: PhotoKind::Group,
        name: format!("set-out drawn on {}.jpg", photo.short()),
        modified_ms: Some(moment.utc_ms),
    };
    let kept = photos::intake(store, &jpeg, &meta, moment)?;
    let note = format!(
        "Set-out drawn on photo {} and kept as photo {}. Middle of each needle from the left jamb, mm: {}.",
        photo.short(),
        kept.short,
        marks.join(", ")
    );
    store.write(|gate| gate.append(moment, NewEntry::new(Kind::Note, json!({ "text": note }))))?;
    Ok(kept)
}

/// Name and figure of each needle, with how surely the drawn line lies there.
fn marks(answer: &Value) -> Vec<String> {
    let marks = answer.get("marks").and_then(Value::as_array);
    let one = |mark: &Value| {
        let name = mark.get("name")?.as_str()?;
        let x_mm = mark.get("x_mm")?.as_f64()?;
        let drawn = mark.pointer("/drawn_x/plus_minus_mm").and_then(Value::as_f64);
        let within = drawn
            .map(|mm| format!(" (line drawn within ± {:.0})", mm.ceil()))
            .unwrap_or_default();
        Some(format!("{name} {:.0}{within}", x_mm.round()))
    };
    marks.into_iter().flatten().filter_map(one).collect()
}

fn words_of(doubts: Option<&Value>) -> Vec<String> {
    let list = doubts.and_then(Value::as_array).into_iter().flatten();
    list.filter_map(|doubt| Some(doubt.get("words")?.as_str()?.to_owned()))
        .collect()
}

/// Gives a view its photo, and reads the sizes that were typed.
fn fit_view(store: &Store, photo: Hash, view: Option<&mut Value>) -> Answer<()> {
    let shown = photos::shown(store, photo)?;
    let Some(view) = view.and_then(Value::as_object_mut) else {
        return Err(Failure::new("description", "What the photo is measured by is missing."));
    };
    view.insert("photo".to_owned(), json!(shown));
    let millimetre = Some(Unit::Millimetre);
    if let Some(reference) = view.get_mut("reference") {
        let sizes = [
            ("width_mm", millimetre),
            ("height_mm", millimetre),
            ("plus_minus_mm", millimetre),
            ("courses", None),
            ("stretchers", None),
        ];
        read_texts(reference, &sizes)?;
    }
    Ok(())
}

fn of_photo(
    store: &Store,
    photo: Hash,
    mut request: Value,
    typed: &[(&str, Option<Unit>)],
    with: Call,
) -> Answer<Value> {
    let shown = photos::shown(store, photo)?;
    read_texts(&mut request, typed)?;
    if let Some(map) = request.as_object_mut() {
        map.insert("photo".to_owned(), json!(shown));
    }
    call(with, &request)
}

fn rows<'v>(request: &'v mut Value, key: &str) -> impl Iterator<Item = &'v mut Value> {
    request.get_mut(key).and_then(Value::as_array_mut).into_iter().flatten()
}

/// Reads numbers that came as they were typed; an empty one is left out.
fn read_texts(value: &mut Value, keys: &[(&str, Option<Unit>)]) -> Answer<()> {
    for (key, unit) in keys {
        let Some(text) = value.get(*key).and_then(Value::as_str).map(str::to_owned) else {
            continue;
        };
        let read = if text.trim().is_empty() {
            Value::Null
        } else {
            json!(number(&format!("/{key}"), &text, *unit).map_err(|problem| Failure::described(vec![problem]))?)
        };
        if let Some(map) = value.as_object_mut() {
            map.insert((*key).to_owned(), read);
        }
    }
    Ok(())
}

fn call(with: Call, request: &Value) -> Answer<Value> {
    with(request).map_err(Failure::described)
}
