//! What can go wrong in a workroom: one type, with what, where, how much, and a hint what to do.

use crate::bundle::BundleProblem;
use crate::intake::IntakeProblem;
use quilt::Problem;
use quilt::cloth::ClothId;
use quilt::length::sixteenths;
use quilt::log::{Mark, StepId};
use quilt::wish::WishProblem;
use std::path::PathBuf;
use thiserror::Error;

/// Shorthand for results of this crate.
pub type Result<T, E = WorkroomError> = std::result::Result<T, E>;

/// Why a use case was not carried out. Nothing has changed when one of these comes back.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum WorkroomError {
    /// The folder was made by a later Ragbag.
    #[error("the workroom in {} is of version {found}; this Ragbag reads up to version {known}", .folder.display())]
    NewerVersion {
        /// Which folder.
        folder: PathBuf,
        /// Its version.
        found: i64,
        /// The newest version known here.
        known: i64,
    },
    /// Nothing, or something else, is in the folder.
    #[error("there is no workroom in {}", .folder.display())]
    NoWorkroom {
        /// Which folder.
        folder: PathBuf,
    },
    /// A workroom is there already.
    #[error("there is a workroom in {} already", .folder.display())]
    AlreadyThere {
        /// Which folder.
        folder: PathBuf,
    },
    /// Nothing may be written there.
    #[error("the workroom can't be written: {what}")]
    ReadOnly {
        /// What was refused.
        what: String,
    },
    /// The disk is full.
    #[error("the disk is full: nothing was changed")]
    DiskFull,
    /// Another program is writing to the workroom and did not finish in time.
    #[error("another program is writing to this workroom and did not finish within {waited_s} seconds")]
    Busy {
        /// How long it was waited for, in seconds.
        waited_s: u64,
    },
    /// Stored bytes that are not what was written.
    #[error("the workroom is damaged: {what}")]
    Damaged {
        /// What doesn't hold.
        what: String,
    },
    /// Any other trouble with a file.
    #[error("{}: {}", .path.display(), file_trouble(source))]
    File {
        /// Which file or folder.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// Any other trouble with the database.
    #[error("the workroom's database: {0}")]
    Database(rusqlite::Error),
    /// Somebody else moved the head in the meantime.
    #[error("{quilt}, {head} was changed in the meantime (it is at change {found}, not {expected})")]
    HeadMoved {
        /// Which quilt.
        quilt: String,
        /// Which head.
        head: String,
        /// The change the caller knew.
        expected: u64,
        /// The change it is at.
        found: u64,
    },
    /// No quilt of that name.
    #[error("there is no quilt called `{0}`")]
    NoSuchQuilt(String),
    /// A quilt of that name is there already.
    #[error("there is a quilt called `{0}` already")]
    QuiltTaken(String),
    /// What is sewn of this quilt was joined into another.
    #[error("what is sewn of it was joined into `{0}`, and is part of that")]
    JoinedInto(String),
    /// The quilt has no such head.
    #[error("{quilt} has no head called `{head}`")]
    NoSuchHead {
        /// Which quilt.
        quilt: String,
        /// Which head.
        head: String,
    },
    /// The quilt has a head of that name already.
    #[error("{quilt} has a head called `{head}` already")]
    HeadTaken {
        /// Which quilt.
        quilt: String,
        /// Which head.
        head: String,
    },
    /// A name that can't be used.
    #[error("`{name}` can't be a name: {why}")]
    BadName {
        /// What was given.
        name: String,
        /// What is wrong with it.
        why: &'static str,
    },
    /// The step isn't on the head's path.
    #[error("step {0} is not on the path of this head")]
    NotOnPath(StepId),
    /// No step of that mark on the head's path.
    #[error("there is no step {0} on the path of this head")]
    NoSuchMark(Mark),
    /// No such entry in the store.
    #[error("there is no step {0} in this workroom")]
    NoSuchStep(StepId),
    /// A cloth that the ledger doesn't know: it never came, or the trim that brought it was amended.
    #[error("a cloth is named that is not in this heap: {0}")]
    NoSuchCloth(ClothId),
    /// A cloth of which nothing is left.
    #[error("nothing is left of cloth number {no}")]
    NothingLeft {
        /// The cloth's number.
        no: u32,
    },
    /// No cloth of that number.
    #[error("there is no cloth number {0} in the heap")]
    NoSuchNumber(u32),
    /// A step that can't be carried out.
    #[error("step {mark}: {problem}")]
    Refused {
        /// Which step.
        mark: Mark,
        /// Why.
        problem: Problem,
    },
    /// A piece its cloth has no room for.
    #[error(
        "cloth {no} has no room for it: {area_in2:.2} square inches are missing, and it sticks out by {}",
        sixteenths(*.by_in)
    )]
    NotThere {
        /// The cloth's number.
        no: u32,
        /// How much of the piece lies outside, in square inches.
        area_in2: f64,
        /// How far it sticks out at most, in inches.
        by_in: f64,
    },
    /// Numbers that make no sense for what was asked.
    #[error("{what} is {value}; it must be {wanted}")]
    BadNumber {
        /// Which number.
        what: &'static str,
        /// What it is.
        value: f64,
        /// What it must be.
        wanted: &'static str,
    },
    /// Something only a pieced cloth has was asked of one that isn't pieced.
    #[error("cloth number {0} has no seams that could be unpicked")]
    NotPieced(u32),
    /// What is sewn on this head differs from what is sewn on another.
    #[error("{other} has other steps sewn: what is sewn lies on one path")]
    SewnElsewhere {
        /// The other head.
        other: String,
    },
    /// A head that alone holds steps that are sewn.
    #[error("{quilt}, {head} holds steps that are sewn, and no other head has them")]
    SewnOnlyHere {
        /// Which quilt.
        quilt: String,
        /// Which head.
        head: String,
    },
    /// It has been sewn already.
    #[error("step {0} is sewn already")]
    SewnAlready(Mark),
    /// Nothing to take back.
    #[error("there is nothing to undo")]
    NothingToUndo,
    /// Nothing to sew again.
    #[error("nothing was unpicked here that could be sewn again")]
    NothingToResew,
    /// A deed on which something later rests.
    #[error("`{0}` can't be undone: something else has changed since")]
    CannotUndo(String),
    /// A picture that can't be kept.
    #[error("the picture can't be kept: {0}")]
    Picture(String),
    /// A wish that makes no sense.
    #[error(transparent)]
    Wish(#[from] WishProblem),
    /// Scraps that could not be entered.
    #[error(transparent)]
    Intake(#[from] IntakeProblem),
    /// A bundle that could not be read or written.
    #[error(transparent)]
    Bundle(#[from] BundleProblem),
}

impl WorkroomError {
    /// What can be done about it, in one sentence.
    #[must_use]
    pub fn hint(&self) -> Option<String> {
        let hint = match self {
            Self::NewerVersion { .. } => "Use the newer Ragbag for it; it has been left as it was.",
            Self::NoWorkroom { .. } => "Make one, or name another folder.",
            Self::AlreadyThere { .. } => "Open it, or name another folder.",
            Self::ReadOnly { .. } => "Give yourself the right to write there, or name another folder.",
            Self::DiskFull => "Make room on the disk and try again.",
            Self::File { source, .. } if source.kind() == std::io::ErrorKind::FileTooLarge => {
                "The system limits how large a file may be: lift the limit, or name another folder."
            }
            Self::File { source, .. } if source.kind() == std::io::ErrorKind::NotADirectory => {
                "A part of that name is a file and no folder: check it, or name another folder."
            }
            Self::File { source, .. } if source.kind() == std::io::ErrorKind::NotFound => {
                "Check the name of the file, and that its folder is there."
            }
            Self::File { .. } => {
                "Check the name, and that there is room and the right to write; or name another."
            }
            Self::Database(error) if has_code(error, rusqlite::ErrorCode::SystemIoFailure) => {
                "The disk failed or a limit on files was reached; nothing was changed. See to it and try again."
            }
            Self::Database(error) if has_code(error, rusqlite::ErrorCode::CannotOpen) => {
                "Give yourself the right to write in that folder, or name another folder."
            }
            Self::Busy { .. } => "Wait for the other program, or close it, and try again.",
            Self::Damaged { .. } => "Go back to a copy, or import the quilt from its bundle.",
            Self::HeadMoved { .. } => "Look at it as it is now and do it again.",
            Self::NoSuchQuilt(_) | Self::NoSuchHead { .. } => "List the quilts to see their names.",
            Self::JoinedInto(_) => "Unpick there, or undo the joining.",
            Self::QuiltTaken(_) | Self::HeadTaken { .. } => "Choose another name.",
            Self::BadName { .. } => "Name another.",
            Self::NotOnPath(_) | Self::NoSuchMark(_) | Self::NoSuchStep(_) => {
                "Look at the log for the steps of this head."
            }
            Self::NoSuchCloth(_) => {
                "List the heap to see what is there. If a planned patch counts on an offcut that an amended trim no longer brings, say what is used instead, or unpick it."
            }
            Self::NoSuchNumber(_) | Self::NothingLeft { .. } => "List the heap to see what is there.",
            Self::Refused { .. } => {
                "The steps before it are sound: sew this one otherwise, or trim first what is in its way."
            }
            Self::NotThere { .. } => {
                "Take another scrap. If you did cut it all the same, say so: `cut` with `--anyway`, or `sewn`."
            }
            Self::BadNumber { what, wanted, .. } => return Some(format!("Choose {what} anew: {wanted}.")),
            Self::NotPieced(_) => "Only strip sets, slices and pieced offcuts come apart: name one of those.",
            Self::SewnElsewhere { .. } => "Unpick what is sewn there first, or go on sewing there.",
            Self::SewnOnlyHere { .. } => {
                "Unpick it to its first step first: then its patches are cloth again."
            }
            Self::SewnAlready(_) => "Unpick it first, or say what you used instead.",
            Self::NothingToUndo => {
                "Everything has been undone, back to the empty workroom: begin from there."
            }
            Self::NothingToResew => "Look at the log to see where this head is, and sew on from there.",
            Self::CannotUndo(_) => "Unpick to the step you want to go back to.",
            Self::Picture(_) => "Save it anew as PNG, JPEG or WebP, with fewer pixels if it is large.",
            Self::Wish(problem) => return problem.hint(),
            Self::Intake(problem) => return problem.hint(),
            Self::Bundle(problem) => return problem.hint(),
            _ => return None,
        };
        Some(hint.to_owned())
    }

    pub(crate) fn damaged(what: impl Into<String>) -> Self {
        Self::Damaged { what: what.into() }
    }

    /// What a failed file operation at `path` means.
    pub(crate) fn file(path: impl Into<PathBuf>, source: std::io::Error) -> Self {
        use std::io::ErrorKind;
        let path = path.into();
        match source.kind() {
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                Self::ReadOnly { what: format!("{}: {}", path.display(), file_trouble(&source)) }
            }
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Self::DiskFull,
            _ => Self::File { path, source },
        }
    }
}

/// Why a file can't be had, as the system says it, without its number.
#[must_use]
pub fn file_trouble(why: &std::io::Error) -> String {
    let told = why.to_string();
    let words = told.split(" (os error").next().unwrap_or_default();
    let mut letters = words.chars();
    // It goes on from what stands before it.
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

fn has_code(error: &rusqlite::Error, code: rusqlite::ErrorCode) -> bool {
    error.sqlite_error_code() == Some(code)
}

/// How long a write waits for another program, in seconds.
pub(crate) const PATIENCE_S: u64 = 5;

impl From<rusqlite::Error> for WorkroomError {
    fn from(error: rusqlite::Error) -> Self {
        use rusqlite::ErrorCode;
        match error.sqlite_error_code() {
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy { waited_s: PATIENCE_S },
            Some(ErrorCode::DiskFull) => Self::DiskFull,
            Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => {
                Self::ReadOnly { what: error.to_string() }
            }
            Some(ErrorCode::NotADatabase | ErrorCode::DatabaseCorrupt) => Self::damaged(error.to_string()),
            _ => Self::Database(error),
        }
    }
}
