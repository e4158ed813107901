//! A file made of bytes and of files that lie elsewhere, so that one with hundreds of photos in it is never held whole.

use std::fs::File;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// How much is written at once, bytes.
const BUFFER: usize = 256 * 1024;

/// A part of such a file.
#[derive(Clone, Debug)]
pub enum Piece {
    /// Bytes that are there.
    Held(Arc<Vec<u8>>),
    /// A whole file, and how many bytes it had when it was looked at.
    File {
        /// Where it lies.
        path: PathBuf,
        /// Its length, bytes.
        bytes: u64,
    },
}

impl Piece {
    /// A file as it is now.
    ///
    /// # Errors
    ///
    /// What the system says where it is not there.
    pub fn file(path: PathBuf) -> io::Result<Self> {
        let bytes = std::fs::metadata(&path)?.len();
        Ok(Self::File { path, bytes })
    }

    /// Length, bytes.
    #[must_use]
    pub fn bytes(&self) -> u64 {
        match self {
            Self::Held(held) => u64::try_from(held.len()).unwrap_or(u64::MAX),
            Self::File { bytes, .. } => *bytes,
        }
    }

    /// Its first bytes, at most `most`.
    ///
    /// # Errors
    ///
    /// What the system says where a file cannot be read.
    pub fn head(&self, most: usize) -> io::Result<Vec<u8>> {
        match self {
            Self::Held(held) => Ok(held.iter().take(most).copied().collect()),
            Self::File { path, .. } => {
                let mut head = Vec::new();
                File::open(path)?
                    .take(u64::try_from(most).unwrap_or(u64::MAX))
                    .read_to_end(&mut head)?;
                Ok(head)
            }
        }
    }
}

/// The parts of a file in their order.
#[derive(Clone, Debug, Default)]
pub struct Pieces(Vec<Piece>);

impl From<Vec<u8>> for Pieces {
    fn from(bytes: Vec<u8>) -> Self {
        Self(vec![Piece::Held(Arc::new(bytes))])
    }
}

impl From<Vec<Piece>> for Pieces {
    fn from(pieces: Vec<Piece>) -> Self {
        Self(pieces)
    }
}

impl Pieces {
    /// Length of the whole, bytes.
    #[must_use]
    pub fn bytes(&self) -> u64 {
        self.0.iter().map(Piece::bytes).sum()
    }

    /// Reads the whole through, each file when its turn comes. A file that has another length than when it was looked at
    /// ends the reading with [`io::ErrorKind::InvalidData`].
    pub fn reader(&self) -> impl Read {
        Reader {
            rest: self.0.iter(),
            now: Now::Nothing,
        }
    }

    /// Writes the whole.
    ///
    /// # Errors
    ///
    /// What reading or writing says.
    pub fn write_to(&self, out: &mut impl Write) -> io::Result<()> {
        let mut from = self.reader();
        let mut buffer = vec![0; BUFFER];
        loop {
            let count = from.read(&mut buffer)?;
            match buffer.get(..count).filter(|part| !part.is_empty()) {
                Some(part) => out.write_all(part)?,
                None => return Ok(()),
            }
        }
    }

    /// All of it at once, for what is known to be small.
    ///
    /// # Errors
    ///
    /// As [`Pieces::write_to`].
    pub fn whole(&self) -> io::Result<Vec<u8>> {
        let mut all = Vec::new();
        self.reader().read_to_end(&mut all)?;
        Ok(all)
    }
}

/// What is being read.
enum Now<'p> {
    Nothing,
    Held(&'p [u8]),
    File(File, u64, &'p Path),
}

struct Reader<'p> {
    rest: std::slice::Iter<'p, Piece>,
    now: Now<'p>,
}

impl Read for Reader<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if buffer.is_empty() {
            return Ok(0);
        }
        loop {
            let count = match &mut self.now {
                Now::Nothing => 0,
                Now::Held(held) => held.read(buffer)?,
                Now::File(file, left, path) => read_file(file, left, path, buffer)?,
            };
            if count > 0 {
                return Ok(count);
            }
            self.now = match self.rest.next() {
                None => return Ok(0),
                Some(Piece::Held(held)) => Now::Held(held),
                Some(Piece::File { path, bytes }) => Now::File(File::open(path)?, *bytes, path),
            };
        }
    }
}

/// Reads on in a file of which `left` bytes are still to come.
fn read_file(file: &mut File, left: &mut u64, path: &Path, buffer: &mut [u8]) -> io::Result<usize> {
    let count = file.read(buffer)?;
    let read = u64::try_from(count).unwrap_or(u64::MAX);
    let changed = if count == 0 { *left > 0 } else { read > *left };
    if changed {
        let what = format!("{} has another length than a moment ago; begin again", path.display());
        return Err(io::Error::new(io::ErrorKind::InvalidData, what));
    }
    *left -= read;
    Ok(count)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::{Piece, Pieces};
    use std::io::ErrorKind;
    use std::sync::Arc;

    fn held(bytes: &[u8]) -> Piece {
        Piece::Held(Arc::new(bytes.to_vec()))
    }

    #[test]
    fn pieces_are_read_in_their_order_and_empty_ones_end_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let file = |name: &str, bytes: &[u8]| {
            let path = folder.path().join(name);
            std::fs::write(&path, bytes).unwrap();
            Piece::file(path).unwrap()
        };
        let long = vec![7; 100_000];
        let all: Pieces = vec![
            held(b"ab"),
            held(b""),
            file("empty", b""),
            file("long", &long),
            held(b"c"),
        ]
        .into();
        let mut wanted = b"ab".to_vec();
        wanted.extend(&long);
        wanted.push(b'c');
        assert!(all.whole().unwrap() == wanted);
        assert_eq!(all.bytes(), 100_003);
        assert_eq!(file("short", b"xyz").head(2).unwrap(), b"xy");
    }

    #[test]
    fn a_file_of_another_length_than_before_is_refused() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("view");
        for now in ["abc", "abcde", ""] {
            std::fs::write(&path, "abcd").unwrap();
            let pieces: Pieces = vec![held(b"-"), Piece::file(path.clone()).unwrap(), held(b"-")].into();
            assert_eq!(pieces.whole().unwrap(), b"-abcd-");
            std::fs::write(&path, now).unwrap();
            assert_eq!(pieces.whole().unwrap_err().kind(), ErrorKind::InvalidData, "{now:?}");
        }
    }
}
