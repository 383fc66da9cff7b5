//! The one way numbers are written: up to four decimals, nothing that says nothing.

/// Appends `value`, rounded to 1/10,000 (halves away from zero): no trailing zeros, no `-0`, no
/// exponent. What isn't finite, or is beyond 1e12, is written as 0.
pub(super) fn push(out: &mut String, value: f64) {
    let scaled = (value * 10_000.0).round();
    if !scaled.is_finite() || scaled.abs() > 1e16 || scaled == 0.0 {
        out.push('0');
        return;
    }
    if scaled < 0.0 {
        out.push('-');
    }
    let parts = scaled.abs() as u64;
    let (whole, mut rest) = (parts / 10_000, parts % 10_000);
    push_whole(out, whole);
    if rest == 0 {
        return;
    }
    out.push('.');
    let mut unit = 1_000;
    while rest > 0 {
        out.push(digit(rest / unit));
        rest %= unit;
        unit /= 10;
    }
}

fn push_whole(out: &mut String, value: u64) {
    if value >= 10 {
        push_whole(out, value / 10);
    }
    out.push(digit(value % 10));
}

fn digit(value: u64) -> char {
    char::from(b'0' + (value % 10) as u8)
}

/// A number as text.
#[cfg(test)]
pub(super) fn text(value: f64) -> String {
    let mut out = String::new();
    push(&mut out, value);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_say_no_more_than_they_must() {
        for (value, words) in [
            (0.0, "0"),
            (-0.0, "0"),
            (-0.000_01, "0"),
            (1.0, "1"),
            (-12.5, "-12.5"),
            (0.25, "0.25"),
            (0.000_1, "0.0001"),
            (10.05, "10.05"),
            (1.0 / 3.0, "0.3333"),
            (2.0 / 3.0, "0.6667"),
            (99.999_99, "100"),
            (-1234.0625, "-1234.0625"),
            (f64::NAN, "0"),
            (f64::INFINITY, "0"),
            (1e300, "0"),
        ] {
            assert_eq!(text(value), words);
        }
    }

    #[test]
    fn numbers_read_back_within_half_a_step() {
        let mut value = -37.123_456_7;
        while value < 37.0 {
            let read: f64 = text(value).parse().unwrap();
            assert!((read - value).abs() <= 0.000_05 + 1e-12, "{value}");
            value += 0.013_337_1;
        }
    }
}
