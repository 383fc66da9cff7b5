//! The pairs of a DXF file: a code that says what follows, and the value, each on a line of its own.

use super::DxfUnit;
use plane::Point;
use std::fmt::Write;

/// Where handles of strokes begin; below are those of the frame.
const FIRST_HANDLE: usize = 0x100;

/// Collects the pairs; the only place that formats a number.
pub(super) struct Writer {
    text: String,
    pub(super) unit: DxfUnit,
    handle: usize,
}

impl Writer {
    pub(super) const fn new(unit: DxfUnit) -> Self {
        Self { text: String::new(), unit, handle: FIRST_HANDLE }
    }

    pub(super) fn into_bytes(self) -> Vec<u8> {
        self.text.into_bytes()
    }

    /// A pair of a code and words.
    pub(super) fn text(&mut self, code: u32, value: &str) {
        self.pair(code, format_args!("{value}"));
    }

    /// A pair of a code and a whole number.
    pub(super) fn whole(&mut self, code: u32, value: usize) {
        self.pair(code, format_args!("{value}"));
    }

    /// A pair of a code and a length, given in inches.
    pub(super) fn length(&mut self, code: u32, inches: f64) {
        let value = (inches * self.unit.per_in() * 1e6).round() / 1e6;
        // Adding nothing turns a negative nothing into nothing.
        self.pair(code, format_args!("{:?}", value + 0.0));
    }

    /// The two pairs of a place.
    pub(super) fn place(&mut self, p: Point) {
        self.length(10, p.x);
        self.length(20, p.y);
    }

    /// The handle of the next stroke.
    pub(super) fn next_handle(&mut self) {
        let handle = self.handle;
        self.handle += 1;
        self.pair(5, format_args!("{handle:X}"));
    }

    /// The handle after those of `strokes` strokes.
    pub(super) fn handle_seed(strokes: usize) -> String {
        format!("{:X}", FIRST_HANDLE + strokes)
    }

    /// Pairs given as they are.
    pub(super) fn pairs(&mut self, pairs: &[(u32, &str)]) {
        pairs.iter().for_each(|&(code, value)| self.text(code, value));
    }

    fn pair(&mut self, code: u32, value: std::fmt::Arguments<'_>) {
        // Writing into a String can't fail.
        let _ = write!(self.text, "{code:>3}\r\n{value}\r\n");
    }
}
