//! The sheet: what stands where on which page, and the tag tree that gives the reading order.
//!
//! Laying out and drawing are two passes. The first fills pages with plain shapes and builds the tree; only then is the
//! number of pages known, and the second pass draws everything in one go.

use super::fonts::{Fonts, Weight};
use super::lines::broken;

/// A4, points.
pub const PAGE: (f32, f32) = (595.28, 841.89);
/// Left and right margin, points.
pub const MARGIN: f32 = 48.0;
/// Width between the margins, points.
pub const MEASURE: f32 = PAGE.0 - 2.0 * MARGIN;
/// Where the contents of a page begin, points from its top.
pub const TOP: f32 = 66.0;
/// Size of running text, points.
pub const TEXT: f32 = 9.5;
/// Distance of two lines as a share of the size.
pub const LEAD: f32 = 1.35;
/// Size of the caution at the foot of each page, points.
pub const CAUTION: f32 = 7.5;

/// The inks: one meaning each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colour {
    /// House and words.
    Ink,
    /// Second words.
    Soft,
    /// Rules.
    Rule,
    /// What bears and what warns.
    Oxide,
    /// Ground of a bar.
    Wash,
}

impl Colour {
    /// Red, green, blue.
    pub const fn rgb(self) -> (u8, u8, u8) {
        match self {
            Self::Ink => (0x16, 0x24, 0x2c),
            Self::Soft => (0x5b, 0x68, 0x70),
            Self::Rule => (0xc9, 0xc3, 0xb4),
            Self::Oxide => (0xa3, 0x34, 0x1a),
            Self::Wash => (0xec, 0xe7, 0xda),
        }
    }
}

/// A rectangle in points from the page's top left: x, y, width, height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area(pub f32, pub f32, pub f32, pub f32);

/// One thing to draw.
#[derive(Clone, Debug)]
pub enum Shape {
    /// A line of text: left, baseline.
    Text(f32, f32, Style, String),
    /// A filled rectangle.
    Fill(Area, Colour),
    /// Photo number n of the pictures.
    Picture(Area, usize),
    /// Sketch number n.
    Drawing(Area, usize),
}

/// Weight, size in points and ink of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style(pub Weight, pub f32, pub Colour);

/// Running text.
pub const RUNNING: Style = Style(Weight::Regular, TEXT, Colour::Ink);
/// Second words.
pub const SOFT: Style = Style(Weight::Regular, 8.5, Colour::Soft);
/// Names and answers.
pub const STRONG: Style = Style(Weight::Bold, TEXT, Colour::Ink);

/// What a part of the document is.
#[derive(Clone, Debug, PartialEq)]
pub enum Role {
    /// A heading of a level.
    Heading(u16, String),
    /// A paragraph.
    Paragraph,
    /// A list.
    List,
    /// One item of it.
    Item,
    /// The item's mark.
    Label,
    /// The item's words.
    Body,
    /// A table.
    Table,
    /// One row of it.
    Row,
    /// A cell at the head of a column.
    HeadCell,
    /// Another cell.
    Cell,
    /// A picture or drawing with its alternative text, page and place.
    Figure(String, usize, Area),
}

/// A node of the tag tree; shapes point to it, its child nodes follow by index.
#[derive(Clone, Debug)]
pub struct Node {
    /// What it is.
    pub role: Role,
    /// Its child nodes.
    pub children: Vec<usize>,
}

/// Pages being filled.
pub struct Sheet<'f> {
    /// The fonts to measure with.
    pub fonts: &'f Fonts,
    /// Shapes of each page with the node each belongs to; none for what is not read out.
    pub pages: Vec<Vec<(Shape, Option<usize>)>>,
    /// Where the next block begins, points from the page's top.
    pub y: f32,
    /// Lowest line of the contents.
    pub bottom: f32,
    /// Tag tree.
    pub nodes: Vec<Node>,
    /// Nodes at the top of the tree.
    pub roots: Vec<usize>,
    /// Main headings: words, page, height.
    pub outline: Vec<(String, usize, f32)>,
    /// Lines of the caution.
    pub caution: Vec<String>,
    /// Whether lists and headings are set closer and smaller.
    pub compact: bool,
    /// Headings that nothing stands under yet: they go along when the page turns.
    held: Option<Held>,
}

/// Where headings begin that wait for their contents.
#[derive(Clone, Copy, Debug)]
struct Held {
    page: usize,
    first_shape: usize,
    y: f32,
}

impl Shape {
    /// The same, moved down by `by` points.
    fn moved(self, by: f32) -> Self {
        let down = |Area(x, y, width, height): Area| Area(x, y + by, width, height);
        match self {
            Self::Text(x, y, style, text) => Self::Text(x, y + by, style, text),
            Self::Fill(area, ink) => Self::Fill(down(area), ink),
            Self::Picture(area, index) => Self::Picture(down(area), index),
            Self::Drawing(area, index) => Self::Drawing(down(area), index),
        }
    }
}

impl<'f> Sheet<'f> {
    /// An empty sheet whose pages leave room for the caution.
    pub fn new(fonts: &'f Fonts, caution: &str) -> Self {
        let caution = broken(fonts.face(Weight::Regular), &fonts.shown(caution), CAUTION, MEASURE);
        let foot = caution.iter().fold(0.0, |sum, _| sum + CAUTION * LEAD);
        // A caution of absurd length must not push the contents off the page.
        let bottom = (PAGE.1 - 40.0 - foot).max(PAGE.1 / 2.0);
        Self {
            fonts,
            pages: vec![Vec::new()],
            y: TOP,
            bottom,
            nodes: Vec::new(),
            roots: Vec::new(),
            outline: Vec::new(),
            caution,
            compact: false,
            held: None,
        }
    }

    /// Adds a node under another, or at the top.
    pub fn node(&mut self, role: Role, under: Option<usize>) -> usize {
        let index = self.nodes.len();
        self.nodes.push(Node {
            role,
            children: Vec::new(),
        });
        match under.and_then(|parent| self.nodes.get_mut(parent)) {
            Some(parent) => parent.children.push(index),
            None => self.roots.push(index),
        }
        index
    }

    /// Puts a shape on the page.
    pub fn put(&mut self, shape: Shape, node: Option<usize>) {
        self.held = None;
        if let Some(page) = self.pages.last_mut() {
            page.push((shape, node));
        }
    }

    /// Index of the page being filled.
    pub fn page(&self) -> usize {
        self.pages.len().saturating_sub(1)
    }

    /// Sets a heading by `set`, and remembers that nothing stands under it yet.
    pub fn holding(&mut self, set: impl FnOnce(&mut Self)) {
        let here = Held {
            page: self.page(),
            first_shape: self.pages.last().map_or(0, Vec::len),
            y: self.y,
        };
        let before = self.held.filter(|held| held.page == here.page).unwrap_or(here);
        set(self);
        self.held = (before.page == self.page()).then_some(before);
    }

    /// Begins a page unless this one is still empty. A heading that nothing stands under yet comes along.
    pub fn turn(&mut self) {
        let held = self.held.take();
        match held.filter(|held| held.page == self.page()) {
            Some(held) if held.first_shape > 0 => {
                let by = TOP - held.y;
                let along = match self.pages.last_mut() {
                    Some(page) => page.split_off(held.first_shape.min(page.len())),
                    None => Vec::new(),
                };
                let moved = along.into_iter().map(|(shape, node)| (shape.moved(by), node));
                self.pages.push(moved.collect());
                let page = self.page();
                for entry in self
                    .outline
                    .iter_mut()
                    .filter(|entry| entry.1 == held.page && entry.2 >= held.y)
                {
                    entry.1 = page;
                    entry.2 += by;
                }
                self.y += by;
            }
            // Nothing but headings on the page: what follows finds its room under them.
            Some(_) if self.y < TOP + self.full() / 2.0 => {}
            _ => {
                if self.pages.last().is_some_and(|page| !page.is_empty()) {
                    self.pages.push(Vec::new());
                }
                self.y = TOP;
            }
        }
    }

    /// Begins a page if less than `height` is left.
    pub fn need(&mut self, height: f32) {
        if self.y + height > self.bottom {
            self.turn();
        }
    }

    /// Height of a full page's contents.
    pub fn full(&self) -> f32 {
        self.bottom - TOP
    }

    /// Lines of a text, its characters made fit to show.
    pub fn lines(&self, text: &str, style: Style, width: f32) -> Vec<String> {
        broken(self.fonts.face(style.0), &self.fonts.shown(text), style.1, width)
    }

    /// A horizontal rule across the measure at the present height.
    pub fn rule(&mut self, thickness: f32, ink: Colour) {
        let y = self.y;
        self.put(Shape::Fill(Area(MARGIN, y, MEASURE, thickness), ink), None);
        self.y += thickness;
    }
}
