//! What a round holds and what it says; keys as in the contract.

use crate::proposal::Reason;
use serde::{Deserialize, Serialize};

/// One prop's reading.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Reading {
    pub prop: String,
    pub pin: String,
    pub collar_turns: f64,
    pub thread_mm: f64,
    pub lean_mm: [f64; 2],
    pub over_m: f64,
    pub head_off_mm: f64,
    pub foot_off_mm: f64,
    pub foot_firm: bool,
    pub straight: bool,
    pub fixed: bool,
    pub packed: bool,
}

/// A crack gauge.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Gauge {
    pub name: String,
    pub mm: f64,
    #[serde(default)]
    pub first_mm: Option<f64>,
    #[serde(default)]
    pub last_mm: Option<f64>,
}

/// Checks of the whole job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct JobChecks {
    pub braces: bool,
    pub doors_stick: bool,
    pub load_on_floors: bool,
    pub digging: bool,
    pub wind_m_s: Option<f64>,
}

#[derive(Clone, Debug, Deserialize)]
pub(super) struct Entered {
    pub(super) readings: Vec<Reading>,
    pub(super) gauges: Vec<Gauge>,
    pub(super) job_checks: JobChecks,
}

/// A prop of the option that stands, as the round needs it.
#[derive(Clone, Debug, Deserialize)]
pub(super) struct Standing {
    pub(super) name: String,
    /// Its needle, or the floor's line; none under a bracket.
    #[serde(default)]
    pub(super) needle: String,
    pub(super) kind: String,
    pub(super) size: String,
    pub(super) length_m: f64,
    pub(super) load_kn: f64,
    /// A bracket's arm, mm, and its maker's rated load, kN; none under a needle.
    pub(super) arm_mm: Option<f64>,
    pub(super) rated_kn: Option<f64>,
}

/// One prop today.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct PropToday {
    pub name: String,
    pub kappa: f64,
    pub working_load_kn: f64,
    pub load_kn: f64,
    pub utilisation: f64,
    pub in_basis: bool,
    pub take_up_mm: f64,
    #[serde(rename = "do")]
    pub to_do: Vec<String>,
}

/// Sideways force today.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct SidewaysToday {
    pub demand_kn: f64,
    pub resistance_kn: f64,
    pub utilisation: f64,
}

/// A gauge today.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct GaugeToday {
    pub name: String,
    pub since_start_mm: f64,
    pub since_last_mm: f64,
}

/// What a round says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Evaluation {
    pub passed: bool,
    pub stop: bool,
    pub ring: bool,
    pub out: bool,
    pub props: Vec<PropToday>,
    pub sideways: SidewaysToday,
    pub gauges: Vec<GaugeToday>,
    pub reasons: Vec<Reason>,
}
