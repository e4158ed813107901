//! Nothing photographed is lost, and nothing is named before it is kept.

use std::cell::RefCell;
use std::fs;
use std::io;
use std::path::Path;
use std::sync::Mutex;

use upstay_lib::photos::{
    BYTE_LIMIT, PhotoKind, Size, arrived, intake, intake_file, intake_with, list, picture, unnamed,
};
use upstay_lib::record::{Disk, Hash, SystemDisk};

use crate::make::{at, job, jpeg, meta, photo};

/// The file system, with its steps written down; the one at `fails` fails.
#[derive(Debug)]
struct Watched {
    steps: Mutex<RefCell<Vec<String>>>,
    fails: Option<usize>,
}

impl Watched {
    fn new(fails: Option<usize>) -> Self {
        Self {
            steps: Mutex::new(RefCell::new(Vec::new())),
            fails,
        }
    }

    fn step(&self, what: &str, path: &Path, work: impl FnOnce() -> io::Result<()>) -> io::Result<()> {
        let steps = self.steps.lock().unwrap();
        let number = steps.borrow().len();
        let part = path.extension().is_some_and(|end| end == "part");
        steps
            .borrow_mut()
            .push(format!("{what}{}", if part { " temporary" } else { "" }));
        if self.fails == Some(number) {
            Err(io::ErrorKind::ReadOnlyFilesystem.into())
        } else {
            work()
        }
    }
}

impl Disk for Watched {
    fn make_folder(&self, folder: &Path) -> io::Result<()> {
        SystemDisk.make_folder(folder)
    }

    fn create(&self, path: &Path) -> io::Result<Box<dyn io::Write>> {
        SystemDisk.create(path)
    }

    fn write(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        self.step("write", path, || SystemDisk.write(path, bytes))
    }

    fn sync(&self, path: &Path) -> io::Result<()> {
        self.step("sync", path, || SystemDisk.sync(path))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step("rename", from, || SystemDisk.rename(from, to))
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        self.step("sync folder", folder, || SystemDisk.sync_folder(folder))
    }
}

#[test]
fn a_photo_is_synced_before_it_gets_its_name() {
    let (_data, _jobs, mut store) = job();
    let disk = Watched::new(None);
    intake_with(&disk, &mut store, &jpeg(8, 8), &meta("wall", PhotoKind::Group), at(1)).unwrap();
    let steps = disk.steps.into_inner().unwrap().into_inner();
    assert_eq!(
        steps,
        ["write temporary", "sync temporary", "rename temporary", "sync folder"]
    );
}

/// A read-only or failing medium at any step: no entry names the photo, nothing half-written bears its name, and the next
/// try succeeds.
#[test]
fn a_step_that_fails_names_nothing() {
    for fails in 0..4 {
        let (_data, _jobs, mut store) = job();
        let bytes = jpeg(8, 8);
        let disk = Watched::new(Some(fails));
        let why = intake_with(&disk, &mut store, &bytes, &meta("wall", PhotoKind::Group), at(1)).unwrap_err();
        assert_eq!(why.code(), "file");
        assert!(why.to_string().contains("Keep the photo"), "{why}");
        assert_eq!(disk.steps.into_inner().unwrap().into_inner().len(), fails + 1);
        assert_eq!(store.entry_count().unwrap(), 1);
        // Only where the rename itself had succeeded is the file there, whole, and found as unnamed.
        let kept = unnamed(&store).unwrap();
        assert_eq!(kept, if fails == 3 { vec![Hash::of(&bytes)] } else { vec![] });
        assert_eq!(fs::read_dir(store.photo_folder()).unwrap().count(), kept.len());
        photo(&mut store, &bytes, "wall", 2);
        assert_eq!((unnamed(&store).unwrap(), list(&store).unwrap().len()), (vec![], 1));
    }
}

#[test]
fn the_bytes_are_kept_as_they_came_and_once() {
    let (_data, _jobs, mut store) = job();
    let bytes = jpeg(16, 16);
    let first = photo(&mut store, &bytes, "N1-in", 1);
    let second = photo(&mut store, &bytes, "N1-out", 2);
    assert_eq!(
        fs::read(store.photo_folder().join(first.sha.to_string())).unwrap(),
        bytes
    );
    assert_eq!(fs::read_dir(store.photo_folder()).unwrap().count(), 1);
    let about: Vec<String> = list(&store).unwrap().into_iter().map(|photo| photo.about).collect();
    assert_eq!(
        (first.sha == second.sha, about),
        (true, vec!["N1-in".to_owned(), "N1-out".to_owned()])
    );
    assert_eq!(store.verify_chain().unwrap(), []);
}

#[test]
fn what_is_no_photo_is_refused_in_words() {
    let (data, _jobs, mut store) = job();
    let meta = meta("wall", PhotoKind::Group);
    let text = intake(&mut store, b"a text file named .jpg", &meta, at(1)).unwrap_err();
    assert_eq!(text.code(), "not_an_image");
    assert!(text.to_string().contains("Choose a photo"), "{text}");
    assert_eq!(intake(&mut store, b"", &meta, at(1)).unwrap_err().code(), "empty");
    let large = vec![0xFF; usize::try_from(BYTE_LIMIT).unwrap() + 1];
    assert_eq!(
        intake(&mut store, &large, &meta, at(1)).unwrap_err().code(),
        "too_many_bytes"
    );
    let path = data.path().join("large.jpg");
    fs::File::create(&path).unwrap().set_len(BYTE_LIMIT + 1).unwrap();
    assert_eq!(
        intake_file(&mut store, &path, &meta, at(1)).unwrap_err().code(),
        "too_many_bytes"
    );
    assert_eq!(
        intake_file(&mut store, &data.path().join("none"), &meta, at(1))
            .unwrap_err()
            .code(),
        "file"
    );
    assert_eq!(store.entry_count().unwrap(), 1);
    assert_eq!(fs::read_dir(store.photo_folder()).unwrap().count(), 0);
}

/// Cut short at every tenth: always kept, never called whole.
#[test]
fn a_truncated_photo_is_kept_and_called_damaged() {
    let whole = jpeg(64, 64);
    for tenth in 1..10 {
        let (_data, _jobs, mut store) = job();
        let photo = photo(&mut store, &whole[..whole.len() * tenth / 10], "wall", 1);
        assert!(
            photo.words.clone().unwrap().contains("damaged or cut short"),
            "{photo:?}"
        );
        assert_eq!(
            photo.view,
            picture(store.folder(), photo.sha, Size::Thumb).is_ok(),
            "{tenth}"
        );
        assert!(photo.view || tenth < 9, "what can be read is shown");
        assert_eq!(list(&store).unwrap(), [photo]);
    }
    // What phones append after the end is no damage.
    let (_data, _jobs, mut store) = job();
    let photo = photo(
        &mut store,
        &[whole.as_slice(), b"motion photo data"].concat(),
        "wall",
        1,
    );
    assert_eq!((photo.view, photo.words), (true, None));
}

/// A header that promises 50,000 × 50,000 pixels is never decoded.
#[test]
fn a_huge_header_is_kept_without_opening_it() {
    let mut bytes = jpeg(16, 16);
    let frame = bytes.windows(2).position(|pair| pair == [0xFF, 0xC0]).unwrap();
    bytes[frame + 5..frame + 9].copy_from_slice(&[0xC3, 0x50, 0xC3, 0x50]);
    let (_data, _jobs, mut store) = job();
    let photo = photo(&mut store, &bytes, "wall", 1);
    assert_eq!(
        (photo.width, photo.height, photo.view),
        (Some(50_000), Some(50_000), false)
    );
    let why = picture(store.folder(), photo.sha, Size::Thumb).unwrap_err();
    assert_eq!(why.code(), "no_view");
    assert!(why.to_string().contains("too many pixels"), "{why}");
}

#[test]
fn a_missing_or_changed_original_is_told() {
    let (_data, _jobs, mut store) = job();
    let photo = photo(&mut store, &jpeg(16, 16), "wall", 1);
    let path = store.photo_folder().join(photo.sha.to_string());
    fs::remove_dir_all(store.folder().join("cache")).unwrap();
    fs::write(&path, jpeg(8, 8)).unwrap();
    assert_eq!(
        picture(store.folder(), photo.sha, Size::View).unwrap_err().code(),
        "changed"
    );
    fs::remove_file(&path).unwrap();
    assert_eq!(
        picture(store.folder(), photo.sha, Size::View).unwrap_err().code(),
        "missing"
    );
}

/// Bytes changed at random places: never a panic, always kept.
#[test]
fn mutated_photos_are_kept() {
    let (_data, _jobs, mut store) = job();
    let good = crate::make::with_exif(&jpeg(24, 24), 6, "2026:03:02 10:00:00", Some("+02:00"), true);
    let mut state = 1_u64;
    for _ in 0..60 {
        let mut bytes = good.clone();
        for _ in 0..6 {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let place = 3 + usize::try_from(state >> 33).unwrap() % (bytes.len() - 3);
            bytes[place] = u8::try_from(state >> 24 & 0xFF).unwrap();
        }
        let kept = photo(&mut store, &bytes, "wall", 1);
        // Once from the whole picture, once opened smaller than it is: what the one shows, the other does.
        let cache = store.folder().join("cache");
        let whole = picture(store.folder(), kept.sha, Size::Thumb).is_ok();
        fs::remove_dir_all(cache).unwrap();
        assert_eq!(picture(store.folder(), kept.sha, Size::Thumb).is_ok(), whole);
    }
    assert_eq!(list(&store).unwrap().len(), 60);
}

/// Views are made while nobody holds the job any more: it may be moved meanwhile, and its folder does not come back.
#[test]
fn views_of_a_job_that_was_moved_bring_nothing_back() {
    let (data, _jobs, mut store) = job();
    let (bytes, about) = (jpeg(400, 300), meta("wall", PhotoKind::Group));
    let named = arrived(&bytes, &about, at(1))
        .unwrap()
        .keep(&SystemDisk, &mut store, at(1))
        .unwrap();
    let folder = store.folder().to_owned();
    drop(store);
    let elsewhere = data.path().join("elsewhere");
    fs::rename(&folder, &elsewhere).unwrap();
    assert_eq!(named.show().about, "wall");
    assert!(!folder.exists());
    let cache = |name: &str| elsewhere.join("cache").join(name).exists();
    assert!(!cache(&format!("{}-view.jpg", Hash::of(&bytes))));
}
