//! The second pass: pages and tag tree into a PDF/A-2 file that also keeps the rules of PDF/UA-1.

use super::ReportError;
use super::fonts::{Fonts, Weight};
use super::pictures::{Drawing, Picture};
use super::sheet::{Area, CAUTION, Colour, LEAD, MARGIN, MEASURE, Node, PAGE, Role, Shape, Sheet, Style};
use krilla::color::rgb;
use krilla::configure::{Accessibility, Archival, ConfigurationBuilder};
use krilla::geom::{PathBuilder, Point, Rect, Size, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, BBox, ContentTag, Identifier, ListNumbering, SpanTag, TableHeaderScope, Tag, TagGroup,
    TagKind, TagTree,
};
use krilla::{Document, SerializeSettings};
use krilla_svg::{SurfaceExt, SvgSettings};
use std::num::NonZeroU16;

/// What stands on every page besides its contents.
pub struct Frame<'a> {
    /// Title in the file's metadata.
    pub title: &'a str,
    /// Left at the head of each page.
    pub head: &'a str,
    /// Whether DEMO stands across every page.
    pub demo: bool,
    /// When it was made, milliseconds since 1970 UTC.
    pub made_utc_ms: i64,
}

/// Writes the file.
///
/// # Errors
///
/// [`ReportError::Pdf`] if the writer or its validator refuses.
pub fn write(
    sheet: &Sheet<'_>,
    frame: &Frame<'_>,
    pictures: &[Option<Picture>],
    drawings: &[Drawing],
) -> Result<Vec<u8>, ReportError> {
    let configuration = ConfigurationBuilder::new()
        .with_archival_validator(Archival::A2_A)
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| ReportError::Pdf(format!("{error:?}")))?;
    let mut document = Document::new_with(SerializeSettings {
        configuration,
        ..SerializeSettings::default()
    });
    let mut leaves: Vec<Vec<Identifier>> = sheet.nodes.iter().map(|_| Vec::new()).collect();
    let all = sheet.pages.len();
    for (number, shapes) in sheet.pages.iter().enumerate() {
        let settings = PageSettings::from_wh(PAGE.0, PAGE.1).ok_or_else(|| ReportError::Pdf("page size".to_owned()))?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        let mut pen = Pen {
            surface: &mut surface,
            fonts: sheet.fonts,
            pictures,
            drawings,
        };
        pen.frame(frame, &sheet.caution, number + 1, all);
        for (shape, node) in shapes {
            let tag = match (node, shape) {
                (None, _) => ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)),
                (Some(_), Shape::Text(..)) => ContentTag::Span(SpanTag::empty()),
                (Some(_), _) => ContentTag::Other,
            };
            let id = pen.surface.start_tagged(tag);
            pen.shape(shape);
            pen.surface.end_tagged();
            if let Some(list) = node.and_then(|node| leaves.get_mut(node)) {
                list.push(id);
            }
        }
        if frame.demo {
            pen.demo();
        }
        surface.finish();
        page.finish();
    }
    let mut tree = TagTree::new().with_lang(Some("en-GB".to_owned()));
    for root in &sheet.roots {
        if let Some(group) = group(&sheet.nodes, &mut leaves, *root) {
            tree.push(group);
        }
    }
    document.set_tag_tree(tree);
    let mut outline = Outline::new();
    for (words, page, y) in &sheet.outline {
        let to = krilla::destination::XyzDestination::new(*page, Point::from_xy(MARGIN, (y - 24.0).max(0.0)));
        outline.push_child(OutlineNode::new(words.clone(), to));
    }
    document.set_outline(outline);
    document.set_metadata(
        Metadata::new()
            .title(frame.title.to_owned())
            .language("en-GB".to_owned())
            .creator("Upstay".to_owned())
            .creation_date(date(frame.made_utc_ms)),
    );
    document
        .finish()
        .map_err(|error| ReportError::Pdf(format!("{error}: {error:?}").chars().take(2000).collect()))
}

/// The tag group of a node with everything under it; none if nothing of it was drawn.
fn group(nodes: &[Node], leaves: &mut [Vec<Identifier>], index: usize) -> Option<TagGroup> {
    let node = nodes.get(index)?;
    let kind: TagKind = match &node.role {
        Role::Heading(level, title) => {
            Tag::Hn(NonZeroU16::new(*level).unwrap_or(NonZeroU16::MIN), Some(title.clone())).into()
        }
        Role::Paragraph => Tag::P.into(),
        Role::List => Tag::L(ListNumbering::Circle).into(),
        Role::Item => Tag::LI.into(),
        Role::Label => Tag::Lbl.into(),
        Role::Body => Tag::LBody.into(),
        Role::Table => Tag::Table.into(),
        Role::Row => Tag::TR.into(),
        Role::HeadCell => Tag::TH(TableHeaderScope::Column).into(),
        Role::Cell => Tag::TD.into(),
        Role::Figure(alt, page, area) => Tag::Figure(Some(alt.clone()))
            .with_bbox(rect(*area).map(|rect| BBox::new(*page, rect)))
            .into(),
    };
    let mut group = TagGroup::new(kind);
    let mut any = false;
    if let Some(own) = leaves.get_mut(index) {
        for id in own.drain(..) {
            group.push(id);
            any = true;
        }
    }
    for child in &node.children {
        if let Some(inner) = self::group(nodes, leaves, *child) {
            group.push(inner);
            any = true;
        }
    }
    any.then_some(group)
}

struct Pen<'p, 's> {
    surface: &'p mut Surface<'s>,
    fonts: &'p Fonts,
    pictures: &'p [Option<Picture>],
    drawings: &'p [Drawing],
}

impl Pen<'_, '_> {
    fn ink(&mut self, ink: Colour, opacity: f32) {
        let (r, g, b) = ink.rgb();
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(Fill {
            paint: rgb::Color::new(r, g, b).into(),
            opacity: NormalizedF32::new(opacity).unwrap_or(NormalizedF32::ONE),
            rule: FillRule::default(),
        }));
    }

    fn text(&mut self, x: f32, y: f32, style: Style, text: &str) {
        if text.is_empty() {
            return;
        }
        let face = self.fonts.face(style.0);
        self.surface.draw_glyphs(
            Point::from_xy(x, y),
            &face.glyphs(text),
            face.font(),
            text,
            style.1,
            false,
        );
    }

    fn shape(&mut self, shape: &Shape) {
        match shape {
            Shape::Text(x, y, style, text) => {
                self.ink(style.2, 1.0);
                self.text(*x, *y, *style, text);
            }
            Shape::Fill(area, ink) => {
                self.ink(*ink, 1.0);
                let mut path = PathBuilder::new();
                if let Some(rect) = rect(*area) {
                    path.push_rect(rect);
                }
                if let Some(path) = path.finish() {
                    self.surface.draw_path(&path);
                }
            }
            Shape::Picture(area, index) => {
                if let (Some(Some(picture)), Some(size)) = (self.pictures.get(*index), Size::from_wh(area.2, area.3)) {
                    self.surface.push_transform(&Transform::from_translate(area.0, area.1));
                    self.surface.draw_image(picture.image.clone(), size);
                    self.surface.pop();
                }
            }
            Shape::Drawing(area, index) => {
                if let (Some(drawing), Some(size)) = (self.drawings.get(*index), Size::from_wh(area.2, area.3)) {
                    self.surface.push_transform(&Transform::from_translate(area.0, area.1));
                    self.surface.draw_svg(&drawing.tree, size, SvgSettings::default());
                    self.surface.pop();
                }
            }
        }
    }

    /// Head and foot of a page.
    fn frame(&mut self, frame: &Frame<'_>, caution: &[String], number: usize, all: usize) {
        self.artifact(ArtifactType::Header);
        let small = Style(Weight::Regular, 8.0, Colour::Soft);
        let count = format!("page {number} of {all}");
        let right = self.fonts.face(Weight::Regular).width(&count, 8.0);
        let words = self.fonts.shown(&frame.head.replace(['\n', '\t'], " "));
        let words = if frame.demo { format!("DEMO: {words}") } else { words };
        let head = self.cut(&words, small, MEASURE - right - 20.0);
        self.ink(Colour::Soft, 1.0);
        self.text(MARGIN, 40.0, small, &head);
        self.text(MARGIN + MEASURE - right, 40.0, small, &count);
        self.shape(&Shape::Fill(Area(MARGIN, 46.0, MEASURE, 0.5), Colour::Rule));
        self.surface.end_tagged();
        self.artifact(ArtifactType::Footer);
        let step = CAUTION * LEAD;
        let mut y = PAGE.1 - 26.0 - caution.iter().skip(1).fold(0.0, |sum, _| sum + step);
        self.shape(&Shape::Fill(Area(MARGIN, y - step - 2.0, MEASURE, 1.0), Colour::Oxide));
        self.ink(Colour::Ink, 1.0);
        for line in caution {
            self.text(MARGIN, y, Style(Weight::Regular, CAUTION, Colour::Ink), line);
            y += step;
        }
        self.surface.end_tagged();
    }

    /// DEMO across the page, over everything, so that no picture hides it.
    fn demo(&mut self) {
        self.artifact(ArtifactType::Watermark);
        let size = 190.0;
        let wide = self.fonts.face(Weight::Bold).width("DEMO", size);
        self.surface
            .push_transform(&Transform::from_rotate_at(-52.0, PAGE.0 / 2.0, PAGE.1 / 2.0));
        self.ink(Colour::Oxide, 0.16);
        self.text(
            (PAGE.0 - wide) / 2.0,
            PAGE.1 / 2.0 + size * 0.36,
            Style(Weight::Bold, size, Colour::Oxide),
            "DEMO",
        );
        self.surface.pop();
        self.surface.end_tagged();
    }

    fn artifact(&mut self, kind: ArtifactType) {
        self.surface
            .start_tagged(ContentTag::Artifact(Artifact::with_kind(kind)));
    }

    /// A text cut to a width, with a sign that it goes on; the whole stands on the first page.
    fn cut(&self, text: &str, style: Style, width: f32) -> String {
        let face = self.fonts.face(style.0);
        if face.width(text, style.1) <= width {
            return text.to_owned();
        }
        let mut out = String::new();
        let mut used = face.width("…", style.1);
        for c in text.chars() {
            used += face.width(c.encode_utf8(&mut [0; 4]), style.1);
            if used > width {
                break;
            }
            out.push(c);
        }
        out.push('…');
        out
    }
}

fn rect(area: Area) -> Option<Rect> {
    Rect::from_xywh(area.0, area.1, area.2, area.3)
}

/// A UTC date from milliseconds since 1970, by counting 400-year cycles from 1 March of year 0.
fn date(utc_ms: i64) -> DateTime {
    let seconds = utc_ms.div_euclid(1000);
    let (days, rest) = (seconds.div_euclid(86_400), seconds.rem_euclid(86_400));
    let shifted = days.saturating_add(719_468);
    let (cycle, in_cycle) = (shifted.div_euclid(146_097), shifted.rem_euclid(146_097));
    let year_of = (in_cycle - in_cycle / 1460 + in_cycle / 36_524 - in_cycle / 146_096) / 365;
    let day_of = in_cycle - (365 * year_of + year_of / 4 - year_of / 100);
    let month_of = (5 * day_of + 2) / 153;
    let day = day_of - (153 * month_of + 2) / 5 + 1;
    let month = if month_of < 10 { month_of + 3 } else { month_of - 9 };
    let year = cycle.saturating_mul(400).saturating_add(year_of) + i64::from(month <= 2);
    let byte = |value: i64| u8::try_from(value).unwrap_or(0);
    DateTime::new(u16::try_from(year).unwrap_or(1970))
        .month(byte(month))
        .day(byte(day))
        .hour(byte(rest / 3600))
        .minute(byte(rest / 60 % 60))
        .second(byte(rest % 60))
        .utc_offset_hour(0)
        .utc_offset_minute(0)
}
