//! Pixels of photos: opened from JPEG, PNG or WebP, made smaller, turned upright, and written as JPEG.

mod orient;
mod scaled;

pub mod jpeg;

use std::io::Cursor;

use fast_image_resize::images::{Image, ImageRef};
use fast_image_resize::{FilterType, PixelType, ResizeAlg, ResizeOptions, Resizer};
use image::{DynamicImage, ImageDecoder};
use zune_core::bytestream::ZCursor;
use zune_core::colorspace::ColorSpace;
use zune_core::options::DecoderOptions;
use zune_jpeg::JpegDecoder;

pub use orient::{Rgba, upright};
pub use scaled::scaled;

/// Most pixels decoded (own judgement: 100 megapixels take about 300 MB).
pub const PIXEL_LIMIT: u64 = 100_000_000;

/// Quality of the copies (own judgement).
const QUALITY: u8 = 82;

/// Rows of a copy that are made at once.
const BAND: usize = 128;

/// Most progressive scans followed; a few hundred are used only to waste time (own judgement).
const SCANS: usize = 64;

/// A JPEG, opened smaller than it is where its longest side stays at least `longest_px`; one that was cut short gives what
/// could be read, and what cannot be opened none.
#[must_use]
pub fn jpeg_picture(bytes: &[u8], longest_px: usize) -> Option<Rgba> {
    scaled(bytes, longest_px).or_else(|| whole(bytes))
}

/// A PNG; none where it cannot be opened.
#[must_use]
pub fn png_picture(bytes: &[u8]) -> Option<Rgba> {
    rgba_of(image::codecs::png::PngDecoder::new(Cursor::new(bytes)).ok()?)
}

/// A WebP picture; none where it cannot be opened.
#[must_use]
pub fn webp_picture(bytes: &[u8]) -> Option<Rgba> {
    rgba_of(image::codecs::webp::WebPDecoder::new(Cursor::new(bytes)).ok()?)
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

/// A picture whose longest side is at most `longest_px`; never enlarged.
#[must_use]
pub fn shrink(picture: Rgba, longest_px: usize) -> Option<Rgba> {
    if picture.longest() <= longest_px {
        return Some(picture);
    }
    smaller(&picture, longest_px)
}

/// The same of a picture that is still needed.
#[must_use]
pub fn shrunk(picture: &Rgba, longest_px: usize) -> Option<Rgba> {
    if picture.longest() <= longest_px {
        return Some(picture.clone());
    }
    smaller(picture, longest_px)
}

fn smaller(picture: &Rgba, longest_px: usize) -> Option<Rgba> {
    let longest = picture.longest();
    let scaled = |side: usize| (side * longest_px / longest).max(1);
    in_bands(picture, [scaled(picture.width), scaled(picture.height)], BAND)
}

/// The picture at another size, made in bands of at most so many rows: the resizer holds a whole band at its new width beside
/// the picture and the copy.
fn in_bands(picture: &Rgba, [width, height]: [usize; 2], rows: usize) -> Option<Rgba> {
    let of = |side: usize| u32::try_from(side).ok();
    let source = ImageRef::new(of(picture.width)?, of(picture.height)?, &picture.bytes, PixelType::U8x4).ok()?;
    let (from_width, from_height) = (f64::from(source.width()), f64::from(source.height()));
    let step = from_height / f64::from(of(height)?);
    let mut resizer = Resizer::new();
    let mut bytes = vec![0; width * height * 4];
    let mut top = 0.0;
    for band in bytes.chunks_mut(width * 4 * rows) {
        let high = of(band.len() / (width * 4))?;
        let deep = (f64::from(high) * step).min(from_height - top);
        let mut target = Image::from_slice_u8(of(width)?, high, band, PixelType::U8x4).ok()?;
        // The fourth byte is no share of the other three.
        let options = ResizeOptions::new()
            .resize_alg(ResizeAlg::Convolution(FilterType::Bilinear))
            .crop(0.0, top, from_width, deep)
            .use_alpha(false);
        resizer.resize(&source, &mut target, &options).ok()?;
        top += deep;
    }
    Some(Rgba { width, height, bytes })
}

/// A picture as JPEG; none for one without pixels, or larger than the format allows.
#[must_use]
pub fn encoded(picture: &Rgba) -> Option<Vec<u8>> {
    encode(
        &picture.bytes,
        [picture.width, picture.height],
        jpeg_encoder::ColorType::Rgba,
    )
}

/// The same for three bytes a pixel; none also where these are too few.
#[must_use]
pub fn encoded_rgb(rgb: &[u8], size: [usize; 2]) -> Option<Vec<u8>> {
    encode(rgb, size, jpeg_encoder::ColorType::Rgb)
}

fn encode(bytes: &[u8], [width, height]: [usize; 2], colours: jpeg_encoder::ColorType) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    let encoder = jpeg_encoder::Encoder::new(&mut out, QUALITY);
    let (width, height) = (u16::try_from(width).ok()?, u16::try_from(height).ok()?);
    encoder.encode(bytes, width, height, colours).ok()?;
    Some(out)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::{Rgba, in_bands};

    #[test]
    fn a_copy_made_in_bands_is_the_one_made_at_once() {
        let (width, height) = (301, 227);
        let mut noise = 1_u32;
        let bytes = (0..width * height * 4).map(|_| {
            noise = noise.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            noise.to_be_bytes()[0]
        });
        let picture = Rgba {
            width,
            height,
            bytes: bytes.collect(),
        };
        for size in [[160, 120], [151, 113], [300, 226], [40, 30], [1, 1], [7, 200]] {
            let once = in_bands(&picture, size, usize::MAX / (size[0] * 4)).unwrap();
            for rows in [1, 8, 50, 128] {
                let banded = in_bands(&picture, size, rows).unwrap();
                let differ = once
                    .bytes
                    .iter()
                    .zip(&banded.bytes)
                    .map(|(one, other)| one.abs_diff(*other));
                assert_eq!(banded.bytes.len(), once.bytes.len());
                // A band begins at a place that is rounded: a step of one in a value is no seam.
                assert!(differ.max().unwrap() <= 1, "{size:?} in bands of {rows}");
            }
        }
    }
}
