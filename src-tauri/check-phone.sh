#!/bin/sh
# Type-checks the app's own code and everything under it for Android on 64-bit ARM, without an Android NDK. It compiles no C
# (so SQLite is left out), links nothing, makes no package and starts no phone: what it shows is that the phone's branches
# of the code are written against interfaces that exist. On request only; it takes some minutes.
#
#   sh src-tauri/check-phone.sh           needs Debian's packages rustc-web, cargo-web and rust-web-src
#
# The standard library for Android is checked from its sources, which needs a compiler of the same version as they are.
set -eu
cd "$(dirname "$0")/.."

triple=aarch64-linux-android
for tool in rustc cargo; do
    [ -x "/usr/bin/$tool" ] || { echo "check-phone: NOT RUN: /usr/bin/$tool is missing (apt-get install rustc-web cargo-web rust-web-src)" >&2; exit 2; }
done
sources=$(/usr/bin/rustc --print sysroot)/lib/rustlib/src/rust/library
[ -d "$sources/std" ] || { echo "check-phone: NOT RUN: the sources of the standard library are not at $sources" >&2; exit 2; }

# A version manager's compiler may stand first on PATH; its sources are not there.
PATH=/usr/bin:/bin
export PATH
# Lets a released compiler build its own standard library; no feature that is not in a release is used in this project.
export RUSTC_BOOTSTRAP=1
CARGO_TARGET_DIR=${CHECK_TARGET_DIR:-target/phone}
export CARGO_TARGET_DIR
unset RUSTC RUSTFLAGS CARGO_ENCODED_RUSTFLAGS RUSTUP_TOOLCHAIN 2>/dev/null || true

cargo check --locked --package upstay --lib --no-default-features \
    -Zbuild-std=std,panic_abort --target "$triple" "$@"
echo "check-phone: the code type-checks for $triple with $(rustc --version); nothing was linked, nothing was run"
