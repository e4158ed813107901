#!/bin/sh
# Makes a tarball of the files of a Debian package, to be unpacked into ~/.local or /usr/local where there is no dpkg:
#   sh src-tauri/tarball.sh PACKAGE.deb TARBALL.tar.gz && tar -xzf TARBALL.tar.gz -C ~/.local
# The system must hold WebKitGTK 4.1. The same package gives the same tarball.
set -eu

deb=${1:?which package?}
out=${2:?where to?}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
dpkg-deb -x "$deb" "$folder"
tar -C "$folder/usr" --sort=name --owner=0 --group=0 --numeric-owner --mtime='1980-01-01 00:00:00 UTC' -cf - . | gzip -n -9 >"$out"
ls -l "$out"
