//! Findings and repairs, open ones first.

use super::model::{FindingPart, PhotoPart, ReportModel};
use super::pictures::Picture;
use super::plates;
use super::sheet::{RUNNING, SOFT, STRONG, Sheet};

/// The chapter.
pub fn findings(sheet: &mut Sheet<'_>, model: &ReportModel, pictures: &[Option<Picture>]) {
    sheet.heading(1, "Findings and repairs");
    if model.findings.is_empty() {
        sheet.paragraph("No finding is in the record.", RUNNING);
    }
    let (open, closed): (Vec<&FindingPart>, Vec<&FindingPart>) = model.findings.iter().partition(|one| one.open);
    for (heading, part) in [("Open", open), ("Closed", closed)] {
        if part.is_empty() {
            continue;
        }
        sheet.heading(2, &format!("{heading}: {}", part.len()));
        for finding in part {
            self::finding(sheet, finding, &model.photos, pictures);
        }
    }
}

fn finding(sheet: &mut Sheet<'_>, finding: &FindingPart, photos: &[PhotoPart], pictures: &[Option<Picture>]) {
    sheet.need(54.0);
    let mark = if finding.open { "Open" } else { "Closed" };
    sheet.paragraph(&format!("{mark}. {}", finding.words), STRONG);
    sheet.paragraph(&finding.at, SOFT);
    sheet.paragraph(&finding.state, RUNNING);
    sheet.list(&finding.story);
    if finding.open {
        sheet.list(&finding.means);
    }
    let own: Vec<PhotoPart> = photos
        .iter()
        .filter(|photo| finding.photos.contains(&photo.number))
        .cloned()
        .collect();
    plates::plates_of(sheet, &own, photos, pictures);
    sheet.y += 4.0;
}
