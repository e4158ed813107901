//! Today's gust, held against the braces of an arrangement.

use crate::form::{self, Fields};
use calc::checks::sideways::{ADDED_SHARE, LEAST_SHARE, gust_kn};
use calc::geometry::Geometry;
use calc::source::{Seen, Source};
use calc::units::Unit;
use calc::{Job, Problem};
use serde::Serialize;

/// Mean wind at the upper end of each force of the Beaufort scale, m/s; force 12 has none. Source: the table of equivalent
/// speeds in m/s, read as text on public weather pages that agree in every figure; its knots in a copy of the Met Office's
/// table. The WMO's own manual was not seen. `calc/tests/wind.rs` holds it against knots, mph and km/h.
const BEAUFORT_TO_M_S: [f64; 12] = [0.2, 1.5, 3.3, 5.4, 7.9, 10.7, 13.8, 17.1, 20.7, 24.4, 28.4, 32.6];
/// What a gust reaches over the mean wind. Own judgement, after EN 1991-1-4's √(1 + 7 Iv) among houses.
const GUST_FACTOR: f64 = 1.7;
/// Largest gust that is judged, m/s.
const MOST_M_S: f64 = 90.0;

const GUST: Source = Source::new(
    "gust pressure",
    "0.613 v² N/m² on the wall over the cut, × 1.2 for pressure and suction",
    Seen::Own,
);

/// How the braces stand in a gust.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stands {
    /// No more than the braces were laid out for.
    LaidOut,
    /// More than they were laid out for, though they could take it.
    Beyond,
    /// More than they can take.
    TooMuch,
    /// No wind comes on this wall.
    NoWind,
}

/// The answer for one gust.
#[derive(Clone, Debug, Serialize)]
pub struct Gust {
    /// The gust, m/s.
    pub gust_m_s: f64,
    /// How the braces stand.
    pub stands: Stands,
    /// What the gust pushes with, kN.
    pub wind_kn: f64,
    /// What the braces are asked for across the wall, kN.
    pub demand_kn: f64,
    /// What they were laid out for, kN.
    pub laid_out_kn: f64,
    /// What they are good for, kN.
    pub resistance_kn: f64,
    /// The largest gust that they were laid out for, m/s.
    pub most_m_s: f64,
    /// Line by line.
    pub steps: Vec<String>,
    /// The rule behind it.
    pub source: Source,
}

/// Reads a gust: a number with its unit (m/s where none is named), or `beaufort 7` for a force.
///
/// # Errors
///
/// What is wrong and what would be right.
pub fn read(text: &str) -> Result<f64, Problem> {
    let wrong = |wrong: &str, right: &str| Problem::new("/job/gust", wrong, right);
    let lower = text.trim().to_lowercase();
    if let Some(force) = lower.strip_prefix("beaufort") {
        let force = force.trim().parse::<usize>().ok();
        let mean = force.and_then(|force| BEAUFORT_TO_M_S.get(force));
        return mean.map(|mean| mean * GUST_FACTOR).ok_or_else(|| {
            wrong(
                "a hurricane has no upper end",
                "a force from 0 to 11; above that nobody is near the wall",
            )
        });
    }
    let read = form::number("/job/gust", &lower, Unit::of_symbol("m/s"))?;
    if !(0.0..=MOST_M_S).contains(&read) {
        return Err(wrong("this is no gust", "0 to 90 m/s"));
    }
    Ok(read)
}

/// Holds a gust against the braces of the option shown.
///
/// # Errors
///
/// What is wrong with the description or with the gust.
pub fn gust(fields: &Fields, option: usize, text: &str) -> Result<Gust, Vec<Problem>> {
    let gust_m_s = read(text).map_err(|problem| vec![problem])?;
    let figure = super::figure(fields, option);
    let Some(proposal) = &figure.proposal else {
        return Err(figure.problems);
    };
    let (job, _) = Job::from_value(&figure.job)?;
    let Some(shown) = proposal.options.get(option).or(proposal.nearest.as_ref()) else {
        let right = "an arrangement to hold it against";
        return Err(vec![Problem::new("", "nothing is proposed", right)]);
    };
    let geometry = Geometry::of(&job, &mut Vec::new());
    let bracing = &shown.bracing;
    let wind_kn = gust_kn(&job, &geometry, geometry.soffit_m, gust_m_s);
    let one_kn = gust_kn(&job, &geometry, geometry.soffit_m, 1.0);
    let (v_kn, laid_out_kn) = (bracing.v_kn, bracing.demand_across_kn);
    // Brackets push their props' heads as well: what was laid out for them stays, and the wind comes on top.
    let push_kn = if shown.kind == "brackets" {
        (laid_out_kn - ADDED_SHARE * v_kn).max(0.0)
    } else {
        0.0
    };
    let demand_kn = (LEAST_SHARE * v_kn).max(wind_kn + push_kn + ADDED_SHARE * v_kn);
    let free_kn = (laid_out_kn - push_kn - ADDED_SHARE * v_kn).max(0.0);
    let stands = if one_kn <= 0.0 {
        Stands::NoWind
    } else if demand_kn > bracing.resistance_across_kn {
        Stands::TooMuch
    } else if demand_kn > laid_out_kn + 1e-9 {
        Stands::Beyond
    } else {
        Stands::LaidOut
    };
    Ok(Gust {
        gust_m_s,
        stands,
        wind_kn,
        demand_kn,
        laid_out_kn,
        resistance_kn: bracing.resistance_across_kn,
        most_m_s: if one_kn > 0.0 { (free_kn / one_kn).sqrt() } else { 0.0 },
        steps: vec![
            format!("gust {gust_m_s:.1} m/s: {wind_kn:.2} kN on the wall over the cut"),
            format!(
                "asked across the wall: the larger of 2.5 % of {v_kn:.1} kN, and wind with 1 % of it: {demand_kn:.2} kN"
            ),
            format!(
                "the braces were laid out for {laid_out_kn:.2} kN and are good for {:.2} kN",
                bracing.resistance_across_kn
            ),
        ],
        source: GUST,
    })
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::*;

    fn near(text: &str, m_s: f64) {
        let got = read(text).unwrap();
        assert!((got - m_s).abs() < 0.001, "{text}: {got}");
    }

    #[test]
    fn every_way_to_say_a_gust_is_read() {
        near("18", 18.0);
        near("18 m/s", 18.0);
        near("65 km/h", 65.0 / 3.6);
        // A mile is 1609.344 m by definition.
        near("40 mph", 40.0 * 1609.344 / 3600.0);
        // Force 7 ends at 17.1 m/s of mean wind.
        near("Beaufort 7", 17.1 * 1.7);
    }

    #[test]
    fn what_is_no_gust_is_asked_again() {
        for text in ["", "-3", "a lot", "beaufort 12", "beaufort", "900", "3 kN"] {
            assert!(read(text).is_err(), "{text}");
        }
    }

    fn demo() -> Fields {
        let job = calc::example::job("two_storey_cavity").unwrap();
        form::flatten(&job)
    }

    #[test]
    fn a_harder_gust_never_stands_better_and_the_largest_laid_out_for_is_the_edge() {
        let fields = demo();
        let calm = gust(&fields, 0, "5").unwrap();
        assert_eq!(calm.stands, Stands::LaidOut);
        // 0.613 v² × 1.2 on the same wall: four times the push for twice the gust.
        let twice = gust(&fields, 0, "10").unwrap();
        assert!((twice.wind_kn / calm.wind_kn - 4.0).abs() < 1e-9);
        let edge = calm.most_m_s;
        assert!(edge > 5.0, "{edge}");
        let at = |v: f64| gust(&fields, 0, &format!("{v:.4}")).unwrap();
        assert_eq!(at(edge - 0.01).stands, Stands::LaidOut);
        assert_eq!(at(edge + 0.01).stands, Stands::Beyond);
        let rank = |stands: Stands| {
            [Stands::LaidOut, Stands::Beyond, Stands::TooMuch]
                .iter()
                .position(|one| *one == stands)
        };
        let mut before = Some(0);
        for v in 1..=90 {
            let now = at(f64::from(v));
            assert!(rank(now.stands) >= before, "{v}");
            assert_eq!(now.stands == Stands::TooMuch, now.demand_kn > now.resistance_kn, "{v}");
            before = rank(now.stands);
        }
    }

    #[test]
    fn an_inside_wall_has_no_wind() {
        let mut fields = demo();
        fields.insert("/wall/outside_wall".to_owned(), "false".to_owned());
        assert_eq!(gust(&fields, 0, "30").unwrap().stands, Stands::NoWind);
    }
}
