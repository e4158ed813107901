//! The whole app in its real window, driven through the system's own WebDriver, as a person would use it.
//!
//! Every test starts a display, a driver and the app with an empty home folder, and ends each by its own process id.
//! Where a display server or the driver is missing, a test says NOT RUN and why; with `UPSTAY_REQUIRE_ALL=1` that fails.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

mod commands;
mod hand;
mod kept;
mod measure;
mod opens;
mod people;
mod record;
mod refused;
mod round;
mod stage;
mod start;
mod support;
mod tilt;
mod wall_photo;
mod whole;
mod words;
