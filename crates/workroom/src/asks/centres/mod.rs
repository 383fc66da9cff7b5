//! Joining centres: several quilts' centres, each squared to a rectangle, sewn into one larger top that
//! is a quilt of its own.
//!
//! The steps of each centre are brought into one log under new numbers: first what is sewn of each, then
//! the chalk, then the squaring up, then the coping and the joining. The quilts that they came from stay
//! as they are.

mod bring;
mod grown;
mod report;

pub(crate) use grown::GrowCentres;
pub use report::{CentreSquared, CentresReport, Weights};

use super::cloth_name::check_cloth;
use super::error::{AskError, Asked};
use super::heap::Claimed;
use super::stage::cant;
use crate::audit::{claims, promised_elsewhere};
use crate::quilts::{Head, JoinedFrom, Log};
use crate::stash::Stash;
use crate::workroom::Workroom;
use ::grow::Heap;
use ::grow::centres::CentresChoice;
use bring::{Bringing, Coping};
use quilt::log::{Entry, Step};
use std::collections::BTreeSet;

/// What is asked of joining centres that are there.
#[derive(Clone, Debug, PartialEq)]
pub struct JoinAsk {
    /// Each centre's quilt and head.
    pub centres: Vec<(String, String)>,
    /// The finished sizes that they are squared to, by turns: width and height in inches. Without one
    /// a rectangle stays as it is, and anything else becomes the largest rectangle that it holds.
    pub square_in: Vec<[f64; 2]>,
    /// The layout.
    pub choice: CentresChoice,
}

/// A centre as it is brought to be joined.
#[derive(Clone, Debug)]
pub(crate) struct Centre {
    /// What it is called.
    pub(crate) name: String,
    /// The quilt it is of, where there is one.
    pub(crate) quilt: Option<String>,
    /// Its steps.
    pub(crate) entries: Vec<Entry>,
    /// How many of them are sewn.
    pub(crate) sewn: usize,
    /// What squaring it took, if that is among its steps.
    pub(crate) squared: Option<CentreSquared>,
}

impl Centre {
    /// What a centre without a name of its own is called; `i` from 0.
    pub(crate) fn numbered(i: usize) -> String {
        format!("centre {}", i + 1)
    }
}

/// The log of a joined top.
#[derive(Clone, Debug)]
pub(crate) struct Joined {
    pub(crate) entries: Vec<Entry>,
    pub(crate) sewn: usize,
    /// What of it is sewn in the quilts that it was joined from.
    pub(crate) from: Vec<JoinedFrom>,
    pub(crate) report: CentresReport,
}

impl Workroom {
    /// What joining centres would come to. Nothing is changed.
    ///
    /// # Errors
    /// No such quilt or head; a head without a piece, or with several; two that count on the same cloth;
    /// a centre that can't be squared; a layout that can't be; coping cloth without room.
    pub fn look_at_joining(&mut self, ask: &JoinAsk) -> Asked<CentresReport> {
        Ok(self.joining(ask)?.report)
    }

    /// Joins centres into a new quilt of this name, in one deed. Its wish is that of the first.
    ///
    /// # Errors
    /// As [`Workroom::look_at_joining`]; a name that is taken.
    pub fn join_centres(&mut self, name: &str, ask: &JoinAsk) -> Asked<(Head, CentresReport)> {
        self.free_name(name)?;
        let joined = self.joining(ask)?;
        let first = ask.centres.first().ok_or(AskError::NothingOnTable)?;
        let wish = self.wish(&first.0)?;
        let head = self.new_quilt_of(name, &wish, &joined.entries, joined.sewn, &joined.from)?;
        Ok((head, joined.report))
    }

    fn joining(&mut self, ask: &JoinAsk) -> Asked<Joined> {
        let (centres, allowance_in) = self.centres_of(&ask.centres)?;
        self.joined(&centres, &ask.square_in, &ask.choice, allowance_in)
    }

    /// The centres of heads, and the seam allowance that all of them share.
    pub(crate) fn centres_of(&mut self, heads: &[(String, String)]) -> Asked<(Vec<Centre>, f64)> {
        let (mut logs, mut allowance_in): (Vec<(String, Log)>, Option<f64>) = (Vec::new(), None);
        let of: Vec<String> = heads.iter().map(|(quilt, _)| quilt.clone()).collect();
        for (quilt, head) in heads {
            let own = self.wish(quilt)?.allowance_in;
            let name = if head == crate::quilts::MAIN { quilt.clone() } else { format!("{quilt}, {head}") };
            let log = self.log(quilt, head)?;
            if allowance_in.is_some_and(|other: f64| (other - own).abs() > plane::READING) {
                return Err(cannot(
                    format!("`{name}` is sewn with another seam allowance than the centres before it"),
                    "Join centres of one allowance.",
                ));
            }
            if self.table(quilt, head)?.tops().len() > 1 {
                return Err(cannot(
                    format!("`{name}` has several pieces on its table"),
                    "Sew them together, or unpick to one, before it is joined to others.",
                ));
            }
            for (other, before) in &logs {
                self.check_apart((other, before), (&name, &log))?;
            }
            allowance_in = Some(own);
            logs.push((name, log));
        }
        let centre = |((name, log), quilt): ((String, Log), String)| {
            let (entries, sewn) = (log.entries(), log.sewn);
            Centre { name, quilt: Some(quilt), entries, sewn, squared: None }
        };
        Ok((logs.into_iter().zip(of).map(centre).collect(), allowance_in.unwrap_or_default()))
    }

    /// Refuses two centres that count on the same cloth.
    fn check_apart(&mut self, (a, first): (&str, &Log), (b, second): (&str, &Log)) -> Asked<()> {
        let is_lay = |step: &&crate::quilts::LogStep| matches!(step.entry.step, Step::Lay { .. });
        let laid: BTreeSet<_> = first.steps.iter().filter(is_lay).map(|step| step.id).collect();
        let shared = second.steps.iter().filter(is_lay).any(|step| laid.contains(&step.id));
        let own = claims(&first.entries(), first.sewn);
        let theirs = claims(&second.entries(), second.sewn);
        let twice = promised_elsewhere(&own, &theirs, self.stash()?).into_iter().next();
        if !shared && twice.is_none() {
            return Ok(());
        }
        let why = twice.map_or_else(|| "they share patches".to_owned(), |problem| problem.to_string());
        Err(cannot(
            format!("`{a}` and `{b}` count on the same cloth ({why})"),
            "Chalk holds no cloth back from another quilt. Say what is sewn of the first as sewn, and grow the second as a \
             new quilt after that: it takes what is left. Or grow both by one plan: its [centres] share the heap out.",
        ))
    }

    /// Squares centres and joins them, on a table of their own.
    pub(crate) fn joined(
        &mut self,
        centres: &[Centre],
        square_in: &[[f64; 2]],
        choice: &CentresChoice,
        allowance_in: f64,
    ) -> Asked<Joined> {
        let stash = self.stash()?;
        choice.coping.iter().try_for_each(|cloth| check_cloth(stash, *cloth))?;
        let looks = looks(stash);
        let mut bringing = Bringing::new(centres, allowance_in)?;
        let mut claimed = Claimed::nothing();
        for entry in bringing.chalk() {
            claim(&mut claimed, stash, entry);
        }
        for i in 0..centres.len() {
            let size = (!square_in.is_empty()).then(|| square_in[i % square_in.len()]);
            bringing.square(i, size)?;
        }
        let mut coping = Coping { stash, claimed, cloths: &choice.coping };
        bringing.join(choice, &looks, &mut coping)
    }
}

/// Every cloth with its look, whatever is left of it.
fn looks(stash: &Stash) -> Heap {
    Heap::new(stash.items().map(|item| (&item.came, vec![item.came.outline.clone()])), &[])
}

/// Claims what a step lays.
fn claim(claimed: &mut Claimed, stash: &Stash, entry: &Entry) {
    if let Step::Lay { cloth, at, cut } = &entry.step {
        let part = plane::Region { outer: at.apply_all(cut), holes: Vec::new() };
        claimed.add(stash.root(*cloth), part);
    }
}

fn cannot(what: String, hint: &str) -> AskError {
    AskError::CantBe { what, hint: hint.to_owned() }
}

/// A problem of one centre, with its name.
fn of_centre(name: &str, problem: impl std::fmt::Display) -> AskError {
    cant(format!("centre `{name}`: {problem}"))
}
