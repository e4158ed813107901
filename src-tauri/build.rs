//! Embeds the pages of `ui/`, the fonts of the papers and the window's configuration into the app.

mod pages;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use serde_json::{Value, json};
use std::error::Error;
use std::io::Write;
use std::path::{Component, Path, PathBuf};

fn main() -> Result<(), Box<dyn Error>> {
    // Newer phones have pages of memory of 16 KB, which older linkers do not take into account by themselves.
    if std::env::var("CARGO_CFG_TARGET_OS").is_ok_and(|os| os == "android") {
        println!("cargo:rustc-link-arg-cdylib=-Wl,-z,max-page-size=16384");
    }
    for font in ["DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf"] {
        squeeze(font)?;
    }
    embed_pages()?;
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

/// Joins the pages, and tells what embeds them where they lie: it reads this in place of what the configuration says.
fn embed_pages() -> Result<(), Box<dyn Error>> {
    let from = Path::new("../ui");
    println!("cargo:rerun-if-changed={}", from.display());
    println!("cargo:rerun-if-env-changed=TAURI_CONFIG");
    let to = Path::new(&std::env::var("OUT_DIR")?).join("pages");
    pages::join(from, &to)?;
    // What a packager hands over stays, but for the place of the pages.
    let mut config: Value =
        std::env::var("TAURI_CONFIG").map_or(Ok(json!({})), |given| serde_json::from_str(&given))?;
    let build = config
        .as_object_mut()
        .ok_or("TAURI_CONFIG is no object")?
        .entry("build");
    let build = build.or_insert_with(|| json!({}));
    build
        .as_object_mut()
        .ok_or("TAURI_CONFIG: build is no object")?
        .insert("frontendDist".to_owned(), json!(from_here(&to)?));
    println!("cargo:rustc-env=TAURI_CONFIG={config}");
    Ok(())
}

/// A path as seen from here, since the program tells it: what is built must not depend on whose folder it was built in.
fn from_here(path: &Path) -> Result<PathBuf, Box<dyn Error>> {
    let here = std::env::current_dir()?;
    let common = here
        .components()
        .zip(path.components())
        .take_while(|(one, other)| one == other)
        .count();
    let up = here.components().skip(common).map(|_| Component::ParentDir);
    Ok(up.chain(path.components().skip(common)).collect())
}
