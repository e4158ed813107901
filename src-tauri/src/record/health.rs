//! The check of a whole job in plain words: what is damaged, what is whole, what to do.

use std::collections::BTreeSet;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use serde::Serialize;
use sha2::{Digest, Sha256};

use super::chain::ChainFault;
use super::{Hash, RecordError, Store};

/// What the check of a job found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Health {
    /// Whether everything is as it was kept.
    pub whole: bool,
    /// Number of entries.
    pub entries: i64,
    /// Where the chains do not hold.
    pub faults: Vec<ChainFault>,
    /// Number of photos whose file is as it was taken in.
    pub photos_whole: usize,
    /// Photos whose file is not there.
    pub photos_missing: Vec<Hash>,
    /// Photos whose file holds other bytes.
    pub photos_changed: Vec<Hash>,
    /// What is damaged, what is whole, and what to do: one sentence each.
    pub words: Vec<String>,
}

impl Store {
    /// Checks every chain and every photo's bytes. Reads everything, which takes a few seconds for hundreds of photos.
    ///
    /// # Errors
    ///
    /// What the database said; whatever is wrong with the job itself is an answer.
    pub fn health(&self) -> Result<Health, RecordError> {
        let faults = self.verify_chain()?;
        let (mut photos_whole, mut photos_missing, mut photos_changed) = (0, Vec::new(), Vec::new());
        let named: BTreeSet<Hash> = self.photo_rows()?.into_iter().map(|row| row.sha).collect();
        for sha in named {
            match hash_file(&self.photo_folder().join(sha.to_string())) {
                Ok(found) if found == sha => photos_whole += 1,
                Ok(_) => photos_changed.push(sha),
                Err(_) => photos_missing.push(sha),
            }
        }
        let mut health = Health {
            whole: faults.is_empty() && photos_missing.is_empty() && photos_changed.is_empty(),
            entries: self.entries_there()?,
            faults,
            photos_whole,
            photos_missing,
            photos_changed,
            words: Vec::new(),
        };
        health.words = words(&health);
        Ok(health)
    }
}

/// SHA-256 of a file, read in pieces.
pub(crate) fn hash_file(path: &Path) -> io::Result<Hash> {
    let (mut file, mut sha) = (File::open(path)?, Sha256::new());
    let mut buffer = vec![0; 64 * 1024];
    loop {
        let count = file.read(&mut buffer)?;
        let Some(part) = buffer.get(..count).filter(|part| !part.is_empty()) else {
            break;
        };
        sha.update(part);
    }
    Ok(Hash::from_bytes(sha.finalize().into()))
}

fn words(found: &Health) -> Vec<String> {
    let mut words = Vec::new();
    for fault in found.faults.iter().take(20) {
        words.push(format!(
            "Damaged: entry {} of phone {}: {}.",
            fault.seq,
            fault.device.chars().take(8).collect::<String>(),
            fault.what
        ));
    }
    if found.faults.len() > 20 {
        words.push(format!("{} more entries do not hold.", found.faults.len() - 20));
    }
    for sha in &found.photos_missing {
        words.push(format!("Missing: the file of photo {}.", sha.short()));
    }
    for sha in &found.photos_changed {
        words.push(format!("Changed: the file of photo {} holds other bytes.", sha.short()));
    }
    let entries = usize::try_from(found.entries).unwrap_or_default();
    words.push(format!(
        "Whole: {} of {entries} entries and {} of {} photos.",
        entries.saturating_sub(found.faults.len()),
        found.photos_whole,
        found.photos_whole + found.photos_missing.len() + found.photos_changed.len()
    ));
    if !found.faults.is_empty() {
        words.push(
            "What to do: keep this folder as it is, write nothing more into this job, and compare it with the last pack \
             and the last seal that was given."
                .to_owned(),
        );
    } else if !found.whole {
        words.push("What to do: take in a pack of this job; its photos are put back from it.".to_owned());
    }
    words
}
