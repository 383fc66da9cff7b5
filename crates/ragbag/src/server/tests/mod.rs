//! The router as a browser, and as somebody else's page, would meet it.

mod catch_up;
mod jobs;
mod page;
mod papers;
mod photos;
mod stages;
mod wish;

use super::{Shared, router};
use axum::body::{Body, to_bytes};
use axum::http::{Request, StatusCode, header};
use tower::ServiceExt;
use workroom::Workroom;

struct Answer {
    status: StatusCode,
    cache: String,
    json: serde_json::Value,
}

/// An empty workroom with a quilt, behind the router.
fn shared(folder: &tempfile::TempDir) -> Shared {
    let path = folder.path().join("room");
    let mut writing = Workroom::create(&path).unwrap();
    writing.new_quilt("Tide", &quilt::wish::Wish::default()).unwrap();
    Shared::new(writing, Workroom::open(&path).unwrap())
}

async fn send(shared: &Shared, request: Request<Body>) -> Answer {
    let response = router(shared.clone()).oneshot(request).await.unwrap();
    let status = response.status();
    let cache = response.headers().get(header::CACHE_CONTROL).map(|v| v.to_str().unwrap().to_owned());
    let bytes = to_bytes(response.into_body(), 1 << 20).await.unwrap();
    let json = serde_json::from_slice(&bytes).unwrap_or_default();
    Answer { status, cache: cache.unwrap_or_default(), json }
}

fn get(path: &str) -> Request<Body> {
    Request::get(path).header(header::HOST, "127.0.0.1:7117").body(Body::empty()).unwrap()
}

fn post(path: &str, body: &str, kind: &str) -> Request<Body> {
    let request =
        Request::post(path).header(header::HOST, "localhost:7117").header(header::CONTENT_TYPE, kind);
    request.body(Body::from(body.to_owned())).unwrap()
}

#[tokio::test]
async fn what_is_there_is_read_and_what_is_not_is_told_as_json() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let room = send(&shared, get("/api/workroom")).await;
    assert_eq!((room.status, &room.json["quilts"][0]["name"]), (StatusCode::OK, &"Tide".into()));
    assert_eq!(send(&shared, get("/api/stash?quilt=Tide")).await.status, StatusCode::OK);
    for (path, status) in [
        ("/api/quilts/Nobody/log", StatusCode::NOT_FOUND),
        ("/api/at/nonsense/table", StatusCode::BAD_REQUEST),
        ("/pictures/none", StatusCode::NOT_FOUND),
        ("/nothing/here", StatusCode::NOT_FOUND),
    ] {
        let answer = send(&shared, get(path)).await;
        assert_eq!(answer.status, status, "{path}");
        assert!(answer.json["error"]["message"].is_string(), "{path}");
    }
}

#[tokio::test]
async fn other_hosts_and_other_origins_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let away = Request::get("/api/workroom").header(header::HOST, "example.org").body(Body::empty()).unwrap();
    assert_eq!(send(&shared, away).await.status, StatusCode::MISDIRECTED_REQUEST);
    let mut foreign = post("/api/quilts/Tide/asks", "{}", "application/json");
    foreign.headers_mut().insert(header::ORIGIN, "http://example.org".parse().unwrap());
    assert_eq!(send(&shared, foreign).await.status, StatusCode::FORBIDDEN);
}

#[tokio::test]
async fn asks_are_checked_before_anything_is_done() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let ask = |body: &'static str, kind: &'static str| post("/api/quilts/Tide/asks", body, kind);
    let sound = r#"{"head":"main","tip":null,"ask":{"kind":"unpick"}}"#;
    let stale = r#"{"head":"main","tip":"00","ask":{"kind":"unpick"}}"#;
    let wrong = r#"{"head":"main","tip":null,"ask":{"kind":"dance"}}"#;
    let json = "application/json";
    assert_eq!(send(&shared, ask(sound, "text/plain")).await.status, StatusCode::UNSUPPORTED_MEDIA_TYPE);
    assert_eq!(send(&shared, ask("{", json)).await.status, StatusCode::BAD_REQUEST);
    assert_eq!(send(&shared, ask(wrong, json)).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(send(&shared, ask(stale, json)).await.status, StatusCode::CONFLICT);
    let nothing = send(&shared, ask(sound, json)).await;
    assert_eq!(nothing.status, StatusCode::NOT_FOUND, "{}", nothing.json);
}

#[tokio::test]
async fn whatever_a_request_has_wrong_is_told_as_json() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let json = "application/json";
    let asks = "/api/quilts/Tide/asks";
    let cases = [
        // The address: what can't be decoded, what is no number, what isn't there.
        (get("/api/quilts/%FF/log"), StatusCode::BAD_REQUEST),
        (get("/api/jobs/first"), StatusCode::BAD_REQUEST),
        (get("/api/jobs/1"), StatusCode::NOT_FOUND),
        (get("/api/photos/first"), StatusCode::BAD_REQUEST),
        (get("/api/photos/1"), StatusCode::NOT_FOUND),
        (post("/api/photos/1/kept", r#"{"kept":[]}"#, json), StatusCode::NOT_FOUND),
        (get("/api/stash/nonsense.svg"), StatusCode::BAD_REQUEST),
        (get("/api/at/00/offers/1.svg"), StatusCode::BAD_REQUEST),
        // What comes after the question mark.
        (get(&format!("/api/at/{}/eye", "0".repeat(64))), StatusCode::BAD_REQUEST),
        (get(&format!("/api/at/{}/front.svg?labels=perhaps", "0".repeat(64))), StatusCode::BAD_REQUEST),
        // The body.
        (post(asks, "{}", "text/plain"), StatusCode::UNSUPPORTED_MEDIA_TYPE),
        (post(asks, "{", json), StatusCode::BAD_REQUEST),
        (post(asks, "{}", json), StatusCode::UNPROCESSABLE_ENTITY),
        (post("/api/quilts/Tide/jobs", "{}", json), StatusCode::UNPROCESSABLE_ENTITY),
        // The way of asking.
        (post("/api/workroom", "{}", json), StatusCode::METHOD_NOT_ALLOWED),
        (get(asks), StatusCode::METHOD_NOT_ALLOWED),
    ];
    for (request, status) in cases {
        let what = format!("{} {}", request.method(), request.uri());
        let answer = send(&shared, request).await;
        assert_eq!(answer.status, status, "{what}: {}", answer.json);
        let message = answer.json["error"]["message"].as_str().unwrap_or_default();
        assert!(!message.is_empty(), "{what}");
    }
}

#[tokio::test]
async fn a_field_that_is_wrong_is_named_with_what_it_must_be() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    for (ask, told) in [
        (r#"{"kind":"grow","pieces":null,"seed":1}"#, "`pieces` is empty: it must be a whole number"),
        (r#"{"kind":"grow","pieces":"ten","seed":1}"#, "`pieces` is \"ten\": it must be a whole number"),
        (r#"{"kind":"instead","cloth":4}"#, "`cloth` is 4: it must be words"),
    ] {
        let body = format!(r#"{{"head":"main","tip":null,"ask":{ask}}}"#);
        let answer = send(&shared, post("/api/quilts/Tide/asks", &body, "application/json")).await;
        assert_eq!(answer.json["error"]["message"], told);
        assert!(answer.json["error"]["hint"].is_string());
    }
}

#[test]
fn the_description_names_every_address_that_is_served() {
    let described: serde_json::Value = serde_json::from_str(&super::description().unwrap()).unwrap();
    let paths = described["paths"].as_object().unwrap();
    for (path, ways) in [
        ("/api/workroom", &["get"][..]),
        ("/api/quilts/{quilt}/asks", &["post"]),
        ("/api/quilts/{quilt}/jobs", &["post"]),
        ("/api/jobs", &["get"]),
        ("/api/jobs/{job}", &["get", "delete"]),
        ("/api/stash", &["get", "post"]),
        ("/api/quilts", &["post"]),
        ("/api/undo", &["post"]),
        ("/api/quilts/{quilt}/wish", &["get", "patch"]),
        ("/api/quilts/{quilt}/looks", &["post"]),
        ("/api/quilts/{quilt}/stages", &["post"]),
        ("/api/quilts/{quilt}/enough", &["get"]),
        ("/api/cards", &["get", "put"]),
        ("/api/cards.pdf", &["get"]),
        ("/api/photos", &["post"]),
        ("/api/photos/{photo}", &["get", "delete"]),
        ("/api/photos/{photo}/from_above.png", &["get"]),
        ("/api/photos/{photo}/found/{no}", &["put"]),
        ("/api/photos/{photo}/kept", &["post"]),
        ("/api/photos/{photo}/piece", &["post"]),
        ("/api/photos/{photo}/measured", &["post"]),
        ("/api/looks/{look}", &["get"]),
        ("/api/looks/{look}/{place}/front.svg", &["get"]),
        ("/api/looks/{look}/{place}/back.svg", &["get"]),
    ] {
        for way in ways {
            assert!(paths[path][way].is_object(), "{way} {path}");
        }
    }
    let operations = paths.values().flat_map(|path| path.as_object().unwrap().values());
    let mut names: Vec<&str> = operations.map(|way| way["operationId"].as_str().unwrap()).collect();
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all, "each has a name of its own");
    let refusals = &paths["/api/quilts/{quilt}/jobs"]["post"]["responses"];
    for status in ["202", "400", "404", "409", "415", "422", "429"] {
        assert!(refusals[status].is_object(), "{status}");
    }
}

#[tokio::test]
async fn what_lies_at_a_step_is_kept_for_ever() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let tip = {
        let mut room = shared.writing();
        let at = room.head("Tide", "main").unwrap().at();
        room.note(&at, "begun").unwrap().tip.unwrap()
    };
    let table = send(&shared, get(&format!("/api/at/{tip}/table"))).await;
    assert_eq!(table.status, StatusCode::OK);
    assert!(table.cache.contains("immutable"), "{}", table.cache);
}
