//! Stops of the kept order and permits, as the report shows them.

use super::super::{Kept, SiteState, passed_in};
use crate::failure::Answer;
use crate::record::{Entry, Kind, Store, as_corrected};
use crate::report::{PermitPart, PhotoPart, StopPart, when};
use calc::brief::sentence;
use serde_json::Value;

/// Every stop of the order of work with who said yes; those of old proposals are told at the stop of the same name.
pub fn stop_parts(
    store: &Store,
    kept: Option<&Kept>,
    state: &SiteState,
    photos: &[PhotoPart],
) -> Answer<Vec<StopPart>> {
    let passed = passed_in(store, state)?;
    let mut entries: Vec<Entry> = as_corrected(store.of_kind(Kind::StopPassed)?);
    entries.extend(as_corrected(store.of_kind(Kind::Permit)?));
    entries.sort_by_key(Entry::order);
    let steps = kept.and_then(|kept| kept.proposal.get("order")?.as_array());
    let mut keys: Vec<String> = Vec::new();
    let mut out = Vec::new();
    for step in steps.into_iter().flatten() {
        let text = |key: &str| step.get(key).and_then(Value::as_str).unwrap_or_default();
        if step.get("stop").and_then(Value::as_bool) != Some(true) {
            continue;
        }
        let code = text("code");
        let number = keys.iter().filter(|known| *known == code).count() + 1;
        keys.push(code.to_owned());
        let key = format!("{code}/{number}");
        let said = passed.iter().filter(|one| one.key == key).map(|one| {
            let entry = entries.iter().find(|entry| entry.hash == one.entry);
            let set_out = entry.and_then(|entry| entry.body.get("set_out")?.as_bool());
            let aside = match set_out {
                Some(true) => ", who also set it out",
                Some(false) => ", who did not set it out",
                None => "",
            };
            format!("{}{aside}: yes, {}", one.name, when(&one.at))
        });
        let about = format!("stop {code}");
        out.push(StopPart {
            group: text("group").to_owned(),
            step: step.get("step").map(ToString::to_string).unwrap_or_default(),
            asks: text("words").to_owned(),
            who: text("who").to_owned(),
            when: text("when").to_owned(),
            source: source(step),
            said: said.collect(),
            // A photo names its kind of stop; of several stops alike the first shows it.
            photos: photos
                .iter()
                .filter(|photo| photo.about == about && number == 1)
                .map(|photo| photo.number)
                .collect(),
        });
    }
    Ok(out)
}

/// The rule's source; the country's own where it has one.
fn source(step: &Value) -> String {
    let of = |key: &str| step.get(key).filter(|source| source.is_object());
    let Some(source) = of("country_source").or_else(|| of("source")) else {
        return String::new();
    };
    let text = |key: &str| source.get(key).and_then(Value::as_str).unwrap_or_default();
    format!("{}, {}; {}", text("document"), text("locator"), text("seen"))
}

/// Every permit, and why it lapsed.
pub fn permit_parts(state: &SiteState) -> Vec<PermitPart> {
    state
        .permits
        .iter()
        .map(|permit| PermitPart {
            title: match permit.code.as_str() {
                "permit_to_load" => "To load the needles".to_owned(),
                "permit_to_take_out" => "To take the props out".to_owned(),
                code => sentence(&code.replace('_', " ")),
            },
            given: format!(
                "{}, {}{}",
                permit.name,
                when(&permit.at),
                match permit.set_out {
                    Some(true) => "; set it out as well",
                    Some(false) => "; did not set it out",
                    None => "",
                }
            ),
            lapsed: permit.withdrawn.clone(),
        })
        .collect()
}
