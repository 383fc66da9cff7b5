//! The guide by rounds: what followers with other cloth need to know of each.

use super::{Content, Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked};
use crate::quilts::Head;
use crate::workroom::Workroom;
use colour::{Lab, Srgb, difference, nearest_word};
use drawing::{Drawing, FrontOptions, Item, Paint, Stroke, front};
use papers::flow::{Block, Column, Fit, Table as Rows};
use papers::press::Face as Letters;
use plane::polygon;
use quilt::cloth::{Cloth, ClothId};
use quilt::length::many;
use quilt::log::{Entry, Mark, Name, Sewing, Step};
use quilt::rounds;
use quilt::table::{Table, Top};
use serde_json::json;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Corners sharper than this are told, in degrees.
const SHARP_DEG: f64 = 45.0;
/// Steps of colour, as the eye tells them apart: less than the first is none, from the second on it is plain
/// (from memory: CIEDE2000, where 1 is just seen side by side).
const STEP: [f64; 2] = [4.0, 12.0];

/// What a round is.
struct Round {
    no: usize,
    faces: Vec<Name>,
    patches: BTreeSet<Mark>,
    /// Least and most, finished.
    depth_in: [f64; 2],
    length_in: [f64; 2],
    area_in2: f64,
    mean: Option<Lab>,
    look_out: Vec<String>,
}

pub(super) fn rounds(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let entries: Vec<Entry> = room.path(tip)?.into_iter().map(|step| step.entry).collect();
    let table = room.table_at(tip)?;
    let cloths = room.every_cloth()?;
    let allowance_in = room.wish(&head.quilt)?.allowance_in;
    let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
    let piece = Piece { table: &table, top, cloths: &cloths, entries: &entries, allowance_in, wish };
    let all = piece.rounds();
    if all.len() < 2 {
        return Err(AskError::CantBe {
            what: "there is only one patch yet, and no round about it".to_owned(),
            hint: "Sew on some pieces first.".to_owned(),
        });
    }
    let whole_in2: f64 = all.iter().map(|round| round.area_in2).sum();
    let mut rows = Vec::new();
    let mut blocks = Vec::new();
    let mut before: Option<Lab> = None;
    for round in &all {
        let colour = colours(before, round.mean);
        rows.push(vec![
            name(round.no),
            round.patches.len().to_string(),
            piece.range(round.depth_in),
            piece.range(round.length_in),
            colour.clone(),
            format!("{:.0} %", 100.0 * round.area_in2 / whole_in2.max(1e-9)),
        ]);
        let mut items = vec![
            format!(
                "{}, {} deep and {} long, finished.",
                many(round.patches.len(), "patch", "patches"),
                piece.range(round.depth_in),
                piece.range(round.length_in)
            ),
            format!("Colour: {colour}."),
        ];
        items.extend(round.look_out.iter().cloned());
        let drawing = piece.picture(mark, round)?;
        let figure = Block::Figure {
            alt: format!("{} of the piece, the rest paled", name(round.no)),
            drawing: Arc::new(drawing),
            fit: Fit::Filling { height_in: 2.5 },
            caption: String::new(),
        };
        let words = vec![
            Block::Heading { level: 2, words: name(round.no) },
            Block::List { face: Letters::plain(12.0), counted: false, items },
        ];
        blocks.push(Block::Together(vec![Block::Beside(vec![(2.0, vec![figure]), (3.0, words)])]));
        before = round.mean.or(before);
    }
    let columns = vec![
        Column::words("", 2.2),
        Column::words("Patches", 1.1),
        Column::words("Depth", 2.4),
        Column::words("Length", 2.4),
        Column::words("Colour", 3.2),
        Column::numbers("Area", 1.0),
    ];
    let facts = json!({ "rounds": all.iter().map(|round| json!({
        "round": round.no,
        "patches": round.patches.iter().map(|mark| mark.0).collect::<Vec<_>>(),
        "depth_in": round.depth_in,
        "length_in": round.length_in,
        "area_in2": round.area_in2,
        "colour": round.mean.map(nearest_word),
        "look_out": round.look_out,
    })).collect::<Vec<_>>() });
    let how = "For whoever follows with cloth of their own: keep the numbers roughly, not the shapes. A round is all \
               patches that lie equally many seams from the first one. Depth is a patch's narrowest width, length its \
               greatest, corner to corner; both finished, as they show when all is sewn. Cut twice the seam more.";
    let mut said = vec![
        Block::chapter(PaperKind::Rounds.title()),
        Block::body(how),
        Block::Table(Rows { columns, rows }),
    ];
    said.extend(blocks);
    Ok(Paper { kind: PaperKind::Rounds, content: Content::Blocks(said), facts })
}

fn name(no: usize) -> String {
    if no == 0 { "The first patch".to_owned() } else { format!("Round {no}") }
}

/// The colour of a round, and how far it steps from the one before.
fn colours(before: Option<Lab>, mean: Option<Lab>) -> String {
    let Some(mean) = mean else { return "not known".to_owned() };
    let word = nearest_word(mean);
    let Some(before) = before else { return format!("about {word}") };
    let step = difference(before, mean);
    let lighter = if mean.l > before.l + 2.0 {
        ", lighter"
    } else if mean.l < before.l - 2.0 {
        ", darker"
    } else {
        ""
    };
    if step < STEP[0] {
        format!("about {word}, as before")
    } else if step < STEP[1] {
        format!("about {word}{lighter}, a small step on")
    } else {
        format!("about {word}{lighter}, a plain step on")
    }
}

struct Piece<'a> {
    table: &'a Table,
    top: &'a Top,
    cloths: &'a BTreeMap<ClothId, Cloth>,
    entries: &'a [Entry],
    allowance_in: f64,
    wish: &'a PapersWish,
}

impl Piece<'_> {
    fn range(&self, [least, most]: [f64; 2]) -> String {
        let (least, most) = (self.wish.length(least, 8), self.wish.length(most, 8));
        if least == most { least } else { format!("{least} to {most}") }
    }

    fn cloth(&self, patch: Mark) -> Option<&Cloth> {
        self.cloths.get(&self.table.patches().get(&patch)?.cloth)
    }

    fn rounds(&self) -> Vec<Round> {
        let beside = rounds::neighbours(self.top);
        let all = rounds::rounds(self.top);
        all.into_iter().enumerate().map(|(no, faces)| self.round(no, faces, &beside)).collect()
    }

    fn round(&self, no: usize, faces: Vec<Name>, beside: &BTreeMap<Name, BTreeSet<Name>>) -> Round {
        let mut round = Round {
            no,
            patches: BTreeSet::new(),
            depth_in: [f64::MAX, 0.0],
            length_in: [f64::MAX, 0.0],
            area_in2: 0.0,
            mean: None,
            look_out: Vec::new(),
            faces,
        };
        let (mut narrowest, mut sharp) = (None, 0);
        let mut looks = Vec::new();
        for name in &round.faces {
            let Some(face) = self.top.faces().get(name) else { continue };
            round.patches.insert(face.patch);
            let shows = self.top.finished_points(face, self.allowance_in);
            if shows.len() < 3 {
                continue;
            }
            let (depth, length, area) =
                (polygon::least_width(&shows), polygon::diameter(&shows), polygon::area(&shows).abs());
            if depth < round.depth_in[0] {
                narrowest = Some((face.patch, depth));
            }
            round.depth_in = [round.depth_in[0].min(depth), round.depth_in[1].max(depth)];
            round.length_in = [round.length_in[0].min(length), round.length_in[1].max(length)];
            round.area_in2 += area;
            sharp += usize::from(sharpest_deg(&shows) < SHARP_DEG);
            looks.extend(self.cloth(face.patch).map(|cloth| (cloth.look.mean(), area)));
        }
        for range in [&mut round.depth_in, &mut round.length_in] {
            if range[0] > range[1] {
                *range = [0.0, 0.0];
            }
        }
        round.mean = colour::mean(looks);
        round.look_out = self.look_out(&round, narrowest, sharp, beside);
        round
    }

    /// What to look out for, from the round itself.
    fn look_out(
        &self,
        round: &Round,
        narrowest: Option<(Mark, f64)>,
        sharp: usize,
        beside: &BTreeMap<Name, BTreeSet<Name>>,
    ) -> Vec<String> {
        let mut said = Vec::new();
        let prints: BTreeSet<(Option<u64>, Option<ClothId>)> =
            round.patches.iter().filter_map(|patch| self.cloth(*patch)).map(print).collect();
        if round.patches.len() > 1 {
            let alike = self.alike_that_touch(round, beside);
            let touch = match alike {
                0 => "none lies beside its like".to_owned(),
                some => format!("{} the like beside them", many(some, "patch has", "patches have")),
            };
            said.push(format!("{}; {touch}.", many(prints.len(), "print", "prints")));
        }
        if let Some((patch, depth)) = narrowest.filter(|_| round.patches.len() > 1) {
            said.push(format!(
                "The narrowest is patch {patch}, {} deep: no narrower.",
                self.wish.length(depth, 8)
            ));
        }
        if sharp > 0 {
            said.push(format!(
                "{} a corner sharper than {SHARP_DEG:.0} degrees: begin such seams at the blunt end, and press without pushing.",
                many(sharp, "patch has", "patches have")
            ));
        }
        let short = self.entries.iter().filter(|entry| match &entry.step {
            Step::Sew(Sewing::Join { stop: Some(_), with, .. }) => round.patches.contains(&with.by),
            _ => false,
        });
        match short.count() {
            0 => {}
            count => said.push(format!(
                "{} short here and are closed later.",
                many(count, "seam stops", "seams stop")
            )),
        }
        said
    }

    /// Patches of the round that have a neighbour of the same print, in this round or the next inside.
    fn alike_that_touch(&self, round: &Round, beside: &BTreeMap<Name, BTreeSet<Name>>) -> usize {
        let print_of = |name: &Name| {
            self.top.faces().get(name).and_then(|face| Some((face.patch, print(self.cloth(face.patch)?))))
        };
        let touches = |name: &&Name| {
            let own = print_of(name);
            let mut others = beside.get(name).into_iter().flatten().filter_map(print_of);
            own.is_some_and(|(patch, own)| others.any(|(other, its)| other != patch && its == own))
        };
        round.faces.iter().filter(touches).count()
    }

    /// The piece with all but the round paled.
    fn picture(&self, mark: Mark, round: &Round) -> Asked<Drawing> {
        let mut drawing = front(self.table, mark, self.cloths, &FrontOptions::default())?;
        drawing.weight *= 1.4;
        for (name, face) in self.top.faces() {
            let corners = self.top.face_points(face);
            drawing.items.push(if round.faces.contains(name) {
                Item::closed(corners, Stroke::Outline)
            } else {
                Item::fill(corners, Paint::Colour(Srgb::new(255, 255, 255), 0.72))
            });
        }
        Ok(drawing)
    }
}

fn print(cloth: &Cloth) -> (Option<u64>, Option<ClothId>) {
    // Cloths without a print's number are each their own.
    (cloth.print, cloth.print.is_none().then_some(cloth.id))
}

/// The sharpest corner of a shape, in degrees.
fn sharpest_deg(points: &[plane::Point]) -> f64 {
    let n = points.len();
    let corner = |i: usize| {
        let (before, at, after) = (points[(i + n - 1) % n], points[i], points[(i + 1) % n]);
        let (a, b) = (before - at, after - at);
        (a.dot(b) / (a.length() * b.length()).max(1e-12)).clamp(-1.0, 1.0).acos().to_degrees()
    };
    (0..n).map(corner).fold(180.0, f64::min)
}
