//! The commands that the screens call: parse, call, answer. One file per screen.

mod closing;
mod desk;
mod hand_over;
mod jobs;
mod order;
mod record;
mod round;
mod scheme;
mod sight;
mod support;
mod wall;

pub use desk::Desk;
pub use scheme::answer as photo;

use tauri::{Builder, Manager, Runtime};

/// Adds the open data folder of this system's user to an app being built.
#[must_use]
pub fn with_desk<R: Runtime>(builder: Builder<R>) -> Builder<R> {
    builder.setup(|app| {
        let desk = Desk::open(&app.path().app_data_dir()?, app.path().document_dir().ok())?;
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
            wall::draft_put,
            wall::photo_add,
            wall::photo_text,
            support::figure,
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
        ])
}
