//! Steel.

pub mod buckling;
pub mod class;
pub mod ltb;
pub mod resistance;
pub mod web;
