//! Numbers as people type them: decimal point or comma, with or without a unit.

use calc::Problem;

/// What a key's number is measured in, told by the suffix of its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Metres.
    Metre,
    /// Millimetres.
    Millimetre,
    /// Kilonewtons.
    KiloNewton,
    /// Kilonewtons per metre.
    KiloNewtonPerMetre,
    /// Kilonewtons per square metre.
    KiloNewtonPerSquareMetre,
    /// Kilonewtons per cubic metre.
    KiloNewtonPerCubicMetre,
    /// Newtons per square millimetre.
    NewtonPerSquareMillimetre,
    /// Kilopascals.
    KiloPascal,
    /// Degrees of angle.
    Degree,
    /// Metres per second.
    MetrePerSecond,
    /// A plain count.
    None,
}

/// Suffixes, the longer before the shorter that ends it.
const SUFFIXES: [(&str, Unit); 10] = [
    ("_kn_m3", Unit::KiloNewtonPerCubicMetre),
    ("_kn_m2", Unit::KiloNewtonPerSquareMetre),
    ("_n_mm2", Unit::NewtonPerSquareMillimetre),
    ("_kn_m", Unit::KiloNewtonPerMetre),
    ("_kn", Unit::KiloNewton),
    ("_m_s", Unit::MetrePerSecond),
    ("_kpa", Unit::KiloPascal),
    ("_deg", Unit::Degree),
    ("_mm", Unit::Millimetre),
    ("_m", Unit::Metre),
];

impl Unit {
    /// The unit of the number at a path, from the last key that is no row number.
    #[must_use]
    pub fn of_path(path: &str) -> Self {
        let key = path
            .rsplit('/')
            .find(|part| part.parse::<usize>().is_err())
            .unwrap_or_default();
        SUFFIXES
            .iter()
            .find(|(suffix, _)| key.ends_with(suffix))
            .map_or(Self::None, |(_, unit)| *unit)
    }

    /// Words that may follow the number, and what one of them is in the key's own unit. The first is the unit itself.
    /// A foot is 0.3048 m and an inch 25.4 mm exactly (international yard and pound agreement, 1959); a mile per hour is
    /// 1609.344 m in 3600 s.
    const fn words(self) -> &'static [(&'static str, f64)] {
        match self {
            Self::Metre => &[("m", 1.0), ("mm", 0.001), ("cm", 0.01), ("ft", 0.3048), ("in", 0.0254)],
            Self::Millimetre => &[("mm", 1.0), ("cm", 10.0), ("m", 1000.0), ("in", 25.4), ("ft", 304.8)],
            Self::KiloNewton => &[("kn", 1.0), ("n", 0.001)],
            Self::KiloNewtonPerMetre => &[("kn/m", 1.0)],
            Self::KiloNewtonPerSquareMetre => &[("kn/m²", 1.0), ("kn/m2", 1.0), ("kpa", 1.0)],
            Self::KiloNewtonPerCubicMetre => &[("kn/m³", 1.0), ("kn/m3", 1.0)],
            Self::NewtonPerSquareMillimetre => &[("n/mm²", 1.0), ("n/mm2", 1.0), ("mpa", 1.0)],
            Self::KiloPascal => &[("kpa", 1.0), ("kn/m²", 1.0), ("kn/m2", 1.0)],
            Self::Degree => &[("°", 1.0), ("deg", 1.0)],
            Self::MetrePerSecond => &[("m/s", 1.0), ("km/h", 1.0 / 3.6), ("mph", 1609.344 / 3600.0)],
            Self::None => &[],
        }
    }

    /// Whether a word is the name of the unit itself.
    #[must_use]
    pub fn is_named(self, word: &str) -> bool {
        self.words()
            .first()
            .is_some_and(|(name, _)| name.eq_ignore_ascii_case(word))
    }

    /// What a right entry looks like.
    fn example(self) -> &'static str {
        match self {
            Self::Metre => "metres, as `3.6` or `3600 mm`",
            Self::Millimetre => "millimetres, as `102.5` or `0.1025 m`",
            Self::KiloNewton => "kilonewtons, as `6.5`",
            Self::KiloNewtonPerMetre => "kilonewtons per metre, as `22.5`",
            Self::KiloNewtonPerSquareMetre => "kilonewtons per square metre, as `1.5`",
            Self::KiloNewtonPerCubicMetre => "kilonewtons per cubic metre, as `19`",
            Self::NewtonPerSquareMillimetre => "newtons per square millimetre, as `7.3`",
            Self::KiloPascal => "kilopascals, as `75`",
            Self::Degree => "degrees, as `35`",
            Self::MetrePerSecond => "metres per second, as `22`",
            Self::None => "a plain number, as `3`",
        }
    }
}

/// Reads a number in the path's unit.
///
/// # Errors
///
/// A problem naming the path when the text is no number, its unit is not one that the key can be given in, or a comma
/// could mean thousands as well as a decimal: `3,600` is asked again, because reading it wrongly is a thousandfold slip.
pub fn number(path: &str, text: &str, unit: Unit) -> Result<f64, Problem> {
    let wrong = |what: String| Problem::new(path, what, unit.example());
    let text = text.trim();
    let split = text
        .char_indices()
        .find(|(_, letter)| !(letter.is_ascii_digit() || matches!(letter, '.' | ',' | '+' | '-' | '−')))
        .map_or(text.len(), |(at, _)| at);
    let (digits, word) = text.split_at_checked(split).unwrap_or((text, ""));
    let word = word.trim().to_lowercase();
    let factor = if word.is_empty() {
        1.0
    } else {
        let known = unit.words().iter().find(|(name, _)| *name == word);
        known.map(|(_, factor)| *factor).ok_or_else(|| {
            if digits.is_empty() {
                wrong(format!("`{text}` is not a number"))
            } else {
                wrong(format!("`{word}` is not a unit that fits here"))
            }
        })?
    };
    if thousands_or_decimal(digits) {
        return Err(wrong(format!("`{digits}` can be read in two ways, a thousand apart")));
    }
    let plain = digits.replace('−', "-").replace(',', ".");
    let read = plain.parse::<f64>().ok().filter(|read| read.is_finite());
    let read = read.ok_or_else(|| wrong(format!("`{text}` is not a number")))?;
    Ok(scaled(read, factor))
}

/// One comma with three digits after it and a number other than zero before it.
fn thousands_or_decimal(digits: &str) -> bool {
    digits.split_once(',').is_some_and(|(before, after)| {
        let whole = before.trim_start_matches(['+', '-', '−']);
        (1..=3).contains(&whole.len()) && whole != "0" && after.len() == 3 && !digits.contains('.')
    })
}

/// `3600 mm` must be 3.6 m and not 3.6000000000000001: dividing by a whole number rounds once, multiplying by its
/// inexact inverse would round twice.
fn scaled(read: f64, factor: f64) -> f64 {
    let inverse = (1.0 / factor).round();
    if factor < 1.0 && (factor * inverse - 1.0).abs() < 1e-12 {
        read / inverse
    } else {
        read * factor
    }
}
