//! Further published values, one file for each source: each row quotes its source and says where it stands, and a clause
//! function called by name has to meet it.
//!
//! `libraries/` keeps the scripts that computed the rows of reference libraries; they use nothing of this project.

mod bs5628_reprint;
mod bs6399_sheets;
mod bs8004_reprint;
mod burland_scale;
mod calculator_manual;
mod civil_engineering_formulas;
mod concrete_worked_examples;
mod counts;
mod handling_booklet;
mod metku;
mod perspective_tests;
mod pint;
mod porteous_kermani;
mod pycba;
mod pymasonry;
mod span_formulas;
mod steel_beam_sheet;
mod steel_buildings_in_europe;
mod steel_sections;
mod strut_sheet;
mod sympy;
mod wind_sheet_coast;
mod wind_sheet_town;
mod xc_verification;

use crate::call;
use serde_json::Value;
use std::collections::BTreeMap;

/// How a source was seen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Seen {
    /// Read as text, in the work itself or in the reprint that is named.
    Text,
    /// Computed by a reference library with the script in `libraries/`.
    Library,
}

/// How near a value must come.
#[derive(Clone, Copy)]
pub enum Within {
    /// Half a unit of the last digit that the source prints.
    Digits(f64),
    /// A share of the printed value, and why the digits are no measure.
    Share(f64, &'static str),
    /// Not computable here, and why.
    NotRun(&'static str),
}

/// One published value.
pub struct Row {
    /// Where in the source it stands.
    pub place: &'static str,
    /// The words or the cell, at most 25 words.
    pub quote: &'static str,
    /// Arguments of the clause function, `name=value` between semicolons.
    pub args: &'static str,
    /// Which of the function's values, as a JSON pointer; empty for a function that gives one number.
    pub key: &'static str,
    /// The function's value of one printed unit: 100 for an area printed in cm² and computed in mm².
    pub per: f64,
    /// The printed value.
    pub printed: f64,
    /// How near.
    pub within: Within,
}

/// Rows of one topic that call one function.
pub struct Group {
    /// Topic, for the count of topics.
    pub topic: &'static str,
    /// Name of the clause function.
    pub function: &'static str,
    /// The rows.
    pub rows: &'static [Row],
}

/// A publication or a library.
pub struct Source {
    /// Short name, also the file's.
    pub name: &'static str,
    /// Document, edition, or library with its version.
    pub document: &'static str,
    /// How it was seen.
    pub seen: Seen,
    /// The rows by topic.
    pub groups: &'static [Group],
}

/// Builds a row; the unit is the function's own.
pub const fn row(
    place: &'static str,
    quote: &'static str,
    args: &'static str,
    key: &'static str,
    printed: f64,
    within: Within,
) -> Row {
    Row {
        place,
        quote,
        args,
        key,
        per: 1.0,
        printed,
        within,
    }
}

impl Row {
    /// The same row with a printed unit that is `per` of the function's.
    pub const fn printed_per(mut self, per: f64) -> Self {
        self.per = per;
        self
    }

    /// Name by which `disputed.json` knows a row.
    pub fn id(&self, source: &Source) -> String {
        format!("{}: {}: {}", source.name, self.place, self.quote)
    }
}

impl Source {
    /// All rows with their topic and function.
    pub fn rows(&self) -> impl Iterator<Item = (&'static Group, &'static Row)> {
        self.groups.iter().flat_map(|g| g.rows.iter().map(move |row| (g, row)))
    }
}

/// All further sources.
pub const SOURCES: &[Source] = &[
    bs5628_reprint::SOURCE,
    bs6399_sheets::SOURCE,
    bs8004_reprint::SOURCE,
    burland_scale::SOURCE,
    calculator_manual::SOURCE,
    civil_engineering_formulas::SOURCE,
    concrete_worked_examples::SOURCE,
    handling_booklet::SOURCE,
    metku::SOURCE,
    perspective_tests::SOURCE,
    pint::SOURCE,
    porteous_kermani::SOURCE,
    pycba::SOURCE,
    pymasonry::SOURCE,
    span_formulas::SOURCE,
    steel_beam_sheet::SOURCE,
    steel_buildings_in_europe::SOURCE,
    steel_sections::SOURCE,
    strut_sheet::SOURCE,
    sympy::SOURCE,
    wind_sheet_coast::SOURCE,
    wind_sheet_town::SOURCE,
    xc_verification::SOURCE,
];

/// What the clause function gives for a row, in the printed unit; the reason where it gives nothing.
fn computed(function: &str, row: &Row) -> Result<f64, String> {
    let args: Vec<(String, String)> = row
        .args
        .split(';')
        .map(|pair| pair.split_once('=').unwrap())
        .map(|(name, value)| (name.trim().to_owned(), value.trim().to_owned()))
        .collect();
    let (value, values) = call::answer(function, &args)?;
    let at = if row.key.is_empty() {
        Some(&value)
    } else {
        values.pointer(row.key)
    };
    let value = match at {
        Some(Value::Bool(yes)) => f64::from(u8::from(*yes)),
        Some(number) => number.as_f64().ok_or_else(|| format!("{} is no number", row.key))?,
        None => return Err(format!("nothing at {}", row.key)),
    };
    Ok(value / row.per)
}

/// Whether a computed value meets the printed one; none for a row that does not run.
fn meets(row: &Row, value: f64) -> Option<bool> {
    let allowed = match row.within {
        // A hair for binary fractions beside the half unit.
        Within::Digits(half) => half * (1.0 + 1e-6) + 1e-12,
        Within::Share(share, _) => share * row.printed.abs(),
        Within::NotRun(_) => return None,
    };
    Some((value - row.printed).abs() <= allowed)
}

/// Runs a source, prints rows met of total and what did not run, and returns what disagrees.
fn run(source: &Source, disputed: &BTreeMap<String, String>) -> Vec<String> {
    let (mut met, mut total, mut off) = (0_u32, 0_u32, Vec::new());
    for (group, row) in source.rows() {
        total += 1;
        if let Some(reason) = disputed.get(&row.id(source)) {
            println!("DISPUTED {}: {reason}", row.id(source));
            // A dispute over a row that agrees would hide nothing, and is a mistake.
            if computed(group.function, row).is_ok_and(|v| meets(row, v) == Some(true)) {
                off.push(format!("{}: disputed, yet it agrees", row.id(source)));
            }
            continue;
        }
        if let Within::NotRun(why) = row.within {
            println!("NOT RUN {}: {why}", row.id(source));
            continue;
        }
        match computed(group.function, row) {
            Ok(value) if meets(row, value) == Some(true) => met += 1,
            Ok(value) => off.push(format!(
                "{} {}({}): printed {}, computed {value}",
                row.id(source),
                group.function,
                row.args,
                row.printed
            )),
            Err(wrong) => off.push(format!("{} {}({}): {wrong}", row.id(source), group.function, row.args)),
        }
    }
    println!(
        "{}: {met} of {total} rows met ({:?}: {})",
        source.name, source.seen, source.document
    );
    off
}

#[test]
fn further_published_values_are_met() {
    let disputed = crate::disputed();
    let off: Vec<String> = SOURCES.iter().flat_map(|source| run(source, &disputed)).collect();
    assert!(off.is_empty(), "{} off:\n{}", off.len(), off.join("\n"));
}

#[test]
fn a_wrong_row_is_noticed() {
    for within in [Within::Digits(0.0005), Within::Share(0.001, "")] {
        let wrong = row("", "", "zone=3;altitude_m=100", "", 0.501_1, within);
        let value = computed("s_k_uk", &wrong).unwrap();
        assert_eq!(meets(&wrong, value), Some(false));
        let right = row("", "", "zone=3;altitude_m=100", "", 0.5, within);
        assert_eq!(meets(&right, value), Some(true));
    }
    let nothing = row("", "", "zone=3;altitude_m=100", "/no_such", 0.5, Within::Digits(1.0));
    assert!(computed("s_k_uk", &nothing).is_err());
    let refused = row("", "", "zone=-3;altitude_m=100", "", 0.5, Within::Digits(1.0));
    assert!(computed("s_k_uk", &refused).is_err());
}
