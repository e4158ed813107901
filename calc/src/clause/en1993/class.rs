//! Class of a section in bending about its strong axis.

use crate::source::{Seen, Source};
use crate::tables::steel::SteelSection;
use serde::Serialize;

/// Source of [`section_class`].
pub const SOURCE: Source = Source::new("EN 1993-1-1:2005", "5.5.2, Table 5.2", Seen::Memory);

/// Result of [`section_class`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ClassResult {
    /// ε = √(235/f_y).
    pub epsilon: f64,
    /// c/t of the flange in compression.
    pub flange_ratio: f64,
    /// Limits of the flange for classes 1, 2 and 3.
    pub flange_limits: [f64; 3],
    /// Class of the flange.
    pub flange_class: u8,
    /// c/t of the web in bending.
    pub web_ratio: f64,
    /// Limits of the web for classes 1, 2 and 3.
    pub web_limits: [f64; 3],
    /// Class of the web.
    pub web_class: u8,
    /// Class of the section, the worse of both.
    pub class: u8,
}

fn class_of(ratio: f64, limits: [f64; 3]) -> u8 {
    let [one, two, three] = limits;
    match ratio {
        r if r <= one => 1,
        r if r <= two => 2,
        r if r <= three => 3,
        _ => 4,
    }
}

/// Class of a section bent about its strong axis: outstand flanges 9, 10, 14 ε; flanges of hollow sections 33, 38, 42 ε;
/// webs 72, 83, 124 ε.
#[must_use]
pub fn section_class(section: &SteelSection, fy_n_mm2: f64) -> ClassResult {
    let epsilon = (235.0 / fy_n_mm2).sqrt();
    let (flange_ratio, flange, web_ratio) = if section.is_hollow() {
        let t = section.tw_mm;
        (
            (section.b_mm - 3.0 * t) / t,
            [33.0, 38.0, 42.0],
            (section.h_mm - 3.0 * t) / t,
        )
    } else {
        let outstand = (section.b_mm - section.tw_mm - 2.0 * section.r_mm) / 2.0;
        let web = section.h_mm - 2.0 * section.tf_mm - 2.0 * section.r_mm;
        (outstand / section.tf_mm, [9.0, 10.0, 14.0], web / section.tw_mm)
    };
    let flange_limits = flange.map(|limit| limit * epsilon);
    let web_limits = [72.0, 83.0, 124.0].map(|limit| limit * epsilon);
    let (flange_class, web_class) = (class_of(flange_ratio, flange_limits), class_of(web_ratio, web_limits));
    ClassResult {
        epsilon,
        flange_ratio,
        flange_limits,
        flange_class,
        web_ratio,
        web_limits,
        web_class,
        class: flange_class.max(web_class),
    }
}

impl ClassResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let limits = |l: [f64; 3]| l.map(|x| format!("{x:.2}")).join(", ");
        vec![
            format!("ε = √(235/f_y) = {:.3}", self.epsilon),
            format!(
                "flange c/t = {:.2}, limits {}: class {}",
                self.flange_ratio,
                limits(self.flange_limits),
                self.flange_class
            ),
            format!(
                "web c/t = {:.2}, limits {}: class {}",
                self.web_ratio,
                limits(self.web_limits),
                self.web_class
            ),
        ]
    }
}
