//! Things land where they should: in the file as another reader sees it, from behind as from the
//! front.

mod common;

use common::*;
use drawing::svg::{Pictures, SvgOptions};
use drawing::*;
use plane::{Point, Pose, Region, Turn, Vec2, polygon};
use quilt::log::{Mark, Press};
use roxmltree::{Document, Node};

const LINKED: SvgOptions<'_> = SvgOptions { pictures: Pictures::Linked("/pictures/"), id_prefix: "" };

fn numbers(text: &str) -> Vec<f64> {
    text.split(|c: char| !(c.is_ascii_digit() || ".-".contains(c))).filter_map(|n| n.parse().ok()).collect()
}

fn number(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).and_then(|text| text.trim_end_matches("in").parse().ok()).expect(name)
}

/// Where a pixel of the one picture of a file lies on its page, y up, read from the file alone.
fn where_pixel_lies(svg: &str, px: f64, py: f64) -> Point {
    let document = Document::parse(svg).expect("well-formed");
    let find = |name: &str| document.descendants().find(|n| n.has_tag_name(name)).expect("it is there");
    let (image, used) = (find("image"), find("use"));
    assert_eq!(used.attribute("href"), image.attribute("id").map(|id| format!("#{id}")).as_deref());
    let x = number(image, "x") + px / 400.0 * number(image, "width");
    let y = number(image, "y") + py / 300.0 * number(image, "height");
    let m = numbers(used.attribute("transform").expect("a motion"));
    Point::new(m[0] * x + m[2] * y + m[4], -(m[1] * x + m[3] * y + m[5]))
}

#[test]
fn a_pixel_of_the_print_lands_where_its_cloth_does() {
    // The patch's corner lies at (3, 2) of the cloth, turned by a quarter; nothing is sewn.
    let mut table = quilt::table::Table::new();
    let at = Pose::new(Turn::QUARTER, Vec2::new(3.0, 2.0));
    lay(&mut table, 1, SLATE, at, Region::rectangle(2.0, 1.0).outer);
    let svg = front(&table, Mark(1), &heap(), &FrontOptions::default()).unwrap().to_svg(&LINKED);
    // Worked by hand: pixel (250, 100) is 5 in right of and 2 in below the picture's corner at
    // (-1, 5), so it is (4, 3) on the cloth. From (3, 2) that is (1, 1); turned back by a quarter:
    // (1, -1).
    let found = where_pixel_lies(&svg, 250.0, 100.0);
    assert!(found.distance(Point::new(1.0, -1.0)) < 1e-3, "{found:?}");
}

#[test]
fn a_photograph_shows_instead_of_the_cloth_and_lies_where_it_is_said() {
    let mut table = quilt::table::Table::new();
    lay(&mut table, 1, SAND, Pose::STAY, Region::rectangle(2.0, 1.0).outer);
    let picture = heap()[&SLATE].picture.clone().unwrap();
    let lies = Placement::moved(Pose::new(Turn::QUARTER, Vec2::new(3.0, -2.0)));
    let shown = Photographed { picture: picture.into(), lies: [(Mark(1), lies)].into() };
    let what = FrontOptions { photographed: Some(shown), ..FrontOptions::default() };
    let svg = front(&table, Mark(1), &heap(), &what).unwrap().to_svg(&LINKED);
    // Worked by hand: pixel (250, 100) is (4, 3) of the photographed table; a quarter turn brings it to
    // (-3, 4), the shift to (0, 2).
    let found = where_pixel_lies(&svg, 250.0, 100.0);
    assert!(found.distance(Point::new(0.0, 2.0)) < 1e-3, "{found:?}");
    let back = back(&table, Mark(1), &heap(), &what).unwrap().to_svg(&LINKED);
    assert!(!back.contains("image"), "it shows the front");
}

#[test]
fn a_pixel_moves_with_its_patch_when_it_is_sewn() {
    let table = two_patches(Press::Over, None);
    let svg = front(&table, Mark(1), &heap(), &FrontOptions::default()).unwrap().to_svg(&LINKED);
    // Worked by hand: the cloth is turned back by a quarter about (4, 1) to give the patch: cloth
    // (4, 1) is the patch's corner (0, 0). Its side from (0, 0) to (3.5, 0) is sewn onto x = 4 - s
    // of the piece, right sides together: the patch turns by a quarter clockwise, and the middle of
    // its side, (1.75, 0.25), comes to (3.75, 1.5): its corner (0, 0) comes to (3.5, 3.25).
    // Cloth (4, 1) is 5 in right of and 4 in below the picture's corner: pixel (250, 200).
    let found = where_pixel_lies(&svg, 250.0, 200.0);
    assert!(found.distance(Point::new(3.5, 3.25)) < 1e-3, "{found:?}");
    // Cloth (4, 2) is the patch's (1, 0), which comes to (3.5, 2.25).
    let found = where_pixel_lies(&svg, 250.0, 150.0);
    assert!(found.distance(Point::new(3.5, 2.25)) < 1e-3, "{found:?}");
    // From behind it is the mirror image.
    let svg = back(&table, Mark(1), &heap(), &FrontOptions::default()).unwrap().to_svg(&LINKED);
    let found = where_pixel_lies(&svg, 250.0, 150.0);
    assert!(found.distance(Point::new(-3.5, 2.25)) < 1e-3, "{found:?}");
}

#[test]
fn one_inch_is_one_inch() {
    let drawn = front(&three_patches(), Mark(1), &heap(), &FrontOptions::default()).unwrap();
    let svg = drawn.to_svg(&LINKED);
    let document = Document::parse(&svg).unwrap();
    let root = document.root_element();
    let view = numbers(root.attribute("viewBox").unwrap());
    assert!(root.attribute("width").unwrap().ends_with("in"));
    assert_eq!([number(root, "width"), number(root, "height")], [view[2], view[3]]);
    assert!((number(root, "width") - drawn.width_in()).abs() < 1e-4);
}

/// Areas of the patches, by their mark.
fn patch_areas(items: &[Item], found: &mut Vec<(String, Vec<Point>)>) {
    for item in items {
        let Shape::Group { items, .. } = &item.shape else { continue };
        match items.first().map(|first| &first.shape) {
            Some(Shape::Fill { region, .. }) if item.tag.class == "patch" => {
                found.push((item.tag.data[0].1.clone(), region.outer.clone()));
            }
            _ => patch_areas(items, found),
        }
    }
}

fn each_text(items: &[Item], see: &mut impl FnMut(&TextItem)) {
    for item in items {
        match &item.shape {
            Shape::Text(text) => see(text),
            Shape::Group { items, .. } => each_text(items, see),
            _ => {}
        }
    }
}

#[test]
fn the_back_is_the_fronts_mirror_image() {
    let what = FrontOptions { labels: true, measures: true, ..FrontOptions::default() };
    let table = three_patches();
    let front = front(&table, Mark(1), &heap(), &what).unwrap();
    let back = back(&table, Mark(1), &heap(), &what).unwrap();
    let (mut seen, mut behind) = (Vec::new(), Vec::new());
    patch_areas(&front.items, &mut seen);
    patch_areas(&back.items, &mut behind);
    assert_eq!(seen.len(), 3);
    for ((patch, points), (same, mirrored)) in seen.iter().zip(&behind) {
        assert_eq!(patch, same);
        let expected: Vec<Point> = points.iter().map(|p| Point::new(-p.x, p.y)).collect();
        assert_eq!(&expected, mirrored);
    }
    let (mut words, mut words_behind) = (Vec::new(), Vec::new());
    each_text(&front.items, &mut |text| words.push(text.clone()));
    each_text(&back.items, &mut |text| words_behind.push(text.clone()));
    assert_eq!(words.len(), words_behind.len());
    for (text, behind) in words.iter().zip(&words_behind) {
        assert_eq!((&text.words, text.turn), (&behind.words, behind.turn), "words are not mirrored");
        assert_eq!(Point::new(-text.at.x, text.at.y), behind.at);
    }
}

/// The edges of a drawing, each with what it is tagged with.
fn edges(drawn: &Drawing) -> Vec<(String, [Point; 2], Stroke)> {
    let group = drawn.items.iter().find(|item| item.tag.class == "edges").expect("edges are drawn");
    let Shape::Group { items, .. } = &group.shape else { panic!("edges are a group") };
    let edge = |item: &Item| match &item.shape {
        Shape::Line { points, stroke, .. } => (item.tag.data[0].1.clone(), [points[0], points[1]], *stroke),
        other => panic!("{other:?} is no edge"),
    };
    items.iter().map(edge).collect()
}

/// One patch of this cut, drawn finished with its measures: its edges and the area of its cloth.
fn finished(cut: Vec<Point>) -> (Drawing, Vec<(String, f64)>, f64) {
    let mut table = quilt::table::Table::new();
    lay(&mut table, 1, SAND, Pose::STAY, cut);
    let what = FrontOptions { finished: true, measures: true, flat: true, ..FrontOptions::default() };
    let drawn = front(&table, Mark(1), &heap(), &what).unwrap();
    let lengths = edges(&drawn).into_iter().map(|(side, [a, b], _)| (side, a.distance(b))).collect();
    let mut areas = Vec::new();
    patch_areas(&drawn.items, &mut areas);
    let area = polygon::area(&areas[0].1);
    (drawn, lengths, area)
}

fn assert_lengths(found: &[(String, f64)], expected: &[(&str, f64)]) {
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for ((side, length), (name, wanted)) in found.iter().zip(expected) {
        assert!(side == name && (length - wanted).abs() < 1e-9, "{found:?}");
    }
}

#[test]
fn an_l_keeps_both_arms_when_it_is_finished() {
    // An L of arms 1 1/2 wide and 4 long. Each side moves in by 1/4: the arms are 1 wide, and the
    // sides at the inward corner keep their length.
    let l = [(0.0, 0.0), (4.0, 0.0), (4.0, 1.5), (1.5, 1.5), (1.5, 4.0), (0.0, 4.0)];
    let (drawn, lengths, area) = finished(l.map(|(x, y)| point(x, y)).to_vec());
    let expected = [("1a", 3.5), ("1b", 1.0), ("1c", 2.5), ("1d", 2.5), ("1e", 1.0), ("1f", 3.5)];
    assert_lengths(&lengths, &expected);
    assert!((area - 6.0).abs() < 1e-9, "{area}");
    let mut words = Vec::new();
    each_text(&drawn.items, &mut |text| words.push(text.words.clone()));
    assert_eq!(words.last().map(String::as_str), Some("finished 3½ × 3½"));
}

#[test]
fn sides_in_line_with_each_other_stay_two_when_finished() {
    // A bar 6 by 2 with a notch 2 wide and 1/2 deep in its upper side: the notch grows to 2 1/2,
    // the two sides beside it lose a seam at the outer corner and one at the notch.
    let u = [(0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (4.0, 2.0), (4.0, 1.5), (2.0, 1.5), (2.0, 2.0), (0.0, 2.0)];
    let (_, lengths, area) = finished(u.map(|(x, y)| point(x, y)).to_vec());
    let expected = [
        ("1a", 5.5),
        ("1b", 1.5),
        ("1c", 1.5),
        ("1d", 0.5),
        ("1e", 2.5),
        ("1f", 0.5),
        ("1g", 1.5),
        ("1h", 1.5),
    ];
    assert_lengths(&lengths, &expected);
    assert!((area - (5.5 * 1.5 - 2.5 * 0.5)).abs() < 1e-9, "{area}");
}

#[test]
fn a_side_shorter_than_the_allowance_eats_is_gone_when_finished() {
    // A square of 4 with a corner blunted by 1/10: at 45° that side loses 2 × 1/4 × tan 22.5°,
    // more than it has. A sliver narrower than two allowances has no finished shape at all.
    let blunt = [(0.1, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.1)];
    let (_, lengths, area) = finished(blunt.map(|(x, y)| point(x, y)).to_vec());
    assert_lengths(&lengths, &[("1a", 3.5), ("1b", 3.5), ("1c", 3.5), ("1d", 3.5)]);
    assert!((area - 12.25).abs() < 1e-9, "{area}");
    let (_, lengths, area) = finished(Region::rectangle(4.0, 0.4).outer);
    assert_lengths(&lengths, &[]);
    assert_eq!(area, 0.0);
}

#[test]
fn finished_patches_fill_the_finished_outline() {
    let what = FrontOptions { finished: true, flat: true, ..FrontOptions::default() };
    let drawn = front(&three_patches(), Mark(1), &heap(), &what).unwrap();
    let outline: Vec<Point> = edges(&drawn).into_iter().map(|(_, [from, _], _)| from).collect();
    let mut patches = Vec::new();
    patch_areas(&drawn.items, &mut patches);
    let areas: Vec<f64> = patches.iter().map(|(_, points)| polygon::area(points)).collect();
    assert!(areas.len() == 3 && areas.iter().all(|area| *area > 1.0), "{areas:?}");
    assert!((areas.iter().sum::<f64>() - polygon::area(&outline)).abs() < 1e-9, "{areas:?}");
}

/// Which patches of the unit on one are on the piece and which only chalked; their edges are drawn
/// to match.
fn states(sewn: &[u32]) -> Vec<String> {
    let sewn = Some(sewn.iter().copied().map(Mark).collect());
    let what = FrontOptions { sewn, flat: true, ..FrontOptions::default() };
    let drawn = front(&unit_on_one(), Mark(1), &heap(), &what).unwrap();
    let Shape::Group { items, .. } = &drawn.items[0].shape else { panic!("patches are a group") };
    let states: Vec<String> =
        items.iter().map(|item| format!("{} {}", item.tag.data[0].1, item.tag.data[1].1)).collect();
    for (_, [a, b], stroke) in edges(&drawn) {
        // Patch 1 ends at the seam line, at x = 3 3/4.
        let there = if a.midpoint(b).x < 3.75 { "1 sewn" } else { "2 sewn" };
        let there = states.iter().any(|state| state == there);
        assert_eq!(stroke, if there { Stroke::CutLine } else { Stroke::Chalk }, "{a:?} {b:?} {states:?}");
    }
    states
}

#[test]
fn what_hangs_together_with_the_first_patch_is_there() {
    for (sewn, there) in [
        (&[][..], ["1 chalk", "2 chalk", "4 chalk"]),
        (&[1], ["1 sewn", "2 chalk", "4 chalk"]),
        // Lying beside it, then sewn to each other, then to it.
        (&[1, 2, 4], ["1 sewn", "2 chalk", "4 chalk"]),
        (&[1, 2, 4, 5], ["1 sewn", "2 chalk", "4 chalk"]),
        (&[1, 2, 4, 5, 6], ["1 sewn", "2 sewn", "4 sewn"]),
    ] {
        assert_eq!(states(sewn), there);
    }
}

/// Areas of cloth in the strips of the allowances.
fn strips(items: &[Item], inside: bool, found: &mut Vec<Vec<Point>>) {
    for item in items {
        match &item.shape {
            Shape::Group { items, .. } => strips(items, inside || item.tag.class == "allowance", found),
            Shape::Fill { region, .. } if inside => found.push(region.outer.clone()),
            _ => {}
        }
    }
}

#[test]
fn allowances_lie_on_the_side_they_are_pressed_to() {
    // The seam runs at x = 3.75 from y = 0 to 3; from behind that is x = -3.75, and what was
    // added lies at lesser x. Each allowance is 3 by 1/4.
    for (press, expected) in [
        (Press::Over, vec![[-4.0, -3.75]]),
        (Press::Back, vec![[-3.75, -3.5]]),
        (Press::Open, vec![[-4.0, -3.75], [-3.75, -3.5]]),
    ] {
        let what = FrontOptions { flat: true, ..FrontOptions::default() };
        let drawn = back(&two_patches(press, None), Mark(1), &heap(), &what).unwrap();
        let mut found = Vec::new();
        strips(&drawn.items, false, &mut found);
        let mut spans: Vec<[f64; 2]> = found
            .iter()
            .map(|strip| {
                let (lo, hi) = polygon::bounds(strip).unwrap();
                assert!((polygon::area(strip).abs() - 0.75).abs() < 1e-9, "{press:?}");
                assert!(lo.y.abs() < 1e-9 && (hi.y - 3.0).abs() < 1e-9, "{press:?}");
                [lo.x, hi.x]
            })
            .collect();
        spans.sort_by(|a, b| a[0].total_cmp(&b[0]));
        assert_eq!(spans.len(), expected.len(), "{press:?}");
        for (span, expected) in spans.iter().zip(expected) {
            assert!(
                (span[0] - expected[0]).abs() < 1e-9 && (span[1] - expected[1]).abs() < 1e-9,
                "{press:?} {span:?}"
            );
        }
    }
}

#[test]
fn labels_lie_outside_the_outline_and_apart() {
    let what = FrontOptions { labels: true, measures: true, ..FrontOptions::default() };
    let table = three_patches();
    let outline = table.top(Mark(1)).unwrap().outline_points();
    let drawn = front(&table, Mark(1), &heap(), &what).unwrap();
    let mut boxes = Vec::new();
    each_text(&drawn.items, &mut |text| {
        if !text.rim {
            boxes.push(text.corners());
        }
    });
    assert!(boxes.len() > 8);
    for corners in &boxes {
        assert!(corners.iter().all(|corner| !polygon::contains(&outline, *corner)));
        assert!(corners.iter().all(|c| (drawn.lo.x..drawn.hi.x).contains(&c.x)));
        assert!(corners.iter().all(|c| (drawn.lo.y..drawn.hi.y).contains(&c.y)));
    }
    for (i, a) in boxes.iter().enumerate() {
        for b in &boxes[..i] {
            let apart =
                a[1].x <= b[0].x || b[1].x <= a[0].x || a[2].y <= b[0].y + 0.05 || b[2].y <= a[0].y + 0.05;
            assert!(apart, "{a:?} {b:?}");
        }
    }
}

#[test]
fn tops_on_the_table_do_not_overlap() {
    let mut table = two_patches(Press::Over, None);
    for (i, side) in [1.0, 2.0, 6.0, 0.5, 3.0, 1.5].into_iter().enumerate() {
        lay(&mut table, 10 + i as u32, SAND, Pose::STAY, Region::rectangle(side, side).outer);
    }
    let what = FrontOptions { labels: true, measures: true, ..FrontOptions::default() };
    let drawn = table_drawing(&table, &heap(), &what).unwrap();
    let boxes: Vec<(Point, Point)> = drawn
        .items
        .iter()
        .map(|item| {
            let mut points = Vec::new();
            item.each_point(&mut |p| points.push(p));
            polygon::bounds(&points).unwrap()
        })
        .collect();
    assert_eq!(boxes.len(), 7);
    for (i, a) in boxes.iter().enumerate() {
        for b in &boxes[..i] {
            assert!(a.1.x < b.0.x || b.1.x < a.0.x || a.1.y < b.0.y || b.1.y < a.0.y, "{a:?} {b:?}");
        }
    }
}

#[test]
fn any_name_makes_a_file_that_can_be_read() {
    let name = "a <b> & \"c\" 'd'\u{1}\n\u{7f}]]>";
    let mut cloth = plain_cloth(SAND, name, 0xff_ff_ff);
    cloth.look.shades[0].lab.l = f64::NAN;
    cloth.outline.outer[2].x = f64::NAN;
    let what = ClothOptions { labels: true, ..ClothOptions::default() };
    let svg = cloth_drawing(&cloth, &heap(), &what).to_svg(&LINKED);
    let document = Document::parse(&svg).expect("well-formed");
    let title = document.descendants().find(|n| n.has_tag_name("title")).and_then(|n| n.text());
    assert_eq!(title, Some(name.replace('\u{1}', "\u{fffd}").as_str()));
    assert!(!svg.contains("NaN") && !svg.contains("inf"));
}

#[test]
fn pictures_can_be_inside_the_file_or_missing() {
    let drawn = front(&two_patches(Press::Over, None), Mark(1), &heap(), &FrontOptions::default()).unwrap();
    let inside = drawn
        .to_svg(&SvgOptions { pictures: Pictures::Inside(&|_| Some(b"foobar".to_vec())), id_prefix: "x-" });
    assert!(inside.contains("href=\"data:image/png;base64,Zm9vYmFy\"") && inside.contains("href=\"#x-p1\""));
    for without in [Pictures::Inside(&|_| None), Pictures::None] {
        let svg = drawn.to_svg(&SvgOptions { pictures: without, id_prefix: "" });
        assert!(!svg.contains("<image") && !svg.contains("<use"));
        assert!(svg.contains("#5a6b78"), "the mean colour shows");
    }
}

#[test]
fn what_is_not_there_is_refused_with_what_is() {
    let problem = front(&one_patch(), Mark(9), &heap(), &FrontOptions::default()).unwrap_err();
    assert_eq!(problem, DrawingProblem::NoSuchTop { top: Mark(9), there: vec![Mark(1)] });
    assert!(problem.to_string().contains("step 9") && problem.to_string().contains("steps 1"));
    let empty = table_drawing(&quilt::table::Table::new(), &heap(), &FrontOptions::default());
    assert_eq!(empty.unwrap_err(), DrawingProblem::EmptyTable);
    // A cloth nobody knows is drawn all the same.
    let none = std::collections::BTreeMap::new();
    assert!(front(&one_patch(), Mark(1), &none, &FrontOptions::default()).is_ok());
}
