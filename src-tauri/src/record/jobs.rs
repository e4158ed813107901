//! All jobs of this installation: one folder each, so that a damaged one harms no other.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde::Serialize;
use serde_json::json;
use uuid::Uuid;

use super::device::{self, device_id, new_device};
use super::disk::{Disk, SystemDisk};
use super::error::file;
use super::{Kind, Moment, NewEntry, RecordError, Store};

/// One line of the list of jobs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct JobLine {
    /// The job's id.
    pub id: Uuid,
    /// What people call it; for a damaged job the start of its id.
    pub name: String,
    /// Where it is.
    pub place: String,
    /// Whether it is the demonstration.
    pub demo: bool,
    /// When it was begun; `None` for a damaged job.
    pub begun: Option<Moment>,
    /// When its last entry was written; `None` for a damaged job.
    pub last: Option<Moment>,
    /// Number of different photos.
    pub photos: i64,
    /// Number of entries.
    pub entries: i64,
    /// What is wrong with it, in words.
    pub damaged: Option<String>,
}

/// The jobs in one data folder.
#[derive(Clone, Debug)]
pub struct Jobs {
    data: PathBuf,
    device: Uuid,
    disk: Arc<dyn Disk>,
}

impl Jobs {
    /// Opens the data folder, making it and this installation's id where they are missing.
    ///
    /// # Errors
    ///
    /// [`RecordError::File`] if the folder cannot be made or written.
    pub fn open(data: &Path) -> Result<Self, RecordError> {
        Self::open_on(Arc::new(SystemDisk), data)
    }

    /// As [`Jobs::open`], on a file system of the caller's.
    ///
    /// # Errors
    ///
    /// As [`Jobs::open`].
    pub fn open_on(disk: Arc<dyn Disk>, data: &Path) -> Result<Self, RecordError> {
        let jobs = data.join("jobs");
        disk.make_folder(&jobs)
            .map_err(file("Make the folder for jobs", &jobs))?;
        disk.sync_folder(data)
            .map_err(file("Keep the folder for jobs", &jobs))?;
        Ok(Self {
            data: data.to_path_buf(),
            device: device_id(&*disk, data)?,
            disk,
        })
    }

    /// The file system that everything beside the database is written through.
    #[must_use]
    pub fn disk(&self) -> &dyn Disk {
        &*self.disk
    }

    /// The data folder.
    #[must_use]
    pub fn data(&self) -> &Path {
        &self.data
    }

    /// This installation's id.
    #[must_use]
    pub const fn device(&self) -> Uuid {
        self.device
    }

    /// Begins a job and opens it. Its folder appears under its name only when it is complete.
    ///
    /// # Errors
    ///
    /// [`RecordError::NameMissing`] for an empty name, otherwise what the database or the folder said.
    pub fn begin(
        &self,
        name: &str,
        place: &str,
        country: &str,
        demo: bool,
        moment: Moment,
    ) -> Result<Store, RecordError> {
        if name.trim().is_empty() {
            return Err(RecordError::NameMissing);
        }
        let id = Uuid::new_v4();
        let body = json!({"job": id, "name": name.trim(), "place": place.trim(), "country": country, "demo": demo});
        self.build(id, false, |store| {
            store.write(|gate| gate.append(moment, NewEntry::new(Kind::JobBegun, body)).map(drop))
        })
    }

    /// Makes the folder of the job `id`, lets `fill` put everything into it, and only then gives it its name and opens it.
    /// With `own_chain` the job gets a chain of its own on this installation.
    ///
    /// # Errors
    ///
    /// What `fill`, the database or the folder said; nothing is listed then.
    pub(crate) fn build<E: From<RecordError>>(
        &self,
        id: Uuid,
        own_chain: bool,
        fill: impl FnOnce(&mut Store) -> Result<(), E>,
    ) -> Result<Store, E> {
        let jobs = self.data.join("jobs");
        let building = jobs.join(format!(".{id}.part"));
        let built = self.built(&jobs, &building, id, own_chain, fill);
        if built.is_err() {
            // The failure itself is what is told; a leftover is never listed and is cleared by the next attempt.
            let _ignored = fs::remove_dir_all(&building);
        }
        built?;
        Ok(self.open_job(id)?)
    }

    fn built<E: From<RecordError>>(
        &self,
        jobs: &Path,
        building: &Path,
        id: Uuid,
        own_chain: bool,
        fill: impl FnOnce(&mut Store) -> Result<(), E>,
    ) -> Result<(), E> {
        let disk = &*self.disk;
        if building.exists() {
            fs::remove_dir_all(building).map_err(file("Clear an unfinished job", building))?;
        }
        let photos = building.join("photos");
        disk.make_folder(&photos)
            .map_err(file("Make the folder of a job", &photos))?;
        let device = if own_chain {
            new_device(disk, building)?
        } else {
            self.device
        };
        let mut store = Store::create(building, id, device)?;
        fill(&mut store)?;
        // Closed before the folder gets its name: open files would keep some systems from renaming it.
        drop(store);
        for folder in [&photos, building] {
            disk.sync_folder(folder)
                .map_err(file("Keep the folder of a job", folder))?;
        }
        let folder = self.folder(id);
        disk.rename(building, &folder)
            .map_err(file("Name the folder of a job", &folder))?;
        Ok(disk.sync_folder(jobs).map_err(file("Keep the folder of a job", jobs))?)
    }

    /// Begins a new chain of this installation in the job `id`, which must not be open: its own chain was found continued
    /// elsewhere, so that going on with it could write a second story.
    pub(crate) fn new_chain(&self, id: Uuid) -> Result<(), RecordError> {
        new_device(&*self.disk, &self.folder(id)).map(drop)
    }

    /// Opens a job.
    ///
    /// # Errors
    ///
    /// [`RecordError::NoJob`] if there is none, [`RecordError::Damaged`] or [`RecordError::Newer`] if it cannot be used,
    /// otherwise what the database said.
    pub fn open_job(&self, id: Uuid) -> Result<Store, RecordError> {
        let mut store = self.look_at(id)?;
        store.check()?;
        Ok(store)
    }

    /// Opens a job without reading its whole file, see [`Store::open_to_look`].
    ///
    /// # Errors
    ///
    /// As [`Jobs::open_job`], as far as the beginning of the file shows it.
    pub fn look_at(&self, id: Uuid) -> Result<Store, RecordError> {
        let folder = self.folder(id);
        if !folder.is_dir() {
            return Err(RecordError::NoJob { job: id });
        }
        let device = if folder.join(device::NAME).exists() {
            device_id(&*self.disk, &folder)?
        } else {
            self.device
        };
        let store = Store::open_to_look(&folder, device)?;
        if store.job() != id {
            return Err(RecordError::Damaged {
                what: format!("the folder holds the job {}", store.job()),
            });
        }
        Ok(store)
    }

    /// Every job, the one last worked on first. A job that cannot be read is listed with words saying why.
    ///
    /// # Errors
    ///
    /// [`RecordError::File`] if the folder of jobs itself cannot be read.
    pub fn list(&self) -> Result<Vec<JobLine>, RecordError> {
        self.lines(|id| self.open_job(id)?.line())
    }

    /// As [`Jobs::list`], each line by `line`.
    pub(crate) fn lines(
        &self,
        mut line: impl FnMut(Uuid) -> Result<JobLine, RecordError>,
    ) -> Result<Vec<JobLine>, RecordError> {
        let jobs = self.data.join("jobs");
        let folders = fs::read_dir(&jobs).map_err(file("Read the folder of jobs", &jobs))?;
        let mut lines: Vec<JobLine> = folders
            .filter_map(|folder| Uuid::parse_str(&folder.ok()?.file_name().to_string_lossy()).ok())
            .map(|id| line(id).unwrap_or_else(|why| damaged_line(id, &why)))
            .collect();
        lines.sort_by_key(|line| (std::cmp::Reverse(line.last.map(|last| last.utc_ms)), line.id));
        Ok(lines)
    }

    /// Moves the folder of a job to `away/`, whole. Whether it may go is asked in `pack`.
    pub(crate) fn move_away(&self, id: Uuid) -> Result<PathBuf, RecordError> {
        let folder = self.folder(id);
        if !folder.is_dir() {
            return Err(RecordError::NoJob { job: id });
        }
        self.moved(&folder, "away", id)
    }

    /// Moves the folder of a damaged job to `damaged/`, whole, so that its last pack can be taken in.
    ///
    /// # Errors
    ///
    /// [`RecordError::NotDamaged`] for a job that opens and whose chains hold, [`RecordError::NoJob`] if there is none,
    /// [`RecordError::File`] if it cannot be moved.
    pub fn set_aside(&self, id: Uuid) -> Result<PathBuf, RecordError> {
        let folder = self.folder(id);
        if !folder.is_dir() {
            return Err(RecordError::NoJob { job: id });
        }
        match self.open_job(id) {
            Ok(store) if store.verify_chain()?.is_empty() => return Err(RecordError::NotDamaged),
            Err(newer @ RecordError::Newer { .. }) => return Err(newer),
            Ok(_) | Err(_) => {}
        }
        self.moved(&folder, "damaged", id)
    }

    /// Moves a folder under `<data>/<under>`, beside what was moved there before.
    fn moved(&self, folder: &Path, under: &str, id: Uuid) -> Result<PathBuf, RecordError> {
        let (jobs, under) = (self.data.join("jobs"), self.data.join(under));
        self.disk
            .make_folder(&under)
            .map_err(file("Make the folder for a job that moves", &under))?;
        let target = (1..)
            .map(|number| match number {
                1 => under.join(id.to_string()),
                _ => under.join(format!("{id}-{number}")),
            })
            .find(|target| !target.exists())
            .unwrap_or_else(|| under.join(id.to_string()));
        self.disk.rename(folder, &target).map_err(file("Move a job", &target))?;
        for folder in [&under, &jobs] {
            self.disk
                .sync_folder(folder)
                .map_err(file("Keep a job that moved", folder))?;
        }
        Ok(target)
    }

    /// Deletes the demonstration.
    ///
    /// # Errors
    ///
    /// [`RecordError::NotADemo`] for any other job, otherwise as [`Jobs::open_job`].
    pub fn delete_demo(&self, id: Uuid) -> Result<(), RecordError> {
        if !self.open_job(id)?.info()?.demo {
            return Err(RecordError::NotADemo);
        }
        let folder = self.folder(id);
        fs::remove_dir_all(&folder).map_err(file("Delete the demonstration", &folder))
    }

    /// Where the job `id` lies, whether or not it is there.
    #[must_use]
    pub fn folder(&self, id: Uuid) -> PathBuf {
        self.data.join("jobs").join(id.to_string())
    }
}

impl Store {
    /// This job's line in the list.
    ///
    /// # Errors
    ///
    /// What the database said.
    pub fn line(&self) -> Result<JobLine, RecordError> {
        let info = self.info()?;
        let (photos, entries) = super::read::counts(self)?;
        Ok(JobLine {
            id: info.id,
            name: info.name,
            place: info.place,
            demo: info.demo,
            begun: Some(info.begun),
            last: self.last_moment()?,
            photos,
            entries,
            damaged: None,
        })
    }
}

fn damaged_line(id: Uuid, why: &RecordError) -> JobLine {
    JobLine {
        id,
        name: format!("Job {}", id.to_string().chars().take(8).collect::<String>()),
        place: String::new(),
        demo: false,
        begun: None,
        last: None,
        photos: 0,
        entries: 0,
        damaged: Some(why.to_string()),
    }
}
