//! What to heed where work can hurt.

use super::{Paper, PaperKind, PapersWish};
use crate::asks::Asked;
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::Block;
use serde_json::json;

/// Usual cautions, by what is in hand (common practice, no source).
const CAUTIONS: [(&str, &str); 6] = [
    (
        "Rotary blade",
        "Cut away from yourself, fingers behind the ruler's edge, and close the blade after every cut. Old blades go \
         into a closed box.",
    ),
    (
        "Iron",
        "Iron and steam burn. Put the iron on its heel or rest, keep its cord out of the way, and switch it off when you \
         leave the board.",
    ),
    (
        "Needle and machine",
        "Keep fingers out of the needle's way; switch the machine off to thread it or to change a needle. Wear glasses \
         when you sew fast: needles break.",
    ),
    (
        "Pins",
        "Never sew over a pin. Count pins in and count them out again; run a magnet over the finished piece.",
    ),
    (
        "Spray and washing",
        "Spray glue needs fresh air and no flame. Wash new cloth that may bleed by itself.",
    ),
    (
        "For children",
        "No buttons, beads or loose ends within a small child's reach, and nothing quilted in the bed of a baby under a \
         year. Ask what your country's rules say of flammability.",
    ),
];

/// What is heeded on a paper that says nothing of it by itself: what is in hand while it lies there.
pub(super) fn of(kind: PaperKind) -> Vec<String> {
    let in_hand: &[usize] = match kind {
        PaperKind::Cutting | PaperKind::Templates => &[BLADE],
        PaperKind::Steps => &[BLADE, IRON, NEEDLE, PINS],
        PaperKind::Foundation => &[NEEDLE, IRON, PINS],
        _ => &[],
    };
    let told = in_hand.iter().filter_map(|at| CAUTIONS.get(*at));
    told.map(|(what, words)| format!("{what}: {words}")).collect()
}

/// Places in the list of cautions.
const BLADE: usize = 0;
const IRON: usize = 1;
const NEEDLE: usize = 2;
const PINS: usize = 3;

pub(super) fn cautions(_: &mut Workroom, _: &Head, _: &PapersWish) -> Asked<Paper> {
    let said = CAUTIONS.map(|(what, words)| format!("{what}: {words}"));
    let facts = json!({ "cautions": said });
    let blocks = vec![
        Block::chapter(PaperKind::Cautions.title()),
        Block::Caution(said.to_vec()),
        Block::body(
            "The manuals of your tools, and the rules where you live, go before anything that stands here.",
        ),
    ];
    Ok(Paper { kind: PaperKind::Cautions, blocks, facts })
}
