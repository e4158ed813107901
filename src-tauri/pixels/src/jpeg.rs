//! Walking a JPEG's markers, to read its size and to see whether it was cut short, without decoding it.
//!
//! Source: ITU-T T.81, annex B (markers), from memory.

/// Width and height of the first frame, pixels.
pub fn size(bytes: &[u8]) -> Option<(u32, u32)> {
    let body = frame(bytes)?;
    let (height, width) = (u32::from(word(body, 1)?), u32::from(word(body, 3)?));
    (width > 0 && height > 0).then_some((width, height))
}

/// Whether each sample has 8 bits, and a pixel one of them or three: grey or colour as every camera writes it.
pub fn plain(bytes: &[u8]) -> bool {
    frame(bytes).is_some_and(|body| matches!(body, [8, _, _, _, _, 1 | 3, ..]))
}

/// Contents of the first frame's header.
fn frame(bytes: &[u8]) -> Option<&[u8]> {
    let mut at = 2;
    while let Some((marker, body)) = segment(bytes, at) {
        // C4, C8 and CC stand among the frame markers but begin no frame.
        if matches!(marker, 0xC0..=0xCF) && !matches!(marker, 0xC4 | 0xC8 | 0xCC) {
            return Some(body);
        }
        if marker == 0xDA {
            return None;
        }
        at = next(bytes, at)?;
    }
    None
}

/// Whether the end-of-image marker follows the scans. What phones append after it does not matter.
pub fn complete(bytes: &[u8]) -> bool {
    scans(bytes).is_some()
}

/// Number of scans before the end-of-image marker; `None` where that is missing.
pub fn scans(bytes: &[u8]) -> Option<usize> {
    let (mut at, mut scans) = (2, 0);
    while let Some((marker, _)) = segment(bytes, at) {
        let mut after = next(bytes, at)?;
        if marker == 0xDA {
            scans += 1;
            // Coded data: a marker is FF followed by neither 00 (stuffing), D0–D7 (restart) nor FF (fill).
            loop {
                after += memchr::memchr(0xFF, bytes.get(after..)?)?;
                match bytes.get(after + 1)? {
                    0x00 | 0xD0..=0xD7 => after += 2,
                    0xFF => after += 1,
                    0xD9 => return Some(scans),
                    _ => break,
                }
            }
        }
        at = after;
    }
    None
}

/// Marker and contents of the segment at `at`.
fn segment(bytes: &[u8], at: usize) -> Option<(u8, &[u8])> {
    let at = skip_fill(bytes, at)?;
    let length = usize::from(word(bytes, at + 2)?);
    Some((*bytes.get(at + 1)?, bytes.get(at + 4..at + 2 + length.max(2))?))
}

/// Where the segment after the one at `at` begins.
fn next(bytes: &[u8], at: usize) -> Option<usize> {
    let at = skip_fill(bytes, at)?;
    Some(at + 2 + usize::from(word(bytes, at + 2)?).max(2))
}

/// The last FF of the fill bytes before a marker.
fn skip_fill(bytes: &[u8], mut at: usize) -> Option<usize> {
    if bytes.get(at) != Some(&0xFF) {
        return None;
    }
    while bytes.get(at + 1) == Some(&0xFF) {
        at += 1;
    }
    Some(at)
}

fn word(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes([*bytes.get(at)?, *bytes.get(at + 1)?]))
}
