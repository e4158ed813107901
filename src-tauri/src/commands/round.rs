//! Commands of the round.

use super::Desk;
use crate::failure::Answer;
use crate::record::Moment;
use crate::site::{self, RoundDone};
use serde_json::Value;
use tauri::State;

/// What today's readings come to so far.
#[tauri::command(async)]
pub fn round_check(desk: State<'_, Desk>, id: String, round: Value) -> Answer<Value> {
    desk.at(&id, |store| site::check(store, &round, Moment::now()))
}

/// Writes the round down.
#[tauri::command(async)]
pub fn round_done(desk: State<'_, Desk>, id: String, round: Value) -> Answer<RoundDone> {
    desk.at(&id, |store| site::done(store, &round, Moment::now()))
}
