//! Numbers and lists in plain words.

use crate::proposal::Prop;
use crate::tables::members::{Member, parse_member};

/// A length in m: to the millimetre, with at least two decimals.
pub fn m(length_m: f64) -> String {
    let text = format!("{length_m:.3}");
    let text = text.strip_suffix('0').unwrap_or(&text);
    if text.starts_with("-0.00") && text.trim_matches(['-', '0', '.']).is_empty() {
        "0.00".to_owned()
    } else {
        text.to_owned()
    }
}

/// A load in kN with what it weighs, kg rounded up to ten.
pub fn kn(load_kn: f64) -> String {
    let kg = (load_kn * 1000.0 / 9.81 / 10.0).ceil() * 10.0;
    format!("{load_kn:.1} kN ({kg:.0} kg)")
}

/// A text somebody typed, cut to what a step can hold.
pub fn short(text: &str, most: usize) -> String {
    let trimmed = text.trim();
    if trimmed.chars().count() <= most {
        trimmed.to_owned()
    } else {
        trimmed.chars().take(most.saturating_sub(1)).chain(['…']).collect()
    }
}

/// `a`, `a and b`, `a, b and c`.
pub fn list(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

/// `N1-in to N4-in` for a run of more than two names, else the names.
pub fn span(names: &[&str]) -> String {
    match names {
        [first, _, .., last] => format!("{first} to {last}"),
        [first, last] => format!("{first} and {last}"),
        [one] => (*one).to_owned(),
        [] => String::new(),
    }
}

/// What a prop is, as the yard would ask for it.
pub fn prop_kind(prop: &Prop) -> String {
    match prop.kind.as_str() {
        "tn79" => format!("trade size {}", prop.size),
        "en1065" => format!("class {}", prop.size),
        _ => short(&prop.size, 24),
    }
}

/// A section's member, where its name is known.
pub fn member(section: &str) -> Option<Member> {
    parse_member(section).ok().map(|named| named.member)
}
