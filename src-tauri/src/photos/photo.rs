//! A photo as the screens see it.

use std::collections::{HashMap, HashSet};
use std::fs;
use std::path::Path;

use serde::Serialize;
use serde_json::Value;
use uuid::Uuid;

use crate::record::{Added, Entry, Hash, Kind, Moment, PhotoRow, Store, corrected_bodies};

use super::error::file;
use super::format::State;
use super::{PhotoError, capture, view};

/// Names an entry.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct EntryRef {
    /// Device that wrote it.
    pub device: Uuid,
    /// Its number in that device's chain.
    pub seq: i64,
}

/// A photo as added once.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Photo {
    /// SHA-256 of the bytes as received.
    pub sha: Hash,
    /// Its first 12 hex digits.
    pub short: String,
    /// Name of the file as it came.
    pub name: String,
    /// What it shows.
    pub about: String,
    /// `group`, `portrait` or `detail`.
    pub kind: String,
    /// Capture time as RFC 3339, where known.
    pub at: Option<String>,
    /// Where the capture time comes from: `exif`, `phone` or `unknown`.
    pub source: String,
    /// Seconds from the capture to when it was added, by the phone's clock.
    pub difference_s: Option<i64>,
    /// Why its time deserves a second look, in words.
    pub mark: Option<String>,
    /// Width as stored, pixels.
    pub width: Option<i64>,
    /// Height as stored, pixels.
    pub height: Option<i64>,
    /// Whether it is shown a quarter turned, so that width and height change places.
    pub turned: bool,
    /// Size, bytes.
    pub bytes: i64,
    /// `jpeg`, `png`, `webp` or `heic`.
    pub format: String,
    /// Whether there is a picture to show.
    pub view: bool,
    /// Whether the file as it was taken in lies on this phone.
    pub here: bool,
    /// Why there is none, or what is wrong with it, in words.
    pub words: Option<String>,
    /// The entry that added it.
    pub entry: EntryRef,
}

/// Every photo as added, oldest first; what it shows as last corrected.
///
/// # Errors
///
/// What the record said.
pub fn list(store: &Store) -> Result<Vec<Photo>, PhotoError> {
    Ok(as_shown(store, store.photos_added()?, &corrected(store)?))
}

/// At most `limit` photos, newest first, what they show as last corrected; with `before`, those that were added before it.
///
/// # Errors
///
/// What the record said.
pub fn page(store: &Store, before: Option<(Uuid, i64)>, limit: u32) -> Result<Vec<Photo>, PhotoError> {
    Ok(as_shown(store, store.photo_page(before, limit)?, &corrected(store)?))
}

fn as_shown(store: &Store, added: Vec<Added>, bodies: &HashMap<Hash, Value>) -> Vec<Photo> {
    let one = |added: Added| photo_of(store.folder(), &shown(added.row, bodies.get(&added.entry)));
    added.into_iter().map(one).collect()
}

/// The bodies that corrections gave to photos, by the entries that added them.
fn corrected(store: &Store) -> Result<HashMap<Hash, Value>, PhotoError> {
    Ok(corrected_bodies(store.corrections_of(Kind::PhotoTaken)?))
}

/// A row with what its last correction says that it shows.
fn shown(mut row: PhotoRow, body: Option<&Value>) -> PhotoRow {
    for (key, field) in [("about", &mut row.about), ("kind", &mut row.kind)] {
        if let Some(text) = body.and_then(|body| text(body, key)) {
            text.clone_into(field);
        }
    }
    row
}

fn text<'a>(body: &'a Value, key: &str) -> Option<&'a str> {
    body.get(key).and_then(Value::as_str)
}

/// The photos that these entries added, each as it was taken in.
///
/// # Errors
///
/// What the record said.
pub fn taken_in(store: &Store, entries: &[Entry]) -> Result<Vec<Photo>, PhotoError> {
    let added = |entry: &&Entry| entry.kind == Kind::PhotoTaken && entry.corrects.is_none();
    let mut photos = Vec::new();
    for entry in entries.iter().filter(added) {
        let row = store.photo_by(entry.hash)?;
        photos.extend(row.map(|added| photo_of(store.folder(), &added.row)));
    }
    Ok(photos)
}

/// What is said of a photo whose file is gone.
const GONE: &str = "The file of this photo is not on this phone any more. Open a pack of this job to put it back.";

/// Photos that are kept in the folder but named by no entry: the app ended between the two. They can be taken in again
/// from where they lie.
///
/// # Errors
///
/// What the record or the folder said.
pub fn unnamed(store: &Store) -> Result<Vec<Hash>, PhotoError> {
    let named: HashSet<Hash> = store.photo_rows()?.into_iter().map(|row| row.sha).collect();
    let folder = store.photo_folder();
    let files = fs::read_dir(&folder).map_err(file("Read the folder of photos", &folder))?;
    let mut found: Vec<Hash> = files
        .filter_map(|kept| kept.ok()?.file_name().to_string_lossy().parse().ok())
        .filter(|sha| !named.contains(sha))
        .collect();
    found.sort_unstable();
    Ok(found)
}

/// Whether a photo is shown a quarter turned against how it is stored (EXIF 2.3, tag 0x0112, values 5 to 8).
pub(super) fn turned(row: &PhotoRow) -> bool {
    matches!(row.orientation, 5..=8)
}

/// The row of a photo as the screens see it.
pub(super) fn photo_of(folder: &Path, row: &PhotoRow) -> Photo {
    let taken = row.taken_utc_ms.zip(row.offset_min);
    let at = taken.map(|(utc_ms, offset_min)| {
        Moment {
            utc_ms,
            offset_min,
            boot_ms: None,
        }
        .rfc3339()
    });
    let unopened = view::refused(folder, row.sha);
    let here = folder.join("photos").join(row.sha.to_string()).is_file();
    let gone = (!here).then_some(GONE);
    let damaged = unopened.then(|| State::Damaged.as_str()).and_then(State::words);
    Photo {
        sha: row.sha,
        short: row.sha.short(),
        name: row.name.clone(),
        about: row.about.clone(),
        kind: row.kind.clone(),
        at: at.filter(|text| !text.is_empty()),
        source: row.source.clone(),
        difference_s: row.difference_s,
        mark: row
            .mark
            .as_deref()
            .and_then(|mark| capture::mark_words(mark, row.difference_s)),
        width: row.width,
        height: row.height,
        turned: turned(row),
        bytes: row.bytes,
        format: row.format.clone(),
        here,
        view: here && !unopened && !matches!(row.state.as_str(), "no_view_here" | "too_large"),
        words: gone.or_else(|| State::words(&row.state)).or(damaged).map(str::to_owned),
        entry: EntryRef {
            device: row.device,
            seq: row.seq,
        },
    }
}
