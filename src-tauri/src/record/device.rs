//! Which installation this is. A copied or restored one must begin a new chain, or two phones would write the same one.

use std::fs;
use std::path::Path;

use uuid::Uuid;

use super::RecordError;
use super::error::file;

/// Reads the installation's id from `<data>/device`, or begins a new one.
///
/// The file holds the id and a mark of the file itself (its number on the medium). A copy or a restored backup is another
/// file, so its mark does not fit and a new id is begun; the old chain is then only read.
pub(super) fn device_id(data: &Path) -> Result<Uuid, RecordError> {
    let path = data.join("device");
    if let Some(id) = stored(&path) {
        return Ok(id);
    }
    let id = Uuid::new_v4();
    // The mark is known only once the file is there, and a rename keeps it: written once for the mark, then filled.
    let draft = data.join("device.part");
    fs::write(&draft, b"").map_err(file("Begin the device file", &draft))?;
    let mark = mark(&draft).unwrap_or_default();
    fs::write(&draft, format!("{id}\n{mark}\n")).map_err(file("Write the device file", &draft))?;
    fs::File::open(&draft)
        .and_then(|f| f.sync_all())
        .map_err(file("Keep the device file", &draft))?;
    fs::rename(&draft, &path).map_err(file("Name the device file", &path))?;
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
