//! Keeping a file for good: written under a temporary name, synced, renamed, and its folder synced.

use std::fmt::Debug;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::Path;

/// The steps of keeping a file. Tests put their own in place to see the order, to let a step fail, and to cut the power.
pub trait Disk: Debug + Send + Sync {
    /// Makes a folder and those above it; one that is there already is left as it is.
    ///
    /// # Errors
    ///
    /// The system's error.
    fn make_folder(&self, folder: &Path) -> io::Result<()>;

    /// Writes a new file; what stood there before is replaced.
    ///
    /// # Errors
    ///
    /// The system's error.
    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;

    /// Begins a file that is too large to be held; what stood there before is replaced.
    ///
    /// # Errors
    ///
    /// The system's error; so do the writes into it.
    fn create(&self, path: &Path) -> io::Result<Box<dyn Write>>;

    /// Brings a file's contents onto the medium.
    ///
    /// # Errors
    ///
    /// The system's error.
    fn sync(&self, path: &Path) -> io::Result<()>;

    /// Gives a file or folder its final name.
    ///
    /// # Errors
    ///
    /// The system's error.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Brings a folder's names onto the medium.
    ///
    /// # Errors
    ///
    /// The system's error.
    fn sync_folder(&self, folder: &Path) -> io::Result<()>;
}

/// The file system itself.
#[derive(Clone, Copy, Debug, Default)]
pub struct SystemDisk;

impl Disk for SystemDisk {
    fn make_folder(&self, folder: &Path) -> io::Result<()> {
        fs::create_dir_all(folder)
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        File::create(path)?.write_all(bytes)
    }

    fn create(&self, path: &Path) -> io::Result<Box<dyn Write>> {
        Ok(Box::new(File::create(path)?))
    }

    fn sync(&self, path: &Path) -> io::Result<()> {
        OpenOptions::new().write(true).open(path)?.sync_all()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    #[cfg(unix)]
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        File::open(folder)?.sync_all()
    }

    // A folder cannot be opened as a file here; the rename itself is journalled.
    #[cfg(not(unix))]
    fn sync_folder(&self, _folder: &Path) -> io::Result<()> {
        Ok(())
    }
}

/// Keeps `bytes` as `folder/name`. After a fall of power there is the whole file or none of that name.
///
/// # Errors
///
/// The system's error of the first step that failed; the temporary file is then removed where that is possible.
pub fn keep_file(disk: &dyn Disk, folder: &Path, name: &str, bytes: &[u8]) -> io::Result<()> {
    let temporary = folder.join(format!(".{name}.part"));
    let kept = disk
        .write(&temporary, bytes)
        .and_then(|()| disk.sync(&temporary))
        .and_then(|()| disk.rename(&temporary, &folder.join(name)))
        .and_then(|()| disk.sync_folder(folder));
    if kept.is_err() {
        // The first error is the one to tell; a leftover is harmless and is overwritten next time.
        let _ignored = fs::remove_file(&temporary);
    }
    kept
}
