//! The stages of a finished piece land where their plans say, front and back.

mod common;

use common::stages::*;
use common::*;
use drawing::svg::SvgOptions;
use drawing::*;
use plane::fill::{self, Fill, RoundSpiral, Spacing, round_spiral};
use plane::{Point, Region, polygon};
use quilt::log::Mark;
use quilt::stage::binding::{Finish, FinishPlan};
use quilt::stage::figure::{CutFrom, FigureOrder, FigurePlan, Thin};
use quilt::stage::layers::Source;
use roxmltree::Document;

fn seen(stages: &Stages<'_>) -> Drawing {
    finished_front(&large_patch(), Mark(1), &stash(), &FrontOptions::default(), stages).unwrap()
}

fn seen_behind(stages: &Stages<'_>) -> Drawing {
    finished_back(&large_patch(), Mark(1), &stash(), &FrontOptions::default(), stages).unwrap()
}

/// All items with a class, wherever they are.
fn of_class<'d>(items: &'d [Item], class: &str) -> Vec<&'d Item> {
    let mut found = Vec::new();
    for item in items {
        if item.tag.class == class {
            found.push(item);
        }
        if let Shape::Group { items, .. } = &item.shape {
            found.extend(of_class(items, class));
        }
    }
    found
}

fn thread<'d>(drawn: &'d Drawing, class: &str) -> &'d ThreadItem {
    match of_class(&drawn.items, class)[..] {
        [Item { shape: Shape::Thread(thread), .. }] => thread,
        ref found => panic!("{found:?}"),
    }
}

/// Area of everything filled within items of a class.
fn filled(drawn: &Drawing, class: &str) -> f64 {
    fn area(item: &Item) -> f64 {
        match &item.shape {
            Shape::Fill { region, .. } => polygon::area(&region.outer).abs(),
            Shape::Group { items, .. } => items.iter().map(area).sum(),
            _ => 0.0,
        }
    }
    of_class(&drawn.items, class).into_iter().map(area).sum()
}

#[test]
fn without_any_stage_it_is_the_top() {
    let table = three_patches();
    let what = FrontOptions { flat: true, ..FrontOptions::default() };
    let finished = finished_front(&table, Mark(1), &heap(), &what, &Stages::default()).unwrap();
    let plain = front(&table, Mark(1), &heap(), &what).unwrap();
    assert_eq!((finished.lo, finished.hi), (plain.lo, plain.hi));
    assert_eq!(filled(&finished, "patch"), filled(&plain, "patch"));
}

#[test]
fn quilting_is_mirrored_on_the_back_in_the_thread_below() {
    let fill = fill();
    let stages = Stages { quilting: Some(quilted(&fill)), ..Stages::default() };
    let (drawn, behind) = (seen(&stages), seen_behind(&stages));
    let (above, below) = (thread(&drawn, "quilting"), thread(&behind, "quilting"));
    assert_eq!((above.colour, below.colour), (quilted(&fill).front, quilted(&fill).back));
    assert_eq!(above.strokes, fill.strokes);
    for (stroke, mirrored) in above.strokes.iter().zip(&below.strokes) {
        let expected: Vec<Point> = stroke.points.iter().map(|p| Point::new(-p.x, p.y)).collect();
        assert_eq!((&expected, stroke.closed), (&mirrored.points, mirrored.closed));
    }
}

/// The strokes of thread in a file, as another reader sees them, y up.
fn strokes_in(svg: &str) -> Vec<Vec<Point>> {
    let document = Document::parse(svg).expect("well-formed");
    let group = document.descendants().find(|n| n.attribute("class") == Some("quilting")).expect("quilting");
    let scale = group.attribute("transform").unwrap();
    let scale: f64 = scale.trim_start_matches("matrix(").split(' ').next().unwrap().parse().unwrap();
    let paths = group.descendants().filter(|n| n.has_tag_name("path"));
    paths.map(|path| stroke_in(path.attribute("d").unwrap(), scale)).collect()
}

/// `M` and two numbers, then `l` and pairs of steps.
fn stroke_in(d: &str, scale: f64) -> Vec<Point> {
    let (first, steps) = d.trim_end_matches('z').split_once('l').expect("steps after the first place");
    let d = format!("{} {steps}", first.trim_start_matches('M')).replace('-', " -");
    let numbers: Vec<f64> = d.split_whitespace().map(|n| n.parse().unwrap()).collect();
    let mut at = [0.0; 2];
    let step = |pair: &[f64]| {
        at = [at[0] + pair[0], at[1] + pair[1]];
        Point::new(at[0] * scale, -at[1] * scale)
    };
    numbers.chunks(2).map(step).collect()
}

/// Distance of a place from a line.
fn off(p: Point, line: &[Point]) -> f64 {
    let from = |ends: &[Point]| {
        let along = ends[1] - ends[0];
        let share = ((p - ends[0]).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        p.distance(ends[0].lerp(ends[1], share))
    };
    line.windows(2).map(from).fold(f64::INFINITY, f64::min)
}

#[test]
fn steps_between_stitches_do_not_add_up() {
    // A spiral of a thousand inches, far from the origin, and a stroke whose first two places round
    // to one.
    let square = [(100.0, 100.0), (124.0, 100.0), (124.0, 124.0), (100.0, 124.0)];
    let square = Region::try_new(square.map(|(x, y)| point(x, y)).to_vec(), Vec::new()).unwrap();
    let ground = fill::Ground::try_new(&square, &[]).unwrap();
    let mut fill = spiral(&ground, point(112.0, 112.0), 0.5);
    assert!(fill.strokes[0].length() > 800.0);
    fill.strokes.push(fill::Stroke::open(vec![point(0.994, 1.0), point(1.006, 1.0), point(0.5, 3.0)]));
    let stages = Stages { quilting: Some(quilted(&fill)), ..Stages::default() };
    let read = strokes_in(&seen(&stages).to_svg(&SvgOptions::default()));
    assert_eq!(read.len(), fill.strokes.len());
    // Rounded by half a part either way, and places left out within half a part.
    let limit = (0.5_f64.hypot(0.5) + 0.5) / 80.0 + 1e-9;
    for (stroke, read) in fill.strokes.iter().zip(&read) {
        assert!(stroke.points.iter().all(|p| off(*p, read) <= limit));
        assert!(read.iter().all(|p| off(*p, &stroke.points) <= limit));
    }
}

fn spiral(ground: &fill::Ground, centre: Point, spacing_in: f64) -> Fill {
    let spiral = RoundSpiral {
        centre,
        spacing: Spacing::about(spacing_in),
        least_radius_in: 0.5,
        start_deg: 0.0,
        clockwise: false,
        wobble: None,
    };
    round_spiral(ground, &spiral).unwrap()
}

#[test]
fn much_quilting_stays_small_and_is_drawn_plain() {
    let ground = fill::Ground::try_new(&Region::rectangle(150.0, 150.0), &[]).unwrap();
    let fill = spiral(&ground, point(75.0, 75.0), 0.5);
    assert!(fill.length() > 44_000.0, "{}", fill.length());
    let stages = Stages { quilting: Some(quilted(&fill)), ..Stages::default() };
    let drawn = seen(&stages);
    assert_eq!(thread(&drawn, "quilting").dash_in, None);
    let size = drawn.to_svg(&SvgOptions::default()).len();
    assert!(size < 250_000, "{size} bytes");
    let few = self::fill();
    let stages = Stages { quilting: Some(quilted(&few)), ..Stages::default() };
    assert!(thread(&seen(&stages), "quilting").dash_in.is_some(), "little is drawn stitch by stitch");
}

#[test]
fn a_binding_covers_what_its_plan_says() {
    let plan = edge(Finish::Bound);
    let FinishPlan::Bound(bound) = &plan else { panic!("it is bound") };
    let stages = Stages { edge: Some(edged(&plan, Made::Plain(rose()))), ..Stages::default() };
    let front = filled(&seen(&stages), "binding");
    assert!((front - (120.0 - polygon::area(&bound.shows_outline))).abs() < 1e-9, "{front}");
    let deep = bound.width.back_finished_in;
    let back = filled(&seen_behind(&stages), "binding");
    assert!((back - (120.0 - (12.0 - 2.0 * deep) * (10.0 - 2.0 * deep))).abs() < 1e-9, "{back}");
}

#[test]
fn every_join_of_a_binding_is_drawn_on_both_sides() {
    let plan = edge(Finish::Bound);
    let FinishPlan::Bound(bound) = &plan else { panic!("it is bound") };
    assert!(!bound.joins.is_empty());
    let stages = Stages { edge: Some(edged(&plan, Made::Of(SLATE))), ..Stages::default() };
    for drawn in [seen(&stages), seen_behind(&stages)] {
        assert_eq!(of_class(&drawn.items, "join").len(), bound.joins.len());
        assert_eq!(of_class(&drawn.items, "closing").len(), 1);
    }
}

#[test]
fn a_facing_shows_on_the_back_alone() {
    let plan = edge(Finish::Faced);
    let stages = Stages { edge: Some(edged(&plan, Made::Plain(rose()))), ..Stages::default() };
    assert!(of_class(&seen(&stages).items, "facing").is_empty());
    // A strip of 3 folded in half lies 1 1/2 less its seam deep: 1 1/4, on a piece 1/2 smaller.
    let back = filled(&seen_behind(&stages), "facing");
    assert!((back - (11.5 * 9.5 - 9.0 * 7.0)).abs() < 1e-9, "{back}");
}

/// The classes of what lies within the outline, lowest first.
fn layers(drawn: &Drawing) -> Vec<&'static str> {
    let Shape::Group { items, .. } = &of_class(&drawn.items, "piece")[0].shape else { panic!("a group") };
    items.iter().map(|item| item.tag.class).collect()
}

#[test]
fn the_figure_lies_over_quilting_that_came_before_it_and_under_what_came_after() {
    let (fill, choice) = (fill(), bud());
    let plan = planned(&choice);
    let with = |order| {
        let figure = Some(figured(&choice, &plan, order));
        layers(&seen(&Stages { quilting: Some(quilted(&fill)), figure, ..Stages::default() }))
    };
    assert_eq!(with(FigureOrder::BeforeQuilting), ["patches", "figure", "quilting"]);
    assert_eq!(with(FigureOrder::AfterQuilting), ["patches", "quilting", "figure"]);
}

#[test]
fn a_layer_shows_the_part_of_its_cloth_that_is_cut() {
    let choice = bud();
    let plan = planned(&choice);
    let [CutFrom::Fits(pose)] = plan.cut_from[..] else { panic!("it fits: {:?}", plan.cut_from) };
    let pictures = |plan: &FigurePlan| {
        let drawn = seen(&Stages {
            figure: Some(figured(&choice, plan, FigureOrder::default())),
            ..Stages::default()
        });
        let layer = of_class(&drawn.items, "layer");
        let Shape::Group { items, .. } = &layer[0].shape else { panic!("a group") };
        let placed = items.iter().filter_map(|item| match &item.shape {
            Shape::Picture(picture) => Some(picture.placement),
            _ => None,
        });
        placed.collect::<Vec<_>>()
    };
    let [lies] = pictures(&plan)[..] else { panic!("one picture") };
    let corner = plan.patches[0].finished.outer[0];
    assert!(lies.apply(pose.apply(corner)).distance(corner) < 1e-9);
    // Where nothing is settled, no part of the print is made up.
    let unsettled = FigurePlan { cut_from: vec![CutFrom::Unknown], ..plan };
    assert!(pictures(&unsettled).is_empty());
}

#[test]
fn a_stem_is_tucked_under_the_layer_above_it() {
    let mut choice = bud();
    choice.answers.insert("stalk".to_owned(), Thin::BiasStem { finished_in: 0.25 });
    let plan = planned(&choice);
    let figure = Some(figured(&choice, &plan, FigureOrder::default()));
    let drawn = seen(&Stages { figure, ..Stages::default() });
    assert_eq!(thread(&drawn, "figure-line").width_in, 0.25);
    let Shape::Group { items, .. } = &of_class(&drawn.items, "figure")[0].shape else { panic!("a group") };
    let order: Vec<&str> = items.iter().map(|item| item.tag.class).collect();
    assert_eq!(order, ["figure-line", "layer"]);
}

#[test]
fn a_stitched_line_is_as_wide_as_it_was_drawn() {
    let choice = bud();
    let plan = planned(&choice);
    let drawn =
        seen(&Stages { figure: Some(figured(&choice, &plan, FigureOrder::default())), ..Stages::default() });
    let rows = thread(&drawn, "figure-line");
    let across: Vec<f64> = rows.strokes.iter().map(|row| row.points[0].x).collect();
    let (least, most) = across.iter().fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(*x), b.max(*x)));
    // A stalk of 1/5 in rows of 1/15: the outer rows are two rows apart.
    assert_eq!(across.len(), 3);
    assert!((most - least - 2.0 * 0.2 / 3.0).abs() < 1e-6, "{across:?}");
}

#[test]
fn a_backing_lies_on_the_back_as_it_was_cut() {
    let plan = backing(true);
    let behind = seen_behind(&Stages { backing: Some(backed(&plan)), ..Stages::default() });
    assert!(of_class(&behind.items, "patch").is_empty(), "the wrong side of the top is covered");
    let Shape::Group { items, clip: Some(clip) } = &of_class(&behind.items, "backing")[0].shape else {
        panic!("a clipped group")
    };
    assert_eq!(polygon::bounds(&clip.outer), Some((point(-12.0, 0.0), point(0.0, 10.0))));
    let lies = items.iter().find_map(|item| match &item.shape {
        Shape::Picture(picture) => Some(picture.placement),
        _ => None,
    });
    let lies = lies.expect("its print is seen");
    assert!(!lies.mirrored, "its right side is seen");
    // What is cut is the needed shape from behind: 3 inches more than the piece on every side.
    let cut: Vec<Point> = lies.apply_all(&plan.whole.holds[0].cut);
    let (lo, hi) = polygon::bounds(&cut).unwrap();
    assert!(lo.distance(point(-15.0, -3.0)) < 1e-9 && hi.distance(point(3.0, 13.0)) < 1e-9, "{lo:?} {hi:?}");
}

#[test]
fn the_seams_of_a_pieced_back_lie_where_they_are_planned_from_behind() {
    let plan = backing(false);
    let joins = &plan.seams().expect("it is pieced").joins;
    assert!(!joins.is_empty());
    let behind = seen_behind(&Stages { backing: Some(backed(&plan)), ..Stages::default() });
    assert_eq!(of_class(&behind.items, "back-strip").len(), joins.len() + 1);
    let Shape::Group { items, .. } = &of_class(&behind.items, "back-seams")[0].shape else {
        panic!("a group")
    };
    for (join, item) in joins.iter().zip(items) {
        let Shape::Line { points, .. } = &item.shape else { panic!("a seam") };
        assert_eq!(points[0], Point::new(-join.from.x, join.from.y));
        assert_eq!(points[1], Point::new(-join.to.x, join.to.y));
    }
    // 18 by 16 with the overage, all of it covered once.
    assert!((filled(&behind, "back-strip") - 288.0).abs() < 1e-9);
}

#[test]
fn a_strip_of_the_stash_shows_the_middle_of_where_it_lies() {
    let mut cloths = stash();
    for cloth in cloths.values_mut() {
        cloth.outline = Region::rectangle(11.0, 24.0);
        cloth.kind = quilt::cloth::Kind::Length;
        cloth.picture = heap()[&SLATE].picture.clone();
        cloth.parts.clear();
    }
    let plan = stash_backing(&cloths);
    let back = plan.seams().expect("it is pieced");
    let stages = Stages { backing: Some(backed(&plan)), ..Stages::default() };
    let drawn = finished_back(&large_patch(), Mark(1), &cloths, &FrontOptions::default(), &stages).unwrap();
    let shown = of_class(&drawn.items, "back-strip");
    assert!(back.strips.len() > 1 && shown.len() == back.strips.len());
    for (strip, item) in back.strips.iter().zip(shown) {
        let Source::Cloth { lies, .. } = &strip.from else { panic!("it is from the stash") };
        let Shape::Group { items, .. } = &item.shape else { panic!("a group") };
        let found = items.iter().find_map(|item| match &item.shape {
            Shape::Picture(picture) => Some((picture.placement, &picture.clip.outer)),
            _ => None,
        });
        let (placement, clip) = found.expect("its print is seen");
        assert!(!placement.mirrored, "its right side is seen");
        let lies = placement.apply_all(lies);
        let middle = |points: &[Point]| polygon::centroid(points).unwrap();
        assert!(middle(&lies).distance(middle(clip)) < 1e-9);
        // All of what shows is covered, but for half an allowance beyond the last raw edge.
        let (lo, hi) = polygon::bounds(&lies).unwrap();
        let (least, most) = polygon::bounds(clip).unwrap();
        assert!(lo.x <= least.x + 0.26 && lo.y <= least.y + 0.26);
        assert!(hi.x >= most.x - 0.26 && hi.y >= most.y - 0.26);
    }
}

#[test]
fn sleeve_and_label_are_on_the_back_and_tabs_stand_out_above_the_edge() {
    let plan = sleeve();
    let by = |by| Stages { hanging: Some(hung(&plan, by)), ..Stages::default() };
    let behind = seen_behind(&by(HungBy::Sleeve));
    let long: f64 = plan.parts.iter().map(|part| part.finished_length_in).sum();
    assert!((filled(&behind, "sleeve") - long * plan.flat_in).abs() < 1e-9);
    assert!((filled(&behind, "label") - 3.0 * 2.0).abs() < 1e-9);
    assert_eq!(seen(&by(HungBy::Sleeve)).hi, seen(&Stages::default()).hi);
    let hanging = seen(&by(HungBy::Tabs));
    assert_eq!(of_class(&hanging.items, "tab").len(), plan.tabs.len());
    assert!(hanging.hi.y > seen(&Stages::default()).hi.y + 0.9);
}

#[test]
fn words_stay_on_their_label() {
    let plan = sleeve();
    let behind = seen_behind(&Stages { hanging: Some(hung(&plan, HungBy::Sleeve)), ..Stages::default() });
    let Shape::Group { items, .. } = &of_class(&behind.items, "label")[0].shape else { panic!("a group") };
    let Shape::Fill { region, .. } = &items[0].shape else { panic!("its cloth") };
    let mut lines = 0;
    for item in items {
        if let Shape::Text(text) = &item.shape {
            lines += 1;
            assert_eq!(text.turn, plane::Turn::NONE, "it reads level");
            assert!(text.corners().iter().all(|corner| polygon::contains(&region.outer, *corner)));
        }
    }
    assert_eq!(lines, 2);
}

#[test]
fn stitches_of_a_large_piece_are_lines() {
    let fill = fill();
    let stages = Stages { quilting: Some(quilted(&fill)), ..Stages::default() };
    assert!(thread(&seen(&stages), "quilting").dash_in.is_some());
    let mut table = quilt::table::Table::new();
    lay(&mut table, 1, SAND, plane::Pose::STAY, Region::rectangle(60.0, 60.0).outer);
    let large = finished_front(&table, Mark(1), &stash(), &FrontOptions::default(), &stages).unwrap();
    assert_eq!(thread(&large, "quilting").dash_in, None);
}

#[test]
fn drawings_side_by_side_keep_their_size_and_have_their_words_under_them() {
    let fill = fill();
    let stages = Stages { quilting: Some(quilted(&fill)), ..Stages::default() };
    let one = seen(&stages);
    let named = |name: &str| vec![name.to_owned(), "a line of words".to_owned()];
    let three = side_by_side("three", vec![(named("a"), &one), (named("b"), &one), (named("c"), &one)]);
    let designs = of_class(&three.items, "design");
    let reach = |item: &Item| {
        let mut points = Vec::new();
        let pieces = of_class(std::slice::from_ref(item), "piece");
        pieces[0].each_point(&mut |p| points.push(p));
        polygon::bounds(&points).unwrap()
    };
    let places: Vec<(Point, Point)> = designs.iter().map(|design| reach(design)).collect();
    for (low, high) in &places {
        assert!((high.x - low.x - 12.0).abs() < 1e-9 && (high.y - low.y - 10.0).abs() < 1e-9);
    }
    // Two in the first row, one in the second, none on another.
    assert!(places[0].1.x < places[1].0.x && places[2].1.y < places[0].0.y);
    assert_eq!((places[0].0.y, places[0].0.x), (places[1].0.y, places[2].0.x));
    let svg = three.to_svg(&SvgOptions::default());
    assert_eq!(svg.matches("a line of words").count(), 3);
}

#[test]
fn lines_in_true_size_are_one_path_a_stroke() {
    let fill = fill();
    let drawn = lines_drawing("lines", &outline(), &[Region::rectangle(1.0, 1.0)], &fill);
    let svg = drawn.to_svg(&SvgOptions::default());
    let document = Document::parse(&svg).unwrap();
    let quilting = document.descendants().find(|node| node.attribute("class") == Some("quilting")).unwrap();
    assert_eq!(quilting.descendants().filter(|node| node.has_tag_name("path")).count(), fill.starts());
    // An inch of the drawing is an inch of the page.
    let width: f64 =
        document.root_element().attribute("width").unwrap().trim_end_matches("in").parse().unwrap();
    let shown: Vec<f64> = document
        .root_element()
        .attribute("viewBox")
        .unwrap()
        .split(' ')
        .map(|n| n.parse().unwrap())
        .collect();
    assert!((width - shown[2]).abs() < 1e-4 && width > 12.0 && width < 14.0, "{width} {shown:?}");
}
