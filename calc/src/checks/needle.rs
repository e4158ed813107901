//! The needle itself: bending, shear, tipping over, webs, deflection; steel or timber.

use super::{At, Finding, Side, Sink};
use crate::clause::NationalParameters;
use crate::clause::en1993::ltb::{self, C1_POINT, C2_POINT, Ltb, LtbCurve, m_b_rd};
use crate::clause::en1993::resistance::{
    BENDING_SHEAR_SOURCE, BENDING_SOURCE, CrossSection, PERMISSIBLE_SOURCE, SHEAR_SOURCE, m_c_rd, m_permissible,
    m_v_rd, v_c_rd,
};
use crate::clause::en1993::web::{self, HollowWeb, Web, WebLoad, f_rd, hollow_web};
use crate::clause::en1995::beam::{self, TimberBending, TimberShear, timber_bending, timber_shear};
use crate::clause::en1995::bearing::{self as across, AcrossGrain, f_c90_rd};
use crate::clause::en1995::design::{design_values, duration_of_days, k_mod};
use crate::clause::statics::Bridge;
use crate::source::{Seen, Source};
use crate::tables::Member;
use crate::tables::steel::{SteelGrade, SteelSection};
use crate::tables::timber::TimberGrade;

/// Shift of a prop axis taken in the worst sense, mm.
pub const SHIFT_MM: f64 = 25.0;
/// Stiff length at a prop head, mm.
const HEAD_MM: f64 = 100.0;
/// Least overhang of the needle's end beyond the prop axis, mm. Common practice, no source.
pub const OVERHANG_MM: f64 = 150.0;
/// Largest deflection, mm, and as a share of the span. Common practice, no source.
const DEFLECTION_MM: f64 = 2.0;
const DEFLECTION_SHARE: f64 = 360.0;

const DEFLECTION: Source = Source::new(
    "deflection of a needle",
    "span / 360 and 2 mm at service",
    Seen::Practice,
);

/// A needle with its loads by both combinations.
#[derive(Clone, Copy, Debug)]
pub struct Loaded<'a> {
    /// At service load.
    pub service: Bridge,
    /// At strength load.
    pub strength: Bridge,
    /// Largest load of each leaf for itself, strength, kN.
    pub leaf_strength_kn: [f64; 2],
    /// Days it stands.
    pub days: f64,
    /// Nationally determined parameters.
    pub national: &'a NationalParameters,
}

/// The largest reaction at a side with each axis moved 25 mm in the worst sense, kN.
#[must_use]
pub fn worst_reaction_kn(bridge: &Bridge, side: Side) -> f64 {
    let mut worst: f64 = 0.0;
    for outside_by in [-SHIFT_MM, SHIFT_MM] {
        for inside_by in [-SHIFT_MM, SHIFT_MM] {
            let (outside, inside) = bridge.moved(outside_by, inside_by).reactions_kn();
            worst = worst.max(if side == Side::Inside { inside } else { outside });
        }
    }
    worst
}

/// Deflection at service with both axes moved outwards, mm.
#[must_use]
pub fn deflection_mm(loaded: &Loaded<'_>, member: &Member) -> f64 {
    loaded
        .service
        .moved(-SHIFT_MM, SHIFT_MM)
        .deflection_mm(member.ei_n_mm2())
}

/// Checks needle `i`.
pub fn check(i: usize, loaded: &Loaded<'_>, member: &Member, sink: &mut impl Sink) {
    let at = At::Needle(i);
    let wide = loaded.strength.moved(-SHIFT_MM, SHIFT_MM);
    let moment = wide.largest_moment_kn_m();
    let shear =
        worst_reaction_kn(&loaded.strength, Side::Inside).max(worst_reaction_kn(&loaded.strength, Side::Outside));
    match member {
        Member::Steel(section, grade) => steel(at, loaded, section, *grade, moment, shear, sink),
        Member::Timber { grade, b_mm, h_mm } => timber(at, loaded, grade, (*b_mm, *h_mm), moment, shear, sink),
    }
    let span = wide.span_mm();
    let limit = DEFLECTION_MM.min(span / DEFLECTION_SHARE);
    let found = deflection_mm(loaded, member);
    sink.put(Finding { name: "needle_deflection", at, demand: found, resistance: limit, unit: "mm", source: DEFLECTION }, &|| {
        vec![
            format!("both axes moved {SHIFT_MM:.0} mm outwards: span {span:.0} mm; limit min(2, {span:.0} / 360) = {limit:.2} mm"),
            format!("E I = {:.3e} N·mm²: {found:.2} mm", member.ei_n_mm2()),
        ]
    });
}

fn leaves_words(bridge: &Bridge) -> String {
    let parts: Vec<String> = bridge
        .strips
        .iter()
        .filter(|strip| strip.load_kn > 0.0)
        .map(|strip| {
            format!(
                "{:.2} kN over {:.0} to {:.0} mm",
                strip.load_kn, strip.from_mm, strip.to_mm
            )
        })
        .collect();
    format!(
        "leaves: {}; props at {:.0} and {:.0} mm",
        parts.join(", "),
        bridge.outside_mm,
        bridge.inside_mm
    )
}

fn steel(
    at: At,
    loaded: &Loaded<'_>,
    section: &SteelSection,
    grade: SteelGrade,
    moment: f64,
    shear: f64,
    sink: &mut impl Sink,
) {
    let national = loaded.national;
    let cross = CrossSection {
        section: *section,
        fy_n_mm2: grade.fy_n_mm2,
        gamma_m: national.gamma_m_hired.value,
    };
    let moved = || {
        format!(
            "both axes moved {SHIFT_MM:.0} mm outwards; {}",
            leaves_words(&loaded.strength.moved(-SHIFT_MM, SHIFT_MM))
        )
    };
    let bending = m_c_rd(&cross);
    sink.put(
        Finding {
            name: "needle_bending",
            at,
            demand: moment,
            resistance: bending.m_c_rd_kn_m,
            unit: "kNm",
            source: BENDING_SOURCE,
        },
        &|| {
            let mut steps = vec![moved(), format!("M = {moment:.3} kNm")];
            steps.extend(bending.steps());
            steps
        },
    );
    let service_moment = loaded.service.moved(-SHIFT_MM, SHIFT_MM).largest_moment_kn_m();
    let permissible = m_permissible(&cross);
    let finding = Finding {
        name: "needle_bending_service",
        at,
        demand: service_moment,
        resistance: permissible.m_kn_m,
        unit: "kNm",
        source: PERMISSIBLE_SOURCE,
    };
    sink.put(finding, &|| {
        let mut steps = vec![format!("at service: M = {service_moment:.3} kNm")];
        steps.extend(permissible.steps());
        steps
    });
    let can_shear = v_c_rd(&cross);
    sink.put(
        Finding {
            name: "needle_shear",
            at,
            demand: shear,
            resistance: can_shear.v_c_rd_kn,
            unit: "kN",
            source: SHEAR_SOURCE,
        },
        &|| {
            let mut steps = vec![format!("V = {shear:.2} kN, axes moved in the worst sense")];
            steps.extend(can_shear.steps());
            steps
        },
    );
    let both = m_v_rd(&cross, shear);
    let finding = Finding {
        name: "needle_bending_shear",
        at,
        demand: moment,
        resistance: both.m_v_rd_kn_m,
        unit: "kNm",
        source: BENDING_SHEAR_SOURCE,
    };
    sink.put(finding, &|| {
        let mut steps = vec![moved()];
        steps.extend(both.steps());
        steps
    });
    if !section.is_hollow() {
        let found = m_b_rd(&Ltb {
            cross,
            length_mm: loaded.strength.span_mm() + 2.0 * SHIFT_MM,
            c1: C1_POINT,
            c2: C2_POINT,
            // The wall presses on the top flange.
            zg_mm: section.h_mm / 2.0,
            curve: LtbCurve::Rolled,
            lambda_lt0: national.lambda_lt0.value,
            beta: national.beta_lt.value,
        });
        let finding = Finding {
            name: "needle_ltb",
            at,
            demand: moment,
            resistance: found.m_b_rd_kn_m,
            unit: "kNm",
            source: ltb::SOURCE,
        };
        sink.put(finding, &|| {
            let mut steps = vec!["load on the top flange; both heads fixed against rolling over (k = 1)".to_owned()];
            steps.extend(found.steps());
            steps
        });
    }
    webs(at, loaded, section, grade, shear, sink);
}

fn webs(at: At, loaded: &Loaded<'_>, section: &SteelSection, grade: SteelGrade, shear: f64, sink: &mut impl Sink) {
    let gamma_m = loaded.national.gamma_m_hired.value;
    let hollow = |load, ss_mm| {
        hollow_web(&HollowWeb {
            t_mm: section.tw_mm,
            ss_mm,
            fy_n_mm2: grade.fy_n_mm2,
            gamma_m,
            load,
        })
    };
    let open = |load, ss_mm| {
        // The axis moved 25 mm outwards leaves so much less of the end.
        let (a_mm, c_mm) = (loaded.strength.span_mm(), OVERHANG_MM - SHIFT_MM - HEAD_MM / 2.0);
        f_rd(&Web {
            section: *section,
            fy_n_mm2: grade.fy_n_mm2,
            gamma_m1: gamma_m,
            ss_mm,
            load,
            a_mm,
            c_mm,
        })
    };
    let source = if section.is_hollow() {
        web::HOLLOW_SOURCE
    } else {
        web::SOURCE
    };
    let can = |load, ss_mm| {
        if section.is_hollow() {
            hollow(load, ss_mm).f_rd_kn
        } else {
            open(load, ss_mm).f_rd_kn
        }
    };
    let steps = |load, ss_mm| {
        if section.is_hollow() {
            hollow(load, ss_mm).steps()
        } else {
            open(load, ss_mm).steps()
        }
    };
    for (strip, load) in loaded.strength.strips.iter().zip(loaded.leaf_strength_kn) {
        if load <= 0.0 {
            continue;
        }
        let length = strip.to_mm - strip.from_mm;
        let resistance = can(WebLoad::Interior, length);
        sink.put(
            Finding {
                name: "needle_web_wall",
                at,
                demand: load,
                resistance,
                unit: "kN",
                source,
            },
            &|| {
                let mut all = vec![format!("leaf of {length:.1} mm brings {load:.2} kN")];
                all.extend(steps(WebLoad::Interior, length));
                all
            },
        );
    }
    let resistance = can(WebLoad::End, HEAD_MM);
    sink.put(
        Finding {
            name: "needle_web_prop",
            at,
            demand: shear,
            resistance,
            unit: "kN",
            source,
        },
        &|| {
            let mut all = vec![format!("prop head, stiff length {HEAD_MM:.0} mm: {shear:.2} kN")];
            all.extend(steps(WebLoad::End, HEAD_MM));
            all
        },
    );
}

fn timber(
    at: At,
    loaded: &Loaded<'_>,
    grade: &TimberGrade,
    (b_mm, h_mm): (f64, f64),
    moment: f64,
    shear: f64,
    sink: &mut impl Sink,
) {
    let national = loaded.national;
    let design = design_values(
        grade,
        k_mod(duration_of_days(loaded.days), 3),
        national.gamma_m_timber.value,
    );
    let bending = timber_bending(&TimberBending {
        b_mm,
        h_mm,
        m_kn_m: moment,
        fmd_n_mm2: design.fmd_n_mm2,
        k_sys: 1.0,
        use_k_h: false,
    });
    sink.put(
        Finding {
            name: "timber_bending",
            at,
            demand: moment,
            resistance: bending.m_rd_kn_m,
            unit: "kNm",
            source: beam::BENDING_SOURCE,
        },
        &|| {
            let mut steps = vec![leaves_words(&loaded.strength)];
            steps.extend(design.steps());
            steps.extend(bending.steps());
            steps
        },
    );
    let found = timber_shear(&TimberShear {
        b_mm,
        h_mm,
        v_kn: shear,
        fvd_n_mm2: design.fvd_n_mm2,
        k_cr: national.k_cr.value,
    });
    sink.put(
        Finding {
            name: "timber_shear",
            at,
            demand: shear,
            resistance: found.v_rd_kn,
            unit: "kN",
            source: beam::SHEAR_SOURCE,
        },
        &|| {
            let mut steps = design.steps();
            steps.extend(found.steps());
            steps
        },
    );
    for (strip, load) in loaded
        .strength
        .strips
        .iter()
        .zip(loaded.leaf_strength_kn)
        .filter(|(_, load)| *load > 0.0)
    {
        let length_mm = strip.to_mm - strip.from_mm;
        let leaf = f_c90_rd(&AcrossGrain {
            length_mm,
            width_mm: b_mm,
            beyond_mm: [OVERHANG_MM, OVERHANG_MM],
            fc90d_n_mm2: design.fc90d_n_mm2,
            k_c90: 1.0,
        });
        sink.put(
            Finding {
                name: "timber_bearing",
                at,
                demand: load,
                resistance: leaf.f_rd_kn,
                unit: "kN",
                source: across::SOURCE,
            },
            &|| {
                let mut steps = vec![format!(
                    "leaf of {length_mm:.1} mm presses {load:.2} kN across the grain"
                )];
                steps.extend(design.steps());
                steps.extend(leaf.steps());
                steps
            },
        );
    }
    let bearing = f_c90_rd(&AcrossGrain {
        length_mm: HEAD_MM,
        width_mm: b_mm.min(150.0),
        beyond_mm: [OVERHANG_MM - HEAD_MM / 2.0, OVERHANG_MM],
        fc90d_n_mm2: design.fc90d_n_mm2,
        k_c90: 1.0,
    });
    sink.put(
        Finding {
            name: "timber_bearing",
            at,
            demand: shear,
            resistance: bearing.f_rd_kn,
            unit: "kN",
            source: across::SOURCE,
        },
        &|| {
            let mut steps = design.steps();
            steps.extend(bearing.steps());
            steps
        },
    );
}
