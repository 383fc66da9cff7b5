//! Reference drawings, one idea each, compared as text.
//!
//! A missing reference fails, and so does one that no test draws. After looking at what has
//! changed, write them anew with `UPDATE_DRAWINGS=1 cargo test -p drawing --test reference`.

mod common;

use common::stages::*;
use common::*;
use drawing::svg::{Pictures, SvgOptions};
use drawing::*;
use plane::{Pose, Region, Turn, Vec2};
use quilt::eye::EyeMark;
use quilt::log::{End, Mark, Name, Press};
use quilt::stage::binding::Finish;
use quilt::stage::figure::FigureOrder;
use std::collections::BTreeSet;
use std::path::PathBuf;

const DRAWN: &[&str] = &[
    "one_patch",
    "picture",
    "stitches_and_chalk",
    "left_open",
    "labels_and_measures",
    "finished",
    "accent",
    "pieced",
    "back_over",
    "back_open",
    "cloth",
    "cloth_about",
    "table",
    "proposal",
    "eye_marks",
    "finished_front",
    "finished_back",
    "figure_under_quilting",
    "pieced_back",
    "faced_back",
    "tabs",
];

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference")
}

fn check(name: &str, drawing: &Drawing) {
    assert!(DRAWN.contains(&name), "{name} is missing from the list of drawings");
    let svg = drawing.to_svg(&SvgOptions { pictures: Pictures::Linked("/pictures/"), id_prefix: "" });
    roxmltree::Document::parse(&svg).expect("well-formed");
    let place = folder().join(format!("{name}.svg"));
    if std::env::var_os("UPDATE_DRAWINGS").is_some() {
        std::fs::write(&place, &svg).expect("the reference can be written");
    }
    let reference = std::fs::read_to_string(&place).unwrap_or_else(|problem| {
        panic!("{} can't be read ({problem}): draw it with UPDATE_DRAWINGS=1", place.display())
    });
    let line = svg.lines().zip(reference.lines()).position(|(new, old)| new != old);
    assert!(
        svg == reference,
        "{name} is drawn otherwise from line {:?}:\n{}\n{}",
        line.map(|i| i + 1),
        line.and_then(|i| svg.lines().nth(i)).unwrap_or("(the end)"),
        line.and_then(|i| reference.lines().nth(i)).unwrap_or("(the end)"),
    );
}

fn plain() -> FrontOptions {
    FrontOptions::default()
}

#[test]
fn every_reference_is_drawn() {
    let files = std::fs::read_dir(folder()).expect("there are references");
    for file in files.filter_map(Result::ok) {
        let path = file.path();
        let name = path.file_stem().and_then(|name| name.to_str()).unwrap_or_default();
        assert!(DRAWN.contains(&name), "{} is drawn by no test: delete it", path.display());
    }
}

#[test]
fn one_patch_is_an_area_with_cut_edges() {
    check("one_patch", &front(&one_patch(), Mark(1), &heap(), &plain()).unwrap());
}

#[test]
fn a_picture_stands_once_and_is_used_by_reference() {
    let table = two_patches(Press::Over, None);
    check("picture", &front(&table, Mark(1), &heap(), &plain()).unwrap());
}

#[test]
fn what_is_sewn_is_stitched_and_what_is_planned_is_chalked() {
    let sewn = Some(BTreeSet::from([Mark(1), Mark(2), Mark(3)]));
    let what = FrontOptions { sewn, flat: true, ..plain() };
    check("stitches_and_chalk", &front(&three_patches(), Mark(1), &heap(), &what).unwrap());
}

#[test]
fn what_a_seam_leaves_open_has_no_stitches() {
    let table = two_patches(Press::Over, Some((End::End, 1.0)));
    let what = FrontOptions { flat: true, ..plain() };
    check("left_open", &front(&table, Mark(1), &heap(), &what).unwrap());
}

#[test]
fn sides_have_their_name_and_raw_length_outside() {
    let table = two_patches(Press::Over, None);
    let what = FrontOptions { flat: true, labels: true, measures: true, ..plain() };
    check("labels_and_measures", &front(&table, Mark(1), &heap(), &what).unwrap());
}

#[test]
fn finished_is_an_allowance_smaller_and_says_so() {
    let table = two_patches(Press::Over, None);
    let what = FrontOptions { flat: true, measures: true, finished: true, ..plain() };
    check("finished", &front(&table, Mark(1), &heap(), &what).unwrap());
}

#[test]
fn what_the_hand_is_on_is_madder_red() {
    let what = FrontOptions {
        flat: true,
        accent: Some(Accent::Side(Name::new(Mark(1), 0))),
        highlights: vec![Mark(2)],
        trims: vec![[point(0.0, 0.5), point(0.5, 0.0)]],
        ground: true,
        ..plain()
    };
    check("accent", &front(&two_patches(Press::Over, None), Mark(1), &heap(), &what).unwrap());
}

#[test]
fn a_pieced_cloth_shows_its_parts() {
    check("pieced", &front(&three_patches(), Mark(1), &heap(), &plain()).unwrap());
}

#[test]
fn pressed_over_the_old_cloth_runs_under_the_new() {
    let what = FrontOptions { flat: true, labels: true, ..plain() };
    let table = two_patches(Press::Over, None);
    check("back_over", &back(&table, Mark(1), &heap(), &what).unwrap());
}

#[test]
fn pressed_open_each_allowance_shows_its_right_side() {
    let table = two_patches(Press::Open, None);
    check("back_open", &back(&table, Mark(1), &heap(), &plain()).unwrap());
}

#[test]
fn a_cloth_has_holes_flaws_grain_and_plans() {
    let heap = heap();
    let mut cloth = heap[&SLATE].clone();
    let square = |x: f64, y: f64, side: f64| {
        vec![point(x, y), point(x + side, y), point(x + side, y + side), point(x, y + side)]
    };
    cloth.outline = Region::try_new(cloth.outline.outer, vec![square(4.5, 3.5, 1.0)]).unwrap();
    cloth.flaws = vec![Region { outer: square(0.5, 3.5, 0.75), holes: Vec::new() }];
    cloth.grain = Turn::from_degrees(80.0);
    let cut = PlannedCut { outline: square(1.0, 1.0, 1.5), label: "12".to_owned(), cut: false };
    let done = PlannedCut { outline: square(3.5, 0.5, 1.5), label: "14".to_owned(), cut: true };
    let what = ClothOptions { labels: true, cuts: vec![cut, done], ..ClothOptions::default() };
    check("cloth", &cloth_drawing(&cloth, &heap, &what));
}

#[test]
fn a_cloth_of_about_a_size_has_a_soft_edge() {
    let mut cloth = plain_cloth(SAND, "red stripe <3 & more>", 0xb0_40_38);
    cloth.about = true;
    let what = ClothOptions { labels: true, grain: false, ..ClothOptions::default() };
    check("cloth_about", &cloth_drawing(&cloth, &heap(), &what));
}

#[test]
fn tops_lie_beside_the_piece() {
    let mut table = two_patches(Press::Over, None);
    lay(&mut table, 7, SAND, Pose::STAY, Region::rectangle(1.5, 1.5).outer);
    lay(&mut table, 8, SLATE, Pose::STAY, Region::rectangle(2.0, 3.0).outer);
    check("table", &table_drawing(&table, &heap(), &FrontOptions { flat: true, ..plain() }).unwrap());
}

#[test]
fn a_proposal_overlaps_the_piece_by_two_allowances() {
    // Where it would lie is what the table makes of it: laid, and sewn onto side 1c, at y = 3.
    let (at, outline) = (Pose::new(Turn::NONE, Vec2::new(1.0, 1.0)), Region::rectangle(4.5, 1.5).outer);
    let mut sewn = one_patch();
    lay(&mut sewn, 2, SLATE, at, outline.clone());
    let how = Seam { press: Press::Over, stop: None };
    sew(&mut sewn, 3, Name::new(Mark(1), 2), Name::new(Mark(2), 0), &how);
    let top = sewn.top(Mark(1)).unwrap();
    let pose = top.faces().values().find(|face| face.patch == Mark(2)).unwrap().pose;
    let (start, end) = top.seam_points(Name::new(Mark(3), 0)).unwrap();
    let patch = ProposedPatch { cloth: SLATE, at, outline, pose };
    let proposal = Proposal { patches: vec![patch], seams: vec![[start, end]], trims: Vec::new() };
    let drawn = proposal_drawing(&one_patch(), Mark(1), &heap(), &plain(), &proposal).unwrap();
    let Some(Shape::Group { items, .. }) = drawn.items.last().map(|item| &item.shape) else {
        panic!("the proposal lies on top")
    };
    let laid = items.iter().find(|item| item.tag.class == "proposed").expect("its cloth is drawn");
    let mut lowest = f64::INFINITY;
    laid.each_point(&mut |p| lowest = lowest.min(p.y));
    assert!((3.0 - lowest - 2.0 * 0.25).abs() < 1e-9, "it reaches down to {lowest}");
    check("proposal", &drawn);
}

#[test]
fn eye_marks_lie_on_top() {
    let drawn = front(&one_patch(), Mark(1), &heap(), &plain()).unwrap();
    let marks = [
        EyeMark::Point(point(2.0, 1.5)),
        EyeMark::Line(point(0.5, 0.5), point(3.0, 1.0)),
        EyeMark::Polygon(vec![point(3.0, 2.0), point(3.5, 2.0), point(3.0, 2.5)]),
    ];
    let weight = drawn.weight;
    check("eye_marks", &drawn.with([overlay(&marks, weight)]));
}

fn check_front(name: &str, stages: &Stages<'_>) {
    check(name, &finished_front(&large_patch(), Mark(1), &stash(), &measured(), stages).unwrap());
}

fn check_back(name: &str, stages: &Stages<'_>) {
    check(name, &finished_back(&large_patch(), Mark(1), &stash(), &measured(), stages).unwrap());
}

fn measured() -> FrontOptions {
    FrontOptions { measures: true, ..plain() }
}

#[test]
fn a_finished_front_has_thread_and_figure_within_its_binding() {
    let (fill, bound, bud) = (fill(), edge(Finish::Bound), bud());
    let figure = planned(&bud);
    let stages = Stages {
        quilting: Some(quilted(&fill)),
        edge: Some(edged(&bound, Made::Of(SLATE))),
        figure: Some(figured(&bud, &figure, FigureOrder::AfterQuilting)),
        ..Stages::default()
    };
    check_front("finished_front", &stages);
}

#[test]
fn a_finished_back_has_one_cloth_a_sleeve_and_a_label() {
    let (fill, bound, whole, sleeve) = (fill(), edge(Finish::Bound), backing(true), sleeve());
    let stages = Stages {
        quilting: Some(quilted(&fill)),
        backing: Some(backed(&whole)),
        edge: Some(edged(&bound, Made::Plain(rose()))),
        hanging: Some(hung(&sleeve, HungBy::Sleeve)),
        ..Stages::default()
    };
    check_back("finished_back", &stages);
}

#[test]
fn quilting_after_the_figure_lies_over_it() {
    let (fill, bud) = (fill(), bud());
    let plan = planned(&bud);
    let figure = Some(figured(&bud, &plan, FigureOrder::BeforeQuilting));
    check_front(
        "figure_under_quilting",
        &Stages { quilting: Some(quilted(&fill)), figure, ..Stages::default() },
    );
}

#[test]
fn a_pieced_back_shows_its_strips_and_seams() {
    let strips = backing(false);
    check_back("pieced_back", &Stages { backing: Some(backed(&strips)), ..Stages::default() });
}

#[test]
fn a_facing_lies_on_the_back() {
    let faced = edge(Finish::Faced);
    let edge = Some(edged(&faced, Made::Plain(rose())));
    check_back("faced_back", &Stages { edge, ..Stages::default() });
}

#[test]
fn tabs_stand_out_above_the_edge() {
    let sleeve = sleeve();
    check_front("tabs", &Stages { hanging: Some(hung(&sleeve, HungBy::Tabs)), ..Stages::default() });
}
