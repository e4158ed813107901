//! The list of the record, and how to check the pack by hand.

use super::blocks::{Cell, Column};
use super::model::ReportModel;
use super::sheet::{RUNNING, Sheet};

/// The record as a list.
pub fn entries(sheet: &mut Sheet<'_>, model: &ReportModel) {
    sheet.heading(1, "The record");
    if model.entries.is_empty() {
        sheet.paragraph("Nothing is in the record.", RUNNING);
    }
    let cells: Vec<Vec<Cell>> = model
        .entries
        .iter()
        .map(|entry| {
            let words = if entry.words.is_empty() {
                entry.title.clone()
            } else {
                format!("{}\n{}", entry.title, entry.words)
            };
            vec![
                Cell::new(entry.position.to_string()),
                Cell::new(&entry.at),
                Cell::new(words),
                Cell::new(&entry.hash),
            ]
        })
        .collect();
    let columns = [
        Column("No.", 0.07, false),
        Column("When", 0.2, false),
        Column("What", 0.46, false),
        Column("Hash", 0.27, false),
    ];
    sheet.table(&columns, &cells);
}

/// How to check the pack without this program.
pub fn by_hand(sheet: &mut Sheet<'_>) {
    sheet.heading(1, "How to check this pack");
    sheet.list(&[
        "Compare the seal first: the twelve characters on the cover with those that were sent elsewhere on the day.",
        "Unpack it and type in its folder: sha256sum -c SHA256SUMS. Each file must come out as OK. On Windows: certutil -hashfile FILE SHA256, and compare with the line in SHA256SUMS.",
        "With the program: upstay verify PACK, or upstay verify PACK --seal CODE to compare with the seal.",
        "Open check.html from the pack in a browser and give it the files: it computes the same sums.",
        "A changed sum shows that a file was changed. Unchanged sums show that the files are as packed, not that what they say is true. A seal kept elsewhere, such as one sent to the engineer on the day, shows that nothing before it was changed since.",
    ]);
}
