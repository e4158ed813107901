//! Commands of taking out and closing: small turns, looks afterwards, the summary, closing and opening again.

use super::Desk;
use super::order::Stands;
use crate::failure::Answer;
use crate::record::{Entry, Moment, Store};
use crate::site::{self, NewClosing, NewLetDown, NewLook, Summary};
use tauri::State;

/// Writes with `work` and tells where the job stands then.
fn stands(desk: &Desk, id: &str, work: impl FnOnce(&mut Store, Moment) -> Answer<Entry>) -> Answer<Stands> {
    desk.at(id, |store| {
        let entry = work(store, Moment::now())?.hash;
        Ok(Stands {
            entry,
            state: site::state(store)?,
        })
    })
}

/// Writes down that props were let down or taken out.
#[tauri::command(async)]
pub fn let_down(desk: State<'_, Desk>, id: String, step: NewLetDown) -> Answer<Stands> {
    stands(&desk, &id, |store, now| site::let_down(store, &step, now))
}

/// Writes down a look after the props are out.
#[tauri::command(async)]
pub fn look_after(desk: State<'_, Desk>, id: String, look: NewLook) -> Answer<Stands> {
    stands(&desk, &id, |store, now| site::look_after(store, &look, now))
}

/// The whole job in short.
#[tauri::command(async)]
pub fn summary(desk: State<'_, Desk>, id: String) -> Answer<Summary> {
    desk.at(&id, |store| site::summary(store, Moment::now()))
}

/// Closes the job.
#[tauri::command(async)]
pub fn job_close(desk: State<'_, Desk>, id: String, closing: NewClosing) -> Answer<Stands> {
    stands(&desk, &id, |store, now| site::close(store, &closing, now))
}

/// Opens a closed job again.
#[tauri::command(async)]
pub fn job_reopen(desk: State<'_, Desk>, id: String, name: String, reason: String) -> Answer<Stands> {
    stands(&desk, &id, |store, now| site::reopen(store, &name, &reason, now))
}
