//! Reading a container that somebody else may have written: bounded memory, nothing believed twice.

use std::io::{self, Read, Seek, SeekFrom};

use flate2::read::DeflateDecoder;
use sha2::{Digest, Sha256};

use crate::record::Hash;

/// Most members listed (own judgement: a pack has one per photo and four more).
const MEMBERS: u64 = 100_000;

/// Largest directory read, bytes.
const DIRECTORY: u64 = 32 * 1024 * 1024;

/// One line of a directory.
#[derive(Clone, Debug)]
pub(in crate::pack) struct Listed {
    pub(in crate::pack) name: String,
    pub(in crate::pack) compressed: bool,
    pub(in crate::pack) stored_size: u64,
    pub(in crate::pack) size: u64,
    pub(in crate::pack) crc: u32,
    pub(in crate::pack) offset: u64,
}

/// What a member holds.
#[derive(Clone, Debug)]
pub(in crate::pack) struct Content {
    pub(in crate::pack) sha: Hash,
    pub(in crate::pack) crc: u32,
    pub(in crate::pack) size: u64,
    /// The bytes themselves, where they were asked for.
    pub(in crate::pack) bytes: Option<Vec<u8>>,
}

/// Reads the directory. A fault is told in words; nothing larger than the limits is held.
pub(in crate::pack) fn read_directory(file: &mut (impl Read + Seek)) -> Result<Vec<Listed>, String> {
    let length = file.seek(SeekFrom::End(0)).map_err(|why| why.to_string())?;
    let tail_at = length.saturating_sub(22 + 0xFFFF + 20);
    let tail = bytes_at(file, tail_at, length - tail_at)?;
    let end = (0..tail.len().saturating_sub(21))
        .rev()
        .find(|at| {
            tail.get(*at..*at + 4) == Some(b"PK\x05\x06")
                && field(&tail, at + 20, 2).is_some_and(|comment| to_usize(comment) == tail.len() - at - 22)
        })
        .ok_or("it is no ZIP file, or its end is missing")?;
    let short = |at, count| field(&tail, end + at, count).ok_or_else(|| "its end is cut short".to_owned());
    let (mut count, mut size, mut offset) = (short(10, 2)?, short(12, 4)?, short(16, 4)?);
    if let Some(locator) = end
        .checked_sub(20)
        .filter(|at| tail.get(*at..*at + 4) == Some(b"PK\x06\x07"))
    {
        let at = field(&tail, locator + 8, 8).ok_or("its end is cut short")?;
        let large = bytes_at(file, at, 56)?;
        if large.get(..4) != Some(b"PK\x06\x06") {
            return Err("its large-file record is not where it should be".to_owned());
        }
        let long = |at| field(&large, at, 8).ok_or_else(|| "its large-file record is cut short".to_owned());
        (count, size, offset) = (long(32)?, long(40)?, long(48)?);
    }
    if count > MEMBERS || size > DIRECTORY {
        return Err(format!(
            "it lists {count} files in {size} bytes, more than a pack can have"
        ));
    }
    let bytes = bytes_at(file, offset, size)?;
    let mut listed = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let (one, next) = line(&bytes, at).ok_or("its list of files is broken")?;
        listed.push(one);
        at = next;
    }
    if u64::try_from(listed.len()).ok() != Some(count) {
        return Err(format!("it says it has {count} files and lists {}", listed.len()));
    }
    no_overlap(&listed)?;
    Ok(listed)
}

/// Where the contents of a member begin; also checks that its own header bears the same name.
pub(in crate::pack) fn data_start(file: &mut (impl Read + Seek), listed: &Listed) -> Result<u64, String> {
    let header = bytes_at(file, listed.offset, 30)?;
    let (name, extra) = field(&header, 26, 2)
        .zip(field(&header, 28, 2))
        .ok_or("a file's header is cut short")?;
    if header.get(..4) != Some(b"PK\x03\x04") {
        return Err("its header is not where the list says".to_owned());
    }
    if bytes_at(file, listed.offset + 30, name)? != listed.name.as_bytes() {
        return Err("its header bears another name than the list".to_owned());
    }
    Ok(listed.offset + 30 + name + extra)
}

/// Reads one member through; keeps its bytes if `keep`. At most `limit` bytes are taken.
pub(in crate::pack) fn read_member(
    file: &mut (impl Read + Seek),
    listed: &Listed,
    keep: bool,
    limit: u64,
) -> Result<Content, String> {
    if listed.size > limit {
        return Err(format!(
            "it has {} bytes, more than it can have in a pack ({limit})",
            listed.size
        ));
    }
    let start = data_start(file, listed)?;
    file.seek(SeekFrom::Start(start)).map_err(|why| why.to_string())?;
    let stored = file.take(listed.stored_size);
    if listed.compressed {
        drain(DeflateDecoder::new(stored).take(listed.size + 1), listed, keep)
    } else {
        drain(stored, listed, keep)
    }
}

fn drain(mut from: impl Read, listed: &Listed, keep: bool) -> Result<Content, String> {
    let (mut sha, mut crc, mut size) = (Sha256::new(), crc32fast::Hasher::new(), 0_u64);
    let mut kept = keep.then(Vec::new);
    let mut buffer = vec![0; 64 * 1024];
    loop {
        let count = match from.read(&mut buffer) {
            Err(why) if why.kind() == io::ErrorKind::Interrupted => continue,
            read => read.map_err(|why| format!("it cannot be read ({why})"))?,
        };
        let Some(part) = buffer.get(..count).filter(|part| !part.is_empty()) else {
            break;
        };
        sha.update(part);
        crc.update(part);
        size += u64::try_from(count).unwrap_or(u64::MAX);
        if let Some(kept) = &mut kept {
            kept.extend_from_slice(part);
        }
    }
    if size != listed.size {
        return Err(format!("it has {size} bytes, the list says {}", listed.size));
    }
    let crc = crc.finalize();
    if crc != listed.crc {
        return Err("its contents do not fit its checksum".to_owned());
    }
    Ok(Content {
        sha: Hash::from_bytes(sha.finalize().into()),
        crc,
        size,
        bytes: kept,
    })
}

/// The line at `at` and where the next one begins; `None` if it is broken.
fn line(bytes: &[u8], at: usize) -> Option<(Listed, usize)> {
    let get = |offset, count| field(bytes, at + offset, count);
    if bytes.get(at..at + 4)? != b"PK\x01\x02" {
        return None;
    }
    let (flags, method) = (get(8, 2)?, get(10, 2)?);
    let (mut stored_size, mut size, mut offset) = (get(20, 4)?, get(24, 4)?, get(42, 4)?);
    let name_end = at + 46 + to_usize(get(28, 2)?);
    let extra_end = name_end + to_usize(get(30, 2)?);
    let next = extra_end + to_usize(get(32, 2)?);
    let name = String::from_utf8(bytes.get(at + 46..name_end)?.to_vec()).ok()?;
    let mut extra = bytes.get(name_end..extra_end)?;
    while let (Some(id), Some(length)) = (field(extra, 0, 2), field(extra, 2, 2)) {
        let body = extra.get(4..4 + to_usize(length))?;
        if id == 1 {
            // Only what is full in the fixed part stands here, in this order.
            let full = [&mut size, &mut stored_size, &mut offset]
                .into_iter()
                .filter(|value| **value == 0xFFFF_FFFF);
            for (place, value) in full.enumerate() {
                *value = field(body, place * 8, 8)?;
            }
        }
        extra = extra.get(4 + to_usize(length)..)?;
    }
    // Encrypted members, other methods and parts on other disks have no place in a pack.
    if flags & 1 != 0 || !matches!(method, 0 | 8) || get(34, 2)? != 0 || next > bytes.len() {
        return None;
    }
    let crc = u32::try_from(get(16, 4)?).ok()?;
    Some((
        Listed {
            name,
            compressed: method == 8,
            stored_size,
            size,
            crc,
            offset,
        },
        next,
    ))
}

/// Members that share bytes could hold a thousand times what the file has.
fn no_overlap(listed: &[Listed]) -> Result<(), String> {
    let mut spans: Vec<(u64, u64)> = listed
        .iter()
        .map(|one| {
            (
                one.offset,
                one.offset.saturating_add(30).saturating_add(one.stored_size),
            )
        })
        .collect();
    spans.sort_unstable();
    let apart = spans.windows(2).all(|pair| match pair {
        [(_, end), (start, _)] => end <= start,
        _ => true,
    });
    if apart {
        Ok(())
    } else {
        Err("its files overlap".to_owned())
    }
}

fn bytes_at(file: &mut (impl Read + Seek), at: u64, count: u64) -> Result<Vec<u8>, String> {
    file.seek(SeekFrom::Start(at)).map_err(|why| why.to_string())?;
    let mut bytes = Vec::new();
    file.take(count)
        .read_to_end(&mut bytes)
        .map_err(|why| why.to_string())?;
    if u64::try_from(bytes.len()).ok() == Some(count) {
        Ok(bytes)
    } else {
        Err("it is cut short".to_owned())
    }
}

/// A little-endian number of `count` bytes.
fn field(bytes: &[u8], at: usize, count: usize) -> Option<u64> {
    Some(
        bytes
            .get(at..at + count)?
            .iter()
            .rev()
            .fold(0, |value, byte| (value << 8) | u64::from(*byte)),
    )
}

fn to_usize(value: u64) -> usize {
    usize::try_from(value).unwrap_or(usize::MAX)
}
