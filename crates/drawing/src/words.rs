//! How much room words take, near enough to keep them apart.

/// The type families asked for, best first: a highly legible open family, then what most
/// machines have.
pub const FONT_FAMILY: &str = "Atkinson Hyperlegible, DejaVu Sans, sans-serif";

/// About how wide words are, in inches, set in letters of `size_in`. Never less than what
/// [`FONT_FAMILY`] takes for figures and small letters; nothing is measured.
#[must_use]
pub fn words_width_in(words: &str, size_in: f64) -> f64 {
    let em = |c: char| match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | '\'' | '|' => 0.32,
        ' ' | 'f' | 't' | 'r' => 0.42,
        'm' | 'w' | 'M' | 'W' | '×' | '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' => 0.97,
        'A'..='Z' => 0.72,
        _ => 0.64,
    };
    words.chars().map(em).sum::<f64>() * size_in
}

/// Words in lines about as wide as the room in inches, or as their longest word.
#[must_use]
pub fn words_in_lines(words: &str, room_in: f64, size_in: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let longer = lines.last().map(|last| format!("{last} {word}"));
        match (longer, lines.last_mut()) {
            (Some(longer), Some(last)) if words_width_in(&longer, size_in) <= room_in => *last = longer,
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_go_on_in_the_next_line_where_there_is_no_room() {
        let words = "rust stripe, sand dot, slate and a verylongwordindeed end";
        let lines = words_in_lines(words, 10.0, 1.0);
        assert_eq!(lines.join(" "), words);
        assert!(lines.len() > 3 && lines.contains(&"verylongwordindeed".to_owned()), "{lines:?}");
        let short = lines.iter().filter(|line| line.contains(' '));
        assert!(short.into_iter().all(|line| words_width_in(line, 1.0) <= 10.0));
        assert_eq!(words_in_lines(" ", 10.0, 1.0), Vec::<String>::new());
    }
}
