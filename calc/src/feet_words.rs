//! A builder's words on feet, read for the size of a board.

/// What was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// Length, breadth, thickness in mm; zeros for no board; none where nothing was read.
    pub mm: Option<[f64; 3]>,
    said: bool,
}

impl Board {
    /// What the tool fills in for it, in words.
    #[must_use]
    pub fn filled(&self) -> Vec<String> {
        match (self.mm, self.said) {
            (Some(_), _) => Vec::new(),
            (None, true) => vec!["Feet: no board size was understood (as 450x225x38): boards chosen here.".to_owned()],
            (None, false) => vec!["Feet not said: boards chosen here.".to_owned()],
        }
    }
}

/// Reads words such as "450x225x38 board", "225 × 38 × 450 mm", "no boards".
#[must_use]
pub fn board_of(words: Option<&str>) -> Board {
    let Some(words) = words.map(str::trim).filter(|words| !words.is_empty()) else {
        return Board { mm: None, said: false };
    };
    let lower = words.to_lowercase();
    let none = ["none", "no board", "without board", "straight on the ground"];
    if none.iter().any(|word| lower.contains(word)) {
        return Board {
            mm: Some([0.0; 3]),
            said: true,
        };
    }
    // Three numbers joined by nothing but signs of multiplication and units are a size.
    let plain: String = lower
        .replace("mm", " ")
        .chars()
        .map(|letter| {
            if letter == '×' || letter == '*' || letter == 'x' {
                'x'
            } else {
                letter
            }
        })
        .collect();
    let size = plain
        .split(|letter: char| !(letter.is_ascii_digit() || letter == '.' || letter == 'x' || letter.is_whitespace()))
        .map(|part| {
            part.split('x')
                .map(str::trim)
                .map(str::parse::<f64>)
                .filter_map(Result::ok)
                .filter(|n| n.is_finite() && (5.0..=3000.0).contains(n))
                .collect::<Vec<f64>>()
        })
        .find(|numbers| numbers.len() == 3);
    let mm = size.and_then(|mut numbers| {
        // The longest side is the length, the least the thickness.
        numbers.sort_by(|a, b| b.total_cmp(a));
        <[f64; 3]>::try_from(numbers).ok()
    });
    Board { mm, said: true }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_read_in_any_order() {
        for words in [
            "450x225x38 board",
            "225 x 38 x 450",
            "scaffold board 38mm × 225mm × 450mm",
            "on 450*225*38",
        ] {
            assert_eq!(board_of(Some(words)).mm, Some([450.0, 225.0, 38.0]), "{words}");
        }
        assert_eq!(board_of(Some("no boards")).mm, Some([0.0; 3]));
        for words in ["a paving slab", "2 bricks", "450x225", ""] {
            assert_eq!(board_of(Some(words)).mm, None, "{words}");
        }
        assert_eq!(board_of(None).filled().len(), 1);
    }
}
