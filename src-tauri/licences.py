#!/usr/bin/env python3
"""Writes ui/words/en/licences.js: what the app is built from, with its licences, for the About page.

Run after a change of Cargo.lock: python3 src-tauri/licences.py
Only what ends up in the app on Linux, Android or iOS counts, not what tests and build scripts use.
"""
import json
import pathlib
import subprocess

HERE = pathlib.Path(__file__).resolve().parent
OUT = HERE.parent / "ui/words/en/licences.js"
TARGETS = ["x86_64-unknown-linux-gnu", "aarch64-linux-android", "aarch64-apple-ios"]


def linked(target):
    asked = ["cargo", "metadata", "--format-version", "1", "--locked", "--filter-platform", target]
    meta = json.loads(subprocess.run(asked, cwd=HERE, check=True, capture_output=True).stdout)
    packages = {one["id"]: one for one in meta["packages"]}
    nodes = {one["id"]: one for one in meta["resolve"]["nodes"]}
    macros = {id for id, one in packages.items() if any("proc-macro" in part["kind"] for part in one["targets"])}
    todo = [id for id, one in packages.items() if one["name"] == "upstay"]
    seen = set()
    while todo:
        id = todo.pop()
        if id in seen or id in macros:
            continue
        seen.add(id)
        for dep in nodes[id]["deps"]:
            if any(kind["kind"] is None for kind in dep["dep_kinds"]):
                todo.append(dep["pkg"])
    return [packages[id] for id in seen if packages[id]["source"]]


def main():
    rows = {}
    for target in TARGETS:
        for one in linked(target):
            rows[(one["name"], one["version"])] = one["license"] or f"see {one['license_file']}"
    lines = [f"  [{', '.join(map(quoted, (name, version, licence)))}]," for (name, version), licence in sorted(rows.items())]
    OUT.write_text(
        "// @ts-check\n// Written by src-tauri/licences.py.\n"
        "/** What the app is built from: name, version, licence. @type {readonly (readonly string[])[]} */\n"
        "export const licences = Object.freeze([\n" + "\n".join(lines) + "\n])\n"
    )
    print(f"{len(lines)} in {OUT.name}; licences: {', '.join(sorted(set(rows.values())))}")


def quoted(text):
    return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"


main()
