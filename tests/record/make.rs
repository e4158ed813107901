//! What the tests are made of.

use std::path::Path;

use serde_json::json;
use tempfile::TempDir;
use upstay_lib::photos::{Meta, Photo, PhotoKind, intake};
use upstay_lib::record::{Entry, Jobs, Kind, Moment, NewEntry, Store};

/// 2026-03-02 08:00 UTC, two hours ahead, and `minutes` later.
pub fn at(minutes: i64) -> Moment {
    Moment {
        utc_ms: 1_772_438_400_000 + minutes * 60_000,
        offset_min: 120,
        boot_ms: Some(5_000 + minutes * 60_000),
    }
}

/// A data folder with one job in it.
pub fn job() -> (TempDir, Jobs, Store) {
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open(data.path()).unwrap();
    let store = jobs.begin("Mill Lane 4", "Back wall", "england", false, at(0)).unwrap();
    (data, jobs, store)
}

/// Adds a note.
pub fn note(store: &mut Store, minutes: i64, text: &str) -> Entry {
    let entry = NewEntry::new(Kind::Note, json!({"text": text}));
    store.append_many(at(minutes), vec![entry], None).unwrap().remove(0)
}

/// A round with two readings, one of them with words that a spreadsheet would run.
pub fn round(store: &mut Store, minutes: i64) -> Entry {
    let body = json!({
        "round": {"why": "daily", "readings": [
            {"prop": "N1-in", "pin": "right", "collar_turns": 0.5, "thread_mm": 80, "lean_mm": [3, -2], "over_m": 1.5,
             "head_off_mm": 4, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true},
            {"prop": "=1+1, \"two\"", "pin": "wrong", "lean_mm": [0, 0], "over_m": 1.5}]},
        "evaluation": {"passed": false, "stop": true, "props": [{"name": "N1-in", "kappa": 0.71, "load_kn": 12.25}]},
    });
    store
        .append_many(at(minutes), vec![NewEntry::new(Kind::RoundDone, body)], None)
        .unwrap()
        .remove(0)
}

/// A JPEG of the given size: a red left half and a blue right half.
pub fn jpeg(width: u16, height: u16) -> Vec<u8> {
    let pixels: Vec<u8> = (0..height)
        .flat_map(|_| (0..width).flat_map(move |x| if x < width / 2 { [220, 20, 20] } else { [20, 20, 220] }))
        .collect();
    let mut out = Vec::new();
    jpeg_encoder::Encoder::new(&mut out, 90)
        .encode(&pixels, width, height, jpeg_encoder::ColorType::Rgb)
        .unwrap();
    out
}

/// `jpeg` with an EXIF segment built by hand: orientation, capture time, its offset, and a latitude where `place`.
pub fn with_exif(jpeg: &[u8], orientation: u16, time: &str, offset: Option<&str>, place: bool) -> Vec<u8> {
    let mut out = jpeg[..2].to_vec();
    let tiff = tiff(orientation, time, offset, place);
    out.extend([0xFF, 0xE1]);
    out.extend(u16::try_from(tiff.len() + 8).unwrap().to_be_bytes());
    out.extend(b"Exif\0\0");
    out.extend(tiff);
    out.extend(&jpeg[2..]);
    out
}

/// Little-endian TIFF: IFD0 at 8, the EXIF IFD, the GPS IFD, then the values.
fn tiff(orientation: u16, time: &str, offset: Option<&str>, place: bool) -> Vec<u8> {
    let entry = |tag: u16, kind: u16, count: u32, value: u32| {
        let mut out = tag.to_le_bytes().to_vec();
        out.extend(kind.to_le_bytes());
        out.extend(count.to_le_bytes());
        out.extend(value.to_le_bytes());
        out
    };
    let ifd = |entries: Vec<Vec<u8>>| {
        let mut out = u16::try_from(entries.len()).unwrap().to_le_bytes().to_vec();
        out.extend(entries.concat());
        out.extend([0; 4]);
        out
    };
    let (exif_count, gps_count) = (1 + u32::from(offset.is_some()), 2 * u32::from(place));
    let exif_at = 8 + 2 + 12 * (2 + u32::from(place)) + 4;
    let gps_at = exif_at + 2 + 12 * exif_count + 4;
    let time_at = if place { gps_at + 2 + 12 * gps_count + 4 } else { gps_at };
    let (offset_at, latitude_at) = (time_at + 20, time_at + 28);
    let mut main = vec![
        entry(0x0112, 3, 1, u32::from(orientation)),
        entry(0x8769, 4, 1, exif_at),
    ];
    let mut exif = vec![entry(0x9003, 2, 20, time_at)];
    if offset.is_some() {
        exif.push(entry(0x9011, 2, 7, offset_at));
    }
    if place {
        main.push(entry(0x8825, 4, 1, gps_at));
    }
    let mut out = b"II*\0\x08\0\0\0".to_vec();
    out.extend(ifd(main));
    out.extend(ifd(exif));
    if place {
        out.extend(ifd(vec![entry(1, 2, 2, u32::from(b'N')), entry(2, 5, 3, latitude_at)]));
    }
    assert_eq!(out.len(), usize::try_from(time_at).unwrap());
    out.extend(time.as_bytes());
    out.push(0);
    out.extend(offset.unwrap_or("+00:00").as_bytes());
    out.extend([0, 0]);
    for number in [51_u32, 1, 30, 1, 0, 1] {
        out.extend(number.to_le_bytes());
    }
    out
}

/// What is told about a photo.
pub fn meta(about: &str, kind: PhotoKind) -> Meta {
    Meta {
        about: about.to_owned(),
        kind,
        name: "IMG_0001.jpg".to_owned(),
        modified_ms: None,
    }
}

/// Takes a photo in.
pub fn photo(store: &mut Store, bytes: &[u8], about: &str, minutes: i64) -> Photo {
    intake(store, bytes, &meta(about, PhotoKind::Detail), at(minutes)).unwrap()
}

/// A whole job: photos, notes, a round; packed into `folder`.
pub fn packed(store: &mut Store, folder: &Path) -> upstay_lib::pack::Made {
    photo(store, &jpeg(40, 30), "wall", 5);
    photo(
        store,
        &with_exif(&jpeg(40, 30), 1, "2026:03:02 10:06:00", None, false),
        "N1-in",
        3 * 1440 + 6,
    );
    photo(store, &jpeg(30, 40), "N1-in", 3 * 1440 + 7);
    note(store, 3 * 1440 + 8, "Wedge at N1 driven home.");
    round(store, 3 * 1440 + 9);
    pack(store, folder, 3 * 1440 + 10)
}

/// Packs a job as it is.
pub fn pack(store: &mut Store, folder: &Path, minutes: i64) -> upstay_lib::pack::Made {
    let caution = "Not a substitute for an engineer.\n=Check each day.";
    upstay_lib::pack::make(store, folder, caution, at(minutes), |_| {
        Ok(b"%PDF-1.7 made for a test".to_vec().into())
    })
    .unwrap()
}

/// Numbers that look random and are the same in every run (a linear congruential generator, Knuth's constants).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15).wrapping_add(1))
    }

    /// A number below `limit`, 0 where that is 0.
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % limit.max(1)
    }

    /// A byte.
    pub fn byte(&mut self) -> u8 {
        u8::try_from(self.below(256)).unwrap()
    }

    /// Changes `bytes` somewhere: bits, bytes, runs, lengths, pieces moved, known tokens put in.
    pub fn mutate(&mut self, bytes: &mut Vec<u8>, tokens: &[&[u8]]) {
        for _ in 0..=self.below(4) {
            let at = self.below(bytes.len());
            let span = (1 + self.below(16)).min(bytes.len() - at);
            match self.below(8) {
                0 if !bytes.is_empty() => bytes[at] ^= 1 << self.below(8),
                1 if !bytes.is_empty() => bytes[at] = self.byte(),
                2 => drop(bytes.drain(at..at + span)),
                3 => {
                    let piece = bytes[at..at + span].to_vec();
                    let to = self.below(bytes.len() + 1);
                    drop(bytes.splice(to..to, piece));
                }
                4 => bytes.truncate(at),
                5 => bytes[at..at + span].fill([0, 0xFF, 0x7F, b'['][self.below(4)]),
                6 => {
                    let noise: Vec<u8> = (0..self.below(9)).map(|_| self.byte()).collect();
                    drop(bytes.splice(at..at, noise));
                }
                _ if !tokens.is_empty() => {
                    let token = tokens[self.below(tokens.len())];
                    let end = (at + self.below(token.len() + 1)).min(bytes.len());
                    drop(bytes.splice(at..end, token.iter().copied()));
                }
                _ => {}
            }
        }
    }
}
