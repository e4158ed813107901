//! A prop under its needle.

use super::{At, Finding, Sink};
use crate::props::{Rating, State, rate};
use crate::ready::Ready;
use crate::source::{Seen, Source};

const NONE: Source = Source::new(
    "range of adjustable steel props",
    "at least 50 mm of adjustment left at both ends",
    Seen::Own,
);

/// Working load of a prop at a length in the state a proposal is made for; none when the prop does not fit the length
/// with 50 mm of adjustment left at both ends, or its table ends below it.
#[must_use]
pub fn rate_design(ready: &Ready, length_m: f64, foot_fixed: bool) -> Option<Rating> {
    let (shortest, longest) = ready.data.usable_m().ok()?;
    if length_m < shortest - 1e-9 || length_m > longest + 1e-9 {
        return None;
    }
    rate(&ready.data, length_m, &State::design(foot_fixed)).ok()
}

/// Checks a prop with its rating.
pub fn stand(at: At, rating: Option<&Rating>, length_m: f64, service_kn: f64, sink: &mut impl Sink) {
    let Some(rating) = rating else {
        let finding = Finding {
            name: "prop",
            at,
            demand: service_kn,
            resistance: 0.0,
            unit: "kN",
            source: NONE,
        };
        sink.put(finding, &|| {
            vec![format!(
                "no prop at hand fits {length_m:.3} m with 50 mm of adjustment left at both ends"
            )]
        });
        return;
    };
    let finding = Finding {
        name: "prop",
        at,
        demand: service_kn,
        resistance: rating.working_load_kn,
        unit: "kN",
        source: rating.source,
    };
    sink.put(finding, &|| {
        let how = if matches!(at, At::Prop(..)) {
            "with the axes moved 25 mm in the worst sense"
        } else {
            "with the loads on the beam at their worst places"
        };
        let mut steps = vec![format!("length {length_m:.3} m; {service_kn:.2} kN {how}")];
        steps.extend(rating.steps());
        steps
    });
}
