//! A printed file as another program reads it: poppler's pdftocairo for paths, pdftoppm for pixels.
//! `cargo xtask test` installs both.

use plane::Point;
use std::path::Path;
use std::process::Command;

/// Pixels an inch of what is looked at.
pub(crate) const DPI: f64 = 600.0;

/// A file that other programs read.
pub(crate) struct Read {
    folder: tempfile::TempDir,
}

impl Read {
    pub(crate) fn new(pdf: &[u8]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("paper.pdf"), pdf).unwrap();
        Self { folder }
    }

    fn run(&self, program: &str, args: &[&str]) -> Vec<u8> {
        let ran = Command::new(program).args(args).current_dir(self.folder.path()).output();
        let ran = ran.unwrap_or_else(|e| panic!("{program}: {e}; `cargo xtask test` installs poppler-utils"));
        assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
        ran.stdout
    }

    /// The lines of a page, from 1: each as points in inches from the lower left corner.
    pub(crate) fn lines(&self, page: usize) -> Vec<Vec<Point>> {
        let page = page.to_string();
        // Left to itself it makes pages of A4 fit a paper a hair smaller.
        let as_it_is = ["-svg", "-noshrink", "-nocenter"];
        let told =
            self.run("pdftocairo", &[&as_it_is[..], &["-f", &page, "-l", &page, "paper.pdf", "-"]].concat());
        let text = String::from_utf8(told).unwrap();
        let document = drawn(&text);
        let high = document.high;
        let strokes = document.paths.iter().filter(|path| path.style.contains("fill:none"));
        strokes.flat_map(|path| path.lines(high)).collect()
    }

    /// A page in grey.
    pub(crate) fn pixels(&self, page: usize) -> Pixels {
        let page = page.to_string();
        self.run(
            "pdftoppm",
            &["-gray", "-singlefile", "-r", "600", "-f", &page, "-l", &page, "paper.pdf", "page"],
        );
        Pixels::read(&self.folder.path().join("page.pgm"))
    }
}

/// A page as pdftocairo writes it: SVG whose unit is a point.
struct Drawn<'t> {
    high: f64,
    paths: Vec<DrawnPath<'t>>,
}

struct DrawnPath<'t> {
    style: &'t str,
    data: &'t str,
    matrix: [f64; 6],
}

/// Reads the few things of it that are needed; each element stands on a line of its own.
fn drawn(text: &str) -> Drawn<'_> {
    fn between<'t>(line: &'t str, from: &str) -> Option<&'t str> {
        line.split_once(from)?.1.split('"').next()
    }
    let high = between(text, " height=\"").unwrap().trim_end_matches("pt").parse().unwrap();
    let paths = text.lines().filter(|line| line.starts_with("<path ")).filter_map(|line| {
        let matrix = between(line, "transform=\"matrix(").map_or([1.0, 0.0, 0.0, 1.0, 0.0, 0.0], |text| {
            let numbers: Vec<f64> =
                text.trim_end_matches(')').split(',').map(|part| part.parse().unwrap()).collect();
            numbers.try_into().unwrap()
        });
        Some(DrawnPath { style: between(line, "style=\"")?, data: between(line, " d=\"")?, matrix })
    });
    Drawn { high, paths: paths.collect() }
}

impl DrawnPath<'_> {
    fn lines(&self, high: f64) -> Vec<Vec<Point>> {
        let [a, b, c, d, e, f] = self.matrix;
        let mut lines: Vec<Vec<Point>> = Vec::new();
        let mut words = self.data.split_ascii_whitespace();
        while let Some(word) = words.next() {
            if word == "M" {
                lines.push(Vec::new());
            }
            // A line that is closed comes back to where it began.
            if word == "Z" {
                let line = lines.last_mut().unwrap();
                line.push(line[0]);
            }
            if word == "M" || word == "L" {
                let mut number = || words.next().unwrap().parse::<f64>().unwrap();
                let (x, y) = (number(), number());
                let at = Point::new(a * x + c * y + e, b * x + d * y + f);
                lines.last_mut().unwrap().push(Point::new(at.x / 72.0, (high - at.y) / 72.0));
            }
        }
        lines
    }
}

/// Grey pixels of a page.
pub(crate) struct Pixels {
    wide: usize,
    high: usize,
    grey: Vec<u8>,
}

impl Pixels {
    fn read(file: &Path) -> Self {
        let file = std::fs::read(file).unwrap();
        let mut head = file.splitn(4, u8::is_ascii_whitespace);
        assert_eq!(head.next(), Some(&b"P5"[..]));
        let number = |text: Option<&[u8]>| std::str::from_utf8(text.unwrap()).unwrap().parse().unwrap();
        let (wide, high): (usize, usize) = (number(head.next()), number(head.next()));
        Self { wide, high, grey: file[file.len() - wide * high..].to_vec() }
    }

    fn dark(&self, x: i64, y: i64) -> bool {
        let (x, y) = (usize::try_from(x), usize::try_from(y));
        let (Ok(x), Ok(y)) = (x, y) else { return false };
        x < self.wide && y < self.high && self.grey[y * self.wide + x] < 128
    }

    /// How far beside `p` (inches from the lower left) the middle of the dark run through it lies, across a line
    /// that runs along `way`: pixels off, and how wide the run is. `None` where nothing is dark.
    pub(crate) fn off(&self, p: Point, way: plane::Vec2) -> Option<(f64, f64)> {
        let (x, y) = (p.x * DPI, self.high as f64 - p.y * DPI);
        let level = way.x.abs() >= way.y.abs();
        let (column, row) = (x.floor() as i64, y.floor() as i64);
        let dark =
            |step: i64| if level { self.dark(column, row + step) } else { self.dark(column + step, row) };
        let near = [0, -1, 1].into_iter().find(|step| dark(*step))?;
        let reach = |by: i64| (1..80).take_while(|n| dark(near + by * n)).count() as i64;
        let (from, to) = (near - reach(-1), near + reach(1));
        let begun = if level { row } else { column };
        let middle = begun as f64 + (from + to + 1) as f64 / 2.0;
        // The scan goes through the middle of a column or row of pixels, beside the place itself.
        let (along, at) = if level { (column as f64 + 0.5 - x, y) } else { (row as f64 + 0.5 - y, x) };
        let slope = if level { -way.y / way.x } else { -way.x / way.y };
        let steep = (1.0 + slope * slope).sqrt();
        Some(((middle - at - slope * along).abs() / steep, (to - from + 1) as f64 / steep))
    }
}
