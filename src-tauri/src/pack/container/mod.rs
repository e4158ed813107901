//! The ZIP container with fixed bytes: the same contents always give the same file.
//!
//! Source: APPNOTE.TXT 6.3.10, sections 4.3 and 4.5.3 (layout, zip64), from memory; the tests read it with another program.

mod read;
mod write;

pub(super) use read::{Content, Listed, data_start, read_directory, read_member};
pub(super) use write::{Member, Writer, directory, local_header};

#[cfg(test)]
mod tests;
