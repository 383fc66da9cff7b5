//! Words that are longer than their room: what has no room is left out, and three dots say so.

use super::letters::{Face, Laid, Letters};

impl Letters {
    /// Words on one line no wider than its room.
    #[must_use]
    pub fn on_one_line(&self, words: &str, face: Face, room_in: f64) -> Laid {
        let words = words.replace('\n', " ");
        let set = |words: &str| self.set(words, face, Some(f64::from(f32::MAX)));
        let laid = shortened(&words, set, |laid| laid.width_in <= room_in);
        // Set in its own room, it stands at the side that its type says.
        self.set(&laid.text, face, Some(room_in.max(laid.width_in + 0.01)))
    }

    /// Words on lines no wider than their room, all of them no higher than so many inches.
    #[must_use]
    pub fn set_within(&self, words: &str, face: Face, room_in: f64, high_in: f64) -> Laid {
        shortened(words, |words| self.set(words, face, Some(room_in)), |laid| laid.height_in <= high_in)
    }
}

/// The words as they are, or as many of their letters as fit with dots behind them.
fn shortened(words: &str, set: impl Fn(&str) -> Laid, fits: impl Fn(&Laid) -> bool) -> Laid {
    let whole = set(words);
    if fits(&whole) {
        return whole;
    }
    let ends: Vec<usize> = words.char_indices().map(|(at, _)| at).collect();
    let (mut kept, mut over) = (0, ends.len());
    let cut = |letters: usize| {
        let part = ends.get(letters).and_then(|end| words.get(..*end)).unwrap_or(words);
        set(&format!("{}…", part.trim_end()))
    };
    while over - kept > 1 {
        let middle = usize::midpoint(kept, over);
        if fits(&cut(middle)) {
            kept = middle;
        } else {
            over = middle;
        }
    }
    cut(kept)
}
