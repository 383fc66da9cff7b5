//! The next piece: what could be sewn onto a side now, ranked.

use crate::bench::{self, Bench};
use crate::centre::Centre;
use crate::chance::Chance;
use crate::growing::{Bend, Growing};
use crate::heap::Heap;
use crate::moves::Move;
use crate::proof::Proof;
use crate::search::{Effort, Goal};
use crate::shape;
use crate::steps;
use crate::target::Target;
use crate::terms::{Term, terms};
use crate::trim::Trim;
use plane::Point;
use quilt::Problem;
use quilt::cloth::ClothId;
use quilt::log::{Entry, Mark, Name, Run, RunKind};
use quilt::wish::Wish;
use quilt::{Place, Rule};

/// One patch of a proposal.
#[derive(Clone, Debug)]
pub struct ProposedPatch {
    /// The step that will lay it.
    pub mark: Mark,
    /// From which cloth.
    pub cloth: ClothId,
    /// What to cut, in the cloth's coordinates.
    pub on_cloth: Vec<Point>,
    /// The cut shape where it will lie, in the top's coordinates.
    pub lies: Vec<Point>,
    /// Its finished shape there.
    pub finished: Vec<Point>,
    /// Finished area in square inches.
    pub finished_area_in2: f64,
}

/// Something that could be sewn next.
#[derive(Clone, Debug)]
pub struct Proposal {
    /// The same proposal always has the same key: the side it was proposed for and its cloths.
    pub key: String,
    /// The side it is sewn onto: one that is there now, or the one that the trim before it makes.
    pub side: Name,
    /// The side it was proposed for: the same, unless a trim goes first.
    pub asked: Name,
    /// The side that the trim starts on, if one goes first: its marks are told from there.
    pub trimmed: Option<Name>,
    /// The steps that do it.
    pub entries: Vec<Entry>,
    /// Its patches, from the side's start to its end.
    pub patches: Vec<ProposedPatch>,
    /// Square inches to trim off first, if any.
    pub trim: Option<f64>,
    /// Shape + look + fit; 0 would be perfect.
    pub score: f64,
    /// What the score is made of.
    pub terms: Vec<Term>,
    /// Finished depth, in inches.
    pub depth_in: f64,
}

/// Ranked proposals for a side, or for the sides most due. Each was tried on a copy of the table
/// and breaks no limit that the top kept before; where too many layers would meet, its steps press
/// seams open.
///
/// # Errors
/// No such top or side; or an outline with a corner that turns inward, where a trim is due.
#[expect(clippy::too_many_arguments, reason = "each is a thing that the maker may say")]
pub fn next_piece(
    bench: &Bench,
    heap: &Heap,
    wish: &Wish,
    side: Option<Name>,
    count: usize,
    seed: u64,
    bend: &Bend,
    refused: &[String],
) -> Result<Vec<Proposal>, Problem> {
    let (mut growing, centre) = setting(bench, heap, wish, seed)?;
    growing.bend = *bend;
    growing.keep = count.clamp(4, 24);
    let rounds: Vec<Vec<usize>> = match side {
        Some(name) => {
            let found = centre.sides.iter().position(|side| side.name == name);
            vec![vec![found.ok_or(Problem::at(Rule::NoSuchSide, Place::Side(name, None)))?]]
        }
        None => {
            let mut order = growing.due(&centre);
            let beyond = (0..centre.sides.len()).filter(|side| !order.contains(side));
            order.extend(beyond.collect::<Vec<_>>());
            order.chunks(AT_ONCE).map(<[usize]>::to_vec).collect()
        }
    };
    let proof = Proof::new(bench, wish);
    let search = Search { bench, heap, wish, centre: &centre, proof: &proof, count, refused };
    // Where nothing goes onto the sides most due, the next ones are looked at; where nothing goes at all
    // as deep as the round asks for, something as deep as the last pieces may, as growing does it.
    let any =
        |growing: &Growing| rounds.iter().map(|on| search.on(growing, on)).find(|found| !found.is_empty());
    if let Some(found) = any(&growing) {
        return Ok(found);
    }
    if bend.depth_in.is_some() {
        return Ok(Vec::new());
    }
    growing.bend.depth_in = Some(growing.beyond_depth());
    Ok(any(&growing).unwrap_or_default())
}

/// So many sides are looked at together, the most due first.
const AT_ONCE: usize = 3;

/// What a search for proposals holds to, on whatever sides.
struct Search<'a> {
    bench: &'a Bench<'a>,
    heap: &'a Heap,
    wish: &'a Wish,
    centre: &'a Centre,
    proof: &'a Proof<'a>,
    count: usize,
    refused: &'a [String],
}

impl Search<'_> {
    /// Ranked proposals for some sides.
    fn on(&self, growing: &Growing, sides: &[usize]) -> Vec<Proposal> {
        let Self { bench, heap, wish, centre, proof, count, refused } = *self;
        let (target, on_drift) = (growing.target.clone(), growing.on_drift.clone());
        let mut growing = Growing { target, on_drift, ..*growing };
        let bend = growing.bend;
        // Beyond the wished size a piece is as deep as the last ones.
        let arrived =
            |side: &usize| shape::course_of(centre, &growing.target, *side, wish.allowance_in).is_none();
        if bend.depth_in.is_none() && sides.iter().all(arrived) {
            growing.bend.depth_in = Some(growing.beyond_depth());
        }
        let mut barred: Vec<(usize, Vec<Vec<ClothId>>)> =
            sides.iter().map(|&side| (side, fillings(centre.sides[side].name, refused))).collect();
        let mut found: Vec<Proposal> = Vec::new();
        // A unit comes with its best filling only. When that isn't enough, it comes again with the next
        // best; when the prints are through, with other scraps of them.
        let mut fruitless = 0;
        while found.len() < count && fruitless < FRUITLESS {
            let mut moves: Vec<(usize, Move)> = Vec::new();
            for (at, (side, barred)) in barred.iter().enumerate() {
                let made = growing.barring(barred).best_on_side(centre, *side);
                moves.extend(made.into_iter().map(|made| (at, made)));
            }
            if let Some(cloth) = bend.cloth {
                moves.retain(|(_, made)| made.picks.iter().any(|pick| pick.cloth == cloth));
            }
            if moves.is_empty() {
                if growing.scraps {
                    break;
                }
                growing.scraps = true;
                continue;
            }
            moves.sort_by(|a, b| a.1.cost.total_cmp(&b.1.cost));
            let before = found.len();
            for (at, made) in moves {
                let (side, barred) = &mut barred[at];
                let mut proposal = proposal(bench, centre.sides[*side].name, &made, wish);
                let known = found.iter().any(|other| other.key == proposal.key);
                if found.len() < count && !known && proof.holds(&mut proposal.entries, heap) {
                    found.push(proposal);
                }
                let filling = made.picks.iter().map(|pick| pick.cloth).collect();
                if !barred.contains(&filling) {
                    barred.push(filling);
                }
            }
            fruitless = if found.len() > before { 0 } else { fruitless + 1 };
        }
        found.sort_by(|a, b| a.score.total_cmp(&b.score));
        found
    }
}

/// After so many rounds in which nothing that came up could be sewn, no more is looked for.
const FRUITLESS: usize = 4;

/// What was refused on a side, as cloths in order.
fn fillings(side: Name, refused: &[String]) -> Vec<Vec<ClothId>> {
    let side = side.to_string();
    let of_side = refused.iter().filter_map(|key| key.split_once(':')).filter(|(of, _)| *of == side);
    of_side
        .filter_map(|(_, cloths)| cloths.split('+').map(|cloth| cloth.to_owned().try_into().ok()).collect())
        .collect()
}

/// What holds while proposing, and the centre on the bench.
pub(crate) fn setting<'w>(
    bench: &Bench,
    heap: &Heap,
    wish: &'w Wish,
    seed: u64,
) -> Result<(Growing<'w>, Centre), Problem> {
    let mut chance = Chance::new(seed.wrapping_mul(0x9E37));
    let target = Target::new(wish, Goal::Size, chance.between(0.0, 360.0));
    let sparks_turn_deg = chance.between(0.0, 360.0);
    let centre = bench::centre(bench, heap, &target, wish, sparks_turn_deg)?;
    let mut growing = Growing::new(wish, heap, target, Effort::USUAL);
    growing.sparks_turn_deg = sparks_turn_deg;
    Ok((growing, centre))
}

fn proposal(bench: &Bench, side: Name, made: &Move, wish: &Wish) -> Proposal {
    let first = bench.next_mark.0 + u32::from(made.trim.is_some());
    let mut entries = Vec::new();
    if let Some((trim, _)) = &made.trim {
        entries.push(trim_entry(bench.next_mark, trim));
    }
    let onto = made.trim.as_ref().map_or(side, |_| Name::new(bench.next_mark, 0));
    entries.extend(steps::unit(onto, first, made));
    let patches = made
        .unit
        .cells
        .iter()
        .zip(&made.picks)
        .enumerate()
        .map(|(i, (cell, pick))| ProposedPatch {
            mark: Mark(first + if i == 0 { 0 } else { 2 * i as u32 - 1 }),
            cloth: pick.cloth,
            on_cloth: steps::on_cloth(cell, pick),
            lies: cell.cut.to_vec(),
            finished: cell.finished.to_vec(),
            finished_area_in2: cell.area,
        })
        .collect();
    let cloths: Vec<String> = made.picks.iter().map(|pick| pick.cloth.to_string()).collect();
    Proposal {
        key: format!("{side}:{}", cloths.join("+")),
        side: onto,
        asked: side,
        trimmed: made.trim.as_ref().map(|(trim, _)| trim.side),
        entries,
        patches,
        trim: made.trim.as_ref().map(|(trim, _)| trim.area),
        score: made.cost,
        terms: terms(made, wish),
        depth_in: made.unit.shape.depth,
    }
}

fn trim_entry(mark: Mark, trim: &Trim) -> Entry {
    let run = Some(Run { first: mark, kind: RunKind::Trim, ask: None });
    Entry { mark, run, step: trim.step() }
}
