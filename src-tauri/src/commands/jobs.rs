//! Commands of the list of jobs.

use super::Desk;
use crate::demo;
use crate::failure::{Answer, Failure};
use crate::form::Fields;
use crate::record::{JobLine, Moment, Store};
use crate::site::{self, Due, Kept, Passed, PhotoLine, RoundLine, SiteState};
use serde::Serialize;
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

/// A job with all that its screens need at once.
#[derive(Debug, Serialize)]
pub struct OpenJob {
    id: Uuid,
    name: String,
    place: String,
    country: String,
    demo: bool,
    fields: Fields,
    counter: i64,
    kept: Option<Kept>,
    photos: Vec<PhotoLine>,
    rounds: Vec<RoundLine>,
    stops: Vec<Passed>,
    state: SiteState,
    entries: i64,
}

/// Every job, the one last worked on first.
#[tauri::command(async)]
pub fn jobs(desk: State<'_, Desk>) -> Answer<JobList> {
    let now = Moment::now();
    let listed = desk.jobs().list()?.into_iter().map(|line| {
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
        let faults = if line.damaged.is_none() {
            desk.faults(line.id)
        } else {
            None
        };
        ListedJob {
            faults,
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
        .jobs()
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
    desk.at(&id, |store| {
        let info = store.info()?;
        let state = site::state(store)?;
        Ok::<_, Failure>(OpenJob {
            id: info.id,
            name: info.name,
            place: info.place,
            country: info.country,
            demo: info.demo,
            fields: site::fields(store)?,
            counter: store.draft_counter()?,
            kept: site::kept(store)?,
            photos: newest_first(site::photo_lines(store)?),
            rounds: newest_first(site::rounds(store)?),
            stops: site::passed_in(store, &state)?,
            state,
            entries: store.entry_count()?,
        })
    })
}

fn newest_first<T>(mut list: Vec<T>) -> Vec<T> {
    list.reverse();
    list
}
