//! Photos on paper: three in a row under what they belong to, and the index with number, file, hash and times.

use super::blocks::count;
use super::model::PhotoPart;
use super::pictures::{Drawing, Picture};
use super::sheet::{Area, Colour, LEAD, MARGIN, MEASURE, RUNNING, Role, SOFT, STRONG, Shape, Sheet};

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
        let words = sheet.lines(&no_view(photo), SOFT, (area.2 - 8.0).max(20.0));
        let mut y = area.1 + 2.0;
        for line in words {
            y += SOFT.1 * LEAD;
            sheet.put(Shape::Text(area.0 + 4.0, y, SOFT, line), Some(node));
        }
    }
}

fn no_view(photo: &PhotoPart) -> String {
    if photo.in_pack {
        "No view here: the file is in the pack".to_owned()
    } else {
        "No view here, and the file is not in this pack".to_owned()
    }
}

/// Drawings and photos together, three in a row, each under its words.
pub fn mixed(sheet: &mut Sheet<'_>, drawings: &[Drawing], photos: &[PhotoPart], pictures: &[Option<Picture>]) {
    const ACROSS: usize = 3;
    const GAP: f32 = 12.0;
    const MOST: f32 = 118.0;
    const MOST_PHOTO: f32 = 78.0;
    let width = (MEASURE - 2.0 * GAP) / 3.0;
    let drawn = drawings.iter().enumerate().map(|(index, drawing)| {
        let size = drawing.tree.size();
        let high = fitted(width, MOST, size.height() / size.width());
        (None, index, high, drawing.title.clone(), STRONG)
    });
    let taken = photos.iter().enumerate().map(|(index, photo)| {
        let picture = pictures.get(index).and_then(Option::as_ref);
        let high = fitted(width, MOST_PHOTO, picture.map_or(0.3, |picture| picture.ratio));
        (Some(photo), index, high, called(photo), SOFT)
    });
    let all: Vec<_> = drawn.chain(taken).collect();
    for row in all.chunks(ACROSS) {
        let heads: Vec<Vec<String>> = row
            .iter()
            .map(|item| sheet.lines(&item.3, item.4, width).into_iter().take(2).collect())
            .collect();
        let head = heads.iter().map(|lines| count(lines.len())).fold(0.0, f32::max) * STRONG.1 * LEAD + 5.0;
        let high = row.iter().map(|item| item.2.1).fold(0.0, f32::max);
        sheet.need(head + high + 8.0);
        let (top, mut left) = (sheet.y, MARGIN);
        for ((photo, index, (wide, tall), _, style), lines) in row.iter().zip(heads) {
            let node = sheet.node(Role::Paragraph, None);
            let mut y = top;
            for line in lines {
                y += style.1 * LEAD;
                sheet.put(Shape::Text(left, y, *style, line), Some(node));
            }
            let area = Area(left, top + head, *wide, *tall);
            match (photo, drawings.get(*index)) {
                (Some(photo), _) => plate(sheet, photo, pictures, *index, area),
                (None, Some(drawing)) => sheet.figure(area, &drawing.words, |area| Shape::Drawing(area, *index)),
                (None, None) => {}
            }
            left += width + GAP;
        }
        sheet.y = top + head + high + 8.0;
    }
}

/// Number, what it shows and its kind.
fn called(photo: &PhotoPart) -> String {
    let number = format!("Photo {}", photo.number);
    let words = [&number, &photo.about, &photo.kind].into_iter();
    words
        .filter(|word| !word.is_empty())
        .cloned()
        .collect::<Vec<_>>()
        .join(", ")
}

fn caption(photo: &PhotoPart) -> String {
    let mut words = vec![called(photo)];
    words.extend(photo.times.first().cloned());
    words.extend(photo.mark.clone());
    words.join(", ")
}

/// The photo index: number, file, hash and times beside a small picture.
pub fn photo_index(sheet: &mut Sheet<'_>, photos: &[PhotoPart], pictures: &[Option<Picture>]) {
    const WIDE: f32 = 96.0;
    sheet.heading(1, "Photos");
    if photos.is_empty() {
        sheet.paragraph("No photo is in the record.", RUNNING);
    } else {
        sheet.paragraph(
            "Names say what is shown, the day and the kind. D01 is the day the job was begun, D02 the day after, days without an entry counted; of several alike each after the first has a number at its end. A name follows from the entry that added the photo and stays when what it shows is corrected.",
            SOFT,
        );
    }
    for (index, photo) in photos.iter().enumerate() {
        let ratio = pictures
            .get(index)
            .and_then(Option::as_ref)
            .map_or(0.5, |picture| picture.ratio);
        let (wide, high) = fitted(WIDE, 96.0, ratio);
        let mut words = vec![
            [photo.about.as_str(), photo.kind.as_str()].join(" ").trim().to_owned(),
            if photo.in_pack {
                photo.file.clone()
            } else {
                format!("{}: not in this pack", photo.file)
            },
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
