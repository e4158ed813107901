//! A hand and an eye at the window: press what can be read, type into what has a label, look at what stands there.

use crate::stage::PATIENCE;
use fantoccini::actions::{InputSource, MOUSE_BUTTON_LEFT, MouseActions, PointerAction};
use fantoccini::elements::{Element, ElementRef};
use fantoccini::error::CmdError;
use fantoccini::key::Key;
use fantoccini::{Client, Locator};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// How the W3C WebDriver specification names an element in JSON (section 12, "web element identifier").
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";

/// Finds what a person would take: by the words on it or by its label. Whole words beat beginnings, beginnings beat parts;
/// what is hidden or switched off is passed over.
const FIND: &str = include_str!("find.js");

/// Works one window.
pub struct Hand {
    client: Client,
}

impl Hand {
    /// Takes a window over.
    pub const fn new(client: Client) -> Self {
        Self { client }
    }

    /// Presses the button, link, tab or summary with these words on it.
    pub async fn press(&self, words: &str) {
        self.click(vec![json!("press"), json!(words)]).await;
    }

    /// Takes an answer to a question that has a few.
    pub async fn answer(&self, question: &str, answer: &str) {
        let asked = vec![json!("answer"), json!(answer), json!(question)];
        let start = Instant::now();
        // What comes in above may push the answers down between aiming and pressing, so the answer is looked at again.
        while !self.taken(asked.clone()).await {
            assert!(
                start.elapsed() < PATIENCE,
                "`{answer}` is not taken as the answer to `{question}`"
            );
            self.click(asked.clone()).await;
        }
    }

    /// Whether an answer is the one that is taken.
    async fn taken(&self, asked: Vec<Value>) -> bool {
        let script = format!("const found = (() => {{ {FIND} }})(); return !!found?.querySelector('input')?.checked");
        self.client.execute(&script, asked).await.unwrap() == json!(true)
    }

    /// Types into the field with this label, in place of what stood there; a choice is taken by its words.
    pub async fn fill(&self, label: &str, text: &str) {
        self.persist(vec![json!("fill"), json!(label)], async |field: Element| {
            if field.tag_name().await? == "select" {
                field.select_by_label(text).await?;
                return Ok(true);
            }
            field.clear().await?;
            field.send_keys(text).await?;
            Ok(field.prop("value").await?.as_deref() == Some(text))
        })
        .await;
    }

    /// Taps with the pointer on the first visible element of a selector, at a share of its width and height.
    pub async fn tap(&self, selector: &str, share: [f64; 2]) {
        let find = "const box = [...document.querySelectorAll(arguments[0])].find((one) => one.checkVisibility()); \
             box.scrollIntoView({ block: 'center', behavior: 'instant' }); \
             const { left, top, width, height } = box.getBoundingClientRect(); \
             return [left + width * arguments[1], top + height * arguments[2]]";
        let [across, down] = share;
        let at = self
            .client
            .execute(find, vec![json!(selector), json!(across), json!(down)])
            .await
            .unwrap();
        let place = |index: usize| at.get(index).and_then(Value::as_f64).unwrap();
        let button = MOUSE_BUTTON_LEFT;
        let moves = MouseActions::new("finger".to_owned())
            .then(PointerAction::MoveTo {
                duration: None,
                x: place(0),
                y: place(1),
            })
            .then(PointerAction::Down { button })
            .then(PointerAction::Up { button });
        self.client.perform_actions(moves).await.unwrap();
    }

    /// Presses a key on the element of a selector that can hold the focus.
    pub async fn key(&self, selector: &str, key: Key) {
        let found = self.client.find(Locator::Css(selector)).await.unwrap();
        found.send_keys(&char::from(key).to_string()).await.unwrap();
    }

    /// Hands a file to the file field with this label.
    pub async fn upload(&self, label: &str, file: &Path) {
        self.find("file", label)
            .await
            .send_keys(file.to_str().unwrap())
            .await
            .unwrap();
    }

    /// What stands in the field with this label.
    pub async fn reads(&self, label: &str) -> String {
        self.find("fill", label)
            .await
            .prop("value")
            .await
            .unwrap()
            .unwrap_or_default()
    }

    /// Waits until these words can be read somewhere in the window.
    pub async fn see(&self, words: &str) {
        self.wait(
            &format!("`{words}` can be read"),
            "return document.body.innerText.includes(arguments[0])",
            json!(words),
        )
        .await;
    }

    /// Waits until the field with this label carries the tick of a kept field.
    pub async fn see_tick(&self, label: &str) {
        let script = format!(
            "const found = (() => {{ {FIND} }})(); return !!found?.closest('[data-kept=\"true\"]') \
             || !!found?.parentElement?.querySelector('[data-kept=\"true\"]')"
        );
        self.wait_args(
            &format!("`{label}` is kept"),
            &script,
            vec![json!("fill"), json!(label)],
        )
        .await;
    }

    /// Waits until a script gives true.
    pub async fn wait(&self, what: &str, script: &str, argument: Value) {
        self.wait_args(what, script, vec![argument]).await;
    }

    /// Waits until nothing on the page has moved for a while: what comes late may push away what is about to be pressed.
    pub async fn still(&self) {
        let (mut before, mut alike) = (Value::Null, 0);
        let start = Instant::now();
        while alike < 5 {
            assert!(start.elapsed() < PATIENCE, "the page does not come to rest");
            let now = self
                .ask("return [document.body.innerHTML.length, document.body.scrollHeight, scrollY]")
                .await;
            alike = if now == before { alike + 1 } else { 0 };
            before = now;
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    }

    /// Runs a script in the page and gives its answer.
    pub async fn ask(&self, script: &str) -> Value {
        self.client.execute(script, Vec::new()).await.unwrap()
    }

    /// All text that can be read in the window.
    pub async fn text(&self) -> String {
        self.ask("return document.body.innerText")
            .await
            .as_str()
            .unwrap_or_default()
            .to_owned()
    }

    /// Calls a command of the app as the page does; gives its answer, or its failure.
    pub async fn invoke(&self, command: &str, arguments: Value) -> Result<Value, Value> {
        let script = "const [name, args, done] = arguments; \
             window.__TAURI__.core.invoke(name, args).then((ok) => done({ ok }), (failed) => done({ failed }))";
        self.answered(script, vec![json!(command), arguments]).await
    }

    /// Sends a photo to the app as raw bytes, as the page does.
    pub async fn send_photo(&self, bytes: &[u8], headers: Value) -> Result<Value, Value> {
        let script = "const [bytes, headers, done] = arguments; \
             window.__TAURI__.core.invoke('photo_add', new Uint8Array(bytes), { headers }) \
             .then((ok) => done({ ok }), (failed) => done({ failed }))";
        self.answered(script, vec![json!(bytes), headers]).await
    }

    /// Width in pixels of the picture at an address, 0 when it does not load.
    pub async fn picture_width(&self, url: &str) -> u64 {
        let script = "const [url, done] = arguments; const image = new Image(); \
             image.onload = () => done(image.naturalWidth); image.onerror = () => done(0); image.src = url";
        self.client
            .execute_async(script, vec![json!(url)])
            .await
            .unwrap()
            .as_u64()
            .unwrap()
    }

    async fn answered(&self, script: &str, arguments: Vec<Value>) -> Result<Value, Value> {
        let answer = self.client.execute_async(script, arguments).await.unwrap();
        match answer.get("failed") {
            Some(failed) => Err(failed.clone()),
            None => Ok(answer.get("ok").cloned().unwrap_or_default()),
        }
    }

    /// Keeps a picture of the window under `target/screens`.
    pub async fn picture(&self, name: &str) {
        let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
            .parent()
            .unwrap()
            .join("screens");
        std::fs::create_dir_all(&folder).unwrap();
        // Two frames drawn: what changed last is on the glass.
        let settle = "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => done(true)))";
        self.client.execute_async(settle, Vec::new()).await.unwrap();
        std::fs::write(
            folder.join(format!("{name}.png")),
            self.client.screenshot().await.unwrap(),
        )
        .unwrap();
    }

    /// The window's title.
    pub async fn title(&self) -> String {
        self.client.title().await.unwrap()
    }

    /// Width and height that the page has.
    pub async fn page_size(&self) -> (u64, u64) {
        let size = self.ask("return [innerWidth, innerHeight]").await;
        (
            size.get(0).and_then(Value::as_u64).unwrap(),
            size.get(1).and_then(Value::as_u64).unwrap(),
        )
    }

    /// Closes the window.
    pub async fn close(self) {
        self.client.close().await.unwrap();
    }

    async fn click(&self, asked: Vec<Value>) {
        self.persist(asked, async |found: Element| found.click().await.map(|()| true))
            .await;
    }

    /// Tries until it works: a screen that is being redrawn may take the element away between finding and using it.
    async fn persist(&self, asked: Vec<Value>, act: impl AsyncFn(Element) -> Result<bool, CmdError>) {
        let start = Instant::now();
        loop {
            let found = self.find_by(asked.clone()).await;
            // To the middle of the window, clear of the bar at its foot.
            let middle = "arguments[0].scrollIntoView({ block: 'center', behavior: 'instant' })";
            let reference = json!({ ELEMENT: found.element_id().as_ref() });
            let done = match self.client.execute(middle, vec![reference]).await {
                Ok(_) => act(found).await,
                Err(error) => Err(error),
            };
            match done {
                Ok(true) => return,
                Ok(false) => assert!(start.elapsed() < PATIENCE, "{asked:?} does not stay as it is typed"),
                Err(error) => assert!(start.elapsed() < PATIENCE, "cannot do {asked:?}: {error}"),
            }
        }
    }

    async fn find(&self, how: &str, words: &str) -> Element {
        self.find_by(vec![json!(how), json!(words)]).await
    }

    async fn find_by(&self, asked: Vec<Value>) -> Element {
        let start = Instant::now();
        loop {
            if let Some(found) = self.look(asked.clone()).await {
                return found;
            }
            if start.elapsed() > PATIENCE {
                let there = self
                    .client
                    .execute("return document.body.innerText", Vec::new())
                    .await
                    .unwrap();
                panic!(
                    "nothing there for {asked:?}; in the window stands:\n{}",
                    there.as_str().unwrap_or_default()
                );
            }
            tokio::time::sleep(Duration::from_millis(15)).await;
        }
    }

    async fn look(&self, asked: Vec<Value>) -> Option<Element> {
        let found = match self.client.execute(FIND, asked).await {
            // The screen was drawn anew just then.
            Err(error) if error.is_stale_element_reference() => return None,
            found => found.unwrap(),
        };
        let id = found.get(ELEMENT)?.as_str()?.to_owned();
        Some(Element::from_element_id(self.client.clone(), ElementRef::from(id)))
    }

    async fn wait_args(&self, what: &str, script: &str, arguments: Vec<Value>) {
        let start = Instant::now();
        while self.client.execute(script, arguments.clone()).await.unwrap() != json!(true) {
            if start.elapsed() > PATIENCE {
                let there = self
                    .client
                    .execute("return document.body.innerText", Vec::new())
                    .await
                    .unwrap();
                panic!(
                    "waited in vain until {what}; in the window stands:\n{}",
                    there.as_str().unwrap_or_default()
                );
            }
            tokio::time::sleep(Duration::from_millis(15)).await;
        }
    }
}
