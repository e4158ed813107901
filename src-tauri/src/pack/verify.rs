//! Checking a pack. Whoever hands it over is not believed: memory is bounded, names are checked before anything is read.

use std::collections::{BTreeMap, HashSet};
use std::fs::File;
use std::io::{BufReader, Read, Seek, SeekFrom};
use std::path::Path;

use uuid::Uuid;

use crate::photos::BYTE_LIMIT;
use crate::record::Entry;
use crate::seal::{self, SealCode};

use super::checks::{check_record, check_seal, check_sums, expected_files, record_of};
use super::container::{Content, Listed, Member, data_start, directory, local_header, read_directory, read_member};
use super::error::file;
use super::make::{REPORT, REPORT_LIMIT};
use super::{Answer, PackError, Verdict, page, record_json, rounds, sums};

/// Largest list of checksums read, bytes.
const SUMS_LIMIT: u64 = 16 * 1024 * 1024;

/// All files together may hold this many times the size of the pack, and [`SPARE`] more; photos hardly shrink.
const GROWTH: u64 = 20;

/// Bytes all files together may always hold.
const SPARE: u64 = 256 * 1024 * 1024;

/// Most places told.
const PLACES: usize = 50;

/// Everything read from a pack.
struct Unpacked {
    listed: Vec<Listed>,
    contents: BTreeMap<String, Content>,
}

/// A pack that was checked, with what whoever takes it in needs.
pub(super) struct Checked {
    pub(super) answer: Answer,
    /// The job and its entries in fold order, where they could be read.
    pub(super) record: Option<(Uuid, Vec<Entry>)>,
    /// The lines of the directory.
    pub(super) listed: Vec<Listed>,
}

/// Checks the pack at `path` and, if `code` is given, that a seal it holds gives that code.
///
/// # Errors
///
/// [`PackError::File`] if the file cannot be opened, [`PackError::Seal`] if the code cannot be read. Whatever is wrong
/// with the pack itself is an answer.
pub fn verify(path: &Path, code: Option<&str>) -> Result<Answer, PackError> {
    let code = code.map(seal::parse).transpose()?;
    let mut pack = BufReader::new(File::open(path).map_err(file("Open the pack", path))?);
    Ok(check(&mut pack, code.as_ref()).answer)
}

/// As [`verify`], on bytes that are already open.
///
/// # Errors
///
/// [`PackError::Seal`] if the code cannot be read.
pub fn verify_in(pack: &mut (impl Read + Seek), code: Option<&str>) -> Result<Answer, PackError> {
    let code = code.map(seal::parse).transpose()?;
    Ok(check(pack, code.as_ref()).answer)
}

/// Checks an open pack.
pub(super) fn check(pack: &mut (impl Read + Seek), code: Option<&SealCode>) -> Checked {
    let (mut places, mut notes, mut form) = (Vec::new(), Vec::new(), None);
    let read = match read_all(pack, &mut places) {
        Ok(read) => read,
        Err(what) => {
            let answer = Answer {
                verdict: Verdict::Changed,
                places: vec![format!("the file: {what}")],
                notes,
                seal: None,
            };
            return Checked {
                answer,
                record: None,
                listed: Vec::new(),
            };
        }
    };
    check_sums(&read.contents, &mut places);
    let record = record_of(&read.contents);
    let expected = match &record {
        Ok((job, entries)) => {
            check_record(*job, entries, &read.contents, &mut places, &mut notes);
            if let Some(code) = code {
                form = check_seal(code, *job, entries, &mut places, &mut notes);
            }
            expected_files(entries)
        }
        Err(what) => {
            places.push(format!("{}: {what}", record_json::NAME));
            Vec::new()
        }
    };
    places.truncate(PLACES);
    let verdict = if !places.is_empty() {
        Verdict::Changed
    } else if as_written(pack, &read, &expected) {
        Verdict::Intact
    } else {
        Verdict::ContentsIntact
    };
    Checked {
        answer: Answer {
            verdict,
            places,
            notes,
            seal: form,
        },
        record: record.ok(),
        listed: read.listed,
    }
}

/// Reads the directory and every file. Files that cannot be read are told in `places`.
fn read_all(pack: &mut (impl Read + Seek), places: &mut Vec<String>) -> Result<Unpacked, String> {
    let length = pack.seek(SeekFrom::End(0)).map_err(|why| why.to_string())?;
    let listed = read_directory(pack)?;
    let total = listed.iter().fold(0_u64, |sum, one| sum.saturating_add(one.size));
    if total > length.saturating_mul(GROWTH).saturating_add(SPARE) {
        return Err(format!(
            "its files would take {total} bytes, far more than a pack of {length}"
        ));
    }
    let mut contents = BTreeMap::new();
    let mut names = HashSet::new();
    for one in &listed {
        // Some programs list the folder as well; it holds nothing.
        if one.name == "photos/" && one.size == 0 {
            continue;
        }
        if !safe_name(&one.name) {
            places.push(format!("{:?}: a name that has no place in a pack", shown(&one.name)));
        } else if !names.insert(one.name.to_lowercase()) {
            places.push(format!("{}: this name stands twice", shown(&one.name)));
        } else {
            let (keep, limit) = limit_of(&one.name);
            match read_member(pack, one, keep, limit) {
                Ok(content) => {
                    contents.insert(one.name.clone(), content);
                }
                Err(what) => places.push(format!("{}: {what}", shown(&one.name))),
            }
        }
    }
    Ok(Unpacked { listed, contents })
}

/// Whether a name could have been written by a pack at all: known ones, and plain ones under `photos/`.
fn safe_name(name: &str) -> bool {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || letter == '-' || letter == '.';
    match name.strip_prefix("photos/") {
        Some(photo) => !photo.is_empty() && photo.len() < 200 && !photo.starts_with('.') && photo.chars().all(plain),
        None => !name.is_empty() && name.len() < 200 && !name.starts_with('.') && name.chars().all(plain),
    }
}

/// Whether a file's bytes are kept while checking, and the most it can have.
fn limit_of(name: &str) -> (bool, u64) {
    match name {
        record_json::NAME | rounds::NAME => (true, record_json::LIMIT),
        page::NAME => (true, page::LIMIT),
        sums::NAME => (true, SUMS_LIMIT),
        REPORT => (false, REPORT_LIMIT),
        _ => (false, BYTE_LIMIT),
    }
}

/// Whether every byte is as written: headers and directory are made again from the contents and compared.
fn as_written(pack: &mut (impl Read + Seek), read: &Unpacked, expected: &[String]) -> bool {
    let mut written = || -> Option<bool> {
        let mut members: Vec<Member> = Vec::new();
        let mut at = 0_u64;
        for (name, listed) in expected.iter().zip(&read.listed) {
            let content = read.contents.get(name)?;
            let member = Member {
                name: name.clone(),
                size: content.size,
                crc: content.crc,
                offset: at,
            };
            let header = local_header(&member);
            let start = at + u64::try_from(header.len()).ok()?;
            let here = *name == listed.name && listed.offset == at && !listed.compressed;
            if !here || data_start(pack, listed).ok()? != start || bytes_at(pack, at, header.len())? != header {
                return Some(false);
            }
            at = start + content.size;
            members.push(member);
        }
        let rest = directory(&members, at);
        let length = pack.seek(SeekFrom::End(0)).ok()?;
        let whole = members.len() == expected.len() && members.len() == read.listed.len();
        Some(whole && length == at + u64::try_from(rest.len()).ok()? && bytes_at(pack, at, rest.len())? == rest)
    };
    written().unwrap_or(false)
}

fn bytes_at(pack: &mut (impl Read + Seek), at: u64, count: usize) -> Option<Vec<u8>> {
    pack.seek(SeekFrom::Start(at)).ok()?;
    let mut bytes = vec![0; count];
    pack.read_exact(&mut bytes).ok()?;
    Some(bytes)
}

/// A name from a file of unknown origin, fit to be shown.
pub(super) fn shown(text: &str) -> String {
    text.chars().take(120).flat_map(char::escape_default).collect()
}
