//! Commands of the proposal.

use super::Desk;
use crate::failure::{Answer, Failure};
use crate::form::Fields;
use crate::record::{Hash, Moment};
use crate::site::{self, Figure, Gust, Swap, Trial};
use calc::helps::Helps;
use serde::Serialize;
use serde_json::Value;
use std::path::PathBuf;
use tauri::State;

/// The entry that was written.
#[derive(Debug, Serialize)]
pub struct Written {
    /// Its hash.
    pub entry: Hash,
}

/// A paper that was saved.
#[derive(Debug, Serialize)]
pub struct Paper {
    path: PathBuf,
}

impl Paper {
    /// A paper that lies here.
    pub(super) const fn at(path: PathBuf) -> Self {
        Self { path }
    }
}

/// Computes what the fields describe; `option` is the one to draw.
#[tauri::command(async)]
pub fn figure(fields: Fields, option: Option<usize>) -> Figure {
    site::figure(&fields, option.unwrap_or(0))
}

/// Tries what would help a wall on which nothing holds, or an answer that is close; nothing where neither is so.
#[tauri::command(async)]
pub fn helps_try(fields: Fields) -> Option<Helps> {
    site::helps(&fields)
}

/// Judges and draws an arrangement that is only tried.
#[tauri::command(async)]
pub fn plan_try(fields: Fields, plan: Value) -> Trial {
    site::trial(&fields, plan)
}

/// Holds props of another size against the places of the option shown.
#[tauri::command(async)]
pub fn props_swap(fields: Fields, option: usize, size: Value) -> Answer<Vec<Swap>> {
    site::swaps(&fields, option, &size).map_err(Failure::described)
}

/// Holds a gust against the braces of the option shown.
#[tauri::command(async)]
pub fn gust_today(fields: Fields, option: usize, gust: String) -> Answer<Gust> {
    site::gust(&fields, option, &gust).map_err(Failure::described)
}

/// Keeps the option with this aim.
#[tauri::command(async)]
pub fn keep(desk: State<'_, Desk>, id: String, fields: Fields, aim: String) -> Answer<Written> {
    desk.at(&id, |store| {
        Ok(Written {
            entry: site::keep(store, &fields, &aim, Moment::now())?.hash,
        })
    })
}

/// Saves the engineer's brief as a PDF.
#[tauri::command(async)]
pub fn brief_save(desk: State<'_, Desk>, id: String, fields: Fields) -> Answer<Paper> {
    let figure = site::figure(&fields, 0);
    let now = Moment::now();
    let (name, bytes) = desk.at(&id, |store| Ok((store.info()?.name, site::brief(store, &figure, now)?)))?;
    let day = now.local_date().map(|day| day.to_string()).unwrap_or_default();
    let path = desk.paper(&name, &day, "brief", "pdf")?;
    std::fs::write(&path, bytes).map_err(|why| {
        Failure::new(
            "file",
            format!("The brief cannot be saved as {} ({why}).", path.display()),
        )
    })?;
    Ok(Paper { path })
}
