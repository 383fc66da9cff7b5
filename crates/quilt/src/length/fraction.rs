//! Inches as mixed fractions, plain and set as printers do.

/// As a mixed fraction to the nearest of `parts` to the inch: `2 1/4`.
#[must_use]
pub fn fraction(inches: f64, parts: u32) -> String {
    let Mixed { negative, whole, top, bottom } = mixed(inches, parts);
    let sign = if negative { "-" } else { "" };
    match (whole, top) {
        (_, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{top}/{bottom}"),
        _ => format!("{sign}{whole} {top}/{bottom}"),
    }
}

/// A length that is short of something or too much, to the nearest 1/16: never told as nothing.
#[must_use]
pub fn sixteenths(inches: f64) -> String {
    if inches != 0.0 && inches.abs() < 1.0 / 32.0 { "under 1/16".to_owned() } else { fraction(inches, 16) }
}

/// A count with its word: `1 step`, `3 steps`.
#[must_use]
pub fn many(count: usize, one: &str, more: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { more })
}

/// Yards to the nearest eighth with their word: `1/8 yard`, `1 yard`, `1 1/8 yards`.
#[must_use]
pub fn yards(yards: f64) -> String {
    format!("{} {}", fraction(yards, 8), if yards > 0.0 && yards <= 1.0 { "yard" } else { "yards" })
}

/// The next length up on a ruler with `parts` to the inch; what lies within 1/1024 counts as there.
#[must_use]
pub fn round_up(inches: f64, parts: u32) -> f64 {
    let parts = f64::from(parts.max(1));
    ((inches - plane::READING) * parts).ceil() / parts
}

/// A need in whole yards, inches or whatever it is counted in: always up, so that what is told is enough.
/// What lies within 1/1024 counts as there.
#[must_use]
pub fn whole_up(amount: f64) -> f64 {
    // Adding 0 makes a nought below nothing one.
    (amount - plane::READING).ceil().max(0.0) + 0.0
}

/// As a mixed fraction to the nearest of `parts` to the inch, set as printers do: `2¼`, `2³⁄₁₆`.
pub(super) fn pretty(inches: f64, parts: u32) -> String {
    let Mixed { negative, whole, top, bottom } = mixed(inches, parts);
    let sign = if negative { "−" } else { "" };
    if top == 0 {
        return format!("{sign}{whole}");
    }
    let whole = if whole == 0 { String::new() } else { whole.to_string() };
    match GLYPHS.iter().find(|(_, t, b)| (*t, *b) == (top, bottom)) {
        Some((glyph, ..)) => format!("{sign}{whole}{glyph}"),
        None => format!("{sign}{whole}{}⁄{}", digits(top, &RAISED), digits(bottom, &LOWERED)),
    }
}

struct Mixed {
    negative: bool,
    whole: u64,
    top: u64,
    bottom: u64,
}

fn mixed(inches: f64, parts: u32) -> Mixed {
    let parts = u64::from(parts.max(1));
    // Anything a length can hold is far below 2^53 parts; what isn't finite shows as 0.
    let known = if inches.is_finite() { inches.abs().min(1e9) } else { 0.0 };
    let all = (known * parts as f64).round() as u64;
    let (whole, top) = (all / parts, all % parts);
    let shared = common(top, parts);
    Mixed { negative: inches < 0.0 && all > 0, whole, top: top / shared, bottom: parts / shared }
}

fn common(a: u64, b: u64) -> u64 {
    if b == 0 { a.max(1) } else { common(b, a % b) }
}

/// Without the sign that rounding leaves on a zero.
pub(super) fn unsigned_zero(value: f64) -> f64 {
    if value == 0.0 { 0.0 } else { value }
}

fn digits(number: u64, glyphs: &[char; 10]) -> String {
    let plain = number.to_string();
    plain.bytes().filter_map(|b| glyphs.get(usize::from(b.wrapping_sub(b'0')))).collect()
}

const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
const LOWERED: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];
pub(super) const GLYPHS: [(char, u64, u64); 9] = [
    ('¼', 1, 4),
    ('½', 1, 2),
    ('¾', 3, 4),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
];
