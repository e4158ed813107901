//! Embeds the pages of `ui/` and the window's configuration into the app.

fn main() {
    tauri_build::build();
}
