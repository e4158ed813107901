//! What a report is made from: plain values, gathered by the caller from the record.

use crate::pieces::Piece;
use serde_json::Value;

/// Everything that `report.pdf` shows.
#[derive(Clone, Debug, Default)]
pub struct ReportModel {
    /// Name of the job.
    pub job_name: String,
    /// Where the house stands.
    pub place: String,
    /// Whether this is the demo: then DEMO stands across every page.
    pub demo: bool,
    /// When the report was made, as local time in words.
    pub made_at: String,
    /// The same instant, milliseconds since 1970 UTC; an archival file must carry its date.
    pub made_utc_ms: i64,
    /// The seal, where one was given.
    pub seal: Option<SealLine>,
    /// The caution that stands on every page.
    pub caution: String,
    /// The whole job in short.
    pub summary: SummaryPart,
    /// The wall as described, one sentence each.
    pub wall: Vec<String>,
    /// The kept proposal in the form of the contract.
    pub proposal: Option<Value>,
    /// Index of the kept option among the proposal's options.
    pub option: usize,
    /// Sketches, in the order shown.
    pub sketches: Vec<Sketch>,
    /// Rounds, oldest first.
    pub rounds: Vec<RoundPart>,
    /// Days without a round while the wall was held, as dates.
    pub missing_days: Vec<String>,
    /// Stops of the order of work, papers first, each with who said yes.
    pub stops: Vec<StopPart>,
    /// Permits given, oldest first.
    pub permits: Vec<PermitPart>,
    /// Engineers' answers as they were written down, oldest first.
    pub answers: Vec<String>,
    /// That two proposals stand beside each other, in words.
    pub question: Option<String>,
    /// Findings in the order they were opened.
    pub findings: Vec<FindingPart>,
    /// Curves of the readings.
    pub curves: Vec<CurvePart>,
    /// What the curves say, in words.
    pub curve_words: Vec<String>,
    /// Limits of the curves, each once.
    pub curve_limits: Vec<String>,
    /// Places where a phone's clock was moved, one sentence each.
    pub clock: Vec<String>,
    /// Corrections, oldest first.
    pub corrections: Vec<CorrectionPart>,
    /// Packs taken in, oldest first.
    pub imports: Vec<ImportPart>,
    /// What this pack or this report does not hold, one sentence each.
    pub left_out: Vec<String>,
    /// Entries of the record, oldest first.
    pub entries: Vec<EntryLine>,
    /// Photos, by number.
    pub photos: Vec<PhotoPart>,
}

/// The whole job in short.
#[derive(Clone, Debug, Default)]
pub struct SummaryPart {
    /// Who closed it and how, one sentence each; empty while it is open.
    pub closing: Vec<String>,
    /// Days, rounds, findings, largest use, permits, names, seals and photos, one sentence each.
    pub lines: Vec<String>,
    /// Props: name, lean at the first and the last reading, taken up at both, let down.
    pub props: Vec<[String; 6]>,
    /// Looks after the props were out, one sentence each.
    pub looks: Vec<String>,
    /// What stands against closing it, one sentence each.
    pub against: Vec<String>,
}

/// A stop of the order of work.
#[derive(Clone, Debug, Default)]
pub struct StopPart {
    /// Group of the order it belongs to, as the contract names it; `papers` for papers and people.
    pub group: String,
    /// Number of its step.
    pub step: String,
    /// What it asks.
    pub asks: String,
    /// Who is to say yes.
    pub who: String,
    /// When it is asked.
    pub when: String,
    /// Where the rule comes from and how that was seen.
    pub source: String,
    /// Who said yes and when; empty while it waits.
    pub said: Vec<String>,
    /// Numbers of the photos taken for it.
    pub photos: Vec<u32>,
}

/// A permit.
#[derive(Clone, Debug, Default)]
pub struct PermitPart {
    /// What it permits.
    pub title: String,
    /// Who gave it and when, and whether that person set out.
    pub given: String,
    /// Why it no longer counts; empty while it stands.
    pub lapsed: Vec<String>,
}

/// A finding with what was done about it.
#[derive(Clone, Debug, Default)]
pub struct FindingPart {
    /// What was found, in one sentence.
    pub words: String,
    /// When, by whom.
    pub at: String,
    /// Whether it still stands.
    pub open: bool,
    /// What it waits for, or when it was closed.
    pub state: String,
    /// What it means and what to do.
    pub means: Vec<String>,
    /// Repairs, and later rounds that found the same, one sentence each.
    pub story: Vec<String>,
    /// Numbers of its photos.
    pub photos: Vec<u32>,
}

/// A curve.
#[derive(Clone, Debug, Default)]
pub struct CurvePart {
    /// The drawing with its title.
    pub sketch: Sketch,
    /// What it says in one sentence.
    pub words: String,
    /// Whether it stops the job.
    pub stops: bool,
}

/// A correction.
#[derive(Clone, Debug, Default)]
pub struct CorrectionPart {
    /// When, which entry corrects which.
    pub title: String,
    /// What stood there before, and what stands now: what it is about, old, new.
    pub changes: Vec<[String; 3]>,
}

/// A pack taken in.
#[derive(Clone, Debug, Default)]
pub struct ImportPart {
    /// When.
    pub at: String,
    /// What came in.
    pub words: String,
    /// Entries that were left out, one sentence each.
    pub left_out: Vec<String>,
}

/// A seal as shown to the user.
#[derive(Clone, Debug, Default)]
pub struct SealLine {
    /// The 12 characters.
    pub code: String,
    /// When it was given.
    pub at: String,
}

/// A drawing.
#[derive(Clone, Debug, Default)]
pub struct Sketch {
    /// Its title.
    pub title: String,
    /// SVG text; its `aria-label` becomes the alternative text.
    pub svg: String,
}

/// One round.
#[derive(Clone, Debug, Default)]
pub struct RoundPart {
    /// When, as local time.
    pub at: String,
    /// Why: before work, after wind.
    pub why: String,
    /// The round as entered, in the form of the contract (its `readings`, `gauges`, `job_checks` are shown).
    pub round: Value,
    /// The evaluation, in the form of the contract.
    pub evaluation: Value,
    /// Numbers of the photos taken on it.
    pub photos: Vec<u32>,
}

/// One entry of the record.
#[derive(Clone, Debug, Default)]
pub struct EntryLine {
    /// Position in the record, from 1.
    pub position: u64,
    /// When, as local time with offset.
    pub at: String,
    /// What it is.
    pub title: String,
    /// What it says, in plain words.
    pub words: String,
    /// Hash of the entry, hexadecimal.
    pub hash: String,
}

/// One photo.
#[derive(Clone, Debug, Default)]
pub struct PhotoPart {
    /// Number in the pack, from 1.
    pub number: u32,
    /// File name in the pack.
    pub file: String,
    /// SHA-256 of the file as received, hexadecimal.
    pub sha256: String,
    /// What it shows: the wall, a prop as N1-in, a crack.
    pub about: String,
    /// Group, portrait or detail.
    pub kind: String,
    /// Whether the file is in the pack.
    pub in_pack: bool,
    /// Capture time and other times with their sources, one sentence each.
    pub times: Vec<String>,
    /// Mark, such as "came from elsewhere".
    pub mark: Option<String>,
    /// A JPEG for viewing, passed through as it is; none where it could not be decoded.
    pub view: Option<Piece>,
}

/// Everything that the engineer's brief shows.
#[derive(Clone, Debug, Default)]
pub struct BriefModel {
    /// Name of the job.
    pub job_name: String,
    /// Where the house stands.
    pub place: String,
    /// Whether this is the demo.
    pub demo: bool,
    /// When the brief was made, as local time in words.
    pub made_at: String,
    /// The same instant, milliseconds since 1970 UTC.
    pub made_utc_ms: i64,
    /// The caution that stands on every page.
    pub caution: String,
    /// Title of the brief.
    pub title: String,
    /// Its sections: a heading and the lines under it.
    pub sections: Vec<(String, Vec<String>)>,
    /// Sketches.
    pub sketches: Vec<Sketch>,
    /// Photos.
    pub photos: Vec<PhotoPart>,
}
