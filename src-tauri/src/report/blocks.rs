//! Blocks of a page: headings, paragraphs, lists, tables, figures; each breaks over pages by itself.

use super::fonts::Weight;
use super::sheet::{Area, Colour, LEAD, MARGIN, MEASURE, RUNNING, Role, Shape, Sheet, Style, TEXT};

/// A column of a table: heading, share of the measure, whether its cells stand right.
pub struct Column(pub &'static str, pub f32, pub bool);

/// A cell: words, weight, and a bar under them for a share used.
#[derive(Clone, Debug, Default)]
pub struct Cell {
    /// The words.
    pub words: String,
    /// Whether they are set bold.
    pub strong: bool,
    /// A share used, 1 for all of it.
    pub bar: Option<f64>,
}

impl Cell {
    /// A plain cell.
    pub fn new(words: impl Into<String>) -> Self {
        Self {
            words: words.into(),
            strong: false,
            bar: None,
        }
    }

    /// A cell in bold.
    pub fn strong(words: impl Into<String>) -> Self {
        Self {
            words: words.into(),
            strong: true,
            bar: None,
        }
    }

    /// The same cell with a bar.
    pub fn with_bar(mut self, share: Option<f64>) -> Self {
        self.bar = share;
        self
    }
}

/// Lists of a document that is to keep to a page or two.
const COMPACT: Style = Style(Weight::Regular, 7.6, Colour::Ink);
const SMALL: f32 = 8.5;
const PAD: f32 = 4.0;
const GAP: f32 = 12.0;
const BAR: f32 = 5.0;
/// Above this share the bar is hatched.
const NEAR: f64 = 0.9;

impl Sheet<'_> {
    /// A heading of level 1, 2 or 3; it never stands alone at a page's foot.
    pub fn heading(&mut self, level: u16, words: &str) {
        let size = match level {
            1 => 15.0,
            2 if self.compact => 10.0,
            2 => 11.5,
            _ => TEXT + 0.5,
        };
        let style = Style(Weight::Bold, size, Colour::Ink);
        let lines = self.lines(words, style, MEASURE);
        let under = if self.compact { 34.0 } else { 60.0 };
        self.need(size * LEAD * count(lines.len()) + under);
        self.holding(|sheet| {
            sheet.y += match (level, sheet.compact) {
                (1, false) => 16.0,
                (_, false) => 10.0,
                (_, true) => 3.0,
            };
            if level < 3 {
                sheet.rule(if level == 1 { 1.5 } else { 0.5 }, Colour::Ink);
                sheet.y += if sheet.compact { 2.0 } else { 6.0 };
            }
            let title: String = sheet.fonts.shown(words).chars().take(200).collect();
            if level == 1 {
                sheet.outline.push((title.clone(), sheet.page(), sheet.y));
            }
            let node = sheet.node(Role::Heading(level, title), None);
            sheet.set(&lines, style, MARGIN, Some(node));
            sheet.y += 3.0;
        });
    }

    /// Sets lines one under the other, turning pages.
    fn set(&mut self, lines: &[String], style: Style, left: f32, node: Option<usize>) {
        let step = style.1 * LEAD;
        for line in lines {
            self.need(step);
            self.y += step;
            self.put(Shape::Text(left, self.y - step * 0.26, style, line.clone()), node);
        }
    }

    /// A paragraph.
    pub fn paragraph(&mut self, words: &str, style: Style) {
        self.indented(words, style, 0.0);
    }

    /// A paragraph moved in by some points.
    pub fn indented(&mut self, words: &str, style: Style, indent: f32) {
        let lines = self.lines(words, style, MEASURE - indent);
        let node = self.node(Role::Paragraph, None);
        self.set(&lines, style, MARGIN + indent, Some(node));
        self.y += 3.0;
    }

    /// A list, one mark per item.
    pub fn list<S: AsRef<str>>(&mut self, items: &[S]) {
        if items.is_empty() {
            return;
        }
        let list = self.node(Role::List, None);
        let style = if self.compact { COMPACT } else { RUNNING };
        for item in items {
            let lines = self.lines(item.as_ref(), style, MEASURE - 14.0);
            self.need(style.1 * LEAD);
            let node = self.node(Role::Item, Some(list));
            let label = self.node(Role::Label, Some(node));
            let body = self.node(Role::Body, Some(node));
            let baseline = self.y + style.1 * LEAD * 0.74;
            self.put(Shape::Text(MARGIN + 2.0, baseline, style, "– ".to_owned()), Some(label));
            self.set(&lines, style, MARGIN + 14.0, Some(body));
            self.y += if self.compact { 0.5 } else { 1.5 };
        }
        self.y += 3.0;
    }

    /// A table; its head stands again on each page, and a row taller than a page goes on over pages.
    pub fn table(&mut self, columns: &[Column], rows: &[Vec<Cell>]) {
        if rows.is_empty() {
            return;
        }
        let table = self.node(Role::Table, None);
        self.need(70.0);
        self.table_head(columns, Some(table));
        let step = SMALL * LEAD;
        for row in rows {
            let laid: Vec<Laid> = places(columns)
                .zip(row)
                .map(|((left, width, right), cell)| {
                    let weight = if cell.strong { Weight::Bold } else { Weight::Regular };
                    let style = Style(weight, SMALL, Colour::Ink);
                    Laid {
                        left,
                        width,
                        right,
                        style,
                        lines: self.lines(&cell.words, style, width),
                        bar: cell.bar,
                    }
                })
                .collect();
            let most = laid.iter().map(|cell| cell.lines.len()).max().unwrap_or(0);
            let bar = if laid.iter().any(|cell| cell.bar.is_some()) {
                BAR
            } else {
                0.0
            };
            let height = step * count(most) + 2.0 * PAD + bar;
            // A row that only names those after it does not stand alone at a page's foot.
            let names = row.iter().all(|cell| cell.strong || cell.words.is_empty());
            let after = if names { 3.0 * step + 2.0 * PAD } else { 0.0 };
            if self.y + height + after > self.bottom
                && (height < self.full() - 40.0 || self.y + 3.0 * step > self.bottom)
            {
                self.turn();
                self.table_head(columns, None);
            }
            let tr = self.node(Role::Row, Some(table));
            let cells: Vec<usize> = laid.iter().map(|_| self.node(Role::Cell, Some(tr))).collect();
            self.y += PAD;
            let mut line = 0;
            while line < most {
                if self.y + step > self.bottom {
                    self.turn();
                    self.table_head(columns, None);
                    self.y += PAD;
                }
                self.y += step;
                let baseline = self.y - step * 0.26;
                for (cell, node) in laid.iter().zip(&cells) {
                    if let Some(text) = cell.lines.get(line) {
                        let left = self.set_in(text, cell.style, cell.left, cell.width, cell.right);
                        self.put(Shape::Text(left, baseline, cell.style, text.clone()), Some(*node));
                    }
                    if let Some(share) = cell.bar.filter(|_| line + 1 == cell.lines.len()) {
                        self.bar(cell.left, cell.width, share);
                    }
                }
                line += 1;
            }
            self.y += PAD + bar;
            self.rule(0.4, Colour::Rule);
        }
        self.y += 8.0;
    }

    /// The row of column headings; read out once only.
    fn table_head(&mut self, columns: &[Column], table: Option<usize>) {
        let style = Style(Weight::Regular, 8.0, Colour::Soft);
        let row = table.map(|table| self.node(Role::Row, Some(table)));
        let step = 8.0 * LEAD;
        let laid: Vec<Laid> = columns
            .iter()
            .zip(places(columns))
            .map(|(column, (left, width, right))| Laid {
                left,
                width,
                right,
                style,
                lines: self.lines(column.0, style, width),
                bar: None,
            })
            .collect();
        let most = laid.iter().map(|cell| cell.lines.len()).max().unwrap_or(0);
        self.y += 2.0;
        for cell in &laid {
            let node = row.map(|row| self.node(Role::HeadCell, Some(row)));
            let mut y = self.y;
            for text in &cell.lines {
                y += step;
                let left = self.set_in(text, style, cell.left, cell.width, cell.right);
                self.put(Shape::Text(left, y - step * 0.26, style, text.clone()), node);
            }
        }
        self.y += step * count(most) + 2.0;
        self.rule(0.8, Colour::Ink);
    }

    /// Where a line begins in its column.
    fn set_in(&self, text: &str, style: Style, left: f32, width: f32, right: bool) -> f32 {
        if right {
            left + width - self.fonts.face(style.0).width(text.trim_end(), style.1)
        } else {
            left
        }
    }

    /// A bar that shows a share used: hatched near the limit, red oxide beyond it.
    fn bar(&mut self, left: f32, width: f32, share: f64) {
        let y = self.y + 1.0;
        self.put(Shape::Fill(Area(left, y, width, 3.0), Colour::Wash), None);
        #[expect(clippy::cast_possible_truncation, reason = "a share between 0 and 1 for drawing")]
        let part = if share.is_finite() {
            share.clamp(0.0, 1.0) as f32
        } else {
            1.0
        };
        if share > 1.0 {
            self.put(Shape::Fill(Area(left, y, width, 3.0), Colour::Oxide), None);
        } else if share > NEAR {
            let mut at = 0.0;
            while at < width * part {
                self.put(
                    Shape::Fill(Area(left + at, y, 2.0_f32.min(width * part - at), 3.0), Colour::Ink),
                    None,
                );
                at += 3.5;
            }
        } else if part > 0.0 {
            self.put(Shape::Fill(Area(left, y, width * part, 3.0), Colour::Ink), None);
        }
    }

    /// Places a figure of a shape `width` × `height` made by `shape`, with its alternative text.
    pub fn figure(&mut self, area: Area, words: &str, shape: impl FnOnce(Area) -> Shape) {
        let alt: String = self.fonts.shown(words).chars().take(1000).collect();
        let node = self.node(Role::Figure(alt, self.page(), area), None);
        self.put(shape(area), Some(node));
    }
}

/// A cell laid out in its column.
struct Laid {
    left: f32,
    width: f32,
    right: bool,
    style: Style,
    lines: Vec<String>,
    bar: Option<f64>,
}

/// Left edge and width of each column, and whether its cells stand right.
fn places(columns: &[Column]) -> impl Iterator<Item = (f32, f32, bool)> + '_ {
    let mut left = MARGIN;
    columns.iter().map(move |Column(_, share, right)| {
        let width = MEASURE * share;
        let place = (left, width - GAP, *right);
        left += width;
        place
    })
}

/// A count of lines as a factor of heights.
pub fn count(lines: usize) -> f32 {
    // Heights are points on a page; far fewer lines than the exact range of f32.
    u16::try_from(lines).map_or(f32::from(u16::MAX), f32::from)
}
