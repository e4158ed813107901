//! Putting a job away: only once a pack holds all of it.

use std::fs::File;
use std::io::BufReader;
use std::path::{Path, PathBuf};

use uuid::Uuid;

use crate::record::Jobs;

use super::error::file;
use super::verify::check;
use super::{PackError, Verdict};

/// Puts the job `id` away: its folder moves to `away/`, whole. The pack at `path` must be intact, of this job, hold every
/// entry up to its last, and every photo. The job must not be open elsewhere.
///
/// # Errors
///
/// [`PackError::NotPutAway`] with the reason, otherwise what the files or the record said.
pub fn put_away(jobs: &Jobs, id: Uuid, path: &Path) -> Result<PathBuf, PackError> {
    let refused = |what: String| Err(PackError::NotPutAway { what });
    let mut pack = BufReader::new(File::open(path).map_err(file("Open the pack", path))?);
    let checked = check(&mut pack, None);
    if checked.answer.verdict != Verdict::Intact {
        return refused(format!("its pack is not as it was written ({})", checked.answer));
    }
    let Some((job, entries)) = checked.record.filter(|(job, _)| *job == id) else {
        return refused("that pack is of another job".to_owned());
    };
    let store = jobs.open_job(job)?;
    let here = store.all_entries()?;
    let packed: std::collections::HashSet<_> = entries.iter().map(|entry| entry.hash).collect();
    let later = here.iter().filter(|entry| !packed.contains(&entry.hash)).count();
    if later > 0 {
        return refused(format!("{later} entries are not in that pack; make a new one"));
    }
    if let Some(note) = checked.answer.notes.iter().find(|note| note.starts_with("photos/")) {
        return refused(format!("that pack does not hold every photo ({note})"));
    }
    drop(store);
    Ok(jobs.move_away(id)?)
}
