//! Commands around packs and whole jobs: take in, check, put away, set aside, correct, and the room that is left.

use super::Desk;
use super::desk::ARRIVING;
use super::record::Packed;
use super::support::Written;
use crate::failure::{Answer, Failure};
use crate::pack::{self, Choice, How, Imported, Progress};
use crate::record::{Health, Moment, Room, free_bytes};
use crate::site;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use chrono::NaiveDate;
use serde::Deserialize;
use serde_json::Value;
use std::fs::OpenOptions;
use std::io::{Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use tauri::State;
use uuid::Uuid;

/// Which photos go into a pack.
#[derive(Debug, Default, Deserialize)]
pub struct Chosen {
    /// First and last day, as `2026-03-02`.
    from: Option<String>,
    to: Option<String>,
    /// What they show; empty for everything.
    #[serde(default)]
    about: Vec<String>,
    /// Their kinds; empty for every kind.
    #[serde(default)]
    kinds: Vec<String>,
    /// Leaves the place out of the report.
    #[serde(default)]
    without_place: bool,
}

impl Chosen {
    fn choice(self) -> Answer<Choice> {
        let day = |text: Option<&String>| {
            let wrong = || Failure::new("day", "A day is written as 2026-03-02.");
            text.map(|text| text.parse::<NaiveDate>().map_err(|_| wrong()))
                .transpose()
        };
        let days = match (day(self.from.as_ref())?, day(self.to.as_ref())?) {
            (None, None) => None,
            (from, to) => Some(from.unwrap_or(NaiveDate::MIN)..=to.unwrap_or(NaiveDate::MAX)),
        };
        Ok(Choice {
            days,
            about: self.about,
            kinds: self.kinds,
            without_place: self.without_place,
        })
    }
}

/// Takes in a pack that lies at a path.
#[tauri::command(async)]
pub fn pack_import(desk: State<'_, Desk>, path: PathBuf) -> Answer<Imported> {
    desk.apart(|jobs| Ok(pack::import(jobs, &path, Moment::now())?))
}

/// Keeps a part of a pack, or of a photo, that comes through the page, as base64; `upload` is a fresh id of the page's making.
#[tauri::command(async)]
pub fn pack_part(desk: State<'_, Desk>, upload: Uuid, at: u64, base64: String) -> Answer<()> {
    let bytes = STANDARD
        .decode(base64)
        .map_err(|why| Failure::new("file", format!("A part of the pack did not arrive whole ({why}).")))?;
    let path = arriving(&desk, upload)?;
    let size = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
    if let Some(what) = Room::lacking(free_bytes(desk.jobs().data()), size) {
        return Err(Failure::new("no_room", format!("There is too little room: {what}.")));
    }
    let put = || -> std::io::Result<()> {
        let mut file = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&path)?;
        // A part that is sent again stands where it stood; one behind a gap is refused.
        if file.metadata()?.len() < at {
            return Err(std::io::ErrorKind::InvalidInput.into());
        }
        file.seek(SeekFrom::Start(at))?;
        file.write_all(&bytes)
    };
    put().map_err(|why| unsaved(&path, &why))
}

/// Takes in the pack whose parts have all come, and removes them.
#[tauri::command(async)]
pub fn pack_arrived(desk: State<'_, Desk>, upload: Uuid) -> Answer<Imported> {
    let path = arriving(&desk, upload)?;
    let done = desk.apart(|jobs| Ok(pack::import(jobs, &path, Moment::now())?));
    // What was taken in lies in the job; a pack that was refused is still where it came from.
    let _ignored = std::fs::remove_file(&path);
    done
}

/// Gives up a pack that is on its way, and removes what has come of it.
#[tauri::command(async)]
pub fn pack_forget(desk: State<'_, Desk>, upload: Uuid) -> Answer<()> {
    let path = arriving(&desk, upload)?;
    match std::fs::remove_file(&path) {
        Err(why) if why.kind() != std::io::ErrorKind::NotFound => Err(unsaved(&path, &why)),
        _ => Ok(()),
    }
}

/// Makes a pack with some of the photos. `work` is a fresh id of the page's making, to look at it and to stop it by.
#[tauri::command(async)]
pub fn pack_make_of(desk: State<'_, Desk>, id: String, chosen: Chosen, work: Uuid) -> Answer<Packed> {
    let folder = desk.papers()?;
    let choice = &chosen.choice()?;
    let made = desk.watched(work, |watch| {
        desk.at(&id, |store| {
            site::pack_of(store, &folder, How { choice, watch }, Moment::now())
        })
    });
    Ok(made?.into())
}

/// How far a pack is; `None` once it is not being made any more. Not `async`: it must answer while others wait for the job.
#[tauri::command]
pub fn pack_progress(desk: State<'_, Desk>, work: Uuid) -> Option<Progress> {
    desk.watch(work).map(|watch| watch.progress())
}

/// Stops a pack that is being made.
#[tauri::command]
pub fn pack_stop(desk: State<'_, Desk>, work: Uuid) {
    if let Some(watch) = desk.watch(work) {
        watch.stop();
    }
}

/// Checks a whole job: chains and photos.
#[tauri::command(async)]
pub fn job_check(desk: State<'_, Desk>, id: String) -> Answer<Health> {
    desk.at(&id, |store| Ok(store.health()?))
}

/// Puts a job away, after the pack at `path` is found to hold all of it.
#[tauri::command(async)]
pub fn job_put_away(desk: State<'_, Desk>, id: Uuid, path: PathBuf) -> Answer<PathBuf> {
    desk.apart(|jobs| Ok(pack::put_away(jobs, id, &path)?))
}

/// Sets a damaged job aside, so that its last pack can be taken in.
#[tauri::command(async)]
pub fn job_set_aside(desk: State<'_, Desk>, id: Uuid) -> Answer<PathBuf> {
    desk.apart(|jobs| Ok(jobs.set_aside(id)?))
}

/// Corrects an entry.
#[tauri::command(async)]
pub fn entry_correct(desk: State<'_, Desk>, id: String, entry: String, change: Value) -> Answer<Written> {
    let old = entry
        .parse()
        .map_err(|_| Failure::new("no_entry", "That is no entry."))?;
    desk.at(&id, |store| {
        let entry = site::correct(store, old, &change, Moment::now())?;
        Ok(Written { entry: entry.hash })
    })
}

/// The room that is left.
#[tauri::command(async)]
pub fn room(desk: State<'_, Desk>) -> Room {
    Room::of(free_bytes(desk.jobs().data()))
}

/// Where the parts of something that comes through the page are put together.
pub(super) fn arriving(desk: &Desk, upload: Uuid) -> Answer<PathBuf> {
    let folder = desk.jobs().data().join(ARRIVING);
    std::fs::create_dir_all(&folder).map_err(|why| unsaved(&folder, &why))?;
    Ok(folder.join(format!("{upload}.zip")))
}

fn unsaved(path: &Path, why: &std::io::Error) -> Failure {
    Failure::new("file", format!("{} cannot be written ({why}).", path.display()))
}
