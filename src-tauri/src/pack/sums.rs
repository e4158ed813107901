//! `SHA256SUMS`: one line per file, as `sha256sum -c` reads it.

use crate::record::Hash;

/// Name of the member.
pub(super) const NAME: &str = "SHA256SUMS";

/// The bytes of the list, in the order given.
pub(super) fn build<'a>(files: impl IntoIterator<Item = (&'a str, Hash)>) -> Vec<u8> {
    files
        .into_iter()
        .map(|(name, sha)| format!("{sha}  {name}\n"))
        .collect::<String>()
        .into_bytes()
}

/// Reads a list back; a line that is none is returned as it stands.
pub(super) fn parse(text: &str) -> Result<Vec<(String, Hash)>, String> {
    let line = |line: &str| {
        let (sha, name) = line.split_once("  ")?;
        Some((name.to_owned(), sha.parse().ok()?))
    };
    text.lines()
        .map(|text| line(text).ok_or_else(|| text.chars().take(80).collect()))
        .collect()
}
