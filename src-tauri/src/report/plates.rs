//! Photos on paper: three in a row under what they belong to, and the index with number, file, hash and times.

use super::blocks::count;
use super::model::PhotoPart;
use super::pictures::Picture;
use super::sheet::{Area, Colour, LEAD, MARGIN, MEASURE, RUNNING, Role, SOFT, STRONG, Shape, Sheet};

/// The photos, three in a row.
pub fn plates(sheet: &mut Sheet<'_>, photos: &[PhotoPart], pictures: &[Option<Picture>]) {
    plates_of(sheet, photos, photos, pictures);
}

/// Some of the photos, three in a row; `photos` gives each one's place among the pictures.
pub fn plates_of(sheet: &mut Sheet<'_>, chosen: &[PhotoPart], photos: &[PhotoPart], pictures: &[Option<Picture>]) {
    const ACROSS: usize = 3;
    const GAP: f32 = 10.0;
    let width = (MEASURE - 2.0 * GAP) / 3.0;
    for row in chosen.chunks(ACROSS) {
        let placed: Vec<(usize, f32, f32, Vec<String>)> = row
            .iter()
            .map(|photo| {
                let index = photos
                    .iter()
                    .position(|other| other.number == photo.number)
                    .unwrap_or(usize::MAX);
                let ratio = pictures
                    .get(index)
                    .and_then(Option::as_ref)
                    .map_or(0.3, |picture| picture.ratio);
                let (wide, high) = fitted(width, 190.0, ratio);
                // A caption keeps to three lines; the index has the whole.
                let lines = sheet.lines(&caption(photo), SOFT, width).into_iter().take(3).collect();
                (index, wide, high, lines)
            })
            .collect();
        let high = placed.iter().map(|plate| plate.2).fold(0.0, f32::max);
        let under = placed.iter().map(|plate| count(plate.3.len())).fold(0.0, f32::max) * SOFT.1 * LEAD + 3.0;
        sheet.need(high + under + 8.0);
        let mut left = MARGIN;
        for (photo, (index, wide, tall, lines)) in row.iter().zip(placed) {
            let area = Area(left, sheet.y, wide, tall);
            plate(sheet, photo, pictures, index, area);
            let node = sheet.node(Role::Paragraph, None);
            let mut y = sheet.y + high + 3.0;
            for line in lines {
                y += SOFT.1 * LEAD;
                sheet.put(Shape::Text(left, y - 2.0, SOFT, line), Some(node));
            }
            left += width + GAP;
        }
        sheet.y += high + under + 8.0;
    }
}

/// Width and height of a picture of a ratio inside a frame.
fn fitted(width: f32, most: f32, ratio: f32) -> (f32, f32) {
    let high = width * ratio;
    if high <= most {
        (width, high.max(1.0))
    } else {
        ((most / ratio).max(1.0), most)
    }
}

/// A picture, or a marked field where there is none to show.
fn plate(sheet: &mut Sheet<'_>, photo: &PhotoPart, pictures: &[Option<Picture>], index: usize, area: Area) {
    if pictures.get(index).is_some_and(Option::is_some) {
        sheet.figure(area, &caption(photo), |area| Shape::Picture(area, index));
    } else {
        sheet.put(Shape::Fill(area, Colour::Wash), None);
        let node = sheet.node(Role::Paragraph, None);
        let words = sheet.lines("No view: the file is in the pack", SOFT, (area.2 - 8.0).max(20.0));
        let mut y = area.1 + 2.0;
        for line in words {
            y += SOFT.1 * LEAD;
            sheet.put(Shape::Text(area.0 + 4.0, y, SOFT, line), Some(node));
        }
    }
}

fn caption(photo: &PhotoPart) -> String {
    let mut words = vec![format!("Photo {}", photo.number)];
    words.extend(
        [&photo.about, &photo.kind]
            .into_iter()
            .filter(|word| !word.is_empty())
            .cloned(),
    );
    words.extend(photo.times.first().cloned());
    words.extend(photo.mark.clone());
    words.join(", ")
}

/// The photo index: number, file, hash and times beside a small picture.
pub fn photo_index(sheet: &mut Sheet<'_>, photos: &[PhotoPart], pictures: &[Option<Picture>]) {
    const WIDE: f32 = 96.0;
    sheet.turn();
    sheet.heading(1, "Photos");
    if photos.is_empty() {
        sheet.paragraph("No photo is in the record.", RUNNING);
    }
    for (index, photo) in photos.iter().enumerate() {
        let ratio = pictures
            .get(index)
            .and_then(Option::as_ref)
            .map_or(0.5, |picture| picture.ratio);
        let (wide, high) = fitted(WIDE, 96.0, ratio);
        let mut words = vec![
            [photo.about.as_str(), photo.kind.as_str()].join(" ").trim().to_owned(),
            photo.file.clone(),
            format!("SHA-256 {}", photo.sha256),
        ];
        words.extend(photo.times.iter().cloned());
        words.extend(photo.mark.as_ref().map(|mark| format!("Marked: {mark}")));
        words.retain(|line| !line.is_empty());
        let measure = MEASURE - WIDE - 14.0;
        let deep = words
            .iter()
            .map(|line| count(sheet.lines(line, SOFT, measure).len()) * SOFT.1 * LEAD + 3.0)
            .sum::<f32>();
        sheet.need((deep + 18.0).max(high).min(sheet.full()) + 8.0);
        let (top, page) = (sheet.y, sheet.page());
        plate(sheet, photo, pictures, index, Area(MARGIN, top + 2.0, wide, high));
        sheet.indented(&format!("Photo {}", photo.number), STRONG, WIDE + 14.0);
        for line in &words {
            sheet.indented(line, SOFT, WIDE + 14.0);
        }
        if sheet.page() == page {
            sheet.y = sheet.y.max(top + high + 4.0);
        }
        sheet.rule(0.4, Colour::Rule);
        sheet.y += 4.0;
    }
}
