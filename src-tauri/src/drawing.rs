//! How the window's pages are drawn on Linux.

/// Where the kernel shows the devices that draw.
const DEVICES: &str = "/dev/dri";
/// Has the kit draw pages straight into memory; its own name for it (WebKitGTK, environment variables).
const STRAIGHT: &str = "WEBKIT_DISABLE_DMABUF_RENDERER";

/// Has pages drawn straight into the window's memory where no device draws them. The kit would else compose layers all the
/// same, by shaders that are compiled for the processor at each start. What somebody set themselves stays.
///
/// To be called before the window is made, while there is one thread.
pub fn choose() {
    if !device() {
        // Nothing but a name that is no name fails here.
        let _ = glib::setenv(STRAIGHT, "1", false);
    }
}

/// Whether a device here draws for programs: its node is `renderD` and a number.
fn device() -> bool {
    let names = std::fs::read_dir(DEVICES).into_iter().flatten().flatten();
    names
        .map(|entry| entry.file_name())
        .any(|name| name.to_string_lossy().starts_with("renderD"))
}
