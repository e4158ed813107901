//! Taking a photo in: kept first, named by an entry next, shown last.

use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};

use crate::record::{Disk, Hash, Moment, PhotoRow, Store, SystemDisk, keep_file};

use super::error::file;
use super::format::{BYTE_LIMIT, Format, State, examine};
use super::photo::{Photo, photo_of};
use super::{PhotoError, capture, view};

/// Longest name or subject kept, characters (own judgement).
const WORDS: usize = 120;

/// How close the photo was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhotoKind {
    /// Everything in one picture.
    Group,
    /// One thing from top to bottom.
    Portrait,
    /// One place from near.
    Detail,
}

impl PhotoKind {
    /// Every kind.
    pub const ALL: [Self; 3] = [Self::Group, Self::Portrait, Self::Detail];

    /// The word stored in the record.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Group => "group",
            Self::Portrait => "portrait",
            Self::Detail => "detail",
        }
    }

    /// The kind stored as `text`.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.as_str() == text)
    }
}

/// What is known about a photo apart from its bytes.
#[derive(Clone, Debug)]
pub struct Meta {
    /// What it shows: `wall`, a prop by name, or other words.
    pub about: String,
    /// How close it was taken.
    pub kind: PhotoKind,
    /// Name of the file as it came.
    pub name: String,
    /// The file's own time, milliseconds since 1970 UTC, where the phone tells it.
    pub modified_ms: Option<i64>,
}

/// Takes a photo in: the bytes are kept as received, then an entry names them, then the views are made.
///
/// The same bytes may come again: they are kept once, and a new entry names them.
///
/// # Errors
///
/// [`PhotoError`] for what is empty, no image or too large, and for a file or a record that cannot be written. A view that
/// cannot be made is no error: the photo is kept and says so.
pub fn intake(store: &mut Store, bytes: &[u8], meta: &Meta, moment: Moment) -> Result<Photo, PhotoError> {
    intake_with(&SystemDisk, store, bytes, meta, moment)
}

/// As [`intake`], reading the bytes from a file.
///
/// # Errors
///
/// As [`intake`]; also if the file cannot be read.
pub fn intake_file(store: &mut Store, path: &Path, meta: &Meta, moment: Moment) -> Result<Photo, PhotoError> {
    intake(store, &read_file(path)?, meta, moment)
}

/// The bytes of a file that is to be taken in.
///
/// # Errors
///
/// [`PhotoError::TooManyBytes`], or that the file cannot be read.
pub fn read_file(path: &Path) -> Result<Vec<u8>, PhotoError> {
    let source = fs::File::open(path).map_err(file("Open the photo", path))?;
    let size = source.metadata().map_err(file("Look at the photo", path))?.len();
    if size > BYTE_LIMIT {
        return Err(PhotoError::TooManyBytes {
            bytes: size,
            limit: BYTE_LIMIT,
        });
    }
    let mut bytes = Vec::with_capacity(usize::try_from(size).unwrap_or_default());
    source
        .take(BYTE_LIMIT + 1)
        .read_to_end(&mut bytes)
        .map_err(file("Read the photo", path))?;
    Ok(bytes)
}

/// As [`intake`], on a file system of the caller's.
///
/// # Errors
///
/// As [`intake`].
pub fn intake_with(
    disk: &dyn Disk,
    store: &mut Store,
    bytes: &[u8],
    meta: &Meta,
    moment: Moment,
) -> Result<Photo, PhotoError> {
    Ok(arrived(bytes, meta, moment)?.keep(disk, store, moment)?.show())
}

/// A photo that was looked at and is not kept yet.
pub struct Arrived<'a> {
    bytes: &'a [u8],
    sha: Hash,
    facts: Facts,
    meta: &'a Meta,
}

/// A photo that is kept and named, and has no views yet. It needs its job no longer, so that another photo can be kept while
/// the views of this one are made.
pub struct Named<'a> {
    bytes: &'a [u8],
    folder: PathBuf,
    row: PhotoRow,
}

/// Looks at the bytes of a photo: the first part of [`intake`], and the one that needs no job.
///
/// # Errors
///
/// [`PhotoError`] for what is empty, no image or too large.
pub fn arrived<'a>(bytes: &'a [u8], meta: &'a Meta, moment: Moment) -> Result<Arrived<'a>, PhotoError> {
    let size = size(bytes);
    if size > BYTE_LIMIT {
        return Err(PhotoError::TooManyBytes {
            bytes: size,
            limit: BYTE_LIMIT,
        });
    }
    Ok(Arrived {
        facts: facts(bytes, meta.modified_ms, moment)?,
        sha: Hash::of(bytes),
        bytes,
        meta,
    })
}

fn size(bytes: &[u8]) -> u64 {
    u64::try_from(bytes.len()).unwrap_or(u64::MAX)
}

impl<'a> Arrived<'a> {
    /// Keeps the bytes, then an entry of `moment` that names them.
    ///
    /// # Errors
    ///
    /// [`PhotoError`] for a file or a record that cannot be written.
    pub fn keep(self, disk: &dyn Disk, store: &mut Store, moment: Moment) -> Result<Named<'a>, PhotoError> {
        let Self {
            bytes,
            sha,
            facts,
            meta,
        } = self;
        let Facts {
            format,
            dimensions,
            state,
            capture,
        } = facts;
        keep(disk, store, sha, bytes)?;
        let row = PhotoRow {
            device: store.device(),
            seq: 0,
            sha,
            bytes: i64::try_from(size(bytes)).unwrap_or(i64::MAX),
            name: shortened(&meta.name),
            about: shortened(&meta.about),
            kind: meta.kind.as_str().to_owned(),
            taken_utc_ms: capture.utc_ms,
            offset_min: capture.offset_min,
            source: capture.source.to_owned(),
            difference_s: capture.difference_s,
            mark: capture.mark.map(str::to_owned),
            place: capture.place,
            orientation: capture.orientation,
            width: dimensions.map(|(width, _)| i64::from(width)),
            height: dimensions.map(|(_, height)| i64::from(height)),
            format: format.as_str().to_owned(),
            state: state.as_str().to_owned(),
        };
        let (_, row) = store.write(|gate| gate.photo_add(moment, row))?;
        Ok(Named {
            bytes,
            folder: store.folder().to_owned(),
            row,
        })
    }
}

impl Named<'_> {
    /// Makes the views. Last, because opening a large photo may exhaust a small phone: by now the photo is kept and named.
    #[must_use]
    pub fn show(self) -> Photo {
        let _shown_without = view::make(&self.folder, self.row.sha, self.bytes);
        photo_of(&self.folder, &self.row)
    }
}

/// What the bytes of a photo say about it; nothing is decoded.
#[derive(Clone, Debug)]
pub struct Facts {
    pub(super) format: Format,
    pub(super) dimensions: Option<(u32, u32)>,
    pub(super) state: State,
    pub(super) capture: capture::Capture,
}

/// Reads what the bytes of a photo say: kind, size, state, and its EXIF data.
///
/// # Errors
///
/// [`PhotoError::Empty`] or [`PhotoError::NotAnImage`].
pub fn facts(bytes: &[u8], modified_ms: Option<i64>, moment: Moment) -> Result<Facts, PhotoError> {
    if bytes.is_empty() {
        return Err(PhotoError::Empty);
    }
    let format = Format::sniff(bytes).ok_or(PhotoError::NotAnImage)?;
    let (dimensions, state) = examine(format, bytes);
    Ok(Facts {
        format,
        dimensions,
        state,
        capture: capture::read(bytes, modified_ms, moment),
    })
}

/// Keeps the bytes under their SHA-256, unless they already are.
fn keep(disk: &dyn Disk, store: &Store, sha: Hash, bytes: &[u8]) -> Result<(), PhotoError> {
    let folder = store.photo_folder();
    let name = sha.to_string();
    // A file of this name that holds other bytes is replaced: the name promises these.
    let path = folder.join(&name);
    if fs::read(&path).is_ok_and(|kept| kept == bytes) {
        // An earlier attempt may have failed after the name was given and before it was on the medium.
        return disk
            .sync(&path)
            .and_then(|()| disk.sync_folder(&folder))
            .map_err(file("Keep the photo", &path));
    }
    disk.make_folder(&folder)
        .map_err(file("Make the folder of photos", &folder))?;
    keep_file(disk, &folder, &name, bytes).map_err(file("Keep the photo", &folder.join(&name)))
}

fn shortened(text: &str) -> String {
    text.chars()
        .filter(|letter| !letter.is_control())
        .take(WORDS)
        .collect::<String>()
        .trim()
        .to_owned()
}
