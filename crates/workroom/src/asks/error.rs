//! Why an ask could not be met, with what would help.

use crate::WorkroomError;
use crate::photo::PhotoProblem;
use quilt::Problem;
use quilt::remedy::remedies;
use quilt::table::Top;
use quilt::wish::WishProblem;
use thiserror::Error;

/// The result of an ask.
pub type Asked<T> = Result<T, AskError>;

/// Why an ask could not be met.
#[derive(Debug, Error)]
pub enum AskError {
    /// The workroom itself.
    #[error(transparent)]
    Workroom(#[from] WorkroomError),
    /// A rule of the trade.
    #[error("{problem}")]
    Refused {
        /// The rule, the place and the numbers.
        problem: Problem,
        /// What would help, as sentences.
        remedies: Vec<String>,
    },
    /// There is nothing on the table.
    #[error("there is nothing on the table yet")]
    NothingOnTable,
    /// No proposals were asked for at this step.
    #[error("the proposals are for another step of this quilt")]
    Stale,
    /// There is no proposal of this number.
    #[error("there is no proposal {no}; there are {have}")]
    NoSuchOffer {
        /// The number asked for.
        no: usize,
        /// How many there are.
        have: usize,
    },
    /// Nothing could be grown.
    #[error("{0}")]
    NothingGrown(String),
    /// Growing was stopped before anything was sewn on.
    #[error("stopped before anything was sewn on; nothing has changed")]
    StoppedAtOnce,
    /// Something that can't be done with the cloth or the piece as it is.
    #[error("{what}")]
    CantBe {
        /// What can't be, and where.
        what: String,
        /// What to do.
        hint: String,
    },
    /// What stands against a stage of a plan.
    #[error("stage {no} of the plan, {name}: {error}")]
    Stage {
        /// Which, from 1.
        no: usize,
        /// Its name.
        name: &'static str,
        /// What it is.
        error: Box<AskError>,
    },
    /// A number that makes no sense here.
    #[error("{what}")]
    Nonsense {
        /// What is wrong, and where.
        what: String,
        /// What to do.
        hint: String,
    },
    /// A photograph that can't be used.
    #[error(transparent)]
    Photo(#[from] PhotoProblem),
    /// A drawing that can't be made.
    #[error(transparent)]
    Drawing(#[from] drawing::DrawingProblem),
    /// A picture that can't be painted.
    #[error(transparent)]
    Paper(#[from] papers::PaperProblem),
}

impl From<WishProblem> for AskError {
    fn from(problem: WishProblem) -> Self {
        Self::Workroom(problem.into())
    }
}

impl AskError {
    /// A broken rule with what would help on this top.
    pub(super) fn refused(problem: Problem, top: Option<&Top>, allowance_in: f64) -> Self {
        let found = top.map(|top| remedies(&problem, top, allowance_in)).unwrap_or_default();
        Self::Refused { problem, remedies: found.iter().map(ToString::to_string).collect() }
    }

    /// What to do about it, in a sentence.
    #[must_use]
    pub fn hint(&self) -> Option<String> {
        match self {
            Self::Workroom(error) => error.hint(),
            Self::Refused { remedies, .. } => (!remedies.is_empty()).then(|| remedies.join(" Or: ")),
            Self::NothingOnTable => Some("Grow a centre, or lay a first patch.".to_owned()),
            Self::Stale => Some("Ask for the next piece again.".to_owned()),
            Self::NoSuchOffer { .. } => Some("Ask for more with a larger count.".to_owned()),
            Self::NothingGrown(_) => Some(
                "Unpick a piece or trim a side and grow again; add cloth; or wish for smaller pieces."
                    .to_owned(),
            ),
            Self::CantBe { hint, .. } | Self::Nonsense { hint, .. } => {
                (!hint.is_empty()).then(|| hint.clone())
            }
            Self::Stage { error, .. } => error.hint(),
            Self::Photo(problem) => problem.hint(),
            Self::StoppedAtOnce | Self::Drawing(_) | Self::Paper(_) => None,
        }
    }
}
