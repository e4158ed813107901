//! Words for print: the names that the program uses inside become the words of the trade.

use super::values::text;
use calc::brief::{check_words, sentence};
use chrono::NaiveDate;
use serde_json::Value;

/// Kinds of prop data with the words before their size.
const KINDS: [(&str, &str); 2] = [("tn79", "trade size"), ("en1065", "class")];

/// A computed line with the names of checks and of prop data in it put into words. For lines of the program only: what
/// somebody typed is printed as typed.
pub fn in_words(line: &str) -> String {
    let mut out = String::with_capacity(line.len());
    let mut token = String::new();
    for c in line.chars() {
        if c.is_ascii_alphanumeric() || c == '_' {
            token.push(c);
        } else {
            out.push_str(&worded(&std::mem::take(&mut token)));
            out.push(c);
        }
    }
    out.push_str(&worded(&token));
    out
}

fn worded(token: &str) -> String {
    if let Some((_, words)) = KINDS.iter().find(|(kind, _)| *kind == token) {
        return (*words).to_owned();
    }
    let name = token.contains('_')
        && !token.starts_with('_')
        && token
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_');
    if name { check_words(token) } else { token.to_owned() }
}

/// What a prop is, as the yard would ask for it.
pub fn prop_words(prop: &Value) -> String {
    let (kind, size) = (text(prop, "kind"), text(prop, "size"));
    match KINDS.iter().find(|(known, _)| *known == kind) {
        Some((_, words)) => format!("{words} {size}"),
        None => size,
    }
}

/// Where a check belongs.
pub fn at_words(at: &str) -> String {
    if at == "all" {
        "the whole support".to_owned()
    } else {
        in_words(at)
    }
}

/// Words with a capital and without inner names.
pub fn titled(words: &str) -> String {
    sentence(&in_words(words))
}

/// A group of the order of work.
pub fn group_words(group: &str) -> String {
    match group {
        "papers" => "Papers and people".to_owned(),
        "before" => "On site before the first hole".to_owned(),
        "set_up" => "Setting out".to_owned(),
        "holes" => "Holes, needles, props".to_owned(),
        "cutting" => "Cutting the opening".to_owned(),
        "beam" => "The new beam".to_owned(),
        "taking_out" => "Taking the props out".to_owned(),
        "while_it_stands" => "While it stands on props".to_owned(),
        other => sentence(&other.replace('_', " ")),
    }
}

/// The day of a date or an RFC 3339 time as people read it, on paper and in sentences of the app: `2 March 2026`. What is no
/// date stays as it is.
#[must_use]
pub fn day(at: &str) -> String {
    let date = at.split('T').next().unwrap_or_default();
    date.parse::<NaiveDate>()
        .map_or_else(|_| date.to_owned(), |day| day.format("%-d %B %Y").to_string())
}

/// A drawing of the app with the days that stand alone in it written as on paper; what people called things stays.
#[must_use]
pub fn days_drawn(svg: &str) -> String {
    let part = |part: &str| match part.split_once('<') {
        Some((text, rest)) if text.parse::<NaiveDate>().is_ok() => format!("{}<{rest}", day(text)),
        _ => part.to_owned(),
    };
    svg.split('>').map(part).collect::<Vec<_>>().join(">")
}

/// An RFC 3339 time as people read it: `2 March 2026, 07:40:00 +00:00`.
pub fn when(at: &str) -> String {
    let Some((date, time)) = at.split_once('T') else {
        return day(at);
    };
    let date = day(date);
    match time.rfind(['+', '-']).map(|place| time.split_at(place)) {
        Some((clock, offset)) => format!("{date}, {clock} {offset}"),
        None => format!("{date}, {}", time.replace('Z', " +00:00")),
    }
}

#[cfg(test)]
mod tests {
    use super::{day, days_drawn, in_words, when};

    #[test]
    fn inner_names_become_words_and_nothing_else_changes() {
        assert_eq!(
            in_words("fails at N1: clear_masonry, 0.35 of 0.44 m (tn79 2)."),
            "fails at N1: masonry left between holes, 0.35 of 0.44 m (trade size 2)."
        );
        for same in ["IMG_2031.jpg", "κ 0.71 at N1-in", "_", "", "UB152x89x16 S275, 12 kN/m²"] {
            assert_eq!(in_words(same), same);
        }
    }

    #[test]
    fn days_of_a_drawing_are_written_out_and_names_are_left() {
        let drawn =
            "<svg><title>G 2026-03-02: crack</title><text x=\"1\">2026-03-02</text><text>2026-03-40</text></svg>";
        assert_eq!(
            days_drawn(drawn),
            "<svg><title>G 2026-03-02: crack</title><text x=\"1\">2 March 2026</text><text>2026-03-40</text></svg>"
        );
    }

    #[test]
    fn a_time_is_split_where_people_look() {
        assert_eq!(when("2026-03-02T07:40:00-05:00"), "2 March 2026, 07:40:00 -05:00");
        assert_eq!(when("2026-03-02T07:40:00Z"), "2 March 2026, 07:40:00 +00:00");
        assert_eq!(
            (when("Monday"), day("2026-02-30")),
            ("Monday".to_owned(), "2026-02-30".to_owned())
        );
        assert_eq!(
            [day("2026-11-24"), day("2026-11-24T23:59:00+13:00")],
            ["24 November 2026", "24 November 2026"]
        );
    }
}
