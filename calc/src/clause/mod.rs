//! Clauses of standards as functions: an argument struct with the unit in each field's name, a result struct with every
//! intermediate value, and `steps()` that writes the derivation out only when it is asked for.

pub mod beam;
pub mod bs;
pub mod en1990;
pub mod en1991;
pub mod en1993;
pub mod en1995;
pub mod en1996;
pub mod ground;
pub mod national;
pub mod registry;
pub mod sideways;
pub mod statics;
pub mod struts;
pub mod units;

pub use national::{Annex, NationalParameters};
pub use registry::{ArgError, Entry, Evaluation, evaluate, registry};

#[cfg(test)]
mod laws;
