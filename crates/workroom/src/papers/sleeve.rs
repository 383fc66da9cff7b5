//! Sleeve or tabs, and the label: where they go on the back, and how they are cut.

use super::pad::{LENGTH_PT, NUMBER_PT, Pad};
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{Asked, StageReport};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{MADDER, Stroke};
use papers::flow::{Block, Column, Table, faces};
use plane::{Point, Vec2};
use quilt::stage::sleeve::SleevePlan;
use serde_json::json;

/// What is said where needle and rod are in hand (common practice, no source).
const CARE: &str = "Sew through the back and the batting only: no stitch shows on the front. Hang it where nobody's head meets the rod.";

pub(super) fn sleeve(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let taken = room.taken(head)?;
    let (choice, plan) = taken.sleeve()?;
    let raw = taken.raw()?;
    let told = StageReport::Sleeve(plan.clone()).told(wish.unit());
    let blocks = vec![
        Block::chapter(PaperKind::Sleeve.title()),
        Block::body(&told.sentence),
        behind(&plan, &raw, wish),
        Block::section("What is cut"),
        cut(&plan, choice.label_in, wish),
        Block::section("In this order"),
        Block::List { face: faces::BODY, counted: true, items: steps(&plan, wish) },
        Block::Caution(vec![CARE.to_owned()]),
    ];
    let facts = json!({ "says": told.sentence, "plan": plan });
    Ok(Paper { kind: PaperKind::Sleeve, blocks, facts })
}

/// The piece from behind: x is turned round.
fn behind(plan: &SleevePlan, raw: &[Point], wish: &PapersWish) -> Block {
    let over = |p: Point| Point::new(-p.x, p.y);
    let outline: Vec<Point> = raw.iter().rev().map(|p| over(*p)).collect();
    let mut pad = Pad::over(&outline, [wish.paper.size_in()[0] - 2.4, 0.24 * wish.paper.size_in()[1]]);
    pad.area(outline.clone(), drawing::CALICO, 1.0);
    pad.closed(outline, Stroke::CutLine);
    for (i, part) in plan.parts.iter().enumerate() {
        let [left, right] = part.top.map(over);
        let unit = (right - left) * (1.0 / left.distance(right).max(1e-9));
        // From behind the left end lies on the right: down is on the other hand.
        let down = unit.left() * plan.flat_in;
        pad.closed(vec![left, right, right + down, left + down], Stroke::CutLine);
        pad.bold(left.midpoint(right) + down * 0.5, NUMBER_PT, format!("sleeve {}", i + 1));
        let above = unit.left() * -pad.paper(0.14);
        pad.words(left.midpoint(right) + above, LENGTH_PT, wish.length(part.finished_length_in, 8));
    }
    if !plan.has_sleeve {
        let tops = plan.tabs.iter().map(|tab| over(tab.at) + Vec2::new(0.0, tab.finished_length_in));
        if let Some((low, high)) = plane::polygon::bounds(&tops.collect::<Vec<_>>()) {
            let beyond = Vec2::new(pad.paper(0.3), 0.0);
            pad.line(vec![low - beyond, high + beyond], Stroke::Leader);
            pad.beside(high + beyond, Vec2::new(1.0, 0.0), LENGTH_PT, "rod");
        }
        for (i, tab) in plan.tabs.iter().enumerate() {
            let at = over(tab.at);
            pad.line(vec![at, at + Vec2::new(0.0, tab.finished_length_in)], Stroke::Mark);
            pad.beside(
                at + Vec2::new(0.0, tab.finished_length_in),
                Vec2::new(0.0, 1.0),
                NUMBER_PT,
                (i + 1).to_string(),
            );
        }
    }
    if let Some(label) = plan.label {
        let label = label.map(over);
        pad.closed(label.to_vec(), Stroke::CutLine);
        pad.words(label[0].midpoint(label[2]), LENGTH_PT, "label");
    }
    let centre = over(plan.centre);
    pad.dot(centre, 0.05, MADDER);
    pad.beside(centre, Vec2::new(1.0, 0.0), LENGTH_PT, "centre of weight");
    pad.block("The back, with what it hangs by", "Seen from behind. Lengths are finished.")
}

fn cut(plan: &SleevePlan, [wide, high]: [f64; 2], wish: &PapersWish) -> Block {
    let columns = vec![
        Column::words("", 2.4),
        Column::numbers("Cut long", 1.4),
        Column::numbers("Cut wide", 1.4),
        Column::numbers("Finished", 1.6),
    ];
    let row = |what: String, [long, wide]: [f64; 2], finished: String| {
        vec![what, wish.up(long, 8), wish.length(wide, 8), finished]
    };
    let mut rows: Vec<Vec<String>> = plan
        .parts
        .iter()
        .enumerate()
        .map(|(i, part)| {
            let size = [part.cut_length_in, plan.cut_width_in];
            row(format!("Sleeve {}", i + 1), size, wish.length(part.finished_length_in, 8))
        })
        .collect();
    if !plan.has_sleeve {
        rows.extend(plan.tabs.iter().enumerate().map(|(i, tab)| {
            let size = [tab.cut_length_in, plan.tab_cut_width_in];
            row(format!("Tab {}", i + 1), size, wish.length(tab.finished_length_in, 8))
        }));
    }
    if plan.label.is_some() {
        // A quarter inch is turned under all round (common practice, no source).
        rows.push(row("Label".to_owned(), [wide + 0.5, high + 0.5], wish.size([wide, high], 8)));
    }
    rows.push(vec!["Rod".to_owned(), wish.length(plan.rod_length_in, 8), String::new(), String::new()]);
    Block::Table(Table { columns, rows })
}

/// From hemming to hanging (common practice, no source).
fn steps(plan: &SleevePlan, wish: &PapersWish) -> Vec<String> {
    let mut steps = if plan.has_sleeve {
        vec![
            "Hem both short ends of each part.".to_owned(),
            format!(
                "Sew the long edges together, wrong side in, to a tube; lay its seam against the back. The outer layer has {} of ease, so that the rod doesn't press through to the front.",
                wish.length(plan.ease_in, 8)
            ),
            format!(
                "Pin it with its top {} below the highest point of the piece.",
                wish.length(plan.above_in, 8)
            ),
            "Sew both long edges and the inner layer of the ends down by hand.".to_owned(),
        ]
    } else {
        vec![
            "Sew each tab to a tube, turn it, press it with the seam in the middle.".to_owned(),
            "Fold each over the rod, and sew both ends to the back at its number: all of them reach the same level rod."
                .to_owned(),
        ]
    };
    if plan.label.is_some() {
        steps.push("Write the label first: what it is called, who made it, where and when. Turn its edge under and sew it on.".to_owned());
    }
    let side = if plan.off_middle_in < 0.0 { "left" } else { "right" };
    if plan.off_middle_in.abs() > 0.25 {
        steps.push(format!(
            "Its centre of weight lies {} to the {side} of the middle, seen from the front: hang the rod from two points, not from one.",
            wish.length(plan.off_middle_in.abs(), 8)
        ));
    }
    steps
}
