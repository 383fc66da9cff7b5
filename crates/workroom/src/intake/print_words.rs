//! Words for kinds of print, and what each says of a cloth: how busy it is, and whether it runs
//! one way, both ways or any way. Our own table, from the mind, no source.

use plane::Turn;
use quilt::cloth::Runs;

/// What a word says of a print.
#[derive(Clone, Copy, Debug)]
pub(super) struct Print {
    /// From 0, a solid, to 1.
    pub(super) busy: f64,
    /// Which ways up it may be used. A direction runs along y: that is how a scrap is laid down
    /// to be measured.
    pub(super) runs: Runs,
}

const fn any(busy: f64) -> Print {
    Print { busy, runs: Runs::AnyWay }
}

const fn both(busy: f64) -> Print {
    Print { busy, runs: Runs::BothWays(Turn::QUARTER) }
}

const fn one(busy: f64) -> Print {
    Print { busy, runs: Runs::OneWay(Turn::QUARTER) }
}

const WORDS: &[(&[&str], Print)] = &[
    (&["plain", "solid"], any(0.0)),
    (&["mottled", "blotch", "blotchy", "marbled", "batik"], any(0.25)),
    (&["stripe", "stripes", "striped", "stripy", "ticking"], both(0.5)),
    (&["ripple", "ripples", "wave", "waves"], both(0.5)),
    (&["dot", "dots", "dotted", "spot", "spots", "spotted"], any(0.5)),
    (&["check", "checks", "checked", "gingham", "plaid", "tartan"], any(0.55)),
    (&["leaf", "leaves", "flower", "flowers", "floral", "sprig", "sprigs", "paisley"], any(0.7)),
    (&["bird", "birds", "fish", "house", "houses", "tree", "trees", "letters"], one(0.7)),
];

/// The print that a text names; a word like "one-way" or "directional" gives it a top.
pub(super) fn find(text: &str) -> Option<Print> {
    let lower = text.to_lowercase();
    let spoken: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).collect();
    let named = spoken
        .iter()
        .find_map(|word| WORDS.iter().find(|(words, _)| words.contains(word)).map(|(_, print)| *print));
    if lower.contains("one-way") || lower.contains("one way") || spoken.contains(&"directional") {
        return Some(one(named.map_or(0.5, |print| print.busy)));
    }
    named
}
