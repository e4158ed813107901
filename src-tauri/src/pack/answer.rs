//! What the check of a pack answers.

use std::fmt;

use serde::Serialize;

/// The three answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Every byte is as written.
    Intact,
    /// Everything in it is as written, but the container around it was written anew.
    ContentsIntact,
    /// Something in it is not as written.
    Changed,
}

impl Verdict {
    /// Exit code of a program that answers this.
    #[must_use]
    pub const fn exit_code(self) -> u8 {
        match self {
            Self::Intact => 0,
            Self::ContentsIntact => 3,
            Self::Changed => 1,
        }
    }
}

/// Which form a seal was given in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SealForm {
    /// Twelve characters: 55 bits and a check character.
    Short,
    /// All 256 bits.
    Full,
}

/// The answer with its reasons.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Answer {
    /// Which of the three.
    pub verdict: Verdict,
    /// Where it was changed, in words; empty unless changed.
    pub places: Vec<String>,
    /// What else is worth knowing.
    pub notes: Vec<String>,
    /// The form of the seal that fits; `None` if none was given or it does not fit.
    pub seal: Option<SealForm>,
}

impl fmt::Display for Answer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.verdict {
            Verdict::Intact => "Intact: every byte is as it was written.",
            Verdict::ContentsIntact => {
                "Contents intact: every file is as it was written; the container around them was written anew."
            }
            Verdict::Changed => "Changed:",
        })?;
        for place in &self.places {
            write!(f, "\n- {place}")?;
        }
        let bits = match self.seal {
            Some(SealForm::Short) => "twelve characters, 55 bits",
            Some(SealForm::Full) => "all 256 bits",
            None => "",
        };
        match (self.seal, self.verdict) {
            (None, _) => {}
            (Some(_), Verdict::Changed) => write!(f, "\nThe pack holds the seal ({bits}), but see above.")?,
            (Some(_), _) => write!(f, "\nThe seal fits ({bits}): nothing before this seal was changed.")?,
        }
        for note in &self.notes {
            write!(f, "\nNote: {note}")?;
        }
        Ok(())
    }
}
