//! Drawings to scale as SVG text: the house as a stack, the support from the front, from the side and from above.
//!
//! Three inks with one meaning each: ink for the house and the words, red oxide for what bears, blue pencil for what is
//! measured. Every sketch is [`WIDTH`] units wide, says in words what it shows, and holds no style sheet and no script.
//! Words never lie over words: one that finds no free place is left out, since every figure stands in a table as well.

mod front;
mod pen;
mod place;
mod plan;
mod side;
mod stack;
#[cfg(test)]
mod tests;

pub use front::front;
pub(crate) use pen::{Anchor, Look, Pen, plain, short};
pub use pen::{SIZE, WIDTH, escaped, width as text_width};
pub use plan::plan;
pub use side::side;
pub use stack::stack;
