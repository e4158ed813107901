//! The scripts around phones.

use crate::{path, text};
use std::io::Write;
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
    let manifest = format!("{}\n{}", text("Cargo.toml"), text("pixels/Cargo.toml"));
    let own = manifest
        .split("\n[")
        .filter(|part| part.lines().next().is_some_and(|head| head.ends_with("dependencies]")));
    let own = own.filter(|part| !part.starts_with("dev-") && !part.starts_with("build-"));
    let names: Vec<&str> = own
        .flat_map(|part| part.lines().skip(1))
        .filter_map(|line| line.split_once(" = "))
        // What lies in this tree is the app itself.
        .filter(|(name, what)| !name.starts_with('#') && !what.contains("path = "))
        .map(|(name, _)| name)
        .collect();
    assert!(names.len() > 20, "{names:?}");
    for name in names {
        assert!(listed.iter().any(|one| one == name), "{name} is not listed");
    }
}

#[test]
fn a_store_finds_texts_and_pictures_in_each_language() {
    let mut bytes = 0;
    let mut names = Vec::new();
    for language in ["en-US", "de-DE"] {
        let of = |name: &str| text(&format!("store/{language}/{name}"));
        // The longest that free stores show [from memory].
        for (name, longest) in [
            ("title.txt", 50),
            ("short_description.txt", 80),
            ("full_description.txt", 4000),
        ] {
            let said = of(name);
            let letters = said.trim().chars().count();
            assert!(
                (5..=longest).contains(&letters),
                "{language}/{name} has {letters} letters"
            );
        }
        assert!(!of("short_description.txt").trim().ends_with('.'));
        // What is new in the version whose number the recipe names.
        let code = crate::between(&text("store/org.upstay.app.yml"), "CurrentVersionCode: ", "\n").to_owned();
        assert!(of(&format!("changelogs/{code}.txt")).trim().len() <= 500);
        let folder = path(&format!("store/{language}/images/phoneScreenshots"));
        let mut pictures: Vec<_> = std::fs::read_dir(&folder)
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .collect();
        pictures.sort();
        for picture in &pictures {
            let file = std::fs::read(picture).unwrap();
            assert!(file.starts_with(b"\x89PNG"), "{}", picture.display());
            bytes += file.len();
        }
        let of_this: Vec<_> = pictures
            .iter()
            .map(|picture| picture.file_name().unwrap().to_owned())
            .collect();
        assert!((3..=8).contains(&of_this.len()), "{language}: {of_this:?}");
        names.push(of_this);
    }
    assert_eq!(names.first(), names.last(), "each picture in each language");
    assert!(bytes < 1_000_000, "{bytes} bytes of pictures are too many for the tree");
}

#[test]
fn the_same_package_gives_the_same_tarball() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let run = |program: &str, arguments: &[&std::ffi::OsStr]| Command::new(program).args(arguments).output();
    if run("dpkg-deb", &["--version".as_ref()]).is_err() {
        let words = "NOT RUN: the_same_package_gives_the_same_tarball: dpkg-deb is missing here.\n";
        assert!(std::env::var("UPSTAY_REQUIRE_ALL").as_deref() != Ok("1"), "{words}");
        // Straight to the stream, because the test harness swallows what a passing test prints.
        let _shown = std::io::stderr().write_all(words.as_bytes());
        return;
    }
    std::fs::create_dir_all(at("tree/DEBIAN")).unwrap();
    std::fs::create_dir_all(at("tree/usr/bin")).unwrap();
    std::fs::write(at("tree/usr/bin/upstay"), "the program").unwrap();
    let control = "Package: upstay\nVersion: 0\nArchitecture: all\nMaintainer: nobody <n@localhost>\nDescription: x\n";
    std::fs::write(at("tree/DEBIAN/control"), control).unwrap();
    let made = run("dpkg-deb", &["-b".as_ref(), at("tree").as_ref(), at("a.deb").as_ref()]).unwrap();
    assert!(made.status.success(), "{made:?}");
    let tarball = |name: &str| {
        let script = path("tarball.sh");
        let made = run("sh", &[script.as_ref(), at("a.deb").as_ref(), at(name).as_ref()]).unwrap();
        assert!(made.status.success(), "{made:?}");
        std::fs::read(at(name)).unwrap()
    };
    assert_eq!(tarball("one.tar.gz"), tarball("two.tar.gz"));
    let listed = run(
        "tar",
        &["-xzOf".as_ref(), at("one.tar.gz").as_ref(), "./bin/upstay".as_ref()],
    )
    .unwrap();
    assert_eq!(listed.stdout, b"the program", "it lies where a folder of programs is");
}
