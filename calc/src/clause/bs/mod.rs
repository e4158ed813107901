//! British publications: lintels, old masonry tables, weights, cracks, handling, site rules.

pub mod bs5628;
pub mod bs5977;
pub mod cracks;
pub mod handling;
pub mod site;
pub mod weights;
