//! Giving a seal.

use fast_qr::ECL;
use fast_qr::convert::svg::SvgBuilder;
use fast_qr::qr::QRBuilder;
use serde::Serialize;
use serde_json::{Value, json};
use uuid::Uuid;

use crate::record::{Hash, Head, Kind, Moment, NewEntry, RecordError, Store, canonical, head_of};

use super::SealError;
use super::code::{full_text, short_code};

/// Domain tag of a seal's hash.
const TAG: &str = "upstay seal 1";

/// A seal just given.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Seal {
    /// Twelve characters for people.
    pub code: String,
    /// All 256 bits.
    pub hash: Hash,
    /// The square code with all 256 bits, as SVG text.
    pub qr: String,
    /// When, local time as RFC 3339.
    pub at: String,
    /// The entry that stores it.
    pub entry: Hash,
}

/// Seals what the job holds now, and stores the seal with the list it covers.
///
/// # Errors
///
/// [`SealError::Demo`] for the demonstration, [`SealError::Broken`] if the chains do not hold, otherwise what the record
/// said.
pub fn give(store: &mut Store, moment: Moment) -> Result<Seal, SealError> {
    if store.info()?.demo {
        return Err(SealError::Demo);
    }
    if let Some(fault) = store.verify_chain()?.first() {
        return Err(SealError::Broken {
            what: format!("entry {}: {}", fault.seq, fault.what),
        });
    }
    let heads = store.heads()?;
    let hash = digest(store.job(), &heads)?;
    let code = short_code(hash);
    let qr = QRBuilder::new(full_text(hash))
        .ecl(ECL::M)
        .build()
        .map_err(|why| SealError::Picture { what: why.to_string() })?;
    let body = json!({"heads": heads, "code": code, "sha256": hash});
    let entry = store.write(|gate| gate.append(moment, NewEntry::new(Kind::SealGiven, body)))?;
    Ok(Seal {
        code,
        hash,
        qr: SvgBuilder::default().to_str(&qr),
        at: moment.rfc3339(),
        entry: entry.hash,
    })
}

/// SHA-256 of the seal over `heads`, which are taken in the order of their devices.
///
/// # Errors
///
/// [`RecordError::Body`] if a number is too large to be kept exactly.
pub fn digest(job: Uuid, heads: &[Head]) -> Result<Hash, RecordError> {
    let mut sorted = heads.to_vec();
    sorted.sort_by_key(|head| (head.device.to_string(), head.seq));
    Ok(Hash::tagged(TAG, &canonical(&json!({"heads": sorted, "job": job}))?))
}

/// The list a seal's entry stores; `None` if it is not one.
#[must_use]
pub fn heads_in(body: &Value) -> Option<Vec<Head>> {
    body.get("heads")?.as_array()?.iter().map(head_of).collect()
}

/// Code of the job's last seal.
///
/// # Errors
///
/// What the record said.
pub fn last(store: &Store) -> Result<Option<String>, RecordError> {
    let entry = store.last_of(Kind::SealGiven)?;
    Ok(entry.and_then(|entry| entry.body.get("code")?.as_str().map(str::to_owned)))
}
