//! File systems that fail, that write down what is done, and that lose what was not synced.

use std::collections::HashMap;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

use upstay_lib::record::{Disk, SystemDisk};

/// How a step fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The medium is full: part of the bytes are written.
    Full,
    /// The medium was mounted read-only.
    ReadOnly,
    /// The folder may not be written.
    Permission,
    /// The system took fewer bytes than were given, and no more.
    Short,
}

impl Fault {
    pub const ALL: [Self; 4] = [Self::Full, Self::ReadOnly, Self::Permission, Self::Short];

    fn error(self) -> io::Error {
        match self {
            Self::Full => io::ErrorKind::StorageFull.into(),
            Self::ReadOnly => io::ErrorKind::ReadOnlyFilesystem.into(),
            Self::Permission => io::ErrorKind::PermissionDenied.into(),
            Self::Short => io::ErrorKind::WriteZero.into(),
        }
    }

    /// Whether some bytes get through before it fails.
    fn writes_half(self) -> bool {
        matches!(self, Self::Full | Self::Short)
    }
}

#[derive(Debug, Default)]
struct Steps {
    done: Vec<String>,
    fails: Option<(usize, Fault)>,
    failed: bool,
}

/// The real file system, with its steps written down and one of them failing.
#[derive(Clone, Debug, Default)]
pub struct Watched(Arc<Mutex<Steps>>);

impl Watched {
    /// Lets the step with this number fail, counted from now on.
    pub fn fail(&self, number: usize, fault: Fault) {
        *self.0.lock().unwrap() = Steps {
            fails: Some((number, fault)),
            ..Steps::default()
        };
    }

    /// Lets everything succeed; gives whether a step had failed.
    pub fn heal(&self) -> bool {
        std::mem::take(&mut *self.0.lock().unwrap()).failed
    }

    /// What was done since.
    pub fn steps(&self) -> Vec<String> {
        self.0.lock().unwrap().done.clone()
    }

    /// Writes the step down; an error if it is the one that fails.
    fn step(&self, what: &str, path: &Path) -> Result<(), Fault> {
        let mut steps = self.0.lock().unwrap();
        let number = steps.done.len();
        steps.done.push(format!(
            "{what} {}",
            path.file_name().unwrap_or_default().to_string_lossy()
        ));
        match steps.fails {
            Some((at, fault)) if at == number => {
                steps.failed = true;
                Err(fault)
            }
            _ => Ok(()),
        }
    }
}

impl Disk for Watched {
    fn make_folder(&self, folder: &Path) -> io::Result<()> {
        self.step("folder", folder).map_err(Fault::error)?;
        SystemDisk.make_folder(folder)
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        self.step("write", path).map_err(|fault| {
            if fault.writes_half() {
                fs::write(path, &bytes[..bytes.len() / 2]).unwrap();
            }
            fault.error()
        })?;
        SystemDisk.write(path, bytes)
    }

    fn create(&self, path: &Path) -> io::Result<Box<dyn Write>> {
        self.step("create", path).map_err(Fault::error)?;
        Ok(Box::new(Stream {
            disk: self.clone(),
            path: path.to_path_buf(),
            inner: SystemDisk.create(path)?,
        }))
    }

    fn sync(&self, path: &Path) -> io::Result<()> {
        self.step("sync", path).map_err(Fault::error)?;
        SystemDisk.sync(path)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step("rename", to).map_err(Fault::error)?;
        SystemDisk.rename(from, to)
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        self.step("sync folder", folder).map_err(Fault::error)?;
        SystemDisk.sync_folder(folder)
    }
}

/// A file being written in pieces; each piece is a step.
struct Stream {
    disk: Watched,
    path: PathBuf,
    inner: Box<dyn Write>,
}

impl Write for Stream {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match self.disk.step("piece", &self.path) {
            Ok(()) => self.inner.write(bytes),
            // The rest is asked for again, and then nothing more is taken.
            Err(Fault::Short) => {
                self.disk.0.lock().unwrap().fails = Some((self.disk.steps().len(), Fault::Full));
                self.inner.write(&bytes[..bytes.len() / 2])
            }
            Err(fault) => Err(fault.error()),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        self.inner.flush()
    }
}

/// What a medium holds for certain: contents that were synced, under names whose folder was synced after they were given.
#[derive(Debug, Default)]
struct Medium {
    synced: HashMap<PathBuf, Vec<u8>>,
    names: HashMap<PathBuf, Vec<u8>>,
}

/// Called before every step.
type Look = Box<dyn Fn(&str) + Send + Sync>;

/// The real file system, and beside it what a fall of power would leave.
pub struct Power {
    medium: Mutex<Medium>,
    look: Look,
}

impl std::fmt::Debug for Power {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Power")
    }
}

impl Power {
    pub fn new(look: impl Fn(&str) + Send + Sync + 'static) -> Self {
        Self {
            medium: Mutex::default(),
            look: Box::new(look),
        }
    }

    /// The files a fall of power leaves in `folder` now.
    pub fn left(&self, folder: &Path) -> Vec<(String, Vec<u8>)> {
        let medium = self.medium.lock().unwrap();
        let inside = medium.names.iter().filter(|(path, _)| path.parent() == Some(folder));
        inside
            .map(|(path, bytes)| (path.file_name().unwrap().to_string_lossy().into_owned(), bytes.clone()))
            .collect()
    }
}

impl Disk for Power {
    fn make_folder(&self, folder: &Path) -> io::Result<()> {
        (self.look)("folder");
        SystemDisk.make_folder(folder)
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        (self.look)("write");
        // New contents are not on the medium yet, the old ones may be gone.
        self.medium.lock().unwrap().synced.remove(path);
        SystemDisk.write(path, bytes)
    }

    fn create(&self, path: &Path) -> io::Result<Box<dyn Write>> {
        (self.look)("create");
        self.medium.lock().unwrap().synced.remove(path);
        SystemDisk.create(path)
    }

    fn sync(&self, path: &Path) -> io::Result<()> {
        (self.look)("sync");
        SystemDisk.sync(path)?;
        let bytes = fs::read(path)?;
        self.medium.lock().unwrap().synced.insert(path.to_path_buf(), bytes);
        Ok(())
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        (self.look)("rename");
        SystemDisk.rename(from, to)?;
        let mut medium = self.medium.lock().unwrap();
        // Without a sync the name may come to point at a file without contents.
        let bytes = medium.synced.remove(from).unwrap_or_default();
        medium.synced.insert(to.to_path_buf(), bytes);
        Ok(())
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        (self.look)("sync folder");
        SystemDisk.sync_folder(folder)?;
        let mut medium = self.medium.lock().unwrap();
        let inside: Vec<(PathBuf, Vec<u8>)> = fs::read_dir(folder)?
            .map(|item| item.unwrap().path())
            .filter(|path| path.is_file())
            .map(|path| (path.clone(), medium.synced.get(&path).cloned().unwrap_or_default()))
            .collect();
        medium.names.retain(|path, _| path.parent() != Some(folder));
        medium.names.extend(inside);
        Ok(())
    }
}
