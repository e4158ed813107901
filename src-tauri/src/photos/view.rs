//! The copies that are shown: a view and a thumbnail, upright, made from one decode and kept in a cache. A thumbnail that is
//! asked for alone is made from the kept view, or by opening the photo smaller than it is.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use pixels::{Rgba, encoded, encoded_rgb, jpeg_picture, png_picture, scaled, shrink, shrunk, upright, webp_picture};

use crate::pieces::Piece;
use crate::record::{Hash, Moment};

use super::error::file;
use super::format::{Format, State, examine};
use super::{PhotoError, capture};

/// Numbers the temporary files of the cache.
static NEXT: AtomicU64 = AtomicU64::new(0);

/// Which copy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// At most 320 px.
    Thumb,
    /// At most 1600 px.
    View,
}

impl Size {
    /// Longest side, pixels.
    #[must_use]
    pub const fn longest_px(self) -> usize {
        match self {
            Self::Thumb => 320,
            Self::View => 1600,
        }
    }

    const fn suffix(self) -> &'static str {
        match self {
            Self::Thumb => "thumb.jpg",
            Self::View => "view.jpg",
        }
    }
}

/// The copy of a photo as JPEG bytes, from the cache of the job in `folder`; made again from the original when it is missing.
///
/// # Errors
///
/// [`PhotoError::Missing`] or [`PhotoError::Changed`] if the original is not there or not what was taken in,
/// [`PhotoError::NoView`] if it cannot be shown.
pub fn picture(folder: &Path, sha: Hash, size: Size) -> Result<Vec<u8>, PhotoError> {
    if let Ok(kept) = fs::read(cached(folder, sha, size.suffix())) {
        return Ok(kept);
    }
    if size == Size::Thumb
        && let Some(thumb) = thumb_of_view(folder, sha)
    {
        return Ok(kept_thumb(folder, sha, thumb));
    }
    let bytes = original(folder, sha)?;
    if size == Size::Thumb
        && let Some(thumb) = thumb_alone(&bytes)
    {
        return Ok(kept_thumb(folder, sha, thumb));
    }
    let (view, thumb) = make(folder, sha, &bytes)?;
    Ok(match size {
        Size::View => view,
        Size::Thumb => thumb,
    })
}

/// As [`picture`], without reading a copy that is kept; one that cannot be kept is held.
///
/// # Errors
///
/// As [`picture`].
pub fn picture_piece(folder: &Path, sha: Hash, size: Size) -> Result<Piece, PhotoError> {
    let kept = || Piece::file(cached(folder, sha, size.suffix()));
    if let Ok(kept) = kept() {
        return Ok(kept);
    }
    let made = picture(folder, sha, size)?;
    Ok(kept().unwrap_or_else(|_| Piece::Held(Arc::new(made))))
}

/// A thumbnail from the view that is kept; `None` where there is none, or none that opens.
fn thumb_of_view(folder: &Path, sha: Hash) -> Option<Vec<u8>> {
    let view = fs::read(cached(folder, sha, Size::View.suffix())).ok()?;
    encoded(&small(jpeg_picture(&view, Size::Thumb.longest_px())?, Size::Thumb)?)
}

/// A thumbnail straight from a JPEG that can be opened smaller than it is.
fn thumb_alone(bytes: &[u8]) -> Option<Vec<u8>> {
    if Format::sniff(bytes)? != Format::Jpeg {
        return None;
    }
    let thumb = small(scaled(bytes, Size::Thumb.longest_px())?, Size::Thumb)?;
    encoded(&upright(thumb, orientation(bytes)))
}

fn kept_thumb(folder: &Path, sha: Hash, thumb: Vec<u8>) -> Vec<u8> {
    // It is made again next time where it cannot be kept.
    let _not_kept = put(folder, sha, Size::Thumb.suffix(), &thumb);
    thumb
}

/// Whether making the copies was tried and the photo could not be opened.
pub(super) fn refused(folder: &Path, sha: Hash) -> bool {
    cached(folder, sha, "none").exists()
}

/// Makes both copies, keeps them in the cache, and returns view and thumbnail. A cache that cannot be written is no failure.
pub(super) fn make(folder: &Path, sha: Hash, bytes: &[u8]) -> Result<(Vec<u8>, Vec<u8>), PhotoError> {
    let copies = copies(bytes);
    let kept = match &copies {
        Ok((view, thumb)) => {
            put(folder, sha, Size::View.suffix(), view).and_then(|()| put(folder, sha, Size::Thumb.suffix(), thumb))
        }
        Err(_) => put(folder, sha, "none", b""),
    };
    // The copies are made again next time; the original is what counts.
    let _not_kept = kept;
    copies
}

/// A photo upright as RGB, three bytes a pixel, row by row from the top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixels {
    /// Width, pixels.
    pub width: u32,
    /// Height, pixels.
    pub height: u32,
    /// Red, green and blue of each pixel.
    pub rgb: Vec<u8>,
}

/// The photo itself, upright, at most `longest_px` on its longer side: what a drawing is laid over.
///
/// # Errors
///
/// As [`picture`].
pub fn pixels(folder: &Path, sha: Hash, longest_px: usize) -> Result<Pixels, PhotoError> {
    let bytes = original(folder, sha)?;
    let format = Format::sniff(&bytes).ok_or(PhotoError::NotAnImage)?;
    let (_, state) = examine(format, &bytes);
    if matches!(state, State::NoViewHere | State::TooLarge) {
        return Err(no_view(state));
    }
    let made = || {
        let small = shrink(decode(format, &bytes, longest_px)?, longest_px)?;
        let shown = upright(small, orientation(&bytes));
        Some(Pixels {
            width: u32::try_from(shown.width).ok()?,
            height: u32::try_from(shown.height).ok()?,
            rgb: shown
                .bytes
                .as_chunks::<4>()
                .0
                .iter()
                .flat_map(|&[r, g, b, _]| [r, g, b])
                .collect(),
        })
    };
    made().ok_or_else(|| no_view(State::Damaged))
}

/// A picture as JPEG bytes; none for one without pixels, with too few bytes, or larger than the format allows.
#[must_use]
pub fn jpeg_of(picture: &Pixels) -> Option<Vec<u8>> {
    let side = |side: u32| usize::try_from(side).ok();
    encoded_rgb(&picture.rgb, [side(picture.width)?, side(picture.height)?])
}

/// The bytes as they were taken in, found unchanged.
fn original(folder: &Path, sha: Hash) -> Result<Vec<u8>, PhotoError> {
    let path = folder.join("photos").join(sha.to_string());
    let bytes = match fs::read(&path) {
        Err(why) if why.kind() == io::ErrorKind::NotFound => return Err(PhotoError::Missing { path }),
        read => read.map_err(file("Read the photo", &path))?,
    };
    if Hash::of(&bytes) == sha {
        Ok(bytes)
    } else {
        Err(PhotoError::Changed { path })
    }
}

fn cached(folder: &Path, sha: Hash, suffix: &str) -> PathBuf {
    folder.join("cache").join(format!("{sha}-{suffix}"))
}

fn put(folder: &Path, sha: Hash, suffix: &str, bytes: &[u8]) -> io::Result<()> {
    // Only within a folder that is there: its job may have been moved meanwhile.
    match fs::create_dir(folder.join("cache")) {
        Err(why) if why.kind() != io::ErrorKind::AlreadyExists => return Err(why),
        _ => {}
    }
    let target = cached(folder, sha, suffix);
    // Two that make the same copy at once do not write into one another's file.
    let number = NEXT.fetch_add(1, Ordering::Relaxed);
    let temporary = target.with_extension(format!("{number}.part"));
    fs::write(&temporary, bytes)?;
    fs::rename(temporary, target)
}

fn copies(bytes: &[u8]) -> Result<(Vec<u8>, Vec<u8>), PhotoError> {
    let format = Format::sniff(bytes).ok_or(PhotoError::NotAnImage)?;
    let (_, state) = examine(format, bytes);
    if matches!(state, State::NoViewHere | State::TooLarge) {
        return Err(no_view(state));
    }
    let made = || {
        let orientation = orientation(bytes);
        let view = small(decode(format, bytes, Size::View.longest_px())?, Size::View)?;
        let thumb = upright(shrunk(&view, Size::Thumb.longest_px())?, orientation);
        Some((encoded(&upright(view, orientation))?, encoded(&thumb)?))
    };
    made().ok_or_else(|| no_view(State::Damaged))
}

/// How the file says that it is to be turned, 1 to 8.
fn orientation(bytes: &[u8]) -> i64 {
    let moment = Moment {
        utc_ms: 0,
        offset_min: 0,
        boot_ms: None,
    };
    capture::read(bytes, None, moment).orientation
}

fn no_view(state: State) -> PhotoError {
    PhotoError::NoView {
        words: State::words(state.as_str())
            .unwrap_or("This photo cannot be shown.")
            .to_owned(),
    }
}

/// The picture, opened smaller than it is where its longest side stays at least `longest_px`.
fn decode(format: Format, bytes: &[u8], longest_px: usize) -> Option<Rgba> {
    match format {
        Format::Jpeg => jpeg_picture(bytes, longest_px),
        Format::Png => png_picture(bytes),
        Format::Webp => webp_picture(bytes),
        Format::Heic => None,
    }
}

fn small(picture: Rgba, size: Size) -> Option<Rgba> {
    shrink(picture, size.longest_px())
}
