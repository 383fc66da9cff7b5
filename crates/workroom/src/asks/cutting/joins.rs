//! Strips that find no place whole: they are cut in bits, as few as will do, and joined.

use super::wanted::Wanted;
use crate::asks::error::Asked;
use nest::{Answer, LeftOver, Placed};
use plane::{Region, polygon};
use quilt::stage::binding::LEAST_STRIP_IN;
use quilt::sums::Join;
use serde::Serialize;

/// In so many bits a strip is cut at most: more is no strip but patchwork (common practice, no source).
const MOST_BITS: usize = 6;

/// How a strip may be joined of bits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Joinable {
    pub(super) join: Join,
    /// What each join takes, in inches.
    pub(super) loss_in: f64,
}

/// A strip that is cut in bits.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct JoinedStrip {
    /// Which.
    pub name: String,
    /// In how many bits it is cut, all of one length.
    pub bits: usize,
    /// How long each is cut, in inches.
    pub bit_in: f64,
    /// What each join takes of the length, in inches.
    pub loss_in: f64,
    /// How they are joined.
    pub join: Join,
}

impl JoinedStrip {
    /// It in a sentence; `length` writes a length.
    #[must_use]
    pub fn words(&self, length: &dyn Fn(f64) -> String) -> String {
        let Self { name, bits, bit_in, loss_in, join } = self;
        let how = match join {
            Join::Straight => "straight",
            Join::Diagonal => "on the diagonal",
        };
        format!(
            "No cloth has room for the whole of {name}: it is cut in {bits} bits of {} and joined {how}; each join takes {}.",
            length(*bit_in),
            length(*loss_in)
        )
    }
}

/// Pieces as they are laid, with the answer.
pub(super) struct LaidBits {
    pub(super) pieces: Vec<Wanted>,
    pub(super) answer: Answer,
    pub(super) joined: Vec<JoinedStrip>,
    /// What has no place, whole, and why.
    pub(super) left: Vec<(Wanted, Option<(usize, f64)>)>,
}

/// Finds places for pieces that may have some already; whether it is the first time is told.
type Lay<'a> = dyn FnMut(&[Wanted], &[Placed], bool) -> Asked<Answer> + 'a;

/// Lays pieces by `lay`, which is given them, the places that they have already, and whether that is the first time.
/// Strips without a place are cut in more and more bits.
pub(super) fn laid(whole: &[&Wanted], places: &[Placed], lay: &mut Lay<'_>) -> Asked<LaidBits> {
    let mut counts = vec![1; whole.len()];
    let mut of: Vec<usize> = (0..whole.len()).collect();
    let mut pieces: Vec<Wanted> = whole.iter().map(|&piece| piece.clone()).collect();
    let mut answer = lay(&pieces, places, true)?;
    let first: Vec<LeftOver> = answer.left_over.clone();
    loop {
        let mut again: Vec<usize> = answer.left_over.iter().map(|left| of[left.piece]).collect();
        again.dedup();
        again.retain(|&strip| in_bits(whole[strip], counts[strip] + 1).is_some());
        if again.is_empty() {
            break;
        }
        let held: Vec<(usize, Placed)> = kept_by(&answer, &of, |strip| !again.contains(&strip));
        for &strip in &again {
            counts[strip] += 1;
        }
        (pieces, of) = (Vec::new(), Vec::new());
        let mut begun = Vec::new();
        for (strip, &piece) in whole.iter().enumerate() {
            let from = pieces.len();
            pieces.extend(in_bits(piece, counts[strip]).unwrap_or_else(|| vec![piece.clone()]));
            of.resize(pieces.len(), strip);
            let own = held.iter().filter(|(held, _)| *held == strip).enumerate();
            begun.extend(own.map(|(i, (_, at))| Placed { piece: from + i, ..*at }));
        }
        answer = lay(&pieces, &begun, false)?;
    }
    let lost: Vec<usize> = answer.left_over.iter().map(|left| of[left.piece]).collect();
    answer.placed.retain(|at| !lost.contains(&of[at.piece]));
    let split = (0..whole.len()).filter(|strip| counts[*strip] > 1 && !lost.contains(strip));
    let joined = split.filter_map(|strip| joined(whole[strip], counts[strip])).collect();
    let why = |strip: usize| first.iter().find(|left| left.piece == strip).and_then(|left| left.too_large);
    let left = (0..whole.len()).filter(|strip| lost.contains(strip));
    let left = left.map(|strip| (whole[strip].clone(), why(strip))).collect();
    Ok(LaidBits { pieces, answer, joined, left })
}

/// What is placed of some strips, by strip and then by bit.
fn kept_by(answer: &Answer, of: &[usize], keep: impl Fn(usize) -> bool) -> Vec<(usize, Placed)> {
    answer.placed.iter().map(|at| (of[at.piece], *at)).filter(|(strip, _)| keep(*strip)).collect()
}

/// A strip in so many bits; `None` when it may not be, or they would be too short.
fn in_bits(piece: &Wanted, count: usize) -> Option<Vec<Wanted>> {
    let strip = joined(piece, count)?;
    let (low, high) = polygon::bounds(&piece.outline)?;
    let bit = |i: usize| Wanted {
        name: format!("{}, bit {} of {count}", piece.name, i + 1),
        outline: Region::rectangle(strip.bit_in, high.y - low.y).outer,
        ..piece.clone()
    };
    Some((0..count).map(bit).collect())
}

/// What a strip in so many bits comes to.
fn joined(piece: &Wanted, bits: usize) -> Option<JoinedStrip> {
    let Joinable { join, loss_in } = piece.joinable?;
    let (low, high) = polygon::bounds(&piece.outline)?;
    let joins = bits.saturating_sub(1) as f64;
    let bit_in = (high.x - low.x + joins * loss_in) / bits as f64;
    let is_worth_it = (2..=MOST_BITS).contains(&bits) && bit_in >= LEAST_STRIP_IN.max(2.0 * loss_in);
    is_worth_it.then(|| JoinedStrip { name: piece.name.clone(), bits, bit_in, loss_in, join })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::asks::cutting::wanted::{Lies, Of};

    fn strip(long: f64) -> Wanted {
        Wanted {
            name: "binding strip".to_owned(),
            mark: None,
            outline: Region::rectangle(long, 2.25).outer,
            of: Of::Any,
            lies: Lies::Straight,
            laid: None,
            joinable: Some(Joinable { join: Join::Diagonal, loss_in: 2.25 }),
        }
    }

    #[test]
    fn bits_joined_are_as_long_as_the_strip() {
        for count in 2..=4 {
            let bits = in_bits(&strip(40.0), count).unwrap();
            let long: f64 = bits.iter().map(|bit| polygon::bounds(&bit.outline).unwrap().1.x).sum();
            assert!((long - 2.25 * (count - 1) as f64 - 40.0).abs() < 1e-9, "{count} bits");
        }
        assert_eq!(in_bits(&strip(9.0), 2), None, "bits of 5 5/8 are too short to be worth a join");
        assert_eq!(in_bits(&Wanted { joinable: None, ..strip(40.0) }, 2), None);
    }

    #[test]
    fn only_what_has_no_place_is_cut_in_bits_and_keeps_its_name_when_that_is_in_vain() {
        let (long, short) = (strip(40.0), Wanted { name: "short".to_owned(), ..strip(10.0) });
        let longest = |most: f64| {
            move |pieces: &[Wanted], begun: &[Placed], _: bool| {
                let fits =
                    |piece: &Wanted| polygon::bounds(&piece.outline).is_some_and(|(_, to)| to.x <= most);
                let mut answer = Answer::default();
                for (piece, wanted) in pieces.iter().enumerate() {
                    if fits(wanted) {
                        let at = plane::Pose::STAY;
                        answer.placed.push(Placed { piece, cloth: 0, part: 0, at });
                    } else {
                        answer.left_over.push(LeftOver { piece, too_large: Some((0, 1.0)) });
                    }
                }
                assert!(begun.iter().all(|at| fits(&pieces[at.piece])), "what lies keeps its piece");
                Ok(answer)
            }
        };
        let done = laid(&[&long, &short], &[], &mut longest(15.0)).unwrap();
        assert_eq!((done.pieces.len(), done.joined.len(), done.left.len()), (4, 1, 0));
        let one = &done.joined[0];
        assert_eq!((one.bits, one.bit_in), (3, (40.0 + 4.5) / 3.0));
        assert_eq!(
            one.words(&|inches| quilt::length::fraction(inches, 8)),
            "No cloth has room for the whole of binding strip: it is cut in 3 bits of 14 7/8 and joined on the diagonal; \
             each join takes 2 1/4."
        );
        let vain = laid(&[&long, &short], &[], &mut longest(5.0)).unwrap();
        assert_eq!((vain.joined.len(), vain.answer.placed.len()), (0, 0));
        let names: Vec<&str> = vain.left.iter().map(|(piece, _)| piece.name.as_str()).collect();
        assert_eq!(names, ["binding strip", "short"]);
        assert_eq!(vain.left[0].1, Some((0, 1.0)), "why the whole strip had none");
    }
}
