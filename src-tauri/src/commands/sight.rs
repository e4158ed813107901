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

/// Lays a copy of a photo among the papers, byte for byte as it was taken in or drawn, so that it can be shared as a file.
#[tauri::command(async)]
pub fn photo_paper(desk: State<'_, Desk>, id: String, sha: String) -> Answer<Paper> {
    let sha = named(&sha)?;
    let (job, row, from) = desk.at(&id, |store| {
        let row = store.photo_rows()?.into_iter().find(|row| row.sha == sha);
        let row = row.ok_or_else(|| Failure::new("missing", format!("There is no photo {sha} here.")))?;
        Ok((store.info()?.name, row, store.photo_folder().join(sha.to_string())))
    })?;
    let ending = if row.format == "jpeg" { "jpg" } else { &row.format };
    // What a photo shows may be in anybody's words: of them only what every file system takes.
    let about: String = row
        .about
        .chars()
        .filter(|letter| letter.is_alphanumeric() || *letter == ' ' || *letter == '-')
        .take(60)
        .collect();
    let day = Moment::now().local_date().map(|day| day.to_string());
    let path = desk.paper(&job, &day.unwrap_or_default(), about.trim(), ending)?;
    let put = || -> std::io::Result<()> {
        let mut copy = std::fs::File::create_new(&path)?;
        std::io::copy(&mut std::fs::File::open(&from)?, &mut copy)?;
        copy.sync_all()
    };
    put().map_err(|why| {
        // Half a picture is none.
        let _ignored = std::fs::remove_file(&path);
        Failure::new(
            "file",
            format!("The picture cannot be laid at {} ({why}).", path.display()),
        )
    })?;
    Ok(Paper::at(path))
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
