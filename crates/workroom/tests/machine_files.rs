//! Templates for machines that cut, of a real quilt, read back by libraries that know nothing of us.
//!
//! `data/templates-*` are what is written; `cargo xtask refs templates` lets ezdxf and svgelements read them and writes
//! what they found into `data/templates.csv`, which the second test holds against the quilt's own lines.

mod common;

use common::slanted;
use papers::dxf::{DxfLayer, DxfStroke, DxfUnit, dxf};
use papers::svg_layers;
use plane::{Point, polygon};
use workroom::papers::PapersWish;

/// How wide the machine's bed is.
const BED_IN: f64 = 12.0;

fn strokes() -> Vec<DxfStroke> {
    let (_folder, mut room, head) = slanted();
    room.template_strokes(&head, BED_IN, &PapersWish::default()).unwrap()
}

fn data(name: &str) -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(name)
}

const UNITS: [(DxfUnit, &str); 2] = [(DxfUnit::Inch, "in"), (DxfUnit::Millimetre, "mm")];

#[test]
fn the_same_quilt_gives_the_same_bytes() {
    let strokes = strokes();
    for (unit, name) in UNITS {
        for (ending, written) in
            [("dxf", dxf(&strokes, unit).unwrap()), ("svg", svg_layers(&strokes, unit).unwrap().into_bytes())]
        {
            let path = data(&format!("templates-{name}.{ending}"));
            if std::env::var_os("UPDATE_REFERENCES").is_some() {
                std::fs::write(&path, &written).unwrap();
            }
            assert!(
                std::fs::read(&path).unwrap_or_default() == written,
                "{}: UPDATE_REFERENCES=1 writes it anew; then run `cargo xtask refs templates`",
                path.display()
            );
        }
    }
}

/// A line as another library read it.
struct Read {
    layer: String,
    closed: bool,
    points: Vec<Point>,
}

fn read(row: &str) -> Read {
    let parts: Vec<&str> = row.split(',').collect();
    let numbers: Vec<f64> = parts[2].split(' ').map(|number| number.parse().unwrap()).collect();
    let points = numbers.chunks_exact(2).map(|pair| Point::new(pair[0], pair[1])).collect();
    Read { layer: parts[0].to_owned(), closed: parts[1] == "closed", points }
}

// ezdxf and svgelements; their versions stand in the first line of the table.
#[test]
fn other_libraries_read_the_same_lines_on_the_same_layers() {
    let table = std::fs::read_to_string(data("templates.csv")).unwrap();
    assert!(table.starts_with("# ezdxf "), "{table}");
    let strokes = strokes();
    let all: Vec<Point> = strokes.iter().flat_map(|stroke| stroke.points.iter().copied()).collect();
    let (low, _) = polygon::bounds(&all).unwrap();
    let mut files = 0;
    for file in table.split("file,").skip(1) {
        files += 1;
        let mut rows = file.lines();
        let head: Vec<&str> = rows.next().unwrap().split(',').collect();
        let of_dxf = head[0].ends_with(".dxf");
        // Inches are 1 and millimetres 4 among the format's units; an SVG's size was read in inches.
        let metric = head[0].contains("-mm");
        let unit = if !of_dxf {
            "in"
        } else if metric {
            "4"
        } else {
            "1"
        };
        assert_eq!(head[1..], [if of_dxf { "AC1015" } else { "svg" }, unit, "0", "0"], "errors, fixes");
        let per_in = if of_dxf && metric { 25.4 } else { 1.0 };
        // Coordinates are rounded to a millionth; svgelements knows a millimetre to seven digits.
        let share = if !of_dxf && metric { 1e-6 } else { 0.0 };
        let from = if of_dxf { Point::ORIGIN } else { low };
        let lines: Vec<Read> = rows.map(read).collect();
        assert_eq!(lines.len(), strokes.len(), "{}", head[0]);
        for layer in DxfLayer::ALL {
            // An SVG has its layers one after the other, a DXF its lines as they come.
            let ours = strokes.iter().filter(|stroke| stroke.layer == layer);
            let theirs: Vec<&Read> = lines.iter().filter(|line| line.layer == layer.name()).collect();
            assert_eq!(ours.clone().count(), theirs.len(), "{}: {}", head[0], layer.name());
            for (stroke, line) in ours.zip(theirs) {
                assert_eq!((stroke.closed, stroke.points.len()), (line.closed, line.points.len()));
                for (wished, seen) in stroke.points.iter().zip(&line.points) {
                    let off = (*wished - from) * per_in - (*seen - Point::ORIGIN);
                    assert!(
                        off.length() < 2e-6 + share * wished.to_vec2().length(),
                        "{}: {wished:?} {seen:?}",
                        head[0]
                    );
                }
            }
        }
    }
    assert_eq!(files, 4, "two units in two formats");
}
