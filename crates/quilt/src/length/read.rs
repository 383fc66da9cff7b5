//! Reading numbers as makers write them: decimals, fractions, whole numbers with a fraction.

use super::MM_PER_IN;
use super::fraction::GLYPHS;
use super::problem::MeasureProblem;

/// Whether a minus sign stands in front, and the rest.
pub(super) fn split_sign(text: &str) -> (bool, &str) {
    match text.strip_prefix(['-', '−']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// The number, and the inches in its unit.
pub(super) fn split_unit<'a>(text: &'a str, all: &str) -> Result<(&'a str, f64), MeasureProblem> {
    let end = text.trim_end_matches(|c: char| {
        c.is_alphabetic() || matches!(c, '"' | '″' | '”' | '\'' | '′' | '’' | '.')
    });
    let end = if text[end.len()..].chars().any(|c| c != '.') { end } else { text };
    let unit = text[end.len()..].trim_end_matches('.').to_lowercase();
    let inches = match unit.as_str() {
        "" | "in" | "inch" | "inches" | "\"" | "″" | "”" => 1.0,
        "mm" => 1.0 / MM_PER_IN,
        "cm" => 10.0 / MM_PER_IN,
        "m" => 1000.0 / MM_PER_IN,
        "ft" | "foot" | "feet" | "'" | "′" | "’" => 12.0,
        "yd" | "yds" | "yard" | "yards" => 36.0,
        _ => return Err(unreadable(all, &text[end.len()..])),
    };
    Ok((end.trim_end(), inches))
}

fn unreadable(all: &str, part: &str) -> MeasureProblem {
    let cut = |text: &str| text.chars().take(40).collect::<String>();
    MeasureProblem::Unreadable { text: cut(all), part: cut(part) }
}

/// A decimal, a fraction, or a whole number with a fraction after it, a space or one `-` between
/// them; not negative.
pub(super) fn read_number(number: &str, all: &str) -> Result<f64, MeasureProblem> {
    if all.is_empty() {
        return Err(MeasureProblem::Empty);
    }
    let spelled = in_words(&spell_out(number));
    if spelled.contains(',') && spelled.split_once(',').is_some_and(|(_, part)| part.len() >= 3) {
        return Err(MeasureProblem::Comma { text: all.to_owned() });
    }
    let mut parts: Vec<&str> = spelled.split_whitespace().collect();
    if let [one] = parts[..]
        && let Some((whole, part)) = one.split_once('-')
    {
        parts = vec![whole, part];
    }
    match parts[..] {
        [one] if one.contains('/') => read_fraction(one, all),
        [one] => read_decimal(one, all),
        [whole, part]
            if part.contains('/') && !whole.is_empty() && whole.bytes().all(|b| b.is_ascii_digit()) =>
        {
            let rest = read_fraction(part, all)?;
            if rest >= 1.0 { Err(unreadable(all, part)) } else { Ok(read_decimal(whole, all)? + rest) }
        }
        _ => Err(unreadable(all, number)),
    }
}

/// Fraction glyphs and the fraction slash written as plain digits.
fn spell_out(number: &str) -> String {
    let mut plain = String::with_capacity(number.len());
    for c in number.chars() {
        match GLYPHS.iter().find(|(glyph, ..)| *glyph == c) {
            Some((_, top, bottom)) => {
                let gap = if plain.ends_with('-') { "" } else { " " };
                plain.push_str(&format!("{gap}{top}/{bottom}"));
            }
            None if c == '⁄' => plain.push('/'),
            None if c.is_whitespace() => plain.push(' '),
            None => plain.push(c),
        }
    }
    plain.trim().to_owned()
}

/// "half" and "quarter", as in "half a yard", as fractions.
fn in_words(number: &str) -> String {
    let spoken = number.to_lowercase();
    let words: Vec<&str> = spoken.split_whitespace().filter(|word| !matches!(*word, "a" | "of")).collect();
    match words[..] {
        ["half"] => "1/2".to_owned(),
        ["quarter"] => "1/4".to_owned(),
        _ => number.to_owned(),
    }
}

fn read_decimal(text: &str, all: &str) -> Result<f64, MeasureProblem> {
    let text = &text.replacen(',', ".", 1);
    let plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'.') && text.len() <= 24;
    let value: Option<f64> = if plain { text.parse().ok() } else { None };
    value.filter(|v| v.is_finite()).ok_or_else(|| unreadable(all, text))
}

fn read_fraction(text: &str, all: &str) -> Result<f64, MeasureProblem> {
    let whole = |part: &str| {
        let digits = !part.is_empty() && part.len() <= 9 && part.bytes().all(|b| b.is_ascii_digit());
        if digits { read_decimal(part, all) } else { Err(unreadable(all, text)) }
    };
    let (top, bottom) = text.split_once('/').ok_or_else(|| unreadable(all, text))?;
    let (top, bottom) = (whole(top)?, whole(bottom)?);
    if bottom == 0.0 {
        return Err(MeasureProblem::OverNothing { text: all.to_owned() });
    }
    Ok(top / bottom)
}
