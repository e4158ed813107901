#!/bin/sh
# Installs what the system must hold before `cargo run -p upstay` and `cargo test --workspace` can work. It asks the
# package manager what is missing first, so a second run touches nothing and needs no network.
set -eu

NEEDED_RUST_MINOR=95

say() { printf '%s\n' "$*" >&2; }
stop() { say "setup: $*"; exit 1; }

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    elif command -v sudo >/dev/null 2>&1; then
        sudo "$@"
    else
        stop "packages are missing and this user is neither root nor has sudo. As root, run: $*"
    fi
}

# Prints those of its arguments that the package manager does not list as installed.
missing_apt() {
    for package in "$@"; do
        status=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null || true)
        [ "$status" = installed ] || printf '%s ' "$package"
    done
}

# Prints those of its arguments that this system offers at all. Where they are missing, the tests that need them say so.
wanted_apt() {
    for package in "$@"; do
        if apt-cache show "$package" >/dev/null 2>&1; then printf '%s ' "$package"; fi
    done
}

missing_dnf() {
    for package in "$@"; do
        rpm -q --whatprovides "$package" >/dev/null 2>&1 || printf '%s ' "$package"
    done
}

missing_pacman() {
    for package in "$@"; do
        pacman -Q "$package" >/dev/null 2>&1 || printf '%s ' "$package"
    done
}

install_packages() {
    if command -v apt-get >/dev/null 2>&1; then
        missing=$(missing_apt build-essential pkg-config libwebkit2gtk-4.1-dev webkit2gtk-driver xvfb \
            fonts-dejavu-core poppler-utils qpdf zbar-tools unzip zip coreutils)
        [ -z "$missing" ] || as_root apt-get update -qq
        # The list is meant to be split into words; what this system offers is known only after the update.
        # shellcheck disable=SC2046
        missing="$missing$(missing_apt $(wanted_apt chromium))"
        # Node comes in packages of several names; what counts is that its programs are here.
        command -v npm >/dev/null 2>&1 || missing="$missing nodejs npm"
        [ -n "$missing" ] || return 0
        say "setup: installing $missing"
        # The list is meant to be split into words.
        # shellcheck disable=SC2086
        as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
    elif command -v dnf >/dev/null 2>&1; then
        # Fedora ships WebKitWebDriver inside the WebKitGTK packages.
        missing=$(missing_dnf gcc gcc-c++ make pkgconf-pkg-config webkit2gtk4.1-devel \
            xorg-x11-server-Xvfb dejavu-sans-fonts poppler-utils qpdf zbar unzip zip coreutils chromium)
        command -v npm >/dev/null 2>&1 || missing="$missing nodejs npm"
        [ -n "$missing" ] || return 0
        say "setup: installing $missing"
        # shellcheck disable=SC2086
        as_root dnf install -y -q $missing
    elif command -v pacman >/dev/null 2>&1; then
        # Arch ships WebKitWebDriver inside webkit2gtk-4.1.
        missing=$(missing_pacman gcc make pkgconf webkit2gtk-4.1 xorg-server-xvfb ttf-dejavu poppler \
            qpdf zbar unzip zip coreutils chromium)
        command -v npm >/dev/null 2>&1 || missing="$missing nodejs npm"
        [ -n "$missing" ] || return 0
        say "setup: installing $missing"
        # shellcheck disable=SC2086
        as_root pacman -S --needed --noconfirm $missing
    else
        say "setup: no apt, dnf or pacman here. Install by hand, with the names your system uses:"
        say "  a C compiler, make and pkg-config; WebKitGTK 4.1 with its headers; WebKitWebDriver; Xvfb;"
        say "  the DejaVu fonts; poppler's programs; qpdf; zbarimg; Chromium; Node with npm; zip, unzip and sha256sum."
        say "On macOS and Windows the app needs only a C compiler and the system's own web view."
        unchecked=yes
    fi
}

# What the tests of the screens read pages with: axe-core, the type checker and the linter, as pinned in the lock file. They
# are for development only; nothing of them is in the app.
fetch_node_modules() {
    folder=$(dirname "$0")/../tests/screens
    # npm leaves a copy of what it fetched; while that is no older than the lock file, all is here.
    if [ "$folder/node_modules/.package-lock.json" -nt "$folder/package-lock.json" ]; then return 0; fi
    if ! command -v npm >/dev/null 2>&1; then
        say "setup: npm is missing, so some tests of the screens will not run"
        return 0
    fi
    say "setup: fetching what tests/screens/package-lock.json names"
    (cd "$folder" && npm ci --silent) || say "setup: npm could fetch nothing, so some tests of the screens will not run"
}

check_rust() {
    command -v cargo >/dev/null 2>&1 ||
        stop "cargo is missing. Install Rust 1.$NEEDED_RUST_MINOR or newer with rustup or your system's packages."
    version=$(cargo --version | cut -d' ' -f2)
    major=${version%%.*}
    rest=${version#*.}
    minor=${rest%%.*}
    if [ "$major" -eq 1 ] && [ "$minor" -lt "$NEEDED_RUST_MINOR" ]; then
        stop "cargo is $version; Upstay needs 1.$NEEDED_RUST_MINOR or newer. With rustup: rustup update stable"
    fi
}

unchecked=
install_packages
fetch_node_modules
check_rust
if [ -n "$unchecked" ]; then
    say "setup: cargo is new enough; the rest could not be checked here"
else
    say "setup: everything needed is here"
fi
