//! A record of many screens: only what lies near the window is in the page, and nobody notices.

use crate::bench::play;
use crate::jobs;
use crate::pictures::{self, Picture};
use crate::view::PHONE;
use serde_json::{Value, json};

const NOTES: usize = 400;
/// Entries that may be in the page at once: those of a window and of 1500 px above and below, and a block at both ends.
const MOST: f64 = 120.0;

/// Walks through the record by steps; at each waits until the window is filled. Gives the numbers of the entries that were
/// seen, the most that were in the page at once, and by how much, at the worst, something in the window was elsewhere than
/// the step alone had put it, px.
const WALK: &str = "(async (step) => {
  const [seen, at] = [new Set(), [200, 400, 600]]
  let [most, off] = [0, 0]
  const under = (y, what) => document.elementFromPoint(180, y)?.closest(what)
  const empty = () => at.some((y) => under(y, '.block, .stretch')?.childElementCount === 0)
  for (;;) {
    const $held = at.map((y) => under(y, '.event')).find((one) => one)
    const before = [scrollY, $held?.getBoundingClientRect().top]
    const room = step > 0 ? document.documentElement.scrollHeight - innerHeight - scrollY : scrollY
    const goes = Math.sign(step) * Math.min(Math.abs(step), room)
    scrollBy({ top: goes, behavior: 'instant' })
    for (let frame = 0; frame < 4 || (frame < 900 && empty()); frame += 1) await new Promise(requestAnimationFrame)
    if (empty()) throw new Error(`nothing comes at ${scrollY}`)
    if ($held?.isConnected) off = Math.max(off, Math.abs($held.getBoundingClientRect().top - before[1] + goes))
    const $all = [...document.querySelectorAll('.timeline .event .hash')].filter(($one) => $one.textContent.includes('entry '))
    $all.forEach(($one) => seen.add(Number($one.textContent.match(/entry (\\d+)/)[1])))
    most = Math.max(most, $all.length)
    if (Math.abs(goes) < 2) return { seen: [...seen].sort((one, other) => one - other), most, off }
  }
})";

#[test]
fn a_long_record_shows_all_of_its_entries_and_keeps_few_in_the_page() {
    let test = "a_long_record_shows_all_of_its_entries_and_keeps_few_in_the_page";
    play(test, PHONE, |bench| {
        let id = jobs::empty(bench.app());
        for number in 0..NOTES {
            let words = "Looked at the props. ".repeat(number % 5);
            let note = json!({"id": id, "text": format!("{words}Note {number}.")});
            bench.app().invoke("note_add", note).unwrap();
        }
        bench.go(&format!("{id}/record"));
        bench.see(&format!("Note {}.", NOTES - 1));
        bench.still();
        let every: Vec<usize> = (1..=NOTES + 1).collect();
        for step in [450, -450] {
            let walked = bench.value(&format!("{WALK}({step})"));
            assert_eq!(walked.get("seen"), Some(&json!(every)), "by steps of {step} px");
            let figure = |key: &str| walked.get(key).and_then(Value::as_f64).unwrap();
            assert!(figure("most") <= MOST, "{} entries in the page", figure("most"));
            assert!(
                figure("off") <= 2.0,
                "by steps of {step} px something moved by {} px",
                figure("off")
            );
        }
    });
}

/// Goes to places of the record faster than entries are made, by `jumps` that stay for one to nine frames, and back to its top.
/// The places lie in one stretch, whose blocks stay in the page. Gives the distances from the window of all places that are full
/// when it has come to rest, px.
const JUMP: &str = "(async (jumps) => {
  const last = document.querySelector('.stretch').getBoundingClientRect().height
  for (let jump = 0; jump < jumps; jump += 1) {
    scrollTo({ top: last * ((jump * 7) % 11) / 11, behavior: 'instant' })
    for (let frame = 0; frame <= jump % 9; frame += 1) await new Promise(requestAnimationFrame)
  }
  scrollTo({ top: 0, behavior: 'instant' })
  const full = () => [...document.querySelectorAll('.block')].filter(($one) => $one.childElementCount > 0)
  for (let [frame, before] = [0, -1]; frame < 60; frame += 1) {
    const now = document.querySelectorAll('.event').length
    if (now !== before) frame = 0
    before = now
    await new Promise(requestAnimationFrame)
  }
  return full().map(($one) => $one.getBoundingClientRect()).map(({ top, bottom }) => Math.max(0, top - innerHeight, -bottom))
})";

/// Places that are left before their entries are made stay empty: filled far from the window they would never be emptied.
#[test]
fn what_was_left_at_once_stays_out_of_the_page() {
    play("what_was_left_at_once_stays_out_of_the_page", PHONE, |bench| {
        let id = jobs::empty(bench.app());
        for number in 0..NOTES {
            let note = json!({"id": id, "text": format!("Note {number}.")});
            bench.app().invoke("note_add", note).unwrap();
        }
        bench.go(&format!("{id}/record"));
        bench.see(&format!("Note {}.", NOTES - 1));
        bench.still();
        let far = bench.value(&format!("{JUMP}(60)"));
        let far: Vec<f64> = far.as_array().unwrap().iter().filter_map(Value::as_f64).collect();
        assert!(!far.is_empty());
        // Places are filled up to 1500 px away.
        assert!(far.iter().all(|px| *px <= 1510.0), "{far:?}");
    });
}

/// Photos beyond those that come with a job (60), so that the page reads on.
const PHOTOS: u16 = 75;

/// Several parts of a page want to know every photo: they wait for one reading, and none makes another begin anew.
#[test]
fn photos_that_did_not_come_with_the_job_are_asked_for_once() {
    let test = "photos_that_did_not_come_with_the_job_are_asked_for_once";
    play(test, PHONE, |bench| {
        let id = jobs::empty(bench.app());
        for number in 0..PHOTOS {
            pictures::add(bench.app(), &id, "other", Picture::new(40 + number, 30).jpeg());
        }
        bench.go("");
        bench.value(
            "(() => { window.asked = []; const core = window.__TAURI__.core; const real = core.invoke; \
             core.invoke = (name, args, options) => { if (name === 'photos') window.asked.push(JSON.stringify(args.before)); \
             return real(name, args, options) }; return 1 })()",
        );
        bench.value(&format!("location.hash = '#{id}/record'"));
        bench.wait(
            "all are read",
            &format!("document.querySelectorAll('.photobox .photos figure').length === {PHOTOS}"),
        );
        bench.still();
        let asked = bench.value("window.asked");
        let asked: Vec<&str> = asked.as_array().unwrap().iter().filter_map(Value::as_str).collect();
        // Those behind the sixtieth, and that there are no more.
        assert_eq!(asked.len(), 2, "{asked:?}");
        assert_ne!(asked.first(), asked.last());
    });
}

/// EXIF of a photo that is to be turned clockwise by a quarter to be seen upright (EXIF 2.3, tag 0x0112, value 6), behind the
/// two bytes a JPEG begins with.
const ON_ITS_SIDE: &[u8] = b"\xff\xe1\0\x22Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0";

/// A page that is laid out anew with each photo that comes jumps under a finger, and costs a slow phone its frames.
#[test]
fn a_photo_has_its_place_before_it_comes() {
    let test = "a_photo_has_its_place_before_it_comes";
    play(test, PHONE, |bench| {
        let id = jobs::empty(bench.app());
        let upright = Picture::new(160, 120).jpeg();
        let mut turned = upright.clone();
        turned.splice(2..2, ON_ITS_SIDE.iter().copied());
        for bytes in [upright, turned] {
            pictures::add(bench.app(), &id, "other", bytes);
        }
        bench.go(&format!("{id}/record"));
        let all = "[...document.querySelectorAll('.event .picture img')]";
        bench.wait(
            "both are there",
            &format!("{all}.length === 2 && {all}.every((one) => one.complete && one.naturalWidth > 0)"),
        );
        let came = bench.value(&format!("{all}.map((one) => [one.naturalWidth, one.naturalHeight])"));
        assert_eq!(came, json!([[120, 160], [160, 120]]), "newest first");
        let kept = format!("{all}.map((one) => [one.getAttribute('width'), one.getAttribute('height')].map(Number))");
        assert_eq!(bench.value(&kept), came);
        let shown = bench.value(&format!("{all}.map((one) => one.height / one.width)"));
        let shown: Vec<f64> = shown.as_array().unwrap().iter().filter_map(Value::as_f64).collect();
        for (shown, drawn) in shown.iter().zip([4.0 / 3.0, 3.0 / 4.0]) {
            assert!((shown - drawn).abs() < 0.02, "{shown}, drawn {drawn}");
        }
    });
}
