//! Making a pack.

use std::collections::HashMap;
use std::fs::{self, File};
use std::io::{BufWriter, Read, Write};
use std::path::{Path, PathBuf};

use serde_json::json;
use sha2::{Digest, Sha256};

use crate::pieces::Pieces;
use crate::record::{Disk, Entry, Hash, Kind, Moment, NewEntry, Room, Store, SystemDisk, free_bytes};
use crate::seal;

use super::container::Writer;
use super::error::file;
use super::names::{photo_files, plain};
use super::{Choice, PackError, Watch, page, record_json, rounds, sums};

/// Name of the report in the pack.
pub(super) const REPORT: &str = "report.pdf";

/// Largest report, bytes.
pub(super) const REPORT_LIMIT: u64 = 2 * 1024 * 1024 * 1024;

/// Key of the entry "pack made": the hash over all files but the record and the list.
pub(super) const FILES: &str = "files_sha256";

/// Domain tag of that hash.
const FILES_TAG: &str = "upstay files 1";

/// A pack just made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Made {
    /// The file.
    pub path: PathBuf,
    /// Its size, bytes.
    pub bytes: u64,
    /// Number of files in it.
    pub files: usize,
    /// Code of the job's last seal.
    pub seal: Option<String>,
    /// Photos that were not on the phone as taken in, in words.
    pub missing: Vec<String>,
    /// Number of photos that were not chosen.
    pub not_chosen: usize,
    /// The entry that says it was made.
    pub entry: Hash,
}

/// What goes into a pack, and who watches it being made.
#[derive(Clone, Copy, Debug)]
pub struct How<'a> {
    /// Which photos.
    pub choice: &'a Choice,
    /// How far it is, and the wish to stop.
    pub watch: &'a Watch,
}

/// Size and checksums of a file that goes into the pack.
struct Measured {
    size: u64,
    crc: u32,
    sha: Hash,
}

/// Makes a pack of the whole job in `folder`. `report` makes the PDF from the record as it stands; then the entry "pack
/// made" is added, and then everything is written, so that the pack holds that entry too. `caution` opens `rounds.csv`.
///
/// A photo that is missing on the phone, or changed there, does not keep the pack from being made: the entry names it.
///
/// # Errors
///
/// [`PackError`] if the report fails, a file cannot be read or written, or the record is too large.
pub fn make(
    store: &mut Store,
    folder: &Path,
    caution: &str,
    moment: Moment,
    report: impl FnOnce(&Store) -> Result<Pieces, String>,
) -> Result<Made, PackError> {
    make_with(&SystemDisk, store, folder, &Choice::default(), caution, moment, report)
}

/// As [`make`], with the photos of `choice` only, on a file system of the caller's.
///
/// # Errors
///
/// As [`make`].
pub fn make_with(
    disk: &dyn Disk,
    store: &mut Store,
    folder: &Path,
    choice: &Choice,
    caution: &str,
    moment: Moment,
    report: impl FnOnce(&Store) -> Result<Pieces, String>,
) -> Result<Made, PackError> {
    let watch = &Watch::default();
    make_watched(disk, store, folder, How { choice, watch }, caution, moment, report)
}

/// As [`make_with`], under watch. One that is stopped leaves no file; if its entry stands already, a note says that it was
/// not finished.
///
/// # Errors
///
/// As [`make`], and [`PackError::Stopped`].
pub fn make_watched(
    disk: &dyn Disk,
    store: &mut Store,
    folder: &Path,
    how: How<'_>,
    caution: &str,
    moment: Moment,
    report: impl FnOnce(&Store) -> Result<Pieces, String>,
) -> Result<Made, PackError> {
    let made = made(disk, store, folder, how, caution, moment, report);
    // Once somebody wants it stopped, whatever ended it is told as that.
    made.map_err(|why| if how.watch.stopped() { PackError::Stopped } else { why })
}

fn made(
    disk: &dyn Disk,
    store: &mut Store,
    folder: &Path,
    how: How<'_>,
    caution: &str,
    moment: Moment,
    report: impl FnOnce(&Store) -> Result<Pieces, String>,
) -> Result<Made, PackError> {
    let report = report(store).map_err(|what| PackError::Report { what })?;
    within("The report", report.bytes(), REPORT_LIMIT)?;
    let unread = |why: std::io::Error| PackError::Report { what: why.to_string() };
    let measured = measure(report.reader()).map_err(unread)?;
    let before = store.all_entries()?;
    let (photos, missing) = measure_photos(store, &before, how)?;
    if how.watch.stopped() {
        return Err(PackError::Stopped);
    }
    disk.make_folder(folder)
        .map_err(file("Make the folder for packs", folder))?;
    let size = photos.iter().fold(measured.size, |sum, (_, photo)| sum + photo.size);
    if let Some(what) = Room::lacking(free_bytes(folder), size) {
        return Err(PackError::NoRoom { what });
    }
    // Rounds are read from the rounds alone, so the entry below changes nothing in them.
    let table = rounds::build(caution, &before, moment);
    drop(before);
    let page = page::page();
    let small = [(rounds::NAME, table.as_slice()), (page::NAME, page.as_bytes())];
    let small = small.iter().map(|(name, bytes)| (*name, Hash::of(bytes)));
    let named = small.chain([(REPORT, measured.sha)]);
    let photo_names = photos.iter().map(|(name, photo)| (name.as_str(), photo.sha));
    let body = json!({
        "caution": caution,
        "missing": missing.iter().map(|(sha, why)| json!({"sha256": sha, "why": why})).collect::<Vec<_>>(),
        "report_sha256": measured.sha,
        FILES: files_hash(named.chain(photo_names)),
    });
    let entry = store.write(|gate| gate.append(moment, NewEntry::new(Kind::PackMade, body)))?;
    let entries = store.all_entries()?;
    let record = record_json::build(store.job(), &entries)?;
    within("The record", len(&record), record_json::LIMIT)?;

    let path = folder.join(file_name(store, &entry, moment)?);
    let temporary = path.with_extension("part");
    let parts = Parts {
        report: (&report, &measured),
        record: &record,
        rounds: &table,
        photos: &photos,
        watch: how.watch,
    };
    let written = write(disk, store, &temporary, &parts).and_then(|written| {
        disk.sync(&temporary).map_err(file("Keep the pack", &path))?;
        disk.rename(&temporary, &path).map_err(file("Name the pack", &path))?;
        Ok(written)
    });
    if written.is_err() {
        // The failure itself is what is told; a leftover is overwritten next time.
        let _ignored = fs::remove_file(&temporary);
        // The entry above says that a pack was made, and the record takes nothing back.
        let text = format!("The pack of entry {} was not finished.", entry.seq);
        let note = NewEntry::new(Kind::Note, json!({ "text": text }));
        let _told = store.write(|gate| gate.append(moment, note));
    }
    let (bytes, files) = written?;
    disk.sync_folder(folder).map_err(file("Keep the pack", folder))?;
    Ok(Made {
        path,
        bytes,
        files,
        seal: seal::last(store)?,
        not_chosen: missing.iter().filter(|(_, why)| *why == NOT_CHOSEN).count(),
        missing: missing
            .into_iter()
            .filter(|(_, why)| *why != NOT_CHOSEN)
            .map(|(sha, why)| format!("photo {}: {why}", sha.short()))
            .collect(),
        entry: entry.hash,
    })
}

/// What a pack is written from.
struct Parts<'a> {
    report: (&'a Pieces, &'a Measured),
    record: &'a [u8],
    rounds: &'a [u8],
    photos: &'a [(String, Measured)],
    watch: &'a Watch,
}

/// Writes the members in their order; returns the length and the number of files.
fn write(disk: &dyn Disk, store: &Store, path: &Path, parts: &Parts<'_>) -> Result<(u64, usize), PackError> {
    let out = disk.create(path).map_err(file("Begin the pack", path))?;
    let mut zip = Writer::new(BufWriter::with_capacity(256 * 1024, out));
    let mut listed: Vec<(String, Hash)> = Vec::new();
    let mut small = |zip: &mut Writer<_>, name: &str, bytes: &[u8]| {
        listed.push((name.to_owned(), Hash::of(bytes)));
        zip.add(name, len(bytes), crc32fast::hash(bytes), bytes)
            .map_err(file("Write the pack", path))
    };
    let (report, measured) = parts.report;
    zip.add(REPORT, measured.size, measured.crc, report.reader())
        .map_err(file("Write the pack", path))?;
    let mut large = vec![(REPORT.to_owned(), measured.sha)];
    for (name, photo) in parts.photos {
        let original = store.photo_folder().join(photo.sha.to_string());
        let source = File::open(&original).map_err(file("Open a photo", &original))?;
        zip.add(name, photo.size, photo.crc, parts.watch.over(source))
            .map_err(file("Copy a photo", &original))?;
        large.push((name.clone(), photo.sha));
    }
    small(&mut zip, record_json::NAME, parts.record)?;
    small(&mut zip, rounds::NAME, parts.rounds)?;
    small(&mut zip, page::NAME, page::page().as_bytes())?;
    listed.extend(large);
    listed.sort_unstable();
    let list = sums::build(listed.iter().map(|(name, sha)| (name.as_str(), *sha)));
    zip.add(sums::NAME, len(&list), crc32fast::hash(&list), list.as_slice())
        .map_err(file("Write the pack", path))?;
    let (mut out, bytes) = zip.finish().map_err(file("End the pack", path))?;
    out.flush().map_err(file("End the pack", path))?;
    Ok((bytes, listed.len() + 1))
}

/// One hash for all files of a pack but its record and its list, in the lines of the list, sorted by name.
pub(super) fn files_hash<'a>(files: impl Iterator<Item = (&'a str, Hash)>) -> Hash {
    let mut files: Vec<(&str, Hash)> = files
        .filter(|(name, _)| ![record_json::NAME, sums::NAME].contains(name))
        .collect();
    files.sort_unstable();
    Hash::tagged(FILES_TAG, &String::from_utf8_lossy(&sums::build(files)))
}

/// The originals as they lie on the phone, and those that do not, with the reason.
#[expect(clippy::type_complexity, reason = "two lists that are taken apart at once")]
fn measure_photos(
    store: &Store,
    entries: &[Entry],
    how: How<'_>,
) -> Result<(Vec<(String, Measured)>, Vec<(Hash, &'static str)>), PackError> {
    let (mut there, mut missing) = (Vec::new(), Vec::new());
    let chosen = how.choice.photos(entries);
    let files = photo_files(entries);
    let sizes = files.iter().filter(|photo| chosen.contains(&photo.sha)).map(|photo| {
        let about = fs::metadata(store.photo_folder().join(photo.sha.to_string()));
        about.map_or(0, |about| about.len())
    });
    how.watch.expect(2 * sizes.sum::<u64>());
    for photo in files {
        if how.watch.stopped() {
            break;
        }
        if !chosen.contains(&photo.sha) {
            missing.push((photo.sha, NOT_CHOSEN));
            continue;
        }
        let path = store.photo_folder().join(photo.sha.to_string());
        match File::open(&path).and_then(|file| measure(how.watch.over(file))) {
            Ok(measured) if measured.sha == photo.sha => there.push((photo.file, measured)),
            Ok(_) => missing.push((photo.sha, "changed on the phone")),
            Err(_) => missing.push((photo.sha, "missing on the phone")),
        }
    }
    Ok((there, missing))
}

fn measure(mut from: impl Read) -> std::io::Result<Measured> {
    let (mut sha, mut crc, mut size) = (Sha256::new(), crc32fast::Hasher::new(), 0_u64);
    let mut buffer = vec![0; 64 * 1024];
    loop {
        let count = from.read(&mut buffer)?;
        let Some(part) = buffer.get(..count).filter(|part| !part.is_empty()) else {
            break;
        };
        sha.update(part);
        crc.update(part);
        size += len(part);
    }
    Ok(Measured {
        size,
        crc: crc.finalize(),
        sha: Hash::from_bytes(sha.finalize().into()),
    })
}

/// Why a photo is not in a pack that was made of a choice.
pub(super) const NOT_CHOSEN: &str = "not chosen";

/// Photos a "pack made" entry says were not there.
pub(super) fn missing_in(entry: &Entry) -> HashMap<Hash, String> {
    let list = entry.body.get("missing").and_then(|list| list.as_array());
    let one = |item: &serde_json::Value| {
        Some((
            item.get("sha256")?.as_str()?.parse().ok()?,
            item.get("why")?.as_str()?.to_owned(),
        ))
    };
    list.into_iter().flatten().filter_map(one).collect()
}

fn file_name(store: &Store, entry: &Entry, moment: Moment) -> Result<String, PackError> {
    let info = store.info()?;
    let demo = if info.demo { "DEMO-" } else { "" };
    let date = moment
        .local_date()
        .map_or_else(|| "undated".to_owned(), |date| date.to_string());
    let hash: String = entry.hash.to_string().chars().take(6).collect();
    Ok(format!("{demo}{}-{date}-{hash}.zip", plain(&info.name)))
}

fn within(what: &str, bytes: u64, limit: u64) -> Result<(), PackError> {
    if bytes > limit {
        Err(PackError::TooLarge {
            what: what.to_owned(),
            bytes,
            limit,
        })
    } else {
        Ok(())
    }
}

fn len(bytes: &[u8]) -> u64 {
    u64::try_from(bytes.len()).unwrap_or(u64::MAX)
}
