//! All jobs of this installation: one folder each, so that a damaged one harms no other.

use std::fs;
use std::path::{Path, PathBuf};

use serde::Serialize;
use serde_json::json;
use uuid::Uuid;

use super::device::device_id;
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
}

impl Jobs {
    /// Opens the data folder, making it and this installation's id where they are missing.
    ///
    /// # Errors
    ///
    /// [`RecordError::File`] if the folder cannot be made or written.
    pub fn open(data: &Path) -> Result<Self, RecordError> {
        let jobs = data.join("jobs");
        fs::create_dir_all(&jobs).map_err(file("Make the folder for jobs", &jobs))?;
        Ok(Self {
            data: data.to_path_buf(),
            device: device_id(data)?,
        })
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
        let folder = self.folder(id);
        let building = self.data.join("jobs").join(format!(".{id}.part"));
        let photos = building.join("photos");
        fs::create_dir_all(&photos).map_err(file("Make the folder of a job", &photos))?;
        let mut store = Store::create(&building, id, self.device)?;
        let body = json!({"job": id, "name": name.trim(), "place": place.trim(), "country": country, "demo": demo});
        store.write(|gate| gate.append(moment, NewEntry::new(Kind::JobBegun, body)))?;
        // Closed before the folder gets its name: open files would keep some systems from renaming it.
        drop(store);
        fs::rename(&building, &folder).map_err(file("Name the folder of a job", &folder))?;
        let jobs = self.data.join("jobs");
        SystemDisk
            .sync_folder(&jobs)
            .map_err(file("Keep the folder of a job", &jobs))?;
        self.open_job(id)
    }

    /// Opens a job.
    ///
    /// # Errors
    ///
    /// [`RecordError::NoJob`] if there is none, [`RecordError::Damaged`] or [`RecordError::Newer`] if it cannot be used,
    /// otherwise what the database said.
    pub fn open_job(&self, id: Uuid) -> Result<Store, RecordError> {
        let folder = self.folder(id);
        if !folder.is_dir() {
            return Err(RecordError::NoJob { job: id });
        }
        let store = Store::open(&folder, self.device)?;
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
        let jobs = self.data.join("jobs");
        let folders = fs::read_dir(&jobs).map_err(file("Read the folder of jobs", &jobs))?;
        let mut lines: Vec<JobLine> = folders
            .filter_map(|folder| Uuid::parse_str(&folder.ok()?.file_name().to_string_lossy()).ok())
            .map(|id| self.line(id).unwrap_or_else(|why| damaged_line(id, &why)))
            .collect();
        lines.sort_by_key(|line| (std::cmp::Reverse(line.last.map(|last| last.utc_ms)), line.id));
        Ok(lines)
    }

    /// Puts a job away: its folder moves to `away/`, whole.
    ///
    /// # Errors
    ///
    /// [`RecordError::NoJob`] if there is none, [`RecordError::File`] if it cannot be moved.
    pub fn put_away(&self, id: Uuid) -> Result<PathBuf, RecordError> {
        let folder = self.folder(id);
        if !folder.is_dir() {
            return Err(RecordError::NoJob { job: id });
        }
        let away = self.data.join("away");
        fs::create_dir_all(&away).map_err(file("Make the folder for jobs put away", &away))?;
        let target = away.join(id.to_string());
        fs::rename(&folder, &target).map_err(file("Put a job away", &target))?;
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

    fn line(&self, id: Uuid) -> Result<JobLine, RecordError> {
        let store = self.open_job(id)?;
        let info = store.info()?;
        let (photos, entries) = super::read::counts(&store)?;
        Ok(JobLine {
            id,
            name: info.name,
            place: info.place,
            demo: info.demo,
            begun: Some(info.begun),
            last: store.last_moment()?,
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
