//! Finds the fractions in words.

use std::ops::Range;

/// A fraction in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Fraction {
    /// `3/16`.
    pub(super) parts: Range<usize>,
    /// The space between it and the whole before it.
    pub(super) gap: Option<Range<usize>>,
}

/// All fractions, as places in the words. A date or a path (`1/2/3`, `a/b`) is none.
pub(super) fn fractions(words: &str) -> Vec<Fraction> {
    let bytes = words.as_bytes();
    let digit = |i: usize| bytes.get(i).is_some_and(u8::is_ascii_digit);
    let mut found = Vec::new();
    for (slash, _) in words.match_indices('/') {
        let mut start = slash;
        while start > 0 && digit(start - 1) {
            start -= 1;
        }
        let mut end = slash + 1;
        while digit(end) {
            end += 1;
        }
        let before = start.checked_sub(1).and_then(|i| bytes.get(i));
        let after = bytes.get(end);
        let joins =
            |byte: Option<&u8>| byte.is_some_and(|b| matches!(b, b'/' | b'.') || b.is_ascii_alphanumeric());
        let ends_sentence = after == Some(&b'.') && !digit(end + 1);
        let sized = (1..=3).contains(&(slash - start)) && (1..=3).contains(&(end - slash - 1));
        if !sized || joins(before) || (joins(after) && !ends_sentence) {
            continue;
        }
        let space = words.get(..start).and_then(|before| before.chars().next_back());
        let wide = space.filter(|c| matches!(c, ' ' | '\u{a0}')).map_or(0, char::len_utf8);
        let gap = (wide > 0 && start > wide && digit(start - wide - 1)).then(|| start - wide..start);
        found.push(Fraction { parts: start..end, gap });
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_told_from_dates_and_paths() {
        let parts = |words: &str| -> Vec<String> {
            fractions(words).into_iter().map(|f| words[f.parts].to_owned()).collect()
        };
        assert_eq!(parts("2 1/4 along, 13/16 up, then 3/8."), ["1/4", "13/16", "3/8"]);
        assert_eq!(parts("on 1/2/2026, a/b, 1/2a, 12345/6, 1.5/2"), Vec::<String>::new());
        assert_eq!(fractions("é 2 1/4")[0].gap, Some(4..5));
        assert_eq!(fractions("by 1/4")[0].gap, None);
        assert_eq!(fractions("1\u{a0}1/8")[0].gap, Some(1..3));
    }
}
