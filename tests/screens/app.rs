//! The real commands without a window: an app of this test's own over an empty data folder.

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
    // Only kept alive: the window holds on to what is managed, and may be used by several threads at once.
    _app: Mutex<TauriApp<MockRuntime>>,
    window: WebviewWindow<MockRuntime>,
    home: TempDir,
}

impl App {
    /// An app that nobody has used yet.
    pub fn new() -> Self {
        let home = TempDir::new().unwrap();
        let desk = Desk::open(&home.path().join("data"), Some(home.path().join("Documents"))).unwrap();
        let app = with_commands(mock_builder())
            .build(mock_context(noop_assets()))
            .unwrap();
        app.manage(desk);
        let window = WebviewWindowBuilder::new(&app, "main", tauri::WebviewUrl::default())
            .build()
            .unwrap();
        Self {
            _app: Mutex::new(app),
            window,
            home,
        }
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
        get_ipc_response(&self.window, request).map(|answer| match answer {
            InvokeResponseBody::Json(text) => serde_json::from_str(&text).unwrap(),
            InvokeResponseBody::Raw(bytes) => json!(bytes),
        })
    }

    /// A picture by the path of its address: content type and bytes, or nothing.
    pub fn photo(&self, path: &str) -> Option<(String, Vec<u8>)> {
        let answer = photo(&self.window.state::<Desk>(), path);
        let kind = answer.headers().get("content-type")?.to_str().ok()?.to_owned();
        answer.status().is_success().then(|| (kind, answer.into_body()))
    }
}
