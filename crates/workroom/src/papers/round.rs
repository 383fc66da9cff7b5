//! One round of a piece: what is in it, how large its patches are, and what to look out for.

use super::PapersWish;
use colour::Lab;
use plane::polygon;
use quilt::cloth::{Cloth, ClothId};
use quilt::length::many;
use quilt::log::{Entry, Mark, Name, Sewing, Step};
use quilt::rounds;
use quilt::table::{Table, Top};
use std::collections::{BTreeMap, BTreeSet};

/// Corners sharper than this are told, in degrees.
const SHARP_DEG: f64 = 45.0;

/// What a round is.
pub(super) struct Round {
    pub(super) no: usize,
    pub(super) faces: Vec<Name>,
    pub(super) patches: BTreeSet<Mark>,
    /// Least and most, finished.
    pub(super) depth_in: [f64; 2],
    pub(super) length_in: [f64; 2],
    pub(super) area_in2: f64,
    pub(super) mean: Option<Lab>,
    pub(super) look_out: Vec<String>,
}

/// A piece, and what is known of it.
pub(super) struct Piece<'a> {
    pub(super) table: &'a Table,
    pub(super) top: &'a Top,
    pub(super) cloths: &'a BTreeMap<ClothId, Cloth>,
    pub(super) entries: &'a [Entry],
    pub(super) allowance_in: f64,
    pub(super) wish: &'a PapersWish,
}

impl Piece<'_> {
    pub(super) fn range(&self, [least, most]: [f64; 2]) -> String {
        let (least, most) = (self.wish.length(least, 8), self.wish.length(most, 8));
        if least == most { least } else { format!("{least} to {most}") }
    }

    fn cloth(&self, patch: Mark) -> Option<&Cloth> {
        self.cloths.get(&self.table.patches().get(&patch)?.cloth)
    }

    pub(super) fn rounds(&self) -> Vec<Round> {
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
