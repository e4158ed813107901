//! The app: the record of a job, its photos, its papers, and the commands that the screens call.
//!
//! Dependencies point one way: screens → this crate → `calc`. Only [`commands`] knows Tauri, only [`record`] speaks SQL.

#![cfg_attr(desktop, forbid(unsafe_code))]

pub mod commands;
pub mod demo;
#[cfg(target_os = "linux")]
mod drawing;
pub mod failure;
pub mod form;
mod outside;
pub mod pack;
pub mod photos;
pub mod pieces;
pub mod record;
pub mod report;
pub mod seal;
pub mod site;

/// Opens the window and works until it is closed.
///
/// # Errors
///
/// What kept the window from opening, or the data folder from being used.
pub fn run() -> Result<(), tauri::Error> {
    #[cfg(target_os = "linux")]
    drawing::choose();
    let builder = commands::with_desk(outside::with_plugins(tauri::Builder::default()));
    let app = commands::with_commands(builder).build(tauri::generate_context!())?;
    app.run(commands::heard);
    Ok(())
}

/// Where a phone starts the app.
#[cfg(mobile)]
mod phone {
    #![allow(
        unsafe_code,
        missing_docs,
        reason = "the macro writes what Java or Swift calls: functions under fixed names, exported as they are"
    )]

    /// Opens the window. There is no terminal to tell a failure to, only the phone's log.
    #[tauri::mobile_entry_point]
    pub fn start() {
        if let Err(why) = super::run() {
            eprintln!("The window cannot be opened: {why}");
        }
    }
}
