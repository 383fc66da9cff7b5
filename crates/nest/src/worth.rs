//! What a state is worth, and what is answered of it.

use crate::ask::{Answer, Placed, Price};
use crate::state::State;
use plane::Pose;

impl State<'_> {
    /// What a state costs; less is better. A piece without a place costs more than all cloth, and one that came with a
    /// place more than all others.
    pub(crate) fn cost(&self) -> f64 {
        let left = (0..self.at.len()).filter(|&piece| self.at[piece].is_none());
        let lost = |piece: usize| if self.must[piece] { self.at.len() as f64 } else { 1.0 };
        let mut cost: f64 =
            left.map(|piece| self.all_cost * lost(piece) * (1.0 + self.shape(piece).area / self.area)).sum();
        for (cloth, one) in self.ask.cloths.iter().enumerate().filter(|(cloth, _)| self.is_opened(*cloth)) {
            let own = self.grounds_of[cloth].iter().filter(|&&ground| !self.grounds[ground].on.is_empty());
            match one.price {
                Price::ByLength(each) => {
                    cost += each * own.map(|&ground| self.far(ground)).fold(0.0, f64::max);
                }
                Price::Whole(whole) => {
                    cost += whole;
                    for &ground in own {
                        let there = &self.grounds[ground];
                        let (full, deep) = (there.filled / there.area, self.far(ground) / there.frame.long());
                        cost += whole * (0.02 * deep - 0.1 * full * full);
                    }
                }
            }
        }
        cost + self.dislikes()
    }

    fn dislikes(&self) -> f64 {
        let placed = self.at.iter().enumerate().filter_map(|(piece, at)| Some((piece, (*at)?)));
        placed
            .filter_map(|(piece, at)| Some(self.source(piece, self.grounds[at.ground].cloth)?.dislike))
            .sum()
    }

    /// What is answered, what isn't found sound taken out.
    pub(crate) fn answer(mut self) -> Answer {
        loop {
            let answer = self.told();
            let faults = crate::faults::faults(self.ask, &answer);
            if faults.is_empty() {
                return Answer { left_over: self.left_over(), ..answer };
            }
            for fault in faults {
                self.take(fault.piece());
            }
        }
    }

    fn told(&self) -> Answer {
        let placed = self.at.iter().enumerate().filter_map(|(piece, at)| {
            let at = (*at)?;
            let ground = &self.grounds[at.ground];
            let pose = Pose { turn: at.turn, by: at.by - at.turn.apply(self.shape(piece).middle) };
            Some(Placed { piece, cloth: ground.cloth, part: ground.part, at: pose })
        });
        let placed: Vec<Placed> = placed.collect();
        let opened = self.ask.cloths.iter().enumerate().filter(|(cloth, _)| self.is_opened(*cloth));
        let cost = opened.map(|(cloth, one)| match one.price {
            Price::Whole(whole) => whole,
            Price::ByLength(each) => {
                each * self.grounds_of[cloth].iter().map(|&ground| self.far(ground)).fold(0.0, f64::max)
            }
        });
        Answer { cost: cost.sum(), placed, left_over: Vec::new() }
    }
}
