//! The kinds of entries.

use serde::{Serialize, Serializer};

macro_rules! kinds {
    ($($(#[doc = $doc:literal])+ $variant:ident = $text:literal, $title:literal;)+) => {
        /// What an entry records.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Kind {
            $($(#[doc = $doc])+ $variant,)+
        }

        impl Kind {
            /// Every kind, in the order of a job.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The word stored in the record.
            #[must_use]
            pub const fn as_str(self) -> &'static str {
                match self { $(Self::$variant => $text),+ }
            }

            /// The heading shown to people.
            #[must_use]
            pub const fn title(self) -> &'static str {
                match self { $(Self::$variant => $title),+ }
            }

            /// The kind stored as `text`, if it is one known here.
            #[must_use]
            pub fn parse(text: &str) -> Option<Self> {
                match text { $($text => Some(Self::$variant),)+ _ => None }
            }
        }
    };
}

kinds! {
    /// The job was begun: its name, place and country.
    JobBegun = "job_begun", "Job begun";
    /// The wall and what stands above, as described.
    WallDescribed = "wall_described", "Wall described";
    /// A photo was added.
    PhotoTaken = "photo_taken", "Photo added";
    /// A proposal was kept; a later one supersedes it.
    ProposalKept = "proposal_kept", "Proposal kept";
    /// What the engineer answered.
    EngineersAnswer = "engineers_answer", "Engineer’s answer";
    /// A stop in the order of work was passed.
    StopPassed = "stop_passed", "Stop passed";
    /// A permit to load or to take out.
    Permit = "permit", "Permit";
    /// A round of the props was done.
    RoundDone = "round_done", "Round done";
    /// Something was found wrong.
    Finding = "finding", "Finding";
    /// Something found wrong was put right.
    Repair = "repair", "Repair";
    /// Props were let down by small turns, or taken out.
    LetDown = "let_down", "Props let down";
    /// The cracks were looked at after the props were out.
    LookAfter = "look_after", "Looked at afterwards";
    /// The job was closed.
    JobClosed = "job_closed", "Job closed";
    /// A closed job was opened again.
    JobReopened = "job_reopened", "Job opened again";
    /// A note.
    Note = "note", "Note";
    /// A seal was given.
    SealGiven = "seal_given", "Seal given";
    /// A pack was made.
    PackMade = "pack_made", "Pack made";
    /// Entries of another phone were taken in.
    Import = "import", "Import";
}

impl Serialize for Kind {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.as_str())
    }
}
