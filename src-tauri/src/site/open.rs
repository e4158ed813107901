//! A job as it is opened: all that its screens need at once.
//!
//! What is read for it grows with what was decided about the wall (proposals, rounds, findings, repairs, permits, stops),
//! and not with the notes and photos beside it.

use super::line::{PhotoLine, photo_page};
use super::{Kept, Passed, RoundLine, SiteState, fields, kept, passed_in, rounds, state};
use crate::failure::Answer;
use crate::form::Fields;
use crate::record::Store;
use serde::Serialize;
use uuid::Uuid;

/// Photos that come with a job; older ones are asked for.
pub const PHOTOS: u32 = 60;

/// A job with all that its screens need at once.
#[derive(Debug, Serialize)]
pub struct OpenJob {
    id: Uuid,
    name: String,
    place: String,
    country: String,
    demo: bool,
    fields: Fields,
    counter: i64,
    kept: Option<Kept>,
    /// The newest photos.
    photos: Vec<PhotoLine>,
    /// Whether there are older ones.
    more_photos: bool,
    rounds: Vec<RoundLine>,
    stops: Vec<Passed>,
    state: SiteState,
    entries: i64,
}

/// Reads a job.
///
/// # Errors
///
/// What the record said.
pub fn open(store: &Store) -> Answer<OpenJob> {
    let info = store.info()?;
    let state = state(store)?;
    let mut photos = photo_page(store, None, PHOTOS + 1)?;
    let more_photos = photos.len() > PHOTOS as usize;
    photos.truncate(PHOTOS as usize);
    let mut rounds = rounds(store)?;
    rounds.reverse();
    Ok(OpenJob {
        id: info.id,
        name: info.name,
        place: info.place,
        country: info.country,
        demo: info.demo,
        fields: fields(store)?,
        counter: store.draft_counter()?,
        kept: kept(store)?,
        photos,
        more_photos,
        rounds,
        stops: passed_in(store, &state)?,
        state,
        entries: store.entry_count()?,
    })
}
