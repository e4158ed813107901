//! Which photos go into a pack.

use std::collections::HashSet;
use std::ops::RangeInclusive;

use chrono::NaiveDate;
use serde_json::Value;

use crate::record::{Entry, Hash, Kind, as_corrected};

/// A choice of photos. The record itself always goes in whole, and names those that were not chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// Only photos added on these days; `None` for all days.
    pub days: Option<RangeInclusive<NaiveDate>>,
    /// Only photos that show one of these (props by name, `wall`); empty for everything.
    pub about: Vec<String>,
    /// Only photos of these kinds (`group`, `portrait`, `detail`); empty for every kind.
    pub kinds: Vec<String>,
    /// Leaves the place of the job out of the report. The record and the originals keep what they hold.
    pub without_place: bool,
}

impl Choice {
    /// The photos of this choice, by what they show as last corrected. A photo added several times is in it if one of
    /// those times is.
    #[must_use]
    pub fn photos(&self, entries: &[Entry]) -> HashSet<Hash> {
        let taken = entries.iter().filter(|entry| entry.kind == Kind::PhotoTaken);
        as_corrected(taken.cloned().collect())
            .iter()
            .filter(|entry| self.holds(entry))
            .filter_map(|entry| entry.body.get("sha256")?.as_str()?.parse().ok())
            .collect()
    }

    fn holds(&self, entry: &Entry) -> bool {
        let day = entry.moment.local_date();
        let text = |key: &str| entry.body.get(key).and_then(Value::as_str).unwrap_or_default();
        let among = |chosen: &[String], key: &str| chosen.is_empty() || chosen.iter().any(|one| one == text(key));
        self.days
            .as_ref()
            .is_none_or(|days| day.is_some_and(|day| days.contains(&day)))
            && among(&self.about, "about")
            && among(&self.kinds, "kind")
    }
}
