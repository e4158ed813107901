//! Embeds the pages of `ui/` and the window's configuration into the app.

fn main() {
    // Newer phones have pages of memory of 16 KB, which older linkers do not take into account by themselves.
    if std::env::var("CARGO_CFG_TARGET_OS").is_ok_and(|os| os == "android") {
        println!("cargo:rustc-link-arg-cdylib=-Wl,-z,max-page-size=16384");
    }
    tauri_build::build();
}
