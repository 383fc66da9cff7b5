//! Centres brought onto one table, squared and joined there.

use super::super::error::{AskError, Asked};
use super::super::heap::Claimed;
use super::super::room::place;
use super::super::stage::cant;
use super::report::{CentreSquared, CentresReport};
use super::{Centre, Joined, cannot, of_centre};
use crate::quilts::JoinedFrom;
use crate::stash::Stash;
use ::grow::Heap;
use ::grow::centres::{Block, CentresChoice, CopingStrip, plan, steps};
use plane::{FitAsk, Pose, Region, Turn, Turning};
use quilt::cloth::ClothId;
use quilt::length::fraction;
use quilt::log::{Entry, Mark, Run, RunKind, Step};
use quilt::stage::square_up::{self, Goal, LargestKind, SquareUpChoice};
use quilt::table::Table;
use std::collections::BTreeMap;

/// The table on which centres are brought together, and the log that led to it.
pub(super) struct Bringing<'a> {
    centres: &'a [Centre],
    allowance_in: f64,
    table: Table,
    entries: Vec<Entry>,
    sewn: usize,
    from: Vec<JoinedFrom>,
    tops: Vec<Mark>,
    squared: Vec<CentreSquared>,
}

impl<'a> Bringing<'a> {
    /// The centres side by side, each under new numbers: first what is sewn, then the chalk. Choices of
    /// later stages are left behind: they were made for each alone.
    pub(super) fn new(centres: &'a [Centre], allowance_in: f64) -> Asked<Self> {
        let mut bringing = Self {
            centres,
            allowance_in,
            table: Table::new(),
            entries: Vec::new(),
            sewn: 0,
            from: Vec::new(),
            tops: Vec::new(),
            squared: Vec::new(),
        };
        let mut names: Vec<BTreeMap<Mark, Mark>> = vec![BTreeMap::new(); centres.len()];
        for (centre, names) in centres.iter().zip(&mut names) {
            let sewn = centre.entries.get(..centre.sewn).unwrap_or_default();
            bringing.bring(centre, sewn, names)?;
            let laid = sewn.iter().filter(|entry| matches!(entry.step, Step::Lay { .. }));
            let patches = laid.filter_map(|entry| Some([entry.mark, *names.get(&entry.mark)?])).collect();
            bringing.from.extend(centre.quilt.clone().map(|quilt| JoinedFrom { quilt, patches }));
        }
        bringing.sewn = bringing.entries.len();
        for (centre, names) in centres.iter().zip(&mut names) {
            let chalk = centre.entries.get(centre.sewn..).unwrap_or_default();
            bringing.bring(centre, chalk, names)?;
            let none =
                || cannot(format!("there is nothing on the table of `{}`", centre.name), "Grow it first.");
            let its = bringing.table.tops().keys().filter(|mark| names.values().any(|own| own == *mark));
            let top = its.max_by_key(|mark| bringing.table.top(**mark).map_or(0, |top| top.faces().len()));
            bringing.tops.push(*top.ok_or_else(none)?);
        }
        Ok(bringing)
    }

    fn bring(&mut self, centre: &Centre, entries: &[Entry], names: &mut BTreeMap<Mark, Mark>) -> Asked<()> {
        for entry in entries.iter().filter(|entry| !matches!(entry.step, Step::Choose(_))) {
            let mark = self.next();
            names.insert(entry.mark, mark);
            let to = |old: Mark| names.get(&old).copied().unwrap_or(old);
            let run = entry.run.clone().map(|run| Run { first: to(run.first), ..run });
            let entry = Entry { mark, run, step: entry.step.renamed(&to) };
            self.table.apply_entry(&entry).map_err(|problem| of_centre(&centre.name, problem))?;
            self.entries.push(entry);
        }
        Ok(())
    }

    /// The steps that are not sewn.
    pub(super) fn chalk(&self) -> &[Entry] {
        self.entries.get(self.sewn..).unwrap_or_default()
    }

    fn next(&self) -> Mark {
        Mark(self.entries.len() as u32 + 1)
    }

    fn add(&mut self, kind: RunKind, mut ask: Option<String>, steps: Vec<Step>) -> Asked<()> {
        let first = self.next();
        for (mark, step) in (first.0..).zip(steps) {
            // The first step of a run keeps what was asked.
            let ask = ask.take();
            let entry = Entry { mark: Mark(mark), run: Some(Run { first, kind, ask }), step };
            self.table.apply_entry(&entry).map_err(cant)?;
            self.entries.push(entry);
        }
        Ok(())
    }

    /// Squares a centre to a finished size; without one, to what it is or holds.
    pub(super) fn square(&mut self, i: usize, size_in: Option<[f64; 2]>) -> Asked<()> {
        if let Some(squared) = &self.centres[i].squared {
            self.squared.push(squared.clone());
            return Ok(());
        }
        let (name, mark) = (&self.centres[i].name, self.tops[i]);
        let raw = |finished: f64| finished + 2.0 * self.allowance_in;
        let goal = match size_in {
            Some([w, h]) => Goal::Rectangle { width_in: raw(w), height_in: raw(h), turn_deg: None },
            None => Goal::Largest { kind: LargestKind::Rectangle },
        };
        let as_it_is = CentreSquared { name: name.clone(), lost_percent: 0.0, thin: 0 };
        let is_rectangle =
            || Block::of_top(&self.table, mark, name, &Heap::new([], &[]), self.allowance_in).is_ok();
        if size_in.is_none() && is_rectangle() {
            self.squared.push(as_it_is);
            return Ok(());
        }
        let choice = SquareUpChoice { goal, thin_in: 0.5, upright: false };
        let plan = square_up::plan(&self.table, mark, &choice, None, self.allowance_in, self.next());
        let plan = plan.map_err(|problem| of_centre(name, problem))?;
        self.squared.push(CentreSquared {
            lost_percent: plan.lost_percent,
            thin: plan.thin.len(),
            ..as_it_is
        });
        self.add(RunKind::SquareUp, serde_json::to_string(&choice).ok(), plan.steps)
    }

    /// One centre as it is here.
    pub(super) fn into_centre(self, name: &str) -> Centre {
        let squared = self.squared.into_iter().next();
        Centre { name: name.to_owned(), quilt: None, entries: self.entries, sewn: self.sewn, squared }
    }

    /// Lays the coping and joins everything.
    pub(super) fn join(
        mut self,
        choice: &CentresChoice,
        looks: &Heap,
        coping: &mut Coping<'_>,
    ) -> Asked<Joined> {
        let block = |(centre, top): (&Centre, &Mark)| {
            Block::of_top(&self.table, *top, &centre.name, looks, self.allowance_in)
        };
        let blocks: Vec<Block> =
            self.centres.iter().zip(&self.tops).map(block).collect::<Result<_, _>>().map_err(cant)?;
        let plan = plan(&blocks, choice, self.allowance_in).map_err(cant)?;
        let first = self.next();
        let done = steps(&plan, &blocks, &self.table, &self.tops, first, |strip| coping.place(strip));
        let done = done.map_err(cant)?;
        if let Some(&(_, no)) = done.to_place.first() {
            return Err(coping.no_room(no, &plan.strips[no]));
        }
        let Self { squared, .. } = &self;
        let report = CentresReport::new(plan, blocks, squared.clone());
        self.add(RunKind::Centres, serde_json::to_string(choice).ok(), done.steps)?;
        Ok(Joined { entries: self.entries, sewn: self.sewn, from: self.from, report })
    }
}

/// The cloths for coping, and what is claimed of them already.
pub(super) struct Coping<'a> {
    pub(super) stash: &'a Stash,
    pub(super) claimed: Claimed,
    pub(super) cloths: &'a [ClothId],
}

impl Coping<'_> {
    /// Where a strip is cut from: the cloth chosen for it, else another that has room, with its print up
    /// if it has room so.
    fn place(&mut self, strip: &CopingStrip) -> Option<(ClothId, Pose)> {
        let corners = strip.cut_corners();
        for cloth in strip.cloth.iter().chain(self.cloths) {
            let item = self.stash.get(*cloth)?;
            let free = self.claimed.free(item);
            let (upright, base) = item.came.look.runs.turning(Turn::QUARTER);
            let fits = |turning, base| {
                let ask = FitAsk { piece: &corners, cloth: &item.came.outline, turning, base, margin: &[] };
                place(&free, &ask).pose()
            };
            if let Some(pose) = fits(upright, base).or_else(|| fits(Turning::Any, Turn::NONE)) {
                let part = Region { outer: pose.apply_all(&corners), holes: Vec::new() };
                self.claimed.add(item.root, part);
                return Some((*cloth, pose));
            }
        }
        None
    }

    fn no_room(&self, no: usize, strip: &CopingStrip) -> AskError {
        let named = self.cloths.iter().filter_map(|cloth| self.stash.get(*cloth));
        let named: Vec<String> = named.map(|item| format!("`{}`", item.came.name)).collect();
        cannot(
            format!(
                "coping strip {} is cut {} by {}, and no cloth named for coping has room for it ({})",
                no + 1,
                fraction(strip.cut_wide_in, 8),
                fraction(strip.cut_long_in, 8),
                named.join(", ")
            ),
            "Name a longer cloth for coping as well, or sew one long enough from strips first.",
        )
    }
}
