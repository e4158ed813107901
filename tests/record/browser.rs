//! A headless browser, driven through its debugging pipe: no driver program and no port are needed.

use std::fs::{File, OpenOptions};
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use tempfile::TempDir;

/// How long a page may take.
const PATIENCE: Duration = Duration::from_secs(60);

/// A running browser with one page.
pub struct Browser {
    child: Child,
    to: File,
    from: BufReader<File>,
    session: Option<String>,
    number: u64,
    _home: TempDir,
}

/// Says that something did not run; where everything is required that is a failure.
pub fn not_run(what: &str) {
    println!("NOT RUN: {what}");
    let required = std::env::var("UPSTAY_REQUIRE_ALL").as_deref() == Ok("1");
    assert!(!required, "{what} is required here");
}

/// Whether a program is installed; says so if it is not.
pub fn there(program: &str) -> bool {
    let found = std::env::var_os("PATH")
        .is_some_and(|path| std::env::split_paths(&path).any(|folder| folder.join(program).is_file()));
    if !found {
        not_run(&format!("{program} is not installed"));
    }
    found
}

impl Browser {
    /// Opens a page; `None` where there is no browser.
    pub fn open(page: &Path) -> Option<Self> {
        if !there("chromium") {
            return None;
        }
        let home = TempDir::new().unwrap();
        let (to, from) = (home.path().join("to"), home.path().join("from"));
        assert!(Command::new("mkfifo").args([&to, &from]).status().unwrap().success());
        // The browser reads from 3 and writes to 4.
        let child = Command::new("sh")
            .arg("-c")
            .arg(
                "exec chromium --headless=new --no-sandbox --disable-gpu --no-first-run --disable-extensions \
                 --user-data-dir=\"$1\" --remote-debugging-pipe about:blank 3<\"$2\" 4>\"$3\"",
            )
            .arg("sh")
            .args([&home.path().join("profile"), &to, &from])
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut browser = Self {
            child,
            to: OpenOptions::new().write(true).open(&to).unwrap(),
            from: BufReader::new(File::open(&from).unwrap()),
            session: None,
            number: 0,
            _home: home,
        };
        let target = browser.call(
            "Target.createTarget",
            json!({"url": format!("file://{}", page.display())}),
        );
        let target = target["targetId"].as_str().unwrap().to_owned();
        let session = browser.call("Target.attachToTarget", json!({"targetId": target, "flatten": true}));
        browser.session = Some(session["sessionId"].as_str().unwrap().to_owned());
        browser.until("document.documentElement.dataset.ready ?? ''");
        Some(browser)
    }

    /// One command and its answer.
    fn call(&mut self, method: &str, params: Value) -> Value {
        self.number += 1;
        let mut message = json!({"id": self.number, "method": method, "params": params});
        if let Some(session) = &self.session {
            message["sessionId"] = json!(session);
        }
        self.to.write_all(format!("{message}\0").as_bytes()).unwrap();
        loop {
            let mut bytes = Vec::new();
            self.from.read_until(0, &mut bytes).unwrap();
            assert_eq!(bytes.pop(), Some(0), "the browser ended");
            let answer: Value = serde_json::from_slice(&bytes).unwrap();
            if answer["id"] == json!(self.number) {
                assert!(answer.get("error").is_none(), "{method}: {answer}");
                return answer["result"].clone();
            }
        }
    }

    /// Value of an expression in the page.
    pub fn value(&mut self, expression: &str) -> Value {
        let answer = self.call(
            "Runtime.evaluate",
            json!({"expression": expression, "returnByValue": true}),
        );
        answer["result"]["value"].clone()
    }

    /// Waits until an expression gives words, and gives them.
    pub fn until(&mut self, expression: &str) -> String {
        let begun = Instant::now();
        loop {
            match self.value(expression).as_str() {
                Some(words) if !words.is_empty() => return words.to_owned(),
                _ => assert!(begun.elapsed() < PATIENCE, "{expression} stays empty"),
            }
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// What the page looks like, as PNG.
    pub fn picture(&mut self) -> Vec<u8> {
        use base64::Engine;
        let shot = self.call("Page.captureScreenshot", json!({"format": "png"}));
        let text = shot["data"].as_str().unwrap();
        base64::prelude::BASE64_STANDARD.decode(text).unwrap()
    }

    /// Chooses files in a file field, as a person does.
    pub fn choose(&mut self, field: &str, files: &[&Path]) {
        // Emptied first: choosing the same file again is no change to a browser.
        self.value(&format!("document.querySelector('{field}').value = ''"));
        let node = self.call(
            "Runtime.evaluate",
            json!({"expression": format!("document.querySelector('{field}')")}),
        );
        let node = &node["result"]["objectId"];
        self.call("DOM.setFileInputFiles", json!({"objectId": node, "files": files}));
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // It is killed only if it does not end by itself.
        let _asked = self.to.write_all(b"{\"id\":0,\"method\":\"Browser.close\"}\0");
        let begun = Instant::now();
        while begun.elapsed() < Duration::from_secs(5) {
            if self.child.try_wait().is_ok_and(|ended| ended.is_some()) {
                return;
            }
            std::thread::sleep(Duration::from_millis(20));
        }
        let _killed = self.child.kill().and_then(|()| self.child.wait());
    }
}
