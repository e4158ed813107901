//! Conversion of units by name.

use super::reader::{ArgError, Entry, Outcome, Reader, arg};
use crate::clause::units;

pub(super) const ENTRIES: &[Entry] = &[Entry {
    name: "convert",
    source: units::SOURCE,
    args: &[
        arg("value", "in the unit from", "40"),
        arg("from", "a unit as lbf/ft2", "lbf/ft2"),
        arg("to", "a unit of the same kind", "kN/m2"),
    ],
    symbol: "value",
    unit: "as asked",
    run: convert,
}];

fn convert(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (value, from, to) = (r.num("value")?, r.text("from")?, r.text("to")?);
    for (name, unit) in [("from", from), ("to", to)] {
        if units::unit(unit).is_none() {
            let known: Vec<&str> = units::UNITS.iter().map(|(unit, _, _)| *unit).collect();
            let wrong = format!("“{unit}” is none of {}", known.join(", "));
            return Err(r.refuse(name, wrong));
        }
    }
    let converted = units::convert(value, from, to)
        .ok_or_else(|| r.refuse("to", format!("{from} and {to} measure different things")))?;
    Ok(Outcome::plain(converted, format!("{value} {from} = {converted} {to}")))
}
