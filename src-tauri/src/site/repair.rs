//! Writing down a finding, and that one was put right.

use super::meaning::MEANINGS;
use super::state::state;
use crate::failure::{Answer, Failure};
use crate::record::{Entry, Hash, Kind, Moment, NewEntry, Store};
use serde::Deserialize;
use serde_json::json;

/// Longest words of a finding or repair, characters (own judgement: a page).
const WORDS: usize = 2000;
/// Most photos named with one.
const PHOTOS: usize = 20;

/// A finding as written down by hand.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NewFinding {
    /// What kind it is, as in the table of meanings.
    pub category: String,
    /// What was found; may be empty where the category says it all.
    #[serde(default)]
    pub what: String,
    /// Where it is.
    #[serde(default, rename = "where")]
    pub place: String,
    /// The prop it is about.
    #[serde(default)]
    pub prop: Option<String>,
    /// Who found it.
    pub name: String,
    /// Photos of it, by SHA-256.
    #[serde(default)]
    pub photos: Vec<String>,
}

/// A repair as written down.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NewRepair {
    /// The id of the finding.
    pub finding: String,
    /// What was done.
    pub what: String,
    /// Who did it.
    pub name: String,
    /// Photos of it, by SHA-256.
    #[serde(default)]
    pub photos: Vec<String>,
}

/// Writes down a finding.
///
/// # Errors
///
/// `category`, `name_missing`, `what_missing`, `too_long`, `no_photo`, or what the record said.
pub fn finding_add(store: &mut Store, new: &NewFinding, moment: Moment) -> Answer<Entry> {
    let known = MEANINGS
        .iter()
        .find(|known| known.by_hand && known.code == new.category);
    let Some(known) = known else {
        return Err(Failure::new("category", "Say what kind of thing was found.").at("/finding/category"));
    };
    let name = named(&new.name, "/finding/name")?;
    let what = match short(&new.what, "/finding/what")? {
        "" if known.code == "other" => {
            return Err(Failure::new("what_missing", "Say what was found.").at("/finding/what"));
        }
        "" => known.title,
        what => what,
    };
    let place = short(&new.place, "/finding/where")?;
    let prop = short(new.prop.as_deref().unwrap_or_default(), "/finding/prop")?;
    with_photos(store, &new.photos)?;
    let body = json!({
        "category": known.code, "words": what, "where": place, "prop": prop, "name": name, "photos": new.photos,
    });
    Ok(store.write(|gate| gate.append(moment, NewEntry::new(Kind::Finding, body)))?)
}

/// Writes down that a finding was put right.
///
/// # Errors
///
/// `no_finding` if it is not here or closed, `name_missing`, `what_missing`, `too_long`, `no_photo`, or what the record said.
pub fn repair_add(store: &mut Store, new: &NewRepair, moment: Moment) -> Answer<Entry> {
    let now = state(store)?;
    let open = now.open_findings().any(|finding| finding.id == new.finding);
    if !open {
        return Err(Failure::new(
            "no_finding",
            "That finding is not here, or it is closed already.",
        ));
    }
    let name = named(&new.name, "/repair/name")?;
    let what = short(&new.what, "/repair/what")?;
    if what.is_empty() {
        return Err(Failure::new("what_missing", "Say what was done.").at("/repair/what"));
    }
    with_photos(store, &new.photos)?;
    let body = json!({ "finding": new.finding, "words": what, "name": name, "photos": new.photos });
    Ok(store.write(|gate| gate.append(moment, NewEntry::new(Kind::Repair, body)))?)
}

fn named<'a>(name: &'a str, field: &str) -> Answer<&'a str> {
    match short(name, field)? {
        "" => Err(Failure::new("name_missing", "Write the name of whoever says it.").at(field)),
        name => Ok(name),
    }
}

fn short<'a>(text: &'a str, field: &str) -> Answer<&'a str> {
    let text = text.trim();
    if text.chars().count() > WORDS {
        let words = format!("This is longer than {WORDS} letters: put the rest into a note.");
        return Err(Failure::new("too_long", words).at(field));
    }
    Ok(text)
}

fn with_photos(store: &Store, photos: &[String]) -> Answer<()> {
    let here = |sha: &String| -> Answer<bool> {
        match sha.parse() {
            // Written as the record writes it, so that the same name is found again.
            Ok(hash) if Hash::to_string(&hash) == *sha => Ok(!store.adding_photo(hash)?.is_empty()),
            _ => Ok(false),
        }
    };
    let mut all = photos.len() <= PHOTOS;
    for sha in photos.iter().take(PHOTOS) {
        all = all && here(sha)?;
    }
    if !all {
        let words = format!("Photos are added to the record first, and at most {PHOTOS} are named here.");
        return Err(Failure::new("no_photo", words));
    }
    Ok(())
}
