//! Taking a pack in: as a new job, or into a job that is here. Chains only grow; what does not fit is told, never forced.
//!
//! Backup and restore is the same thing: the old phone's chain is read, and this installation writes one of its own.

use std::collections::{HashMap, HashSet};
use std::fs::File;
use std::io::{BufReader, Read, Seek};
use std::path::Path;

use serde::Serialize;
use serde_json::{Value, json};
use uuid::Uuid;

use crate::photos::BYTE_LIMIT;
use crate::record::{
    Disk, Entry, Hash, Jobs, Kind, LeftOut, Moment, NewEntry, RecordError, Room, Store, Taken, check_foreign,
    free_bytes, hash_file, keep_file,
};

use super::container::{Listed, read_member};
use super::error::file;
use super::names::photo_files;
use super::verify::check;
use super::{PackError, Verdict};

/// Most entries taken in (own judgement: a job of two years with thirty entries a day has some twenty thousand).
const ENTRIES: usize = 50_000;

/// Most left-out entries told and written down one by one.
const TOLD: usize = 50;

/// What taking a pack in came to.
#[derive(Clone, Debug, Serialize)]
pub struct Imported {
    /// The job.
    pub job: Uuid,
    /// Whether it was not here before.
    pub new_job: bool,
    /// Number of entries that were new here.
    pub added: usize,
    /// Number of entries that stood here already.
    pub known: usize,
    /// Number of photos copied.
    pub photos: usize,
    /// Entries that do not fit what stands here, the first fifty.
    pub left_out: Vec<LeftOut>,
    /// What happened, one sentence each.
    pub words: Vec<String>,
    /// The entry that says so; `None` if there was nothing new.
    pub entry: Option<Hash>,
}

/// A pack that was read and found whole.
struct Source<P> {
    pack: P,
    job: Uuid,
    entries: Vec<Entry>,
    /// Where each photo lies in the pack.
    photos: Vec<(Hash, Listed)>,
    /// The container was written anew.
    rewritten: bool,
}

/// Takes the pack at `path` in. The job it belongs to must not be open elsewhere. An interrupted import is simply done
/// again.
///
/// # Errors
///
/// [`PackError::Changed`] for a pack that is not as it was written, [`PackError::NoRoom`] if the phone is too full,
/// otherwise what the record or a file said. Nothing of the job is changed then, except that photos may lie ready.
pub fn import(jobs: &Jobs, path: &Path, moment: Moment) -> Result<Imported, PackError> {
    let pack = BufReader::new(File::open(path).map_err(file("Open the pack", path))?);
    let mut source = opened(pack)?;
    if jobs.folder(source.job).is_dir() {
        merged(jobs, &mut source, moment)
    } else {
        begun(jobs, &mut source, moment)
    }
}

fn opened<P: Read + Seek>(mut pack: P) -> Result<Source<P>, PackError> {
    let checked = check(&mut pack, None);
    let (Some((job, entries)), true) = (checked.record, checked.answer.verdict != Verdict::Changed) else {
        return Err(PackError::Changed {
            places: checked.answer.places,
        });
    };
    if entries.len() > ENTRIES {
        let what = format!(
            "it has {} entries, more than the {ENTRIES} that a job can have",
            entries.len()
        );
        return Err(RecordError::Foreign { what }.into());
    }
    check_foreign(job, &entries)?;
    let mut lines: HashMap<String, Listed> = checked
        .listed
        .into_iter()
        .map(|line| (line.name.clone(), line))
        .collect();
    let photos = photo_files(&entries)
        .into_iter()
        .filter_map(|photo| Some((photo.sha, lines.remove(&photo.file)?)))
        .collect();
    Ok(Source {
        pack,
        job,
        entries,
        photos,
        rewritten: checked.answer.verdict == Verdict::ContentsIntact,
    })
}

/// The job is not here: its folder appears under its name once everything is in it.
fn begun<P: Read + Seek>(jobs: &Jobs, source: &mut Source<P>, moment: Moment) -> Result<Imported, PackError> {
    // This installation's own chain comes back from outside: going on with it could write a second story.
    let own_chain = source.entries.iter().any(|entry| entry.device == jobs.device());
    let mut done = None;
    let job = source.job;
    jobs.build(job, own_chain, |store: &mut Store| -> Result<(), PackError> {
        let all = source.photos.iter().map(|(sha, _)| *sha).collect();
        let photos = copy_photos(jobs.disk(), store, source, &all)?;
        done = Some(written(store, source, photos, true, moment)?);
        Ok(())
    })?;
    done.ok_or_else(|| RecordError::NoJob { job }.into())
}

fn merged<P: Read + Seek>(jobs: &Jobs, source: &mut Source<P>, moment: Moment) -> Result<Imported, PackError> {
    let mut store = jobs.open_job(source.job)?;
    let (wanted, own_goes_on) = {
        let plan = store.plan(&source.entries)?;
        let own = plan.added.iter().any(|entry| entry.device == store.device());
        (photos_of(&source.entries, &plan), own)
    };
    if own_goes_on {
        drop(store);
        jobs.new_chain(source.job)?;
        store = jobs.open_job(source.job)?;
    }
    let photos = copy_photos(jobs.disk(), &store, source, &wanted)?;
    written(&mut store, source, photos, false, moment)
}

/// Photos that the job will name afterwards: of its own entries, which may have lost a file, and of those that are new.
fn photos_of(entries: &[Entry], plan: &Taken<'_>) -> HashSet<Hash> {
    let left: HashSet<Hash> = plan.left_out.iter().map(|one| one.hash).collect();
    entries
        .iter()
        .filter(|entry| entry.kind == Kind::PhotoTaken && !left.contains(&entry.hash))
        .filter_map(|entry| entry.body.get("sha256").and_then(Value::as_str)?.parse().ok())
        .collect()
}

/// Copies those of the `wanted` photos that are not here as they were taken in; gives their number.
fn copy_photos<P: Read + Seek>(
    disk: &dyn Disk,
    store: &Store,
    source: &mut Source<P>,
    wanted: &HashSet<Hash>,
) -> Result<usize, PackError> {
    let folder = store.photo_folder();
    disk.make_folder(&folder)
        .map_err(file("Make the folder of photos", &folder))?;
    let lacking: Vec<&(Hash, Listed)> = source
        .photos
        .iter()
        .filter(|(sha, _)| wanted.contains(sha))
        .filter(|(sha, _)| hash_file(&folder.join(sha.to_string())).ok() != Some(*sha))
        .collect();
    let size = lacking
        .iter()
        .fold(0_u64, |sum, (_, line)| sum.saturating_add(line.size));
    if let Some(what) = Room::lacking(free_bytes(&folder), size) {
        return Err(PackError::NoRoom { what });
    }
    for (sha, line) in &lacking {
        let read = read_member(&mut source.pack, line, true, BYTE_LIMIT);
        // Read a second time: the file may have been changed since it was checked.
        let bytes = read
            .ok()
            .filter(|content| content.sha == *sha)
            .and_then(|content| content.bytes)
            .ok_or_else(|| PackError::Changed {
                places: vec![format!("{}: it changed while it was being read", line.name)],
            })?;
        let name = sha.to_string();
        keep_file(disk, &folder, &name, &bytes).map_err(file("Keep a photo", &folder.join(&name)))?;
    }
    // An earlier attempt may have given names that are not on the medium yet.
    disk.sync_folder(&folder)
        .map_err(file("Keep the folder of photos", &folder))?;
    Ok(lacking.len())
}

/// Adds the entries and the one that says so, all in one transaction.
fn written<P>(
    store: &mut Store,
    source: &Source<P>,
    photos: usize,
    new_job: bool,
    moment: Moment,
) -> Result<Imported, PackError> {
    let pack = source.entries.last().map_or(Hash::ZERO, |made| made.hash);
    let told_before = store
        .of_kind(Kind::Import)?
        .iter()
        .any(|entry| entry.body.get("pack").and_then(Value::as_str) == Some(pack.to_string().as_str()));
    let job = source.job;
    store.write(|gate| {
        let taken = gate.take_in(&source.entries)?;
        let words = words(&taken, photos, source.rewritten);
        let nothing_new = taken.added.is_empty() && photos == 0 && (taken.left_out.is_empty() || told_before);
        let entry = if nothing_new {
            None
        } else {
            let mut devices: Vec<Uuid> = taken.added.iter().map(|entry| entry.device).collect();
            devices.sort_unstable();
            devices.dedup();
            let body = json!({
                "pack": pack,
                "added": taken.added.len(),
                "known": taken.known,
                "photos": photos,
                "devices": devices,
                "left_out": taken.left_out.iter().take(TOLD).collect::<Vec<_>>(),
                "left_out_count": taken.left_out.len(),
                "words": words.join(" "),
            });
            Some(gate.append(moment, NewEntry::new(Kind::Import, body))?.hash)
        };
        Ok(Imported {
            job,
            new_job,
            added: taken.added.len(),
            known: taken.known,
            photos,
            left_out: taken.left_out.into_iter().take(TOLD).collect(),
            words,
            entry,
        })
    })
}

fn words(taken: &Taken<'_>, photos: usize, rewritten: bool) -> Vec<String> {
    let mut words = Vec::new();
    if taken.added.is_empty() && photos == 0 {
        words.push("Nothing in this pack is new here.".to_owned());
    } else {
        words.push(format!(
            "Taken in: {} entries and {photos} photos; {} entries stood here already.",
            taken.added.len(),
            taken.known
        ));
    }
    if rewritten {
        words.push("The container of the pack was written anew; its contents are as they were.".to_owned());
    }
    if !taken.left_out.is_empty() {
        words.push(format!(
            "Left out: {} entries that say something else than what stands here, or follow one that does. What stands here \
             was not changed. Keep that pack: one of the two phones went on from an older copy, or a record was changed.",
            taken.left_out.len()
        ));
        words.extend(taken.left_out.iter().take(5).map(|one| {
            let what = format!(
                "Entry {} of phone {} ({}, {})",
                one.seq,
                one.device.to_string().chars().take(8).collect::<String>(),
                one.kind.title(),
                one.at
            );
            match one.here {
                Some(here) => format!("{what}: {} there, {} here.", one.hash.short(), here.short()),
                None => format!("{what}: follows one of those."),
            }
        }));
    }
    words
}
