//! `check.html`: one page that checks a pack in any browser, offline.
//!
//! It has its own SHA-256, ZIP reader and chain check, so that nobody needs this program. A forger can change the page
//! too: `verify` compares its bytes with those made here.

use std::sync::LazyLock;

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha256};

/// Name of the member.
pub(super) const NAME: &str = "check.html";

/// Largest page read, bytes.
pub(super) const LIMIT: u64 = 1024 * 1024;

const FRAME: &str = include_str!("frame.html");

const STYLE: &str = include_str!("style.css");

/// In the order they build on each other; they are one script in the page.
const SCRIPTS: [&str; 5] = [
    include_str!("sha256.js"),
    include_str!("zip.js"),
    include_str!("seal.js"),
    include_str!("record.js"),
    include_str!("screen.js"),
];

static PAGE: LazyLock<String> = LazyLock::new(|| {
    let script = format!("\n'use strict'\n{}", SCRIPTS.concat());
    // Only these very bytes may run or style; nothing is fetched from anywhere.
    let policy = format!(
        "default-src 'none'; script-src 'sha256-{}'; style-src 'sha256-{}'; base-uri 'none'; form-action 'none'",
        BASE64_STANDARD.encode(Sha256::digest(&script)),
        BASE64_STANDARD.encode(Sha256::digest(STYLE)),
    );
    FRAME
        .replace("{policy}", &policy)
        .replace("{style}", STYLE)
        .replace("{script}", &script)
});

/// The bytes of the page.
#[must_use]
pub fn page() -> &'static str {
    &PAGE
}
