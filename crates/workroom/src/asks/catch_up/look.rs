//! Reading from a picture which patches were sewn on, and holding them against the piece as it is known.

use super::sew::OUTER;
use super::{CaughtUp, Guess, LIKE_ENOUGH, PatchSeen};
use crate::asks::error::{AskError, Asked};
use crate::asks::remeasure::names_of;
use crate::stash::Item;
use crate::workroom::Workroom;
use plane::{Line, Point, Pose, Region, polygon};
use quilt::catch_up::{SeenCut, SewnOn};
use quilt::cloth::ClothId;
use quilt::log::{Bound, Mark, Name};
use quilt::remeasure::lay_on;
use quilt::table::{Table, Top};
use std::collections::BTreeSet;
use vision::seams::{Grown, Known, NewPatch, grown};
use vision::{Flat, Look};

/// A ditch fainter than this is told as such.
const FAINT: f64 = 0.05;
/// How many cloths are offered for a patch.
const GUESSES: usize = 3;
/// What is left out along a patch's edges when its look is taken, in inches.
const EDGE_IN: f64 = 0.05;

impl Workroom {
    /// Reads from a flattened picture of the piece, and its raw outline there (in inches,
    /// counter-clockwise), which patches were sewn on since the last step. Nothing is changed.
    ///
    /// # Errors
    /// Nothing on the table; an outline to which no patches lead from the piece as it is known.
    pub(crate) fn read_what_was_sewn(
        &mut self,
        quilt: &str,
        head: &str,
        flat: &Flat,
        outline: &[Point],
    ) -> Asked<CaughtUp> {
        let table = self.table(quilt, head)?;
        let allowance_in = self.wish(quilt)?.allowance_in;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let stash = self.stash()?;
        let colours = top.faces().values().filter_map(|face| {
            let patch = table.patches().get(&face.patch)?;
            let look = &stash.get(patch.cloth)?.came.look;
            Some((polygon::centroid(&top.face_points(face))?, look.mean()))
        });
        let known = Known { outline: top.outline_points(), colours: colours.collect() };
        // Where something can't be told into patches, the piece is taken as one.
        let seen = grown(flat, outline, &known, allowance_in)
            .filter(|seen| seen.unknown.is_empty())
            .ok_or_else(|| no_way(&known.outline, outline))?;
        let items: Vec<&Item> = stash.items().filter(|item| item.now.is_some()).collect();
        let mut patches = patches(top, flat, &seen, &items);
        let next = self.next_mark(quilt, head)?;
        let sewn = tried(table, next, &mut patches, allowance_in)?;
        let pose = seen.pose.inverse();
        let differences = differences(&sewn, outline, pose);
        Ok(CaughtUp { patches, off_in: seen.off_in, differences, pose, raw: outline.to_vec() })
    }
}

/// Why no patches lead from the known outline to the seen one, as far as can be told.
fn no_way(known: &[Point], seen: &[Point]) -> AskError {
    let (was, is) = (polygon::area(known), polygon::area(seen));
    if is < LESS * was {
        return AskError::CantBe {
            what: format!(
                "the piece in the picture has {is:.0} square inches, and {was:.0} are known of: it is another piece, or a part of it is hidden, trimmed off or unpicked"
            ),
            hint:
                "Unpick or trim here what is gone there; or take the picture again with the whole piece flat."
                    .to_owned(),
        };
    }
    AskError::CantBe {
        what: "no patches sewn to whole sides lead from the piece as it is known to the outline in the picture"
            .to_owned(),
        hint: "Unpick what was only planned and never sewn; take the picture again, the whole piece flat, its seams in slanting light; or look at the piece anew, as one patch with its picture.".to_owned(),
    }
}

/// A piece with less than this share of the known area has lost something.
const LESS: f64 = 0.97;

/// The patches sewn on, one after the other, to see whether they can be; what was cut for each is noted.
fn tried(mut table: Table, next: Mark, patches: &mut [PatchSeen], allowance_in: f64) -> Asked<Table> {
    let mut names: Vec<Name> = Vec::new();
    for (i, patch) in patches.iter_mut().enumerate() {
        let cant = |why: String| AskError::CantBe {
            what: format!("patch {}, seen on {}, can't have been sewn so: {why}", i + 1, patch.side()),
            hint: "Sew it by hand, or look at the piece anew, as one patch with its picture.".to_owned(),
        };
        let earlier = patch.onto_seen.and_then(|no| names.get(no).copied());
        let onto = patch.onto.or(earlier).ok_or_else(|| cant("that is no raw edge".to_owned()))?;
        let sewn_on = SewnOn { onto, outer: patch.outer, allowance_in };
        let cut = table.piece().and_then(|(_, top)| sewn_on.cut(top));
        let cut = cut.ok_or_else(|| cant("it has no depth outside of its seam".to_owned()))?;
        let lay = Mark(next.0.saturating_add(2 * names.len() as u32));
        // A table knows no cloth.
        let steps = sewn_on.steps(lay, ClothId(0), Pose::STAY, cut.clone());
        for (mark, step) in (lay.0..).zip(&steps) {
            table.apply(Mark(mark), step).map_err(|problem| cant(problem.to_string()))?;
        }
        patch.cut = cut;
        names.push(Name::new(lay, OUTER));
    }
    Ok(table)
}

/// Where an outline on the table came out otherwise than the piece is.
fn differences(table: &Table, outline: &[Point], to_plan: Pose) -> Vec<String> {
    let Some((_, top)) = table.piece() else { return Vec::new() };
    let names = names_of(top);
    match lay_on(&top.outline_points(), outline, to_plan.turn) {
        Ok(laid) => laid.differences(&names),
        Err(why) => vec![format!("The outline can't be measured: {why}.")],
    }
}

/// What was seen, in the plan's place and words.
fn patches(top: &Top, flat: &Flat, seen: &Grown, items: &[&Item]) -> Vec<PatchSeen> {
    let to_plan = seen.pose.inverse();
    let mut onto: Vec<(Option<Name>, Option<usize>)> = top
        .outline()
        .iter()
        .map(|bound| match bound {
            Bound::Raw(name) => (Some(*name), None),
            Bound::Seam(_) => (None, None),
        })
        .collect();
    let mut patches = Vec::new();
    for (i, patch) in seen.patches.iter().enumerate() {
        let later = &seen.patches[i + 1..];
        let shows = later.iter().fold(patch.outline.clone(), |ring, later| {
            plane::clip_half_plane(&ring, later.seam, plane::DECISION)
        });
        let (name, earlier) = onto.get(patch.side).copied().unwrap_or_default();
        let guesses = guesses(&vision::look(flat, &without_edges(&shows)), &shows, items);
        patches.push(PatchSeen {
            onto: name,
            onto_seen: earlier,
            outline: to_plan.apply_all(&shows),
            size_in: size(patch),
            doubts: doubts(patch.ditch, &guesses),
            guesses,
            on_table: shows,
            ditch: patch.ditch,
            outer: patch.outer.moved(to_plan),
            // Until it has been tried.
            cut: SeenCut { cut: Vec::new(), lies: Pose::STAY, slide_in: 0.0 },
        });
        if let Some(side) = onto.get_mut(patch.side) {
            *side = (None, Some(i));
        }
    }
    patches
}

/// How long the seam is and how deep the patch shows beyond its middle.
fn size(patch: &NewPatch) -> [f64; 2] {
    let [a, b, c, d] = [0, 1, 2, 3].map(|i| patch.outline.get(i).copied().unwrap_or_default());
    [c.distance(d), patch.seam.inside_by(a.midpoint(b)).abs()]
}

/// What should be looked at twice.
fn doubts(ditch: f64, guesses: &[Guess]) -> Vec<String> {
    let faint = (ditch < FAINT).then(|| "Its seam is faint: look twice.".to_owned());
    let near = match guesses {
        [first, second, ..] if second.like >= LIKE_ENOUGH && second.like > CLOSE * first.like => {
            Some(format!("No. {} looks nearly as like as No. {}.", second.no, first.no))
        }
        _ => None,
    };
    faint.into_iter().chain(near).collect()
}

/// A second guess this near to the first, as a share, is told.
const CLOSE: f64 = 0.8;

/// What lies well inside: edges show seams and threads.
fn without_edges(ring: &[Point]) -> Region {
    let lines = polygon::edges(ring).filter_map(|(a, b)| Line::through(a, b));
    let inside =
        |ring: Vec<Point>, line: Line| plane::clip_half_plane(&ring, line.inward(EDGE_IN), plane::DECISION);
    Region { outer: lines.fold(ring.to_vec(), inside), holes: Vec::new() }
}

/// The cloths whose looks are likest; one that is too small for what shows of the patch is less likely.
fn guesses(seen: &Look, shows: &[Point], items: &[&Item]) -> Vec<Guess> {
    let seen = Look { runs: vision::Runs::AnyWay, ..seen.clone() };
    let guess = |item: &&Item| {
        let look = &item.came.look;
        let shade = |shade: &quilt::cloth::Shade| vision::Shade { lab: shade.lab, share: shade.share };
        // What the heap doesn't keep, or may have been told otherwise, speaks for no cloth.
        let kept = Look {
            shades: look.shades.iter().map(shade).collect(),
            lightness: look.mean().l,
            repeat_in: look.repeat_in,
            ..seen.clone()
        };
        Guess {
            cloth: item.came.id,
            no: item.no,
            name: item.came.name.clone(),
            like: vision::same_print(&seen, &kept) * if has_room(item, shows) { 1.0 } else { NO_ROOM },
        }
    };
    let mut guesses: Vec<Guess> = items.iter().map(guess).collect();
    guesses.sort_by(|a, b| b.like.total_cmp(&a.like).then(a.no.cmp(&b.no)));
    // Several cloths of one print look alike: the likest stands for all.
    let mut prints = BTreeSet::new();
    let print = |guess: &Guess| items.iter().find(|item| item.came.id == guess.cloth)?.came.print;
    guesses.retain(|guess| print(guess).is_none_or(|print| prints.insert(print)));
    guesses.truncate(GUESSES);
    guesses
}

/// What a cloth without room for a patch counts, as a share: the ledger may be behind.
const NO_ROOM: f64 = 0.5;

/// Whether a cloth is as large and as long as a patch, so that it can have been cut from it.
fn has_room(item: &Item, shows: &[Point]) -> bool {
    item.now.as_ref().is_some_and(|now| {
        let there = &now.outline;
        now.about
            || (there.area() >= polygon::area(shows)
                && polygon::diameter(&there.outer) >= polygon::diameter(shows))
    })
}
