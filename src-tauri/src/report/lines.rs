//! Breaking text into lines.
//!
//! A small module of its own: a layout library would bring its own font handling to a document that needs left-aligned
//! lines only. A line breaks at spaces; a word longer than the line (a hash, a path, a note without spaces) breaks where
//! the line is full. Nothing is dropped: an indent stays, and each end of line in the text begins a new line.

use super::fonts::Face;

/// Lines of `text` no wider than `width_pt` at `size_pt`; at least one, even for an empty text.
pub fn broken(face: &Face, text: &str, size_pt: f32, width_pt: f32) -> Vec<String> {
    let mut lines = Vec::new();
    for paragraph in text.split('\n') {
        let paragraph = paragraph.replace('\t', "    ");
        let mut line = String::new();
        let mut used = 0.0;
        for word in paragraph.split_inclusive(' ') {
            // A space at the end of a line may hang over.
            let bare = face.width(word.trim_end_matches(' '), size_pt);
            if used + bare > width_pt && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
                used = 0.0;
            }
            if bare <= width_pt {
                line.push_str(word);
                used += face.width(word, size_pt);
                continue;
            }
            for c in word.chars() {
                let wide = face.width(c.encode_utf8(&mut [0; 4]), size_pt);
                if used + wide > width_pt && !line.is_empty() {
                    lines.push(std::mem::take(&mut line));
                    used = 0.0;
                }
                line.push(c);
                used += wide;
            }
        }
        lines.push(line);
    }
    lines
}
