//! Puts photos into a finished file in place of the short stand-ins that the writer was given, so that neither the writer nor
//! the file's maker ever holds the photos.
//!
//! A stand-in is a JPEG's own header behind a comment with a number, without any picture; the writer reads size and colours
//! from it as from the photo. Where it stands in the file, the photo's bytes come in and its length is set; the
//! cross-reference table is moved along. Source of the layout: ISO 32000-1, 7.3.8 (streams), 7.5.4 (table), from memory; the
//! tests read the file with other programs.

use crate::pieces::{Piece, Pieces};
use std::ops::Range;
use std::sync::Arc;

/// Begins the comment of a stand-in.
const MARK: &[u8] = b"upstay ";
/// An entry of the table: ten digits of offset, five of generation, a letter, two for the line's end.
const ENTRY: usize = 20;

/// A photo to be put in.
pub struct Insert {
    /// What the writer is given instead.
    pub stand_in: Vec<u8>,
    /// The photo.
    pub photo: Piece,
}

impl Insert {
    /// A stand-in for a photo, from its header up to where the picture begins; `number` is its place among all, and `name`
    /// anything by which it differs from those of other files.
    pub fn new(header: &[u8], photo: Piece, number: usize, name: &str) -> Option<Self> {
        let comment = [MARK, format!("{number:06} {name}").as_bytes()].concat();
        let length = u16::try_from(comment.len() + 2).ok()?.to_be_bytes();
        let behind = header.strip_prefix(&[0xFF, 0xD8])?;
        let stand_in = [&[0xFF, 0xD8, 0xFF, 0xFE], length.as_slice(), &comment, behind].concat();
        Some(Self { stand_in, photo })
    }
}

/// A stand-in in the file.
struct Found {
    /// The digits of its length.
    length: Range<usize>,
    /// The stand-in.
    place: Range<usize>,
    /// Which photo.
    number: usize,
}

/// The file with the photos in it; `None` where it is not laid out as the writer does, or a picture in it is none of them.
pub fn spliced(file: &[u8], inserts: &[Insert]) -> Option<Pieces> {
    let table = Table::of(file)?;
    let mut out = Vec::new();
    let (mut copied, mut grown) = (0, 0_i64);
    // Behind which place the file has grown by how much.
    let mut steps: Vec<(usize, i64)> = Vec::new();
    for found in found(file, &table, inserts)? {
        let photo = &inserts.get(found.number)?.photo;
        let digits = photo.bytes().to_string();
        let before = file.get(copied..found.length.start)?;
        let between = file.get(found.length.end..found.place.start)?;
        out.push(held([before, digits.as_bytes(), between].concat()));
        out.push(photo.clone());
        copied = found.place.end;
        grown += i64::try_from(photo.bytes()).ok()? - size(found.place.len()) + size(digits.len())
            - size(found.length.len());
        steps.push((found.place.end, grown));
    }
    let moved = |offset: usize| {
        let passed = steps.partition_point(|(at, _)| *at <= offset);
        let by = passed
            .checked_sub(1)
            .and_then(|at| steps.get(at))
            .map_or(0, |step| step.1);
        size(offset) + by
    };
    let mut end = file.get(copied..table.entries.start)?.to_vec();
    for (line, offset) in table.lines(file) {
        match offset {
            Some(offset) => {
                end.extend(format!("{:010}", moved(offset)).bytes());
                end.extend(line.get(10..)?);
            }
            None => end.extend(line),
        }
    }
    end.extend(file.get(table.entries.end..table.start.start)?);
    end.extend(moved(table.at).to_string().bytes());
    end.extend(file.get(table.start.end..)?);
    out.push(held(end));
    Some(out.into())
}

/// Where the cross-reference table stands.
struct Table {
    /// Its first byte.
    at: usize,
    /// Its entries.
    entries: Range<usize>,
    /// The digits at the file's end that say where it begins.
    start: Range<usize>,
}

impl Table {
    fn of(file: &[u8]) -> Option<Self> {
        const SAID: &[u8] = b"startxref\n";
        let tail = file.len().saturating_sub(64);
        let start = tail + last(file.get(tail..)?, SAID)? + SAID.len();
        let start = start..start + digits(file.get(start..)?);
        let at = number(file.get(start.clone())?)?;
        let head = file.get(at..)?.strip_prefix(b"xref\n0 ")?;
        let count = head.get(..digits(head))?;
        let entries = file.len() - head.len() + count.len() + 1;
        let entries = entries..entries + number(count)? * ENTRY;
        file.get(entries.end..)?
            .starts_with(b"trailer")
            .then_some(Self { at, entries, start })
    }

    /// Its lines, each with the offset it holds if it is that of an object in use.
    fn lines<'f>(&self, file: &'f [u8]) -> impl Iterator<Item = (&'f [u8], Option<usize>)> {
        let lines = file.get(self.entries.clone()).unwrap_or_default().chunks(ENTRY);
        lines.map(|line| {
            let used = line.get(17) == Some(&b'n');
            (line, used.then(|| number(line.get(..10)?)).flatten())
        })
    }
}

/// The stand-ins of a file in their order; `None` where a JPEG is in it that is none of them.
fn found(file: &[u8], table: &Table, inserts: &[Insert]) -> Option<Vec<Found>> {
    let mut offsets: Vec<usize> = table.lines(file).filter_map(|(_, offset)| offset).collect();
    offsets.sort_unstable();
    let ends = offsets.iter().skip(1).copied().chain([table.at]);
    let mut all = Vec::new();
    for (start, end) in offsets.iter().zip(ends) {
        const STREAM: &[u8] = b"\nstream\n";
        const LENGTH: &[u8] = b"/Length ";
        let object = file.get(*start..end)?;
        let Some(head) = first(object, STREAM) else { continue };
        let dictionary = object.get(..head)?;
        if first(dictionary, b"/DCTDecode").is_none() {
            continue;
        }
        let length = start + first(dictionary, LENGTH)? + LENGTH.len();
        let length = length..length + digits(file.get(length..)?);
        let place = start + head + STREAM.len();
        let place = place..place + number(file.get(length.clone())?)?;
        let here = file.get(place.clone())?;
        let said = here.get(6..)?.strip_prefix(MARK)?.get(..6)?;
        let number = number(said)?;
        if inserts.get(number)?.stand_in != here {
            return None;
        }
        all.push(Found { length, place, number });
    }
    Some(all)
}

fn size(bytes: usize) -> i64 {
    i64::try_from(bytes).unwrap_or(i64::MAX)
}

fn held(bytes: Vec<u8>) -> Piece {
    Piece::Held(Arc::new(bytes))
}

/// Where `part` first stands in `all`.
fn first(all: &[u8], part: &[u8]) -> Option<usize> {
    all.windows(part.len()).position(|window| window == part)
}

/// Where `part` last stands in `all`.
fn last(all: &[u8], part: &[u8]) -> Option<usize> {
    all.windows(part.len()).rposition(|window| window == part)
}

/// How many digits `bytes` begin with.
fn digits(bytes: &[u8]) -> usize {
    bytes.iter().take_while(|byte| byte.is_ascii_digit()).count()
}

fn number(digits: &[u8]) -> Option<usize> {
    std::str::from_utf8(digits).ok()?.parse().ok()
}
