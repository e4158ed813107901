//! What a photo says about itself, and how it is shown.

use std::io::Cursor;

use image::{ExtendedColorType, ImageEncoder};
use upstay_lib::photos::{Meta, Photo, PhotoKind, Size, intake, picture};
use upstay_lib::record::Store;
use zune_core::bytestream::ZCursor;
use zune_jpeg::JpegDecoder;

use crate::make::{at, job, jpeg, meta, photo, with_exif};

fn png(width: u32, height: u32) -> Vec<u8> {
    let mut out = Vec::new();
    let pixels = vec![90; usize::try_from(width * height * 3).unwrap()];
    image::codecs::png::PngEncoder::new(&mut out)
        .write_image(&pixels, width, height, ExtendedColorType::Rgb8)
        .unwrap();
    out
}

fn webp(width: u32, height: u32) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    let pixels = vec![90; usize::try_from(width * height * 3).unwrap()];
    let encoder = image::codecs::webp::WebPEncoder::new_lossless(&mut out);
    encoder.encode(&pixels, width, height, ExtendedColorType::Rgb8).unwrap();
    out.into_inner()
}

/// Width, height and RGB of a JPEG.
fn decoded(bytes: &[u8]) -> (usize, usize, Vec<u8>) {
    let mut decoder = JpegDecoder::new(ZCursor::new(bytes));
    let rgb = decoder.decode().unwrap();
    let (width, height) = decoder.dimensions().unwrap();
    (width, height, rgb)
}

fn shown(store: &Store, photo: &Photo, size: Size) -> (usize, usize, Vec<u8>) {
    decoded(&picture(store.folder(), photo.sha, size).unwrap())
}

/// 13:30 at five and a half hours ahead is 08:00 UTC: the photo was taken five minutes before it was added.
#[test]
fn the_cameras_time_and_offset_are_read() {
    let (_data, _jobs, mut store) = job();
    let bytes = with_exif(&jpeg(16, 16), 1, "2026:03:02 13:30:00", Some("+05:30"), true);
    let photo = photo(&mut store, &bytes, "wall", 5);
    assert_eq!(photo.at.as_deref(), Some("2026-03-02T13:30:00+05:30"));
    assert_eq!(
        (photo.source.as_str(), photo.difference_s, photo.mark),
        ("exif", Some(300), None)
    );
    assert!(store.photo_rows().unwrap()[0].place);
}

#[test]
fn a_camera_without_an_offset_is_taken_to_stand_at_the_phones() {
    let (_data, _jobs, mut store) = job();
    let bytes = with_exif(&jpeg(16, 16), 1, "2026:03:02 10:00:00", None, false);
    let photo = photo(&mut store, &bytes, "wall", 5);
    assert_eq!(
        (photo.at.as_deref(), photo.difference_s),
        (Some("2026-03-02T10:00:00+02:00"), Some(300))
    );
    assert!(!store.photo_rows().unwrap()[0].place);
}

#[test]
fn what_came_from_elsewhere_or_without_a_time_is_marked() {
    let (_data, _jobs, mut store) = job();
    let mut mark = |bytes: &[u8], modified_ms: Option<i64>| {
        let meta = Meta {
            modified_ms,
            ..meta("wall", PhotoKind::Group)
        };
        let photo = intake(&mut store, bytes, &meta, at(60)).unwrap();
        (photo.source, photo.difference_s, photo.mark.unwrap_or_default())
    };
    let old = with_exif(&jpeg(16, 16), 1, "2026:02:27 10:00:00", None, false);
    let (source, difference_s, words) = mark(&old, None);
    assert_eq!((source.as_str(), difference_s), ("exif", Some(3 * 86_400 + 3600)));
    assert!(words.contains("3 days before"), "{words}");
    let ahead = with_exif(&jpeg(16, 16), 1, "2026:03:02 11:10:00", None, false);
    assert!(mark(&ahead, None).2.contains("10 minutes ahead"));
    let (source, difference_s, words) = mark(&jpeg(16, 16), Some(at(59).utc_ms));
    assert_eq!((source.as_str(), difference_s), ("phone", Some(60)));
    assert!(words.contains("no time from a camera"), "{words}");
    assert!(mark(&jpeg(16, 16), Some(at(0).utc_ms)).2.contains("60 minutes before"));
    let (source, difference_s, words) = mark(&jpeg(16, 16), None);
    assert_eq!((source.as_str(), difference_s), ("unknown", None));
    assert!(words.contains("nothing about when"), "{words}");
    let nonsense = with_exif(&jpeg(16, 16), 1, "2026:13:45 99:99:99", Some("+xx:yy"), false);
    assert_eq!(mark(&nonsense, None).0, "unknown");
}

/// Red, blue, green at the first row's start, its end, and the last row's start.
fn corners() -> Vec<u8> {
    let pixels: Vec<u8> = (0..20)
        .flat_map(|y| {
            (0..40).flat_map(move |x| match (x < 20, y < 10) {
                (true, true) => [230, 10, 10],
                (false, true) => [10, 10, 230],
                (true, false) => [10, 230, 10],
                (false, false) => [230, 230, 230],
            })
        })
        .collect();
    let mut out = Vec::new();
    jpeg_encoder::Encoder::new(&mut out, 95)
        .encode(&pixels, 40, 20, jpeg_encoder::ColorType::Rgb)
        .unwrap();
    out
}

/// The colours of the four corners, row by row.
fn corners_of(width: usize, height: usize, rgb: &[u8]) -> String {
    let corner = |x: usize, y: usize| {
        let at = (y * width + x) * 3;
        match (rgb[at] > 150, rgb[at + 1] > 150, rgb[at + 2] > 150) {
            (true, false, false) => 'R',
            (false, true, false) => 'G',
            (false, false, true) => 'B',
            (true, true, true) => 'W',
            _ => '?',
        }
    };
    let (right, bottom) = (width - 3, height - 3);
    [corner(2, 2), corner(right, 2), corner(2, bottom), corner(right, bottom)]
        .iter()
        .collect()
}

/// Where the first row and the first column are seen, for each orientation (EXIF 2.3, tag 0x0112): 1 top left, 2 top right,
/// 3 bottom right, 4 bottom left, 5 left top, 6 right top, 7 right bottom, 8 left bottom.
#[test]
fn the_view_stands_upright() {
    let (_data, _jobs, mut store) = job();
    for (orientation, size, expected) in [
        (1, (40, 20), "RBGW"),
        (2, (40, 20), "BRWG"),
        (3, (40, 20), "WGBR"),
        (4, (40, 20), "GWRB"),
        (5, (20, 40), "RGBW"),
        (6, (20, 40), "GRWB"),
        (7, (20, 40), "WBGR"),
        (8, (20, 40), "BWRG"),
    ] {
        let bytes = with_exif(&corners(), orientation, "2026:03:02 10:00:00", None, false);
        let photo = photo(&mut store, &bytes, "wall", 1);
        for copy in [Size::View, Size::Thumb] {
            let (width, height, rgb) = shown(&store, &photo, copy);
            assert_eq!((width, height), size, "{orientation}");
            assert_eq!(corners_of(width, height, &rgb), expected, "{orientation}");
        }
        assert_eq!(
            (photo.width, photo.height),
            (Some(40), Some(20)),
            "the size as stored is told"
        );
    }
}

#[test]
fn the_copies_have_their_size_and_are_made_again() {
    let (_data, _jobs, mut store) = job();
    let photo = photo(&mut store, &jpeg(2000, 1000), "wall", 1);
    assert!(photo.view && photo.words.is_none());
    let view = picture(store.folder(), photo.sha, Size::View).unwrap();
    assert_eq!(decoded(&view).0, 1600);
    assert_eq!(shown(&store, &photo, Size::Thumb).1, 160);
    std::fs::remove_dir_all(store.folder().join("cache")).unwrap();
    assert_eq!(picture(store.folder(), photo.sha, Size::View).unwrap(), view);
}

#[test]
fn every_kind_is_known_by_its_contents() {
    let (_data, _jobs, mut store) = job();
    let heic = [&[0, 0, 0, 24], b"ftypheic".as_slice(), &[0; 40]].concat();
    for (bytes, format, view) in [
        (jpeg(30, 20), "jpeg", true),
        (png(30, 20), "png", true),
        (webp(30, 20), "webp", true),
        (heic, "heic", false),
    ] {
        let photo = photo(&mut store, &bytes, "wall", 1);
        assert_eq!((photo.format.as_str(), photo.view), (format, view));
        if view {
            assert_eq!((photo.width, photo.height), (Some(30), Some(20)));
            assert_eq!(shown(&store, &photo, Size::Thumb).0, 30, "never enlarged");
        } else {
            assert!(photo.words.unwrap().contains("Kept as it came"));
            assert_eq!(
                picture(store.folder(), photo.sha, Size::View).unwrap_err().code(),
                "no_view"
            );
        }
    }
}
