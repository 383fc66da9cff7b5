//! What a DXF file of the year 2000 must have around its strokes: units, line types, layers, the two
//! spaces, a root dictionary.

use super::writer::Writer;
use super::{DxfLayer, DxfUnit};
use plane::Point;

/// Handle of the space that strokes lie in.
pub(super) const MODEL_SPACE: &str = "1F";
const PAPER_SPACE: &str = "1E";

/// Everything before the first stroke.
pub(super) fn begin(out: &mut Writer, low: Point, high: Point, strokes: usize) {
    header(out, low, high, strokes);
    out.pairs(&[(0, "SECTION"), (2, "CLASSES"), (0, "ENDSEC")]);
    tables(out);
    blocks(out);
    out.pairs(&[(0, "SECTION"), (2, "ENTITIES")]);
}

/// Everything after the last.
pub(super) fn end(out: &mut Writer) {
    out.pairs(&[(0, "ENDSEC"), (0, "SECTION"), (2, "OBJECTS")]);
    out.pairs(&[(0, "DICTIONARY"), (5, "C"), (330, "0"), (100, "AcDbDictionary"), (281, "1")]);
    out.pairs(&[(3, "ACAD_GROUP"), (350, "D")]);
    out.pairs(&[(0, "DICTIONARY"), (5, "D"), (330, "C"), (100, "AcDbDictionary"), (281, "1")]);
    out.pairs(&[(0, "ENDSEC"), (0, "EOF")]);
}

fn header(out: &mut Writer, low: Point, high: Point, strokes: usize) {
    let (unit, metric) = match out.unit {
        DxfUnit::Inch => ("1", "0"),
        DxfUnit::Millimetre => ("4", "1"),
    };
    out.pairs(&[(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1015")]);
    out.pairs(&[(9, "$DWGCODEPAGE"), (3, "ANSI_1252"), (9, "$HANDSEED")]);
    out.text(5, &Writer::handle_seed(strokes));
    out.pairs(&[(9, "$INSUNITS"), (70, unit), (9, "$MEASUREMENT"), (70, metric)]);
    for (name, p) in [("$EXTMIN", low), ("$EXTMAX", high)] {
        out.text(9, name);
        out.place(p);
        out.text(30, "0.0");
    }
    out.text(0, "ENDSEC");
}

fn tables(out: &mut Writer) {
    out.pairs(&[(0, "SECTION"), (2, "TABLES")]);
    table(out, "VPORT", "8", 0);
    table(out, "LTYPE", "5", 4);
    for (handle, name) in [("14", "ByBlock"), ("15", "ByLayer"), ("16", "Continuous")] {
        line_type(out, handle, name, &[]);
    }
    line_type(out, "17", "Dashed", &[1.0 / 8.0, -1.0 / 16.0]);
    table(out, "LAYER", "2", 1 + DxfLayer::ALL.len());
    layer(out, "10", "0", 7, "Continuous");
    for (i, of) in DxfLayer::ALL.into_iter().enumerate() {
        let dashes = if of == DxfLayer::Seam { "Dashed" } else { "Continuous" };
        layer(out, &format!("{:X}", 0x50 + i), of.name(), of.colour(), dashes);
    }
    table(out, "STYLE", "3", 1);
    record(out, "STYLE", "11", "3", "AcDbTextStyleTableRecord", "Standard");
    out.pairs(&[
        (70, "0"),
        (40, "0.0"),
        (41, "1.0"),
        (50, "0.0"),
        (71, "0"),
        (42, "0.2"),
        (3, "txt"),
        (4, ""),
    ]);
    table(out, "VIEW", "6", 0);
    table(out, "UCS", "7", 0);
    table(out, "APPID", "9", 1);
    record(out, "APPID", "12", "9", "AcDbRegAppTableRecord", "ACAD");
    out.text(70, "0");
    table(out, "DIMSTYLE", "A", 0);
    out.text(100, "AcDbDimStyleTable");
    table(out, "BLOCK_RECORD", "1", 2);
    record(out, "BLOCK_RECORD", MODEL_SPACE, "1", "AcDbBlockTableRecord", "*Model_Space");
    record(out, "BLOCK_RECORD", PAPER_SPACE, "1", "AcDbBlockTableRecord", "*Paper_Space");
    out.pairs(&[(0, "ENDTAB"), (0, "ENDSEC")]);
}

/// Begins a table; every table but the first ends the one before.
fn table(out: &mut Writer, name: &str, handle: &str, records: usize) {
    if name != "VPORT" {
        out.text(0, "ENDTAB");
    }
    out.pairs(&[(0, "TABLE"), (2, name), (5, handle), (330, "0"), (100, "AcDbSymbolTable")]);
    out.whole(70, records);
}

fn record(out: &mut Writer, kind: &str, handle: &str, table: &str, class: &str, name: &str) {
    out.pairs(&[
        (0, kind),
        (5, handle),
        (330, table),
        (100, "AcDbSymbolTableRecord"),
        (100, class),
        (2, name),
    ]);
}

fn line_type(out: &mut Writer, handle: &str, name: &str, dashes_in: &[f64]) {
    record(out, "LTYPE", handle, "5", "AcDbLinetypeTableRecord", name);
    out.pairs(&[(70, "0"), (3, ""), (72, "65")]);
    out.whole(73, dashes_in.len());
    out.length(40, dashes_in.iter().map(|dash| dash.abs()).sum());
    for &dash in dashes_in {
        out.length(49, dash);
        out.text(74, "0");
    }
}

fn layer(out: &mut Writer, handle: &str, name: &str, colour: u32, dashes: &str) {
    record(out, "LAYER", handle, "2", "AcDbLayerTableRecord", name);
    out.text(70, "0");
    out.text(62, &colour.to_string());
    out.text(6, dashes);
}

fn blocks(out: &mut Writer) {
    out.pairs(&[(0, "SECTION"), (2, "BLOCKS")]);
    block(out, ["20", "21"], MODEL_SPACE, "*Model_Space", false);
    block(out, ["1C", "1D"], PAPER_SPACE, "*Paper_Space", true);
    out.text(0, "ENDSEC");
}

/// An empty block; both spaces are blocks.
fn block(out: &mut Writer, [begin, end]: [&str; 2], record: &str, name: &str, on_paper: bool) {
    let entity = |out: &mut Writer, kind: &str, handle: &str| {
        out.pairs(&[(0, kind), (5, handle), (330, record), (100, "AcDbEntity")]);
        if on_paper {
            out.text(67, "1");
        }
        out.text(8, "0");
    };
    entity(out, "BLOCK", begin);
    out.pairs(&[(100, "AcDbBlockBegin"), (2, name), (70, "0"), (10, "0.0"), (20, "0.0"), (30, "0.0")]);
    out.pairs(&[(3, name), (1, "")]);
    entity(out, "ENDBLK", end);
    out.text(100, "AcDbBlockEnd");
}
