//! Making a whole quilt from a small plan file, from the heap to the last stitch, so that it can be
//! made again, varied and tested in one go.

mod file;
mod one;

pub use file::{FigurePlanned, GrowPlanned, PlanFile, PlanProblem, PlanStage, read_plan};
pub use one::read_stage;

use crate::asks::{AskError, Asked, GrowAsk, GrowReport, StageAsk, StageReport};
use crate::intake::read_figure;
use crate::quilts::{At, Head, MAIN};
use crate::workroom::Workroom;
use ::grow::{Effort, Goal, Watch};
use plane::{Point, Vec2, polygon};
use quilt::stage::figure::{FigureChoice, FigureOrder, FigureSize, Traced};
use quilt::wish::{Towards, Wish, even_drift};

/// Reads a file that a plan names: the figure's drawing.
pub type ReadFile<'a> = &'a dyn Fn(&str) -> Result<Vec<u8>, String>;

/// What a plan came to.
#[derive(Debug)]
pub struct Made {
    /// The head as it is now.
    pub head: Head,
    /// What growing came to, where the plan grows a centre.
    pub grown: Option<GrowReport>,
    /// What each stage said, in order.
    pub stages: Vec<StageReport>,
}

impl Workroom {
    /// Makes a new quilt by a plan: grows its centre, then takes its stages in order.
    ///
    /// # Errors
    /// A plan without a name or without growing, a name that is taken, and whatever stands against
    /// growing or a stage; the stages taken before it stay.
    pub fn make(&mut self, plan: &PlanFile, read: ReadFile<'_>, watch: &mut dyn Watch) -> Asked<Made> {
        let (Some(name), Some(grow)) = (&plan.quilt, &plan.grow) else {
            return Err(AskError::Nonsense {
                what: "the plan doesn't say which quilt to make, or how to grow it".to_owned(),
                hint: "Write quilt = \"its name\" and a section [grow] at the top; or take its stages on a quilt that is there: `ragbag finish PLAN`.".to_owned(),
            });
        };
        let wish = wish_of(grow)?;
        self.new_quilt(name, &wish)?;
        let effort = if grow.thorough { Effort::THOROUGH } else { Effort::USUAL };
        let goal = grow.pieces.map_or(Goal::Size, Goal::Pieces);
        let ask = GrowAsk { goal, effort, seed: grow.seed, across_in: None };
        let grown = self.grow(&self.head(name, MAIN)?.at(), &ask, watch)?;
        if let Some(sides) = grow.true_up_sides {
            self.true_up(&self.head(name, MAIN)?.at(), sides)?;
        }
        let at = self.head(name, MAIN)?.at();
        let made = self.finish(&at, plan, read)?;
        Ok(Made { grown: Some(grown), ..made })
    }

    /// Takes the stages of a plan on a head, in order.
    ///
    /// # Errors
    /// What stands against a stage, with its number; the stages taken before it stay.
    pub fn finish(&mut self, at: &At, plan: &PlanFile, read: ReadFile<'_>) -> Asked<Made> {
        let mut stages = Vec::with_capacity(plan.stages.len());
        for (i, stage) in plan.stages.iter().enumerate() {
            let at = self.head(&at.quilt, &at.head)?.at();
            let ask = self.ask_of(&at, stage, read).map_err(|error| numbered(i, stage, error))?;
            let (_, report) = self.take_stage(&at, &ask).map_err(|error| numbered(i, stage, error))?;
            stages.push(report);
        }
        Ok(Made { head: self.head(&at.quilt, &at.head)?, grown: None, stages })
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
}

fn wish_of(grow: &GrowPlanned) -> Asked<Wish> {
    let mut wish = Wish::default();
    if let Some(across_in) = grow.across_in {
        wish.across_in = across_in;
    }
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
    wish.check()?;
    Ok(wish)
}

fn numbered(i: usize, stage: &PlanStage, error: AskError) -> AskError {
    let name = stage.name();
    match error {
        AskError::CantBe { what, hint } => {
            AskError::CantBe { what: format!("stage {} of the plan, {name}: {what}", i + 1), hint }
        }
        other => other,
    }
}
