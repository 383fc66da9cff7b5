//! Lengths that no line break tears: the spaces inside of `2 1/4` and `5.7 cm` are hard while words are set, and
//! plain again in the text behind them.

use super::fractions::fractions;
use std::ops::Range;

/// A space at which no line ends.
const HARD: char = '\u{a0}';

/// The words with hard spaces inside of lengths.
pub(super) fn held(words: &str) -> String {
    let mut gaps: Vec<usize> =
        fractions(words).into_iter().filter_map(|fraction| Some(fraction.gap?.start)).collect();
    gaps.extend(words.match_indices(" cm").map(|(at, _)| at).filter(|at| ends_with_digit(words, *at)));
    gaps.sort_unstable();
    let mut out = String::with_capacity(words.len() + gaps.len());
    let mut from = 0;
    for gap in gaps {
        out.push_str(words.get(from..gap).unwrap_or_default());
        out.push(HARD);
        from = gap + 1;
    }
    out.push_str(words.get(from..).unwrap_or_default());
    out
}

fn ends_with_digit(words: &str, at: usize) -> bool {
    words.get(..at).is_some_and(|before| before.ends_with(|c: char| c.is_ascii_digit()))
}

/// Each hard space with the letter before it. A line that ends just there would take the space for one to break
/// at, unless breaking is forbidden from that letter on.
pub(super) fn hard_spaces(held: &str) -> impl Iterator<Item = Range<usize>> + '_ {
    held.match_indices(HARD).map(|(at, hard)| {
        let before = held.get(..at).and_then(|before| before.chars().next_back());
        at - before.map_or(0, char::len_utf8)..at + hard.len()
    })
}

/// Words with plain spaces again, and where each place of the held words lies in them.
pub(super) struct Plain {
    pub(super) text: String,
    hard: Vec<usize>,
}

impl Plain {
    pub(super) fn of(held: &str) -> Self {
        let hard = held.match_indices(HARD).map(|(at, _)| at).collect();
        Self { text: held.replace(HARD, " "), hard }
    }

    /// A hard space is two bytes long, a plain one is one.
    pub(super) fn range(&self, range: Range<usize>) -> Range<usize> {
        let plain = |at: usize| at - self.hard.partition_point(|hard| *hard < at);
        plain(range.start)..plain(range.end)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_held_and_the_text_behind_stays_as_written() {
        let words = "cut 2 1/4 by 5.7 cm, é 3/8, card 3 cmx";
        let set = held(words);
        assert_eq!(set, "cut 2\u{a0}1/4 by 5.7\u{a0}cm, é 3/8, card 3\u{a0}cmx");
        let plain = Plain::of(&set);
        assert_eq!(plain.text, words);
        for part in ["2\u{a0}1/4", "1/4", "cm,", "é", "3/8", "cut"] {
            let at = set.find(part).expect("a part");
            assert_eq!(plain.text[plain.range(at..at + part.len())], part.replace('\u{a0}', " "));
        }
    }
}
