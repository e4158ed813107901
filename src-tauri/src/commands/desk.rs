//! What lies on the desk: the data folder and the jobs opened from it.

use crate::failure::{Answer, Failure};
use crate::pack::Watch;
use crate::photos::{self, Meta};
use crate::record::{JobLine, Jobs, Moment, RecordError, Store, SystemDisk};
use crate::site::PhotoLine;
use serde::Serialize;
use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use uuid::Uuid;

/// Folder for packs that come through the page.
pub(super) const ARRIVING: &str = "arriving";
/// Folder for packs that other apps hand over. `MainActivity.kt` of the Android project writes into it, in the folder of
/// caches.
const HANDED: &str = "opened";

/// What the check of a job at start found, in words; nothing where all of it holds.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Found {
    /// What is wrong with the file.
    pub damaged: Option<String>,
    /// What is wrong with its chains.
    pub faults: Option<String>,
}

impl Found {
    /// That the file can be used.
    fn fit(self) -> Result<(), RecordError> {
        self.damaged.map_or(Ok(()), |what| Err(RecordError::Damaged { what }))
    }
}

/// The data folder and its open jobs. A job is opened to look; the check of its whole file and of its chains comes after
/// the first screen, and before the first write.
#[derive(Debug)]
pub struct Desk {
    jobs: Jobs,
    open: Mutex<HashMap<Uuid, Store>>,
    /// What the check of each job at start found.
    checked: Mutex<HashMap<Uuid, Found>>,
    /// Held while a whole file is read for that check.
    reading: Mutex<()>,
    /// Packs that are being made, by the ids that the page gave them.
    packing: Mutex<HashMap<Uuid, Arc<Watch>>>,
    /// Where finished papers go.
    out: PathBuf,
    /// Where packs wait that another app handed over.
    handed: PathBuf,
    /// Where the phone's camera writes its pictures, on phones where that is a folder of this app.
    camera: Option<PathBuf>,
}

impl Desk {
    /// Opens the data folder. Finished papers go to `Upstay` in `documents`, or into the data folder where the system
    /// names no folder for documents.
    ///
    /// # Errors
    ///
    /// As [`Jobs::open`].
    pub fn open(data: &Path, documents: Option<PathBuf>) -> Result<Self, RecordError> {
        // What had come of a pack when the app ended is of no use: the page sends a pack from its beginning.
        let _ignored = std::fs::remove_dir_all(data.join(ARRIVING));
        let out = documents.map_or_else(|| data.join("papers"), |folder| folder.join("Upstay"));
        Ok(Self {
            jobs: Jobs::open(data)?,
            open: Mutex::new(HashMap::new()),
            checked: Mutex::new(HashMap::new()),
            reading: Mutex::new(()),
            packing: Mutex::new(HashMap::new()),
            out,
            handed: data.join(HANDED),
            camera: None,
        })
    }

    /// The same with the folder where the system's side of the app lays packs that other apps hand over.
    #[must_use]
    pub fn handed_over_in(mut self, folder: PathBuf) -> Self {
        self.handed = folder;
        self
    }

    /// The same with the folder where the camera writes.
    #[must_use]
    pub fn camera_in(mut self, folder: Option<PathBuf>) -> Self {
        self.camera = folder;
        self
    }

    /// The folder where the camera writes, if it is a folder of this app.
    #[must_use]
    pub fn camera(&self) -> Option<&Path> {
        self.camera.as_deref()
    }

    /// Packs that were handed over and wait, by their file's name, the oldest first.
    #[must_use]
    pub fn handed_over(&self) -> Vec<String> {
        let mut found: Vec<_> = std::fs::read_dir(&self.handed)
            .into_iter()
            .flatten()
            .flatten()
            .filter_map(|entry| {
                let name = entry.file_name().into_string().ok()?;
                let at = entry.metadata().ok()?.modified().ok();
                name.ends_with(".zip").then_some((at, name))
            })
            .collect();
        found.sort();
        found.into_iter().map(|(_, name)| name).collect()
    }

    /// The path of one of them; a name that is not in the list has none.
    #[must_use]
    pub fn handed_over_path(&self, name: &str) -> Option<PathBuf> {
        let known = self.handed_over().iter().any(|one| one == name);
        known.then(|| self.handed.join(name))
    }

    /// Takes a copy of a pack that lies at a path, to wait with the others.
    ///
    /// # Errors
    ///
    /// What the file system said.
    pub fn hand_over(&self, path: &Path) -> std::io::Result<()> {
        std::fs::create_dir_all(&self.handed)?;
        let part = self.handed.join(format!("{}.part", Uuid::new_v4()));
        std::fs::copy(path, &part)?;
        std::fs::rename(&part, part.with_extension("zip"))
    }

    /// Removes one that was taken in or refused.
    pub fn forget_handed_over(&self, path: &Path) {
        // One that stays is offered again, and holds nothing new then.
        let _ignored = std::fs::remove_file(path);
    }

    /// All jobs.
    #[must_use]
    pub const fn jobs(&self) -> &Jobs {
        &self.jobs
    }

    /// Puts a job just begun on the desk and gives its id.
    pub fn lay(&self, store: Store) -> Uuid {
        let id = store.job();
        self.open
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .insert(id, store);
        id
    }

    /// Works on one job.
    ///
    /// # Errors
    ///
    /// What opening the job or the work said.
    pub fn at<T>(&self, id: &str, work: impl FnOnce(&mut Store) -> Answer<T>) -> Answer<T> {
        let id = Uuid::parse_str(id).map_err(|_| Failure::new("no_job", format!("There is no job {id} here.")))?;
        // A panic elsewhere leaves a store whole: what it was writing was rolled back.
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        match open.entry(id) {
            Entry::Occupied(mut there) => work(there.get_mut()),
            Entry::Vacant(place) => {
                self.known(id).unwrap_or_default().fit()?;
                work(place.insert(self.jobs.look_at(id)?))
            }
        }
    }

    /// Takes a photo in. The job is held only while the photo is kept and named, so that the next one need not wait for the
    /// views of this one.
    ///
    /// # Errors
    ///
    /// As [`photos::intake`], or what opening the job said.
    pub fn take_photo(&self, id: &str, bytes: &[u8], meta: &Meta) -> Answer<PhotoLine> {
        let arrived = photos::arrived(bytes, meta, Moment::now())?;
        let (job, named) = self.at(id, |store| {
            let named = arrived.keep(&SystemDisk, store, Moment::now())?;
            Ok((store.job(), named))
        })?;
        Ok(PhotoLine::new(job, named.show()))
    }

    /// Every job, the one last worked on first, without reading whole files: what the check at start found of a job is told
    /// from then on.
    ///
    /// # Errors
    ///
    /// As [`Jobs::list`].
    pub fn list(&self) -> Answer<Vec<JobLine>> {
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        let line = |id: Uuid| -> Result<JobLine, RecordError> {
            self.known(id).unwrap_or_default().fit()?;
            match open.entry(id) {
                Entry::Occupied(there) => there.get().line(),
                Entry::Vacant(place) => place.insert(self.jobs.look_at(id)?).line(),
            }
        };
        Ok(self.jobs.lines(line)?)
    }

    /// What the check at start found of a job; nothing before it was done.
    pub fn known(&self, id: Uuid) -> Option<Found> {
        let checked = self.checked.lock().unwrap_or_else(PoisonError::into_inner);
        checked.get(&id).cloned()
    }

    /// Reads a job's whole file and checks its chains, once after each start. It reads through a connection of its own, so
    /// that screens work on meanwhile.
    pub fn check(&self, id: Uuid) -> Found {
        // Held meanwhile: who moves folders waits for the check to close its file, and two checks read the file once.
        let _reading = self.reading.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(found) = self.known(id) {
            return found;
        }
        let found = match self.jobs.open_job(id).and_then(|store| store.verify_chain()) {
            Ok(faults) if faults.is_empty() => Found::default(),
            Ok(faults) => {
                let how = match faults.len() {
                    1 => "One entry of this record does not".to_owned(),
                    many => format!("{many} entries of this record do not"),
                };
                Found {
                    faults: Some(format!(
                        "{how} hold together. Write nothing more into it and check the whole job."
                    )),
                    damaged: None,
                }
            }
            Err(RecordError::Damaged { what }) => Found {
                damaged: Some(what),
                faults: None,
            },
            Err(why) => Found {
                faults: Some(why.to_string()),
                damaged: None,
            },
        };
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        if found.damaged.is_some() {
            open.remove(&id);
        } else if let (Some(store), None) = (open.get_mut(&id), &found.faults) {
            store.found_sound();
        }
        let mut checked = self.checked.lock().unwrap_or_else(PoisonError::into_inner);
        checked.insert(id, found.clone());
        found
    }

    /// Works on the jobs while none of them is open here.
    ///
    /// # Errors
    ///
    /// What the work said.
    pub fn apart<T>(&self, work: impl FnOnce(&Jobs) -> Answer<T>) -> Answer<T> {
        let _none_reading = self.reading.lock().unwrap_or_else(PoisonError::into_inner);
        // Held meanwhile, so that nobody opens one; each is opened again when it is next asked for.
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        open.clear();
        self.checked.lock().unwrap_or_else(PoisonError::into_inner).clear();
        work(&self.jobs)
    }

    /// Works on a pack that can be looked at and stopped meanwhile by its id.
    pub fn watched<T>(&self, work: Uuid, make: impl FnOnce(&Watch) -> T) -> T {
        let watch = Arc::new(Watch::default());
        self.packing().insert(work, Arc::clone(&watch));
        let made = make(&watch);
        self.packing().remove(&work);
        made
    }

    /// The watch over a pack that is being made.
    pub fn watch(&self, work: Uuid) -> Option<Arc<Watch>> {
        self.packing().get(&work).cloned()
    }

    fn packing(&self) -> MutexGuard<'_, HashMap<Uuid, Arc<Watch>>> {
        self.packing.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Deletes the demo.
    ///
    /// # Errors
    ///
    /// `not_a_demo` for any other job, otherwise what the record said.
    pub fn delete_demo(&self, id: &str) -> Answer<()> {
        let id = Uuid::parse_str(id).map_err(|_| Failure::new("no_job", format!("There is no job {id} here.")))?;
        let _none_reading = self.reading.lock().unwrap_or_else(PoisonError::into_inner);
        // Closed first, and kept from being opened again meanwhile: open files would keep some systems from deleting.
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        open.remove(&id);
        Ok(self.jobs.delete_demo(id)?)
    }

    /// The folder that finished papers go to, made where it is missing.
    ///
    /// # Errors
    ///
    /// A failure when it cannot be made.
    pub fn papers(&self) -> Answer<PathBuf> {
        let out = self.out.clone();
        match std::fs::create_dir_all(&out) {
            Ok(()) => Ok(out),
            Err(why) => Err(Failure::new(
                "file",
                format!("The folder {} cannot be made ({why}).", out.display()),
            )),
        }
    }

    /// A path for a finished paper that is not taken yet, as `Weir Cottage 2026-03-02 brief.pdf`.
    ///
    /// # Errors
    ///
    /// A failure when the folder cannot be made.
    pub fn paper(&self, job: &str, day: &str, what: &str, ending: &str) -> Answer<PathBuf> {
        let out = self.papers()?;
        let job: String = job
            .chars()
            .map(|letter| if plain(letter) { letter } else { ' ' })
            .take(60)
            .collect();
        // What is left of `Weir Cottage, kitchen` has two blanks in a row.
        let stem = [job.as_str(), day, what]
            .into_iter()
            .flat_map(str::split_whitespace)
            .collect::<Vec<_>>()
            .join(" ");
        let numbered = |number: u32| match number {
            1 => format!("{stem}.{ending}"),
            _ => format!("{stem} {number}.{ending}"),
        };
        (1..=9999)
            .map(|number| out.join(numbered(number)))
            .find(|path| !path.exists())
            .ok_or_else(|| Failure::new("file", format!("The folder {} is full.", out.display())))
    }
}

/// Letters that every file system takes in a name.
fn plain(letter: char) -> bool {
    letter.is_alphanumeric() || matches!(letter, ' ' | '-' | '_')
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::{Desk, Found};
    use crate::failure::Failure;
    use crate::record::{Kind, Moment, NewEntry};

    #[test]
    fn what_was_handed_over_waits_until_it_is_forgotten() {
        let data = tempfile::tempdir().unwrap();
        let desk = Desk::open(data.path(), None).unwrap();
        assert!(desk.handed_over().is_empty());
        let pack = data.path().join("from elsewhere");
        std::fs::write(&pack, "PK").unwrap();
        desk.hand_over(&pack).unwrap();
        let name = desk.handed_over().first().cloned().unwrap();
        // What has not come whole is not offered, and no other file can be named.
        std::fs::write(data.path().join("opened/half.part"), "P").unwrap();
        assert_eq!(desk.handed_over().len(), 1);
        assert_eq!(desk.handed_over_path("../from elsewhere"), None);
        assert_eq!(desk.handed_over_path("half.part"), None);
        let path = desk.handed_over_path(&name).unwrap();
        assert_eq!(std::fs::read(&path).unwrap(), b"PK");
        desk.forget_handed_over(&path);
        assert!(desk.handed_over().is_empty() && pack.exists());
        assert!(desk.hand_over(&data.path().join("missing")).is_err());
        assert!(desk.handed_over().is_empty());
    }

    #[test]
    fn a_paper_is_named_with_single_blanks_whatever_the_job_is_called() {
        let data = tempfile::tempdir().unwrap();
        let desk = Desk::open(data.path(), None).unwrap();
        let named = |job: &str| {
            let path = desk.paper(job, "2026-03-02", "brief", "pdf").unwrap();
            path.file_name().unwrap().to_str().unwrap().to_owned()
        };
        assert_eq!(
            named("Weir Cottage, kitchen"),
            "Weir Cottage kitchen 2026-03-02 brief.pdf"
        );
        assert_eq!(named("  a /  b: (c) "), "a b c 2026-03-02 brief.pdf");
        assert_eq!(named("//"), "2026-03-02 brief.pdf");
    }

    #[test]
    fn the_check_at_start_tells_a_changed_record_and_is_done_once() {
        let data = tempfile::tempdir().unwrap();
        let desk = Desk::open(data.path(), None).unwrap();
        let now = Moment::now();
        let mut store = desk.jobs().begin("Weir Cottage", "", "england", false, now).unwrap();
        let note = NewEntry::new(Kind::Note, serde_json::json!({"text": "as it was"}));
        store.append_many(now, vec![note], None).unwrap();
        let path = store.folder().join("record.sqlite");
        let id = desk.lay(store);
        assert_eq!(desk.check(id), Found::default());
        let db = rusqlite::Connection::open(path).unwrap();
        db.execute_batch("DROP TRIGGER entry_no_update; UPDATE entry SET body = '{}' WHERE seq = 2;")
            .unwrap();
        assert_eq!(desk.check(id), Found::default(), "looked at once");
        desk.apart(|_| Ok::<_, Failure>(())).unwrap();
        assert!(
            desk.check(id)
                .faults
                .unwrap()
                .contains("One entry of this record does not hold together")
        );
    }
}
