//! Commands of the list of jobs.

use super::Desk;
use super::desk::Found;
use crate::demo;
use crate::failure::Answer;
use crate::record::{JobLine, Moment, Store};
use crate::site::{self, Due, OpenJob, PhotoLine, SiteState};
use serde::{Deserialize, Serialize};
use tauri::State;
use uuid::Uuid;

/// A job in the list.
#[derive(Debug, Serialize)]
pub struct ListedJob {
    id: Uuid,
    name: String,
    place: String,
    demo: bool,
    /// When it was begun and last worked on, as RFC 3339.
    begun: Option<String>,
    last: Option<String>,
    photos: i64,
    entries: i64,
    /// The next thing due.
    next: String,
    /// The same with its reasons and whether it is overdue; nothing for a damaged job.
    due: Option<Due>,
    /// Whether it is closed.
    closed: bool,
    /// Number of findings that are open, and whether work stops.
    open_findings: usize,
    stop: bool,
    /// Proposals that stand beside each other, in words.
    question: Option<String>,
    damaged: Option<String>,
    /// What the check of its chains at start found, in words.
    faults: Option<String>,
    /// Whether that check was done; else it is still to be asked for.
    checked: bool,
}

/// The list of jobs.
#[derive(Debug, Serialize)]
pub struct JobList {
    jobs: Vec<ListedJob>,
    version: &'static str,
}

/// A new or opened job.
#[derive(Debug, Serialize)]
pub struct Opened {
    id: Uuid,
}

/// Every job, the one last worked on first.
#[tauri::command(async)]
pub fn jobs(desk: State<'_, Desk>) -> Answer<JobList> {
    let now = Moment::now();
    let listed = desk.list()?.into_iter().map(|line| {
        let (next, due, state) = if line.damaged.is_some() {
            (String::new(), None, SiteState::default())
        } else {
            let told = |store: &mut Store| {
                let state = site::state(store)?;
                let due = site::due_in(store, &state, now)?;
                Ok((due.words.clone(), Some(due), state))
            };
            desk.at(&line.id.to_string(), told)
                .unwrap_or_else(|why| (why.message, None, SiteState::default()))
        };
        let known = desk.known(line.id).filter(|_| line.damaged.is_none());
        ListedJob {
            checked: known.is_some() || line.damaged.is_some(),
            faults: known.and_then(|found| found.faults),
            due,
            closed: state.closing.is_some(),
            open_findings: state.open,
            stop: state.stop,
            question: state.proposals_open.map(|question| question.words),
            ..listed_job(line, next)
        }
    });
    Ok(JobList {
        jobs: listed.collect(),
        version: env!("CARGO_PKG_VERSION"),
    })
}

fn listed_job(line: JobLine, next: String) -> ListedJob {
    let text = |moment: Option<Moment>| moment.map(|at| at.rfc3339());
    ListedJob {
        id: line.id,
        name: line.name,
        place: line.place,
        demo: line.demo,
        begun: text(line.begun),
        last: text(line.last),
        photos: line.photos,
        entries: line.entries,
        next,
        damaged: line.damaged,
        due: None,
        closed: false,
        open_findings: 0,
        stop: false,
        question: None,
        faults: None,
        checked: false,
    }
}

/// Begins a job.
#[tauri::command(async)]
pub fn job_begin(desk: State<'_, Desk>, name: String, place: String, country: String) -> Answer<Opened> {
    let store = desk.jobs().begin(&name, &place, &country, false, Moment::now())?;
    Ok(Opened { id: desk.lay(store) })
}

/// Opens the demo; makes it the first time.
#[tauri::command(async)]
pub fn demo_open(desk: State<'_, Desk>) -> Answer<Opened> {
    if let Some(line) = desk
        .list()?
        .into_iter()
        .find(|line| line.demo && line.damaged.is_none())
    {
        return Ok(Opened { id: line.id });
    }
    let store = demo::make(desk.jobs(), Moment::now())?;
    Ok(Opened { id: desk.lay(store) })
}

/// Deletes the demo; any other job is refused.
#[tauri::command(async)]
pub fn demo_delete(desk: State<'_, Desk>, id: String) -> Answer<()> {
    desk.delete_demo(&id)
}

/// Opens a job.
#[tauri::command(async)]
pub fn job_open(desk: State<'_, Desk>, id: String) -> Answer<OpenJob> {
    desk.at(&id, |store| site::open(store))
}

/// Checks a job's whole file and its chains, once after each start; asked for when the first screen stands.
#[tauri::command(async)]
pub fn job_checked(desk: State<'_, Desk>, id: Uuid) -> Found {
    desk.check(id)
}

/// A page of a job's photos, newest first; with `before`, those that were added before it.
#[tauri::command(async)]
pub fn photos(desk: State<'_, Desk>, id: String, before: Option<Before>, limit: u32) -> Answer<Vec<PhotoLine>> {
    let before = before.map(|entry| (entry.device, entry.seq));
    desk.at(&id, |store| site::photo_page(store, before, limit))
}

/// The entry that added the oldest photo of a page.
#[derive(Debug, Deserialize)]
pub struct Before {
    device: Uuid,
    seq: i64,
}
