//! One headless browser for all tests of a run, driven through its debugging pipe: no driver program and no port.

use serde_json::{Value, json};
use std::collections::HashMap;
use std::fs::{File, OpenOptions};
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError, Weak};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longest wait for one answer of the browser.
const PATIENCE: Duration = Duration::from_secs(60);

/// The browser that runs, as long as a test holds on to it.
static RUNNING: Mutex<Weak<Browser>> = Mutex::new(Weak::new());

/// A running browser; each test opens a page in a profile of its own.
pub struct Browser {
    child: Mutex<Child>,
    to: Mutex<File>,
    number: AtomicU64,
    lines: Arc<Lines>,
    _home: TempDir,
}

/// Who waits for what the browser says.
#[derive(Default)]
struct Lines {
    answers: Mutex<HashMap<u64, Sender<Value>>>,
    events: Mutex<HashMap<String, Sender<Value>>>,
}

impl Browser {
    /// The browser that runs already, or a new one.
    pub fn shared() -> Arc<Self> {
        let mut running = RUNNING.lock().unwrap_or_else(PoisonError::into_inner);
        running.upgrade().unwrap_or_else(|| {
            let browser = Arc::new(Self::start());
            *running = Arc::downgrade(&browser);
            browser
        })
    }

    fn start() -> Self {
        let home = TempDir::new().unwrap();
        let (to, from) = (home.path().join("to"), home.path().join("from"));
        assert!(Command::new("mkfifo").args([&to, &from]).status().unwrap().success());
        // The browser reads from 3 and writes to 4. No name leads anywhere, so that nothing can leave this machine.
        let child = Command::new("sh")
            .arg("-c")
            .arg(
                "exec chromium --headless=new --no-sandbox --disable-gpu --no-first-run --disable-extensions \
                 --disable-background-networking --disable-component-update --disable-sync --disable-default-apps \
                 --force-color-profile=srgb --disable-dev-shm-usage --host-resolver-rules='MAP * ~NOTFOUND' \
                 --user-data-dir=\"$1\" --remote-debugging-pipe about:blank 3<\"$2\" 4>\"$3\"",
            )
            .arg("sh")
            .args([&home.path().join("profile"), &to, &from])
            .env("TZ", "UTC")
            .env("LANG", "en_GB.UTF-8")
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let to = OpenOptions::new().write(true).open(&to).unwrap();
        let from = BufReader::new(File::open(&from).unwrap());
        let lines = Arc::new(Lines::default());
        let heard = lines.clone();
        std::thread::spawn(move || heard.listen(from));
        Self {
            child: Mutex::new(child),
            to: Mutex::new(to),
            number: AtomicU64::new(0),
            lines,
            _home: home,
        }
    }

    /// One command and its answer, or what is wrong with it. An empty session means the browser itself.
    pub fn call(&self, session: &str, method: &str, params: Value) -> Result<Value, String> {
        let answer = self
            .send(session, method, params)
            .recv_timeout(PATIENCE)
            .map_err(|_| format!("{method}: no answer in {PATIENCE:?}"))?;
        match answer.get("error") {
            Some(error) => Err(format!("{method}: {error}")),
            None => Ok(answer.get("result").cloned().unwrap_or_default()),
        }
    }

    /// Sends a command; its answer may be waited for, or not.
    pub fn send(&self, session: &str, method: &str, params: Value) -> Receiver<Value> {
        let number = self.number.fetch_add(1, Ordering::Relaxed) + 1;
        let mut message = json!({"id": number, "method": method, "params": params});
        if let (false, Some(fields)) = (session.is_empty(), message.as_object_mut()) {
            fields.insert("sessionId".to_owned(), json!(session));
        }
        let (tell, hear) = channel();
        lock(&self.lines.answers).insert(number, tell);
        // A browser that has ended gives no answer; whoever waits for one says so.
        let _sent = lock(&self.to).write_all(format!("{message}\0").as_bytes());
        hear
    }

    /// What happens in a session from now on.
    pub fn events(&self, session: &str) -> Receiver<Value> {
        let (tell, hear) = channel();
        lock(&self.lines.events).insert(session.to_owned(), tell);
        hear
    }

    /// Ends the events of a session.
    pub fn forget(&self, session: &str) {
        lock(&self.lines.events).remove(session);
    }
}

impl Lines {
    fn listen(&self, mut from: BufReader<File>) {
        loop {
            let mut bytes = Vec::new();
            if from.read_until(0, &mut bytes).is_err() || bytes.pop() != Some(0) {
                // The browser ended: nobody needs to wait any longer.
                lock(&self.answers).clear();
                lock(&self.events).clear();
                return;
            }
            let Ok(message) = serde_json::from_slice::<Value>(&bytes) else {
                continue;
            };
            if let Some(number) = message.get("id").and_then(Value::as_u64) {
                if let Some(who) = lock(&self.answers).remove(&number) {
                    let _heard = who.send(message);
                }
            } else if let Some(session) = message.get("sessionId").and_then(Value::as_str)
                && let Some(who) = lock(&self.events).get(session)
            {
                let _heard = who.send(message.clone());
            }
        }
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // It is killed only if it does not end by itself.
        drop(self.send("", "Browser.close", json!({})));
        let mut child = lock(&self.child);
        let begun = Instant::now();
        while begun.elapsed() < Duration::from_secs(5) {
            if child.try_wait().is_ok_and(|ended| ended.is_some()) {
                return;
            }
            std::thread::park_timeout(Duration::from_millis(20));
        }
        let _killed = child.kill().and_then(|()| child.wait());
    }
}

/// A lock that a failed test does not keep others from.
pub fn lock<T>(what: &Mutex<T>) -> std::sync::MutexGuard<'_, T> {
    what.lock().unwrap_or_else(PoisonError::into_inner)
}
