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
    drop(decoder);
    let (width, height) = (usize::from(about.width), usize::from(about.height));
    let rgba = match about.pixel_format {
        PixelFormat::RGB24 => widened(samples, width)?,
        PixelFormat::L8 => samples.iter().flat_map(|&grey| [grey, grey, grey, 255]).collect(),
        PixelFormat::L16 | PixelFormat::CMYK32 => return None,
    };
    (rgba.len() == width * height * 4).then_some(Rgba {
        width,
        height,
        bytes: rgba,
    })
}

/// Three bytes a pixel made four where they lie, row by row from the last: the picture is never held twice.
fn widened(mut samples: Vec<u8>, width: usize) -> Option<Vec<u8>> {
    let (narrow, wide) = (width * 3, width * 4);
    let rows = samples.len().checked_div(narrow)?;
    samples.resize(rows * wide, 255);
    let mut row = vec![0; narrow];
    for at in (0..rows).rev() {
        row.copy_from_slice(samples.get(at * narrow..(at + 1) * narrow)?);
        let to = samples.get_mut(at * wide..(at + 1) * wide)?;
        for (to, &[r, g, b]) in to.as_chunks_mut::<4>().0.iter_mut().zip(row.as_chunks::<3>().0) {
            *to = [r, g, b, 255];
        }
    }
    Some(samples)
}
