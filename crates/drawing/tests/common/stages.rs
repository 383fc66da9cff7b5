//! A small piece of 12 by 10 and the stages of it: a few lines of quilting, a binding, a figure of
//! one layer and one line, a back and a sleeve.

use super::*;
use drawing::{Backed, Edged, Figured, Hung, HungBy, Made, Quilted};
use plane::fill::{Fill, Stroke};
use quilt::stage::binding::{self, BindingChoice, Finish, FinishPlan};
use quilt::stage::figure::{self, Figure, FigureChoice, FigureOrder, FigurePlan, FigureSize, Path, Segment};
use quilt::stage::layers::{self, Backing, LayersChoice};
use quilt::stage::on_hand::OnHand;
use quilt::stage::sleeve::{self, SleeveChoice, SleevePlan};
use quilt::sums::Join;

/// Slate 22 by 20, whose picture is that of [`SLATE`].
pub(crate) const BACK: ClothId = ClothId(4);

pub(crate) fn rose() -> Srgb {
    Srgb::from_number(0xc0_50_5a)
}

/// The heap with a cloth for the back.
pub(crate) fn stash() -> BTreeMap<ClothId, Cloth> {
    let mut cloths = heap();
    let mut back = cloths[&SLATE].clone();
    back.id = BACK;
    back.outline = Region::rectangle(22.0, 20.0);
    cloths.insert(BACK, back);
    cloths
}

/// A rectangle of sand, 12 by 10.
pub(crate) fn large_patch() -> Table {
    let mut table = Table::new();
    lay(&mut table, 1, SAND, Pose::STAY, outline());
    table
}

pub(crate) fn outline() -> Vec<Point> {
    Region::rectangle(12.0, 10.0).outer
}

/// One corner to turn at, and a ring.
pub(crate) fn fill() -> Fill {
    let bent = [point(0.0, 8.5), point(9.25, 8.5), point(11.0, 0.0)];
    let ring = [point(2.0, 2.0), point(6.0, 2.0), point(4.0, 5.5)];
    Fill { strokes: vec![Stroke::open(bent.to_vec()), Stroke::closed(ring.to_vec())] }
}

pub(crate) fn quilted(fill: &Fill) -> Quilted<'_> {
    Quilted {
        fill,
        front: Srgb::from_number(0xfa_fa_f0),
        back: Srgb::from_number(0x30_30_40),
        stitch_in: 0.1,
    }
}

pub(crate) fn edge(finish: Finish) -> FinishPlan {
    let choice = BindingChoice { finish, usable_in: 20.0, closing_gap_in: 4.0, ..BindingChoice::default() };
    binding::plan(&choice, &outline(), 0.25).unwrap()
}

pub(crate) const fn edged(plan: &FinishPlan, made: Made) -> Edged<'_> {
    Edged { plan, made, join: Join::Diagonal }
}

/// A triangle of slate on a stalk too narrow to turn under.
pub(crate) fn bud() -> FigureChoice {
    let shape = |id: &str, cloth, corners: &[(f64, f64)]| figure::Shape {
        id: id.to_owned(),
        cloth: Some(cloth),
        paths: vec![Path {
            start: point(corners[0].0, corners[0].1),
            segments: corners[1..].iter().map(|&(x, y)| Segment::Line(point(x, y))).collect(),
        }],
    };
    let stalk = shape("stalk", SAND, &[(0.9, 0.0), (1.1, 0.0), (1.1, 2.5), (0.9, 2.5)]);
    let bud = shape("bud", SLATE, &[(0.0, 2.0), (2.0, 2.0), (1.0, 4.0)]);
    let figure = Figure { name: "bud".to_owned(), shapes: vec![stalk, bud], unit_in: None };
    FigureChoice::usual(figure, FigureSize::HeightIn(4.0), point(8.5, 5.0))
}

pub(crate) fn planned(choice: &FigureChoice) -> FigurePlan {
    let cloths: Vec<OnHand> = heap().values().map(OnHand::all_of).collect();
    figure::plan(choice, &Region::rectangle(12.0, 10.0), &cloths, &quilt::stage::habits::Habits::default())
        .unwrap()
}

pub(crate) const fn figured<'a>(
    choice: &'a FigureChoice,
    plan: &'a FigurePlan,
    order: FigureOrder,
) -> Figured<'a> {
    Figured { plan, drawn: &choice.figure, order }
}

pub(crate) fn backing(whole: bool) -> Backing {
    let mut choice = LayersChoice::default();
    choice.backing.whole = whole;
    choice.backing.from_stash = false;
    choice.backing.off_centre_in = 2.0;
    choice.backing.bolts[0].usable_in = 12.0;
    layers::backing(&choice, &outline(), &[OnHand::all_of(&stash()[&BACK])]).unwrap()
}

/// A back of strips of the stash alone: none is as wide as the whole.
pub(crate) fn stash_backing(cloths: &BTreeMap<ClothId, Cloth>) -> Backing {
    let mut choice = LayersChoice::default();
    choice.backing.whole = false;
    choice.backing.bolts.clear();
    choice.backing.least_strip_in = 4.0;
    let cloths: Vec<OnHand> = cloths.values().map(OnHand::all_of).collect();
    layers::backing(&choice, &outline(), &cloths).unwrap()
}

pub(crate) fn backed(plan: &Backing) -> Backed<'_> {
    Backed { plan, bolts: vec![rose()] }
}

pub(crate) fn sleeve() -> SleevePlan {
    let choice = SleeveChoice { strip_width_in: Some(4.5), label_in: [3.0, 2.0], ..SleeveChoice::default() };
    sleeve::plan(&choice, &outline(), &[], 0.25).unwrap()
}

pub(crate) fn hung(plan: &SleevePlan, by: HungBy) -> Hung<'_> {
    Hung {
        plan,
        by,
        made: Made::Plain(rose()),
        label: vec!["Bud".to_owned(), "pieced in wool & linen".to_owned()],
    }
}
