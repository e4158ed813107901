//! Every clause function by name, with its arguments as text: for scripts, for tests and for anyone who checks a number.

mod loads;
mod masonry;
mod props;
mod reader;
mod sight;
mod site;
mod steel;
mod struts;
mod timber;
mod units;

use reader::Reader;
pub use reader::{Arg, ArgError, Entry, Evaluation};
use serde_json::Value;

/// All clause functions.
pub fn registry() -> impl Iterator<Item = &'static Entry> {
    [
        masonry::ENTRIES,
        steel::ENTRIES,
        timber::ENTRIES,
        loads::ENTRIES,
        props::ENTRIES,
        struts::ENTRIES,
        sight::ENTRIES,
        site::ENTRIES,
        units::ENTRIES,
    ]
    .into_iter()
    .flatten()
}

/// Evaluates a clause function by its name with arguments as text.
///
/// # Errors
/// [`ArgError`] naming the argument, what is wrong and what would be right; for an unknown function the argument is `name`.
pub fn evaluate(name: &str, args: &[(String, String)]) -> Result<Evaluation, ArgError> {
    let entry = registry().find(|entry| entry.name == name).ok_or_else(|| {
        let names: Vec<&str> = registry().map(|entry| entry.name).collect();
        ArgError::new(
            "name",
            format!("there is no clause function “{name}”"),
            format!("one of {}", names.join(", ")),
        )
    })?;
    let reader = Reader::new(entry, args)?;
    let outcome = (entry.run)(&reader)?;
    if has_null(&outcome.value) || has_null(&outcome.values) {
        let wrong = "these arguments together give no finite number".to_owned();
        return Err(ArgError::new(
            entry.args.first().map_or("name", |a| a.name),
            wrong,
            reader.example_line(),
        ));
    }
    Ok(Evaluation {
        value: outcome.value,
        unit: entry.unit,
        steps: outcome.steps,
        values: outcome.values,
    })
}

/// serde_json writes numbers that are not finite as null.
fn has_null(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::Array(items) => items.iter().any(has_null),
        Value::Object(map) => map.values().any(has_null),
        _ => false,
    }
}

/// The list as the contract writes it: name, source, arguments, result.
#[must_use]
pub fn list() -> Value {
    registry()
        .map(|entry| {
            serde_json::json!({
                "name": entry.name,
                "source": entry.source,
                "args": entry.args,
                "result": { "symbol": entry.symbol, "unit": entry.unit },
            })
        })
        .collect()
}

#[cfg(test)]
mod tests;
