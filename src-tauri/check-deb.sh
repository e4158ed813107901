#!/bin/sh
# Installs a Debian package of the app in a clean system of its own, starts it there without a display, takes a picture of its
# window, and removes it again. On request only: it needs root and debootstrap, and fetches some 400 MB of packages.
#
#   sh src-tauri/check-deb.sh PACKAGE.deb [PICTURE.png]      CHECK_SUITE=bookworm  CHECK_ROOT=folder to be kept
#
# Nothing of this system counts but its kernel: library, fonts and display come from the clean one.
set -eu

deb=${1:?which package?}
picture=${2:-window.png}
suite=${CHECK_SUITE:-bookworm}
here=$(cd "$(dirname "$0")" && pwd)
for tool in debootstrap chroot python3; do
    command -v "$tool" >/dev/null 2>&1 || { echo "check-deb: NOT RUN: $tool is missing" >&2; exit 2; }
done
[ "$(id -u)" -eq 0 ] || { echo "check-deb: NOT RUN: only root can make a system to install it in" >&2; exit 2; }

root=${CHECK_ROOT:-$(mktemp -d)}
# What is mounted goes first, or removing the root would reach into this system.
leave() {
    for at in proc dev/pts dev; do
        if mountpoint -q "$root/$at"; then umount "$root/$at"; fi
    done
    if [ -z "${CHECK_ROOT:-}" ] && ! mountpoint -q "$root/proc" && ! mountpoint -q "$root/dev"; then rm -rf "$root"; fi
}
trap leave EXIT
trap 'exit 1' INT TERM

[ -e "$root/etc/debian_version" ] || debootstrap --variant=minbase "$suite" "$root" >"$root.log" 2>&1 || { tail -5 "$root.log" >&2; exit 1; }
rm -f "$root.log"
mountpoint -q "$root/proc" || mount -t proc proc "$root/proc"
mountpoint -q "$root/dev" || mount --bind /dev "$root/dev"
inside() { chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin DEBIAN_FRONTEND=noninteractive "$@"; }

cp "$deb" "$root/tmp/upstay.deb"
inside apt-get update -qq
# Only to see it: a display without a screen, and what lists windows.
inside apt-get install -y -qq --no-install-recommends xvfb x11-utils dbus-x11 >/dev/null 2>&1
# The package itself brings the rest by what it says it needs.
inside apt-get install -y -qq --no-install-recommends /tmp/upstay.deb >/dev/null 2>&1
inside dpkg -s upstay | grep -E '^(Package|Version|Status|Depends|Installed-Size):'
inside dpkg -L upstay >"$root/tmp/files"
grep -q '^/usr/share/applications/.*\.desktop$' "$root/tmp/files" || { echo "check-deb: no menu entry" >&2; exit 1; }
missing=$(inside ldd /usr/bin/upstay | grep 'not found' || true)
[ -z "$missing" ] || { echo "check-deb: $missing" >&2; exit 1; }

# The headless words do the main job, then the window comes up for somebody who is not root.
inside useradd -m builder 2>/dev/null || true
as_builder() { inside su builder -c "$1"; }
as_builder 'cd && /usr/bin/upstay demo out && for pack in out/*.zip; do /usr/bin/upstay verify "$pack"; done'
as_builder 'cd && mkdir -p shown && { Xvfb :77 -screen 0 420x800x24 -fbdir shown >/dev/null 2>&1 & echo $! >display; } && sleep 2 && export DISPLAY=:77 && { dbus-run-session -- sh -c '"'"'/usr/bin/upstay & echo $! >app; wait'"'"' >told 2>&1 & } && tries=0; until xwininfo -root -tree | grep -q "\"Upstay\"" || [ $tries -ge 60 ]; do sleep 1; tries=$((tries + 1)); done; sleep 8; xwininfo -root -tree | grep "\"Upstay\"" >window; cp shown/Xvfb_screen0 picture; kill "$(cat app)" "$(cat display)"; cat window' || { cat "$root/home/builder/told" >&2; exit 1; }
python3 "$here/xwd_to_png.py" "$root/home/builder/picture" "$picture"

# Taken off again, nothing of the package stays; what its user wrote does.
inside apt-get purge -y -qq upstay >/dev/null 2>&1
while read -r path; do
    if [ -f "$root$path" ] || [ -L "$root$path" ]; then echo "check-deb: $path was left" >&2; exit 1; fi
done <"$root/tmp/files"
if inside dpkg -s upstay >/dev/null 2>&1; then echo "check-deb: it is still known as installed" >&2; exit 1; fi
[ -d "$root/home/builder/.local/share/org.upstay.app" ] || { echo "check-deb: the record went with the package" >&2; exit 1; }

# The tarball of the same files needs no root, where the libraries are here already.
sh "$here/tarball.sh" "$deb" "$root/tmp/upstay.tar.gz"
as_builder 'mkdir -p ~/.local && tar -xzf /tmp/upstay.tar.gz -C ~/.local && for pack in ~/out/*.zip; do ~/.local/bin/upstay verify "$pack"; done'
echo "check-deb: installed in a clean Debian $(cat "$root/etc/debian_version"), demo and verify ran, the window came up (see $picture), removed without a rest; the record stayed; the tarball's program ran too"
