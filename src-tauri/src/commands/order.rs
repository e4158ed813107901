//! Commands of the order of work: stops, findings and repairs, and which proposal stands.

use super::Desk;
use super::support::Written;
use crate::failure::{Answer, Failure};
use crate::record::{Hash, Moment};
use crate::site::{self, Due, MEANINGS, Meaning, NewFinding, NewRepair, SiteState, Watch};
use serde::Serialize;
use tauri::State;

/// What was written, and where the job stands after it.
#[derive(Debug, Serialize)]
pub struct Stands {
    pub(super) entry: Hash,
    pub(super) state: SiteState,
}

/// Where the job stands: findings, permits, open questions.
#[tauri::command(async)]
pub fn site_state(desk: State<'_, Desk>, id: String) -> Answer<SiteState> {
    desk.at(&id, |store| site::state(store))
}

/// What each kind of finding means and what to do about it.
#[tauri::command(async)]
pub fn finding_meanings() -> &'static [Meaning] {
    MEANINGS
}

/// Writes down a finding.
#[tauri::command(async)]
pub fn finding_add(desk: State<'_, Desk>, id: String, finding: NewFinding) -> Answer<Stands> {
    desk.at(&id, |store| {
        let entry = site::finding_add(store, &finding, Moment::now())?.hash;
        Ok(Stands {
            entry,
            state: site::state(store)?,
        })
    })
}

/// Writes down that a finding was put right.
#[tauri::command(async)]
pub fn repair_add(desk: State<'_, Desk>, id: String, repair: NewRepair) -> Answer<Stands> {
    desk.at(&id, |store| {
        let entry = site::repair_add(store, &repair, Moment::now())?.hash;
        Ok(Stands {
            entry,
            state: site::state(store)?,
        })
    })
}

/// What was written, and what is due after it.
#[derive(Debug, Serialize)]
pub struct Watched {
    entry: Hash,
    due: Due,
}

/// What is due, since when and why.
#[tauri::command(async)]
pub fn due(desk: State<'_, Desk>, id: String) -> Answer<Due> {
    desk.at(&id, |store| site::due(store, Moment::now()))
}

/// Writes down who looks after the wall at night or over the weekend.
#[tauri::command(async)]
pub fn watch_add(desk: State<'_, Desk>, id: String, watch: Watch) -> Answer<Watched> {
    desk.at(&id, |store| {
        let entry = site::watch(store, &watch, Moment::now())?.hash;
        Ok(Watched {
            entry,
            due: site::due(store, Moment::now())?,
        })
    })
}

/// Says which of several proposals is the one that holds the wall up.
#[tauri::command(async)]
pub fn proposal_choose(desk: State<'_, Desk>, id: String, proposal: String, name: String) -> Answer<Stands> {
    let proposal = proposal
        .parse()
        .map_err(|_| Failure::new("no_proposal", "That is no proposal."))?;
    desk.at(&id, |store| {
        let entry = site::choose(store, proposal, &name, Moment::now())?.hash;
        Ok(Stands {
            entry,
            state: site::state(store)?,
        })
    })
}

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
