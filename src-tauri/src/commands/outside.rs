//! Commands that hand something to the system, and take what it hands over: numbers, papers, reminders, packs.

use super::Desk;
use crate::failure::{Answer, Failure};
use crate::outside;
use crate::pack::{self, Imported};
use crate::record::Moment;
use crate::site::{self, Reminder};
use serde::Serialize;
use std::path::{Path, PathBuf};
use tauri::{AppHandle, Runtime, State, WebviewWindow};

/// Name of the file whose presence says that reminders are wanted.
const WANTED: &str = "reminders";

/// What this device can do, and what was chosen on it.
#[derive(Debug, Serialize)]
pub struct Device {
    /// Whether this is a phone: it dials, shares and reminds.
    phone: bool,
    /// Whether the system has a picker of its own for where a paper is saved.
    picker: bool,
    /// Whether reminders were turned on.
    reminders: bool,
    /// Packs that another app handed over and that wait to be taken in, by their file's name.
    packs: Vec<String>,
}

/// What this device can do.
#[tauri::command(async)]
pub fn device(desk: State<'_, Desk>) -> Device {
    Device {
        phone: cfg!(mobile),
        picker: cfg!(target_os = "android"),
        reminders: wanted(&desk).exists(),
        packs: desk.handed_over(),
    }
}

/// Dials a number; `no_dialler` on a desktop.
#[tauri::command(async)]
pub fn dial<R: Runtime>(app: AppHandle<R>, digits: String) -> Answer<()> {
    outside::dial(&app, &outside::dialled(&digits)?)
}

/// Shares a text by the system; `no_share` on a desktop.
#[tauri::command(async)]
pub fn share_text<R: Runtime>(window: WebviewWindow<R>, text: String) -> Answer<()> {
    outside::share_text(window, text)
}

/// Shares a finished paper by the system; a desktop shows its folder.
#[tauri::command(async)]
pub fn share_file<R: Runtime>(desk: State<'_, Desk>, window: WebviewWindow<R>, path: PathBuf) -> Answer<()> {
    let (path, kind) = paper(&desk.papers()?, &path)?;
    outside::share_file(window, &path, kind)
}

/// Saves a copy of a finished paper where its owner chooses, by the system's picker; false if nothing was chosen, `no_picker`
/// where the system has none: a desktop shows the folder, on iOS the share sheet saves.
#[tauri::command(async)]
pub fn save_file<R: Runtime>(desk: State<'_, Desk>, app: AppHandle<R>, path: PathBuf) -> Answer<bool> {
    let (path, _) = paper(&desk.papers()?, &path)?;
    outside::save_file(&app, &path)
}

/// Turns reminders on or off, and answers whether they are on: the phone's owner may say no.
#[tauri::command(async)]
pub fn reminders_want<R: Runtime>(desk: State<'_, Desk>, app: AppHandle<R>, on: bool) -> Answer<bool> {
    let on = on && outside::may_remind(&app, true)?;
    let file = wanted(&desk);
    let kept = if on {
        std::fs::write(&file, "")
    } else {
        std::fs::remove_file(&file).or_else(|why| match why.kind() {
            std::io::ErrorKind::NotFound => Ok(()),
            _ => Err(why),
        })
    };
    kept.map_err(|why| Failure::new("file", format!("{} cannot be written ({why}).", file.display())))?;
    outside::arm(&app, &if on { due(&desk)? } else { Vec::new() })?;
    Ok(on)
}

/// Arms the reminders anew: at each start, since a phone may have forgotten them, and after each round.
#[tauri::command(async)]
pub fn reminders_arm<R: Runtime>(desk: State<'_, Desk>, app: AppHandle<R>) -> Answer<Vec<Reminder>> {
    if !wanted(&desk).exists() || !outside::may_remind(&app, false)? {
        return Ok(Vec::new());
    }
    let due = due(&desk)?;
    outside::arm(&app, &due)?;
    Ok(due)
}

/// Takes in a pack that another app handed over, and forgets it: the other app still has it.
#[tauri::command(async)]
pub fn pack_handed_over(desk: State<'_, Desk>, name: String) -> Answer<Imported> {
    let path = desk
        .handed_over_path(&name)
        .ok_or_else(|| Failure::new("no_pack", "That pack is not there any more."))?;
    let done = desk.apart(|jobs| Ok(pack::import(jobs, &path, Moment::now())?));
    desk.forget_handed_over(&path);
    done
}

/// Leaves the app, once its page has asked and kept everything.
#[tauri::command]
pub fn leave<R: Runtime>(app: AppHandle<R>) {
    app.exit(0);
}

fn wanted(desk: &Desk) -> PathBuf {
    desk.jobs().data().join(WANTED)
}

/// The reminders of all jobs that are neither the demo nor damaged.
fn due(desk: &Desk) -> Answer<Vec<Reminder>> {
    let now = Moment::now();
    let mut all = Vec::new();
    for line in desk.jobs().list()? {
        if line.demo || line.damaged.is_some() {
            continue;
        }
        // A job that does not open says so on its own screen.
        let told = desk.at(&line.id.to_string(), |store| {
            site::reminders(store, &site::state(store)?, &line.name, now)
        });
        all.extend(told.unwrap_or_default());
    }
    Ok(all)
}

/// A paper of this app and its kind: nothing but what lies in the folder of papers is handed out.
fn paper(folder: &Path, path: &Path) -> Answer<(PathBuf, &'static str)> {
    let refused = || Failure::new("no_paper", "Only a finished paper of this app can be shared.");
    let kind = match path.extension().and_then(|ending| ending.to_str()) {
        Some("zip") => "application/zip",
        Some("pdf") => "application/pdf",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("jpg") => "image/jpeg",
        Some("webp") => "image/webp",
        Some("heic") => "image/heic",
        _ => return Err(refused()),
    };
    let real = path.canonicalize().map_err(|_| refused())?;
    let folder = folder.canonicalize().map_err(|_| refused())?;
    if real.is_file() && real.parent() == Some(folder.as_path()) {
        Ok((real, kind))
    } else {
        Err(refused())
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::paper;

    #[test]
    fn only_papers_are_handed_out() {
        let folder = tempfile::tempdir().unwrap();
        let papers = folder.path().join("Upstay");
        std::fs::create_dir_all(papers.join("deeper.pdf")).unwrap();
        for name in [
            "Upstay/pack.zip",
            "Upstay/brief.pdf",
            "Upstay/notes.txt",
            "record.sqlite",
            "other.zip",
        ] {
            std::fs::write(folder.path().join(name), "x").unwrap();
        }
        assert_eq!(paper(&papers, &papers.join("pack.zip")).unwrap().1, "application/zip");
        assert_eq!(paper(&papers, &papers.join("brief.pdf")).unwrap().1, "application/pdf");
        for wrong in [
            "notes.txt",
            "missing.pdf",
            "deeper.pdf",
            "../other.zip",
            "../record.sqlite",
        ] {
            assert_eq!(
                paper(&papers, &papers.join(wrong)).unwrap_err().code,
                "no_paper",
                "{wrong}"
            );
        }
        #[cfg(unix)]
        {
            std::os::unix::fs::symlink(folder.path().join("other.zip"), papers.join("link.zip")).unwrap();
            assert!(paper(&papers, &papers.join("link.zip")).is_err());
        }
    }
}
