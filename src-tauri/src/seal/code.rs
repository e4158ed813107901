//! The two forms of a seal: twelve characters for people, all 256 bits for the square code.

use crate::record::Hash;

use super::SealError;

/// 32 characters; I, L, O and U are left out and read as 1, 1, 0 and V.
const ALPHABET: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// Stands before the 64 hex digits in the square code; only characters of its compact mode.
const PREFIX: &str = "UPSTAY:SEAL:1:";

/// A seal as somebody typed or scanned it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SealCode {
    /// Twelve characters in groups of four: 55 bits and a check character.
    Short(String),
    /// All 256 bits.
    Full(Hash),
}

impl SealCode {
    /// Whether this seal was made of `hash`.
    #[must_use]
    pub fn fits(&self, hash: Hash) -> bool {
        match self {
            Self::Short(code) => *code == short_code(hash),
            Self::Full(full) => *full == hash,
        }
    }
}

/// The twelve characters of a seal: the first 55 bits of its hash, five at a time, and a check character.
#[must_use]
pub fn short_code(hash: Hash) -> String {
    let first = hash
        .bytes()
        .iter()
        .take(8)
        .fold(0_u64, |bits, byte| (bits << 8) | u64::from(*byte));
    let mut values: Vec<u8> = (0..11)
        .map(|place| u8::try_from((first >> (59 - 5 * place)) & 31).unwrap_or_default())
        .collect();
    values.push(check_value(&values));
    grouped(&values)
}

/// What the square code holds.
pub(super) fn full_text(hash: Hash) -> String {
    format!("{PREFIX}{}", hash.to_string().to_uppercase())
}

/// Reads a seal in either form. Case, spaces and dashes do not matter, and look-alikes are read as what was meant.
///
/// # Errors
///
/// [`SealError::Code`] if it is neither form; a slip of one character or two neighbours swapped is always noticed.
pub fn parse(text: &str) -> Result<SealCode, SealError> {
    let wrong = |what: &str| SealError::Code { what: what.to_owned() };
    let tidy: String = text
        .chars()
        .filter(|letter| !letter.is_whitespace())
        .collect::<String>()
        .to_uppercase();
    let digits = tidy.strip_prefix(PREFIX).unwrap_or(&tidy);
    if digits.len() == 64
        && let Ok(hash) = digits.parse()
    {
        return Ok(SealCode::Full(hash));
    }
    let dashes = ['-', '\u{2010}', '\u{2011}', '\u{2012}', '\u{2013}', '\u{2014}'];
    let mut values = Vec::new();
    for letter in tidy.chars().filter(|letter| !dashes.contains(letter)) {
        let meant = match letter {
            'O' => '0',
            'I' | 'L' => '1',
            'U' => 'V',
            other => other,
        };
        let value = ALPHABET.iter().position(|known| char::from(*known) == meant);
        values.push(value.and_then(|value| u8::try_from(value).ok()).ok_or_else(|| {
            wrong(&format!(
                "{letter} does not occur in a seal. It has digits and letters in three groups of four."
            ))
        })?);
    }
    match values.split_last() {
        Some((check, rest)) if rest.len() == 11 => {
            if *check == check_value(rest) {
                Ok(SealCode::Short(grouped(&values)))
            } else {
                Err(wrong(
                    "a character is wrong, its check character does not fit. Compare it again, sign by sign.",
                ))
            }
        }
        _ => Err(wrong(&format!(
            "it has {} characters. A seal has twelve, in three groups of four.",
            values.len()
        ))),
    }
}

/// Sum of the values weighted by rising powers of 2 in the field of 32 elements (own construction): the weights all
/// differ, so that one wrong value and two swapped ones both change it.
fn check_value(values: &[u8]) -> u8 {
    // Horner's rule; the last value has weight 2 and the check character itself would have weight 1.
    values.iter().fold(0, |sum, value| doubled(sum ^ value))
}

/// Times 2 modulo x⁵ + x² + 1, under which 2 runs through all 31 non-zero elements.
const fn doubled(value: u8) -> u8 {
    let shifted = value << 1;
    if shifted & 32 == 0 {
        shifted
    } else {
        shifted ^ 0b10_0101
    }
}

fn grouped(values: &[u8]) -> String {
    let mut text = String::new();
    for (place, value) in values.iter().enumerate() {
        if place > 0 && place % 4 == 0 {
            text.push('-');
        }
        text.push(
            ALPHABET
                .get(usize::from(*value))
                .map_or('?', |letter| char::from(*letter)),
        );
    }
    text
}
