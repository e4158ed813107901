//! A JPEG opened smaller than it is: of each block of 8 × 8 pixels only as many frequencies are turned back as the copy
//! needs, so that a copy costs little more than reading the coded data, and the whole picture never lies in memory.

use jpeg_decoder::{Decoder, PixelFormat};

use crate::{PIXEL_LIMIT, Rgba, SCANS, jpeg};

/// The picture at an eighth, a quarter or half of its size: the smallest of these whose longest side is at least `longest_px`.
/// `None` where none of them is, and for whatever is not a plain JPEG with its end; that is left to the decoder of whole
/// pictures, which is faster where nothing is left out.
#[must_use]
pub fn scaled(bytes: &[u8], longest_px: usize) -> Option<Rgba> {
    let (width, height) = jpeg::size(bytes)?;
    let sound = jpeg::plain(bytes) && jpeg::scans(bytes).is_some_and(|scans| scans <= SCANS);
    if !sound || u64::from(width) * u64::from(height) > PIXEL_LIMIT {
        return None;
    }
    let side = u16::try_from(longest_px).ok()?;
    if width.max(height) < u32::from(side) * 2 {
        return None;
    }
    let mut decoder = Decoder::new(bytes);
    decoder.scale(side, side).ok()?;
    let samples = decoder.decode().ok()?;
    let about = decoder.info()?;
    let rgba: Vec<u8> = match about.pixel_format {
        PixelFormat::RGB24 => samples
            .as_chunks::<3>()
            .0
            .iter()
            .flat_map(|&[r, g, b]| [r, g, b, 255])
            .collect(),
        PixelFormat::L8 => samples.iter().flat_map(|&grey| [grey, grey, grey, 255]).collect(),
        PixelFormat::L16 | PixelFormat::CMYK32 => return None,
    };
    let (width, height) = (usize::from(about.width), usize::from(about.height));
    (rgba.len() == width * height * 4).then_some(Rgba {
        width,
        height,
        bytes: rgba,
    })
}
