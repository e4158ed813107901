//! Which installation this is. A copied or restored one must begin a new chain, or two phones would write the same one.

use std::fs;
use std::path::Path;

use uuid::Uuid;

use super::error::file;
use super::{Disk, RecordError};

/// Name of the file, in the data folder or in the folder of a job that has a chain of its own here.
pub(super) const NAME: &str = "device";

/// Reads the id from `<folder>/device`, or begins a new one.
///
/// The file holds the id and a mark of the file itself (its number on the medium). A copy or a restored backup is another
/// file, so its mark does not fit and a new id is begun; the old chain is then only read.
pub(super) fn device_id(disk: &dyn Disk, folder: &Path) -> Result<Uuid, RecordError> {
    match stored(&folder.join(NAME)) {
        Some(id) => Ok(id),
        None => new_device(disk, folder),
    }
}

/// Begins a new id in `<folder>/device`, whatever stood there.
pub(super) fn new_device(disk: &dyn Disk, folder: &Path) -> Result<Uuid, RecordError> {
    let path = folder.join(NAME);
    let id = Uuid::new_v4();
    // The mark is known only once the file is there, and a rename keeps it: written once for the mark, then filled.
    let draft = folder.join("device.part");
    disk.write(&draft, b"").map_err(file("Begin the device file", &draft))?;
    let mark = mark(&draft).unwrap_or_default();
    disk.write(&draft, format!("{id}\n{mark}\n").as_bytes())
        .map_err(file("Write the device file", &draft))?;
    disk.sync(&draft).map_err(file("Keep the device file", &draft))?;
    disk.rename(&draft, &path)
        .map_err(file("Name the device file", &path))?;
    disk.sync_folder(folder).map_err(file("Keep the device file", &path))?;
    Ok(id)
}

fn stored(path: &Path) -> Option<Uuid> {
    let text = fs::read_to_string(path).ok()?;
    let mut lines = text.lines();
    let id = lines.next().and_then(|line| Uuid::parse_str(line).ok())?;
    (lines.next()? == mark(path)?).then_some(id)
}

#[cfg(unix)]
fn mark(path: &Path) -> Option<String> {
    use std::os::unix::fs::MetadataExt;
    let about = fs::metadata(path).ok()?;
    Some(format!("{}-{}", about.ino(), born_ms(&about)))
}

#[cfg(not(unix))]
fn mark(path: &Path) -> Option<String> {
    Some(format!("0-{}", born_ms(&fs::metadata(path).ok()?)))
}

/// When the file was made, ms; 0 where the system does not keep it.
fn born_ms(about: &fs::Metadata) -> u128 {
    let since = about
        .created()
        .ok()
        .and_then(|at| at.duration_since(std::time::UNIX_EPOCH).ok());
    since.map_or(0, |time| time.as_millis())
}
