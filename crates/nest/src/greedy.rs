//! Pieces put where they fit, one after the other.

use crate::ask::Price;
use crate::state::State;

impl State<'_> {
    /// Pieces by area, the largest first; `noise` shuffles them, 0 not at all.
    pub(crate) fn by_area(&mut self, pieces: &[usize], noise: f64) -> Vec<usize> {
        let mut keyed: Vec<(f64, usize)> = Vec::with_capacity(pieces.len());
        for &piece in pieces {
            let factor = 1.0 + noise * (2.0 * self.chance.share() - 1.0);
            keyed.push((self.shape(piece).area * factor, piece));
        }
        keyed.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        keyed.into_iter().map(|(_, piece)| piece).collect()
    }

    /// Puts a piece where it is best liked and costs least: into opened cloth before new, and there where least is
    /// free. `barred` are cloths that are not used; `noise` mixes the order.
    pub(crate) fn put_best(&mut self, piece: usize, barred: &[usize], noise: f64) -> bool {
        let ask = self.ask;
        let mut places: Vec<(f64, usize, usize)> = Vec::new();
        for (s, source) in ask.pieces[piece].from.iter().enumerate() {
            if barred.contains(&source.cloth) {
                continue;
            }
            let opening = match ask.cloths[source.cloth].price {
                Price::Whole(cost) if !self.is_opened(source.cloth) => cost,
                Price::Whole(_) => 0.0,
                Price::ByLength(each) => each * self.shape(piece).reach,
            };
            for &ground in &self.grounds_of[source.cloth] {
                let there = &self.grounds[ground];
                let tight = 1e-3 * self.all_cost * (there.area - there.filled) / (1.0 + there.area);
                places.push((source.dislike + opening + tight, s, ground));
            }
        }
        for place in &mut places {
            place.0 *= 1.0 + noise * self.chance.share();
        }
        places.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.2.cmp(&b.2)));
        for (_, s, ground) in places {
            if let Some(at) = self.find(piece, &ask.pieces[piece].from[s], ground) {
                self.put(piece, at);
                return true;
            }
        }
        false
    }
}
