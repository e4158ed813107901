//! Reading arguments given as text.

use crate::clause::{Annex, NationalParameters};
use crate::source::Source;
use crate::tables::steel::{SteelGrade, SteelSection};
use crate::tables::{Member, parse_member};
use crate::units::{self, Unit};
use serde::Serialize;
use serde_json::Value;
use std::fmt;

/// One argument of a clause function.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Arg {
    /// Name with its unit as suffix.
    pub name: &'static str,
    /// Unit; `word` for a word, `list of …` for several.
    pub unit: &'static str,
    /// A value that works.
    pub example: &'static str,
    /// Whether it may be left out, in which case the example is taken.
    pub optional: bool,
}

/// An argument that must be given.
pub(super) const fn arg(name: &'static str, unit: &'static str, example: &'static str) -> Arg {
    Arg {
        name,
        unit,
        example,
        optional: false,
    }
}

/// An argument that may be left out.
pub(super) const fn opt(name: &'static str, unit: &'static str, example: &'static str) -> Arg {
    Arg {
        name,
        unit,
        example,
        optional: true,
    }
}

/// Whose nationally determined values are taken.
pub(super) const ANNEX: Arg = opt("annex", "uk or recommended", "uk");

/// What is wrong with an argument.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ArgError {
    /// The argument, or `name` where the function itself is unknown.
    pub arg: String,
    /// What is wrong.
    pub wrong: String,
    /// What would be right.
    pub right: String,
}

impl ArgError {
    /// Builds an error from its three parts.
    pub fn new(arg: impl Into<String>, wrong: impl Into<String>, right: impl Into<String>) -> Self {
        Self {
            arg: arg.into(),
            wrong: wrong.into(),
            right: right.into(),
        }
    }
}

impl fmt::Display for ArgError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}; right would be {}", self.arg, self.wrong, self.right)
    }
}

impl std::error::Error for ArgError {}

/// What a clause function gives.
pub struct Outcome {
    /// The value named by the function's symbol, or a record where it gives several.
    pub value: Value,
    /// All intermediate values.
    pub values: Value,
    /// Derivation.
    pub steps: Vec<String>,
}

impl Outcome {
    /// One number with its record and derivation.
    pub(super) fn number(value: f64, record: impl Serialize, steps: Vec<String>) -> Self {
        Self {
            value: Value::from(value),
            values: to_value(record),
            steps,
        }
    }

    /// A record.
    pub(super) fn record(record: impl Serialize, steps: Vec<String>) -> Self {
        let values = to_value(record);
        Self {
            value: values.clone(),
            values,
            steps,
        }
    }

    /// One number alone.
    pub(super) fn plain(value: f64, step: String) -> Self {
        Self {
            value: Value::from(value),
            values: Value::from(value),
            steps: vec![step],
        }
    }
}

/// Records here hold numbers, words and lists only, which JSON always can; null would be caught as no answer.
fn to_value(record: impl Serialize) -> Value {
    serde_json::to_value(record).unwrap_or(Value::Null)
}

/// A clause function with its arguments.
pub struct Entry {
    /// Name.
    pub name: &'static str,
    /// Source.
    pub source: Source,
    /// Arguments.
    pub args: &'static [Arg],
    /// Symbol of the result.
    pub symbol: &'static str,
    /// Unit of the result; `record` where it gives several.
    pub unit: &'static str,
    /// The function.
    pub(super) run: fn(&Reader<'_>) -> Result<Outcome, ArgError>,
}

/// The answer of a clause function.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Evaluation {
    /// The value, or a record of values.
    pub value: Value,
    /// Unit.
    pub unit: &'static str,
    /// Derivation.
    pub steps: Vec<String>,
    /// All intermediate values.
    pub values: Value,
}

/// Arguments of one call.
pub struct Reader<'a> {
    entry: &'a Entry,
    given: &'a [(String, String)],
}

impl<'a> Reader<'a> {
    /// Checks that every argument given is known and given once.
    pub(super) fn new(entry: &'a Entry, given: &'a [(String, String)]) -> Result<Self, ArgError> {
        let reader = Self { entry, given };
        for (i, (name, _)) in given.iter().enumerate() {
            if !entry.args.iter().any(|a| a.name == name) {
                return Err(ArgError::new(
                    name,
                    format!("{} has no argument of that name", entry.name),
                    reader.example_line(),
                ));
            }
            if given.iter().take(i).any(|(earlier, _)| earlier == name) {
                return Err(ArgError::new(name, "it is given twice", "each argument once"));
            }
        }
        Ok(reader)
    }

    /// All arguments with their examples.
    pub(super) fn example_line(&self) -> String {
        let examples: Vec<String> = self
            .entry
            .args
            .iter()
            .map(|a| format!("{}={}", a.name, a.example))
            .collect();
        examples.join(" ")
    }

    fn known(&self, name: &str) -> Arg {
        // The functions only ask for arguments of their own entry; the test over all examples keeps it so.
        self.entry
            .args
            .iter()
            .copied()
            .find(|a| a.name == name)
            .unwrap_or(arg("name", "", ""))
    }

    fn wrong(&self, name: &str, wrong: String) -> ArgError {
        let known = self.known(name);
        ArgError::new(name, wrong, format!("{} as {}={}", known.unit, name, known.example))
    }

    /// An error about an argument, with what would be right.
    pub(super) fn refuse(&self, name: &str, wrong: impl fmt::Display) -> ArgError {
        self.wrong(name, wrong.to_string())
    }

    /// The text of an argument.
    pub(super) fn text(&self, name: &str) -> Result<&'a str, ArgError> {
        if let Some((_, text)) = self.given.iter().find(|(given, _)| given == name) {
            return Ok(text.trim());
        }
        let known = self.known(name);
        if known.optional {
            Ok(known.example)
        } else {
            Err(self.wrong(name, "it is missing".to_owned()))
        }
    }

    fn parse(&self, name: &str, text: &str) -> Result<f64, ArgError> {
        let fits = |n: &f64| n.is_finite() && n.abs() < 1e15;
        if let Some(number) = text.trim().parse::<f64>().ok().filter(fits) {
            return Ok(number);
        }
        // Text with a unit is asked of only where it looks like one: a bare word stays a number that cannot be read.
        let with_unit = text.contains(|sign: char| sign.is_ascii_digit()) && text.trim().parse::<f64>().is_err();
        match self.unit_of(name).filter(|_| with_unit) {
            Some(unit) => units::read(text, unit).map_err(|error| ArgError::new(name, error.wrong, error.right)),
            None => Err(self.wrong(name, format!("“{text}” is not a finite number"))),
        }
    }

    /// The unit of an argument: its suffix and its own words must say the same, for `m_kn_m` is a moment.
    fn unit_of(&self, name: &str) -> Option<Unit> {
        let said = self.known(name).unit;
        Unit::of_key(name).filter(|unit| said.split([' ', ',']).any(|word| word == unit.symbol()))
    }

    /// A finite number.
    pub(super) fn num(&self, name: &str) -> Result<f64, ArgError> {
        self.parse(name, self.text(name)?)
    }

    /// A number at or above 0.
    pub(super) fn non_negative(&self, name: &str) -> Result<f64, ArgError> {
        let value = self.num(name)?;
        if value < 0.0 {
            Err(self.wrong(name, format!("{value} is below 0")))
        } else {
            Ok(value)
        }
    }

    /// A number above 0.
    pub(super) fn positive(&self, name: &str) -> Result<f64, ArgError> {
        let value = self.num(name)?;
        if value > 0.0 {
            Ok(value)
        } else {
            Err(self.wrong(name, format!("{value} is not above 0")))
        }
    }

    /// A number above 0, or infinite by the words `inf` and `rigid`.
    pub(super) fn positive_or_infinite(&self, name: &str) -> Result<f64, ArgError> {
        if matches!(self.text(name)?, "inf" | "rigid") {
            Ok(f64::INFINITY)
        } else {
            self.positive(name)
        }
    }

    /// Finite numbers between commas; an empty text is an empty list.
    pub(super) fn list(&self, name: &str) -> Result<Vec<f64>, ArgError> {
        let text = self.text(name)?;
        if text.is_empty() {
            return Ok(Vec::new());
        }
        text.split(',').map(|part| self.parse(name, part)).collect()
    }

    /// A list of a given length.
    pub(super) fn list_of<const N: usize>(&self, name: &str) -> Result<[f64; N], ArgError> {
        let list = self.list(name)?;
        let count = list.len();
        <[f64; N]>::try_from(list).map_err(|_| self.wrong(name, format!("{count} numbers are given, {N} are needed")))
    }

    /// A list of numbers above 0 of a given length.
    pub(super) fn positive_of<const N: usize>(&self, name: &str) -> Result<[f64; N], ArgError> {
        let list = self.list_of::<N>(name)?;
        if list.iter().all(|n| *n > 0.0) {
            Ok(list)
        } else {
            Err(self.wrong(name, "a number is not above 0".to_owned()))
        }
    }

    /// `true` or `false`.
    pub(super) fn flag(&self, name: &str) -> Result<bool, ArgError> {
        match self.text(name)? {
            "true" => Ok(true),
            "false" => Ok(false),
            other => Err(self.wrong(name, format!("“{other}” is neither true nor false"))),
        }
    }

    /// One of several words.
    pub(super) fn choice<T: Copy>(&self, name: &str, choices: &[(&str, T)]) -> Result<T, ArgError> {
        let text = self.text(name)?;
        choices
            .iter()
            .find(|(word, _)| *word == text)
            .map(|(_, value)| *value)
            .ok_or_else(|| {
                let words: Vec<&str> = choices.iter().map(|(word, _)| *word).collect();
                ArgError::new(
                    name,
                    format!("“{text}” is none of the words"),
                    format!("one of {}", words.join(", ")),
                )
            })
    }

    /// The nationally determined parameters asked for by [`ANNEX`].
    pub(super) fn national(&self) -> Result<NationalParameters, ArgError> {
        let annex = self.choice("annex", &[("uk", Annex::Uk), ("recommended", Annex::Recommended)])?;
        Ok(annex.parameters())
    }

    /// A steel section with its grade.
    pub(super) fn steel(&self, name: &str) -> Result<(SteelSection, SteelGrade), ArgError> {
        let text = self.text(name)?;
        match parse_member(text) {
            Ok(named) => match named.member {
                Member::Steel(section, grade) => Ok((section, grade)),
                Member::Timber { .. } => Err(self.wrong(name, format!("“{text}” is timber"))),
            },
            Err(error) => Err(ArgError::new(name, error.wrong, error.right)),
        }
    }
}
