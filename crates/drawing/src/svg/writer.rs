//! Elements that close themselves.

use super::{escape, number};
use plane::{Point, Region};

/// Writes SVG. Coordinates come in y up and are turned to y down here and nowhere else.
#[derive(Debug, Default)]
pub(super) struct Writer {
    text: String,
}

/// The attributes of an element being written.
pub(super) struct Attributes<'w> {
    text: &'w mut String,
}

impl Writer {
    /// An element; without `children` written it is an empty one.
    pub(super) fn element(
        &mut self,
        name: &str,
        attributes: impl FnOnce(&mut Attributes<'_>),
        children: impl FnOnce(&mut Self),
    ) {
        self.text.push('<');
        self.text.push_str(name);
        attributes(&mut Attributes { text: &mut self.text });
        self.text.push('>');
        let start = self.text.len();
        children(self);
        if self.text.len() == start {
            self.text.pop();
            self.text.push_str("/>");
        } else {
            self.text.push_str("</");
            self.text.push_str(name);
            self.text.push('>');
        }
    }

    /// An element without children.
    pub(super) fn empty(&mut self, name: &str, attributes: impl FnOnce(&mut Attributes<'_>)) {
        self.element(name, attributes, |_| {});
    }

    /// Text between tags.
    pub(super) fn words(&mut self, words: &str) {
        escape::push(&mut self.text, words);
    }

    /// A new line, so that the file can be read and compared line by line.
    pub(super) fn line_break(&mut self) {
        self.text.push('\n');
    }

    pub(super) fn into_text(self) -> String {
        self.text
    }
}

impl Attributes<'_> {
    /// An attribute with any text.
    pub(super) fn text(&mut self, name: &str, value: &str) -> &mut Self {
        self.written(name, |out| escape::push(out, value))
    }

    /// An attribute that is a number.
    pub(super) fn number(&mut self, name: &str, value: f64) -> &mut Self {
        self.written(name, |out| number::push(out, value))
    }

    /// A length in inches, with its unit.
    pub(super) fn inches(&mut self, name: &str, value: f64) -> &mut Self {
        self.written(name, |out| {
            number::push(out, value);
            out.push_str("in");
        })
    }

    /// Numbers with spaces between.
    pub(super) fn numbers(&mut self, name: &str, values: &[f64]) -> &mut Self {
        self.written(name, |out| push_spaced(out, values))
    }

    /// `data-key="value"`.
    pub(super) fn data(&mut self, key: &str, value: &str) -> &mut Self {
        self.text.push_str(" data-");
        self.text.push_str(key);
        self.text.push_str("=\"");
        escape::push(self.text, value);
        self.text.push('"');
        self
    }

    /// A motion of the drawing, given y up as `[a, b, c, d, e, f]`.
    pub(super) fn transform(&mut self, up: [f64; 6]) -> &mut Self {
        let [a, b, c, d, e, f] = up;
        self.written("transform", |out| {
            out.push_str("matrix(");
            push_spaced(out, &[a, -b, -c, d, e, -f]);
            out.push(')');
        })
    }

    /// Path data: the outline of a region with its holes.
    pub(super) fn region(&mut self, region: &Region) -> &mut Self {
        self.written("d", |out| {
            push_points(out, &region.outer, true);
            region.holes.iter().for_each(|hole| push_points(out, hole, true));
        })
    }

    /// Path data: lines through points.
    pub(super) fn lines<'a>(&mut self, lines: impl Iterator<Item = (&'a [Point], bool)>) -> &mut Self {
        self.written("d", |out| lines.for_each(|(points, closed)| push_points(out, points, closed)))
    }

    /// Path data: a line in whole `1 / parts` inches, each point as the step from the one before.
    /// Steps are taken between rounded places, so that nothing adds up.
    pub(super) fn steps(&mut self, points: &[Point], closed: bool, parts: f64) -> &mut Self {
        self.written("d", |out| {
            let places = points.iter().map(|p| [p.x, -p.y].map(|inches| whole(inches * parts)));
            let (mut from, mut command) = ([0.0; 2], Some('M'));
            for (i, at) in places.enumerate() {
                let step = [at[0] - from[0], at[1] - from[1]];
                if i > 0 && step == [0.0; 2] {
                    continue;
                }
                match command.take() {
                    Some(command) => out.push(command),
                    None if step[0] >= 0.0 => out.push(' '),
                    None => {}
                }
                number::push(out, step[0]);
                if step[1] >= 0.0 {
                    out.push(' ');
                }
                number::push(out, step[1]);
                command = (i == 0).then_some('l');
                from = at;
            }
            if closed {
                out.push('z');
            }
        })
    }

    fn written(&mut self, name: &str, value: impl FnOnce(&mut String)) -> &mut Self {
        self.text.push(' ');
        self.text.push_str(name);
        self.text.push_str("=\"");
        value(self.text);
        self.text.push('"');
        self
    }
}

/// Rounded; what isn't finite is 0.
fn whole(value: f64) -> f64 {
    if value.is_finite() { value.round() } else { 0.0 }
}

fn push_spaced(out: &mut String, values: &[f64]) {
    for (i, value) in values.iter().enumerate() {
        if i > 0 {
            out.push(' ');
        }
        number::push(out, *value);
    }
}

fn push_points(out: &mut String, points: &[Point], closed: bool) {
    for (i, p) in points.iter().enumerate() {
        out.push(if i == 0 { 'M' } else { ' ' });
        push_spaced(out, &[p.x, -p.y]);
    }
    if closed && !points.is_empty() {
        out.push('Z');
    }
}
