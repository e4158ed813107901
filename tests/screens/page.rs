//! One page with its own profile: serves the pages from the tree, hands calls to the app, writes down what happened.

use crate::app::App;
use crate::browser::{Browser, lock};
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};
use std::path::PathBuf;
use std::sync::mpsc::Receiver;
use std::sync::{Arc, Mutex};
use tauri::ipc::InvokeBody;

/// Where the pages stand in the browser: the address they have on phones.
pub const HOME: &str = "https://tauri.localhost/";
/// Where photos stand.
const PHOTOS: &str = "https://photo.localhost";
const SHIM: &str = include_str!("shim.js");

/// A page, and what happened in it.
pub struct Page {
    browser: Arc<Browser>,
    session: String,
    context: String,
    log: Arc<Mutex<Log>>,
}

/// What happened in a page.
#[derive(Debug, Default, Clone)]
pub struct Log {
    /// Every address that was asked for.
    pub asked: Vec<String>,
    /// Errors in scripts, and on the console.
    pub faults: Vec<String>,
    /// Dialogs that a script opened.
    pub dialogs: Vec<String>,
}

impl Page {
    /// An empty page in a profile of its own, behind which stands `app`.
    pub fn open(app: &Arc<App>) -> Self {
        let browser = Browser::shared();
        let own = |method: &str, params: Value| browser.call("", method, params).unwrap();
        let text = |answer: &Value, key: &str| answer.get(key).unwrap().as_str().unwrap().to_owned();
        let context = text(&own("Target.createBrowserContext", json!({})), "browserContextId");
        let target = own(
            "Target.createTarget",
            json!({"url": "about:blank", "browserContextId": context}),
        );
        let target = text(&target, "targetId");
        let session = own("Target.attachToTarget", json!({"targetId": target, "flatten": true}));
        let session = text(&session, "sessionId");
        let events = browser.events(&session);
        let log = Arc::new(Mutex::new(Log::default()));
        let served = Served {
            browser: browser.clone(),
            session: session.clone(),
            app: app.clone(),
            log: log.clone(),
        };
        std::thread::spawn(move || served.serve(&events));
        let page = Self {
            browser,
            session,
            context,
            log,
        };
        for domain in ["Page.enable", "Runtime.enable", "Network.enable", "Log.enable"] {
            page.call(domain, json!({}));
        }
        page.call("Fetch.enable", json!({"patterns": [{"urlPattern": "*"}]}));
        page.call("Runtime.addBinding", json!({"name": "__toTheApp"}));
        page.call("Page.addScriptToEvaluateOnNewDocument", json!({"source": SHIM}));
        page
    }

    /// One command to this page.
    pub fn call(&self, method: &str, params: Value) -> Value {
        self.browser.call(&self.session, method, params).unwrap()
    }

    /// Value of a script, waited for where it is a promise; `Err` with what it threw.
    pub fn run(&self, script: &str) -> Result<Value, String> {
        let params = json!({"expression": script, "returnByValue": true, "awaitPromise": true});
        let answer = self.browser.call(&self.session, "Runtime.evaluate", params)?;
        match answer.get("exceptionDetails") {
            Some(thrown) => Err(thrown.to_string()),
            None => Ok(answer.pointer("/result/value").cloned().unwrap_or_default()),
        }
    }

    /// A handle of an element, for what no script can do.
    pub fn handle(&self, script: &str) -> Value {
        let answer = self.call("Runtime.evaluate", json!({"expression": script}));
        answer.pointer("/result/objectId").cloned().unwrap_or_default()
    }

    /// What happened so far.
    pub fn log(&self) -> Log {
        lock(&self.log).clone()
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        let gone = self.browser.call(
            "",
            "Target.disposeBrowserContext",
            json!({"browserContextId": self.context}),
        );
        if let Err(why) = gone {
            eprintln!("a page was not closed: {why}");
        }
        self.browser.forget(&self.session);
    }
}

/// The pages' folder; another one may be named, to try pages on a bench that is built already.
fn pages() -> PathBuf {
    std::env::var_os("UPSTAY_UI").map_or_else(
        || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../ui"),
        PathBuf::from,
    )
}

/// The content policy of the app itself.
fn policy() -> String {
    let config: Value = serde_json::from_str(include_str!("../../src-tauri/tauri.conf.json")).unwrap();
    let parts = config.pointer("/app/security/csp").unwrap().as_object().unwrap();
    let parts: Vec<String> = parts
        .iter()
        .map(|(name, what)| format!("{name} {}", what.as_str().unwrap()))
        .collect();
    parts.join("; ")
}

struct Served {
    browser: Arc<Browser>,
    session: String,
    app: Arc<App>,
    log: Arc<Mutex<Log>>,
}

impl Served {
    fn serve(self, events: &Receiver<Value>) {
        let served = Arc::new(self);
        for event in events {
            let params = event.get("params").cloned().unwrap_or_default();
            let text = |path: &str| {
                params
                    .pointer(path)
                    .and_then(Value::as_str)
                    .unwrap_or_default()
                    .to_owned()
            };
            match event.get("method").and_then(Value::as_str).unwrap_or_default() {
                "Fetch.requestPaused" => served.answer(&text("/requestId"), &text("/request/url")),
                "Runtime.bindingCalled" => {
                    let (served, payload) = (served.clone(), text("/payload"));
                    // One thread for each call, as the app works on several at once.
                    std::thread::spawn(move || served.call(&payload));
                }
                "Network.requestWillBeSent" => lock(&served.log).asked.push(text("/request/url")),
                "Network.webSocketCreated" => lock(&served.log).asked.push(text("/url")),
                "Runtime.exceptionThrown" => {
                    lock(&served.log)
                        .faults
                        .push(text("/exceptionDetails/exception/description"));
                }
                "Runtime.consoleAPICalled" if text("/type") == "error" => {
                    lock(&served.log)
                        .faults
                        .push(params.get("args").cloned().unwrap_or_default().to_string());
                }
                "Log.entryAdded" if text("/entry/level") == "error" => {
                    lock(&served.log)
                        .faults
                        .push(format!("{} {}", text("/entry/text"), text("/entry/url")));
                }
                "Page.javascriptDialogOpening" => {
                    lock(&served.log).dialogs.push(text("/message"));
                    served.tell("Page.handleJavaScriptDialog", json!({"accept": true}));
                }
                _ => {}
            }
        }
    }

    fn tell(&self, method: &str, params: Value) {
        drop(self.browser.send(&self.session, method, params));
    }

    /// Answers a request for a page or a photo; every other one fails.
    fn answer(&self, request: &str, url: &str) {
        let plain = url.split(['?', '#']).next().unwrap_or_default();
        let found = if let Some(path) = plain.strip_prefix(PHOTOS) {
            Some(self.app.photo(path).map(|(kind, bytes)| (kind, bytes, None)))
        } else {
            plain.strip_prefix(HOME).map(file)
        };
        match found {
            Some(Some((kind, bytes, policy))) => {
                let mut headers = vec![json!({"name": "content-type", "value": kind})];
                headers.extend(policy.map(|words| json!({"name": "content-security-policy", "value": words})));
                let body = BASE64_STANDARD.encode(bytes);
                self.tell(
                    "Fetch.fulfillRequest",
                    json!({"requestId": request, "responseCode": 200, "responseHeaders": headers, "body": body}),
                );
            }
            Some(None) => self.tell(
                "Fetch.fulfillRequest",
                json!({"requestId": request, "responseCode": 404}),
            ),
            None => self.tell(
                "Fetch.failRequest",
                json!({"requestId": request, "errorReason": "AccessDenied"}),
            ),
        }
    }

    /// Hands a call of the page to the app, and its answer back.
    fn call(&self, payload: &str) {
        let asked: Value = serde_json::from_str(payload).unwrap();
        let part = |key: &str| asked.get(key).cloned().unwrap_or_default();
        let body = match part("raw").as_str() {
            Some(text) => InvokeBody::Raw(BASE64_STANDARD.decode(text).unwrap()),
            None => InvokeBody::Json(part("args")),
        };
        let name = part("name");
        let answer = self.app.send(name.as_str().unwrap_or_default(), body, &part("headers"));
        let (ok, value) = match answer {
            Ok(value) => (true, value),
            Err(value) => (false, value),
        };
        // A browser on a desktop knows no schemes of an app's own; photos stand where they do on a phone.
        let value = value.to_string().replace("photo://localhost", PHOTOS);
        let script = format!("__fromTheApp({}, {ok}, {value})", part("number"));
        self.tell("Runtime.evaluate", json!({"expression": script}));
    }
}

/// A file of the pages: its type, its bytes, and the content policy where it is a page.
fn file(path: &str) -> Option<(String, Vec<u8>, Option<String>)> {
    let path = if path.is_empty() { "index.html" } else { path };
    if path == "favicon.ico" {
        // Only browsers ask for it, and only on their own account.
        return Some(("image/x-icon".to_owned(), Vec::new(), None));
    }
    if path.split('/').any(|part| part == "..") {
        return None;
    }
    let bytes = std::fs::read(pages().join(path)).ok()?;
    let kind = match path.rsplit('.').next()? {
        "html" => "text/html",
        "css" => "text/css",
        "js" => "text/javascript",
        "svg" => "image/svg+xml",
        "webp" => "image/webp",
        _ => "application/octet-stream",
    };
    Some((kind.to_owned(), bytes, (kind == "text/html").then(policy)))
}
