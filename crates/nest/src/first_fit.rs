//! The plain way, to be measured against: pieces by area, each into the first cloth that has room.

use crate::ask::{Answer, Ask};
use crate::problem::NestProblem;
use crate::state::State;

/// First fit by area: the largest piece first, each into the first of the cloths in the order asked that has room,
/// at the same turns and by the same collisions as [`crate::nest`].
///
/// # Errors
/// As [`crate::nest`].
pub fn first_fit(ask: &Ask) -> Result<Answer, NestProblem> {
    let mut state = State::new(ask)?;
    let all: Vec<usize> = (0..ask.pieces.len()).collect();
    for piece in state.by_area(&all, 0.0) {
        state.put_first(piece);
    }
    Ok(state.answer())
}

impl State<'_> {
    /// Puts a piece into the first of its cloths that has room.
    pub(crate) fn put_first(&mut self, piece: usize) {
        let mut sources: Vec<_> = self.ask.pieces[piece].from.iter().collect();
        sources.sort_by_key(|source| source.cloth);
        let places = sources.into_iter().flat_map(|source| {
            self.grounds_of[source.cloth].clone().into_iter().map(move |ground| (source, ground))
        });
        let places: Vec<_> = places.collect();
        let found = places.into_iter().find_map(|(source, ground)| self.find(piece, source, ground));
        if let Some(at) = found {
            self.put(piece, at);
        }
    }
}
