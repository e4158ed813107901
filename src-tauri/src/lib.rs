//! The app: the record of a job, its photos, its papers, and the commands that the screens call.
//!
//! Dependencies point one way: screens → this crate → `calc`. Only [`commands`] knows Tauri, only [`record`] speaks SQL.

pub mod commands;
pub mod demo;
pub mod failure;
pub mod form;
pub mod pack;
pub mod photos;
pub mod record;
pub mod report;
pub mod seal;
pub mod site;

/// Opens the window and works until it is closed.
///
/// # Errors
///
/// What kept the window from opening, or the data folder from being used.
// A phone build needs Tauri's entry point macro here; it expands to code that the lint against unsafe code refuses, so it
// is put in together with the phone's crate types.
pub fn run() -> Result<(), tauri::Error> {
    let builder = commands::with_desk(tauri::Builder::default());
    commands::with_commands(builder).run(tauri::generate_context!())
}
