//! What stands before the cards and after them.

use crate::asks::decided;
use crate::papers::{Hand, PaperKind, PapersWish};
use papers::flow::Block;
use papers::press::Face;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Entry, Stage, Step};
use std::collections::BTreeMap;

/// How the cards are read: once, before them.
pub(super) fn how_to_read(
    wish: &PapersWish,
    usual_seam_in: f64,
    flaws: bool,
    refused: Option<&str>,
) -> Vec<Block> {
    let (ruler, blade) = match wish.hand {
        Hand::Right => ("left", "right"),
        Hand::Left => ("right", "left"),
    };
    let length = |inches: f64| wish.length(inches, 8);
    let unit = wish.unit();
    let mut items = vec![
        format!(
            "The large number is the step. Lengths are in {unit}, raw, with the seams still to be sewn in them; seams \
             are {} deep unless a card says otherwise.",
            length(usual_seam_in)
        ),
        "The piece is drawn as it lies before the step, with the edge to sew in red. Lay yours the same way round. \
         Lengths along an edge of the piece are measured from its right end, seen from the middle of the piece."
            .to_owned(),
    ];
    if wish.by_template {
        items.push(
            "Patches are cut by their templates: the template on the right side of the cloth, its printed side up."
                .to_owned(),
        );
    } else {
        items.push(
            "A scrap is drawn right side up; what is paled is not part of the patch. The red edge of the patch is the \
             one by which it is first sewn."
                .to_owned(),
        );
        if wish.small_cards {
            items.push(format!(
                "With a scrap stand the patch, the cloth with its number in the stash, and its size: at least {} by {} \
                 is {} along the red edge and {} square to it. Cut each patch at least as large as said; then trim as \
                 sewn. To cut by ruler, take the large cards, which have every mark.",
                length(3.5),
                length(2.25),
                length(3.5),
                length(2.25)
            ));
        } else {
            items.push(format!(
                "Lines with numbers are the ruler\u{2019}s, and cut in that order. Make all marks along the edges before \
                 the first cut: it may take off the cloth that a later mark lies on. Lay the ruler over the patch, to \
                 the {ruler} of the line, and cut along its {blade} side, away from yourself, the way the arrow points."
            ));
            items.push(format!(
                "Where a line meets the scrap's edge stands how far along that edge: measure from the end where the \
                 small arrow starts. Where no figure stands the line begins or ends at the corner itself. A letter \
                 names the edge: A {} is {} along A.",
                length(2.25),
                length(2.25)
            ));
            items.push(format!(
                "By eye, or with other cloth: \u{201c}at least {} by {}\u{201d} is {} along the edge to sew and {} \
                 square to it. More does no harm: sew it on, then trim.",
                length(3.5),
                length(2.25),
                length(3.5),
                length(2.25)
            ));
        }
        if flaws {
            items.push(
                "A pale place on a scrap with a thin red line round it is a flaw of the cloth: patches keep clear of it."
                    .to_owned(),
            );
        }
    }
    items.push(
        "Right sides together, red edge on red edge, middle on middle; a unit is patches sewn together before they are \
         sewn on, and its red edge is the one that goes to the piece."
            .to_owned(),
    );
    items.push(
        "Press over: the seam towards what you have just sewn on. Trim ends: what sticks out beside it, in line with \
         the edges there. Seams that meet nowhere are sewn one after the other and pressed together; the \
         last of these cards says how."
            .to_owned(),
    );
    let mut blocks = vec![Block::chapter(PaperKind::Steps.title())];
    blocks.extend(refused.map(|why| Block::set(Face::bold(12.0), why)));
    blocks.push(Block::List { face: Face::plain(12.0), counted: false, items });
    blocks
}

/// What comes after the top: a line for each decision, told in full on its own paper.
pub(super) fn afterwards(
    entries: &[Entry],
    cloths: &BTreeMap<ClothId, Cloth>,
    wish: &PapersWish,
) -> Vec<Block> {
    let chosen = entries.iter().filter_map(|entry| match &entry.step {
        Step::Choose(Stage::Planned(chosen)) => Some(decided(chosen, cloths, wish.unit())),
        _ => None,
    });
    let items: Vec<String> = chosen.collect();
    if items.is_empty() {
        return Vec::new();
    }
    vec![Block::Together(vec![
        Block::section("When the top is sewn"),
        Block::List { face: Face::plain(if wish.small_cards { 11.0 } else { 13.0 }), counted: true, items },
        Block::body("Each of these has a paper of its own."),
    ])]
}
