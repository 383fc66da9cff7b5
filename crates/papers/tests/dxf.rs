//! DXF: true size, layers, units, the same bytes every time; read back by another library.
//!
//! `data/strokes-in.dxf` and `-mm.dxf` are what we write; `cargo xtask refs drawings` lets ezdxf read them
//! and writes what it found into `data/strokes.csv`, which the second test holds against the strokes.

use papers::PaperProblem;
use papers::dxf::{DxfLayer, DxfStroke, DxfUnit, dxf};
use plane::Point;

fn stroke(layer: DxfLayer, closed: bool, points: &[(f64, f64)]) -> DxfStroke {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    DxfStroke { layer, points, closed }
}

fn strokes() -> Vec<DxfStroke> {
    vec![
        stroke(DxfLayer::Cut, true, &[(-0.25, -0.25), (4.25, -0.25), (4.25, 3.25), (-0.25, 3.25)]),
        stroke(DxfLayer::Seam, true, &[(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]),
        stroke(DxfLayer::Marks, false, &[(2.0, 3.25), (2.0, 3.03125)]),
        stroke(DxfLayer::Marks, false, &[(1.0, 1.0)]),
        stroke(DxfLayer::Quilting, false, &[(0.5, 0.5), (1.0 / 3.0, 1.5), (-0.0, 1e-9), (3.5, 2.5)]),
    ]
}

const UNITS: [(DxfUnit, &str); 2] = [(DxfUnit::Inch, "in"), (DxfUnit::Millimetre, "mm")];

fn data(name: &str) -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(name)
}

#[test]
fn the_same_strokes_give_the_same_bytes() {
    for (unit, name) in UNITS {
        let written = dxf(&strokes(), unit).unwrap();
        let path = data(&format!("strokes-{name}.dxf"));
        if std::env::var_os("UPDATE_REFERENCES").is_some() {
            std::fs::write(&path, &written).unwrap();
        }
        let kept = std::fs::read(&path).unwrap();
        assert!(
            written == kept,
            "{name}: UPDATE_REFERENCES=1 writes it anew; then run `cargo xtask refs drawings`"
        );
    }
}

// ezdxf; its version stands in the first line of the table.
#[test]
fn another_library_reads_back_what_was_written() {
    let table = std::fs::read_to_string(data("strokes.csv")).unwrap();
    assert!(table.starts_with("# ezdxf "), "{table}");
    let mut rows = table.lines().skip(2);
    for (unit, name) in UNITS {
        let head: Vec<&str> = rows.next().unwrap().split(',').collect();
        let code = if unit == DxfUnit::Inch { "1" } else { "4" };
        assert_eq!(head, ["file", name, "AC1015", code, "0", "0"], "format, unit, errors, fixes");
        for stroke in strokes() {
            let row: Vec<&str> = rows.next().unwrap().split(',').collect();
            let kind = if stroke.points.len() == 1 { "POINT" } else { "LWPOLYLINE" };
            let closed = if stroke.closed { "closed" } else { "open" };
            let dashes = if stroke.layer == DxfLayer::Seam { "Dashed" } else { "Continuous" };
            assert_eq!(row[..4], [kind, stroke.layer.name(), dashes, closed]);
            let read: Vec<f64> = row[4].split(' ').map(|number| number.parse().unwrap()).collect();
            let wished: Vec<f64> = stroke.points.iter().flat_map(|p| [p.x, p.y]).collect();
            assert_eq!(read.len(), wished.len());
            for (read, wished) in read.iter().zip(wished) {
                assert!((read - wished * unit.per_in()).abs() <= 0.5e-6, "{read} {wished}");
            }
        }
    }
    assert_eq!(rows.next(), None);
}

#[test]
fn a_stroke_that_is_none_is_refused() {
    let empty = [stroke(DxfLayer::Cut, false, &[])];
    assert!(matches!(dxf(&empty, DxfUnit::Inch), Err(PaperProblem::EmptyStroke { stroke: 1 })));
    for bad in [f64::NAN, f64::INFINITY, 1e9] {
        let lost = [stroke(DxfLayer::Cut, false, &[(0.0, 0.0), (1.0, bad)])];
        let problem = dxf(&lost, DxfUnit::Inch).unwrap_err();
        assert!(matches!(problem, PaperProblem::NoPlace { stroke: 1, point: 2 }), "{problem}");
    }
    assert!(dxf(&[], DxfUnit::Inch).is_ok());
}
