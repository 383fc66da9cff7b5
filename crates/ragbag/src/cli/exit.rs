//! How a run ends, and why.

use quilt::wish::WishProblem;
use std::process::ExitCode;
use workroom::WorkroomError;
use workroom::asks::AskError;
use workroom::intake::IntakeProblem;
use workroom::photo::PhotoProblem;

/// The exit statuses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Exit {
    /// It can't be done with the cloth and the piece as they are: not sewn, cut, grown or undone.
    Refused = 1,
    /// The arguments or the input can't be read.
    BadInput = 2,
    /// The workroom can't be had: locked, full, newer, damaged.
    Workroom = 3,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit as u8)
    }
}

/// Why nothing was done.
#[derive(Debug)]
pub(crate) struct Refusal {
    pub(crate) exit: Exit,
    pub(crate) message: String,
    pub(crate) hint: Option<String>,
}

impl Refusal {
    pub(crate) fn bad(message: impl Into<String>, hint: &str) -> Self {
        let hint = (!hint.is_empty()).then(|| hint.to_owned());
        Self { exit: Exit::BadInput, message: message.into(), hint }
    }

    pub(crate) fn refused(message: impl Into<String>, hint: &str) -> Self {
        Self { exit: Exit::Refused, ..Self::bad(message, hint) }
    }
}

impl From<WorkroomError> for Refusal {
    fn from(error: WorkroomError) -> Self {
        let exit = match &error {
            WorkroomError::NewerVersion { .. }
            | WorkroomError::NoWorkroom { .. }
            | WorkroomError::AlreadyThere { .. }
            | WorkroomError::ReadOnly { .. }
            | WorkroomError::DiskFull
            | WorkroomError::Busy { .. }
            | WorkroomError::Damaged { .. }
            | WorkroomError::File { .. }
            | WorkroomError::Database(_) => Exit::Workroom,
            WorkroomError::Refused { .. }
            | WorkroomError::NotThere { .. }
            | WorkroomError::NotPieced(_)
            | WorkroomError::NothingLeft { .. }
            | WorkroomError::SewnElsewhere { .. }
            | WorkroomError::SewnOnlyHere { .. }
            | WorkroomError::SewnAlready(_)
            | WorkroomError::HeadMoved { .. }
            | WorkroomError::NothingToUndo
            | WorkroomError::NothingToResew
            | WorkroomError::CannotUndo(_)
            | WorkroomError::Intake(IntakeProblem::StripSet(_)) => Exit::Refused,
            _ => Exit::BadInput,
        };
        Self { exit, message: error.to_string(), hint: error.hint() }
    }
}

impl From<WishProblem> for Refusal {
    fn from(problem: WishProblem) -> Self {
        Self::from(WorkroomError::from(problem))
    }
}

impl From<AskError> for Refusal {
    fn from(error: AskError) -> Self {
        let hint = error.hint();
        let message = error.to_string();
        match error {
            AskError::Workroom(error) => Self::from(error),
            AskError::Nonsense { .. }
            | AskError::NoSuchOffer { .. }
            | AskError::Photo(PhotoProblem::Unreadable { .. } | PhotoProblem::TooManyBytes { .. }) => {
                Self { exit: Exit::BadInput, message, hint }
            }
            _ => Self { exit: Exit::Refused, message, hint },
        }
    }
}
