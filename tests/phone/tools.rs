//! The scripts around phones.

use crate::{path, text};
use std::process::Command;

#[test]
fn the_phone_script_puts_the_manifest_back() {
    // A stand-in for the tools, which looks at the crate types and ends as told.
    let folder = tempfile::tempdir().unwrap();
    let home = folder.path().join("src-tauri");
    std::fs::create_dir(&home).unwrap();
    for name in ["Cargo.toml", "phone.sh"] {
        std::fs::copy(path(name), home.join(name)).unwrap();
    }
    let stand_in = folder.path().join("cargo");
    std::fs::write(
        &stand_in,
        "#!/bin/sh\ngrep '^crate-type' Cargo.toml\necho \"$@\"\nexit 7\n",
    )
    .unwrap();
    let run = |mode: &str| {
        Command::new("sh")
            .args([
                "-c",
                &format!(
                    "chmod +x '{}'; exec sh '{}' {mode}",
                    stand_in.display(),
                    home.join("phone.sh").display()
                ),
            ])
            .env("PATH", format!("{}:/usr/bin:/bin", folder.path().display()))
            .output()
            .unwrap()
    };
    let done = run("android build --apk");
    let said = String::from_utf8(done.stdout).unwrap();
    assert_eq!(
        said,
        "crate-type = [\"staticlib\", \"cdylib\", \"rlib\"]\ntauri android build --apk\n"
    );
    assert_eq!(done.status.code(), Some(7), "the tools' own answer is handed on");
    assert_eq!(
        std::fs::read_to_string(home.join("Cargo.toml")).unwrap(),
        text("Cargo.toml")
    );
    assert!(!home.join("Cargo.toml.plain").exists());
}

#[test]
fn the_phone_check_says_what_it_is_not() {
    let script = text("check-phone.sh");
    for word in ["links nothing", "nothing was linked, nothing was run", "NOT RUN"] {
        assert!(script.contains(word), "{word}");
    }
}

#[test]
fn the_list_of_licences_is_of_this_tree() {
    let list = text("../ui/words/en/licences.js");
    let lock = text("../Cargo.lock");
    let mut listed = Vec::new();
    for row in list.lines().filter(|line| line.starts_with("  ['")) {
        let parts: Vec<&str> = row.split('\'').collect();
        let (name, version, licence) = (parts.get(1).unwrap(), parts.get(3).unwrap(), parts.get(5).unwrap());
        let there = format!("name = \"{name}\"\nversion = \"{version}\"\n");
        assert!(
            lock.contains(&there),
            "{name} {version} is not in Cargo.lock: run src-tauri/licences.py"
        );
        assert!(!licence.is_empty() && !licence.starts_with("see "), "{name}: {licence}");
        for bound in ["GPL", "SSPL", "BUSL"] {
            let free = !licence.contains(bound) || licence.contains(" OR ");
            assert!(free, "{name} {version} is under {licence}");
        }
        listed.push((*name).to_owned());
    }
    // Everything that the app names itself, on desktop or phone, is in the list.
    let manifest = text("Cargo.toml");
    let own = manifest
        .split("\n[")
        .filter(|part| part.lines().next().is_some_and(|head| head.ends_with("dependencies]")));
    let own = own.filter(|part| !part.starts_with("dev-") && !part.starts_with("build-"));
    let names: Vec<&str> = own
        .flat_map(|part| part.lines().skip(1))
        .filter_map(|line| line.split_once(" = ").map(|(name, _)| name))
        .filter(|name| !name.starts_with('#') && *name != "calc")
        .collect();
    assert!(names.len() > 20, "{names:?}");
    for name in names {
        assert!(listed.iter().any(|one| one == name), "{name} is not listed");
    }
}
