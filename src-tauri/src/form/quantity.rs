//! Numbers as people type them: decimal point or comma, with or without a unit.
//!
//! A bare number is in the field's own unit. Text with a unit goes to `calc::units`, the only place that knows units.

use calc::Problem;
use calc::job::schema::Kind;
use calc::units::{self, Unit};

/// The unit in which the schema keeps a number; for a list or a tuple that of its first number.
pub(super) fn unit_of(kind: Kind) -> Option<Unit> {
    match kind {
        Kind::Number(_, _, symbol) => Unit::of_symbol(symbol),
        Kind::List(each, _) => unit_of(*each),
        Kind::Tuple(kinds) => kinds.first().copied().and_then(unit_of),
        _ => None,
    }
}

/// Reads one number, in `unit` where the text names none.
///
/// # Errors
///
/// A problem naming the path when the text is no number, its unit is not one that the key can be given in, or a comma
/// could mean thousands as well as a decimal: `3,600` is asked again, because reading it wrongly is a thousandfold slip.
pub fn number(path: &str, text: &str, unit: Option<Unit>) -> Result<f64, Problem> {
    let text = text.trim();
    let right = || {
        unit.map_or("a plain number, as 3 or 2.5".to_owned(), |unit| {
            unit.examples().to_owned()
        })
    };
    if !is_bare(text) {
        return match unit {
            Some(unit) => units::read(text, unit).map_err(|unread| Problem::new(path, unread.wrong, unread.right)),
            None => Err(Problem::new(
                path,
                format!("“{}” is not a number", short(text)),
                right(),
            )),
        };
    }
    if thousands_or_decimal(text) {
        let wrong = format!("“{}” can be read in two ways, a thousand apart", short(text));
        return Err(Problem::new(path, wrong, right()));
    }
    let plain = text.replace('−', "-").replace(',', ".");
    let read = plain.parse::<f64>().ok().filter(|read| read.is_finite());
    read.ok_or_else(|| Problem::new(path, format!("“{}” is not a number", short(text)), right()))
}

/// Several numbers in one text: `0.45; 1.35 2.25`, `100 × 50`, `1' 6"; 4' 5"`.
///
/// In `4 × 2 in` and `18 54 90 in` the unit at the end is said of all. Between semicolons each number stands for itself, so
/// there some with a unit and some without are asked again: nobody can say what the bare ones are in.
///
/// # Errors
///
/// As [`number`], and the mixture named above.
pub(super) fn numbers(path: &str, text: &str, unit: Option<Unit>) -> Result<Vec<f64>, Problem> {
    let apart = |sign: char| matches!(sign, ';' | '\n' | '×' | 'x');
    let shared = !text.contains([';', '\n']);
    let mut parts: Vec<String> = text.split(apart).flat_map(in_a_row).collect();
    let (bare, named): (Vec<&String>, Vec<&String>) = parts.iter().partition(|part| is_bare(part));
    if !bare.is_empty()
        && let Some(name) = named.first().map(|part| unit_name(part).to_owned())
    {
        let own = unit.is_some_and(|unit| name.eq_ignore_ascii_case(unit.symbol()));
        let last = parts.last().is_some_and(|part| !is_bare(part));
        if named.len() > 1 || !(own || shared && last) {
            let wrong = format!("“{}” has some numbers with a unit and some without", short(text));
            return Err(Problem::new(path, wrong, "a unit on each of them, or on none"));
        }
        for part in parts.iter_mut().filter(|part| is_bare(part)) {
            part.push_str(&format!(" {name}"));
        }
    }
    parts.iter().map(|part| number(path, part, unit)).collect()
}

/// One quantity, or several bare numbers beside each other with perhaps a unit after the last.
fn in_a_row(part: &str) -> Vec<String> {
    let tokens: Vec<&str> = part
        .split_whitespace()
        .map(|token| token.trim_end_matches(','))
        .filter(|token| !token.is_empty())
        .collect();
    let bare = tokens.iter().take_while(|token| is_bare(token)).count();
    let rest = tokens.get(bare..).unwrap_or_default();
    let unit_alone = matches!(rest, [name] if name.starts_with(|sign: char| !sign.is_ascii_digit()));
    if bare >= 2 && (rest.is_empty() || unit_alone) {
        let mut row: Vec<String> = tokens.iter().take(bare).map(|token| (*token).to_owned()).collect();
        if let (Some(last), Some(name)) = (row.last_mut(), rest.first()) {
            last.push_str(&format!(" {name}"));
        }
        return row;
    }
    Some(tokens.join(" "))
        .filter(|text| !text.is_empty())
        .into_iter()
        .collect()
}

/// What stands behind the digits at the start of a text.
fn unit_name(text: &str) -> &str {
    text.trim_start_matches(|sign: char| sign.is_ascii_digit() || ".,+-− /".contains(sign))
}

/// Digits, points, commas and signs only.
fn is_bare(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|sign| sign.is_ascii_digit() || ".,+-−".contains(sign))
}

/// One comma with three digits after it and a number other than zero before it.
fn thousands_or_decimal(digits: &str) -> bool {
    digits.split_once(',').is_some_and(|(before, after)| {
        let whole = before.trim_start_matches(['+', '-', '−']);
        (1..=3).contains(&whole.len()) && whole != "0" && after.len() == 3 && !digits.contains('.')
    })
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}
