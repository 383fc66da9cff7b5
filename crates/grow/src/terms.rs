//! A move's score, term by term, in plain words. The terms add up to the score.

use crate::moves::Move;
use crate::split::Cell;
use crate::weights as w;
use quilt::wish::Wish;

/// One term of a score: what it adds is `value × weight`; 0 is best.
#[derive(Clone, Debug, PartialEq)]
pub struct Term {
    /// Its name.
    pub name: &'static str,
    /// What it says of this move.
    pub words: String,
    /// The value, 0 (good) to about 1; below 0 for what is better than good, a spark or cloth asked for.
    pub value: f64,
    /// The weight, the maker's own included.
    pub weight: f64,
}

/// All terms of a move.
pub(crate) fn terms(made: &Move, wish: &Wish) -> Vec<Term> {
    let shape = &made.unit.shape.parts;
    let cells = &made.unit.cells;
    let total: f64 = cells.iter().map(|c| c.area).sum();
    let count = cells.len() as f64;
    let over_cells = |part: &dyn Fn(&Cell) -> f64| -> f64 {
        cells.iter().map(|c| part(c) * f64::midpoint(c.area / total, 1.0 / count)).sum()
    };
    let over_picks = |part: &dyn Fn(usize) -> f64| -> f64 {
        cells.iter().enumerate().map(|(i, c)| part(i) * c.area / total).sum()
    };
    let mine = &wish.weights;
    let trimmed = made.trim.as_ref().map_or(0.0, |(trim, _)| trim.area);
    let look = |i: usize| made.picks[i].look;
    let say = |name, value: f64, weight: f64, good: &str, fair: &str, poor: &str| {
        let words = if value < 0.15 {
            good
        } else if value < 0.6 {
            fair
        } else {
            poor
        };
        Term { name, words: words.to_owned(), value, weight }
    };
    let mut terms = vec![
        say(
            "round",
            shape.round,
            w::ROUND * mine.round,
            "the outline stays even",
            "the outline gets a little uneven",
            "the outline gets uneven",
        ),
        say(
            "goes on",
            shape.growable,
            w::GROWABLE,
            "every side can be sewn on afterwards",
            "one side gets short",
            "a side gets too short to sew on well",
        ),
        say(
            "in step",
            shape.pace,
            w::PACE * mine.round,
            "no side runs ahead",
            "this side gets a little ahead",
            "this side runs ahead",
        ),
        say(
            "directions",
            shape.directions,
            w::DIRECTIONS,
            "the seam runs a new way",
            "the seam runs a common way",
            "many seams run this way already",
        ),
        say(
            "lines",
            shape.line,
            w::LINE,
            "no long straight line",
            "a longish straight line",
            "a long straight line inside",
        ),
        say(
            "joins",
            made.unit.stacked,
            w::STACKED,
            "joins apart from older joins",
            "a join near an older join",
            "a join on an older join: thick",
        ),
        say(
            "chunky",
            over_cells(&|c| c.parts.bar),
            w::BAR * mine.chunky,
            "chunky",
            "a little long",
            "long and thin",
        ),
        say(
            "wedge",
            over_cells(&|c| c.parts.strip),
            w::STRIP * mine.chunky,
            "a wedge",
            "nearly a strip",
            "a strip",
        ),
        say(
            "size",
            over_cells(&|c| c.parts.step),
            w::STEP * mine.step,
            "the size wished for here",
            "near the size wished for here",
            "off the size wished for here",
        ),
        say(
            "drift",
            over_picks(&|i| look(i).drift),
            w::DRIFT * mine.drift,
            "on the way of the colours",
            "near the way of the colours",
            "off the way of the colours",
        ),
        say(
            "contrast",
            over_picks(&|i| look(i).contrast),
            w::CONTRAST * mine.contrast,
            "the edges read",
            "one edge is faint",
            "the edges hardly read",
        ),
        say(
            "side by side",
            made.beside,
            w::BESIDE * mine.contrast,
            "its scraps stand apart",
            "two scraps are alike",
            "the scraps run together",
        ),
        say(
            "rest",
            over_picks(&|i| look(i).rest),
            w::REST * mine.rest,
            "the print has rested",
            "the print comes again soon",
            "the print comes again close by",
        ),
        say(
            "balance",
            over_picks(&|i| look(i).balance),
            w::BALANCE * mine.balance,
            "keeps the balance",
            "tips the balance a little",
            "tips the balance",
        ),
        say(
            "quiet",
            over_picks(&|i| look(i).loud),
            w::LOUD * mine.drift,
            "sits with its neighbours",
            "stands out a little",
            "stands out",
        ),
        say(
            "scrap",
            over_picks(&|i| made.picks[i].left),
            w::LEFTOVER * mine.leftover,
            "uses a scrap up",
            "leaves some of its scrap",
            "cuts into a large scrap",
        ),
        Term {
            name: "trimmed first",
            words: if made.trim.is_some() { "trimmed first" } else { "nothing trimmed first" }.to_owned(),
            value: trimmed / 4.0,
            weight: w::THRIFT * mine.thrift,
        },
    ];
    if made.asked != 0.0 {
        let words = "cloth that you want used".to_owned();
        terms.push(Term { name: "asked for", words, value: -made.asked, weight: 1.0 });
    }
    terms
}
