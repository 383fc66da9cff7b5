//! What stands before the cards and after them.

use crate::asks::told;
use crate::papers::{Hand, PaperKind, PapersWish};
use papers::flow::Block;
use papers::press::Face;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Entry, Stage, Step};
use quilt::table::Table;
use std::collections::BTreeMap;

/// How the cards are read: once, before them.
pub(super) fn how_to_read(wish: &PapersWish) -> Vec<Block> {
    let (ruler, blade) = match wish.hand {
        Hand::Right => ("left", "right"),
        Hand::Left => ("right", "left"),
    };
    let mut items = vec![
        "The large number is the step. Patches have the number of their line in the log.".to_owned(),
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
            "The scrap is drawn right side up; what is paled is not part of the patch. Letters name its edges, and \
             their arrows say from which end marks are measured: A 2 1/4 is 2 1/4 along A from where its arrow starts."
                .to_owned(),
        );
        items.push(format!(
            "Numbered lines are the ruler's. Lay it over the patch, to the {ruler} of the line, and cut along its \
             {blade} side, away from yourself. Each line is told from the mark where the cut begins."
        ));
        items.push(
            "By eye, or with other cloth: \u{201c}at least 3 1/2 by 2 1/4\u{201d} is 3 1/2 along the edge to sew and \
             2 1/4 square to it, raw. More does no harm: sew it on, then trim."
                .to_owned(),
        );
    }
    items.push(
        "Seams that meet nowhere can be sewn one after the other and pressed together; the cards say which."
            .to_owned(),
    );
    vec![
        Block::chapter(PaperKind::Steps.title()),
        Block::List { face: Face::plain(12.0), counted: false, items },
    ]
}

/// What comes after the top: a line for each decision, told in full on its own paper.
pub(super) fn afterwards(entries: &[Entry], cloths: &BTreeMap<ClothId, Cloth>) -> Vec<Block> {
    let table = Table::new();
    let chosen = entries.iter().filter(|entry| matches!(entry.step, Step::Choose(Stage::Planned(_))));
    let items: Vec<String> = chosen.map(|entry| told(&entry.step, cloths, &table)).collect();
    if items.is_empty() {
        return Vec::new();
    }
    vec![
        Block::section("When the top is sewn"),
        Block::List { face: Face::plain(13.0), counted: true, items },
        Block::body("Each of these has a paper of its own."),
    ]
}
