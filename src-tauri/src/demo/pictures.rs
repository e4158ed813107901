//! The demo's three pictures, drawn by the program: no photograph of anybody's house is shipped.

use super::exif;
use super::ink::{INK, OXIDE, Point, Sheet, WASH};
use jpeg_encoder::{ColorType, Encoder, EncodingError};

/// A picture ready to be taken into a job like any other.
pub struct Picture {
    /// File name as a camera would give it.
    pub name: &'static str,
    /// What it shows: `wall`, or a prop's name.
    pub about: String,
    /// `group`, `portrait` or `detail`.
    pub kind: &'static str,
    /// JPEG bytes with an EXIF block.
    pub bytes: Vec<u8>,
}

const WIDTH_PX: u32 = 1600;
const HEIGHT_PX: u32 = 1200;
/// JPEG quality that keeps thin lines clean.
const QUALITY: u8 = 88;

/// Draws all three; `prop` is the one that the portrait and the detail show. Times are local, as `2026:03:02 09:15:00`,
/// with their offset from UTC, as `+00:00`.
///
/// # Errors
///
/// The encoder's, which a sheet of this size does not give.
pub fn draw(prop: &str, times: [&str; 3], offset: &str) -> Result<[Picture; 3], EncodingError> {
    let [wall, portrait, detail] = times;
    Ok([
        Picture {
            name: "demo-wall.jpg",
            about: "wall".to_owned(),
            kind: "group",
            bytes: jpeg(the_wall(), wall, offset)?,
        },
        Picture {
            name: "demo-prop.jpg",
            about: prop.to_owned(),
            kind: "portrait",
            bytes: jpeg(the_prop(), portrait, offset)?,
        },
        Picture {
            name: "demo-collar.jpg",
            about: prop.to_owned(),
            kind: "detail",
            bytes: jpeg(the_collar(), detail, offset)?,
        },
    ])
}

fn jpeg(sheet: Sheet, taken: &str, offset: &str) -> Result<Vec<u8>, EncodingError> {
    let pixels = sheet.into_pixels();
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, QUALITY);
    encoder.add_app_segment(1, exif::block(taken, offset))?;
    encoder.encode(pixels.as_raw(), WIDTH_PX as u16, HEIGHT_PX as u16, ColorType::Rgb)?;
    Ok(bytes)
}

/// The house wall from the garden: a storey above, and the new opening marked on the brickwork.
fn the_wall() -> Sheet {
    let mut sheet = Sheet::new(WIDTH_PX, HEIGHT_PX, 11);
    sheet.courses((180.0, 210.0), (1420.0, 1010.0), (84.0, 28.0));
    for (left, top, right, bottom) in [(330.0, 290.0, 610.0, 500.0), (990.0, 290.0, 1270.0, 500.0)] {
        sheet.fill((left, top), (right, bottom), WASH);
        sheet.frame((left, top), (right, bottom), 6.0, INK);
        let middle = (left + right) / 2.0;
        sheet.stroke((middle, top), (middle, bottom), 4.0, INK);
        sheet.fill((left - 14.0, bottom), (right + 14.0, bottom + 12.0), INK);
    }
    sheet.path(
        &[
            (110.0, 214.0),
            (300.0, 60.0),
            (1300.0, 60.0),
            (1490.0, 214.0),
            (110.0, 214.0),
        ],
        6.0,
        INK,
    );
    for line in 1..6_u8 {
        let share = f32::from(line) / 6.0;
        sheet.stroke(
            (300.0 - 190.0 * share, 60.0 + 154.0 * share),
            (1300.0 + 190.0 * share, 60.0 + 154.0 * share),
            2.0,
            INK,
        );
    }
    let (from, to) = ((480.0, 640.0), (1120.0, 1010.0));
    for (a, b) in [(from, (to.0, from.1)), ((to.0, from.1), to), (from, (from.0, to.1))] {
        sheet.dashes(a, b, 9.0, OXIDE);
    }
    sheet.stroke((40.0, 1012.0), (1560.0, 1012.0), 7.0, INK);
    for tuft in 0..30_u8 {
        let x = 50.0 + f32::from(tuft) * 51.0;
        sheet.stroke((x, 1012.0), (x - 18.0, 1044.0), 2.0, INK);
    }
    sheet.mark_demo();
    sheet
}

/// A prop from head to foot: needle through the wall, inner and outer tube, collar, sole board.
fn the_prop() -> Sheet {
    let mut sheet = Sheet::new(WIDTH_PX, HEIGHT_PX, 23);
    sheet.courses((60.0, 60.0), (700.0, 1040.0), (150.0, 50.0));
    sheet.fill((60.0, 190.0), (1240.0, 300.0), OXIDE);
    sheet.frame((60.0, 190.0), (1240.0, 300.0), 6.0, INK);
    sheet.fill((60.0, 300.0), (700.0, 332.0), WASH);
    tube(&mut sheet, 1000.0, 26.0, (322.0, 560.0));
    tube(&mut sheet, 1000.0, 36.0, (560.0, 1000.0));
    plate(&mut sheet, (880.0, 300.0), (1120.0, 322.0));
    plate(&mut sheet, (870.0, 982.0), (1130.0, 1004.0));
    plate(&mut sheet, (940.0, 560.0), (1060.0, 604.0));
    sheet.stroke((930.0, 536.0), (1070.0, 536.0), 12.0, INK);
    sheet.fill((760.0, 1004.0), (1240.0, 1042.0), WASH);
    sheet.frame((760.0, 1004.0), (1240.0, 1042.0), 5.0, INK);
    sheet.stroke((40.0, 1044.0), (1560.0, 1044.0), 7.0, INK);
    // The plumb line beside it hangs true.
    sheet.stroke((1180.0, 330.0), (1180.0, 940.0), 2.0, INK);
    sheet.path(
        &[(1168.0, 940.0), (1192.0, 940.0), (1180.0, 976.0), (1168.0, 940.0)],
        4.0,
        INK,
    );
    sheet.mark_demo();
    sheet
}

/// Collar and pin from close by, with the thread that is left.
fn the_collar() -> Sheet {
    let mut sheet = Sheet::new(WIDTH_PX, HEIGHT_PX, 37);
    tube(&mut sheet, 800.0, 130.0, (40.0, 420.0));
    for hole in [120.0_f32, 240.0] {
        let ring: Vec<Point> = (0..=24_u8)
            .map(|step| f32::from(step) / 24.0 * std::f32::consts::TAU)
            .map(|turn| (800.0 + 26.0 * turn.cos(), hole + 26.0 * turn.sin()))
            .collect();
        sheet.path(&ring, 5.0, INK);
    }
    sheet.stroke((560.0, 372.0), (1060.0, 372.0), 40.0, INK);
    sheet.path(
        &[(1060.0, 372.0), (1120.0, 372.0), (1120.0, 450.0), (1060.0, 450.0)],
        14.0,
        INK,
    );
    plate(&mut sheet, (580.0, 420.0), (1020.0, 560.0));
    sheet.stroke((1020.0, 490.0), (1290.0, 430.0), 34.0, INK);
    tube(&mut sheet, 800.0, 176.0, (560.0, 1160.0));
    for turn in 0..14_u8 {
        let y = 580.0 + f32::from(turn) * 26.0;
        sheet.stroke((624.0, y + 14.0), (976.0, y), 5.0, INK);
    }
    sheet.mark_demo();
    sheet
}

fn tube(sheet: &mut Sheet, middle: f32, half: f32, (top, bottom): (f32, f32)) {
    sheet.fill((middle + half * 0.35, top), (middle + half, bottom), WASH);
    sheet.frame((middle - half, top), (middle + half, bottom), 5.0, INK);
}

fn plate(sheet: &mut Sheet, from: Point, to: Point) {
    sheet.fill(from, to, WASH);
    sheet.frame(from, to, 5.0, INK);
}
