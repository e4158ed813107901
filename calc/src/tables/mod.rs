//! Tables: sections, timber, masonry, ground. Props have their own module. Every table names its source.

pub mod ground;
pub mod masonry;
pub mod members;
pub mod steel;
pub mod timber;

pub use members::{Member, MemberError, NamedSection, parse_member};
