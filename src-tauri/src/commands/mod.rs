//! The commands that the screens call: parse, call, answer. One file per screen.

mod camera;
mod closing;
mod desk;
mod hand_over;
mod jobs;
mod order;
mod outside;
mod record;
mod round;
mod scheme;
mod sight;
mod support;
mod wall;

pub use desk::Desk;
pub use scheme::answer as photo;

use tauri::{AppHandle, Builder, Manager, RunEvent, Runtime, Wry};

/// Adds the open data folder of this system's user to an app being built.
#[must_use]
pub fn with_desk<R: Runtime>(builder: Builder<R>) -> Builder<R> {
    builder.setup(|app| {
        let desk = Desk::open(&app.path().app_data_dir()?, app.path().document_dir().ok())?;
        let desk = desk.handed_over_in(app.path().app_cache_dir()?.join("opened"));
        // On Android the camera writes into a folder of this app; on others that name means the user's own pictures.
        #[cfg(target_os = "android")]
        let desk = desk.camera_in(app.path().picture_dir().ok());
        // A desktop hands a pack over by starting the app with its path.
        #[cfg(desktop)]
        for path in std::env::args_os().skip(1).map(std::path::PathBuf::from) {
            if path.is_file() {
                desk.hand_over(&path)?;
            }
        }
        app.manage(desk);
        Ok(())
    })
}

/// Adds the commands and the photos' own URL scheme to an app being built. They work on the [`Desk`] that it manages.
#[must_use]
pub fn with_commands<R: Runtime>(builder: Builder<R>) -> Builder<R> {
    builder
        .register_asynchronous_uri_scheme_protocol(scheme::NAME, |context, request, responder| {
            let app = context.app_handle().clone();
            // Reading and shrinking a photo takes a tenth of a second: not on the thread that draws the window.
            tauri::async_runtime::spawn_blocking(move || {
                responder.respond(scheme::answer(&app.state::<Desk>(), request.uri().path()));
            });
        })
        .invoke_handler(tauri::generate_handler![
            jobs::jobs,
            jobs::job_begin,
            jobs::demo_open,
            jobs::demo_delete,
            jobs::job_open,
            jobs::job_checked,
            jobs::photos,
            wall::draft_put,
            wall::photo_add,
            wall::photo_text,
            support::figure,
            support::helps_try,
            support::plan_try,
            support::props_swap,
            support::gust_today,
            support::keep,
            support::brief_save,
            order::stop_pass,
            order::site_state,
            order::finding_meanings,
            order::finding_add,
            order::repair_add,
            order::proposal_choose,
            order::due,
            order::watch_add,
            closing::let_down,
            closing::look_after,
            closing::summary,
            closing::job_close,
            closing::job_reopen,
            round::round_check,
            round::round_done,
            sight::sight_photo,
            sight::sight_measure,
            sight::sight_set_out,
            sight::sight_lean,
            sight::sight_off_centre,
            sight::sight_crack,
            sight::sight_tilt,
            sight::sight_draw,
            sight::photo_paper,
            sight::sight_card,
            record::note_add,
            record::record,
            record::curves,
            record::record_days,
            record::seals,
            record::seal_give,
            record::pack_make,
            hand_over::pack_import,
            hand_over::pack_part,
            hand_over::pack_arrived,
            hand_over::pack_forget,
            hand_over::pack_make_of,
            hand_over::pack_progress,
            hand_over::pack_stop,
            hand_over::job_check,
            hand_over::job_put_away,
            hand_over::job_set_aside,
            hand_over::entry_correct,
            hand_over::room,
            camera::photo_arrived,
            camera::photos_left,
            camera::photo_left_take,
            camera::photo_left_drop,
            outside::device,
            outside::leave,
            outside::dial,
            outside::share_text,
            outside::share_file,
            outside::save_file,
            outside::reminders_want,
            outside::reminders_arm,
            outside::pack_handed_over,
        ])
}

/// What the system says while the app runs: of all of it, only files that were opened with it matter. Android's come as
/// addresses of another app, which its own side of this app has copied already.
#[cfg_attr(
    not(any(target_os = "macos", target_os = "ios")),
    expect(
        clippy::needless_pass_by_value,
        unused_variables,
        reason = "other systems never say so"
    )
)]
pub fn heard(app: &AppHandle<Wry>, event: RunEvent) {
    #[cfg(any(target_os = "macos", target_os = "ios"))]
    if let RunEvent::Opened { urls } = &event {
        for path in urls.iter().filter_map(|url| url.to_file_path().ok()) {
            if let Err(why) = app.state::<Desk>().hand_over(&path) {
                eprintln!("{} cannot be taken: {why}", path.display());
            }
        }
        for window in app.webview_windows().values() {
            let _ignored = window.eval("dispatchEvent(new Event('pack-opened'))");
        }
    }
}
