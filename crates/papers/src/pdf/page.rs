//! One page: lines, areas and words, kept as the format's own operators.

use super::POINTS_PER_IN;
use plane::Point;

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ink {
    /// Red, green and blue, 0 to 1.
    pub colour: [f64; 3],
    /// Width in inches.
    pub width_in: f64,
    /// Dash and gap in inches; `None` for a plain line.
    pub dash_in: Option<[f64; 2]>,
}

impl Ink {
    /// A plain line.
    #[must_use]
    pub const fn plain(colour: [f64; 3], width_in: f64) -> Self {
        Self { colour, width_in, dash_in: None }
    }
}

/// A page of a size, being drawn on.
#[derive(Clone, Debug)]
pub struct Page {
    pub(super) size_in: [f64; 2],
    out: Vec<u8>,
}

impl Page {
    /// An empty page of so many inches.
    #[must_use]
    pub const fn new(size_in: [f64; 2]) -> Self {
        Self { size_in, out: Vec::new() }
    }

    /// A line through places. Fewer than two make none.
    pub fn line(&mut self, points: &[Point], closed: bool, ink: Ink) {
        let Some((first, rest)) = points.split_first().filter(|(_, rest)| !rest.is_empty()) else { return };
        let [r, g, b] = ink.colour;
        let dash = ink.dash_in.map_or_else(String::new, |[dash, gap]| {
            format!("{:.3} {:.3}", dash * POINTS_PER_IN, gap * POINTS_PER_IN)
        });
        self.say(&format!(
            "{r:.3} {g:.3} {b:.3} RG {:.3} w [{dash}] 0 d 1 j 1 J",
            ink.width_in * POINTS_PER_IN
        ));
        self.way(*first, rest);
        self.say(if closed { "s" } else { "S" });
    }

    /// An area of one colour.
    pub fn area(&mut self, points: &[Point], [r, g, b]: [f64; 3]) {
        let Some((first, rest)) = points.split_first() else { return };
        self.say(&format!("{r:.3} {g:.3} {b:.3} rg"));
        self.way(*first, rest);
        self.say("f");
    }

    /// A line of words, level, its foot at a place, in letters of a height.
    pub fn words(&mut self, at: Point, height_in: f64, bold: bool, words: &str) {
        let [x, y] = [at.x, at.y].map(|inches| inches * POINTS_PER_IN);
        let size = height_in * POINTS_PER_IN;
        self.say(&format!("0.17 0.14 0.13 rg BT /F{} {size:.3} Tf {x:.3} {y:.3} Td", u8::from(bold)));
        self.out.extend(words_of(words));
        self.say(" Tj ET");
    }

    pub(super) fn stream(&self) -> Vec<u8> {
        self.out.clone()
    }

    fn way(&mut self, first: Point, rest: &[Point]) {
        self.step(first, "m");
        rest.iter().for_each(|p| self.step(*p, "l"));
    }

    fn step(&mut self, p: Point, operator: &str) {
        let place = |inches: f64| if inches.is_finite() { inches * POINTS_PER_IN } else { 0.0 };
        self.say(&format!("{:.3} {:.3} {operator}", place(p.x), place(p.y)));
    }

    fn say(&mut self, operators: &str) {
        self.out.extend(operators.as_bytes());
        self.out.push(b'\n');
    }
}

/// Words as the format writes them. Its letters are Latin ones.
pub(super) fn words_of(words: &str) -> Vec<u8> {
    let mut out = vec![b'('];
    for letter in words.chars() {
        let byte = match letter {
            '–' => 0x96,
            '—' => 0x97,
            '’' => 0x92,
            '“' => 0x93,
            '”' => 0x94,
            '•' => 0x95,
            '…' => 0x85,
            ' '..='~' | '\u{a0}'..='\u{ff}' => u8::try_from(u32::from(letter)).unwrap_or(b'?'),
            _ => b'?',
        };
        if matches!(byte, b'(' | b')' | b'\\') {
            out.push(b'\\');
        }
        out.push(byte);
    }
    out.push(b')');
    out
}
