//! Embeds the pages of `ui/`, the fonts of the papers and the window's configuration into the app.

use flate2::Compression;
use flate2::write::ZlibEncoder;
use std::error::Error;
use std::io::Write;
use std::path::Path;

fn main() -> Result<(), Box<dyn Error>> {
    // Newer phones have pages of memory of 16 KB, which older linkers do not take into account by themselves.
    if std::env::var("CARGO_CFG_TARGET_OS").is_ok_and(|os| os == "android") {
        println!("cargo:rustc-link-arg-cdylib=-Wl,-z,max-page-size=16384");
    }
    for font in ["DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf"] {
        squeeze(font)?;
    }
    tauri_build::build();
    Ok(())
}

/// Lays a font where the app's source finds it, at half its size.
fn squeeze(font: &str) -> Result<(), Box<dyn Error>> {
    let from = Path::new("fonts").join(font);
    println!("cargo:rerun-if-changed={}", from.display());
    let to = Path::new(&std::env::var("OUT_DIR")?).join(format!("{font}.z"));
    let mut squeezed = ZlibEncoder::new(std::fs::File::create(to)?, Compression::best());
    squeezed.write_all(&std::fs::read(from)?)?;
    squeezed.finish()?;
    Ok(())
}
