//! From text to one number and one unit's name: decimals, fractions, feet with inches.

/// What a text says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Quantity {
    pub(super) value: f64,
    pub(super) unit: String,
}

/// Why it says nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unscanned {
    NoNumber,
    NoUnit,
    Thousands,
    FeetAndInches,
    Rest,
}

impl Unscanned {
    /// In words, after the text itself.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::NoNumber => "is not a number with its unit",
            Self::NoUnit => "has no unit",
            Self::Thousands => "has a comma that may part thousands or decimals: leave it out",
            Self::FeetAndInches => "is not whole feet with less than 12 inches",
            Self::Rest => "goes on after its unit",
        }
    }
}

/// Feet in inches.
const FOOT_IN: f64 = 12.0;

/// Reads a quantity; feet with inches come out in inches.
pub(super) fn quantity(text: &str) -> Result<Quantity, Unscanned> {
    let plain = plain(text);
    let mut rest = plain.trim();
    let negative = rest.starts_with('-');
    rest = rest.strip_prefix(['-', '+']).unwrap_or(rest);
    let mut value = number(&mut rest)?;
    let mut unit = unit(&mut rest)?;
    rest = rest.trim_start();
    if !rest.is_empty() {
        if !matches!(unit.as_str(), "ft" | "foot" | "feet" | "'") {
            return Err(Unscanned::Rest);
        }
        // `3'-6"` is written on drawings: the dash parts, it takes nothing away.
        rest = rest.strip_prefix(['-', ',']).unwrap_or(rest);
        let inches = number(&mut rest)?;
        let second = self::unit(&mut rest)?;
        if !matches!(second.as_str(), "in" | "inch" | "inches" | "\"") || !rest.trim().is_empty() {
            return Err(Unscanned::Rest);
        }
        if value.fract() > 0.0 || inches >= FOOT_IN {
            return Err(Unscanned::FeetAndInches);
        }
        value = value * FOOT_IN + inches;
        unit = "in".to_owned();
    }
    Ok(Quantity {
        value: if negative { -value } else { value },
        unit,
    })
}

/// The text in lower case with one sign for each meaning.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    for sign in text.chars() {
        match sign {
            '′' | '’' | '‘' => out.push('\''),
            '″' | '”' | '“' => out.push('"'),
            '−' | '–' => out.push('-'),
            '²' => out.push('2'),
            '³' => out.push('3'),
            '^' => {}
            '⁄' => out.push('/'),
            '½' => out.push_str(" 1/2"),
            '¼' => out.push_str(" 1/4"),
            '¾' => out.push_str(" 3/4"),
            '⅛' => out.push_str(" 1/8"),
            '⅜' => out.push_str(" 3/8"),
            '⅝' => out.push_str(" 5/8"),
            '⅞' => out.push_str(" 7/8"),
            sign if sign.is_whitespace() => out.push(' '),
            sign => out.extend(sign.to_lowercase()),
        }
    }
    out.replace("''", "\"")
        .replace(" per ", "/")
        .replace(" /", "/")
        .replace("/ ", "/")
        .replace("sq. ft", "ft2")
        .replace("sq ft", "ft2")
        .replace("square foot", "ft2")
        .replace("cu. ft", "ft3")
        .replace("cu ft", "ft3")
        .replace("cubic foot", "ft3")
}

/// Digits at the start of a text, and what follows.
fn digits(text: &str) -> Option<(&str, &str)> {
    let end = text.find(|sign: char| !sign.is_ascii_digit()).unwrap_or(text.len());
    (end > 0).then(|| text.split_at(end))
}

/// `1/2` at the start of a text: a proper share where it follows a whole number.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let (over, rest) = digits(text)?;
    let (under, rest) = digits(rest.strip_prefix('/')?)?;
    let (over, under): (f64, f64) = (over.parse().ok()?, under.parse().ok()?);
    (under > 0.0).then(|| (over / under, rest))
}

/// A decimal number, a fraction, or a whole number with a fraction.
fn number(rest: &mut &str) -> Result<f64, Unscanned> {
    let text = rest.trim_start();
    if let Some((share, after)) = fraction(text) {
        *rest = after;
        return Ok(share);
    }
    let end = text
        .find(|sign: char| !(sign.is_ascii_digit() || sign == '.' || sign == ','))
        .unwrap_or(text.len());
    let (word, after) = text.split_at(end);
    let decimal = match word.split_once([',']) {
        None => word.to_owned(),
        // `2,000` may be two thousand or two: nobody can say which.
        Some((before, behind))
            if (behind.len() == 3 && before != "0") || behind.contains([',', '.']) || before.contains('.') =>
        {
            return Err(Unscanned::Thousands);
        }
        Some((before, behind)) => format!("{before}.{behind}"),
    };
    let value: f64 = decimal.parse().map_err(|_| Unscanned::NoNumber)?;
    let whole = digits(&decimal).is_some_and(|(_, behind)| behind.is_empty());
    let next = after.trim_start().strip_prefix('-').unwrap_or(after.trim_start());
    if let Some((share, behind)) = fraction(next).filter(|(share, _)| whole && *share < 1.0) {
        *rest = behind;
        return Ok(value + share);
    }
    *rest = after;
    Ok(value)
}

/// The name of a unit.
fn unit(rest: &mut &str) -> Result<String, Unscanned> {
    let text = rest.trim_start();
    let single = text.chars().next().filter(|sign| matches!(sign, '\'' | '"' | '°'));
    if let Some(sign) = single {
        *rest = text.strip_prefix(sign).unwrap_or(text);
        return Ok(sign.to_string());
    }
    let mut name = String::new();
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        let square = matches!(sign, '2' | '3')
            && name.contains('/')
            && !signs.peek().is_some_and(|next| next.is_ascii_alphanumeric());
        if sign.is_alphabetic() || sign == '/' || square {
            name.push(sign);
        } else {
            break;
        }
    }
    if !name.starts_with(char::is_alphabetic) {
        return Err(if text.is_empty() {
            Unscanned::NoUnit
        } else {
            Unscanned::NoNumber
        });
    }
    let after = text.strip_prefix(name.as_str()).unwrap_or_default();
    *rest = after.strip_prefix('.').unwrap_or(after);
    Ok(name)
}
