//! The record as its screen shows it: entries newest first, each with its photos.

use super::correct::keys;
use super::days::{DayRun, runs};
use super::held::missing_in_outline;
use super::words;
use crate::failure::Answer;
use crate::photos::{self, Photo};
use crate::record::{Entry, Hash, Kind, Moment, Store, clock_moves};
use serde::Serialize;
use serde_json::Value;
use std::collections::HashMap;
use uuid::Uuid;

/// The kinds of entries that say from when until when the wall was held.
const HELD: [Kind; 4] = [Kind::RoundDone, Kind::Permit, Kind::LetDown, Kind::JobClosed];

/// Most entries of one page; a phone draws no more at once anyway.
const PAGE_LIMIT: u32 = 200;

/// Most photos of one answer.
const PHOTO_LIMIT: u32 = 500;

/// A photo with the addresses of its pictures.
#[derive(Clone, Debug, Serialize)]
pub struct PhotoLine {
    /// The photo.
    #[serde(flatten)]
    pub photo: Photo,
    /// Address of the small picture.
    pub thumb_url: String,
    /// Address of the picture to look at.
    pub view_url: String,
}

impl PhotoLine {
    /// Adds the addresses, which this system's web view reaches in its own way.
    #[must_use]
    pub fn new(job: Uuid, photo: Photo) -> Self {
        let base = if cfg!(any(windows, target_os = "android")) {
            "https://photo.localhost"
        } else {
            "photo://localhost"
        };
        let url = |size: &str| format!("{base}/{job}/{}/{size}", photo.sha);
        Self {
            thumb_url: url("thumb"),
            view_url: url("view"),
            photo,
        }
    }
}

/// One entry.
#[derive(Clone, Debug, Serialize)]
pub struct RecordLine {
    /// Place in the record, from 1.
    pub position: i64,
    /// The device that wrote it.
    pub device: Uuid,
    /// Number in the device's chain.
    pub seq: i64,
    /// When, as RFC 3339.
    pub at: String,
    /// Minutes that the local clock was ahead of UTC.
    pub offset: i32,
    /// What it records, as a word.
    pub kind: &'static str,
    /// What it records, as a heading.
    pub title: &'static str,
    /// What it says, in one sentence.
    pub words: String,
    /// All of it.
    pub body: Value,
    /// The entry it corrects.
    pub corrects: Option<Hash>,
    /// The last entry that corrects it.
    pub corrected_by: Option<Hash>,
    /// What the entry that it corrects said.
    pub was: Option<Said>,
    /// What its last correction says.
    pub now: Option<Said>,
    /// Whose name stands under it.
    pub by: Option<String>,
    /// What may be corrected in it, by key.
    pub may: &'static [&'static str],
    /// The phone that wrote it, in words; `None` for this one.
    pub phone: Option<String>,
    /// That the phone's clock was moved before it, in words.
    pub clock: Option<String>,
    /// Its photos.
    pub photos: Vec<PhotoLine>,
    /// Its hash.
    pub hash: Hash,
}

/// What another entry says.
#[derive(Clone, Debug, Serialize)]
pub struct Said {
    /// That entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// In one sentence.
    pub words: String,
    /// All of it.
    pub body: Value,
}

/// A day without a round.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Gap {
    /// The date, as `2026-03-02`.
    pub day: String,
}

/// A page of the record.
#[derive(Clone, Debug, Serialize)]
pub struct RecordPage {
    /// Entries, newest first.
    pub entries: Vec<RecordLine>,
    /// Whether older ones follow.
    pub more: bool,
    /// Days without a round while the wall was held.
    pub gaps: Vec<Gap>,
}

/// The days of the whole record, without what its entries say.
#[derive(Clone, Debug, Serialize)]
pub struct RecordDays {
    /// Days, newest first.
    pub days: Vec<DayRun>,
    /// Number of entries.
    pub entries: usize,
    /// Other phones that wrote into it, in words.
    pub phones: Vec<String>,
}

/// Reads the days of the record, so that a screen can lay the whole of it out and read only what is looked at.
///
/// # Errors
///
/// What the record said.
pub fn record_days(store: &Store, today: Moment) -> Answer<RecordDays> {
    let all = store.outline()?;
    let mut phones: Vec<String> = all.iter().filter_map(|entry| phone(store, entry)).collect();
    phones.sort_unstable();
    phones.dedup();
    Ok(RecordDays {
        days: runs(&all, &missing_in_outline(store, &all, today)?),
        entries: all.len(),
        phones,
    })
}

/// Reads a page: at most `limit` entries before the position `before`, or the newest.
///
/// # Errors
///
/// What the record said.
pub fn record_page(store: &Store, before: Option<i64>, limit: u32, today: Moment) -> Answer<RecordPage> {
    let limit = limit.clamp(1, PAGE_LIMIT);
    let mut entries = store.entries(before, limit + 1)?;
    let more = entries.len() > limit as usize;
    entries.truncate(limit as usize);
    let photos: Vec<PhotoLine> = photos::taken_in(store, &entries)?
        .into_iter()
        .map(|photo| PhotoLine::new(store.job(), photo))
        .collect();
    let gaps = missing_in_outline(store, &store.outline_of(&HELD)?, today)?;
    let moved: HashMap<Hash, String> = clock_moves(&store.with_those_before(&entries)?)
        .iter()
        .map(|moved| (moved.entry, moved.words()))
        .collect();
    let corrected = last_corrections(&store.corrections()?);
    let lined = |entry: Entry| -> Answer<RecordLine> {
        let corrected_by = corrected.get(&entry.hash).copied();
        let was = said(store, entry.corrects)?;
        let now = said(store, corrected_by)?;
        Ok(RecordLine {
            clock: moved.get(&entry.hash).cloned(),
            phone: phone(store, &entry),
            corrected_by,
            was,
            now,
            ..line(entry, &photos)
        })
    };
    Ok(RecordPage {
        entries: entries.into_iter().map(lined).collect::<Answer<_>>()?,
        more,
        gaps: gaps.into_iter().map(|day| Gap { day: day.to_string() }).collect(),
    })
}

/// For each entry that was corrected the last correction of it, also where that corrects a correction. In fold order the
/// later one stands.
fn last_corrections(all: &[Entry]) -> HashMap<Hash, Hash> {
    let mut roots: HashMap<Hash, Hash> = HashMap::new();
    let mut last = HashMap::new();
    for entry in all {
        let Some(old) = entry.corrects else { continue };
        let root = roots.get(&old).copied().unwrap_or(old);
        roots.insert(entry.hash, root);
        last.insert(root, entry.hash);
    }
    // A correction that was corrected again points on as well.
    let between: Vec<(Hash, Hash)> = roots
        .iter()
        .filter_map(|(between, root)| Some((*between, *last.get(root)?)))
        .filter(|(between, newest)| between != newest)
        .collect();
    last.extend(between);
    last
}

fn said(store: &Store, hash: Option<Hash>) -> Answer<Option<Said>> {
    let Some(hash) = hash else { return Ok(None) };
    Ok(store.entry(hash)?.map(|entry| Said {
        entry: hash,
        at: entry.moment.rfc3339(),
        words: words(&entry),
        body: entry.body,
    }))
}

/// The phone that wrote an entry, where it is not this one: the start of its id, as the pack writes it too.
fn phone(store: &Store, entry: &Entry) -> Option<String> {
    (entry.device != store.device()).then(|| entry.device.to_string().chars().take(8).collect())
}

/// Every photo of a job, oldest first.
///
/// # Errors
///
/// What the record said.
pub fn photo_lines(store: &Store) -> Answer<Vec<PhotoLine>> {
    Ok(photos::list(store)?
        .into_iter()
        .map(|photo| PhotoLine::new(store.job(), photo))
        .collect())
}

/// At most `limit` photos, newest first; with `before`, those that were added before that entry.
///
/// # Errors
///
/// What the record said.
pub fn photo_page(store: &Store, before: Option<(Uuid, i64)>, limit: u32) -> Answer<Vec<PhotoLine>> {
    let page = photos::page(store, before, limit.min(PHOTO_LIMIT))?;
    Ok(page
        .into_iter()
        .map(|photo| PhotoLine::new(store.job(), photo))
        .collect())
}

fn line(entry: Entry, photos: &[PhotoLine]) -> RecordLine {
    let own = photos
        .iter()
        .filter(|line| line.photo.entry.device == entry.device && line.photo.entry.seq == entry.seq);
    RecordLine {
        position: entry.position,
        device: entry.device,
        seq: entry.seq,
        at: entry.moment.rfc3339(),
        offset: entry.moment.offset_min,
        kind: entry.kind.as_str(),
        title: entry.kind.title(),
        words: words(&entry),
        corrected_by: None,
        was: None,
        now: None,
        by: super::signed_by(&entry).map(str::to_owned),
        may: keys(entry.kind),
        phone: None,
        clock: None,
        photos: own.cloned().collect(),
        body: entry.body,
        corrects: entry.corrects,
        hash: entry.hash,
    }
}
