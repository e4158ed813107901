//! What is merged into the iOS project.

use crate::{config, text};
use usvg::roxmltree::{Document, Node, ParsingOptions};

/// The value that follows a key.
fn value<'a>(list: Node<'a, 'a>, key: &str) -> Node<'a, 'a> {
    let mut parts = list.children().filter(Node::is_element);
    parts
        .by_ref()
        .find(|node| node.has_tag_name("key") && node.text() == Some(key))
        .unwrap_or_else(|| panic!("{key} is missing"));
    parts.next().unwrap()
}

#[test]
fn every_question_of_the_phone_has_its_text_and_packs_open() {
    let plist = text("Info.plist");
    let options = ParsingOptions {
        allow_dtd: true,
        ..ParsingOptions::default()
    };
    let plist = Document::parse_with_options(&plist, options).unwrap();
    let all = plist.root_element().children().find(Node::is_element).unwrap();
    for key in ["NSCameraUsageDescription", "NSMotionUsageDescription"] {
        let said = value(all, key).text().unwrap();
        assert!(said.len() > 30 && said.ends_with('.'), "{key}: {said}");
    }
    let asked = all
        .children()
        .filter(|node| node.has_tag_name("key") && node.text().is_some_and(|key| key.ends_with("UsageDescription")));
    assert_eq!(
        asked.count(),
        2,
        "nothing is asked for that the app does not use: no place, no microphone, no contacts"
    );
    let documents = value(all, "CFBundleDocumentTypes");
    let kind = documents.children().find(Node::is_element).unwrap();
    let kinds: Vec<_> = value(kind, "LSItemContentTypes")
        .children()
        .filter_map(|node| node.text())
        .collect();
    assert!(kinds.contains(&"public.zip-archive"), "{kinds:?}");
    assert_eq!(value(kind, "LSHandlerRank").text(), Some("Alternate"));
    // The system copies what is opened: the app reads it without asking for the place it lies at.
    assert!(value(all, "LSSupportsOpeningDocumentsInPlace").has_tag_name("false"));
    let least = config();
    let least = least
        .pointer("/bundle/iOS/minimumSystemVersion")
        .unwrap()
        .as_str()
        .unwrap();
    assert!(
        least.split('.').next().unwrap().parse::<u32>().unwrap() >= 15,
        "{least}"
    );
}
