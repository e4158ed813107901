//! One entry of the record, and the text its hash is made over.

use serde::Serialize;
use serde_json::{Value, json};
use uuid::Uuid;

use super::canonical::whole;
use super::{Hash, Kind, Moment, RecordError, canonical};

/// Domain tag of an entry's hash.
const TAG: &str = "upstay entry 1";

/// Largest body kept, bytes of its canonical text (own judgement: a large proposal takes about 100 kB).
pub const BODY_LIMIT_BYTES: usize = 4 * 1024 * 1024;

/// The last entry of a chain.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Head {
    /// The device that writes the chain.
    pub device: Uuid,
    /// Number of its last entry, from 1.
    pub seq: i64,
    /// Hash of its last entry.
    pub hash: Hash,
}

/// An entry about to be added.
#[derive(Clone, Debug)]
pub struct NewEntry {
    /// What it records.
    pub kind: Kind,
    /// Its contents.
    pub body: Value,
    /// The entry it corrects: of the same kind, kept and still shown in the record.
    pub corrects: Option<Hash>,
}

impl NewEntry {
    /// An entry of `kind` holding `body`.
    #[must_use]
    pub const fn new(kind: Kind, body: Value) -> Self {
        Self {
            kind,
            body,
            corrects: None,
        }
    }

    /// Makes this entry a correction of the one with hash `old`.
    #[must_use]
    pub const fn correcting(mut self, old: Hash) -> Self {
        self.corrects = Some(old);
        self
    }
}

/// Place of an entry in fold order: tick, device, number in the device's chain.
pub type Order = (i64, Uuid, i64);

/// One entry as it stands in the record.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Entry {
    /// Place in fold order (tick, device, seq), from 1. Grows when entries of another phone are taken in. 0 where entries of
    /// one kind were read, since counting would read all others too: [`Entry::order`] says which of two comes first.
    pub position: i64,
    /// The device that wrote it.
    pub device: Uuid,
    /// Number in the device's chain, from 1.
    pub seq: i64,
    /// One more than the largest tick known in the job when it was written.
    pub tick: i64,
    /// Heads of the other chains known when it was written.
    pub seen: Vec<Head>,
    /// When, as the phone saw it.
    pub moment: Moment,
    /// What it records.
    pub kind: Kind,
    /// Its contents.
    pub body: Value,
    /// The entry it corrects.
    pub corrects: Option<Hash>,
    /// Hash of the entry before it in its chain.
    pub prev: Hash,
    /// Its own hash.
    pub hash: Hash,
}

impl Entry {
    /// Every field that is hashed, as one JSON object.
    #[must_use]
    pub fn hashed(&self, job: Uuid) -> Value {
        json!({
            "at_utc_ms": self.moment.utc_ms,
            "body": self.body,
            "boot_ms": self.moment.boot_ms,
            "corrects": self.corrects,
            "device": self.device,
            "job": job,
            "kind": self.kind,
            "offset_min": self.moment.offset_min,
            "prev": self.prev,
            "seen": self.seen,
            "seq": self.seq,
            "tick": self.tick,
        })
    }

    /// The hash this entry ought to have: SHA-256 over the tag and [`Entry::hashed`] in canonical JSON.
    ///
    /// # Errors
    ///
    /// [`RecordError::Body`] if the body has no canonical spelling.
    pub fn computed_hash(&self, job: Uuid) -> Result<Hash, RecordError> {
        Ok(hash_of(&canonical(&self.hashed(job))?))
    }

    /// The text of [`Entry::hashed`] in canonical JSON, from the canonical texts of its body and of what it had seen, which are
    /// there already where an entry is written.
    ///
    /// # Errors
    ///
    /// [`RecordError::Body`] for a number beyond ±(2⁵³ − 1).
    pub(super) fn spelled(&self, job: Uuid, body: &str, seen: &str) -> Result<String, RecordError> {
        let or_null = |text: Option<String>| text.unwrap_or_else(|| "null".to_owned());
        let boot_ms = self.moment.boot_ms.map(whole).transpose()?;
        // Canonical JSON has its keys in this order.
        Ok(format!(
            r#"{{"at_utc_ms":{},"body":{body},"boot_ms":{},"corrects":{},"device":"{}","job":"{job}","kind":"{}","offset_min":{},"prev":"{}","seen":{seen},"seq":{},"tick":{}}}"#,
            whole(self.moment.utc_ms)?,
            or_null(boot_ms.map(|ms| ms.to_string())),
            or_null(self.corrects.map(|old| format!("\"{old}\""))),
            self.device,
            self.kind.as_str(),
            self.moment.offset_min,
            self.prev,
            whole(self.seq)?,
            whole(self.tick)?,
        ))
    }

    /// What entries are ordered by, on every phone alike.
    #[must_use]
    pub const fn order(&self) -> Order {
        (self.tick, self.device, self.seq)
    }

    /// The chain position this entry gives to its device.
    #[must_use]
    pub const fn head(&self) -> Head {
        Head {
            device: self.device,
            seq: self.seq,
            hash: self.hash,
        }
    }
}

/// Hash of an entry given as the canonical text of [`Entry::hashed`].
pub(super) fn hash_of(text: &str) -> Hash {
    Hash::tagged(TAG, text)
}
