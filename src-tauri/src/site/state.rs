//! Where a job stands: findings, permits and open questions, folded from the record alone.

use super::closing::{Closing, closing};
use super::finding::Finding;
use super::findings::{Fold, photos_of};
use super::permits::{PermitState, permits, sentence};
use super::proposals::{self, ProposalsOpen};
use super::seen::folded;
use super::taking_out::{TakingOut, taking_out};
use crate::failure::Answer;
use crate::record::{Entry, Hash, Kind, Store};
use crate::report;
use serde::Serialize;
use std::collections::BTreeSet;

/// Where a job stands.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SiteState {
    /// Every finding in the order they were opened, closed ones too.
    pub findings: Vec<Finding>,
    /// Number of findings that are open.
    pub open: usize,
    /// Whether work stops: a finding that stops is open.
    pub stop: bool,
    /// Whether the engineer is rung.
    pub ring: bool,
    /// Whether everybody gets out.
    pub out: bool,
    /// Every permit, and whether it stands.
    pub permits: Vec<PermitState>,
    /// Proposals that stand beside each other.
    pub proposals_open: Option<ProposalsOpen>,
    /// What keeps a permit from being given, one sentence each; stops and rounds that are missing are not among them.
    pub bars: Vec<String>,
    /// Everybody whose name stands under an entry, each once, in the order of the record.
    pub names: Vec<String>,
    /// How far the props are out.
    pub taking_out: TakingOut,
    /// Who closed the job, where it is closed.
    pub closing: Option<Closing>,
}

impl SiteState {
    /// The findings that are open.
    pub fn open_findings(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| finding.open)
    }
}

/// Folds entries, in any order, into where the job stands. The same entries give the same state on every phone.
#[must_use]
pub fn fold(entries: Vec<Entry>) -> SiteState {
    let entries = folded(entries);
    let found = Fold::of(&entries).findings();
    let permits = permits(&entries, &found);
    let taking_out = taking_out(&entries, &permits);
    let closing = closing(&entries, &found);
    let findings: Vec<Finding> = found.into_iter().map(|found| found.finding).collect();
    let proposals_open = proposals::open(&entries);
    let open = || findings.iter().filter(|finding| finding.open);
    let mut bars: Vec<String> = open()
        .map(|finding| format!("Open since {}: {}", report::day(&finding.at), sentence(&finding.words)))
        .collect();
    bars.extend(proposals_open.as_ref().map(|question| question.words.clone()));
    SiteState {
        open: open().count(),
        stop: open().any(|finding| finding.stops),
        ring: open().any(|finding| finding.ring),
        // What is written down after everybody was told to get out says the same.
        out: open().any(|finding| matches!(finding.code.as_str(), "out" | "moves")),
        permits,
        proposals_open,
        bars,
        names: names(&entries),
        taking_out,
        closing,
        findings,
    }
}

/// Names under entries, each once.
fn names(entries: &[Entry]) -> Vec<String> {
    let mut known = BTreeSet::new();
    let signed = entries.iter().filter_map(super::signed_by);
    signed.filter(|name| known.insert(*name)).map(str::to_owned).collect()
}

/// Whether the state follows from entries of this kind; of photos only from those that repairs name.
pub(super) fn follows(kind: Kind) -> bool {
    kind == Kind::PhotoTaken || KINDS.contains(&kind)
}

/// The kinds of entries that the state follows from, beside the photos that repairs name.
const KINDS: [Kind; 10] = [
    Kind::ProposalKept,
    Kind::RoundDone,
    Kind::Finding,
    Kind::Repair,
    Kind::Permit,
    Kind::StopPassed,
    Kind::LetDown,
    Kind::LookAfter,
    Kind::JobClosed,
    Kind::JobReopened,
];

/// Where the job stands.
///
/// # Errors
///
/// What the record said.
pub fn state(store: &Store) -> Answer<SiteState> {
    let mut entries = Vec::new();
    for kind in KINDS {
        entries.extend(store.of_kind(kind)?);
    }
    let repairs = entries.iter().filter(|entry| entry.kind == Kind::Repair);
    let named: BTreeSet<Hash> = repairs.flat_map(photos_of).filter_map(|sha| sha.parse().ok()).collect();
    for sha in named {
        entries.extend(store.adding_photo(sha)?);
    }
    Ok(fold(entries))
}
