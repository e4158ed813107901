//! Header and runner as members: bending, shear, pressure on the prop's head plate, deflection.

use super::comb::Both;
use crate::checks::{At, Finding, Sink};
use crate::clause::NationalParameters;
use crate::clause::en1993::ltb::{self, C2_POINT, Ltb, LtbCurve, m_b_rd};
use crate::clause::en1993::resistance::{
    BENDING_SHEAR_SOURCE, CrossSection, PERMISSIBLE_SOURCE, SHEAR_SOURCE as STEEL_SHEAR, m_permissible, m_v_rd, v_c_rd,
};
use crate::clause::en1993::web::{self, HollowWeb, Web, WebLoad, f_rd, hollow_web};
use crate::clause::en1995::beam::{self, TimberBending, TimberShear, k_crit, timber_bending, timber_shear};
use crate::clause::en1995::bearing::{self as across, AcrossGrain, f_c90_rd};
use crate::clause::en1995::design::{DesignValues, design_values, duration_of_days, k_mod};
use crate::source::{Seen, Source};
use crate::tables::Member;
use crate::tables::steel::{SteelGrade, SteelSection};
use crate::tables::timber::TimberGrade;

/// Length of a head plate that counts along the beam, mm; as for needles.
pub const HEAD_MM: f64 = 100.0;
/// Length of the beam beyond its last prop, mm.
pub const BEYOND_MM: f64 = 150.0;
/// Largest deflection as a share of the span and in mm. Own judgement.
const DEFLECTION_SHARE: f64 = 300.0;
const DEFLECTION_MM: f64 = 5.0;

const DEFLECTION: Source = Source::new("deflection of a header", "span / 300 and 5 mm at service", Seen::Own);
/// Names of the checks of a member.
#[derive(Clone, Copy, Debug)]
pub struct Names {
    /// Bending.
    pub bending: &'static str,
    /// Bending by permissible stress.
    pub service: &'static str,
    /// Shear.
    pub shear: &'static str,
    /// Pressure on the head plate across the grain.
    pub bearing: &'static str,
    /// Web over the head plate or under a load.
    pub web: &'static str,
    /// Deflection.
    pub deflection: &'static str,
}

/// Names for a header.
pub const HEADER: Names = Names {
    bending: "header_bending",
    service: "header_bending_service",
    shear: "header_shear",
    bearing: "header_bearing",
    web: "header_web",
    deflection: "header_deflection",
};
/// Names for a runner.
pub const RUNNER: Names = Names {
    bending: "runner_bending",
    service: "runner_bending_service",
    shear: "runner_shear",
    bearing: "runner_bearing",
    web: "runner_web",
    deflection: "runner_deflection",
};

/// A beam on props with what it has to carry.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// What the member is.
    pub member: &'a Member,
    /// Breadth of one piece where a timber is made of several side by side, mm.
    pub ply_mm: f64,
    /// Effects of the loads.
    pub effects: &'a Both,
    /// Largest span between two props, m.
    pub span_m: f64,
    /// Largest single load on it at strength, kN, and the length over which it presses, mm.
    pub load_kn: f64,
    /// Length of that contact along the beam, mm.
    pub contact_mm: f64,
    /// Days it stands.
    pub days: f64,
    /// Service class of timber.
    pub service_class: u8,
    /// Nationally determined values.
    pub national: &'a NationalParameters,
}

/// Checks a header or runner.
pub fn check(at: At, names: &Names, asked: &Asked<'_>, sink: &mut impl Sink) {
    let (moment, shear) = (asked.effects.strength.moment_kn_m, asked.effects.strength.shear_kn);
    let words = || {
        format!(
            "worst place of the loads and worst spans loaded: M = {moment:.3} kNm, V = {shear:.2} kN, one prop {:.2} kN at strength",
            asked.effects.strength.largest_prop_kn()
        )
    };
    let shear_mm = match asked.member {
        Member::Steel(section, grade) => {
            steel(at, names, asked, section, *grade, &words, sink);
            0.0
        }
        Member::Timber { grade, b_mm, h_mm } => {
            timber(at, names, asked, grade, (*b_mm, *h_mm), &words, sink);
            // Shear adds 1.2·M/(G·A) to a simple span under any loads.
            1.2 * asked.effects.service.moment_kn_m * 1e6 / (grade.g_mean_n_mm2 * b_mm * h_mm)
        }
    };
    let bend_mm = asked.effects.service.deflection_kn_m3 * 1e12 / asked.member.ei_n_mm2();
    let span_mm = asked.span_m * 1000.0;
    let limit = (span_mm / DEFLECTION_SHARE).min(DEFLECTION_MM);
    let finding = Finding {
        name: names.deflection,
        at,
        demand: bend_mm + shear_mm,
        resistance: limit,
        unit: "mm",
        source: DEFLECTION,
    };
    sink.put(finding, &|| {
        vec![format!(
            "props rigid: {bend_mm:.2} mm bending + {shear_mm:.2} mm shear; limit min({DEFLECTION_MM:.0}, {span_mm:.0} / 300) = {limit:.2} mm"
        )]
    });
}

fn steel(
    at: At,
    names: &Names,
    asked: &Asked<'_>,
    section: &SteelSection,
    grade: SteelGrade,
    words: &dyn Fn() -> String,
    sink: &mut impl Sink,
) {
    let gamma_m = asked.national.gamma_m_hired.value;
    let cross = CrossSection {
        section: *section,
        fy_n_mm2: grade.fy_n_mm2,
        gamma_m,
    };
    let (moment, shear) = (asked.effects.strength.moment_kn_m, asked.effects.strength.shear_kn);
    let mut put = |name, demand, resistance, unit, source, more: Vec<String>| {
        sink.put(
            Finding {
                name,
                at,
                demand,
                resistance,
                unit,
                source,
            },
            &|| {
                let mut steps = vec![words()];
                steps.extend(more.clone());
                steps
            },
        );
    };
    let both = m_v_rd(&cross, shear);
    put(
        names.bending,
        moment,
        both.m_v_rd_kn_m,
        "kNm",
        BENDING_SHEAR_SOURCE,
        both.steps(),
    );
    if !section.is_hollow() {
        let found = m_b_rd(&Ltb {
            cross,
            length_mm: asked.span_m * 1000.0,
            // An even moment: whatever the loads' places, no better is counted on.
            c1: 1.0,
            c2: C2_POINT,
            zg_mm: section.h_mm / 2.0,
            curve: LtbCurve::Rolled,
            lambda_lt0: asked.national.lambda_lt0.value,
            beta: asked.national.beta_lt.value,
        });
        put(
            names.bending,
            moment,
            found.m_b_rd_kn_m,
            "kNm",
            ltb::SOURCE,
            found.steps(),
        );
    }
    let permissible = m_permissible(&cross);
    put(
        names.service,
        asked.effects.service.moment_kn_m,
        permissible.m_kn_m,
        "kNm",
        PERMISSIBLE_SOURCE,
        permissible.steps(),
    );
    let can = v_c_rd(&cross);
    put(names.shear, shear, can.v_c_rd_kn, "kN", STEEL_SHEAR, can.steps());
    // Nobody knows which prop stands near an end: the end's web resistance is taken at every prop and load.
    for (load, contact) in [
        (asked.effects.strength.largest_prop_kn(), HEAD_MM),
        (asked.load_kn, asked.contact_mm),
    ] {
        let (resistance, source, steps) = if section.is_hollow() {
            let found = hollow_web(&HollowWeb {
                t_mm: section.tw_mm,
                ss_mm: contact,
                fy_n_mm2: grade.fy_n_mm2,
                gamma_m,
                load: WebLoad::End,
            });
            (found.f_rd_kn, web::HOLLOW_SOURCE, found.steps())
        } else {
            let found = f_rd(&Web {
                section: *section,
                fy_n_mm2: grade.fy_n_mm2,
                gamma_m1: gamma_m,
                ss_mm: contact,
                load: WebLoad::End,
                a_mm: asked.span_m * 1000.0,
                c_mm: BEYOND_MM - HEAD_MM / 2.0,
            });
            (found.f_rd_kn, web::SOURCE, found.steps())
        };
        put(names.web, load, resistance, "kN", source, steps);
    }
}

/// Design values of a timber that stands some days in a service class.
#[must_use]
pub fn timber_design(grade: &TimberGrade, days: f64, service_class: u8, national: &NationalParameters) -> DesignValues {
    design_values(
        grade,
        k_mod(duration_of_days(days), service_class),
        national.gamma_m_timber.value,
    )
}

fn timber(
    at: At,
    names: &Names,
    asked: &Asked<'_>,
    grade: &TimberGrade,
    (b_mm, h_mm): (f64, f64),
    words: &dyn Fn() -> String,
    sink: &mut impl Sink,
) {
    let design = timber_design(grade, asked.days, asked.service_class, asked.national);
    let (moment, shear) = (asked.effects.strength.moment_kn_m, asked.effects.strength.shear_kn);
    let k_crit = k_crit(grade, asked.ply_mm, h_mm, asked.span_m * 1000.0);
    let bending = timber_bending(&TimberBending {
        b_mm,
        h_mm,
        m_kn_m: moment,
        fmd_n_mm2: design.fmd_n_mm2 * k_crit,
        k_sys: 1.0,
        use_k_h: false,
    });
    let mut put = |name, demand, resistance, unit, source, more: &dyn Fn() -> Vec<String>| {
        sink.put(
            Finding {
                name,
                at,
                demand,
                resistance,
                unit,
                source,
            },
            &|| {
                let mut steps = vec![words()];
                steps.extend(design.steps());
                steps.extend(more());
                steps
            },
        );
    };
    put(
        names.bending,
        moment,
        bending.m_rd_kn_m,
        "kNm",
        beam::LATERAL_SOURCE,
        &|| {
            let mut steps = vec![format!(
                "k_crit = {k_crit:.2} for a piece {:.0} × {h_mm:.0} mm",
                asked.ply_mm
            )];
            steps.extend(bending.steps());
            steps
        },
    );
    let found = timber_shear(&TimberShear {
        b_mm,
        h_mm,
        v_kn: shear,
        fvd_n_mm2: design.fvd_n_mm2,
        k_cr: asked.national.k_cr.value,
    });
    put(names.shear, shear, found.v_rd_kn, "kN", beam::SHEAR_SOURCE, &|| {
        found.steps()
    });
    for (what, load, contact) in [
        ("prop's head plate", asked.effects.strength.largest_prop_kn(), HEAD_MM),
        ("load from above", asked.load_kn, asked.contact_mm),
    ] {
        let can = f_c90_rd(&AcrossGrain {
            length_mm: contact,
            width_mm: b_mm.min(150.0),
            beyond_mm: [BEYOND_MM - HEAD_MM / 2.0; 2],
            fc90d_n_mm2: design.fc90d_n_mm2,
            k_c90: 1.0,
        });
        put(names.bearing, load, can.f_rd_kn, "kN", across::SOURCE, &|| {
            let mut steps = vec![format!("{what}: {load:.2} kN over {contact:.0} mm along the grain")];
            steps.extend(can.steps());
            steps
        });
    }
}
