//! Rules of the site that are data, not formulas.

use crate::source::{Seen, Source};

/// Source of [`INSPECTION`].
pub const INSPECTION_SOURCE: Source = Source::new(
    "SafeWork NSW, masonry walls; EM 385-1-1 section 27",
    "start of each day or shift, after weather and events",
    Seen::Text,
);
/// When the support is looked at.
pub const INSPECTION: &str = "start of each day and after adverse weather; and after any event";

/// Source of the dry pack.
pub const DRY_PACK_SOURCE: Source = Source::new(
    "Bureau of Reclamation, guide to concrete repair",
    "dry pack",
    Seen::Secondary("a trade journal"),
);
/// Cement to sand of dry pack.
pub const DRY_PACK_MIX: &str = "1:2.5";
/// Thickness of one layer of dry pack, mm.
pub const DRY_PACK_LAYER_MM: f64 = 10.0;
