//! The real commands without a window: an app of this test's own over an empty data folder.

use crate::browser::lock;
use serde_json::{Value, json};
use std::path::Path;
use std::sync::Mutex;
use tauri::ipc::{CallbackFn, InvokeBody, InvokeResponseBody};
use tauri::test::{INVOKE_KEY, MockRuntime, get_ipc_response, mock_builder, mock_context, noop_assets};
use tauri::webview::InvokeRequest;
use tauri::{App as TauriApp, Manager, WebviewWindow, WebviewWindowBuilder};
use tempfile::TempDir;
use upstay_lib::commands::{Desk, photo, with_commands};

/// The app's commands over a home of their own.
pub struct App {
    running: Mutex<Running>,
    home: TempDir,
}

/// One run of the app, from a start to its end.
struct Running {
    // Only kept alive: the window holds on to what is managed, and may be used by several threads at once.
    _app: TauriApp<MockRuntime>,
    window: WebviewWindow<MockRuntime>,
}

/// Starts the app over a home. The camera's folder is there as on Android; elsewhere nobody puts anything into it.
fn start(home: &Path) -> Running {
    // Two mock runtimes must not be set up at the same time.
    static ONE_AT_A_TIME: Mutex<()> = Mutex::new(());
    let _turn = lock(&ONE_AT_A_TIME);
    let desk = Desk::open(&home.join("data"), Some(home.join("Documents"))).unwrap();
    let app = with_commands(mock_builder())
        .build(mock_context(noop_assets()))
        .unwrap();
    app.manage(desk.camera_in(Some(home.join("Pictures"))));
    let window = WebviewWindowBuilder::new(&app, "main", tauri::WebviewUrl::default())
        .build()
        .unwrap();
    Running { _app: app, window }
}

impl App {
    /// An app that nobody has used yet.
    pub fn new() -> Self {
        let home = TempDir::new().unwrap();
        let running = Mutex::new(start(home.path()));
        Self { running, home }
    }

    /// The app as it comes up again after the system ended it: only what lies on the disk is still there.
    pub fn start_again(&self) {
        let fresh = start(self.home());
        *lock(&self.running) = fresh;
    }

    fn window(&self) -> WebviewWindow<MockRuntime> {
        lock(&self.running).window.clone()
    }

    /// Folder of this app alone.
    pub fn home(&self) -> &Path {
        self.home.path()
    }

    /// Calls a command; gives its answer, or its failure.
    pub fn invoke(&self, command: &str, arguments: Value) -> Result<Value, Value> {
        self.send(command, InvokeBody::Json(arguments), &json!({}))
    }

    /// Calls a command with a body of any kind and with headers, as the page's `invoke` does.
    pub fn send(&self, command: &str, body: InvokeBody, headers: &Value) -> Result<Value, Value> {
        let mut request = InvokeRequest {
            cmd: command.to_owned(),
            callback: CallbackFn(0),
            error: CallbackFn(1),
            url: "tauri://localhost".parse().unwrap(),
            body,
            headers: tauri::http::HeaderMap::new(),
            invoke_key: INVOKE_KEY.to_owned(),
        };
        for (name, value) in headers.as_object().into_iter().flatten() {
            let name: tauri::http::HeaderName = name.parse().unwrap();
            request.headers.insert(name, value.as_str().unwrap().parse().unwrap());
        }
        get_ipc_response(&self.window(), request).map(|answer| match answer {
            InvokeResponseBody::Json(text) => serde_json::from_str(&text).unwrap(),
            InvokeResponseBody::Raw(bytes) => json!(bytes),
        })
    }

    /// A picture by the path of its address: content type and bytes, or nothing.
    pub fn photo(&self, path: &str) -> Option<(String, Vec<u8>)> {
        let answer = photo(&self.window().state::<Desk>(), path);
        let kind = answer.headers().get("content-type")?.to_str().ok()?.to_owned();
        answer.status().is_success().then(|| (kind, answer.into_body()))
    }
}
