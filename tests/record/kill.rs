//! The app is ended in the middle of writing: what was said to be kept is kept, and the chain holds.

use std::io::{BufRead, BufReader, Write};
use std::path::PathBuf;
use std::process::{Command, Stdio};

use tempfile::TempDir;
use upstay_lib::photos::list;
use upstay_lib::record::Jobs;
use uuid::Uuid;

use crate::make::{at, jpeg, note, photo};

const FOLDER: &str = "UPSTAY_TEST_KILL_FOLDER";

const JOB: &str = "UPSTAY_TEST_KILL_JOB";

#[test]
fn what_was_kept_survives_a_kill() {
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open(data.path()).unwrap();
    let id = jobs.begin("Mill Lane 4", "", "england", false, at(0)).unwrap().job();
    let mut kept = 0;
    for lines in [1, 7, 18, 40] {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["kill::writes_until_killed", "--exact", "--ignored", "--nocapture"])
            .env(FOLDER, data.path())
            .env(JOB, id.to_string())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let said = BufReader::new(child.stdout.take().unwrap()).lines();
        let mut numbers = said.filter_map(|line| line.unwrap().strip_prefix("kept ")?.parse::<i64>().ok());
        let last = numbers.nth(lines).expect("the writer wrote");
        child.kill().unwrap();
        child.wait().unwrap();
        // Lines that were on their way count as well: they were said before the end.
        kept = numbers.last().unwrap_or(last).max(kept);
        let store = jobs.open_job(id).unwrap();
        assert!(store.entry_count().unwrap() >= kept, "{kept}");
        assert_eq!(store.verify_chain().unwrap(), []);
        for photo in list(&store).unwrap() {
            assert!(store.photo_folder().join(photo.sha.to_string()).is_file());
        }
    }
    assert!(kept > 60);
}

#[test]
#[ignore = "run as the process that is killed"]
fn writes_until_killed() {
    let jobs = Jobs::open(&PathBuf::from(std::env::var_os(FOLDER).unwrap())).unwrap();
    let mut store = jobs
        .open_job(Uuid::parse_str(&std::env::var(JOB).unwrap()).unwrap())
        .unwrap();
    for number in 0.. {
        if number % 3 == 0 {
            photo(&mut store, &jpeg(8 + number % 200, 8), "wall", 1);
        } else {
            note(&mut store, 1, "again");
        }
        writeln!(std::io::stdout(), "kept {}", store.entry_count().unwrap()).unwrap();
    }
}
