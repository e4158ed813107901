//! Writing the container, one stored member after the other, to anything that takes bytes.

use std::io::{self, Read, Write};

/// Sizes and offsets from here on stand in zip64 fields.
const FULL_32: u64 = 0xFFFF_FFFF;

/// Counts from here on stand in zip64 fields.
const FULL_16: u64 = 0xFFFF;

/// One member as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::pack) struct Member {
    pub(in crate::pack) name: String,
    pub(in crate::pack) size: u64,
    pub(in crate::pack) crc: u32,
    /// Where its header begins.
    pub(in crate::pack) offset: u64,
}

/// Writes members as they come and the directory at the end.
#[derive(Debug)]
pub(in crate::pack) struct Writer<W> {
    out: W,
    offset: u64,
    members: Vec<Member>,
}

impl<W: Write> Writer<W> {
    /// Begins a container.
    pub(in crate::pack) const fn new(out: W) -> Self {
        Self {
            out,
            offset: 0,
            members: Vec::new(),
        }
    }

    /// Adds a member whose size and CRC-32 are known; fails if `contents` turns out to be otherwise.
    pub(in crate::pack) fn add(&mut self, name: &str, size: u64, crc: u32, contents: impl Read) -> io::Result<()> {
        if size >= FULL_32 || name.len() >= 0xFFFF {
            return Err(io::Error::new(io::ErrorKind::FileTooLarge, "a member is too large"));
        }
        let member = Member {
            name: name.to_owned(),
            size,
            crc,
            offset: self.offset,
        };
        let header = local_header(&member);
        self.out.write_all(&header)?;
        let mut hasher = crc32fast::Hasher::new();
        let mut written = 0_u64;
        let mut contents = contents.take(size + 1);
        let mut buffer = vec![0; 64 * 1024];
        loop {
            let count = contents.read(&mut buffer)?;
            let Some(part) = buffer.get(..count).filter(|part| !part.is_empty()) else {
                break;
            };
            hasher.update(part);
            self.out.write_all(part)?;
            written += u64::try_from(count).unwrap_or(u64::MAX);
        }
        if written != size || hasher.finalize() != crc {
            return Err(io::Error::new(
                io::ErrorKind::InvalidData,
                "a file changed while it was being read",
            ));
        }
        self.offset += u64::try_from(header.len()).unwrap_or(u64::MAX) + size;
        self.members.push(member);
        Ok(())
    }

    /// Writes the directory and hands back what was written to, with the length of the whole.
    pub(in crate::pack) fn finish(mut self) -> io::Result<(W, u64)> {
        let directory = directory(&self.members, self.offset);
        self.out.write_all(&directory)?;
        self.out.flush()?;
        Ok((
            self.out,
            self.offset + u64::try_from(directory.len()).unwrap_or(u64::MAX),
        ))
    }
}

/// The bytes before a member's contents. Sizes are always below 4 GiB, so nothing here needs zip64.
pub(in crate::pack) fn local_header(member: &Member) -> Vec<u8> {
    let mut out = Vec::with_capacity(30 + member.name.len());
    put32(&mut out, 0x0403_4B50);
    put16(&mut out, 20);
    common(&mut out, member);
    put16(&mut out, 0);
    out.extend_from_slice(member.name.as_bytes());
    out
}

/// Everything after the last member's contents, which end at `offset`.
pub(in crate::pack) fn directory(members: &[Member], offset: u64) -> Vec<u8> {
    let mut out = Vec::new();
    for member in members {
        let far = member.offset >= FULL_32;
        put32(&mut out, 0x0201_4B50);
        // Made by: Unix, version 4.5, so that the file rights below are read as such.
        put16(&mut out, 0x032D);
        put16(&mut out, if far { 45 } else { 20 });
        common(&mut out, member);
        put16(&mut out, if far { 12 } else { 0 });
        put16(&mut out, 0);
        put16(&mut out, 0);
        put16(&mut out, 0);
        // A plain file that its owner may write and everybody read.
        put32(&mut out, 0o100_644 << 16);
        put32(&mut out, capped_32(member.offset));
        out.extend_from_slice(member.name.as_bytes());
        if far {
            put16(&mut out, 1);
            put16(&mut out, 8);
            put64(&mut out, member.offset);
        }
    }
    let size = u64::try_from(out.len()).unwrap_or(u64::MAX);
    let count = u64::try_from(members.len()).unwrap_or(u64::MAX);
    if offset >= FULL_32 || size >= FULL_32 || count >= FULL_16 {
        put32(&mut out, 0x0606_4B50);
        put64(&mut out, 44);
        put16(&mut out, 0x032D);
        put16(&mut out, 45);
        put32(&mut out, 0);
        put32(&mut out, 0);
        put64(&mut out, count);
        put64(&mut out, count);
        put64(&mut out, size);
        put64(&mut out, offset);
        put32(&mut out, 0x0706_4B50);
        put32(&mut out, 0);
        put64(&mut out, offset + size);
        put32(&mut out, 1);
    }
    put32(&mut out, 0x0605_4B50);
    put16(&mut out, 0);
    put16(&mut out, 0);
    let short = u16::try_from(count).unwrap_or(u16::MAX);
    put16(&mut out, short);
    put16(&mut out, short);
    put32(&mut out, capped_32(size));
    put32(&mut out, capped_32(offset));
    put16(&mut out, 0);
    out
}

/// What stands in both headers: UTF-8 names, stored, 1980-01-01 00:00 as "no time", CRC-32, sizes, length of the name.
fn common(out: &mut Vec<u8>, member: &Member) {
    put16(out, 0x0800);
    put16(out, 0);
    put16(out, 0);
    put16(out, 0x0021);
    put32(out, member.crc);
    put32(out, capped_32(member.size));
    put32(out, capped_32(member.size));
    put16(out, u16::try_from(member.name.len()).unwrap_or(u16::MAX));
}

fn capped_32(value: u64) -> u32 {
    u32::try_from(value).unwrap_or(u32::MAX)
}

fn put16(out: &mut Vec<u8>, value: u16) {
    out.extend_from_slice(&value.to_le_bytes());
}

fn put32(out: &mut Vec<u8>, value: u32) {
    out.extend_from_slice(&value.to_le_bytes());
}

fn put64(out: &mut Vec<u8>, value: u64) {
    out.extend_from_slice(&value.to_le_bytes());
}
