//! The container beyond the sizes a test can write to a medium, read by another program.
#![expect(clippy::unwrap_used, reason = "a test that fails is to stop where it fails")]

use std::collections::BTreeMap;
use std::io::{self, Cursor, Read, Seek, SeekFrom, Write};

use super::{Writer, read_directory, read_member};

/// Bytes of which only blocks that are not all zero are held.
#[derive(Default)]
struct Sparse {
    blocks: BTreeMap<u64, Vec<u8>>,
    length: u64,
    at: u64,
}

const BLOCK: u64 = 64 * 1024;

static ZEROS: [u8; 64 * 1024] = [0; 64 * 1024];

impl Write for Sparse {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let inside = self.length % BLOCK;
        let count = bytes.len().min(usize::try_from(BLOCK - inside).unwrap());
        let part = bytes.get(..count).unwrap();
        if Some(part) != ZEROS.get(..count) {
            let block = self.blocks.entry(self.length / BLOCK).or_default();
            block.resize(usize::try_from(inside).unwrap(), 0);
            block.extend_from_slice(part);
        }
        self.length += u64::try_from(count).unwrap();
        Ok(count)
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Read for Sparse {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let left = (BLOCK - self.at % BLOCK).min(self.length.saturating_sub(self.at));
        let count = out.len().min(usize::try_from(left).unwrap());
        let out = out.get_mut(..count).unwrap();
        out.fill(0);
        if let Some(block) = self.blocks.get(&(self.at / BLOCK)) {
            let kept = block
                .get(usize::try_from(self.at % BLOCK).unwrap()..)
                .unwrap_or_default();
            for (target, byte) in out.iter_mut().zip(kept) {
                *target = *byte;
            }
        }
        self.at += u64::try_from(count).unwrap();
        Ok(count)
    }
}

impl Seek for Sparse {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        self.at = match to {
            SeekFrom::Start(at) => at,
            SeekFrom::End(by) => self.length.checked_add_signed(by).unwrap(),
            SeekFrom::Current(by) => self.at.checked_add_signed(by).unwrap(),
        };
        Ok(self.at)
    }
}

/// Nothing but zeros, in large pieces.
struct Zeros;

impl Read for Zeros {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        out.fill(0);
        Ok(out.len())
    }
}

/// Members that begin beyond 4 GiB stand in zip64 fields; another program and this one find them.
#[test]
fn beyond_four_gigabytes_the_last_member_is_found() {
    let mut zip = Writer::new(Sparse::default());
    let large = 2200 * 1024 * 1024;
    let mut crc = crc32fast::Hasher::new();
    for _ in 0..large / BLOCK {
        crc.update(&ZEROS);
    }
    let crc = crc.finalize();
    for name in ["one", "two"] {
        zip.add(name, large, crc, Zeros.take(large)).unwrap();
    }
    zip.add("last", 5, crc32fast::hash(b"words"), b"words".as_slice())
        .unwrap();
    let (mut sparse, length) = zip.finish().unwrap();
    assert_eq!(length, sparse.length);
    let listed = read_directory(&mut sparse).unwrap();
    let last = listed.last().unwrap();
    assert_eq!((listed.len(), last.offset), (3, 2 * (large + 30 + 3)));
    assert_eq!(
        read_member(&mut sparse, last, true, 100).unwrap().bytes.unwrap(),
        b"words"
    );
    let mut other = zip::ZipArchive::new(&mut sparse).unwrap();
    let mut words = String::new();
    other.by_name("last").unwrap().read_to_string(&mut words).unwrap();
    assert_eq!((other.len(), words.as_str()), (3, "words"));
}

/// More members than 16 bits count.
#[test]
fn beyond_65535_members_all_are_found() {
    let mut zip = Writer::new(Cursor::new(Vec::new()));
    for number in 0..66_000 {
        zip.add(&format!("photos/{number}.jpg"), 0, 0, io::empty()).unwrap();
    }
    let (mut bytes, _) = zip.finish().unwrap();
    assert_eq!(read_directory(&mut bytes).unwrap().len(), 66_000);
    assert_eq!(zip::ZipArchive::new(bytes).unwrap().len(), 66_000);
}

/// A file that changes between being measured and being copied is noticed.
#[test]
fn contents_that_are_not_as_measured_are_refused() {
    let crc = crc32fast::hash(b"words");
    for contents in [b"word".as_slice(), b"wordss", b"worsd"] {
        assert!(Writer::new(Vec::new()).add("a", 5, crc, contents).is_err());
    }
}

/// Two lines that share bytes, as bombs do.
#[test]
fn members_that_overlap_are_refused() {
    let mut zip = Writer::new(Cursor::new(Vec::new()));
    zip.add("a", 5, crc32fast::hash(b"words"), b"words".as_slice()).unwrap();
    zip.add("b", 5, crc32fast::hash(b"words"), b"words".as_slice()).unwrap();
    let mut bytes = zip.finish().unwrap().0.into_inner();
    let second = bytes.windows(4).rposition(|part| part == b"PK\x01\x02").unwrap();
    bytes.get_mut(second + 42..second + 46).unwrap().fill(0);
    assert!(read_directory(&mut Cursor::new(bytes)).unwrap_err().contains("overlap"));
}
