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
        assert_eq!(
            photo.turned,
            size == (20, 40),
            "{orientation}: which way it is shown is told"
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

/// A wall as cameras see one: courses of brick with joints, a bright sky, noise of a sensor.
fn brickwork(width: u16, height: u16) -> Vec<u8> {
    let mut state = 7_u32;
    let mut noise = move || {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (state >> 28) as u8
    };
    (0..height)
        .flat_map(|y| (0..width).map(move |x| (x, y)))
        .flat_map(|(x, y)| {
            let (course, joint) = (y / 45, y % 45 < 6 || (x + 60 * (y / 45 % 2)) % 130 < 6);
            let grain = noise();
            match (y < height / 5, joint) {
                (true, _) => [150 + grain, 180 + grain, 225 + grain],
                (false, true) => [170 + grain, 165 + grain, 155 + grain],
                (false, false) => [150 + grain, 60 + grain + (course % 5 * 6) as u8, 45 + grain],
            }
        })
        .collect()
}

/// The mean of each block of so many pixels a side: what a smaller copy ought to show.
fn averaged(rgb: &[u8], [width, height]: [usize; 2], side: usize) -> Vec<f64> {
    let mut out = Vec::new();
    for y in (0..height).step_by(side) {
        for x in (0..width).step_by(side) {
            for channel in 0..3 {
                let pixels = (0..side * side).map(|at| ((y + at / side) * width + x + at % side) * 3 + channel);
                out.push(pixels.map(|at| f64::from(rgb[at])).sum::<f64>() / (side * side) as f64);
            }
        }
    }
    out
}

/// Copies of a photo that was opened at half, a quarter or an eighth of its size, and a thumbnail made from the kept view: none
/// is farther from the mean of the pixels themselves than one made from the whole picture, by more than a quarter (own
/// judgement: what the copies' own compression loses is more than that).
#[test]
fn a_copy_of_a_photo_opened_smaller_shows_the_same() {
    use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
    for (width, height, side, sampling, progressive) in [
        (2560_u16, 1920_u16, 8, SamplingFactor::F_2_2, false),
        (2560, 1920, 8, SamplingFactor::F_2_2, true),
        (2560, 1920, 8, SamplingFactor::F_1_1, false),
        (1280, 960, 4, SamplingFactor::F_2_1, false),
        (960, 1280, 4, SamplingFactor::F_2_2, false),
    ] {
        let what = format!("{width} × {height}, {sampling:?}, progressive {progressive}");
        let (_data, _jobs, mut store) = job();
        let pixels = brickwork(width, height);
        let mut bytes = Vec::new();
        let mut encoder = Encoder::new(&mut bytes, 92);
        encoder.set_sampling_factor(sampling);
        encoder.set_progressive(progressive);
        encoder.encode(&pixels, width, height, ColorType::Rgb).unwrap();
        let photo = photo(&mut store, &bytes, "wall", 1);
        let (cache, thumb) = (store.folder().join("cache"), format!("{}-thumb.jpg", photo.sha));
        let view = cache.join(format!("{}-view.jpg", photo.sha));
        let truth = averaged(&pixels, [usize::from(width), usize::from(height)], side);
        let off = |made: &(usize, usize, Vec<u8>)| {
            assert_eq!(made.2.len(), truth.len(), "{what}");
            let squares = made
                .2
                .iter()
                .zip(&truth)
                .map(|(one, other)| (f64::from(*one) - other).powi(2));
            (squares.sum::<f64>() / truth.len() as f64).sqrt()
        };
        let whole = off(&shown(&store, &photo, Size::Thumb));
        std::fs::remove_file(cache.join(&thumb)).unwrap();
        let of_view = off(&shown(&store, &photo, Size::Thumb));
        std::fs::remove_dir_all(&cache).unwrap();
        let alone = off(&shown(&store, &photo, Size::Thumb));
        assert!(
            cache.join(&thumb).exists() && !view.exists(),
            "{what}: made alone and kept"
        );
        println!("{what}: whole {whole:.2}, of the view {of_view:.2}, alone {alone:.2}");
        for (how, off) in [("of the view", of_view), ("alone", alone)] {
            assert!(off <= whole * 1.25, "{what}, {how}: {off:.2}, whole {whole:.2}");
        }
    }
}

/// Opened smaller than it is or not, a copy stands upright and has the same size.
#[test]
fn a_copy_of_a_photo_opened_smaller_stands_upright() {
    for orientation in [1, 3, 6, 8] {
        for (width, height) in [(3300_u16, 1000_u16), (701, 1203), (330, 90)] {
            let (_data, _jobs, mut store) = job();
            let bytes = with_exif(&jpeg(width, height), orientation, "2026:03:02 10:00:00", None, false);
            let photo = photo(&mut store, &bytes, "wall", 1);
            let first = shown(&store, &photo, Size::Thumb);
            let view = shown(&store, &photo, Size::View);
            std::fs::remove_dir_all(store.folder().join("cache")).unwrap();
            let alone = shown(&store, &photo, Size::Thumb);
            assert_eq!(
                (alone.0, alone.1),
                (first.0, first.1),
                "{width} × {height}, {orientation}"
            );
            let turned = matches!(orientation, 6 | 8);
            assert_eq!(
                view.0 > view.1,
                (width > height) != turned,
                "{width} × {height}, {orientation}"
            );
        }
    }
}

/// A view that does not open is no reason to show nothing: the photo itself is opened.
#[test]
fn a_thumbnail_does_not_rest_on_a_spoilt_view() {
    let (_data, _jobs, mut store) = job();
    let photo = photo(&mut store, &jpeg(2000, 1000), "wall", 1);
    let cache = store.folder().join("cache");
    let whole = shown(&store, &photo, Size::Thumb);
    std::fs::remove_file(cache.join(format!("{}-thumb.jpg", photo.sha))).unwrap();
    std::fs::write(cache.join(format!("{}-view.jpg", photo.sha)), b"").unwrap();
    assert_eq!(shown(&store, &photo, Size::Thumb).0, whole.0);
}
