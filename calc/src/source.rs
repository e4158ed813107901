//! Where a rule or a number comes from, written once as data and read by screen, report and program alike.

use serde::{Serialize, Serializer};
use std::fmt;

/// How far a citation was checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// Read in the document itself.
    Text,
    /// Read in another work, named here, not in the document itself.
    Secondary(&'static str),
    /// From memory: the text was not seen.
    Memory,
    /// Common practice without a source.
    Practice,
    /// This project's own judgement.
    Own,
    /// This project's own model, with its reason.
    Model(&'static str),
    /// Taken from, or confirmed with, a reference library named here.
    Library(&'static str),
}

impl fmt::Display for Seen {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text => f.write_str("read in the document"),
            Self::Secondary(work) => write!(f, "read in {work}, not in the document itself"),
            Self::Memory => f.write_str("from memory"),
            Self::Practice => f.write_str("common practice, no source"),
            Self::Own => f.write_str("own judgement"),
            Self::Model(reason) => write!(f, "own model: {reason}"),
            Self::Library(library) => write!(f, "confirmed with {library}"),
        }
    }
}

impl Serialize for Seen {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// A citation: document, place in it, and how far it was checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Source {
    /// Standard or publication with its year.
    pub document: &'static str,
    /// Clause, equation, table or page.
    pub locator: &'static str,
    /// How far it was checked.
    pub seen: Seen,
}

impl Source {
    /// Builds a citation.
    #[must_use]
    pub const fn new(document: &'static str, locator: &'static str, seen: Seen) -> Self {
        Self {
            document,
            locator,
            seen,
        }
    }
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} ({})", self.document, self.locator, self.seen)
    }
}

/// A number together with where it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sourced {
    /// The number; its unit is in the name of the field that holds it.
    pub value: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Sourced {
    /// Builds a sourced number.
    #[must_use]
    pub const fn new(value: f64, document: &'static str, locator: &'static str, seen: Seen) -> Self {
        Self {
            value,
            source: Source::new(document, locator, seen),
        }
    }
}
