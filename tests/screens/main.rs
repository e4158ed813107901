//! The screens in a headless browser with touch, the app's real commands behind them.
//!
//! Every test has an app of its own (a runtime without a window, an empty data folder) and a page of its own; the pages come
//! from `ui/` as they are, at the address and with the content policy that they have on a phone. `UPSTAY_UI` names another
//! folder of pages, so that pages can be tried without a build. `UPSTAY_SHOTS` names a folder for pictures.
#![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

mod app;
mod axe;
mod bench;
mod browser;
mod checked;
mod demo;
mod drafts;
mod german;
mod helps;
mod hostile;
mod jobs;
mod keyboard;
mod list;
mod long_record;
mod novice;
mod page;
mod paths;
mod phone;
mod phone_hands;
mod phone_photos;
mod pictures;
mod proposal;
mod sight;
mod states;
mod store;
mod view;
#[path = "../window/wall_photo.rs"]
mod wall_photo;
mod words;
