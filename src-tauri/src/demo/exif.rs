//! The EXIF block of the demo's pictures: as little as a camera could write, so that the time is read as from a camera.
//!
//! Layout after TIFF 6.0 (header, directories of 12-byte entries, values of up to four bytes in the entry itself) and
//! Exif 2.31 (tags 0x9003 and 0x9011), from memory; the crate that reads photos reads it back in the test below.

const TAG_ORIENTATION: u16 = 0x0112;
const TAG_DATE_TIME: u16 = 0x0132;
const TAG_EXIF_DIRECTORY: u16 = 0x8769;
const TAG_DATE_TIME_ORIGINAL: u16 = 0x9003;
const TAG_OFFSET_TIME_ORIGINAL: u16 = 0x9011;

/// What an entry holds.
enum Held<'a> {
    Short(u16),
    Long(u32),
    Ascii(&'a str),
}

/// The content of an APP1 segment: `Exif`, two zero bytes, and a little-endian TIFF of two directories. `taken` is
/// `YYYY:MM:DD HH:MM:SS` in local time, `offset` its distance from UTC as `+00:00`.
#[must_use]
pub fn block(taken: &str, offset: &str) -> Vec<u8> {
    let first = |below: u32| {
        directory(
            8,
            &[
                (TAG_ORIENTATION, Held::Short(1)),
                (TAG_DATE_TIME, Held::Ascii(taken)),
                (TAG_EXIF_DIRECTORY, Held::Long(below)),
            ],
        )
    };
    // The first directory's length does not depend on the number that it holds, so it is laid out twice.
    let below = 8 + first(0).len() as u32;
    let mut tiff = b"II\x2a\x00\x08\x00\x00\x00".to_vec();
    tiff.extend(first(below));
    tiff.extend(directory(
        below,
        &[
            (TAG_DATE_TIME_ORIGINAL, Held::Ascii(taken)),
            (TAG_OFFSET_TIME_ORIGINAL, Held::Ascii(offset)),
        ],
    ));
    let mut block = b"Exif\0\0".to_vec();
    block.extend(tiff);
    block
}

/// One directory that starts `at` bytes into the TIFF, followed by the values that do not fit into its entries.
fn directory(at: u32, entries: &[(u16, Held<'_>)]) -> Vec<u8> {
    let mut table = (entries.len() as u16).to_le_bytes().to_vec();
    let values_at = at + 2 + 12 * entries.len() as u32 + 4;
    let mut values: Vec<u8> = Vec::new();
    for (tag, held) in entries {
        let (kind, count, inline): (u16, u32, [u8; 4]) = match held {
            Held::Short(number) => {
                let [low, high] = number.to_le_bytes();
                (3, 1, [low, high, 0, 0])
            }
            Held::Long(number) => (4, 1, number.to_le_bytes()),
            Held::Ascii(text) => {
                let offset = values_at + values.len() as u32;
                values.extend(text.bytes().chain([0]));
                let count = text.len() as u32 + 1;
                // Values start on even bytes.
                if !values.len().is_multiple_of(2) {
                    values.push(0);
                }
                (2, count, offset.to_le_bytes())
            }
        };
        table.extend(tag.to_le_bytes());
        table.extend(kind.to_le_bytes());
        table.extend(count.to_le_bytes());
        table.extend(inline);
    }
    // No further directory hangs on this one.
    table.extend([0; 4]);
    table.extend(values);
    table
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::block;
    use exif::{In, Reader, Tag};

    #[test]
    fn an_independent_reader_finds_the_time_and_its_offset() {
        let written = block("2026:03:02 09:15:00", "+01:00");
        let tiff = written.strip_prefix(b"Exif\0\0").unwrap().to_vec();
        let read = Reader::new().read_raw(tiff).unwrap();
        let text = |tag| read.get_field(tag, In::PRIMARY).unwrap().display_value().to_string();
        assert_eq!(text(Tag::DateTimeOriginal), "2026-03-02 09:15:00");
        assert_eq!(text(Tag::DateTime), "2026-03-02 09:15:00");
        assert!(text(Tag::OffsetTimeOriginal).contains("+01:00"));
        assert_eq!(
            read.get_field(Tag::Orientation, In::PRIMARY).unwrap().value.get_uint(0),
            Some(1)
        );
    }
}
