#!/bin/sh
# Makes the pictures for stores anew, in both languages, from the real pages; needs what `sh src-tauri/setup.sh` installs.
set -eu
cd "$(dirname "$0")"
UPSTAY_STORE=$PWD
UPSTAY_REQUIRE_ALL=1
export UPSTAY_STORE UPSTAY_REQUIRE_ALL
cargo test -p upstay --test screens -- the_pictures_for_stores_are_of_the_real_pages
ls -l ./*/images/phoneScreenshots
