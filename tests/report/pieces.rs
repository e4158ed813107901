//! The report's photos come into it from where they lie, while it is read.

use crate::sample;
use std::sync::Arc;
use tempfile::tempdir;
use upstay_lib::pieces::Piece;
use upstay_lib::report::{ReportModel, report_pdf};

/// The sample with so many photos, each of another size in bytes.
fn model(photos: u32) -> ReportModel {
    let mut model = sample::model();
    let first = model.photos.first().unwrap().clone();
    model.photos = (1..=photos)
        .map(|number| {
            let mut view = sample::jpeg(number).to_vec();
            // What follows a picture's end belongs to nothing, and makes the file longer.
            view.resize(view.len() + usize::try_from(number).unwrap().pow(3), b'-');
            let mut photo = first.clone();
            photo.number = number;
            photo.sha256 = format!("{number:064x}");
            photo.view = Some(Piece::Held(Arc::new(view)));
            photo
        })
        .collect();
    model
}

/// Offsets of the cross-reference table with their numbers (ISO 32000-1, 7.5.4, from memory), found from the file's end.
fn table(pdf: &[u8]) -> Vec<(usize, usize)> {
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    let tail = text(pdf.last_chunk::<40>().unwrap());
    let start: usize = tail.lines().rev().nth(1).unwrap().parse().unwrap();
    let table = text(pdf.get(start..).unwrap());
    let mut lines = table.split_inclusive('\n');
    assert_eq!(lines.next(), Some("xref\n"));
    let count: usize = lines
        .next()
        .unwrap()
        .trim_end()
        .strip_prefix("0 ")
        .unwrap()
        .parse()
        .unwrap();
    let entries: Vec<&str> = lines.take(count).collect();
    assert!(entries.iter().all(|line| line.len() == 20), "an entry has 20 bytes");
    let used = entries.iter().enumerate().filter(|(_, line)| line.contains(" n"));
    used.map(|(number, line)| (number, line[..10].parse().unwrap()))
        .collect()
}

#[test]
fn a_photo_of_two_things_is_in_the_file_once() {
    let pictures = |pdf: Vec<u8>| pdf.windows(9).filter(|bytes| *bytes == b"DCTDecode").count();
    let mut twice = model(3);
    let mut again = twice.photos.last().unwrap().clone();
    (again.number, again.about) = (4, "N1-out".to_owned());
    twice.photos.push(again);
    for (model, wanted) in [(model(4), 4), (twice, 3)] {
        assert_eq!(pictures(report_pdf(&model).unwrap().whole().unwrap()), wanted);
    }
}

#[test]
fn every_object_stands_where_the_table_says_and_every_length_is_right() {
    // Each photo is longer than what stood in for it, some in digits as well.
    for photos in [0, 1, 40] {
        let pdf = report_pdf(&model(photos)).unwrap().whole().unwrap();
        let entries = table(&pdf);
        assert!(entries.len() > 50);
        let mut pictures = 0;
        for (number, offset) in entries {
            let object = pdf.get(offset..).unwrap();
            assert!(
                object.starts_with(format!("{number} 0 obj\n").as_bytes()),
                "object {number}"
            );
            let head = String::from_utf8_lossy(object.get(..object.len().min(400)).unwrap()).into_owned();
            let Some(begins) = head.find("\nstream\n").filter(|at| !head[..*at].contains("endobj")) else {
                continue;
            };
            let length = head.split_once("/Length ").unwrap().1;
            let length: usize = length
                .split(|letter: char| !letter.is_ascii_digit())
                .next()
                .unwrap()
                .parse()
                .unwrap();
            let ends = begins + "\nstream\n".len() + length;
            assert!(
                object.get(ends..).unwrap().starts_with(b"\nendstream\nendobj\n"),
                "stream of object {number}"
            );
            pictures += u32::from(head[..begins].contains("/DCTDecode"));
        }
        assert_eq!(pictures, photos);
    }
}

#[test]
fn photos_in_files_make_the_same_report_as_photos_in_hand() {
    let held = model(12);
    let wanted = report_pdf(&held).unwrap().whole().unwrap();
    let folder = tempdir().unwrap();
    let mut filed = held;
    for photo in &mut filed.photos {
        let path = folder.path().join(&photo.file).with_extension(photo.number.to_string());
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, photo.view.take().unwrap().head(usize::MAX).unwrap()).unwrap();
        photo.view = Some(Piece::file(path).unwrap());
    }
    let report = report_pdf(&filed).unwrap();
    assert_eq!(report.bytes(), u64::try_from(wanted.len()).unwrap());
    assert!(report.whole().unwrap() == wanted);
    // A photo that is gone or another by now ends it; a report with a wrong picture is never written.
    let Some(Piece::File { path, .. }) = filed.photos.last().and_then(|photo| photo.view.clone()) else {
        panic!("the last photo lies in a file");
    };
    std::fs::write(&path, sample::jpeg(1).as_slice()).unwrap();
    assert!(report.whole().is_err());
    std::fs::remove_file(&path).unwrap();
    assert!(report.whole().is_err());
}
