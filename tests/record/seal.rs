//! The seal.

use serde_json::json;
use upstay_lib::record::{Hash, Kind};
use upstay_lib::seal::{SealCode, digest, give, heads_in, last, parse, short_code};

use crate::make::{at, job, note};

#[test]
fn a_seal_is_over_the_heads_it_stores() {
    let (_data, _jobs, mut store) = job();
    let head = note(&mut store, 1, "before").head();
    let seal = give(&mut store, at(2)).unwrap();
    let text = format!(
        "upstay seal 1\n{{\"heads\":[{{\"device\":\"{}\",\"hash\":\"{}\",\"seq\":2}}],\"job\":\"{}\"}}",
        head.device,
        head.hash,
        store.job()
    );
    assert_eq!(seal.hash, Hash::of(text.as_bytes()));
    let entry = store.last_of(Kind::SealGiven).unwrap().unwrap();
    assert_eq!((entry.hash, heads_in(&entry.body)), (seal.entry, Some(vec![head])));
    assert_eq!(last(&store).unwrap(), Some(seal.code.clone()));
    assert!(parse(&seal.code).unwrap().fits(seal.hash));
    assert!(seal.qr.starts_with("<svg"), "{}", seal.qr);
    let after = give(&mut store, at(3)).unwrap();
    assert_ne!(after.code, seal.code);
}

#[test]
fn the_demo_seals_nothing() {
    let (_data, jobs, _store) = job();
    let mut demo = jobs.begin("Example", "", "england", true, at(1)).unwrap();
    assert_eq!(give(&mut demo, at(2)).unwrap_err().code(), "demo_seals_nothing");
    assert_eq!(demo.entry_count().unwrap(), 1);
}

#[test]
fn a_broken_chain_is_not_sealed() {
    let (_data, _jobs, mut store) = job();
    note(&mut store, 1, "before");
    let db = rusqlite::Connection::open(store.folder().join("record.sqlite")).unwrap();
    db.execute_batch("DROP TRIGGER entry_no_update; UPDATE entry SET body = '{}' WHERE seq = 2;")
        .unwrap();
    assert_eq!(give(&mut store, at(2)).unwrap_err().code(), "chain_broken");
}

/// The first 55 bits by hand: 31 is Z, 0 is 0; and a hash of all ones has Z eleven times.
#[test]
fn the_code_spells_the_first_55_bits() {
    let mut bytes = [0; 32];
    bytes[0] = 0b1111_1000;
    assert!(short_code(Hash::from_bytes(bytes)).starts_with("Z000-0000-000"));
    bytes = [0xFF; 32];
    assert!(short_code(Hash::from_bytes(bytes)).starts_with("ZZZZ-ZZZZ-ZZZ"));
    // Bit 56 is the first that is not in the code.
    let mut other = [0xFF; 32];
    other[6] = 0xFE;
    assert_eq!(short_code(Hash::from_bytes(bytes)), short_code(Hash::from_bytes(other)));
    other[6] = 0xFD;
    assert_ne!(short_code(Hash::from_bytes(bytes)), short_code(Hash::from_bytes(other)));
}

#[test]
fn reading_forgives_case_spaces_dashes_and_look_alikes() {
    let codes = (0..200_u32).map(|number| short_code(Hash::of(&number.to_be_bytes())));
    for code in codes {
        let short = Ok(SealCode::Short(code.clone())).map_err(|(): ()| ());
        let plain = code.replace('-', "");
        for text in [
            code.to_lowercase(),
            plain.clone(),
            format!(" {}\u{2013}{} {}\n", &plain[..4], &plain[4..8], &plain[8..]),
            code.replace('0', "o").replace('1', "l").replace('V', "u"),
        ] {
            assert_eq!(parse(&text).map_err(|_| ()), short, "{text}");
        }
    }
}

#[test]
fn every_single_slip_and_every_swap_of_neighbours_is_noticed() {
    let letters: Vec<char> = "0123456789ABCDEFGHJKMNPQRSTVWXYZ".chars().collect();
    for number in 0..20_u32 {
        let code: Vec<char> = short_code(Hash::of(&number.to_be_bytes()))
            .replace('-', "")
            .chars()
            .collect();
        for place in 0..12 {
            for letter in letters.iter().filter(|letter| **letter != code[place]) {
                let mut slip = code.clone();
                slip[place] = *letter;
                let why = parse(&slip.iter().collect::<String>()).unwrap_err();
                assert!(why.to_string().contains("check character"), "{why}");
            }
            if place > 0 && code[place] != code[place - 1] {
                let mut swap = code.clone();
                swap.swap(place, place - 1);
                assert!(parse(&swap.iter().collect::<String>()).is_err(), "{swap:?}");
            }
        }
    }
}

#[test]
fn the_full_form_reads_back_and_nonsense_does_not() {
    let hash = Hash::of(b"x");
    for text in [
        hash.to_string(),
        format!("UPSTAY:SEAL:1:{}", hash.to_string().to_uppercase()),
    ] {
        assert_eq!(parse(&text).unwrap(), SealCode::Full(hash));
    }
    for text in [
        "",
        "ABCD",
        "ABCD-EFGH-JKMN-PQRS",
        "????-????-????",
        &hash.to_string()[1..],
    ] {
        assert_eq!(parse(text).unwrap_err().code(), "seal_code", "{text}");
    }
}

#[test]
fn the_order_of_the_heads_does_not_matter_and_every_part_does() {
    let (_data, _jobs, mut store) = job();
    let one = note(&mut store, 1, "a").head();
    let mut two = one.clone();
    two.device = uuid::Uuid::nil();
    let forward = digest(store.job(), &[one.clone(), two.clone()]).unwrap();
    assert_eq!(forward, digest(store.job(), &[two.clone(), one.clone()]).unwrap());
    assert_ne!(forward, digest(uuid::Uuid::nil(), &[one.clone(), two.clone()]).unwrap());
    two.seq += 1;
    assert_ne!(forward, digest(store.job(), &[one, two]).unwrap());
    assert_eq!(heads_in(&json!({"heads": [{"device": "x"}]})), None);
}
