//! Growing in the background: begun, told, stopped, refused when the log went on meanwhile.

use super::{Answer, get, post, send};
use crate::server::Shared;
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use plane::Region;
use quilt::cloth::Look;
use quilt::wish::Wish;
use serde_json::{Value, json};
use std::time::Duration;
use workroom::Workroom;
use workroom::stash::NewCloth;

/// A workroom with forty scraps of eight colours and a quilt of nine inches.
pub(super) fn with_scraps(folder: &tempfile::TempDir) -> Shared {
    let path = folder.path().join("room");
    let mut room = Workroom::create(&path).unwrap();
    let colours = ["red", "rust", "coral", "sand", "grey", "slate", "green", "navy"];
    let scrap = |i: usize| {
        let word = colours[i % 8];
        let outline = Region::rectangle(4.0 + (i % 5) as f64, 5.0 + (i % 7) as f64);
        NewCloth::scrap(&format!("{word} {i}"), outline, Look::plain(colour::read_words(word).unwrap()))
    };
    room.enter((0..40).map(scrap).collect()).unwrap();
    room.new_quilt("Tide", &Wish { across_in: 9.0, ..Wish::default() }).unwrap();
    Shared::new(room, Workroom::open(&path).unwrap())
}

fn begin(tip: &Value, ask: &Value) -> Request<Body> {
    let body = json!({ "head": "main", "tip": tip, "ask": ask });
    post("/api/quilts/Tide/jobs", &body.to_string(), "application/json")
}

fn stop(job: u64) -> Request<Body> {
    let path = format!("/api/jobs/{job}");
    Request::delete(path).header(header::HOST, "127.0.0.1:7117").body(Body::empty()).unwrap()
}

/// Looks at a job until `done` says so; what it looked like then.
async fn until(shared: &Shared, job: u64, done: impl Fn(&Value) -> bool) -> Value {
    for _ in 0..3000 {
        let seen = send(shared, get(&format!("/api/jobs/{job}"))).await;
        assert_eq!(seen.status, StatusCode::OK, "{}", seen.json);
        if done(&seen.json) {
            return seen.json;
        }
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
    panic!("job {job} never came so far");
}

fn number(begun: &Answer) -> u64 {
    assert_eq!(begun.status, StatusCode::ACCEPTED, "{}", begun.json);
    begun.json["job"].as_u64().unwrap()
}

fn steps(shared: &Shared) -> usize {
    shared.reading().log("Tide", "main").unwrap().steps.len()
}

const FEW: usize = 6;
const MANY: usize = 300;

#[tokio::test(flavor = "multi_thread")]
async fn a_job_answers_at_once_tells_how_far_it_is_and_ends_with_its_answer() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let grow = json!({ "kind": "grow", "pieces": FEW, "seed": 1 });
    let begun = send(&shared, begin(&Value::Null, &grow)).await;
    assert_eq!(begun.json["ended"], false);
    let end = until(&shared, number(&begun), |job| job["ended"] == true).await;
    assert_eq!(end["error"], Value::Null, "{end}");
    assert_eq!((&end["pieces"], &end["about"]), (&json!(FEW), &json!(FEW)));
    let tip = shared.reading().head("Tide", "main").unwrap().tip.unwrap().to_string();
    assert_eq!(end["answer"]["tip"], tip);
    assert!(end["answer"]["words"].as_str().unwrap().starts_with("Grown to"), "{end}");
    assert!(steps(&shared) >= FEW);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_stopped_job_keeps_a_sound_piece_and_others_are_answered_meanwhile() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let grow = json!({ "kind": "grow", "pieces": MANY, "seed": 1 });
    let job = number(&send(&shared, begin(&Value::Null, &grow)).await);
    let seen = until(&shared, job, |job| job["pieces"].as_u64() > Some(2)).await;
    assert_eq!(seen["ended"], false);
    assert_eq!(send(&shared, get("/api/workroom")).await.status, StatusCode::OK);
    // A page that is opened anew finds it.
    let known = send(&shared, get("/api/jobs")).await;
    let found = &known.json["jobs"][0];
    assert_eq!(
        (&found["job"], &found["quilt"], &found["head"]),
        (&json!(job), &json!("Tide"), &json!("main"))
    );
    let stopping = send(&shared, stop(job)).await;
    assert_eq!((stopping.status, &stopping.json["stopping"]), (StatusCode::OK, &json!(true)));
    let end = until(&shared, job, |job| job["ended"] == true).await;
    assert!(end["answer"]["words"].as_str().unwrap().starts_with("Stopped with"), "{end}");
    let pieces = {
        let table = shared.writing().table("Tide", "main").unwrap();
        table.piece().unwrap().1.faces().len()
    };
    assert!((2..MANY).contains(&pieces), "{pieces}");
    // Sound: it can be grown on.
    let tip = end["answer"]["tip"].clone();
    let more = json!({ "kind": "grow", "pieces": 2, "seed": 1 });
    let end = number(&send(&shared, begin(&tip, &more)).await);
    let end = until(&shared, end, |job| job["ended"] == true).await;
    assert_eq!(end["error"], Value::Null, "{end}");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_ifs_that_are_stopped_keep_those_that_have_grown() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let grow = json!({ "kind": "grow", "pieces": FEW, "seed": 1 });
    let job = number(&send(&shared, begin(&Value::Null, &grow)).await);
    let tip = until(&shared, job, |job| job["ended"] == true).await["answer"]["tip"].clone();
    let what_ifs = json!({ "kind": "what_ifs", "count": 3, "pieces": 8, "seed": 1 });
    let job = number(&send(&shared, begin(&tip, &what_ifs)).await);
    // The first of three is done once more than its share of pieces is placed.
    let share = |job: &Value| Some((job["pieces"].as_u64()?, job["about"].as_u64()? / 3));
    until(&shared, job, |job| share(job).is_some_and(|(pieces, one)| one > 0 && pieces > one)).await;
    send(&shared, stop(job)).await;
    let end = until(&shared, job, |job| job["ended"] == true).await;
    assert_eq!(end["error"], Value::Null, "{end}");
    let heads = shared.reading().quilts().unwrap()[0].heads.len();
    assert!((2..=3).contains(&(heads - 1)), "{heads}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_stale_head_is_refused_before_growing_and_after() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let grow = json!({ "kind": "grow", "pieces": MANY, "seed": 1 });
    let stale = send(&shared, begin(&json!("00"), &grow)).await;
    assert_eq!(stale.status, StatusCode::CONFLICT, "{}", stale.json);
    let job = number(&send(&shared, begin(&Value::Null, &grow)).await);
    until(&shared, job, |job| job["pieces"].as_u64() > Some(2)).await;
    {
        let mut room = shared.writing();
        let at = room.head("Tide", "main").unwrap().at();
        room.note(&at, "begun by hand meanwhile").unwrap();
    }
    send(&shared, stop(job)).await;
    let end = until(&shared, job, |job| job["ended"] == true).await;
    assert_eq!(end["answer"], Value::Null, "{end}");
    assert!(end["error"]["message"].is_string(), "{end}");
    assert_eq!(end["status"], 409, "{end}");
    assert_eq!(steps(&shared), 1, "the note stays, and nothing else");
}

#[tokio::test(flavor = "multi_thread")]
async fn only_growing_is_a_job_and_not_too_many_go_on_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let unpick = send(&shared, begin(&Value::Null, &json!({ "kind": "unpick" }))).await;
    assert_eq!(unpick.status, StatusCode::UNPROCESSABLE_ENTITY);
    let nobody = json!({ "head": "main", "tip": null, "ask": { "kind": "grow", "pieces": 2, "seed": 1 } });
    let nobody = post("/api/quilts/Nobody/jobs", &nobody.to_string(), "application/json");
    assert_eq!(send(&shared, nobody).await.status, StatusCode::NOT_FOUND);
    let grow = json!({ "kind": "grow", "pieces": MANY, "seed": 1 });
    let first = number(&send(&shared, begin(&Value::Null, &grow)).await);
    let second = number(&send(&shared, begin(&Value::Null, &grow)).await);
    let third = send(&shared, begin(&Value::Null, &grow)).await;
    assert_eq!(third.status, StatusCode::TOO_MANY_REQUESTS, "{}", third.json);
    for job in [first, second] {
        send(&shared, stop(job)).await;
        until(&shared, job, |job| job["ended"] == true).await;
    }
}
