//! The copies that are shown: a view and a thumbnail, upright, made from one decode and kept in a cache. A thumbnail that is
//! asked for alone is made from the kept view, or by opening the photo smaller than it is.

use std::fs;
use std::io::{self, Cursor};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

use fast_image_resize::images::{Image, ImageRef};
use fast_image_resize::{FilterType, PixelType, ResizeAlg, ResizeOptions, Resizer};
use image::{DynamicImage, ImageDecoder};
use zune_core::bytestream::ZCursor;
use zune_core::colorspace::ColorSpace;
use zune_core::options::DecoderOptions;
use zune_jpeg::JpegDecoder;

use crate::record::{Hash, Moment};

use super::error::file;
use super::format::{Format, PIXEL_LIMIT, State, examine};
use super::orient::{Rgba, upright};
use super::{PhotoError, capture, scaled};

/// Quality of the copies (own judgement).
const QUALITY: u8 = 82;

/// Most progressive scans followed; a few hundred are used only to waste time (own judgement).
pub(super) const SCANS: usize = 64;

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

/// A thumbnail from the view that is kept; `None` where there is none, or none that opens.
fn thumb_of_view(folder: &Path, sha: Hash) -> Option<Vec<u8>> {
    let view = fs::read(cached(folder, sha, Size::View.suffix())).ok()?;
    encode_shown(&shrink(
        decode(Format::Jpeg, &view, Size::Thumb.longest_px())?,
        Size::Thumb,
    )?)
}

/// A thumbnail straight from a JPEG that can be opened smaller than it is.
fn thumb_alone(bytes: &[u8]) -> Option<Vec<u8>> {
    if Format::sniff(bytes)? != Format::Jpeg {
        return None;
    }
    let small = shrink(scaled::decode(bytes, Size::Thumb.longest_px())?, Size::Thumb)?;
    encode_shown(&upright(small, orientation(bytes)))
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
        let small = shrink_to(decode(format, &bytes, longest_px)?, longest_px)?;
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
    encode(
        &picture.rgb,
        [side(picture.width)?, side(picture.height)?],
        jpeg_encoder::ColorType::Rgb,
    )
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
        let view = shrink(decode(format, bytes, Size::View.longest_px())?, Size::View)?;
        let thumb = upright(shrink(view.clone(), Size::Thumb)?, orientation);
        Some((encode_shown(&upright(view, orientation))?, encode_shown(&thumb)?))
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

/// The picture, opened smaller than it is where its longest side stays at least `longest_px`. A JPEG that was cut short gives
/// what could be read.
fn decode(format: Format, bytes: &[u8], longest_px: usize) -> Option<Rgba> {
    match format {
        Format::Jpeg => scaled::decode(bytes, longest_px).or_else(|| whole(bytes)),
        Format::Png => rgba_of(image::codecs::png::PngDecoder::new(Cursor::new(bytes)).ok()?),
        Format::Webp => rgba_of(image::codecs::webp::WebPDecoder::new(Cursor::new(bytes)).ok()?),
        Format::Heic => None,
    }
}

/// All pixels of a JPEG.
fn whole(bytes: &[u8]) -> Option<Rgba> {
    let limit = usize::from(u16::MAX);
    let options = DecoderOptions::default()
        .set_max_width(limit)
        .set_max_height(limit)
        .jpeg_set_max_scans(SCANS)
        .jpeg_set_out_colorspace(ColorSpace::RGBA);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), options);
    let rgba = decoder.decode().ok()?;
    let (width, height) = decoder.dimensions()?;
    (rgba.len() == width * height * 4).then_some(Rgba {
        width,
        height,
        bytes: rgba,
    })
}

fn rgba_of(mut decoder: impl ImageDecoder) -> Option<Rgba> {
    let mut limits = image::Limits::default();
    // Eight bytes a pixel cover 16 bits in four channels.
    limits.max_alloc = Some(PIXEL_LIMIT * 8);
    decoder.set_limits(limits).ok()?;
    let picture = DynamicImage::from_decoder(decoder).ok()?.into_rgba8();
    let (width, height) = picture.dimensions();
    Some(Rgba {
        width: usize::try_from(width).ok()?,
        height: usize::try_from(height).ok()?,
        bytes: picture.into_raw(),
    })
}

/// A copy whose longest side is at most that of `size`; never enlarged.
fn shrink(picture: Rgba, size: Size) -> Option<Rgba> {
    shrink_to(picture, size.longest_px())
}

fn shrink_to(picture: Rgba, longest_px: usize) -> Option<Rgba> {
    let longest = picture.width.max(picture.height);
    if longest <= longest_px {
        return Some(picture);
    }
    let scaled = |side: usize| (side * longest_px / longest).max(1);
    let (width, height) = (scaled(picture.width), scaled(picture.height));
    let of = |side: usize| u32::try_from(side).ok();
    let source = ImageRef::new(of(picture.width)?, of(picture.height)?, &picture.bytes, PixelType::U8x4).ok()?;
    let mut target = Image::new(of(width)?, of(height)?, PixelType::U8x4);
    // The fourth byte is no share of the other three.
    let options = ResizeOptions::new()
        .resize_alg(ResizeAlg::Convolution(FilterType::Bilinear))
        .use_alpha(false);
    Resizer::new().resize(&source, &mut target, &options).ok()?;
    Some(Rgba {
        width,
        height,
        bytes: target.into_vec(),
    })
}

fn encode_shown(picture: &Rgba) -> Option<Vec<u8>> {
    encode(
        &picture.bytes,
        [picture.width, picture.height],
        jpeg_encoder::ColorType::Rgba,
    )
}

fn encode(bytes: &[u8], [width, height]: [usize; 2], colours: jpeg_encoder::ColorType) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    let encoder = jpeg_encoder::Encoder::new(&mut out, QUALITY);
    let (width, height) = (u16::try_from(width).ok()?, u16::try_from(height).ok()?);
    encoder.encode(bytes, width, height, colours).ok()?;
    Some(out)
}
