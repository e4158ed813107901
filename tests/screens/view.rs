//! Through what a person looks: the sizes, themes and text sizes of the tests.

use crate::page::Page;
use serde_json::json;

/// A device: its page in CSS pixels, its text size, its theme.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct View {
    /// Width of the page in pixels.
    pub width: u32,
    /// Height of the page in pixels.
    pub height: u32,
    /// The system's text size in per cent.
    pub text: u32,
    /// Whether the system is dark.
    pub dark: bool,
    /// A finger or, where not, a mouse.
    pub touch: bool,
    /// Pixels of the screen for one of the page.
    pub sharp: u32,
}

/// The phone that the screens are made for.
pub const PHONE: View = View {
    width: 360,
    height: 740,
    text: 100,
    dark: false,
    touch: true,
    sharp: 1,
};
/// A small old phone.
pub const SMALL: View = View {
    width: 320,
    height: 640,
    ..PHONE
};
/// The phone on its side.
pub const LANDSCAPE: View = View {
    width: 740,
    height: 360,
    ..PHONE
};
/// A tablet.
pub const TABLET: View = View {
    width: 768,
    height: 1024,
    ..PHONE
};
/// A window on a desk, worked with a mouse and keys.
pub const DESK: View = View {
    width: 1100,
    height: 800,
    touch: false,
    ..PHONE
};
/// The phone of somebody who reads large text.
pub const LARGE_TEXT: View = View { text: 200, ..PHONE };

impl View {
    /// The same in the evening.
    pub const fn dark(self) -> Self {
        Self { dark: true, ..self }
    }

    /// A short name, as `360x740 dark 200%`.
    pub fn name(&self) -> String {
        let dark = if self.dark { " dark" } else { "" };
        let text = if self.text == 100 {
            String::new()
        } else {
            format!(" {} %", self.text)
        };
        format!("{}x{}{dark}{text}", self.width, self.height)
    }

    /// Makes a page look so from now on.
    pub fn put(&self, page: &Page) {
        page.call(
            "Emulation.setDeviceMetricsOverride",
            json!({"width": self.width, "height": self.height, "deviceScaleFactor": self.sharp, "mobile": self.touch}),
        );
        page.call(
            "Emulation.setTouchEmulationEnabled",
            json!({"enabled": self.touch, "maxTouchPoints": if self.touch { 5 } else { 1 }}),
        );
        let theme = if self.dark { "dark" } else { "light" };
        page.call(
            "Emulation.setEmulatedMedia",
            json!({"features": [
                {"name": "prefers-color-scheme", "value": theme}, {"name": "prefers-reduced-motion", "value": "reduce"}
            ]}),
        );
        page.call(
            "Page.setFontSizes",
            json!({"fontSizes": {"standard": 16 * self.text / 100, "fixed": 13 * self.text / 100}}),
        );
    }
}
