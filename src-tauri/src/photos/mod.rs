//! Photos: taken in as they come, kept untouched under their SHA-256, shown by copies.
//!
//! Decision: nothing photographed is ever lost. Whatever is an image by its signature is kept, also when it is cut short,
//! of a kind that cannot be shown here, or too large to be opened; the words say so. Refused is only what is no image, is
//! empty, or exceeds the byte limit.

mod capture;
mod error;
mod format;
mod intake;
mod photo;
mod shown;
mod view;

pub use error::PhotoError;
pub use format::{BYTE_LIMIT, Format, PIXEL_LIMIT, State};
pub use intake::{Arrived, Facts, Meta, Named, PhotoKind, arrived, facts, intake, intake_file, intake_with, read_file};
pub use photo::{EntryRef, Photo, list, page, taken_in, unnamed};
pub use shown::{Shown, shown};
pub use view::{Pixels, Size, jpeg_of, picture, picture_piece, pixels};
