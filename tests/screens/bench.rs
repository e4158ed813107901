//! The bench: a person in front of a screen. Everything is found by the words that can be read or heard.

use crate::app::App;
use crate::page::{HOME, Page};
use crate::view::View;
use serde_json::{Value, json};
use std::cell::Cell;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// Longest wait for anything on a screen.
pub const PATIENCE: Duration = Duration::from_secs(20);
/// Whether the last press fell on what cannot be pressed.
const STRAY: &str =
    "!!window.__pressed && !window.__pressed.closest?.('button, a, summary, label, input, select, [role=button]')";
const FIND: &str = include_str!("../window/find.js");

/// An app of this test's own with one page in front of it.
pub struct Bench {
    app: Arc<App>,
    /// The page, for what only the browser's own protocol can ask of it.
    pub page: Page,
    view: Cell<View>,
    loads: Cell<u32>,
    taps: Cell<u32>,
}

/// Runs a test on a bench, if there can be one; afterwards nothing may have gone wrong in the page or left it.
pub fn play(test: &str, view: View, act: impl FnOnce(&Bench)) {
    if !there(test, &["chromium"]) {
        return;
    }
    let bench = Bench::set(view);
    act(&bench);
    bench.nothing_went_wrong();
}

/// Whether all these programs are here; else says NOT RUN, and fails where everything is required.
pub fn there(test: &str, programs: &[&str]) -> bool {
    let path = std::env::var_os("PATH").unwrap_or_default();
    let here = |name: &str| std::env::split_paths(&path).any(|folder| folder.join(name).is_file());
    match programs.iter().find(|name| !here(name)) {
        Some(missing) => not_run(&format!("{test}: {missing} is missing here")),
        None => true,
    }
}

/// Says that a test did not run; `UPSTAY_REQUIRE_ALL=1` makes that a failure.
pub fn not_run(what: &str) -> bool {
    let words = format!("NOT RUN: {what}; `sh src-tauri/setup.sh` installs it.\n");
    assert!(std::env::var("UPSTAY_REQUIRE_ALL").as_deref() != Ok("1"), "{words}");
    // Straight to the stream, because the test harness swallows what a passing test prints.
    let _shown = std::io::stderr().write_all(words.as_bytes());
    false
}

impl Bench {
    /// An app that nobody has used, seen through `view`; nothing is opened yet.
    pub fn set(view: View) -> Self {
        let app = Arc::new(App::new());
        let page = Page::open(&app);
        view.put(&page);
        Self {
            app,
            page,
            view: Cell::new(view),
            loads: Cell::new(0),
            taps: Cell::new(0),
        }
    }

    /// The app behind the page: its commands can be called without the screens.
    pub fn app(&self) -> &App {
        &self.app
    }

    /// Through what one looks.
    pub fn view(&self) -> View {
        self.view.get()
    }

    /// Looks through something else; the page stays as it is.
    pub fn look(&self, view: View) {
        view.put(&self.page);
        self.view.set(view);
        // Before anything was opened there is no page that could come to rest.
        if self.loads.get() > 0 {
            self.settle();
        }
    }

    /// Opens the app anew at an address: `""` for the jobs, else `JOB/SCREEN`.
    pub fn go(&self, address: &str) {
        let load = self.loads.get() + 1;
        self.loads.set(load);
        self.page
            .call("Page.navigate", json!({"url": format!("{HOME}?{load}#{address}")}));
        let there = format!(
            "location.search === '?{load}' && document.readyState === 'complete' && !!document.body.dataset.screen"
        );
        self.wait(&format!("`#{address}` is open"), &there);
        self.settle();
    }

    /// Waits until the app has answered everything and the screen is drawn.
    pub fn settle(&self) {
        self.wait("the app has answered everything", "window.__waiting() === 0");
        self.page
            .run("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(1))))")
            .unwrap();
    }

    /// Waits until nothing has been asked of the app for 0.4 s. What is typed is kept and figured a little later than the key,
    /// and a page that is drawn anew while it is judged has elements without a colour.
    pub fn still(&self) {
        let quiet = "(async () => { let since = Date.now(); while (Date.now() - since < 400) { \
             if (window.__waiting() > 0) since = Date.now(); await new Promise((done) => setTimeout(done, 20)) } return 1 })()";
        self.page.run(quiet).unwrap();
        self.settle();
    }

    /// Presses what bears these words: a button, a link, a heading that opens, an answer.
    pub fn tap(&self, words: &str) {
        self.press(&json!(["press", words]));
    }

    /// Gives the answer to a question (the legend of its group), and waits until it is taken.
    pub fn answer(&self, question: &str, answer: &str) {
        let asked = json!(["answer", answer, question]);
        self.press(&asked);
        let taken = format!("!!{}?.querySelector('input')?.checked", found(&asked));
        self.wait(&format!("`{question}`: `{answer}` is taken"), &taken);
    }

    /// Types into the field with this label, in place of what stood there; a choice is taken by its words.
    pub fn fill(&self, label: &str, text: &str) {
        let asked = json!(["fill", label]);
        let begun = Instant::now();
        loop {
            self.find(&asked);
            let script = format!("{}({}, {})", include_str!("fill.js"), found(&asked), json!(text));
            let kind = self.page.run(&script).unwrap();
            if kind == "choice" {
                return;
            }
            if kind == "text" {
                self.page.call("Input.insertText", json!({"text": text}));
            }
            if self.is(&format!("{}?.value === {}", found(&asked), json!(text))) {
                return;
            }
            assert!(begun.elapsed() < PATIENCE, "`{label}` does not take `{text}`: {kind}");
        }
    }

    /// What stands in the field with this label.
    pub fn reads(&self, label: &str) -> String {
        let asked = json!(["fill", label]);
        self.find(&asked);
        self.value(&format!("{}.value", found(&asked)))
            .as_str()
            .unwrap_or_default()
            .to_owned()
    }

    /// Something of the device that is no matter of hands: its name, its notch, whether files are chosen by somebody else.
    pub fn device(&self, method: &str, params: Value) -> Value {
        self.page.call(method, params)
    }

    /// Hands a file to the file field with this label.
    pub fn upload(&self, label: &str, file: &Path) {
        self.upload_all(label, &[file]);
    }

    /// Hands several at once.
    pub fn upload_all(&self, label: &str, files: &[&Path]) {
        let asked = json!(["file", label]);
        self.find(&asked);
        let handle = self.page.handle(&found(&asked));
        self.page
            .call("DOM.setFileInputFiles", json!({"objectId": handle, "files": files}));
    }

    /// Opens all that opens, also what lies in something that opens.
    pub fn open_all(&self) {
        for _ in 0..4 {
            self.value("for (const $one of document.querySelectorAll('details:not([open])')) $one.open = true; 1");
            self.settle();
        }
    }

    /// A file of this app's home to hand over.
    pub fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.app.home().join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    }

    /// A pack of the first job, made without the screens.
    pub fn packed(&self) -> PathBuf {
        let list = self.app.invoke("jobs", json!({})).unwrap();
        let id = list.pointer("/jobs/0/id").unwrap();
        let chosen = json!({"from": null, "to": null});
        let made = self
            .app
            .invoke(
                "pack_make_of",
                json!({"id": id, "chosen": chosen, "work": "6f0a4c9e-1b2d-4c3e-8f4a-5b6c7d8e9f01"}),
            )
            .unwrap();
        PathBuf::from(made.get("path").unwrap().as_str().unwrap())
    }

    /// Chooses a pack on the list of jobs.
    pub fn open_pack(&self, pack: &Path) {
        self.upload("Choose the pack (.zip)", pack);
    }

    /// Waits until these words can be read somewhere on the page.
    pub fn see(&self, words: &str) {
        self.wait(
            &format!("`{words}` can be read"),
            &format!("document.body.innerText.includes({})", json!(words)),
        );
    }

    /// All text that can be read.
    pub fn text(&self) -> String {
        self.value("document.body.innerText")
            .as_str()
            .unwrap_or_default()
            .to_owned()
    }

    /// Value of a script in the page; a promise is waited for.
    pub fn value(&self, script: &str) -> Value {
        self.page.run(script).unwrap_or_else(|why| panic!("{script}\n{why}"))
    }

    /// Waits until a script gives true.
    pub fn wait(&self, what: &str, script: &str) {
        let begun = Instant::now();
        while !self.is(script) {
            if begun.elapsed() > PATIENCE {
                panic!(
                    "waited in vain until {what}; on the page stands:\n{}\n{:?}",
                    self.text(),
                    self.page.log()
                );
            }
            std::thread::park_timeout(Duration::from_millis(15));
        }
    }

    /// Where the page is wider than the view. A phone widens its window to a page that is too wide, so that the window's own
    /// width says nothing.
    pub fn too_wide(&self) -> Value {
        let width = self.view().width;
        let all = format!("{}({width}, 0)", include_str!("measure.js"));
        self.value(&format!("{all}.found.filter((said) => said.startsWith('wider'))"))
    }

    /// Presses a key of the keyboard: `Tab`, `Shift+Tab`, `Enter`, `Space`, `Escape`, `ArrowDown`, `ArrowUp`.
    pub fn key(&self, name: &str) {
        let (shift, name) = name.strip_prefix("Shift+").map_or((0, name), |rest| (8, rest));
        let (key, code, text) = match name {
            "Tab" => ("Tab", 9, ""),
            "Enter" => ("Enter", 13, "\r"),
            "Space" => (" ", 32, " "),
            "Escape" => ("Escape", 27, ""),
            "ArrowDown" => ("ArrowDown", 40, ""),
            "ArrowUp" => ("ArrowUp", 38, ""),
            "ArrowLeft" => ("ArrowLeft", 37, ""),
            "ArrowRight" => ("ArrowRight", 39, ""),
            other => panic!("no key `{other}`"),
        };
        for kind in [if text.is_empty() { "rawKeyDown" } else { "keyDown" }, "keyUp"] {
            let mut event =
                json!({"type": kind, "key": key, "code": name, "windowsVirtualKeyCode": code, "modifiers": shift});
            if let (false, "keyDown", Some(fields)) = (text.is_empty(), kind, event.as_object_mut()) {
                fields.insert("text".to_owned(), json!(text));
            }
            self.page.call("Input.dispatchKeyEvent", event);
        }
    }

    /// Types text where the caret is.
    pub fn write(&self, text: &str) {
        self.page.call("Input.insertText", json!({"text": text}));
    }

    /// How often something was pressed so far.
    pub fn taps(&self) -> u32 {
        self.taps.get()
    }

    /// Keeps a picture of the screen, with `UPSTAY_WHOLE` of the whole page, in the folder that `UPSTAY_SHOTS` names, if it
    /// names one.
    pub fn shot(&self, name: &str) {
        let Some(folder) = std::env::var_os("UPSTAY_SHOTS") else {
            return;
        };
        self.settle();
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(
            Path::new(&folder).join(format!("{name}.png")),
            self.picture(std::env::var_os("UPSTAY_WHOLE").is_some()),
        )
        .unwrap();
    }

    /// The screen, or the whole page, as PNG.
    pub fn picture(&self, whole: bool) -> Vec<u8> {
        use base64::Engine;
        let shot = self.page.call(
            "Page.captureScreenshot",
            json!({"format": "png", "captureBeyondViewport": whole}),
        );
        base64::prelude::BASE64_STANDARD
            .decode(shot.get("data").unwrap().as_str().unwrap())
            .unwrap()
    }

    /// Asserts that no script failed, no dialog came up, no policy was broken, and nothing was asked of anybody else.
    pub fn nothing_went_wrong(&self) {
        let log = self.page.log();
        assert_eq!(log.faults, Vec::<String>::new(), "errors on the page");
        assert_eq!(log.dialogs, Vec::<String>::new(), "dialogs of scripts");
        let own = [
            "https://tauri.localhost/",
            "https://photo.localhost/",
            "blob:https://tauri.localhost/",
            "data:",
        ];
        let strange: Vec<&String> = log
            .asked
            .iter()
            .filter(|url| !own.iter().any(|start| url.starts_with(start)))
            .collect();
        assert!(strange.is_empty(), "the page asked others: {strange:?}");
        assert_eq!(
            self.value("window.__refused ?? []"),
            json!([]),
            "the page breaks its own content policy"
        );
    }

    fn is(&self, script: &str) -> bool {
        // While one page makes way for the next, nothing can be asked.
        self.page.run(script).is_ok_and(|value| value == json!(true))
    }

    fn find(&self, asked: &Value) {
        self.wait(&format!("{asked} is there"), &format!("!!{}", found(asked)));
    }

    fn press(&self, asked: &Value) {
        self.find(asked);
        let begun = Instant::now();
        loop {
            let presses = self.value("window.__presses").as_u64().unwrap_or_default();
            let at = self.value(&format!("{}({})", include_str!("where.js"), found(asked)));
            if let (Some(x), Some(y)) = (at.get("x").and_then(Value::as_f64), at.get("y").and_then(Value::as_f64)) {
                self.touch(x, y);
                let felt = Instant::now();
                while felt.elapsed() < Duration::from_secs(2) {
                    // A press that opens another page takes the count with it, and while the one makes way for the other
                    // nothing can be asked: also felt.
                    let now = self.page.run("window.__presses ?? -1");
                    if now.ok().and_then(|now| now.as_u64()) != Some(presses) {
                        if self.is(STRAY) {
                            // It fell beside, on what takes no press: once more.
                            break;
                        }
                        self.taps.set(self.taps.get() + 1);
                        return;
                    }
                    std::thread::park_timeout(Duration::from_millis(5));
                }
            }
            assert!(
                begun.elapsed() < PATIENCE,
                "cannot press {asked}: {at}\non the page stands:\n{}",
                self.text()
            );
        }
    }

    /// A finger or a mouse pressed at a place of the screen.
    pub fn touch(&self, x: f64, y: f64) {
        if self.view.get().touch {
            self.page.call(
                "Input.dispatchTouchEvent",
                json!({"type": "touchStart", "touchPoints": [{"x": x, "y": y}]}),
            );
            self.page.call(
                "Input.dispatchTouchEvent",
                json!({"type": "touchEnd", "touchPoints": []}),
            );
            return;
        }
        for kind in ["mousePressed", "mouseReleased"] {
            self.page.call(
                "Input.dispatchMouseEvent",
                json!({"type": kind, "x": x, "y": y, "button": "left", "clickCount": 1}),
            );
        }
    }
}

/// An expression that gives the element asked for, or null.
fn found(asked: &Value) -> String {
    format!("(function () {{ {FIND}\n}}).apply(null, {asked})")
}
