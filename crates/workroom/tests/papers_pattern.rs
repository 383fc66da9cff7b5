//! Templates and foundation sheets of a quilt: what is told, and what is refused.

mod common;

use common::{enter, join, lay, two_squares, workroom};
use drawing::{Item, Shape, Stroke};
use papers::dxf::{DxfLayer, DxfStroke};
use papers::flow::Block;
use papers::press::Part;
use papers::true_size::page_room;
use plane::{Point, Pose, Region, Turn, Vec2, intersection, polygon};
use quilt::log::{Entry, Mark, Step};
use quilt::wish::Wish;
use workroom::Workroom;
use workroom::asks::AskError;
use workroom::papers::{Paper, PaperKind, PapersWish};
use workroom::quilts::Head;

/// Four squares in two pairs: sewn in rows, never one at a time.
fn four_patch(room: &mut Workroom) -> Head {
    let cloth = enter(room, 20.0, 20.0);
    let head = room.new_quilt("four", &Wish::default()).unwrap();
    let at = |mark: u32| lay(mark, cloth, (f64::from(mark) * 4.0 - 4.0, 0.0), (4.0, 4.0));
    let steps: Vec<Entry> = vec![
        at(1),
        at(2),
        join(3, (1, 1), (2, 3), true),
        at(4),
        at(5),
        join(6, (4, 1), (5, 3), true),
        join(7, (1, 0), (4, 2), true),
    ];
    room.append(&head.at(), &steps).unwrap()
}

fn sheets(paper: &Paper) -> usize {
    paper.blocks.iter().filter(|block| matches!(block, Block::Page(_))).count()
}

#[test]
fn a_pair_is_one_section_on_one_sheet() {
    let (_folder, mut room) = workroom();
    let (_, head, _) = two_squares(&mut room);
    let paper = room.paper(&head, PaperKind::Foundation, &PapersWish::default()).unwrap();
    assert_eq!(paper.facts["one_piece_at_a_time"], true);
    assert_eq!(paper.facts["sections"][0]["pieces"].as_array().unwrap().len(), 2);
    assert_eq!((paper.facts["joins"].as_array().unwrap().len(), sheets(&paper)), (0, 1));
    let paper = room.paper(&head, PaperKind::Templates, &PapersWish::default()).unwrap();
    assert_eq!((&paper.facts["pieces"], sheets(&paper)), (&serde_json::json!(2), 1));
    for template in paper.facts["templates"].as_array().unwrap() {
        assert!((template["cut_in2"].as_f64().unwrap() - 16.0).abs() < 1e-6, "{template}");
    }
}

#[test]
fn a_four_patch_is_told_in_two_sections_and_one_seam() {
    let (_folder, mut room) = workroom();
    let head = four_patch(&mut room);
    let facts = room.paper(&head, PaperKind::Foundation, &PapersWish::default()).unwrap().facts;
    assert_eq!(facts["one_piece_at_a_time"], false);
    assert_eq!(facts["stuck"].as_array().unwrap().len(), 4);
    assert_eq!(
        (facts["sections"].as_array().unwrap().len(), &facts["partial_seams"]),
        (2, &serde_json::json!(0))
    );
    assert_eq!(facts["joins"], serde_json::json!(["Sew B to A: one seam of 7 1/2 inches."]));
    let metric = PapersWish { centimetres: true, ..PapersWish::default() };
    let facts = room.paper(&head, PaperKind::Foundation, &metric).unwrap().facts;
    assert!(facts["joins"][0].as_str().unwrap().contains("cm"), "{}", facts["joins"][0]);
}

#[test]
fn strokes_for_a_machine_lie_beside_each_other_in_rows() {
    let (_folder, mut room) = workroom();
    let head = four_patch(&mut room);
    let strokes = room.template_strokes(&head, 9.0, &PapersWish::default()).unwrap();
    let cut: Vec<_> = strokes.iter().filter(|stroke| stroke.layer == DxfLayer::Cut).collect();
    assert_eq!(cut.len(), 4);
    assert_eq!(strokes.iter().filter(|stroke| stroke.layer == DxfLayer::Seam).count(), 4);
    // Each square meets two others: a notch on either side of four seams, and nothing else lies in the allowance.
    let seams: Vec<_> = strokes.iter().filter(|stroke| stroke.layer == DxfLayer::Seam).collect();
    let inner = |seam: &DxfStroke, mark: &DxfStroke| {
        let inside = |p: &Point| polygon::contains(&seam.points, *p);
        mark.points.iter().all(inside)
    };
    let marks: Vec<_> = strokes.iter().filter(|stroke| stroke.layer == DxfLayer::Marks).collect();
    let notches = marks.iter().filter(|mark| !seams.iter().any(|seam| inner(seam, mark)));
    assert_eq!(notches.count(), 8);
    // Each has its own number, and an arrow with two heads along the grain.
    let within = |seam: &DxfStroke| {
        let low = polygon::bounds(&seam.points).unwrap().0;
        let moved = |mark: &DxfStroke| {
            let whole = |p: &Point| [p.x - low.x, p.y - low.y].map(|inches| (inches * 1e6).round() as i64);
            mark.points.iter().map(whole).collect::<Vec<_>>()
        };
        marks.iter().filter(|mark| inner(seam, mark)).map(|mark| moved(mark)).collect::<Vec<_>>()
    };
    let told: Vec<_> = seams.iter().map(|seam| within(seam)).collect();
    for (i, marks) in told.iter().enumerate() {
        // Three lines of the arrow, at least one of the digit, and one below it.
        assert!(marks.len() >= 5, "{marks:?}");
        assert!(told[i + 1..].iter().all(|other| other != marks), "two pieces with one number");
    }
    let bounds: Vec<_> = cut.iter().map(|stroke| polygon::bounds(&stroke.points).unwrap()).collect();
    for (i, (low, high)) in bounds.iter().enumerate() {
        assert!(low.x >= -1e-9 && high.x <= 9.0, "{low:?} {high:?}");
        for (other_low, other_high) in &bounds[i + 1..] {
            let apart =
                high.x < other_low.x || other_high.x < low.x || high.y < other_low.y || other_high.y < low.y;
            assert!(apart, "{low:?} {high:?} {other_low:?} {other_high:?}");
        }
    }
}

#[test]
fn what_is_too_much_is_refused_with_its_reason_and_done_when_told() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 80.0, 4.0);
    let head = room.new_quilt("long", &Wish::default()).unwrap();
    let mut steps = vec![lay(1, cloth, (0.0, 0.0), (1.0, 3.0))];
    for no in 1..70_u32 {
        let mark = 2 * no;
        steps.push(lay(mark, cloth, (f64::from(no), 0.0), (1.0, 3.0)));
        let onto = if no == 1 { 1 } else { mark - 2 };
        steps.push(join(mark + 1, (onto, 1), (mark, 3), true));
    }
    let head = room.append(&head.at(), &steps).unwrap();
    for kind in [PaperKind::Templates, PaperKind::Foundation] {
        let Err(AskError::CantBe { what, hint }) = room.paper(&head, kind, &PapersWish::default()) else {
            panic!("{kind} of 70 pieces")
        };
        assert!(
            what.contains("70 pieces") && what.contains("60 pieces") && hint.contains("--anyway"),
            "{what} {hint}"
        );
        let told = PapersWish { anyway: true, ..PapersWish::default() };
        assert!(sheets(&room.paper(&head, kind, &told).unwrap()) > 1);
    }
}

#[test]
fn an_empty_table_has_nothing_to_print() {
    let (_folder, mut room) = workroom();
    let head = room.new_quilt("empty", &Wish::default()).unwrap();
    for kind in [PaperKind::Templates, PaperKind::Foundation] {
        assert!(matches!(room.paper(&head, kind, &PapersWish::default()), Err(AskError::NothingOnTable)));
    }
}

/// Wedges sewn in a row, each turned against the one before.
fn wedges(room: &mut Workroom, count: u32) -> Head {
    let cloth = enter(room, 200.0, 9.0);
    let head = room.new_quilt("wedges", &Wish::default()).unwrap();
    let mut steps = Vec::new();
    for no in 0..count {
        let mark = 1.max(2 * no);
        let (low, high) = if no % 2 == 0 { (0.0, 1.15) } else { (1.15, 0.0) };
        let cut = [(low, 0.0), (3.4 - low, 0.0), (3.4 - high, 7.0), (high, 7.0)];
        let cut = cut.map(|(x, y)| Point::new(x, y)).to_vec();
        let at = Pose::new(Turn::NONE, Vec2::new(4.0 * f64::from(no), 0.0));
        steps.push(Entry { mark: Mark(mark), run: None, step: Step::Lay { cloth, at, cut } });
        if no > 0 {
            let onto = if no == 1 { 1 } else { mark - 2 };
            steps.push(join(mark + 1, (onto, 1), (mark, 3), true));
        }
    }
    room.append(&head.at(), &steps).unwrap()
}

#[test]
fn templates_lie_nested_apart_from_each_other_on_few_sheets() {
    let (_folder, mut room) = workroom();
    let head = wedges(&mut room, 12);
    let wish = PapersWish::default();
    let paper = room.paper(&head, PaperKind::Templates, &wish).unwrap();
    let templates = paper.facts["templates"].as_array().unwrap();
    let area: f64 = templates.iter().map(|template| template["cut_in2"].as_f64().unwrap()).sum();
    let per_sheet = polygon::area(&page_room(wish.paper));
    let count = sheets(&paper);
    assert_eq!(paper.facts["sheets"], count);
    // In boxes two wedges fill a sheet, six sheets in all; nested there is room for three.
    assert!((count as f64) * per_sheet * 0.72 < area + per_sheet, "{count} sheets of {per_sheet} for {area}");
    let named: usize = templates.iter().map(|template| template["sheets"].as_array().unwrap().len()).sum();
    assert_eq!(named, 12, "each on one sheet: {templates:?}");
    for block in &paper.blocks {
        let Block::Page(sheet) = block else { continue };
        let Part::Figure { drawing, .. } = &sheet.parts[0] else { panic!("a figure") };
        let cut = |item: &Item| match &item.shape {
            Shape::Line { points, closed: true, stroke: Stroke::CutLine } => Some(points.clone()),
            _ => None,
        };
        let cut: Vec<Vec<Point>> = drawing.items.iter().filter_map(cut).collect();
        for (i, one) in cut.iter().enumerate() {
            for other in &cut[i + 1..] {
                let [one, other] =
                    [one, other].map(|outer| Region { outer: outer.clone(), holes: Vec::new() });
                // The square of 1 inch lies in that of 5 cm.
                let squares = one.area() < 4.0 && other.area() < 4.0;
                let both: f64 = intersection(&one, &other).iter().map(Region::area).sum();
                assert!(squares || both < 1e-6, "{one:?} {other:?}");
            }
        }
    }
    let again = room.paper(&head, PaperKind::Templates, &wish).unwrap();
    assert_eq!(again.facts, paper.facts);
}

#[test]
fn a_patch_by_itself_has_a_template_and_a_foundation() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 8.0, 8.0);
    let head = room.new_quilt("one", &Wish::default()).unwrap();
    let head = room.append(&head.at(), &[lay(1, cloth, (0.0, 0.0), (4.0, 4.0))]).unwrap();
    for kind in [PaperKind::Templates, PaperKind::Foundation] {
        let paper = room.paper(&head, kind, &PapersWish::default()).unwrap();
        assert_eq!((&paper.facts["pieces"], sheets(&paper)), (&serde_json::json!(1), 1));
    }
    let strokes = room.template_strokes(&head, 9.0, &PapersWish::default()).unwrap();
    assert!(strokes.iter().filter(|stroke| stroke.layer == DxfLayer::Cut).count() == 1);
}

#[test]
fn foundation_papers_name_the_pieces_that_are_stuck() {
    let (_folder, mut room) = workroom();
    let head = four_patch(&mut room);
    let paper = room.paper(&head, PaperKind::Foundation, &PapersWish::default()).unwrap();
    let told = format!("{:?}", paper.blocks);
    assert!(told.contains("among pieces 1, 2, 4, 5 none can be the last"), "{told}");
}
