//! Why nothing is proposed, as far as it can be told: what was looked at, and what was left out.

use grow::Bend;
use quilt::log::Name;
use workroom::Workroom;
use workroom::asks::Asked;
use workroom::quilts::Head;

/// A sentence or more on why a search came back with nothing.
///
/// # Errors
/// No such quilt.
pub(super) fn nothing_found(
    room: &mut Workroom,
    head: &Head,
    side: Option<Name>,
    bend: &Bend,
) -> Asked<String> {
    let there = room.stash()?.present().len();
    if there == 0 {
        return Ok("The heap is empty: put scraps in first.".to_owned());
    }
    let spared = room.wish(&head.quilt)?.spare.len();
    let refused = room.refusals(&head.quilt)?.len();
    let place = side.map_or_else(|| "on the sides that are due".to_owned(), |side| format!("on side {side}"));
    let mut words = if *bend == Bend::default() {
        format!(
            "Of the {} in the heap none has free room left for a piece {place} that can be sewn there and keeps the wish's limits.",
            counted(there, "cloth")
        )
    } else {
        format!("Nothing {place} can be bent to that. Try another depth or cloth, or fewer pieces.")
    };
    if spared > 0 {
        words += &format!(" The wish spares {}.", counted(spared, "cloth"));
    }
    if refused > 0 {
        words += &format!(" {} waved away and not proposed again.", was(refused));
    }
    Ok(words)
}

fn counted(count: usize, what: &str) -> String {
    if count == 1 { format!("one {what}") } else { format!("{count} {what}s") }
}

fn was(count: usize) -> String {
    if count == 1 { "One proposal was".to_owned() } else { format!("{count} proposals were") }
}
