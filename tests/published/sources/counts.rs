//! How many rows, sources and topics there are beside `cases.json`, counted from the rows themselves.

use super::{SOURCES, Seen, Within};
use std::collections::BTreeSet;

/// Words of a quotation, between blanks.
fn words(quote: &str) -> usize {
    quote.split_whitespace().count()
}

#[test]
fn there_are_enough_rows_sources_and_topics() {
    let runs = |within: &Within| !matches!(within, Within::NotRun(_));
    let rows = SOURCES
        .iter()
        .flat_map(|s| s.rows())
        .filter(|(_, r)| runs(&r.within))
        .count();
    let topics: BTreeSet<&str> = SOURCES.iter().flat_map(|s| s.rows()).map(|(g, _)| g.topic).collect();
    let seen = |how: Seen| SOURCES.iter().filter(|s| s.seen == how).count();
    println!(
        "further sources: {} ({} as text, {} by a library), {rows} rows that run, {} topics: {}",
        SOURCES.len(),
        seen(Seen::Text),
        seen(Seen::Library),
        topics.len(),
        topics.iter().copied().collect::<Vec<_>>().join(", ")
    );
    assert!(rows >= 60, "{rows} rows");
    assert!(SOURCES.len() >= 8, "{} sources", SOURCES.len());
    assert!(topics.len() >= 6, "{topics:?}");
    assert!(seen(Seen::Text) + seen(Seen::Library) >= 5);
    assert!(seen(Seen::Text) >= 5, "libraries alone are too few kinds of source");
}

#[test]
fn no_source_weighs_too_much() {
    for source in SOURCES {
        let rows = source.rows().count();
        assert!((1..=15).contains(&rows), "{}: {rows} rows", source.name);
    }
}

#[test]
fn every_row_quotes_briefly_and_says_where() {
    for source in SOURCES {
        assert!(source.document.len() > 10, "{}: what document?", source.name);
        for (_, row) in source.rows() {
            assert!((1..=25).contains(&words(row.quote)), "{}", row.id(source));
            assert!(row.place.len() > 5, "{}: where?", row.id(source));
            if let Within::Share(share, why) = row.within {
                assert!(share <= 0.005 && why.len() > 10, "{}: why {share}?", row.id(source));
            }
            // A library's row must show that a library printed it, with its version in the document.
            let version = source.document.chars().any(|c| c.is_ascii_digit());
            assert!(
                source.seen != Seen::Library || version,
                "{}: which version?",
                source.name
            );
        }
    }
}

#[test]
fn no_row_stands_twice() {
    let mut places = BTreeSet::new();
    let mut calls = BTreeSet::new();
    let mut names = BTreeSet::new();
    for source in SOURCES {
        assert!(names.insert(source.name), "{} twice", source.name);
        for (group, row) in source.rows() {
            assert!(places.insert(row.id(source)), "{} twice", row.id(source));
            let call = format!("{} {} {}({})", source.name, group.function, row.key, row.args);
            assert!(calls.insert(call.clone()), "{call} twice");
        }
    }
}

#[test]
fn few_rows_stay_unrun() {
    let all = || SOURCES.iter().flat_map(|source| source.rows());
    let unrun = all().filter(|(_, row)| matches!(row.within, Within::NotRun(_))).count();
    assert!(unrun * 20 <= all().count(), "{unrun} rows do not run");
}
