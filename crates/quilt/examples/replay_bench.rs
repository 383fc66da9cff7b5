//! How long replay takes: a log of 2,000 steps from its stored bytes to the table.
//!
//! `cargo run -p quilt --example replay_bench`; a number behind `--` sets the count of steps. Prints
//! the least (what an idle machine needs), the median and the 95th percentile in milliseconds, of
//! each part and of the whole. Two logs: log-cabin fashion, with long sides and many neighbours
//! along each seam; and patches on sides drawn by chance, as a maker might.

use plane::{Point, Pose, Turn};
use quilt::cloth::ClothId;
use quilt::log::{Along, Entry, Keep, Mark, Name, Press, Sewing, Step, StepId};
use quilt::table::{Table, replay, replay_bytes};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 41;

fn main() -> Result<(), String> {
    let steps = std::env::args().nth(1).map_or(Ok(2_000), |text| text.parse());
    let steps = steps.map_err(|e| format!("the count of steps: {e}"))?;
    measure("log-cabin fashion", &cabin(steps)?)?;
    measure("sides by chance, with trims", &by_chance(steps)?)
}

fn measure(what: &str, log: &[Entry]) -> Result<(), String> {
    let bytes: Vec<Vec<u8>> = log.iter().map(Entry::to_bytes).collect();
    let tip = bytes.iter().fold(None, |id, b| Some(StepId::of(id, b))).ok_or("an empty log")?;
    let (table, halt) = replay_bytes(&bytes, tip)?;
    if let Some(halt) = halt {
        return Err(format!("{what}: stopped at step {}: {}", halt.mark, halt.problem));
    }
    let faces = table.piece().map_or(0, |(_, top)| top.faces().len());
    let seams = table.piece().map_or(0, |(_, top)| top.seams().len());
    println!("{what}: {} steps, {faces} patches, {seams} seams", log.len());
    time("read the bytes", || {
        black_box(bytes.iter().filter_map(|b| Entry::from_bytes(b).ok()).count());
    });
    time("hash them to the tip", || {
        black_box(bytes.iter().fold(None, |id, b| Some(StepId::of(id, b))));
    });
    time("apply the entries", || {
        black_box(replay(log));
    });
    time("replay from bytes", || {
        black_box(replay_bytes(&bytes, tip).is_ok());
    });
    Ok(())
}

fn time(what: &str, mut work: impl FnMut()) {
    work();
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let begun = Instant::now();
            work();
            begun.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize];
    println!(
        "  {what}: least {:.2} ms, median {:.2} ms, 95th percentile {:.2} ms",
        at(0.0),
        at(0.5),
        at(0.95)
    );
}

/// A table and the log that led to it.
#[derive(Default)]
struct Hand {
    table: Table,
    log: Vec<Entry>,
    marks: u32,
}

impl Hand {
    /// Applies a step and keeps it; one that is refused leaves no trace.
    fn step(&mut self, step: Step) -> Result<Mark, quilt::Problem> {
        let mark = Mark(self.marks + 1);
        self.table.apply(mark, &step)?;
        self.marks += 1;
        self.log.push(Entry { mark, run: None, step });
        Ok(mark)
    }

    fn lay(&mut self, corners: &[(f64, f64)]) -> Result<Mark, quilt::Problem> {
        let cut = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
        self.step(Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut })
    }

    fn sew(&mut self, onto: Name, with: Mark) -> Result<Mark, quilt::Problem> {
        self.step(Step::Sew(Sewing::Join {
            onto,
            with: Name::new(with, 0),
            slide_in: 0.0,
            allowance_in: 0.25,
            stop: None,
            flush: [true; 2],
            press: Press::Over,
        }))
    }
}

/// Round and round a square: each patch as long as the side it is sewn to.
fn cabin(steps: usize) -> Result<Vec<Entry>, String> {
    let said = |problem: quilt::Problem| problem.to_string();
    let mut hand = Hand::default();
    let square = hand.lay(&[(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]).map_err(said)?;
    let mut sides: [Name; 4] = std::array::from_fn(|no| Name::new(square, no as u16));
    let mut turn = 0;
    while hand.log.len() + 1 < steps {
        let side = sides[turn % 4];
        let length = hand.length_of(side).ok_or("a side is gone")?;
        let bar = hand.lay(&[(0.0, 0.0), (length, 0.0), (length, 1.0), (0.0, 1.0)]).map_err(said)?;
        hand.sew(side, bar).map_err(said)?;
        sides[turn % 4] = Name::new(bar, 2);
        turn += 1;
    }
    Ok(hand.log)
}

/// Leaning patches on sides drawn by chance, and a corner trimmed off now and then.
fn by_chance(steps: usize) -> Result<Vec<Entry>, String> {
    let mut chance = Chance(1);
    let mut hand = Hand::default();
    let first = [(0.0, 0.0), (3.0, 0.2), (3.6, 2.4), (1.4, 4.0), (-0.7, 2.2)];
    hand.lay(&first).map_err(|problem| problem.to_string())?;
    for _ in 0..steps * 20 {
        if hand.log.len() + 1 >= steps {
            return Ok(hand.log);
        }
        if chance.between(0.0, 1.0) < 0.2 { hand.trim(&mut chance) } else { hand.add(&mut chance) }
    }
    Err(format!("stuck after {} steps", hand.log.len()))
}

impl Hand {
    fn length_of(&self, side: Name) -> Option<f64> {
        let top = self.table.top(self.table.top_with_side(side)?)?;
        top.sides().iter().find(|s| s.name() == Some(side)).map(quilt::table::Side::length_in)
    }

    /// A free side of the piece and its length.
    fn side_by(&self, chance: &mut Chance) -> Option<(Mark, Name, f64)> {
        let (mark, top) = self.table.piece()?;
        let sides = top.sides();
        let side = sides.get(chance.next() as usize % sides.len().max(1))?;
        Some((mark, side.name()?, side.length_in()))
    }

    /// Lays a patch and sews it on; both are forgotten if the seam is refused.
    fn add(&mut self, chance: &mut Chance) {
        let Some((_, side, raw)) = self.side_by(chance) else { return };
        let (length, lean) = (raw + 2.5, chance.between(0.0, raw * 0.3));
        let (left, right) = (chance.between(1.1, 2.4), chance.between(1.1, 2.4));
        let before = (self.table.clone(), self.log.len(), self.marks);
        let corners = [(0.0, 0.0), (length, 0.0), (length - lean, left), (lean * 0.5, right)];
        let sewn = self.lay(&corners).and_then(|patch| self.sew(side, patch));
        if sewn.is_err() {
            self.table = before.0;
            self.log.truncate(before.1);
            self.marks = before.2;
        }
    }

    /// Caps the corner at the end of a side, square to its bisector, if it is sharp enough.
    fn trim(&mut self, chance: &mut Chance) {
        let Some((top, side, raw)) = self.side_by(chance) else { return };
        let Some(turn) = self.half_turn_after(top, side) else { return };
        let at_in = raw - chance.between(0.2, 1.0).min(raw / 4.0);
        let along = Along::From { side, at_in, turn };
        // A trim that is refused leaves the table as it was: nothing more to do.
        let _refused = self.step(Step::Cut { top, along, keep: Keep::Left });
    }

    /// Half the turn at a side's end; `None` where it is under 40 degrees.
    fn half_turn_after(&self, top: Mark, side: Name) -> Option<Turn> {
        let sides = self.table.top(top)?.sides();
        let at = sides.iter().position(|s| s.name() == Some(side))?;
        let (this, next) = (sides[at], sides[(at + 1) % sides.len()]);
        let (u, v) = (Turn::towards(this.to - this.from)?, Turn::towards(next.to - next.from)?);
        let whole = u.inverse().then(v);
        let half = Turn::towards(whole.vec() + Turn::NONE.vec())?;
        (whole.cos < 40.0_f64.to_radians().cos()).then_some(half)
    }
}

/// A small generator (SplitMix64): the same log on every run.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn between(&mut self, lo: f64, hi: f64) -> f64 {
        lo + (hi - lo) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }
}
