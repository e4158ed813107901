//! What the system does for the app: dial, share, remind. On a phone by the system's own ways; on a desktop a finished paper
//! is shown in its folder and the rest is said to be missing.

use crate::failure::{Answer, Failure};
use crate::site::Reminder;
use std::path::Path;
use tauri::{AppHandle, Builder, Runtime, WebviewWindow, Wry};

/// A number as a dialler takes it.
///
/// # Errors
///
/// `no_number` for anything else, so that no other address can be opened by this way.
pub fn dialled(digits: &str) -> Answer<String> {
    let tail = digits.strip_prefix('+').unwrap_or(digits);
    let right = (2..=20).contains(&tail.len()) && tail.bytes().all(|byte| byte.is_ascii_digit());
    if right {
        Ok(format!("tel:{digits}"))
    } else {
        Err(Failure::new("no_number", "That is no number to dial."))
    }
}

#[cfg(not(target_os = "android"))]
fn no_picker() -> Failure {
    Failure::new("no_picker", "This system has no picker for that.")
}

#[cfg(mobile)]
mod here {
    use super::{Answer, AppHandle, Builder, Failure, Path, Reminder, Runtime, WebviewWindow, Wry};
    use serde_json::json;
    use tauri::plugin::PermissionState;
    use tauri_plugin_notification::{NotificationExt, Schedule};
    use tauri_plugin_opener::OpenerExt;
    use tauri_plugin_sharekit::{ShareExt, ShareFileOptions, ShareTextOptions};

    pub fn with_plugins(builder: Builder<Wry>) -> Builder<Wry> {
        let builder = builder
            .plugin(tauri_plugin_notification::init())
            // The page names what it opens itself; no link of it opens anything by itself.
            .plugin(
                tauri_plugin_opener::Builder::new()
                    .open_js_links_on_click(false)
                    .build(),
            )
            .plugin(tauri_plugin_sharekit::init());
        #[cfg(target_os = "android")]
        let builder = builder
            .plugin(tauri_plugin_dialog::init())
            .plugin(tauri_plugin_fs::init());
        builder
    }

    fn failed(what: &str, why: &dyn std::fmt::Display) -> Failure {
        Failure::new("system", format!("{what} ({why})."))
    }

    pub fn dial<R: Runtime>(app: &AppHandle<R>, address: &str) -> Answer<()> {
        app.opener()
            .open_url(address, None::<&str>)
            .map_err(|why| failed("The dialler does not open", &why))
    }

    /// Sharing ends in the same way whether something was sent or not: Android does not tell.
    pub fn share_text<R: Runtime>(window: WebviewWindow<R>, text: String) -> Answer<()> {
        let app = tauri::Manager::app_handle(&window).clone();
        let done = app.share().share_text(window, text, ShareTextOptions::default());
        ended(done.map_err(|why| why.to_string()))
    }

    pub fn share_file<R: Runtime>(window: WebviewWindow<R>, path: &Path, kind: &str) -> Answer<()> {
        let app = tauri::Manager::app_handle(&window).clone();
        let address =
            tauri::Url::from_file_path(path).map_err(|()| Failure::new("no_paper", "That paper cannot be shared."))?;
        let options = ShareFileOptions {
            mime_type: Some(kind.to_owned()),
            ..ShareFileOptions::default()
        };
        let done = app.share().share_file(window, address.into(), options);
        // The plugin shares a copy in the folder of caches and leaves it there. The system may clear that folder; what is
        // left is removed at the next start.
        ended(done.map_err(|why| why.to_string()))
    }

    /// The picker makes an empty file where its owner wants it and hands it over by an address of the system's.
    #[cfg(target_os = "android")]
    pub fn save_file<R: Runtime>(app: &AppHandle<R>, path: &Path) -> Answer<bool> {
        use tauri_plugin_dialog::DialogExt;
        use tauri_plugin_fs::{FsExt, OpenOptions};
        let wrong = |why: &dyn std::fmt::Display| failed("The paper cannot be saved there", why);
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let Some(place) = app.dialog().file().set_file_name(name).blocking_save_file() else {
            return Ok(false);
        };
        let mut options = OpenOptions::new();
        options.write(true).truncate(true);
        let mut copy = app.fs().open(place, options).map_err(|why| wrong(&why))?;
        let mut paper = std::fs::File::open(path).map_err(|why| wrong(&why))?;
        std::io::copy(&mut paper, &mut copy).map_err(|why| wrong(&why))?;
        // What lies behind the address may be no file that can be synced: a drive in the net, say.
        let _ignored = copy.sync_all();
        Ok(true)
    }

    #[cfg(not(target_os = "android"))]
    pub fn save_file<R: Runtime>(_app: &AppHandle<R>, _path: &Path) -> Answer<bool> {
        Err(super::no_picker())
    }

    fn ended(done: Result<(), String>) -> Answer<()> {
        match done {
            Err(why) if !why.to_lowercase().contains("cancel") => Err(failed("The system does not share this", &why)),
            _ => Ok(()),
        }
    }

    pub fn may_remind<R: Runtime>(app: &AppHandle<R>, ask: bool) -> Answer<bool> {
        let notes = app.notification();
        let state = if ask {
            notes.request_permission()
        } else {
            notes.permission_state()
        };
        let state = state.map_err(|why| failed("Reminders cannot be turned on", &why))?;
        Ok(state == PermissionState::Granted)
    }

    pub fn arm<R: Runtime>(app: &AppHandle<R>, reminders: &[Reminder]) -> Answer<()> {
        let notes = app.notification();
        let wrong = |why: &dyn std::fmt::Display| failed("The reminders cannot be set", why);
        notes.cancel_all().map_err(|why| wrong(&why))?;
        for (id, reminder) in (1..).zip(reminders) {
            // By its JSON form: the plugin's own type for times is not handed on by it.
            let schedule: Schedule = serde_json::from_value(
                json!({"at": {"date": reminder.at, "repeating": false, "allowWhileIdle": true}}),
            )
            .map_err(|why| wrong(&why))?;
            notes
                .builder()
                .id(id)
                .title(&reminder.title)
                .body(&reminder.body)
                .schedule(schedule)
                .show()
                .map_err(|why| wrong(&why))?;
        }
        Ok(())
    }
}

#[cfg(desktop)]
mod here {
    use super::{Answer, AppHandle, Builder, Failure, Path, Reminder, Runtime, WebviewWindow, Wry};
    use std::process::Command;
    use tauri_plugin_window_state::{Builder as WindowState, StateFlags};

    pub fn with_plugins(builder: Builder<Wry>) -> Builder<Wry> {
        // Where the window stands is the window manager's business.
        let kept = StateFlags::SIZE | StateFlags::MAXIMIZED;
        builder.plugin(WindowState::new().with_state_flags(kept).build())
    }

    pub fn dial<R: Runtime>(_app: &AppHandle<R>, _address: &str) -> Answer<()> {
        Err(Failure::new("no_dialler", "Dial it on a phone."))
    }

    pub fn share_text<R: Runtime>(_window: WebviewWindow<R>, _text: String) -> Answer<()> {
        Err(Failure::new("no_share", "This system has no sharing of its own."))
    }

    /// Shows the paper's folder.
    pub fn share_file<R: Runtime>(_window: WebviewWindow<R>, path: &Path, _kind: &str) -> Answer<()> {
        let mut command = match std::env::consts::OS {
            "windows" => {
                let mut command = Command::new("explorer");
                command.arg(format!("/select,{}", path.display()));
                command
            }
            "macos" => {
                let mut command = Command::new("open");
                command.arg("-R").arg(path);
                command
            }
            _ => {
                let mut command = Command::new("xdg-open");
                command.arg(path.parent().unwrap_or(path));
                command
            }
        };
        let missing = |why: &dyn std::fmt::Display| {
            Failure::new(
                "no_folder_view",
                format!(
                    "The folder cannot be shown here ({why}). The file lies at {}.",
                    path.display()
                ),
            )
        };
        let mut child = command.spawn().map_err(|why| missing(&why))?;
        // Waited for elsewhere, so that no ended process is left lying about.
        std::thread::spawn(move || child.wait());
        Ok(())
    }

    pub fn save_file<R: Runtime>(_app: &AppHandle<R>, _path: &Path) -> Answer<bool> {
        Err(super::no_picker())
    }

    pub const fn may_remind<R: Runtime>(_app: &AppHandle<R>, _ask: bool) -> Answer<bool> {
        Ok(false)
    }

    pub const fn arm<R: Runtime>(_app: &AppHandle<R>, _reminders: &[Reminder]) -> Answer<()> {
        Ok(())
    }
}

pub use here::{arm, dial, may_remind, save_file, share_file, share_text, with_plugins};

#[cfg(test)]
mod tests {
    use super::dialled;

    #[test]
    fn only_a_number_is_dialled() {
        assert_eq!(dialled("112").as_deref(), Ok("tel:112"));
        assert_eq!(dialled("+441632960961").as_deref(), Ok("tel:+441632960961"));
        for wrong in [
            "",
            "+",
            "1",
            "tel:112",
            "112;x",
            "*#06#",
            "++112",
            "https",
            "123456789012345678901",
        ] {
            assert!(dialled(wrong).is_err(), "{wrong}");
        }
    }
}
