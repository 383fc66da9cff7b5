//! Making a whole quilt from a small plan file, from the heap to the last stitch, so that it can be
//! made again, varied and tested in one go.
//!
//! A plan is taken whole or not at all: where a stage is refused, nothing of it stays, and one undo takes
//! all of it back. Growing comes before anything is written, so that others can use the workroom
//! meanwhile.

mod centres;
mod file;
mod one;
mod read;
mod words;

pub use file::{CentresPlanned, FigurePlanned, GrowPlanned, PlacePlanned, PlanFile, PlanStage};
pub use one::read_stage;
pub use read::{PlanProblem, read_plan};

use crate::asks::{AskError, Asked, CentresReport, GrowAsk, GrowReport, StageAsk, StageReport, report};
use crate::intake::read_figure;
use crate::quilts::{At, Head, JoinedFrom, MAIN};
use crate::workroom::Workroom;
use ::grow::{Effort, Goal, Grown, Watch};
use plane::{Point, Vec2, polygon};
use quilt::log::Entry;
use quilt::stage::figure::{FigureChoice, FigureOrder, FigureSize, Traced};
use quilt::wish::{Towards, Wish, even_drift};

/// Reads a file that a plan names: the figure's drawing.
pub type ReadFile<'a> = &'a dyn Fn(&str) -> Result<Vec<u8>, String>;

/// What a plan came to.
#[derive(Debug)]
pub struct Made {
    /// The head as it is now; as it would be, where a plan was only looked at.
    pub head: Head,
    /// What growing came to, where the plan grows one centre.
    pub grown: Option<GrowReport>,
    /// How the centres are joined, where there are several.
    pub centres: Option<CentresReport>,
    /// What each stage said, in order.
    pub stages: Vec<StageReport>,
}

/// The piece before its stages, not written yet.
struct Begun {
    entries: Vec<Entry>,
    sewn: usize,
    joined: Vec<JoinedFrom>,
    grown: Option<Grown>,
    centres: Option<CentresReport>,
}

impl Workroom {
    /// Makes a new quilt by a plan, as one deed: grows its centre, or several and joins them, then takes
    /// its stages in order.
    ///
    /// # Errors
    /// A plan without a name or without a centre, a name that is taken, and whatever stands against
    /// growing, joining or a stage. Nothing is changed then.
    pub fn make(&mut self, plan: &PlanFile, read: ReadFile<'_>, watch: &mut dyn Watch) -> Asked<Made> {
        self.made(plan, read, watch, true)
    }

    /// What [`Workroom::make`] would come to. It takes as long; nothing is changed.
    ///
    /// # Errors
    /// As [`Workroom::make`].
    pub fn look_at_making(
        &mut self,
        plan: &PlanFile,
        read: ReadFile<'_>,
        watch: &mut dyn Watch,
    ) -> Asked<Made> {
        self.made(plan, read, watch, false)
    }

    fn made(
        &mut self,
        plan: &PlanFile,
        read: ReadFile<'_>,
        watch: &mut dyn Watch,
        keep: bool,
    ) -> Asked<Made> {
        let usual = GrowPlanned::default();
        let is_joined = plan.centres.as_ref().is_some_and(|centres| !centres.of.is_empty());
        let grow = plan.grow.as_ref().or(is_joined.then_some(&usual));
        let (Some(name), Some(grow)) = (&plan.quilt, grow) else {
            return Err(AskError::Nonsense {
                what: "the plan doesn't say which quilt to make, or how to grow it".to_owned(),
                hint: "Write quilt = \"its name\" and a section [grow] at the top; or take its stages on a quilt that is there: `ragbag finish PLAN`.".to_owned(),
            });
        };
        self.free_name(name)?;
        let wish = self.wish_of(plan, grow)?;
        let begun = self.begin(plan, grow, &wish, watch)?;
        self.as_one("make", keep, |room| {
            let head = room.new_quilt_of(name, &wish, &begun.entries, begun.sewn, &begun.joined)?;
            let grown = begun.grown.as_ref().map(|grown| report(head.clone(), grown));
            if let Some(sides) = grow.true_up_sides {
                room.true_up(&head.at(), sides)?;
            }
            let made = room.finish(&room.head(name, MAIN)?.at(), None, plan, read)?;
            Ok(Made { grown, centres: begun.centres, ..made })
        })
    }

    fn begin(
        &mut self,
        plan: &PlanFile,
        grow: &GrowPlanned,
        wish: &Wish,
        watch: &mut dyn Watch,
    ) -> Asked<Begun> {
        let effort = match (grow.thorough, grow.quick) {
            (true, true) => {
                return Err(AskError::Nonsense {
                    what: "the plan's [grow] is both thorough and quick".to_owned(),
                    hint: "Leave one of them out.".to_owned(),
                });
            }
            (true, false) => Effort::THOROUGH,
            (false, true) => Effort::QUICK,
            (false, false) => Effort::USUAL,
        };
        let goal = grow.pieces.map_or(Goal::Size, Goal::Pieces);
        let ask = GrowAsk { goal, effort, seed: grow.seed, across_in: None };
        if let Some(planned) = &plan.centres {
            let joined = self.plan_centres(planned, wish, &GrowAsk { goal: Goal::Size, ..ask }, watch)?;
            let centres = Some(joined.report);
            let (entries, sewn, joined) = (joined.entries, joined.sewn, joined.from);
            return Ok(Begun { entries, sewn, joined, grown: None, centres });
        }
        let grown = self.grow_anew(wish, &ask, watch)?;
        Ok(Begun {
            entries: grown.entries.clone(),
            sewn: 0,
            joined: Vec::new(),
            grown: Some(grown),
            centres: None,
        })
    }

    /// Takes the stages of a plan on a head, in order and as one deed; on a new head beside it where one
    /// is named.
    ///
    /// # Errors
    /// What stands against a stage, with its number; nothing is changed then.
    pub fn finish(
        &mut self,
        at: &At,
        beside: Option<&str>,
        plan: &PlanFile,
        read: ReadFile<'_>,
    ) -> Asked<Made> {
        self.finished(at, beside, plan, read, true)
    }

    /// What [`Workroom::finish`] would come to, every stage of it. Nothing is changed.
    ///
    /// # Errors
    /// As [`Workroom::finish`].
    pub fn look_at_finishing(&mut self, at: &At, plan: &PlanFile, read: ReadFile<'_>) -> Asked<Made> {
        self.finished(at, None, plan, read, false)
    }

    fn finished(
        &mut self,
        at: &At,
        beside: Option<&str>,
        plan: &PlanFile,
        read: ReadFile<'_>,
        keep: bool,
    ) -> Asked<Made> {
        self.as_one("finish", keep, |room| {
            let mut at = match beside {
                Some(name) => {
                    let tip = room.head(&at.quilt, &at.head)?.tip;
                    room.what_if(at, tip, name)?.at()
                }
                None => at.clone(),
            };
            let mut stages = Vec::with_capacity(plan.stages.len());
            for (i, stage) in plan.stages.iter().enumerate() {
                let of_stage =
                    |error| AskError::Stage { no: i + 1, name: stage.name(), error: Box::new(error) };
                let ask = room.ask_of(&at, stage, read).map_err(of_stage)?;
                let (head, report) = room.take_stage(&at, &ask).map_err(of_stage)?;
                at = head.at();
                stages.push(report);
            }
            Ok(Made { head: room.head(&at.quilt, &at.head)?, grown: None, centres: None, stages })
        })
    }

    /// What a stage of a plan asks at a head: cloths found by name, the figure's drawing read.
    ///
    /// # Errors
    /// A drawing that can't be read or is no figure; no such cloth.
    pub fn ask_of(&mut self, at: &At, stage: &PlanStage, read: ReadFile<'_>) -> Asked<StageAsk> {
        match stage {
            PlanStage::Ask(ask) => Ok((**ask).clone()),
            PlanStage::Figure(figure) => Ok(StageAsk::Figure(self.figure_of(at, figure, read)?)),
        }
    }

    fn figure_of(&mut self, at: &At, asked: &FigurePlanned, read: ReadFile<'_>) -> Asked<FigureChoice> {
        let bytes = read(&asked.svg).map_err(|why| AskError::CantBe {
            what: format!("the figure's drawing `{}` can't be read: {why}", asked.svg),
            hint: "Name an SVG file, from the folder that the plan lies in.".to_owned(),
        })?;
        let mut drawn = read_figure(&asked.svg, &bytes).map_err(|problem| AskError::CantBe {
            what: format!("the figure `{}`: {problem}", asked.svg),
            hint: problem.hint().unwrap_or_default(),
        })?;
        for shape in &mut drawn.shapes {
            let named = asked.cloths.get(&shape.id).or(asked.cloth.as_ref());
            if let Some(name) = named {
                shape.cloth = Some(self.cloth_named(&at.quilt, &at.head, name)?);
            }
        }
        let table = self.table(&at.quilt, &at.head)?;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let middle = polygon::centroid(&top.outline_points()).unwrap_or_default();
        let [x, y] = asked.from_middle_in;
        let size = match (asked.width_in, asked.height_in) {
            (Some(width), None) => FigureSize::WidthIn(width),
            (None, Some(height)) => FigureSize::HeightIn(height),
            (None, None) => FigureSize::AsDrawn,
            (Some(_), Some(_)) => {
                return Err(AskError::Nonsense {
                    what: "the figure has both a width and a height".to_owned(),
                    hint: "Give one: the other follows from the drawing.".to_owned(),
                });
            }
        };
        let place: Point = middle + Vec2::new(x, y);
        let mut choice = FigureChoice::usual(drawn, size, place);
        choice.mirror = asked.mirror;
        choice.turn_deg = asked.turn_deg;
        choice.turn_under_in = asked.turn_under_in.unwrap_or(choice.turn_under_in);
        choice.clear_in = asked.clear_in.unwrap_or(choice.clear_in);
        choice.traced = if asked.wrong_side { Traced::WrongSide } else { Traced::RightSide };
        choice.order =
            if asked.before_quilting { FigureOrder::BeforeQuilting } else { FigureOrder::AfterQuilting };
        Ok(choice)
    }

    /// What a plan wishes of its centre. The cloths that its stages name are spared; one that isn't there
    /// is told before anything grows.
    fn wish_of(&mut self, plan: &PlanFile, grow: &GrowPlanned) -> Asked<Wish> {
        let mut wish = wish_of(grow)?;
        if let Some(centres) = &plan.centres {
            if let Some(key) = grow.of_one_centre() {
                return Err(AskError::Nonsense {
                    what: format!("the plan's [grow] says {key}, and its [centres] how large each centre is"),
                    hint: format!("Leave {key} out, or [centres]."),
                });
            }
            let [width_in, height_in] = centres.size_in;
            wish.towards = Towards::Rectangle { width_in, height_in };
        }
        wish.check()?;
        for (i, stage) in plan.stages.iter().enumerate() {
            for name in stage.cloths() {
                let of_stage =
                    |error| AskError::Stage { no: i + 1, name: stage.name(), error: Box::new(error) };
                wish.spare.push(self.cloth_in_heap(name).map_err(of_stage)?);
            }
        }
        let coping = plan.centres.iter().flat_map(|centres| &centres.coping);
        for name in grow.spare.iter().chain(coping) {
            wish.spare.push(self.cloth_in_heap(name)?);
        }
        wish.spare.sort_unstable();
        wish.spare.dedup();
        Ok(wish)
    }
}

fn wish_of(grow: &GrowPlanned) -> Asked<Wish> {
    let mut wish = Wish::default();
    if let Some(across_in) = grow.across_in {
        wish.across_in = across_in;
    }
    wish.rough_in = grow.rough_in.unwrap_or(wish.rough_in);
    if let Some(sides) = grow.sides {
        wish.towards = Towards::Round { sides };
    }
    if let Some([width_in, height_in]) = grow.rectangle_in {
        wish.towards = Towards::Rectangle { width_in, height_in };
    }
    let colour = |word: &String| {
        colour::read_words(word).ok_or_else(|| AskError::Nonsense {
            what: format!("`{word}` is no colour that is known here"),
            hint: format!("Known are {}.", colour::all_words()),
        })
    };
    wish.drift = even_drift(&grow.drift.iter().map(colour).collect::<Asked<Vec<_>>>()?);
    Ok(wish)
}
