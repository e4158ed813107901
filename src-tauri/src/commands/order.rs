//! Commands of the order of work.

use super::Desk;
use super::support::Written;
use crate::failure::Answer;
use crate::record::Moment;
use crate::site;
use tauri::State;

/// Writes down that a stop was passed; `set_out` says whether whoever says yes set the support out.
#[tauri::command(async)]
pub fn stop_pass(
    desk: State<'_, Desk>,
    id: String,
    stop: String,
    name: String,
    set_out: Option<bool>,
) -> Answer<Written> {
    desk.at(&id, |store| {
        Ok(Written {
            entry: site::pass(store, &stop, &name, set_out, Moment::now())?.hash,
        })
    })
}
