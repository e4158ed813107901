//! Photos on phones: in parts, since large messages never arrive on Android, and those that the camera took while the system
//! had closed the app.

use super::Desk;
use super::hand_over::arriving;
use super::wall::meta;
use crate::failure::{Answer, Failure};
use crate::photos;
use crate::site::PhotoLine;
use serde::Serialize;
use std::path::{Path, PathBuf};
use tauri::State;
use uuid::Uuid;

/// A picture that the camera left.
#[derive(Debug, PartialEq, Eq, Serialize)]
pub struct Left {
    /// Name of its file.
    name: String,
    /// Size in bytes.
    bytes: u64,
}

/// Takes in the photo whose parts have all come by `pack_part`, and removes them.
#[tauri::command(async)]
pub fn photo_arrived(
    desk: State<'_, Desk>,
    upload: Uuid,
    id: String,
    about: String,
    kind: String,
    name: String,
    modified: Option<f64>,
) -> Answer<PhotoLine> {
    let path = arriving(&desk, upload)?;
    // Milliseconds of a date fit a whole number exactly.
    let meta = meta(about, &kind, name, modified.map(|ms| ms as i64))?;
    let taken = taken(&desk, &id, &path, &meta);
    // What was taken in lies in the job. What was refused is still where it came from.
    let _ignored = std::fs::remove_file(&path);
    let photo = taken?;
    forget_copy(desk.camera(), &meta.name, &photo.photo.sha.to_string());
    Ok(photo)
}

/// Pictures that the camera left, the oldest first.
#[tauri::command(async)]
pub fn photos_left(desk: State<'_, Desk>) -> Vec<Left> {
    left(desk.camera())
}

/// Takes in a picture that the camera left, and removes it from there.
#[tauri::command(async)]
pub fn photo_left_take(
    desk: State<'_, Desk>,
    id: String,
    about: String,
    kind: String,
    name: String,
) -> Answer<PhotoLine> {
    let path = left_path(desk.camera(), &name)?;
    let photo = taken(&desk, &id, &path, &meta(about, &kind, name, modified_ms(&path))?)?;
    let _ignored = std::fs::remove_file(&path);
    Ok(photo)
}

/// Throws away a picture that the camera left.
#[tauri::command(async)]
pub fn photo_left_drop(desk: State<'_, Desk>, name: String) -> Answer<()> {
    let path = left_path(desk.camera(), &name)?;
    std::fs::remove_file(&path)
        .map_err(|why| Failure::new("file", format!("{} cannot be removed ({why}).", path.display())))
}

fn taken(desk: &Desk, id: &str, path: &Path, meta: &photos::Meta) -> Answer<PhotoLine> {
    desk.take_photo(id, &photos::read_file(path)?, meta)
}

fn left(folder: Option<&Path>) -> Vec<Left> {
    let mut found: Vec<_> = folder
        .and_then(|folder| std::fs::read_dir(folder).ok())
        .into_iter()
        .flatten()
        .flatten()
        .filter_map(|entry| {
            let about = entry.metadata().ok()?;
            let name = entry.file_name().into_string().ok()?;
            // The file is made empty before the camera opens: an empty one was never taken.
            let picture = about.is_file() && about.len() > 0 && name.ends_with(".jpg");
            let bytes = about.len();
            picture.then_some((about.modified().ok(), Left { name, bytes }))
        })
        .collect();
    found.sort_by(|one, other| (one.0, &one.1.name).cmp(&(other.0, &other.1.name)));
    found.into_iter().map(|(_, left)| left).collect()
}

/// Only a name that is in the list has a path, so that no other file can be named.
fn left_path(folder: Option<&Path>, name: &str) -> Answer<PathBuf> {
    let known = left(folder).iter().any(|one| one.name == name);
    folder
        .filter(|_| known)
        .map(|folder| folder.join(name))
        .ok_or_else(|| Failure::new("no_photo", "That picture is not there any more."))
}

fn modified_ms(path: &Path) -> Option<i64> {
    let at = std::fs::metadata(path).ok()?.modified().ok()?;
    let since = at.duration_since(std::time::UNIX_EPOCH).ok()?;
    i64::try_from(since.as_millis()).ok()
}

/// The camera writes into the app's own folder, and what was taken in from there would lie on the phone twice. It goes only if
/// it is the very same file.
fn forget_copy(folder: Option<&Path>, name: &str, sha: &str) {
    use sha2::{Digest, Sha256};
    let Ok(path) = left_path(folder, name) else { return };
    if std::fs::read(&path).is_ok_and(|bytes| hex::encode(Sha256::digest(bytes)) == sha) {
        let _ignored = std::fs::remove_file(&path);
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::{forget_copy, left, left_path, modified_ms};

    #[test]
    fn what_the_camera_left_is_found_and_nothing_else() {
        assert!(left(None).is_empty());
        let folder = tempfile::tempdir().unwrap();
        let here = Some(folder.path());
        for (name, bytes) in [("JPEG_1.jpg", "picture"), ("JPEG_2.jpg", ""), ("note.txt", "x")] {
            std::fs::write(folder.path().join(name), bytes).unwrap();
        }
        let found = left(here);
        assert_eq!(
            found.len(),
            1,
            "neither the empty one nor what is no picture: {found:?}"
        );
        assert_eq!(found.first().map(|one| one.bytes), Some(7));
        let path = left_path(here, "JPEG_1.jpg").unwrap();
        assert!(modified_ms(&path).is_some());
        for wrong in ["JPEG_2.jpg", "note.txt", "../JPEG_1.jpg", "missing.jpg"] {
            assert_eq!(left_path(here, wrong).unwrap_err().code, "no_photo", "{wrong}");
        }
        // SHA-256 of the empty text, from FIPS 180-4's examples; then that of "picture" as sha256sum prints it.
        forget_copy(
            here,
            "JPEG_1.jpg",
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
        );
        assert!(path.exists(), "another file of the same name is kept");
        forget_copy(here, "JPEG_1.jpg", SHA_OF_PICTURE);
        assert!(!path.exists());
    }

    const SHA_OF_PICTURE: &str = "2cea274d0bedc39ec4ab6ba9e59ec889e3ed6fb56a1cf088a64d9b383378dc97";
}
