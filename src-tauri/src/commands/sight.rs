//! Commands of measuring: on a photo of the job, and with the phone's own sensor.

use super::Desk;
use super::support::Paper;
use crate::failure::{Answer, Failure};
use crate::photos::{self, Shown};
use crate::record::{Hash, Moment};
use crate::report;
use crate::site::{self, PhotoLine};
use serde_json::Value;
use tauri::State;

fn named(sha: &str) -> Answer<Hash> {
    let unknown = |_| Failure::new("missing", format!("There is no photo {sha} here."));
    sha.parse().map_err(unknown)
}

/// Size of a photo as it is shown, and its lens.
#[tauri::command(async)]
pub fn sight_photo(desk: State<'_, Desk>, id: String, sha: String) -> Answer<Shown> {
    desk.at(&id, |store| Ok(photos::shown(store, named(&sha)?)?))
}

/// Reads lengths, rectangles and courses on a photo.
#[tauri::command(async)]
pub fn sight_measure(desk: State<'_, Desk>, id: String, sha: String, request: Value) -> Answer<Value> {
    desk.at(&id, |store| site::measure(store, named(&sha)?, request))
}

/// Lays the kept proposal over a photo.
#[tauri::command(async)]
pub fn sight_set_out(desk: State<'_, Desk>, id: String, sha: String, view: Value) -> Answer<Value> {
    desk.at(&id, |store| site::set_out(store, named(&sha)?, view))
}

/// Reads a lean on a photo.
#[tauri::command(async)]
pub fn sight_lean(desk: State<'_, Desk>, id: String, sha: String, request: Value) -> Answer<Value> {
    desk.at(&id, |store| site::lean(store, named(&sha)?, request))
}

/// Reads on a photo how far a tube is off the middle of its plate.
#[tauri::command(async)]
pub fn sight_off_centre(desk: State<'_, Desk>, id: String, sha: String, request: Value) -> Answer<Value> {
    desk.at(&id, |store| site::off_centre(store, named(&sha)?, request))
}

/// Reads the width of a crack on a photo.
#[tauri::command(async)]
pub fn sight_crack(desk: State<'_, Desk>, id: String, sha: String, request: Value) -> Answer<Value> {
    desk.at(&id, |store| site::crack(store, named(&sha)?, request))
}

/// Reads the lean from the phone's own sensor.
#[tauri::command(async)]
pub fn sight_tilt(request: Value) -> Answer<Value> {
    calc::sight::tilt_value(&request).map_err(Failure::described)
}

/// Keeps the set-out drawn on a photo as a picture.
#[tauri::command(async)]
pub fn sight_draw(desk: State<'_, Desk>, id: String, sha: String, view: Value) -> Answer<PhotoLine> {
    desk.at(&id, |store| {
        let photo = site::drawn(store, named(&sha)?, view, Moment::now())?;
        Ok(PhotoLine::new(store.job(), photo))
    })
}

/// Saves the scale card as a PDF.
#[tauri::command(async)]
pub fn sight_card(desk: State<'_, Desk>) -> Answer<Paper> {
    let now = Moment::now();
    let bytes = report::card_pdf(&site::caution(), now.utc_ms)?;
    let day = now.local_date().map(|day| day.to_string()).unwrap_or_default();
    let path = desk.paper("Upstay", &day, "scale card", "pdf")?;
    let refused = |why| {
        Failure::new(
            "file",
            format!("The card cannot be saved as {} ({why}).", path.display()),
        )
    };
    std::fs::write(&path, bytes).map_err(refused)?;
    Ok(Paper::at(path))
}
