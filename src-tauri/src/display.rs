//! Whether there is a display to open a window on, asked before the window system is: it ends the program with a trace
//! where it finds none.

/// Other systems always have a display for the person logged in.
#[cfg(not(target_os = "linux"))]
pub fn there() -> bool {
    true
}

/// A Wayland socket, or an X server that answers.
#[cfg(target_os = "linux")]
pub fn there() -> bool {
    let named = |name: &str| std::env::var(name).ok().filter(|value| !value.is_empty());
    let wayland = named("WAYLAND_DISPLAY").is_some_and(|name| {
        let folder = named("XDG_RUNTIME_DIR").unwrap_or_default();
        // An absolute name replaces the folder.
        std::path::Path::new(&folder).join(name).exists()
    });
    wayland || named("DISPLAY").is_some_and(|name| x_answers(&name))
}

/// `:1.0` is the local server 1; a server on another machine is taken as there.
#[cfg(target_os = "linux")]
fn x_answers(name: &str) -> bool {
    use std::os::linux::net::SocketAddrExt;
    use std::os::unix::net::{SocketAddr, UnixStream};
    let Some((host, rest)) = name.rsplit_once(':') else {
        return false;
    };
    if !matches!(host, "" | "unix") {
        return true;
    }
    let number = rest.split('.').next().unwrap_or_default();
    let socket = format!("/tmp/.X11-unix/X{number}");
    let hidden = SocketAddr::from_abstract_name(&socket).and_then(|address| UnixStream::connect_addr(&address));
    hidden.is_ok() || UnixStream::connect(&socket).is_ok()
}
