//! What a window test stands on: a display, a driver, an empty home, the app.

use crate::hand::Hand;
use fantoccini::ClientBuilder;
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Map, Value, json};
use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// Longest wait for anything that a machine does.
pub const PATIENCE: Duration = Duration::from_secs(30);
/// Pause between two looks at a condition.
const LOOK_AGAIN: Duration = Duration::from_millis(15);

/// One window at a time: two would fight for the focus.
static TURN: Mutex<()> = Mutex::new(());

/// A display, a driver and a home, all of this test's own.
pub struct Stage {
    home: tempfile::TempDir,
    display: Option<Child>,
    name: Option<String>,
    driver: Child,
    port: u16,
    _turn: MutexGuard<'static, ()>,
}

impl Stage {
    /// Sets everything up, or says NOT RUN and gives nothing.
    pub fn set(test: &str) -> Option<Self> {
        let shown = std::env::var_os("DISPLAY").is_some_and(|name| !name.is_empty());
        let needed = if shown {
            vec!["WebKitWebDriver"]
        } else {
            vec!["WebKitWebDriver", "Xvfb"]
        };
        if let Some(missing) = needed.into_iter().find(|program| !on_path(program)) {
            let words = format!("NOT RUN: {test}: {missing} is missing here; `sh src-tauri/setup.sh` installs it.\n");
            assert!(std::env::var("UPSTAY_REQUIRE_ALL").as_deref() != Ok("1"), "{words}");
            // Straight to the stream, because the test harness swallows what a passing test prints.
            std::io::stderr().write_all(words.as_bytes()).unwrap();
            return None;
        }
        let turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
        let home = tempfile::tempdir().unwrap();
        let (display, name) = if shown { (None, None) } else { start_display() };
        let (driver, port) = start_driver(home.path(), name.as_deref());
        Some(Self {
            home,
            display,
            name,
            driver,
            port,
            _turn: turn,
        })
    }

    /// Opens the app's window and gives the hand that works it.
    pub async fn open(&self) -> Hand {
        let options = json!({ "binary": env!("CARGO_BIN_EXE_upstay"), "args": [] });
        let mut wanted: Map<String, Value> = Map::new();
        wanted.insert("webkitgtk:browserOptions".to_owned(), options);
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(wanted)
            .connect(&format!("http://127.0.0.1:{}", self.port))
            .await
            .unwrap();
        Hand::new(client)
    }

    /// The home folder of this test.
    pub fn home(&self) -> &Path {
        self.home.path()
    }

    /// Ends the app as a flat battery would: at once, with nothing said to it.
    pub fn pull_the_plug(&mut self) {
        let pids = children_of(self.driver.id(), "upstay");
        assert!(!pids.is_empty(), "the app does not run");
        for pid in pids {
            signal("-KILL", pid);
            until("the app is gone", || !alive(pid));
        }
        // The driver still holds on to the app that is gone, and opens no second one.
        end(&mut self.driver);
        (self.driver, self.port) = start_driver(self.home.path(), self.name.as_deref());
    }
}

impl Drop for Stage {
    fn drop(&mut self) {
        for pid in children_of(self.driver.id(), "upstay") {
            signal("-TERM", pid);
        }
        end(&mut self.driver);
        if let Some(display) = &mut self.display {
            end(display);
        }
    }
}

/// Longest that one whole test may take.
const WHOLE_TEST: Duration = Duration::from_secs(150);

/// Runs a test on a stage, if there can be one. The driver now and then opens no window at all and never says so: such a
/// test is ended and run once more from the start; a second time it fails.
pub fn play<F>(test: &str, act: impl Fn(Stage) -> F)
where
    F: Future<Output = ()>,
{
    for attempt in 1..=2 {
        let Some(stage) = Stage::set(test) else { return };
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()
            .unwrap();
        if runtime
            .block_on(async { tokio::time::timeout(WHOLE_TEST, act(stage)).await })
            .is_ok()
        {
            return;
        }
        assert!(attempt < 2, "{test} hung twice for {WHOLE_TEST:?}");
        let words = format!("{test} hung for {WHOLE_TEST:?}; once more.\n");
        std::io::stderr().write_all(words.as_bytes()).unwrap();
    }
}

/// Looks until a condition holds; fails with its name when patience ends.
pub fn until(what: &str, mut holds: impl FnMut() -> bool) {
    let start = Instant::now();
    while !holds() {
        assert!(start.elapsed() < PATIENCE, "waited {PATIENCE:?} in vain until {what}");
        std::thread::park_timeout(LOOK_AGAIN);
    }
}

fn on_path(program: &str) -> bool {
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path).any(|folder| folder.join(program).is_file())
}

/// Starts a display; the server picks a free number itself and writes it down.
fn start_display() -> (Option<Child>, Option<String>) {
    let mut server = Command::new("Xvfb")
        .args(["-displayfd", "1", "-screen", "0", "1000x1000x24", "-nolisten", "tcp"])
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut number = String::new();
    BufReader::new(server.stdout.take().unwrap())
        .read_line(&mut number)
        .unwrap();
    assert!(!number.trim().is_empty(), "Xvfb gave no display");
    (Some(server), Some(format!(":{}", number.trim())))
}

/// Starts a driver whose app finds its home in `home`; gives it and its port when it answers.
fn start_driver(home: &Path, display: Option<&str>) -> (Child, u16) {
    let port = free_port();
    let mut driver = Command::new("WebKitWebDriver");
    driver
        .arg(format!("--port={port}"))
        .arg("--host=127.0.0.1")
        .stdin(Stdio::null());
    driver.stdout(Stdio::null()).stderr(Stdio::null());
    for (key, folder) in [
        ("HOME", ""),
        ("XDG_DATA_HOME", "data"),
        ("XDG_CONFIG_HOME", "config"),
        ("XDG_CACHE_HOME", "cache"),
        ("XDG_RUNTIME_DIR", "run"),
    ] {
        let folder = home.join(folder);
        std::fs::create_dir_all(&folder).unwrap();
        driver.env(key, folder);
    }
    if let Some(name) = display {
        driver.env("DISPLAY", name).env_remove("WAYLAND_DISPLAY");
    }
    driver
        .env("TAURI_WEBVIEW_AUTOMATION", "true")
        .env("NO_AT_BRIDGE", "1")
        .env("GDK_BACKEND", "x11");
    driver.env("LANG", "C.UTF-8").env("TZ", "UTC");
    let driver = driver.spawn().unwrap();
    until("the driver answers", || TcpStream::connect(("127.0.0.1", port)).is_ok());
    (driver, port)
}

fn free_port() -> u16 {
    TcpListener::bind(("127.0.0.1", 0))
        .unwrap()
        .local_addr()
        .unwrap()
        .port()
}

fn end(child: &mut Child) {
    signal("-TERM", child.id());
    let start = Instant::now();
    while child.try_wait().unwrap().is_none() {
        if start.elapsed() > Duration::from_secs(5) {
            child.kill().unwrap();
        }
        std::thread::park_timeout(LOOK_AGAIN);
    }
}

fn signal(which: &str, pid: u32) {
    // Gone already is as good.
    let _ended = Command::new("kill")
        .args([which, &pid.to_string()])
        .stderr(Stdio::null())
        .status();
}

/// Fields of `/proc/PID/stat` behind the name: state, parent.
fn stat(pid: u32) -> Option<(String, char, u32)> {
    let text = std::fs::read_to_string(PathBuf::from("/proc").join(pid.to_string()).join("stat")).ok()?;
    let (_, rest) = text.split_once('(')?;
    let (name, rest) = rest.rsplit_once(')')?;
    let mut fields = rest.split_whitespace();
    Some((
        name.to_owned(),
        fields.next()?.chars().next()?,
        fields.next()?.parse().ok()?,
    ))
}

fn alive(pid: u32) -> bool {
    stat(pid).is_some_and(|(_, state, _)| state != 'Z')
}

fn children_of(parent: u32, name: &str) -> Vec<u32> {
    let all = std::fs::read_dir("/proc").unwrap().flatten();
    let pids = all.filter_map(|entry| entry.file_name().to_str()?.parse::<u32>().ok());
    pids.filter(|pid| stat(*pid).is_some_and(|(comm, state, from)| comm == name && from == parent && state != 'Z'))
        .collect()
}
