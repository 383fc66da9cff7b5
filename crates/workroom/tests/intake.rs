//! The ways into the stash, and everything that is refused on the way.

mod common;

use common::workroom;
use plane::{RegionProblem, polygon};
use quilt::cloth::{Kind, Runs};
use workroom::intake::{
    IntakeProblem, read_figure, read_list, read_polygon, read_rectangle, read_scraps, read_svg, read_words,
    width_taken,
};

#[test]
fn a_rectangle_takes_lengths_of_any_form() {
    let cloth = read_rectangle("dusty green dots", "3 1/2", "12.7 cm").unwrap();
    assert!((cloth.outline.area() - 3.5 * 5.0).abs() < 1e-9);
    assert!(!cloth.about && cloth.look.busy > 0.0);
    for bad in ["2 1/0", "", "NaN", "inf", "-3", "0", "99999", "1e400", "3 elephants"] {
        let problem = read_rectangle("red", bad, "5").unwrap_err();
        assert!(matches!(problem, IntakeProblem::Length { what: "the width", .. }), "{bad}: {problem}");
        assert!(problem.hint().is_some());
    }
}

#[test]
fn a_polygon_is_read_corner_by_corner() {
    let cloth = read_polygon("", "0,0 3,0 3,5 0,5").unwrap();
    assert_eq!(cloth.outline.area(), 15.0);
    let mixed = read_polygon("", "0,0; 3 1/2,0; 3 1/2,127 mm; 0,5").unwrap();
    assert!((mixed.outline.area() - 17.5).abs() < 1e-9);
    let clockwise = read_polygon("", "0,0 0,5 3,5 3,0").unwrap();
    assert_eq!(clockwise.outline.area(), 15.0);
    let bow = read_polygon("", "0,0 2,2 2,0 0,2").unwrap_err();
    assert!(matches!(bow, IntakeProblem::Outline { problem: RegionProblem::SidesCross { .. }, .. }));
    assert!(matches!(read_polygon("", "0,0 3 3,5").unwrap_err(), IntakeProblem::Corner { corner: 2, .. }));
    for bad in
        ["", "0,0 1,1", "0,0 1,0 2,0", "0,0 NaN,0 0,1", "0,0 2 1/0,3", "0,0,0 1,0 1,1", "0,0 5000,0 0,1"]
    {
        assert!(read_polygon("", bad).is_err(), "{bad}");
    }
}

#[test]
fn a_scrap_is_entered_in_ten_seconds() {
    let cloth = read_words("red stripe, about 3 by 5").unwrap();
    assert_eq!(cloth.outline.outer[2], plane::Point::new(3.0, 5.0));
    assert_eq!((cloth.about, cloth.name.as_str()), (true, "red stripe"));
    assert!(matches!(cloth.look.runs, Runs::BothWays(_)));
    assert_eq!(cloth.look.shades[0].lab, colour::read_words("red").unwrap());
    for (text, width, height, about) in [
        ("3 1/2 x 5 in, blue check", 3.5, 5.0, false),
        ("plain cream 3x5", 3.0, 5.0, false),
        ("slate ~ 2¼ by 3", 2.25, 3.0, true),
        ("mist 8 by 10 cm", 8.0 / 2.54, 10.0 / 2.54, false),
        ("mist 80 mm by 4 in", 80.0 / 25.4, 4.0, false),
        ("roughly 4 square, coral", 4.0, 4.0, true),
        ("sand and slate stripe 2 × 9", 2.0, 9.0, false),
    ] {
        let cloth = read_words(text).unwrap();
        let (_, hi) = polygon::bounds(&cloth.outline.outer).unwrap();
        assert!((hi.x - width).abs() < 1e-9 && (hi.y - height).abs() < 1e-9, "{text}: {hi:?}");
        assert_eq!(cloth.about, about, "{text}");
    }
    assert_eq!(read_words("sand and slate stripe 2 x 9").unwrap().look.shades.len(), 2);
    assert!(matches!(read_words("one-way ripple 4 by 4").unwrap().look.runs, Runs::OneWay(_)));
    assert!(matches!(read_words("red stripe").unwrap_err(), IntakeProblem::NoSize { .. }));
    assert!(matches!(read_words("red 2 1/0 by 3").unwrap_err(), IntakeProblem::Length { .. }));
    assert!(read_words("red 0 by 3").is_err());
    assert!(read_words(&"by ".repeat(2000)).is_err());
}

const LIST: &str = "\
name,width,height,colour,print,count,about,kind,grain,place
ripple,3 1/2,5,slate,ripple,2,,,,basket
shell,10 cm,4,,,,yes,length,45,
";

#[test]
fn a_list_is_read_with_all_its_columns() {
    let scraps = read_list(LIST.as_bytes()).unwrap();
    assert_eq!(scraps.len(), 3);
    assert_eq!(scraps[0], scraps[1]);
    assert_eq!(scraps[0].place, "basket");
    assert_eq!((scraps[2].kind, scraps[2].about), (Kind::Length, true));
    assert!((scraps[2].grain.to_degrees() - 45.0).abs() < 1e-9);
    let (_folder, mut room) = workroom();
    let ids = room.enter(scraps).unwrap();
    assert_eq!(room.stash().unwrap().same_print(ids[0].1).len(), 1);
    // With a byte order mark and the other line endings.
    let odd = format!("\u{feff}{}", LIST.replace('\n', "\r\n"));
    assert_eq!(read_list(odd.as_bytes()).unwrap().len(), 3);
}

#[test]
fn a_row_of_several_is_one_print_and_facts_come_along() {
    let list = "name,width,height,count,washed,bleeds\ndots,3,5,4,yes,\nred,3,5,1,no,yes\ndots,3,5,2,,\n";
    let (_folder, mut room) = workroom();
    let ids = room.enter(read_list(list.as_bytes()).unwrap()).unwrap();
    let stash = room.stash().unwrap();
    let alike: Vec<usize> = ids.iter().map(|(_, id)| stash.same_print(*id).len()).collect();
    assert_eq!(alike, [3, 3, 3, 3, 0, 1, 1], "each row is a print of its own");
    let facts = |i: usize| &stash.get(ids[i].1).unwrap().came.facts;
    assert_eq!((facts(0).washed, facts(0).bleeds), (Some(true), None));
    assert_eq!((facts(4).washed, facts(4).bleeds), (Some(false), Some(true)));
}

#[test]
fn a_list_that_isnt_right_is_refused_with_line_and_column() {
    let line = |text: &str| match read_list(text.as_bytes()).unwrap_err() {
        IntakeProblem::Line { line, column, .. } => (line, column),
        other => panic!("{text}: {other}"),
    };
    assert_eq!(line("name,width,height\na,3,5\nb,2 1/0,5\n"), (3, "width".to_owned()));
    assert_eq!(line("name,width,height\na,3\n"), (2, "all".to_owned()));
    assert_eq!(line("name,width,height,count\na,3,5,-1\n"), (2, "count".to_owned()));
    assert_eq!(line("name,width,height,kind\na,3,5,bird\n"), (2, "kind".to_owned()));
    assert_eq!(line("name,width,height,colour\na,3,5,xyzzy\n"), (2, "colour".to_owned()));
    assert_eq!(line("name,width,height,about\na,3,5,perhaps\n"), (2, "about".to_owned()));
    assert_eq!(line("name,width,height,grain\na,3,5,up\n"), (2, "grain".to_owned()));
    let column = |text: &str| match read_list(text.as_bytes()).unwrap_err() {
        IntakeProblem::Columns { column, .. } => column,
        other => panic!("{text}: {other}"),
    };
    assert_eq!(column("name,breadth,height\na,3,5\n"), 2);
    assert_eq!(column("name,width,width,height\na,3,3,5\n"), 3);
    assert_eq!(column("name,width\na,3\n"), 3);
    assert_eq!(column("name;width;height\na;3;5\n"), 1);
    assert_eq!(read_list(b"name,width,height\n").unwrap_err(), IntakeProblem::Nothing);
    assert_eq!(read_list(b"name,width,height\n\xff,3,5\n").unwrap_err(), IntakeProblem::NotText { at: 18 });
    let many = format!("name,width,height,count\n{}", "a,3,5,1000\n".repeat(11));
    assert!(matches!(read_list(many.as_bytes()).unwrap_err(), IntakeProblem::TooMuch { .. }));
    assert!(matches!(read_list(&vec![b'a'; 5 << 20]).unwrap_err(), IntakeProblem::TooMuch { .. }));
}

fn svg(size: &str, inner: &str) -> String {
    format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {size}>{inner}</svg>")
}

fn areas(text: &str) -> Vec<f64> {
    read_svg(text.as_bytes()).unwrap().iter().map(|cloth| cloth.outline.area()).collect()
}

#[test]
fn an_svg_is_read_in_true_size_whatever_its_unit() {
    // Units: CSS Values and Units, absolute lengths: 1 in = 96 px = 72 pt = 6 pc = 2.54 cm.
    let rect = "<rect x=\"10\" y=\"10\" width=\"50\" height=\"25\"/>";
    for (width, height) in [
        ("width=\"4in\"", "height=\"2in\""),
        ("width=\"101.6mm\"", "height=\"50.8mm\""),
        ("width=\"10.16cm\"", "height=\"5.08cm\""),
        ("width=\"288pt\"", "height=\"144pt\""),
        ("width=\"24pc\"", "height=\"12pc\""),
        ("width=\"384px\"", "height=\"192px\""),
    ] {
        // A hundred units are four inches.
        let found = areas(&svg(&format!("{width} {height} viewBox=\"0 0 100 50\""), rect));
        assert!((found[0] - 2.0).abs() < 1e-9, "{width}: {found:?}");
    }
    // Without a view box, units are pixels.
    let found = areas(&svg("width=\"4in\" height=\"2in\"", "<rect width=\"96\" height=\"192\"/>"));
    assert!((found[0] - 2.0).abs() < 1e-9);
    // Stretched only where it says so.
    let size = "width=\"4in\" height=\"4in\" viewBox=\"0 0 100 50\"";
    assert!((areas(&svg(size, rect))[0] - 2.0).abs() < 1e-9);
    let size = format!("{size} preserveAspectRatio=\"none\"");
    assert!((areas(&svg(&size, rect))[0] - 4.0).abs() < 1e-9);
}

#[test]
fn curves_are_flattened_close_and_transforms_are_followed() {
    let size = "width=\"10in\" height=\"10in\" viewBox=\"0 0 10 10\"";
    let circle = areas(&svg(size, "<circle cx=\"5\" cy=\"5\" r=\"2\"/>"))[0];
    assert!((circle - std::f64::consts::PI * 4.0).abs() < 0.02, "{circle}");
    let ellipse = areas(&svg(size, "<ellipse cx=\"5\" cy=\"5\" rx=\"3\" ry=\"1\"/>"))[0];
    assert!((ellipse - std::f64::consts::PI * 3.0).abs() < 0.02, "{ellipse}");
    let rounded = areas(&svg(size, "<rect width=\"4\" height=\"3\" rx=\"1\" ry=\"0.5\"/>"))[0];
    // A rectangle less four corners, each a rectangle less a quarter ellipse (geometry).
    assert!((rounded - (12.0 - (4.0 - std::f64::consts::PI) * 0.5)).abs() < 0.02, "{rounded}");
    let arc = areas(&svg(size, "<path d=\"M1 1 H5 A2 2 0 0 1 5 5 H1 Z\"/>"))[0];
    assert!((arc - (16.0 + std::f64::consts::PI * 2.0)).abs() < 0.02, "{arc}");
    // However large, and whatever stands before and after it: every corner lies on its circle.
    let large = "<path d=\"m 200 100 a 100 100 0 0 1 -200 0 A100 100 0 0 1 200 100 z\"/>";
    let size = "width=\"200in\" height=\"200in\" viewBox=\"0 0 200 200\"";
    let outline = &read_svg(svg(size, large).as_bytes()).unwrap()[0].outline;
    let middle = plane::Point::new(100.0, 100.0);
    for (a, b) in polygon::edges(&outline.outer) {
        let half = plane::Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y));
        for (what, p) in [("corner", a), ("chord", half)] {
            let off = (p.distance(middle) - 100.0).abs();
            assert!(off < 1.25 / 1024.0, "a {what} is {off} off the circle");
        }
    }
    let size = "width=\"10in\" height=\"10in\" viewBox=\"0 0 10 10\"";
    let curvy = "<path d=\"M1 5 C1 3 3 3 3 5 S5 7 5 5 Q6 3 7 5 T9 5 V8 H1 Z\"/>";
    assert!((areas(&svg(size, curvy))[0] - 24.0).abs() < 0.02, "the waves are as high as they are deep");
    let relative = "<path d=\"m1 5 c0 -2 2 -2 2 0 s2 2 2 0 q1 -2 2 0 t2 0 v3 h-8 z\"/>";
    assert!((areas(&svg(size, curvy))[0] - areas(&svg(size, relative))[0]).abs() < 1e-9);
    let nested = "<g transform=\"scale(2)\"><g transform=\"rotate(30) translate(1 1)\"><polygon points=\"0,0 1,0 1,1 0,1\"/></g></g>";
    assert!((areas(&svg(size, nested))[0] - 4.0).abs() < 1e-9);
}

#[test]
fn a_drawing_keeps_its_handedness_and_its_holes() {
    let size = "width=\"10in\" height=\"10in\" viewBox=\"0 0 10 10\"";
    // An L whose foot points right on the screen, where y runs down.
    let l = "<path d=\"M0 0 H1 V4 H3 V5 H0 Z\"/>";
    let cloth = &read_svg(svg(size, l).as_bytes()).unwrap()[0];
    assert!(cloth.outline.contains(plane::Point::new(2.5, 0.5)), "the foot is at the bottom right");
    assert!(!cloth.outline.contains(plane::Point::new(2.5, 4.5)));
    let frame = "<path d=\"M0 0H8V8H0Z M2 2H6V6H2Z M3 3H5V5H3Z\"/>";
    let found = read_svg(svg(size, frame).as_bytes()).unwrap();
    assert_eq!(
        found.iter().map(|c| (c.outline.area(), c.outline.holes.len())).collect::<Vec<_>>(),
        [(48.0, 1), (4.0, 0)]
    );
}

#[test]
fn names_and_fills_come_along_and_what_isnt_drawn_does_not() {
    let size = "width=\"10in\" height=\"10in\" viewBox=\"0 0 10 10\"";
    let inner = "<defs><rect width=\"1\" height=\"1\"/></defs>\
        <rect id=\"heron\" width=\"2\" height=\"2\" fill=\"#26428b\"/>\
        <g style=\"fill: #ffffff\"><rect width=\"3\" height=\"2\"><title>mist</title></rect></g>\
        <rect width=\"2\" height=\"2\" display=\"none\"/><text>words</text>";
    let found = read_svg(svg(size, inner).as_bytes()).unwrap();
    assert_eq!(found.iter().map(|c| c.name.as_str()).collect::<Vec<_>>(), ["heron", "mist"]);
    assert!((found[1].look.shades[0].lab.l - 100.0).abs() < 0.01);
    assert!(found[0].look.shades[0].lab.b < -20.0);
    for fill in ["rgb(38, 66, 139)", "rgb(14.9%,25.9%,54.5%)", "#26428B"] {
        let rect = format!("<rect width=\"2\" height=\"2\" fill=\"{fill}\"/>");
        let lab = read_svg(svg(size, &rect).as_bytes()).unwrap()[0].look.shades[0].lab;
        assert!(colour::difference(lab, found[0].look.shades[0].lab) < 1.0, "{fill}: {lab:?}");
    }
}

#[test]
fn an_svg_without_units_is_refused_and_says_how_to_add_them() {
    let rect = "<rect width=\"5\" height=\"5\"/>";
    for size in [
        "width=\"100\" height=\"100\"",
        "width=\"100%\" height=\"50%\"",
        "viewBox=\"0 0 9 9\"",
        "width=\"4in\"",
        "width=\"4em\" height=\"4em\"",
    ] {
        let problem = read_svg(svg(size, rect).as_bytes()).unwrap_err();
        assert!(matches!(problem, IntakeProblem::NoUnits { .. }), "{size}: {problem}");
        assert!(problem.hint().unwrap().contains("width=\"120mm\""));
    }
    for size in [
        "width=\"4in\" height=\"4in\" viewBox=\"0 0 0 9\"",
        "width=\"-4in\" height=\"4in\"",
        "width=\"4in\" height=\"4in\" viewBox=\"a\"",
    ] {
        assert!(read_svg(svg(size, rect).as_bytes()).is_err(), "{size}");
    }
}

#[test]
fn what_could_do_harm_is_refused() {
    let size = "width=\"10in\" height=\"10in\"";
    let rect = "<rect width=\"5\" height=\"5\"/>";
    for inner in [
        "<script>alert(1)</script>",
        "<foreignObject/>",
        "<rect width=\"5\" height=\"5\" onclick=\"x()\"/>",
        "<a href=\"javascript:x()\"><rect width=\"5\" height=\"5\"/></a>",
        "<use href=\"#x\"/>",
        "<svg width=\"4in\" height=\"4in\"/>",
    ] {
        let problem = read_svg(svg(size, &format!("{rect}{inner}")).as_bytes()).unwrap_err();
        assert!(matches!(problem, IntakeProblem::NotADrawing { .. }), "{inner}: {problem}");
    }
    let bomb = format!(
        "<?xml version=\"1.0\"?><!DOCTYPE svg [<!ENTITY a \"aaaaaaaaaa\">{}]>{}",
        (0..9).map(|i| format!("<!ENTITY b{i} \"{}\">", "&a;".repeat(10))).collect::<String>(),
        svg(size, "<text>&b8;</text>")
    );
    let problem = read_svg(bomb.as_bytes()).unwrap_err();
    assert!(matches!(problem, IntakeProblem::NotADrawing { .. }), "{problem}");
    let deep = svg(size, &format!("{}{rect}{}", "<g>".repeat(100_000), "</g>".repeat(100_000)));
    assert!(matches!(read_svg(deep.as_bytes()).unwrap_err(), IntakeProblem::TooMuch { .. }));
    let sly = svg(size, &format!("{}{rect}{}", "<g a=\"/>\">".repeat(65), "</g>".repeat(65)));
    assert!(matches!(read_svg(sly.as_bytes()).unwrap_err(), IntakeProblem::TooMuch { found: 66, .. }));
    let words = "<!-- <g><g> --><desc><![CDATA[<g><g>]]></desc>".repeat(65);
    assert_eq!(
        areas(&svg("width=\"10in\" height=\"10in\" viewBox=\"0 0 10 10\"", &format!("{words}{rect}"))).len(),
        1
    );
    let many = svg(size, &"<g/>".repeat(60_000));
    assert!(read_svg(many.as_bytes()).is_err());
    let large = svg(size, &" ".repeat(5 << 20));
    let problem = read_svg(large.as_bytes()).unwrap_err();
    assert!(problem.to_string().contains("4194304"), "{problem}");
}

#[test]
fn shapes_that_are_no_cloth_are_refused_with_their_line() {
    let size = "width=\"10in\" height=\"10in\" viewBox=\"0 0 10 10\"";
    for inner in [
        "<polygon points=\"0,0 2,2 2,0 0,2\"/>",
        "<rect width=\"0\" height=\"5\"/>",
        "<rect width=\"5%\" height=\"5\"/>",
        "<path d=\"M 0 0 Q nonsense\"/>",
        "<path d=\"\"/>",
        "<rect width=\"5\" height=\"5\" transform=\"bend(3)\"/>",
        "<rect width=\"NaN\" height=\"5\"/>",
        "<rect width=\"1e300\" height=\"1e300\"/>",
        "<rect width=\"5\" height=\"5\" transform=\"scale(0)\"/>",
    ] {
        let problem = read_svg(svg(size, &format!("\n{inner}")).as_bytes()).unwrap_err();
        assert!(matches!(problem, IntakeProblem::Shape { line: 2, .. }), "{inner}: {problem}");
    }
    assert_eq!(read_svg(svg(size, "<text>x</text>").as_bytes()).unwrap_err(), IntakeProblem::Nothing);
    for bad in ["", "words", "<svg", "<html/>", "<svg width=\"1in\" height=\"1in\"><g></svg>"] {
        assert!(matches!(read_svg(bad.as_bytes()).unwrap_err(), IntakeProblem::NotSvg(_)), "{bad}");
    }
    assert!(matches!(read_svg(b"\xff\xfe").unwrap_err(), IntakeProblem::NotText { at: 0 }));
}

const PLAIN: &str = "viewBox=\"0 0 10 10\"";

#[test]
fn a_figure_is_read_as_layers_with_their_curves() {
    let inner = "<g transform=\"translate(1 1)\"><path id=\"body\" data-cloth=\"00000000000000ff\" \
        d=\"M0 0 H4 V4 Q2 6 0 4 Z M1 1 H2 V2 H1 Z\"/></g>\
        <ellipse id=\"wing\" cx=\"5\" cy=\"5\" rx=\"2\" ry=\"1\"/>\
        <path d=\"M6 6h2v2h-2zM9 9h1v1h-1z\"><title>feet</title></path>\
        <path id=\"wing\" d=\"M0 0 h2 v2 h-2 v-1.9999\"/>\
        <g display=\"none\"><rect width=\"9\" height=\"9\"/></g><defs><rect width=\"9\" height=\"9\"/></defs>";
    let figure = read_figure("heron", svg(PLAIN, inner).as_bytes()).unwrap();
    let names: Vec<&str> = figure.shapes.iter().map(|shape| shape.id.as_str()).collect();
    assert_eq!(names, ["body", "wing", "feet 1", "feet 2", "wing 2"]);
    assert_eq!((figure.name.as_str(), figure.unit_in), ("heron", None));
    let body = &figure.shapes[0];
    assert_eq!((body.cloth, body.paths.len()), (Some(quilt::cloth::ClothId(255)), 2));
    assert_eq!(body.paths[0].start, plane::Point::new(1.0, -1.0));
    assert!(body.paths[0].segments.iter().any(|s| matches!(s, quilt::stage::figure::Segment::Curve(..))));
    let sized = "width=\"254mm\" height=\"254mm\" viewBox=\"0 0 10 10\"";
    let sized = read_figure("", svg(sized, inner).as_bytes()).unwrap();
    assert_eq!((sized.name.as_str(), sized.unit_in), ("figure", Some(1.0)));
}

#[test]
fn a_figure_with_what_is_no_closed_shape_is_refused_with_its_line() {
    let rect = "<rect width=\"5\" height=\"5\"/>\n";
    let refused = |inner: &str| {
        let problem = read_figure("f", svg(PLAIN, &format!("{rect}{inner}")).as_bytes()).unwrap_err();
        assert!(problem.hint().is_some());
        problem
    };
    for inner in
        ["<path d=\"M0 0 H4 V4\"/>", "<polyline points=\"0,0 4,0 4,4\"/>", "<path d=\"M0 0h2v2zM5 5h2v2\"/>"]
    {
        let problem = refused(inner);
        assert!(matches!(problem, IntakeProblem::Open { line: 2, .. }), "{inner}: {problem}");
    }
    assert_eq!(
        refused("<path d=\"M0 0 H3 V4\"/>").to_string(),
        "the path in line 2 is open: its ends are 5.00 apart, in the drawing's units"
    );
    for inner in [
        "<text>heron</text>",
        "<image href=\"heron.png\"/>",
        "<a href=\"page.html\"><rect width=\"1\" height=\"1\"/></a>",
        "<path href=\"other.svg\" d=\"M0 0h1v1z\"/>",
        "<script>x()</script>",
        "<use href=\"#x\"/>",
        "<rect width=\"5\" height=\"5\" onload=\"x()\"/>",
    ] {
        let problem = refused(inner);
        assert!(matches!(problem, IntakeProblem::NotADrawing { line: 2, .. }), "{inner}: {problem}");
    }
    for inner in [
        "<path d=\"M0 0 L2 2 L2 0 L0 2 Z\"/>",
        "<path d=\"\"/>",
        "<path d=\"M0 0 L4 0 L2 0 Z\"/>",
        "<rect width=\"0\" height=\"0\"/>",
        "<path d=\"M0 0 h1e300 v1e300 h-1e300 z M 0 0\"/>",
        "<path data-cloth=\"slate\" d=\"M0 0h1v1z\"/>",
    ] {
        let problem = refused(inner);
        assert!(matches!(problem, IntakeProblem::Shape { line: 2, .. }), "{inner}: {problem}");
    }
    let only_words = read_figure("f", svg(PLAIN, "<g/>").as_bytes()).unwrap_err();
    assert_eq!(only_words, IntakeProblem::Nothing);
}

#[test]
fn a_million_points_are_refused_before_anything_is_done_with_them() {
    for many in [format!("M0 0{}z", "h1v1".repeat(500_000)), format!("M0 0{}z", "h1".repeat(1_000_000))] {
        let problem = read_figure("f", svg(PLAIN, &format!("<path d=\"{many}\"/>")).as_bytes()).unwrap_err();
        assert!(matches!(problem, IntakeProblem::TooMuch { most: 20_000, .. }), "{problem}");
    }
    let bytes = svg(PLAIN, &format!("<path d=\"M0 0{}z\"/>", "l1.25 1.5".repeat(1_000_000)));
    assert!(matches!(read_figure("f", bytes.as_bytes()).unwrap_err(), IntakeProblem::TooMuch { .. }));
}

#[test]
fn words_count_scraps_and_refuse_what_two_lengths_do_not_tell() {
    for (text, count, name) in [
        ("two navy dots 4 by 4", 2, "navy dots"),
        ("5 pink scraps 3x3", 5, "pink scraps"),
        ("3 by 5 red", 1, "red"),
        ("3 in by 5 in red", 1, "red"),
        ("3 1/2 by 5 red", 1, "red"),
    ] {
        let read = read_scraps(text).unwrap();
        assert_eq!((read.len(), read[0].name.as_str()), (count, name), "{text}");
        assert_eq!(read[0].print_name.is_some(), count > 1, "{text}");
    }
    let quarter = read_words("rust fat quarter").unwrap();
    assert!((quarter.outline.area() - 18.0 * 22.0).abs() < 1e-9);
    let quarters = read_scraps("3 red fat quarters").unwrap();
    assert_eq!(quarters.len(), 3);
    assert!((quarters[0].outline.area() - 18.0 * 22.0).abs() < 1e-9);
    for (text, name, wide, long) in [
        ("2 yards of navy", "navy", 42.0, 72.0),
        ("navy stripe, 1 1/2 yd", "navy stripe", 42.0, 54.0),
        ("1 yard of cotton batting", "cotton batting", 90.0, 36.0),
    ] {
        let cloth = &read_scraps(text).unwrap()[0];
        assert_eq!((cloth.name.as_str(), cloth.about, width_taken(text)), (name, true, Some(wide as u32)));
        assert!((cloth.outline.area() - wide * long).abs() < 1e-9, "{text}");
    }
    assert_eq!(["batting, 30 by 30", "rust fat quarter", "red 3 by 5"].map(width_taken), [None; 3]);
    for none in ["0 red scraps 3 by 5", "0 navy fat quarters"] {
        assert!(matches!(read_scraps(none).unwrap_err(), IntakeProblem::NoCount { .. }), "{none}");
    }
    assert!(matches!(read_words("navy, 5 inches").unwrap_err(), IntakeProblem::NoSize { .. }));
    let shape = read_words("blue triangle, 4 by 5").unwrap_err();
    assert!(matches!(shape, IntakeProblem::NotARectangle { .. }), "{shape}");
    let third = read_words("red 3 by 4 by 5").unwrap_err();
    assert_eq!(third.to_string(), "after 3 by 4 there is one more length in `red 3 by 4 by 5`");
    assert!(read_scraps("500 red dots 2 by 2").is_err());
    let thin = read_rectangle("y", "0.001", "3").unwrap_err();
    assert!(thin.to_string().contains("1/16"), "{thin}");
    let wrong = read_rectangle("y", "x", "3").unwrap_err();
    assert_eq!(wrong.to_string().matches("`x`").count(), 1, "{wrong}");
    assert!(!wrong.to_string().contains("Write") && wrong.hint().is_some());
}

#[test]
fn what_is_no_svg_is_told_by_its_line_in_plain_words() {
    for (text, told) in [
        ("a heron", "the SVG can't be read: line 1 isn't written as an SVG is"),
        ("<svg>\n<g>\n</a></svg>", "the SVG can't be read: line 3 closes an element `a`, and `g` is the one"),
        ("", "the SVG can't be read: "),
        ("<svg><g>", "the SVG can't be read: "),
    ] {
        let said = read_svg(text.as_bytes()).unwrap_err().to_string();
        assert!(said.starts_with(told) && !said.contains("token") && !said.contains("node"), "{said}");
    }
}
