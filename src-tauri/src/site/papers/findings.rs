//! Findings and curves, as the report shows them.

use super::super::{Finding, SiteState};
use crate::report::{CurvePart, FindingPart, PhotoPart, Sketch, days_drawn, when};
use calc::trend::{Series, Trends, What};

/// Findings in the order they were opened.
pub fn finding_parts(state: &SiteState, photos: &[PhotoPart]) -> Vec<FindingPart> {
    state.findings.iter().map(|finding| part(finding, photos)).collect()
}

fn part(finding: &Finding, photos: &[PhotoPart]) -> FindingPart {
    let mut story: Vec<String> = finding
        .again
        .iter()
        .map(|again| format!("Found again {}.", when(&again.at)))
        .collect();
    story.extend(finding.repairs.iter().map(|repair| {
        format!(
            "Repair {} by {}: {} {}",
            when(&repair.at),
            repair.name,
            repair.words,
            repair.why_not
        )
        .trim_end()
        .to_owned()
    }));
    let named = finding
        .photos
        .iter()
        .chain(finding.repairs.iter().flat_map(|repair| &repair.photos));
    let named: Vec<&String> = named.collect();
    FindingPart {
        words: [finding.place.as_str(), finding.words.as_str()]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join(": "),
        at: match (finding.from, finding.name.as_str()) {
            ("round", "") => format!("Found by the round of {}.", when(&finding.at)),
            ("round", name) => format!("Found by the round of {}, done by {name}.", when(&finding.at)),
            (_, name) => format!("Written down {} by {name}.", when(&finding.at)),
        },
        open: finding.open,
        state: match &finding.closed {
            Some(closed) => format!("Closed {}.", when(&closed.at)),
            None => finding.waits_words.clone(),
        },
        means: std::iter::once(finding.means.clone())
            .chain(finding.to_do.iter().cloned())
            .filter(|line| !line.is_empty())
            .collect(),
        story,
        photos: photos
            .iter()
            .filter(|photo| named.iter().any(|sha| **sha == photo.sha256))
            .map(|photo| photo.number)
            .collect(),
    }
}

/// Curves with at least two readings.
pub fn curve_parts(trends: &Trends) -> Vec<CurvePart> {
    let drawn = trends.series.iter().filter(|series| series.points.len() > 1);
    drawn
        .map(|series| CurvePart {
            sketch: Sketch {
                title: title(series),
                svg: days_drawn(&series.svg),
            },
            words: series.words.clone(),
            stops: series.stops,
        })
        .collect()
}

fn title(series: &Series) -> String {
    format!("{}: {}, {}", series.name, what(series), series.unit)
}

const fn what(series: &Series) -> &'static str {
    match series.what {
        What::TakeUp => "taken up",
        What::Crack => "crack",
        What::LeanAlong => "lean along the wall",
        What::LeanAcross => "lean across the wall",
    }
}

/// The limits of all curves, each once.
pub fn curve_limits(trends: &Trends) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for series in &trends.series {
        for limit in &series.limits {
            let line = format!("{}: {} {}, {}.", what(series), limit.value, series.unit, limit.words);
            if !out.contains(&line) {
                out.push(line);
            }
        }
    }
    out
}
