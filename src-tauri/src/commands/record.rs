//! Commands of the record.

use super::Desk;
use super::support::Written;
use crate::failure::{Answer, Failure};
use crate::pack::Made;
use crate::record::{Kind, Moment, NewEntry};
use crate::seal::{self, Seal};
use crate::site::{self, RecordDays, RecordPage, SealGiven};
use calc::trend::Trends;
use serde::Serialize;
use serde_json::json;
use std::path::PathBuf;
use tauri::State;

/// A pack that was made.
#[derive(Debug, Serialize)]
pub struct Packed {
    path: PathBuf,
    /// Size in bytes.
    bytes: u64,
    /// Number of files in it.
    files: usize,
    /// Code of the last seal.
    seal: Option<String>,
    /// Photos that are no longer here as they were taken in, in words.
    missing: Vec<String>,
    /// Number of photos that were not chosen.
    not_chosen: usize,
}

impl From<Made> for Packed {
    fn from(made: Made) -> Self {
        Self {
            path: made.path,
            bytes: made.bytes,
            files: made.files,
            seal: made.seal,
            missing: made.missing,
            not_chosen: made.not_chosen,
        }
    }
}

/// Adds a note.
#[tauri::command(async)]
pub fn note_add(desk: State<'_, Desk>, id: String, text: String) -> Answer<Written> {
    if text.trim().is_empty() {
        return Err(Failure::new("note_empty", "There is nothing in the note yet."));
    }
    desk.at(&id, |store| {
        let note = NewEntry::new(Kind::Note, json!({ "text": text.trim() }));
        let entry = store.write(|gate| gate.append(Moment::now(), note))?;
        Ok::<_, Failure>(Written { entry: entry.hash })
    })
}

/// A page of the record, newest first.
#[tauri::command(async)]
pub fn record(desk: State<'_, Desk>, id: String, before: Option<i64>, limit: u32) -> Answer<RecordPage> {
    desk.at(&id, |store| site::record_page(store, before, limit, Moment::now()))
}

/// The curves of take-up, cracks and leans.
#[tauri::command(async)]
pub fn curves(desk: State<'_, Desk>, id: String) -> Answer<Trends> {
    desk.at(&id, |store| site::curves(store))
}

/// The days of the record, newest first.
#[tauri::command(async)]
pub fn record_days(desk: State<'_, Desk>, id: String) -> Answer<RecordDays> {
    desk.at(&id, |store| site::record_days(store, Moment::now()))
}

/// The seals that were given, newest first.
#[tauri::command(async)]
pub fn seals(desk: State<'_, Desk>, id: String) -> Answer<Vec<SealGiven>> {
    desk.at(&id, |store| site::seals(store))
}

/// Seals what the job holds now.
#[tauri::command(async)]
pub fn seal_give(desk: State<'_, Desk>, id: String) -> Answer<Seal> {
    desk.at(&id, |store| Ok(seal::give(store, Moment::now())?))
}

/// Makes the pack.
#[tauri::command(async)]
pub fn pack_make(desk: State<'_, Desk>, id: String) -> Answer<Packed> {
    let folder = desk.papers()?;
    let made = desk.at(&id, |store| site::pack(store, &folder, Moment::now()))?;
    Ok(made.into())
}
