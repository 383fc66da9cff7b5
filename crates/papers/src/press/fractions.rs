//! Finds the fractions in words.

use std::ops::Range;

/// A fraction in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Fraction {
    /// `3/16`.
    pub(super) parts: Range<usize>,
    /// The space between it and the whole before it, where the type sets it as one: without a smaller letter
    /// `1 1/8` drawn together would be read as eleven eighths.
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
        let set_as_one = matches!(words.get(start..end), Some("1/2" | "1/4" | "3/4"));
        let gap =
            (set_as_one && start >= 2 && before == Some(&b' ') && digit(start - 2)).then(|| start - 1..start);
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
        assert_eq!(fractions("1 1/8")[0].gap, None, "no type has it as one letter");
    }
}
