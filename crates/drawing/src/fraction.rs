//! Lengths as true fractions of an inch.

/// A length in inches as a whole number and a fraction, to the nearest `1 / denominator` (the
/// fraction is cancelled down): `2¼`, `5 3⁄16` as `5³⁄₁₆`. A denominator of 0 counts as 1. What
/// isn't a number is a dash.
#[must_use]
pub fn fraction(inches: f64, denominator: u32) -> String {
    if !inches.is_finite() || inches.abs() > 1e9 {
        return "–".to_owned();
    }
    let denominator = u64::from(denominator.max(1));
    let parts = (inches.abs() * denominator as f64).round() as u64;
    let sign = if inches < 0.0 && parts > 0 { "−" } else { "" };
    let (whole, over) = (parts / denominator, parts % denominator);
    if over == 0 {
        return format!("{sign}{whole}");
    }
    let common = divisor(over, denominator);
    let small = vulgar(over / common, denominator / common);
    if whole == 0 { format!("{sign}{small}") } else { format!("{sign}{whole}{small}") }
}

fn divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { divisor(b, a % b) }
}

/// The fraction as one character where there is one, else as raised and lowered figures.
fn vulgar(over: u64, under: u64) -> String {
    let ready = match (over, under) {
        (1, 2) => "½",
        (1, 4) => "¼",
        (3, 4) => "¾",
        (1, 8) => "⅛",
        (3, 8) => "⅜",
        (5, 8) => "⅝",
        (7, 8) => "⅞",
        _ => "",
    };
    if ready.is_empty() {
        format!("{}\u{2044}{}", figures(over, RAISED), figures(under, LOWERED))
    } else {
        ready.to_owned()
    }
}

const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
const LOWERED: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];

fn figures(number: u64, set: [char; 10]) -> String {
    let digit = |c: char| c.to_digit(10).and_then(|d| set.get(d as usize).copied());
    number.to_string().chars().filter_map(digit).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_written_as_a_maker_reads_them() {
        for (inches, denominator, words) in [
            (2.25, 8, "2¼"),
            (5.375, 8, "5⅜"),
            (0.5, 8, "½"),
            (3.0, 8, "3"),
            (0.0, 8, "0"),
            (5.1875, 16, "5³⁄₁₆"),
            (5.1875, 8, "5¼"),
            (2.999, 8, "3"),
            (-0.75, 8, "−¾"),
            (-0.01, 8, "0"),
            (17.0 / 32.0, 32, "¹⁷⁄₃₂"),
            (f64::NAN, 8, "–"),
            (1.4, 0, "1"),
        ] {
            assert_eq!(fraction(inches, denominator), words, "{inches}");
        }
    }

    #[test]
    fn a_length_read_back_is_within_half_a_step() {
        for i in 0..4_000 {
            let inches = f64::from(i) * 0.003_7;
            let words = fraction(inches, 8);
            let whole: String = words.chars().take_while(char::is_ascii_digit).collect();
            let rest = match words.chars().last() {
                Some('½') => 0.5,
                Some('¼') => 0.25,
                Some('¾') => 0.75,
                Some('⅛') => 0.125,
                Some('⅜') => 0.375,
                Some('⅝') => 0.625,
                Some('⅞') => 0.875,
                _ => 0.0,
            };
            let read = whole.parse::<f64>().unwrap_or(0.0) + rest;
            assert!((read - inches).abs() <= 1.0 / 16.0 + 1e-12, "{inches} {words}");
        }
    }
}
