//! The checks of a pack's contents, once they are read: what is wrong is told as places, in words.

use std::collections::{BTreeMap, HashMap, HashSet};

use serde_json::Value;
use uuid::Uuid;

use crate::record::{Entry, Hash, Kind, chain_faults};
use crate::report;
use crate::seal::{self, SealCode};

use super::container::Content;
use super::make::{FILES, REPORT, files_hash, missing_in};
use super::names::photo_files;
use super::verify::shown;
use super::{SealForm, page, record_json, rounds, sums};

pub(super) fn bytes_of<'a>(contents: &'a BTreeMap<String, Content>, name: &str) -> Result<&'a [u8], String> {
    contents
        .get(name)
        .and_then(|content| content.bytes.as_deref())
        .ok_or_else(|| "it is missing".to_owned())
}

/// Every listed file is there with that hash, and nothing unlisted is.
pub(super) fn check_sums(contents: &BTreeMap<String, Content>, places: &mut Vec<String>) {
    let text = bytes_of(contents, sums::NAME)
        .and_then(|bytes| std::str::from_utf8(bytes).map_err(|_| "it is not text".to_owned()))
        .and_then(|text| sums::parse(text).map_err(|line| format!("it has a line that is none: {}", shown(&line))));
    let list = match text {
        Ok(list) => list,
        Err(what) => {
            places.push(format!("{}: {what}", sums::NAME));
            return;
        }
    };
    for (name, sha) in &list {
        match contents.get(name) {
            None => places.push(format!("{}: it is listed and missing", shown(name))),
            Some(content) if content.sha != *sha => places.push(format!("{}: its contents were changed", shown(name))),
            Some(_) => {}
        }
    }
    let known: HashSet<&String> = list.iter().map(|(name, _)| name).collect();
    for name in contents.keys().filter(|name| *name != sums::NAME) {
        if !known.contains(name) {
            places.push(format!("{}: it is not listed", shown(name)));
        }
    }
    // The list has one spelling, so a line that stands twice or in another order is a change too.
    let files = contents
        .iter()
        .filter(|(name, _)| *name != sums::NAME)
        .map(|(name, one)| (name.as_str(), one.sha));
    if places.is_empty() && bytes_of(contents, sums::NAME).ok() != Some(&sums::build(files)) {
        places.push(format!("{}: it is not spelt as a pack spells it", sums::NAME));
    }
}

pub(super) fn record_of(contents: &BTreeMap<String, Content>) -> Result<(Uuid, Vec<Entry>), String> {
    record_json::parse(bytes_of(contents, record_json::NAME)?)
}

/// The chains hold, and everything that follows from the entries is as they say.
pub(super) fn check_record(
    job: Uuid,
    entries: &[Entry],
    contents: &BTreeMap<String, Content>,
    places: &mut Vec<String>,
    notes: &mut Vec<String>,
) {
    for fault in chain_faults(job, entries) {
        places.push(format!(
            "{}: entry {} of {}: {}",
            record_json::NAME,
            fault.seq,
            fault.device,
            fault.what
        ));
    }
    if !entries.is_sorted_by_key(|entry| (entry.tick, entry.device.to_string(), entry.seq)) {
        places.push(format!("{}: its entries are out of order", record_json::NAME));
    }
    let rebuilt = record_json::build(job, entries).ok();
    if rebuilt.as_deref() != bytes_of(contents, record_json::NAME).ok() {
        places.push(format!("{}: it does not follow from its entries", record_json::NAME));
    }
    let Some(made) = entries.last().filter(|last| last.kind == Kind::PackMade) else {
        places.push(format!(
            "{}: it does not end with the pack being made",
            record_json::NAME
        ));
        return;
    };
    let text = |key: &str| made.body.get(key).and_then(Value::as_str).unwrap_or_default();
    match contents.get(REPORT) {
        None => places.push(format!("{REPORT}: it is missing")),
        Some(report) if report.sha.to_string() != text("report_sha256") => {
            places.push(format!("{REPORT}: it is not the report the record names"));
        }
        Some(_) => {}
    }
    if bytes_of(contents, rounds::NAME).ok() != Some(&rounds::build(text("caution"), entries, made.moment)) {
        places.push(format!("{}: it does not follow from the record", rounds::NAME));
    }
    let files = contents.iter().map(|(name, content)| (name.as_str(), content.sha));
    if files_hash(files).to_string() != text(FILES) {
        places.push(format!("{}: the files are not those the record names", sums::NAME));
    }
    if bytes_of(contents, page::NAME).is_ok_and(|bytes| bytes != page::page().as_bytes()) {
        notes.push(format!(
            "{}: it is the page of another version of the app; trust this answer, not that page",
            page::NAME
        ));
    }
    let missing = missing_in(made);
    for photo in photo_files(entries) {
        match (contents.get(&photo.file), missing.get(&photo.sha)) {
            (None, Some(why)) => notes.push(format!("{}: {why} when the pack was made", photo.file)),
            (None, None) => places.push(format!("{}: a photo the record names is missing", photo.file)),
            (Some(content), _) if content.sha != photo.sha => {
                places.push(format!("{}: it is not the photo the record names", photo.file));
            }
            (Some(_), _) => {}
        }
    }
    let expected: HashSet<String> = expected_files(entries).into_iter().collect();
    for name in contents.keys().filter(|name| !expected.contains(*name)) {
        places.push(format!("{}: the record does not name it", shown(name)));
    }
}

/// The files of a pack in the order they are written in.
pub(super) fn expected_files(entries: &[Entry]) -> Vec<String> {
    let missing = entries.last().map(missing_in).unwrap_or_default();
    let photos = photo_files(entries)
        .into_iter()
        .filter(|photo| !missing.contains_key(&photo.sha));
    let begin = std::iter::once(REPORT.to_owned()).chain(photos.map(|photo| photo.file));
    begin
        .chain([record_json::NAME, rounds::NAME, page::NAME, sums::NAME].map(str::to_owned))
        .collect()
}

/// Makes every stored seal again, and looks whether the chains contain the heads of those that give the code.
pub(super) fn check_seal(
    code: &SealCode,
    job: Uuid,
    entries: &[Entry],
    places: &mut Vec<String>,
    notes: &mut Vec<String>,
) -> Option<SealForm> {
    let known: HashMap<(Uuid, i64), Hash> = entries
        .iter()
        .map(|entry| ((entry.device, entry.seq), entry.hash))
        .collect();
    let lists = entries.iter().filter(|entry| entry.kind == Kind::SealGiven);
    let mut found = None;
    for (entry, heads) in lists.filter_map(|entry| Some((entry, seal::heads_in(&entry.body)?))) {
        if !seal::digest(job, &heads).is_ok_and(|digest| code.fits(digest)) {
            continue;
        }
        if heads.is_empty()
            || heads
                .iter()
                .any(|head| known.get(&(head.device, head.seq)) != Some(&head.hash))
        {
            places.push("seal: the record does not contain what was sealed".to_owned());
            return None;
        }
        let mut last: HashMap<Uuid, i64> = HashMap::new();
        for head in &heads {
            let seq = last.entry(head.device).or_insert(head.seq);
            *seq = head.seq.max(*seq);
        }
        let covered = |entry: &Entry| last.get(&entry.device).is_some_and(|seq| entry.seq <= *seq);
        let after = entries.iter().filter(|entry| !covered(entry)).count();
        notes.push(format!(
            "the seal was given {} and covers the entries and photos up to then; {after} entries came after it",
            report::when(&entry.moment.rfc3339())
        ));
        found = Some(match code {
            SealCode::Short(_) => SealForm::Short,
            SealCode::Full(_) => SealForm::Full,
        });
    }
    if found.is_none() {
        places.push("seal: no seal in this pack gives that code".to_owned());
    }
    found
}
