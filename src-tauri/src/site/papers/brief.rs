//! The engineer's brief.

use super::super::Figure;
use super::{caution, photo_parts, sketches};
use crate::failure::{Answer, Failure};
use crate::record::{Moment, Store};
use crate::report::{self, BriefModel, in_words, when};
use calc::brief::Brief;
use std::collections::HashSet;

/// The engineer's brief as a PDF.
///
/// # Errors
///
/// `description` when the fields cannot be computed, `no_brief` when the answer is plainly that it holds, or what the
/// report said.
pub fn brief(store: &Store, figure: &Figure, moment: Moment) -> Answer<Vec<u8>> {
    if figure.proposal.is_none() {
        return Err(Failure::described(figure.problems.clone()));
    }
    let Some(brief) = &figure.brief else {
        return Err(Failure::new(
            "no_brief",
            "The support holds as described: there is nothing to ask an engineer.",
        ));
    };
    let info = store.info()?;
    let drawn = serde_json::to_value(&figure.sketches).map_err(|why| Failure::new("body", why.to_string()))?;
    let model = BriefModel {
        job_name: info.name,
        place: info.place,
        demo: info.demo,
        made_at: when(&moment.rfc3339()),
        made_utc_ms: moment.utc_ms,
        caution: caution(),
        title: brief.title.clone(),
        sections: sections(brief, figure),
        sketches: sketches(&drawn, &["front", "stack", "side"]),
        photos: photo_parts(store)?,
    };
    Ok(report::brief_pdf(&model)?)
}

/// The brief's sections, with what an engineer answered so far before the questions that follow from it.
fn sections(brief: &Brief, figure: &Figure) -> Vec<(String, Vec<String>)> {
    let parts = brief.sections.iter();
    let mut out: Vec<(String, Vec<String>)> = parts.map(|part| (part.heading.clone(), part.lines.clone())).collect();
    for (_, lines) in &mut out {
        // The caution stands on every page already, and two leaves of which the same is not known give a line twice.
        let mut said = HashSet::from([caution()]);
        lines.retain(|line| said.insert(line.clone()));
    }
    let answered = figure.proposal.as_ref().and_then(|proposal| proposal.engineer.as_ref());
    if let Some(compared) = answered {
        let mut places = out.iter();
        let place = places.position(|(heading, _)| heading == "Please answer");
        let said: Vec<String> = out
            .iter()
            .flat_map(|(_, lines)| lines)
            .map(|line| in_words(line))
            .collect();
        let all = compared.compared.iter();
        let new = all.filter(|line| !said.contains(&in_words(line))).cloned();
        let heading = "Answered so far, beside what was found here".to_owned();
        out.insert(place.unwrap_or(out.len()), (heading, new.collect()));
    }
    out
}
