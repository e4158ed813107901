//! Making a pack.

use std::collections::HashMap;
use std::fs::{self, File};
use std::io::{BufWriter, Read};
use std::path::{Path, PathBuf};

use serde_json::json;
use sha2::{Digest, Sha256};

use crate::record::{Disk, Entry, Hash, Kind, Moment, NewEntry, Store, SystemDisk};
use crate::seal;

use super::container::Writer;
use super::error::file;
use super::names::{photo_files, plain};
use super::{PackError, record_json, rounds, sums};

/// Name of the report in the pack.
pub(super) const REPORT: &str = "report.pdf";

/// Largest report, bytes.
pub(super) const REPORT_LIMIT: u64 = 2 * 1024 * 1024 * 1024;

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
    /// The entry that says it was made.
    pub entry: Hash,
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
    report: impl FnOnce(&Store) -> Result<Vec<u8>, String>,
) -> Result<Made, PackError> {
    let report = report(store).map_err(|what| PackError::Report { what })?;
    within("The report", len(&report), REPORT_LIMIT)?;
    let (photos, missing) = measure_photos(store)?;
    let body = json!({
        "caution": caution,
        "missing": missing.iter().map(|(sha, why)| json!({"sha256": sha, "why": why})).collect::<Vec<_>>(),
        "report_sha256": Hash::of(&report),
    });
    let entry = store.write(|gate| gate.append(moment, NewEntry::new(Kind::PackMade, body)))?;
    let entries = store.all_entries()?;
    let record = record_json::build(store.job(), &entries)?;
    within("The record", len(&record), record_json::LIMIT)?;

    fs::create_dir_all(folder).map_err(file("Make the folder for packs", folder))?;
    let path = folder.join(file_name(store, &entry, moment)?);
    let temporary = path.with_extension("part");
    let written = write(
        store,
        &temporary,
        &report,
        &record,
        &rounds::build(caution, &entries),
        &photos,
    );
    if written.is_err() {
        // The failure itself is what is told; a leftover is overwritten next time.
        let _ignored = fs::remove_file(&temporary);
    }
    let (bytes, files) = written?;
    fs::rename(&temporary, &path).map_err(file("Name the pack", &path))?;
    SystemDisk.sync_folder(folder).map_err(file("Keep the pack", folder))?;
    Ok(Made {
        path,
        bytes,
        files,
        seal: seal::last(store)?,
        missing: missing
            .into_iter()
            .map(|(sha, why)| format!("photo {}: {why}", sha.short()))
            .collect(),
        entry: entry.hash,
    })
}

/// Writes the members in their order; returns the length and the number of files.
fn write(
    store: &Store,
    path: &Path,
    report: &[u8],
    record: &[u8],
    rounds: &[u8],
    photos: &[(String, Measured)],
) -> Result<(u64, usize), PackError> {
    let mut zip = Writer::new(BufWriter::new(
        File::create(path).map_err(file("Begin the pack", path))?,
    ));
    let mut listed: Vec<(String, Hash)> = Vec::new();
    let mut small = |zip: &mut Writer<_>, name: &str, bytes: &[u8]| {
        listed.push((name.to_owned(), Hash::of(bytes)));
        zip.add(name, len(bytes), crc32fast::hash(bytes), bytes)
            .map_err(file("Write the pack", path))
    };
    small(&mut zip, REPORT, report)?;
    let mut photo_sums = Vec::new();
    for (name, photo) in photos {
        let original = store.photo_folder().join(photo.sha.to_string());
        let source = File::open(&original).map_err(file("Open a photo", &original))?;
        zip.add(name, photo.size, photo.crc, source)
            .map_err(file("Copy a photo", &original))?;
        photo_sums.push((name.clone(), photo.sha));
    }
    small(&mut zip, record_json::NAME, record)?;
    small(&mut zip, rounds::NAME, rounds)?;
    listed.extend(photo_sums);
    listed.sort_unstable();
    let list = sums::build(listed.iter().map(|(name, sha)| (name.as_str(), *sha)));
    zip.add(sums::NAME, len(&list), crc32fast::hash(&list), list.as_slice())
        .map_err(file("Write the pack", path))?;
    let (out, bytes) = zip.finish().map_err(file("End the pack", path))?;
    let out = out
        .into_inner()
        .map_err(|why| file("End the pack", path)(why.into_error()))?;
    out.sync_all().map_err(file("Keep the pack", path))?;
    Ok((bytes, listed.len() + 1))
}

/// The originals as they lie on the phone, and those that do not, with the reason.
#[expect(clippy::type_complexity, reason = "two lists that are taken apart at once")]
fn measure_photos(store: &Store) -> Result<(Vec<(String, Measured)>, Vec<(Hash, &'static str)>), PackError> {
    let (mut there, mut missing) = (Vec::new(), Vec::new());
    for photo in photo_files(&store.all_entries()?) {
        let path = store.photo_folder().join(photo.sha.to_string());
        match File::open(&path).and_then(measure) {
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
