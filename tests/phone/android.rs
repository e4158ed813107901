//! The Android project.

use crate::{between, config, identifier, path, text};
use std::collections::BTreeSet;
use usvg::roxmltree::{Document, Node};

const ANDROID: &str = "http://schemas.android.com/apk/res/android";
const TOOLS: &str = "http://schemas.android.com/tools";
const MAIN: &str = "gen/android/app/src/main/AndroidManifest.xml";

fn named<'a>(node: Node<'a, 'a>, name: &str) -> Option<&'a str> {
    node.attribute((ANDROID, name))
}

fn permissions(manifest: &Document) -> BTreeSet<String> {
    manifest
        .descendants()
        .filter(|node| node.tag_name().name().starts_with("uses-permission"))
        .map(|node| node.attribute((ANDROID, "name")).unwrap().to_owned())
        .collect()
}

#[test]
fn permissions_are_these_and_no_others() {
    let main = text(MAIN);
    let wanted = ["POST_NOTIFICATIONS", "RECEIVE_BOOT_COMPLETED", "WAKE_LOCK"];
    let wanted: BTreeSet<String> = wanted.map(|name| format!("android.permission.{name}")).into();
    assert_eq!(permissions(&Document::parse(&main).unwrap()), wanted);

    // A released app cannot reach the network, whatever a library asks for.
    let release = text("gen/android/app/src/release/AndroidManifest.xml");
    let release = Document::parse(&release).unwrap();
    assert!(permissions(&release).contains("android.permission.INTERNET"));
    for node in release
        .descendants()
        .filter(|node| node.has_tag_name("uses-permission"))
    {
        assert_eq!(node.attribute((TOOLS, "node")), Some("remove"));
    }
    let debug = text("gen/android/app/src/debug/AndroidManifest.xml");
    let only: BTreeSet<String> = ["android.permission.INTERNET".to_owned()].into();
    assert_eq!(permissions(&Document::parse(&debug).unwrap()), only);
}

#[test]
fn nothing_but_the_window_is_open_to_other_apps() {
    let main = text(MAIN);
    let manifest = Document::parse(&main).unwrap();
    let parts = ["activity", "activity-alias", "service", "receiver", "provider"];
    let open: Vec<_> = manifest
        .descendants()
        .filter(|node| parts.contains(&node.tag_name().name()) && named(*node, "exported") != Some("false"))
        .map(|node| named(node, "name").unwrap())
        .collect();
    assert_eq!(open, [".MainActivity"]);
    let application = manifest
        .descendants()
        .find(|node| node.has_tag_name("application"))
        .unwrap();
    assert_eq!(named(application, "allowBackup"), Some("false"));
    let gradle = text("gen/android/app/build.gradle.kts");
    let standard = between(&gradle, "defaultConfig {", "}");
    assert!(standard.contains(r#"manifestPlaceholders["usesCleartextTraffic"] = "false""#));
    assert!(!between(&gradle, r#"getByName("release") {"#, "proguardFiles").contains("usesCleartextTraffic"));
}

#[test]
fn a_turned_phone_does_not_start_the_page_anew() {
    let main = text(MAIN);
    let manifest = Document::parse(&main).unwrap();
    let activity = manifest
        .descendants()
        .find(|node| node.has_tag_name("activity"))
        .unwrap();
    let changes: BTreeSet<&str> = named(activity, "configChanges").unwrap().split('|').collect();
    for change in [
        "orientation",
        "screenSize",
        "smallestScreenSize",
        "screenLayout",
        "keyboardHidden",
        "keyboard",
        "uiMode",
        "fontScale",
        "density",
        "locale",
        "layoutDirection",
    ] {
        assert!(changes.contains(change), "{change}");
    }
    assert_eq!(named(activity, "windowSoftInputMode"), Some("adjustResize"));
    assert_eq!(named(activity, "launchMode"), Some("singleTask"));
    // The keyboard and the bars are kept off the page by the activity itself.
    let activity = text("gen/android/app/src/main/java/org/upstay/app/MainActivity.kt");
    for kind in ["systemBars()", "displayCutout()", "ime()", "enableEdgeToEdge()"] {
        assert!(activity.contains(kind), "{kind}");
    }
}

#[test]
fn a_pack_opens_and_the_camera_is_seen() {
    let main = text(MAIN);
    let manifest = Document::parse(&main).unwrap();
    let takes = |action: &str| {
        let filter = manifest
            .descendants()
            .filter(|node| node.has_tag_name("intent-filter"))
            .find(|filter| {
                filter
                    .children()
                    .any(|node| node.has_tag_name("action") && named(node, "name") == Some(action))
            });
        let data: BTreeSet<_> = filter
            .unwrap()
            .children()
            .filter_map(|node| named(node, "mimeType"))
            .collect();
        data
    };
    for action in ["android.intent.action.VIEW", "android.intent.action.SEND"] {
        assert_eq!(
            takes(action),
            ["application/x-zip-compressed", "application/zip"].into(),
            "{action}"
        );
    }
    let queries = manifest
        .descendants()
        .find(|node| node.has_tag_name("queries"))
        .unwrap();
    let asked: Vec<_> = queries.descendants().filter_map(|node| named(node, "name")).collect();
    assert_eq!(asked, ["android.media.action.IMAGE_CAPTURE"]);
    // The folder that one side writes and the other reads.
    let activity = text("gen/android/app/src/main/java/org/upstay/app/MainActivity.kt");
    assert!(activity.contains(r#"File(cacheDir, "opened")"#));
    assert!(text("src/commands/mod.rs").contains(r#"app_cache_dir()?.join("opened")"#));
    assert!(activity.contains("'pack-opened'"));
    assert!(text("../ui/app.js").contains("'pack-opened'"));
}

#[test]
fn the_file_provider_hands_out_pictures_and_copies_only() {
    let main = text(MAIN);
    let manifest = Document::parse(&main).unwrap();
    let provider = manifest
        .descendants()
        .find(|node| node.has_tag_name("provider"))
        .unwrap();
    // The web view's camera and the sharing plugin both ask for this name.
    assert_eq!(named(provider, "authorities"), Some("${applicationId}.fileprovider"));
    assert_eq!(named(provider, "grantUriPermissions"), Some("true"));
    let paths = text("gen/android/app/src/main/res/xml/file_paths.xml");
    let paths = Document::parse(&paths).unwrap();
    let all: Vec<_> = paths
        .root_element()
        .children()
        .filter(Node::is_element)
        .map(|node| (node.tag_name().name(), node.attribute("path").unwrap()))
        .collect();
    assert_eq!(all, [("external-files-path", "Pictures/"), ("cache-path", "/")]);
}

#[test]
fn names_and_versions_are_in_step() {
    let gradle = text("gen/android/app/build.gradle.kts");
    let id = identifier();
    assert_eq!(between(&gradle, "namespace = \"", "\""), id);
    assert_eq!(between(&gradle, "applicationId = \"", "\""), id);
    let version = env!("CARGO_PKG_VERSION");
    assert_eq!(between(&gradle, r#""tauri.android.versionName", ""#, "\""), version);
    // As the tools make it: a million for the first number, a thousand for the second.
    let code = version
        .split('.')
        .map(|part| part.parse::<u64>().unwrap())
        .fold(0, |code, part| code * 1000 + part);
    assert_eq!(
        between(&gradle, r#""tauri.android.versionCode", ""#, "\""),
        code.to_string()
    );
    let least = config()
        .pointer("/bundle/android/minSdkVersion")
        .unwrap()
        .as_u64()
        .unwrap();
    assert_eq!(between(&gradle, "minSdk = ", "\n"), least.to_string());
    // Adaptive icons are all there is, and they came with 26.
    assert!(least >= 26);
    let folder = id.replace('.', "/");
    let activity = text(&format!("gen/android/app/src/main/java/{folder}/MainActivity.kt"));
    assert!(activity.starts_with(&format!("package {id}\n")));
    assert!(gradle.contains("useLegacyPackaging = false"));
    assert!(text("build.rs").contains("max-page-size=16384"));
    let window = config()
        .pointer("/app/windows/0/useHttpsScheme")
        .and_then(serde_json::Value::as_bool);
    assert_eq!(
        window,
        Some(true),
        "without it the page is no secure context, and it must never change"
    );
    let strings = text("gen/android/app/src/main/res/values/strings.xml");
    let name = config().pointer("/productName").unwrap().as_str().unwrap().to_owned();
    assert!(strings.contains(&format!("<string name=\"app_name\">{name}</string>")));
}

#[test]
fn the_icon_is_ours_and_lies_within_every_mask() {
    let folder = path("gen/android/app/src/main/res");
    let icon = text("gen/android/app/src/main/res/mipmap-anydpi/ic_launcher.xml");
    let icon = Document::parse(&icon).unwrap();
    for layer in ["background", "foreground", "monochrome"] {
        assert!(
            icon.root_element().children().any(|node| node.has_tag_name(layer)),
            "{layer}"
        );
    }
    assert!(
        !folder.join("mipmap-hdpi").exists(),
        "no picture of the template is left"
    );
    for name in ["ic_launcher_foreground", "ic_launcher_one_colour"] {
        let drawing = text(&format!("gen/android/app/src/main/res/drawable/{name}.xml"));
        let drawing = Document::parse(&drawing).unwrap();
        for node in drawing.descendants().filter(|node| node.has_tag_name("path")) {
            let data = named(node, "pathData").unwrap();
            for start in data.split('M').skip(1) {
                let (x, y) = start.split_once(['h', 'v', ' ']).unwrap().0.split_once(',').unwrap();
                let (x, y): (f64, f64) = (x.parse().unwrap(), y.parse().unwrap());
                assert!(
                    (x - 54.0).hypot(y - 54.0) <= 33.0,
                    "{name}: {x}, {y} lies outside the middle circle"
                );
            }
        }
    }
}

#[test]
fn the_page_and_the_plugins_use_what_is_allowed() {
    let phone: serde_json::Value = serde_json::from_str(&text("capabilities/phone.json")).unwrap();
    let allowed: Vec<_> = phone
        .pointer("/permissions")
        .unwrap()
        .as_array()
        .unwrap()
        .iter()
        .collect();
    assert_eq!(
        allowed,
        ["core:app:allow-register-listener", "core:app:allow-remove-listener"]
    );
    let main: serde_json::Value = serde_json::from_str(&text("capabilities/main.json")).unwrap();
    assert_eq!(main.pointer("/permissions").unwrap().as_array().unwrap().len(), 0);
    assert_eq!(
        config().pointer("/app/security/capabilities").unwrap(),
        &serde_json::json!(["main", "phone"])
    );
    // The back button is heard by the page only; the camera opens only for this very word.
    assert!(text("../ui/bridge.js").contains("'app', 'back-button'"));
    assert!(text("../ui/parts/photo.js").contains("accept: 'image/*'"));
    assert!(text("../ui/parts/photo.js").contains("capture: 'environment'"));
}
