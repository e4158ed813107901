#!/bin/sh
# Runs the phone tools (`cargo install tauri-cli --version 2.12.5 --locked`) with the library as a phone needs it:
#   sh src-tauri/phone.sh android build --apk     needs an Android SDK and NDK 28 or newer
#   sh src-tauri/phone.sh ios init                needs a Mac with Xcode
# Nobody has run these two yet.
set -eu
cd "$(dirname "$0")"

plain='name = "upstay_lib"'
phone='name = "upstay_lib"\ncrate-type = ["staticlib", "cdylib", "rlib"]'
grep -q '^crate-type' Cargo.toml && { echo "phone: Cargo.toml has a crate type already" >&2; exit 1; }
cp Cargo.toml Cargo.toml.plain
trap 'mv Cargo.toml.plain Cargo.toml' EXIT INT TERM
sed -i.tmp "s/^$plain\$/$phone/" Cargo.toml && rm -f Cargo.toml.tmp
cargo tauri "$@"
