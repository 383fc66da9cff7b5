//! Words before they are set: what no paper shows is left out, what no type has becomes a box, and what may be broken is
//! found.

use std::ops::Range;

/// A word of so many letters is broken where its line ends; shorter ones, and numbers, are easier to read whole.
const LONG: usize = 16;

/// Words that may be broken, as places in the text.
pub(super) fn long_words(words: &str) -> Vec<Range<usize>> {
    let mut from = 0;
    let places = words.split_inclusive(char::is_whitespace).map(|word| {
        from += word.len();
        (from - word.len()..from, word.trim_end().chars().count())
    });
    places.filter(|(_, letters)| *letters >= LONG).map(|(place, _)| place).collect()
}

/// The words with a letter in those places.
pub(super) fn with_boxes(words: &str, missing: &[Range<usize>], letter: char) -> String {
    let mut out = String::with_capacity(words.len());
    let mut from = 0;
    for range in missing.iter().filter(|range| !range.is_empty()) {
        if range.start >= from {
            out.push_str(words.get(from..range.start).unwrap_or_default());
            out.push(letter);
            from = range.end;
        }
    }
    out.push_str(words.get(from..).unwrap_or_default());
    out
}

/// Words without what no paper shows: control letters, marks that only join or dress emoji, and those that turn the
/// way of writing, since a name must not turn the numbers behind it.
pub(super) fn without_controls(words: &str) -> String {
    let unseen = |c: char| {
        (c.is_control() && c != '\n')
            || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200d}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}')
    };
    words.chars().map(|c| if c == '\t' { ' ' } else { c }).filter(|c| !unseen(*c)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_can_not_turn_what_stands_behind_it() {
        assert_eq!(without_controls("a\u{202e}b\u{2067}\u{0}c\t1\n2"), "abc 1\n2");
    }

    #[test]
    fn only_long_words_may_be_broken() {
        let words = format!("tide {} 2 3/16 {}\n{}", "w".repeat(15), "ש".repeat(16), "x".repeat(40));
        let found: Vec<&str> = long_words(&words).into_iter().map(|place| words[place].trim_end()).collect();
        assert_eq!(found, ["ש".repeat(16), "x".repeat(40)]);
    }
}
