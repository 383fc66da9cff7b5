//! A border as steps of the log.
//!
//! Each strip's bits are laid and joined end to end before it is sewn on; a mitred border is sewn in
//! one step when all its strips lie ready. A first seam left open is closed after the last strip,
//! and trims come at the end.

use super::super::cutting::{CutStrip, Cutting};
use super::super::piece::Piece;
use super::super::strips::{Lines, Order, Strip};
use super::super::trim::Paper;
use super::BorderPlan;
use crate::cloth::ClothId;
use crate::log::{End, FrameStrip, Mark, Name, Press, Sewing, Step};

/// Steps with the marks that they will have.
pub(in super::super) struct Made {
    pub(in super::super) steps: Vec<Step>,
    first: Mark,
}

impl Made {
    pub(in super::super) const fn new(first: Mark) -> Self {
        Self { steps: Vec::new(), first }
    }

    pub(in super::super) fn next(&self) -> Mark {
        Mark(self.first.0 + self.steps.len() as u32)
    }

    pub(in super::super) fn add(&mut self, step: Step) -> Mark {
        let mark = self.next();
        self.steps.push(step);
        mark
    }

    /// A plain seam, pressed over.
    pub(in super::super) fn join(&mut self, join: Seam) -> Mark {
        let Seam { onto, with, slide_in, stop, allowance_in } = join;
        let (flush, press) = ([stop.is_none(), true], Press::Over);
        self.add(Step::Sew(Sewing::Join { onto, with, slide_in, allowance_in, stop, flush, press }))
    }

    /// Sews a strip whose bits lie ready onto its side.
    fn sew_on(&mut self, strip: &Strip, onto: Name, bit: Mark, slide_in: f64, allowance_in: f64) -> Mark {
        let stop = strip.open_in.map(|open| (End::Start, open));
        self.join(Seam { onto, with: Name::new(bit, 0), slide_in, stop, allowance_in })
    }
}

/// A seam to be sewn.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Seam {
    pub(in super::super) onto: Name,
    pub(in super::super) with: Name,
    pub(in super::super) slide_in: f64,
    pub(in super::super) stop: Option<(End, f64)>,
    pub(in super::super) allowance_in: f64,
}

pub(super) fn steps(
    plan: &BorderPlan,
    piece: &Piece,
    cutting: &Cutting,
    cloth: ClothId,
    first: Mark,
) -> Vec<Step> {
    let mut made = Made::new(first);
    let outer = sew_round(&mut made, plan, piece, &mut |made, i| {
        bits(made, &cutting.strips[i], plan.strips[i].slide_in, cloth, plan.allowance_in)
    });
    trims(&mut made, plan, piece, &outer);
    made.steps
}

/// A strip that lies ready: its long sides bear the name of its first bit; the end that comes to lie
/// at the start of its side has a name of its own.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Ready {
    pub(in super::super) bit: Mark,
    pub(in super::super) end: Name,
    pub(in super::super) slide_in: f64,
}

/// Lays the bits of a strip and joins them.
fn bits(made: &mut Made, cut: &CutStrip, slide_in: f64, cloth: ClothId, allowance_in: f64) -> Ready {
    let first = made.next();
    let mut before = first;
    for (i, bit) in cut.bits.iter().enumerate() {
        let laid = made.add(Step::Lay { cloth, at: bit.at, cut: bit.cut.clone() });
        if i > 0 {
            let (onto, with) = (Name::new(before, 1), Name::new(laid, 3));
            made.join(Seam { onto, with, slide_in: 0.0, stop: None, allowance_in });
        }
        before = laid;
    }
    Ready { bit: first, end: Name::new(before, 1), slide_in }
}

/// Sews the strips on in their order; `ready` lays what strip `i` of the plan is made of and returns
/// its ends. Returns the names of the outer edges, side by side.
fn sew_round(
    made: &mut Made,
    plan: &BorderPlan,
    piece: &Piece,
    ready: &mut dyn FnMut(&mut Made, usize) -> Ready,
) -> Vec<Name> {
    round(made, &plan.strips, plan.order == Order::Mitred, aim(plan), piece, plan.allowance_in, ready)
}

fn aim(plan: &BorderPlan) -> f64 {
    super::aim(&plan.sewn_in, &plan.trimmed_in, plan.allowance_in)
}

/// Sews strips round a piece, one by one or as a frame.
pub(in super::super) fn round(
    made: &mut Made,
    strips: &[Strip],
    is_mitred: bool,
    aim_in: f64,
    piece: &Piece,
    allowance_in: f64,
    ready: &mut dyn FnMut(&mut Made, usize) -> Ready,
) -> Vec<Name> {
    let mut outer: Vec<Name> = piece.sides.iter().map(|side| side.name).collect();
    let mut framed = Vec::new();
    let mut open = None;
    for (i, strip) in strips.iter().enumerate() {
        let Ready { bit, end, slide_in } = ready(made, i);
        let onto = piece.sides[strip.side].name;
        outer[strip.side] = Name::new(bit, 2);
        if is_mitred {
            let (with, outer) = (Name::new(bit, 0), Name::new(bit, 2));
            framed.push(FrameStrip { onto, with, outer, slide_in });
        } else {
            let seam = made.sew_on(strip, onto, bit, slide_in, allowance_in);
            open = open.or_else(|| strip.open_in.map(|_| (Name::new(seam, 0), end)));
        }
    }
    if is_mitred {
        made.add(Step::Sew(Sewing::Frame { strips: framed, allowance_in, aim_in, press: Press::Over }));
    }
    if let Some((seam, end)) = open {
        made.add(Step::Sew(Sewing::Close { seam }));
        // The last strip's outer edge runs on in line with the end of the first, which is older.
        if let Some(strip) = strips.last() {
            outer[strip.side] = end;
        }
    }
    outer
}

/// Trims each side that was sewn wider than it is to be.
fn trims(made: &mut Made, plan: &BorderPlan, piece: &Piece, outer: &[Name]) {
    let Ok(lines) = Lines::of(piece, &plan.sewn_in, plan.allowance_in) else { return };
    let mut paper = Paper { sides: outer.iter().copied().zip(lines.outer.iter().copied()).collect() };
    for (seam, width) in lines.seam.iter().zip(&plan.trimmed_in) {
        if let Some(step) = paper.cut(piece.top, seam.inward(-width), made.next()) {
            made.add(step);
        }
    }
}
