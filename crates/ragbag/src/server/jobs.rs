//! Growing in the background: begun, looked at while it goes on, stopped with a sound piece.
//!
//! A job has a door of its own to the workroom, so that everything else can be asked meanwhile. When
//! the head has moved by the time it ends, it is refused like any other stale ask. Jobs live as
//! long as the program; the last [`KEPT`] that ended can still be read.

use super::asks::{answered, still_at};
use super::error::{ApiError, Refused};
use super::extract::{InBody, InPath};
use super::view::{AnswerView, AskBody, AskView, JobView, JobsView};
use super::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use grow::Watch;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, OnceLock};
use workroom::Workroom;

/// How many jobs that ended are remembered.
const KEPT: usize = 16;

/// Most jobs that grow at the same time.
const AT_ONCE: usize = 2;

/// All jobs of this program, by number.
#[derive(Default)]
pub(super) struct Jobs {
    last: u64,
    all: BTreeMap<u64, Arc<Job>>,
}

/// One job, as seen by whoever grows and by whoever looks.
#[derive(Default)]
struct Job {
    quilt: String,
    head: String,
    pieces: AtomicUsize,
    about: AtomicUsize,
    stop: AtomicBool,
    end: OnceLock<Result<AnswerView, ApiError>>,
}

impl Jobs {
    /// A new job, unless enough of them grow already.
    fn begin(&mut self, quilt: &str, head: &str) -> Option<(u64, Arc<Job>)> {
        let ended: Vec<u64> =
            self.all.iter().filter(|(_, job)| job.end.get().is_some()).map(|(number, _)| *number).collect();
        if self.all.len() - ended.len() >= AT_ONCE {
            return None;
        }
        for old in ended.iter().take(ended.len().saturating_sub(KEPT - 1)) {
            self.all.remove(old);
        }
        self.last += 1;
        let job = Arc::new(Job { quilt: quilt.to_owned(), head: head.to_owned(), ..Job::default() });
        self.all.insert(self.last, Arc::clone(&job));
        Some((self.last, job))
    }
}

impl Job {
    fn view(&self, number: u64) -> JobView {
        let end = self.end.get();
        JobView {
            job: number,
            quilt: self.quilt.clone(),
            head: self.head.clone(),
            pieces: self.pieces.load(Ordering::Relaxed),
            about: self.about.load(Ordering::Relaxed),
            stopping: self.stop.load(Ordering::Relaxed),
            ended: end.is_some(),
            answer: end.and_then(|end| end.as_ref().ok()).cloned(),
            status: end.and_then(|end| end.as_ref().err()).map(ApiError::status),
            error: end.and_then(|end| end.as_ref().err()).map(ApiError::said),
        }
    }
}

/// What growing tells its job, and hears from it.
struct Watching<'a>(&'a Job);

impl Watch for Watching<'_> {
    fn placed(&mut self, pieces: usize, about: usize) -> bool {
        self.0.pieces.store(pieces, Ordering::Relaxed);
        self.0.about.store(about, Ordering::Relaxed);
        !self.0.stop.load(Ordering::Relaxed)
    }
}

/// Begins to grow, or to grow what-ifs; answers at once.
#[utoipa::path(post, operation_id = "begin_job", path = "/api/quilts/{quilt}/jobs", params(("quilt" = String, Path)), request_body = AskBody,
    responses((status = 202, body = JobView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused),
        (status = 429, body = Refused)))]
pub(crate) async fn begin(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
    InBody(body): InBody<AskBody>,
) -> Result<(StatusCode, Json<JobView>), ApiError> {
    if !matches!(body.ask, AskView::Grow { .. } | AskView::WhatIfs { .. }) {
        let message = "only growing and what-ifs go on in the background";
        let hint = "Everything else is answered at once: send it to the quilt's asks.";
        return Err(ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, message, hint));
    }
    let (opened, wanted, head) = (shared.clone(), quilt.clone(), body.head.clone());
    let tip = body.tip.clone();
    let room = apart(move || door(&opened, &wanted, &head, tip.as_deref())).await??;
    let (number, job) = shared.jobs().begin(&quilt, &body.head).ok_or_else(|| {
        let message = format!("{AT_ONCE} pieces are growing already");
        ApiError::new(StatusCode::TOO_MANY_REQUESTS, message, "Wait for one of them, or stop it.")
    })?;
    let view = job.view(number);
    tokio::task::spawn(async move {
        let growing = Arc::clone(&job);
        let grown = apart(move || {
            let mut room = room;
            answered(&shared, &mut room, &quilt, &body, &mut Watching(&growing))
        });
        let end = grown.await.unwrap_or_else(Err);
        // A job ends once: nothing else sets this.
        let _ = job.end.set(end);
    });
    Ok((StatusCode::ACCEPTED, Json(view)))
}

/// Another door to the workroom, if that quilt and head are in it and stand at that tip.
pub(super) fn door(
    shared: &Shared,
    quilt: &str,
    head: &str,
    tip: Option<&str>,
) -> Result<Workroom, ApiError> {
    let room = Workroom::open(shared.reading().folder())?;
    still_at(&room.head(quilt, head)?, tip)?;
    Ok(room)
}

/// Every job that is known, so that a page opened anew finds what it began.
#[utoipa::path(get, operation_id = "jobs", path = "/api/jobs", responses((status = 200, body = JobsView)))]
pub(crate) async fn list(State(shared): State<Shared>) -> Json<JobsView> {
    let jobs = shared.jobs().all.iter().map(|(number, job)| job.view(*number)).collect();
    Json(JobsView { jobs })
}

/// How far a job has come.
#[utoipa::path(get, operation_id = "job", path = "/api/jobs/{job}", params(("job" = u64, Path)),
    responses((status = 200, body = JobView), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn read(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
) -> Result<Json<JobView>, ApiError> {
    Ok(Json(known(&shared, number)?.view(number)))
}

/// Asks a job to stop; what is there by then is a sound piece, and is kept.
#[utoipa::path(delete, operation_id = "stop_job", path = "/api/jobs/{job}", params(("job" = u64, Path)),
    responses((status = 200, body = JobView), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn stop(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
) -> Result<Json<JobView>, ApiError> {
    let job = known(&shared, number)?;
    job.stop.store(true, Ordering::Relaxed);
    Ok(Json(job.view(number)))
}

fn known(shared: &Shared, number: u64) -> Result<Arc<Job>, ApiError> {
    let gone = || {
        let message = format!("there is no job {number}");
        ApiError::new(StatusCode::NOT_FOUND, message, "Jobs are forgotten when Ragbag ends, or long after.")
    };
    shared.jobs().all.get(&number).cloned().ok_or_else(gone)
}
