//! Documents for paper: the report of a pack and the engineer's brief.
//!
//! A4, fonts embedded, tagged, PDF/A-2a with the accessibility rules of PDF/UA-1, checked by the writer's own validator
//! before a byte is handed out. Photos go in as the JPEG bytes they are, by reference until the file is read. The caution and the job's name stand on every
//! page; a demo says DEMO across every page. What the fonts lack is shown as an escaped code point, never dropped.

mod blocks;
mod card;
mod changes;
mod checks;
mod closing;
mod cover;
mod curves;
mod draw;
mod findings;
mod fonts;
mod lay;
mod lines;
mod model;
mod option;
mod pictures;
mod plates;
mod proposal;
mod record;
mod rounds;
mod sheet;
mod splice;
mod stops;
mod values;
mod words;

pub use card::card_pdf;
pub use lay::lay_over;
pub use model::{
    BriefModel, CorrectionPart, CurvePart, EntryLine, FindingPart, ImportPart, PermitPart, PhotoPart, ReportModel,
    RoundPart, SealLine, Sketch, StopPart, SummaryPart,
};
pub use words::{day, days_drawn, group_words, in_words, when};

use crate::pieces::Pieces;
use fonts::Fonts;
use sheet::{RUNNING, SOFT, Sheet};

/// Why a document could not be made.
#[derive(Debug, thiserror::Error)]
pub enum ReportError {
    /// A font that rides in the program cannot be read.
    #[error("a font of the program cannot be read")]
    Font,
    /// A sketch is not a drawing: its title and what is wrong.
    #[error("the sketch {0:?} cannot be read: {1}")]
    Sketch(String, String),
    /// The PDF writer or its validator refused.
    #[error("the PDF cannot be written: {0}")]
    Pdf(String),
}

impl ReportError {
    /// Stable code for the screens.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Font => "report_font",
            Self::Sketch(..) => "report_sketch",
            Self::Pdf(_) => "report_pdf",
        }
    }
}

/// The pack's `report.pdf`. Its photos are still where they lie, and are read as it is written.
///
/// # Errors
///
/// [`ReportError`] if a sketch is not a drawing or the writer refuses.
pub fn report_pdf(model: &ReportModel) -> Result<Pieces, ReportError> {
    let fonts = Fonts::new()?;
    // Sketches first, curves behind them: both are drawn by their place in one list.
    let curves = model.curves.iter().map(|curve| &curve.sketch);
    let drawings = pictures::drawings(model.sketches.iter().chain(curves), &fonts)?;
    let (pictures, inserts) = pictures::pictures(&model.photos);
    let mut sheet = Sheet::new(&fonts, &model.caution);
    let sketches = drawings.get(..model.sketches.len()).unwrap_or_default();
    cover::cover(&mut sheet, model);
    closing::summary(&mut sheet, model);
    proposal::proposal(&mut sheet, model, sketches);
    stops::stops(&mut sheet, model, &pictures);
    rounds::rounds(&mut sheet, model, &pictures);
    findings::findings(&mut sheet, model, &pictures);
    curves::curves(&mut sheet, model, &drawings);
    changes::changes(&mut sheet, model);
    record::entries(&mut sheet, model);
    plates::photo_index(&mut sheet, &model.photos, &pictures);
    record::by_hand(&mut sheet);
    let title: String = fonts
        .shown(&format!("Upstay record: {}", model.job_name))
        .chars()
        .take(200)
        .collect();
    let frame = draw::Frame {
        title: &title,
        head: &model.job_name,
        demo: model.demo,
        made_utc_ms: model.made_utc_ms,
    };
    with_photos(&draw::write(&sheet, &frame, &pictures, &drawings)?, &inserts)
}

/// The engineer's brief, one or two pages to send.
///
/// # Errors
///
/// As [`report_pdf`], and where a photo's view cannot be read.
pub fn brief_pdf(model: &BriefModel) -> Result<Vec<u8>, ReportError> {
    let fonts = Fonts::new()?;
    let drawings = pictures::drawings(model.sketches.iter(), &fonts)?;
    let (pictures, inserts) = pictures::pictures(&model.photos);
    let mut sheet = Sheet::new(&fonts, &model.caution);
    // One or two pages to send.
    sheet.compact = true;
    sheet.heading(1, &model.title);
    sheet.paragraph(&format!("{}, {}", model.job_name, model.place), RUNNING);
    sheet.paragraph(&format!("Made {}", model.made_at), SOFT);
    for (heading, lines) in &model.sections {
        sheet.heading(2, heading);
        let lines: Vec<String> = lines.iter().map(|line| in_words(line)).collect();
        sheet.list(&lines);
    }
    if !(drawings.is_empty() && model.photos.is_empty()) {
        sheet.heading(2, "Drawings and photos");
        plates::mixed(&mut sheet, &drawings, &model.photos, &pictures);
    }
    let title: String = fonts
        .shown(&format!("{}: {}", model.title, model.job_name))
        .chars()
        .take(200)
        .collect();
    let frame = draw::Frame {
        title: &title,
        head: &model.job_name,
        demo: model.demo,
        made_utc_ms: model.made_utc_ms,
    };
    let written = draw::write(&sheet, &frame, &pictures, &drawings)?;
    let whole = with_photos(&written, &inserts)?.whole();
    whole.map_err(|why| ReportError::Pdf(format!("a photo cannot be read ({why})")))
}

/// The written file with the photos in the places that were kept for them.
fn with_photos(written: &[u8], inserts: &[splice::Insert]) -> Result<Pieces, ReportError> {
    let unknown = || ReportError::Pdf("the places of the photos were not found".to_owned());
    splice::spliced(written, inserts).ok_or_else(unknown)
}
