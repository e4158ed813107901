//! SHA-256 values, printed as 64 hex digits.

use std::fmt;
use std::str::FromStr;

use rusqlite::types::{FromSql, FromSqlError, FromSqlResult, ToSql, ToSqlOutput, ValueRef};
use serde::{Serialize, Serializer};
use sha2::{Digest, Sha256};

/// A SHA-256 value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Hash([u8; 32]);

impl Hash {
    /// Stands before the first entry of a chain.
    pub const ZERO: Self = Self([0; 32]);

    /// SHA-256 of `bytes`.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// SHA-256 of a domain tag, a line feed, and `text`. The tag keeps a hash made for one purpose from serving another.
    #[must_use]
    pub fn tagged(tag: &str, text: &str) -> Self {
        let mut hasher = Sha256::new();
        hasher.update(tag.as_bytes());
        hasher.update(b"\n");
        hasher.update(text.as_bytes());
        Self(hasher.finalize().into())
    }

    /// Takes the 32 bytes as they are.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// The 32 bytes.
    #[must_use]
    pub const fn bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// The first 12 hex digits, for people.
    #[must_use]
    pub fn short(&self) -> String {
        self.to_string().chars().take(12).collect()
    }
}

impl fmt::Display for Hash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&hex::encode(self.0))
    }
}

impl FromStr for Hash {
    type Err = hex::FromHexError;

    /// Reads 64 hex digits, either case.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let mut bytes = [0; 32];
        hex::decode_to_slice(text, &mut bytes)?;
        Ok(Self(bytes))
    }
}

impl Serialize for Hash {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl ToSql for Hash {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(ValueRef::Blob(&self.0)))
    }
}

impl FromSql for Hash {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Self> {
        let blob = value.as_blob()?;
        blob.try_into().map(Self).map_err(|_| FromSqlError::InvalidBlobSize {
            expected_size: 32,
            blob_size: blob.len(),
        })
    }
}
