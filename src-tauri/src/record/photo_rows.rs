//! The index over the photos of a job.

use std::collections::HashMap;

use rusqlite::{OptionalExtension, Params, Row, params};
use serde_json::{Value, json};
use uuid::Uuid;

use super::chain::ChainFault;
use super::entry::Entry;
use super::error::sql;
use super::{Gate, Hash, Kind, Moment, NewEntry, RecordError, Store};

/// The columns of a photo, with hash and tick of the entry that added it.
const SELECT: &str = include_str!("sql/select_photos.sql");

/// A photo with the entry that added it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Added {
    /// Hash of the entry.
    pub entry: Hash,
    /// Its tick.
    pub tick: i64,
    /// The photo as added.
    pub row: PhotoRow,
}

/// A photo as added once; the same bytes may be added again for another prop. The words (`kind`, `source`, `mark`,
/// `format`, `state`) are those of `photos`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhotoRow {
    /// Device of the entry that added it.
    pub device: Uuid,
    /// Number of the entry that added it.
    pub seq: i64,
    /// SHA-256 of the bytes as received.
    pub sha: Hash,
    /// Size, bytes.
    pub bytes: i64,
    /// Name of the file as it came.
    pub name: String,
    /// What it shows: the wall, a prop by name, or other words.
    pub about: String,
    /// `group`, `portrait` or `detail`.
    pub kind: String,
    /// Capture time, milliseconds since 1970 UTC, where known.
    pub taken_utc_ms: Option<i64>,
    /// Offset of the capture time, minutes ahead of UTC.
    pub offset_min: Option<i32>,
    /// Where the capture time comes from: `exif`, `phone` or `unknown`.
    pub source: String,
    /// Seconds from the capture to when it was added, by the phone's clock.
    pub difference_s: Option<i64>,
    /// Why its time deserves a second look.
    pub mark: Option<String>,
    /// Whether the file says where it was taken.
    pub place: bool,
    /// EXIF orientation, 1 to 8.
    pub orientation: i64,
    /// Width as stored, pixels.
    pub width: Option<i64>,
    /// Height as stored, pixels.
    pub height: Option<i64>,
    /// `jpeg`, `png`, `webp` or `heic`.
    pub format: String,
    /// `whole`, `no_view_here`, `damaged` or `too_large`.
    pub state: String,
}

impl PhotoRow {
    /// The body of the entry that adds this photo.
    #[must_use]
    pub fn body(&self) -> Value {
        json!({
            "sha256": self.sha, "bytes": self.bytes, "name": self.name, "about": self.about, "kind": self.kind,
            "taken_utc_ms": self.taken_utc_ms, "offset_min": self.offset_min, "source": self.source,
            "difference_s": self.difference_s, "mark": self.mark, "place": self.place,
            "orientation": self.orientation, "width": self.width, "height": self.height,
            "format": self.format, "state": self.state,
        })
    }
}

impl PhotoRow {
    /// Reads a body back as the row that the entry of `device` and `seq` adds; `None` if a part is missing or of the wrong
    /// type.
    pub(super) fn from_body(device: Uuid, seq: i64, body: &Value) -> Option<Self> {
        let text = |key: &str| Some(body.get(key)?.as_str()?.to_owned());
        let whole = |key: &str| match body.get(key)? {
            Value::Null => Some(None),
            number => number.as_i64().map(Some),
        };
        Some(Self {
            device,
            seq,
            sha: text("sha256")?.parse().ok()?,
            bytes: whole("bytes")??,
            name: text("name")?,
            about: text("about")?,
            kind: text("kind")?,
            taken_utc_ms: whole("taken_utc_ms")?,
            offset_min: match whole("offset_min")? {
                Some(minutes) => Some(i32::try_from(minutes).ok()?),
                None => None,
            },
            source: text("source")?,
            difference_s: whole("difference_s")?,
            mark: match body.get("mark")? {
                Value::Null => None,
                mark => Some(mark.as_str()?.to_owned()),
            },
            place: body.get("place")?.as_bool()?,
            orientation: whole("orientation")??,
            width: whole("width")?,
            height: whole("height")?,
            format: text("format")?,
            state: text("state")?,
        })
        .filter(Self::has_known_words)
    }

    /// The table refuses other words too; here they are told before anything is written.
    fn has_known_words(&self) -> bool {
        self.bytes > 0
            && (1..=8).contains(&self.orientation)
            && ["group", "portrait", "detail"].contains(&self.kind.as_str())
            && ["exif", "phone", "unknown"].contains(&self.source.as_str())
            && ["jpeg", "png", "webp", "heic"].contains(&self.format.as_str())
            && ["whole", "no_view_here", "damaged", "too_large"].contains(&self.state.as_str())
            && self
                .mark
                .as_deref()
                .is_none_or(|mark| ["no_camera_time", "no_time", "from_elsewhere", "clock_ahead"].contains(&mark))
    }
}

impl Gate<'_> {
    /// Adds the entry and the row of a photo whose file is already kept. `device` and `seq` of `row` are set here.
    ///
    /// # Errors
    ///
    /// As [`Gate::append`].
    pub fn photo_add(&self, moment: Moment, mut row: PhotoRow) -> Result<(Entry, PhotoRow), RecordError> {
        let entry = self.append(moment, NewEntry::new(Kind::PhotoTaken, row.body()))?;
        row.device = entry.device;
        row.seq = entry.seq;
        self.insert_photo(&row)?;
        Ok((entry, row))
    }

    /// Adds the row of a photo whose entry is there.
    pub(super) fn insert_photo(&self, row: &PhotoRow) -> Result<(), RecordError> {
        self.tx
            .prepare_cached(include_str!("sql/insert_photo.sql"))
            .and_then(|mut statement| {
                statement.execute(params![
                    row.device.to_string(),
                    row.seq,
                    row.sha,
                    row.bytes,
                    row.name,
                    row.about,
                    row.kind,
                    row.taken_utc_ms,
                    row.offset_min,
                    row.source,
                    row.difference_s,
                    row.mark,
                    row.place,
                    row.orientation,
                    row.width,
                    row.height,
                    row.format,
                    row.state,
                ])
            })
            .map_err(sql("Add a photo"))?;
        Ok(())
    }
}

impl Store {
    /// Every photo as added, oldest first.
    ///
    /// # Errors
    ///
    /// [`RecordError::BadColumn`] for a row that cannot be read, otherwise what the database said.
    pub fn photo_rows(&self) -> Result<Vec<PhotoRow>, RecordError> {
        Ok(self.photos_added()?.into_iter().map(|added| added.row).collect())
    }

    /// The same, each with its entry.
    ///
    /// # Errors
    ///
    /// As [`Store::photo_rows`].
    pub fn photos_added(&self) -> Result<Vec<Added>, RecordError> {
        self.photos(&format!("{SELECT} ORDER BY e.tick, e.device, e.seq"), [])
    }

    /// The photo that the entry with this hash added.
    ///
    /// # Errors
    ///
    /// As [`Store::photo_rows`].
    pub fn photo_by(&self, entry: Hash) -> Result<Option<Added>, RecordError> {
        Ok(self.photos(&format!("{SELECT} WHERE e.hash = ?1"), [entry])?.pop())
    }

    /// At most `limit` photos as added, newest first; with `before`, those added before that entry of that device.
    ///
    /// # Errors
    ///
    /// As [`Store::photo_rows`].
    pub fn photo_page(&self, before: Option<(Uuid, i64)>, limit: u32) -> Result<Vec<Added>, RecordError> {
        let place = match before {
            None => None,
            Some((device, seq)) => self
                .db
                .query_row(
                    "SELECT tick FROM entry WHERE device = ?1 AND seq = ?2",
                    params![device.to_string(), seq],
                    |row| row.get(0),
                )
                .optional()
                .map_err(sql("Look for the photo before a page"))?
                .map(|tick: i64| (device.to_string(), seq, tick)),
        };
        let (device, seq, tick) = place.unwrap_or((String::new(), 0, i64::MAX));
        self.photos(
            include_str!("sql/page_of_photos.sql"),
            params![device, seq, tick, limit],
        )
    }

    fn photos(&self, text: &str, with: impl Params) -> Result<Vec<Added>, RecordError> {
        let mut statement = self.db.prepare(text).map_err(sql("Ask for photos"))?;
        let mut rows = statement.query(with).map_err(sql("Read the photos"))?;
        let mut photos = Vec::new();
        while let Some(row) = rows.next().map_err(sql("Read a photo"))? {
            photos.push(Added {
                entry: row.get(18).map_err(sql("Read a photo's entry"))?,
                tick: row.get(19).map_err(sql("Read a photo's tick"))?,
                row: photo_of(row)?,
            });
        }
        Ok(photos)
    }

    /// Where the index and the entries disagree.
    pub(super) fn photo_faults(&self, entries: &[Entry]) -> Result<Vec<ChainFault>, RecordError> {
        let mut rows: HashMap<(Uuid, i64), PhotoRow> = self
            .photo_rows()?
            .into_iter()
            .map(|row| ((row.device, row.seq), row))
            .collect();
        let mut faults = Vec::new();
        // A correction adds no photo; the entry it names did.
        let adding = |entry: &&Entry| entry.kind == Kind::PhotoTaken && entry.corrects.is_none();
        for entry in entries.iter().filter(adding) {
            let agrees = rows
                .remove(&(entry.device, entry.seq))
                .is_some_and(|row| row.body() == entry.body);
            if !agrees {
                let what = "the list of photos says something else than this entry".to_owned();
                faults.push(ChainFault {
                    device: entry.device.to_string(),
                    seq: entry.seq,
                    what,
                });
            }
        }
        faults.extend(rows.into_keys().map(|(device, seq)| ChainFault {
            device: device.to_string(),
            seq,
            what: "a photo is listed that this entry does not add".to_owned(),
        }));
        Ok(faults)
    }
}

fn photo_of(row: &Row<'_>) -> Result<PhotoRow, RecordError> {
    let read = |row: &Row<'_>| -> rusqlite::Result<(String, PhotoRow)> {
        Ok((
            row.get(0)?,
            PhotoRow {
                device: Uuid::nil(),
                seq: row.get(1)?,
                sha: row.get(2)?,
                bytes: row.get(3)?,
                name: row.get(4)?,
                about: row.get(5)?,
                kind: row.get(6)?,
                taken_utc_ms: row.get(7)?,
                offset_min: row.get(8)?,
                source: row.get(9)?,
                difference_s: row.get(10)?,
                mark: row.get(11)?,
                place: row.get(12)?,
                orientation: row.get(13)?,
                width: row.get(14)?,
                height: row.get(15)?,
                format: row.get(16)?,
                state: row.get(17)?,
            },
        ))
    };
    let (device, mut photo) = read(row).map_err(sql("Read a photo's row"))?;
    photo.device = Uuid::parse_str(&device).map_err(|_| RecordError::BadColumn {
        column: "photo.device",
        what: device,
    })?;
    Ok(photo)
}
