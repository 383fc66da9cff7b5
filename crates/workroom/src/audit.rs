//! Does the cloth that a plan counts on exist? Claims are computed from the chalk part of a log,
//! never stored, and nothing here stops a replay: it reports.
//!
//! Claims of one log are held against the stash and against each other; those of another quilt
//! only softly ([`promised_elsewhere`]): the first cut wins. What-ifs of one quilt are never held
//! against each other, so each is audited alone.

use crate::stash::{Stash, outside_of};
use plane::{READING, Region, Turn};
use quilt::cloth::{ClothId, Runs};
use quilt::log::{Entry, Mark, Step};
use quilt::table::replay;
use quilt::{Place, Problem, Rule};
use std::collections::BTreeMap;

/// A part of a cloth that a chalk patch is planned to be cut from.
#[derive(Clone, Debug, PartialEq)]
pub struct Claim {
    /// The step that lays the patch.
    pub mark: Mark,
    /// What it would take, in the cloth's coordinates.
    pub region: Region,
}

/// How far a print may lie off its way up before it is reported.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WayUp {
    /// For prints that have a top, in degrees from the top of the piece.
    pub one_way_deg: f64,
    /// For prints that look the same upside down, in degrees; they are never further off than 90.
    pub both_ways_deg: f64,
}

impl Default for WayUp {
    /// A print with a top is wrong from an eighth of a turn on; stripes may lie as they like
    /// (common practice, no source).
    fn default() -> Self {
        Self { one_way_deg: 45.0, both_ways_deg: 90.0 }
    }
}

/// What the chalk part of a log counts on: the patches laid after the first `sewn` steps.
#[must_use]
pub fn claims(log: &[Entry], sewn: usize) -> BTreeMap<ClothId, Vec<Claim>> {
    let mut claims: BTreeMap<ClothId, Vec<Claim>> = BTreeMap::new();
    for entry in log.iter().skip(sewn) {
        if let Step::Lay { cloth, at, cut } = &entry.step {
            let region = Region { outer: at.apply_all(cut), holes: Vec::new() };
            claims.entry(*cloth).or_default().push(Claim { mark: entry.mark, region });
        }
    }
    claims
}

/// Everything that is wrong with what a log counts on, in the order of its steps: cloth that is
/// unknown, too small, cut already or promised twice, and prints the wrong way up.
#[must_use]
pub fn audit(log: &[Entry], sewn: usize, stash: &Stash, way_up: WayUp) -> Vec<Problem> {
    let claims = claims(log, sewn);
    let mut problems = Vec::new();
    for (cloth, claims) in &claims {
        for claim in claims {
            problems.extend(room(*cloth, claim, stash));
        }
    }
    problems.extend(promised_twice(&claims, stash));
    problems.extend(wrong_way_up(log, sewn, stash, way_up));
    problems.sort_by_key(|problem| match problem.place {
        Place::Patch(mark) | Place::Step(mark) => mark,
        _ => Mark(u32::MAX),
    });
    problems
}

/// Where the claims of one quilt meet those of another: soft, because the first cut wins.
#[must_use]
pub fn promised_elsewhere(
    own: &BTreeMap<ClothId, Vec<Claim>>,
    other: &BTreeMap<ClothId, Vec<Claim>>,
    stash: &Stash,
) -> Vec<Problem> {
    let (own, other) = (by_root(own, stash), by_root(other, stash));
    let mut problems = Vec::new();
    for (root, claims) in &own {
        for claim in claims {
            let others = other.get(root).into_iter().flatten();
            let shared: f64 = others.map(|other| overlap(&claim.region, &other.region)).sum();
            problems.extend(twice(claim.mark, shared));
        }
    }
    problems.sort_by_key(|problem| match problem.place {
        Place::Patch(mark) => mark,
        _ => Mark(u32::MAX),
    });
    problems
}

/// Area below which two claims only touch: what reading lengths can leave along a foot of edge.
pub(crate) const TOUCH_IN2: f64 = 12.0 * READING;

fn twice(mark: Mark, shared_in2: f64) -> Option<Problem> {
    let place = Place::Patch(mark);
    (shared_in2 > TOUCH_IN2).then_some(Problem {
        rule: Rule::PromisedTwice,
        place,
        measured_in: shared_in2,
        limit_in: 0.0,
    })
}

/// How much of one region lies in another, in square inches.
pub(crate) fn overlap(a: &Region, b: &Region) -> f64 {
    plane::intersection(a, b).iter().map(Region::area).sum()
}

/// Claims by the eldest cloth in whose coordinates they lie.
fn by_root<'a>(
    claims: &'a BTreeMap<ClothId, Vec<Claim>>,
    stash: &Stash,
) -> BTreeMap<ClothId, Vec<&'a Claim>> {
    let mut sorted: BTreeMap<ClothId, Vec<&Claim>> = BTreeMap::new();
    for (cloth, claims) in claims {
        sorted.entry(stash.root(*cloth)).or_default().extend(claims);
    }
    sorted
}

/// Whether a cloth has room for a claim.
fn room(cloth: ClothId, claim: &Claim, stash: &Stash) -> Option<Problem> {
    let place = Place::Patch(claim.mark);
    let Some(item) = stash.get(cloth) else { return Some(Problem::at(Rule::UnknownCloth, place)) };
    let whole = &item.came.outline;
    let beyond = plane::difference(&claim.region, std::slice::from_ref(whole));
    if let Some(outside) = outside_of(whole, &beyond)
        && !item.came.about
    {
        return Some(Problem { rule: Rule::NoRoom, place, measured_in: outside.by_in, limit_in: 0.0 });
    }
    let flawed: f64 = item.came.flaws.iter().map(|flaw| overlap(flaw, &claim.region)).sum();
    if flawed > TOUCH_IN2 {
        let measured_in = flawed.sqrt();
        return Some(Problem { rule: Rule::NoRoom, place, measured_in, limit_in: 0.0 });
    }
    let there = stash.holder(cloth, &claim.region).map(|held| held.outline.clone());
    let gone: f64 = match there {
        Some(outline) => {
            plane::difference(&claim.region, &[outline]).iter().map(Region::area).sum::<f64>()
                - beyond.iter().map(Region::area).sum::<f64>()
        }
        None => claim.region.area(),
    };
    (gone > TOUCH_IN2).then_some(Problem { rule: Rule::AlreadyCut, place, measured_in: gone, limit_in: 0.0 })
}

/// Claims of one log that overlap: reported at the later step.
fn promised_twice(claims: &BTreeMap<ClothId, Vec<Claim>>, stash: &Stash) -> Vec<Problem> {
    let mut problems = Vec::new();
    for claims in by_root(claims, stash).values_mut() {
        claims.sort_by_key(|claim| claim.mark);
        for (i, claim) in claims.iter().enumerate() {
            let earlier = claims.iter().take(i);
            let shared: f64 = earlier.map(|other| overlap(&claim.region, &other.region)).sum();
            problems.extend(twice(claim.mark, shared));
        }
    }
    problems
}

/// Chalk patches whose print lies off its way up, where the piece's own y is up.
fn wrong_way_up(log: &[Entry], sewn: usize, stash: &Stash, way_up: WayUp) -> Vec<Problem> {
    let (table, _) = replay(log);
    let chalk: Vec<Mark> = log.iter().skip(sewn).map(|entry| entry.mark).collect();
    let mut problems = Vec::new();
    for face in table.tops().values().flat_map(|top| top.faces().values()) {
        let Some(patch) = table.patches().get(&face.patch) else { continue };
        let Some(item) = stash.get(patch.cloth) else { continue };
        let lies = patch.at.turn.inverse().then(face.pose.turn);
        let off_deg = |print: Turn| {
            let up = print.then(lies);
            up.cos.atan2(up.sin).abs().to_degrees()
        };
        let (off, limit) = match item.came.look.runs {
            Runs::AnyWay => continue,
            Runs::OneWay(print) => (off_deg(print), way_up.one_way_deg),
            Runs::BothWays(print) => {
                let off = off_deg(print);
                (off.min(180.0 - off), way_up.both_ways_deg)
            }
        };
        if off > limit + 1e-6 && chalk.contains(&face.patch) {
            let place = Place::Patch(face.patch);
            problems.push(Problem { rule: Rule::WrongWayUp, place, measured_in: off, limit_in: limit });
        }
    }
    problems
}
