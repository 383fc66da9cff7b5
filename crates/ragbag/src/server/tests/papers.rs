//! Papers over the wire: made, refused in clear words, and what they go without.

use super::jobs::with_scraps;
use super::page::laid;
use super::{get, send, shared};
use crate::server::{Shared, router};
use axum::body::{Body, to_bytes};
use axum::http::{HeaderMap, Request, StatusCode, header};
use colour::Lab;
use plane::{Point, Region};
use quilt::cloth::{Look, Picture};
use quilt::log::{Entry, Mark, Step};
use quilt::wish::Wish;
use serde_json::{Value, json};
use tower::ServiceExt;
use workroom::Workroom;
use workroom::stash::NewCloth;

/// Heads and bytes of an answer that is a file.
async fn file(shared: &Shared, path: &str) -> (HeaderMap, Vec<u8>) {
    let response = router(shared.clone()).oneshot(get(path)).await.unwrap();
    let (status, heads) = (response.status(), response.headers().clone());
    let bytes = to_bytes(response.into_body(), 1 << 26).await.unwrap().to_vec();
    assert_eq!(status, StatusCode::OK, "{path}: {}", String::from_utf8_lossy(&bytes));
    (heads, bytes)
}

#[tokio::test]
async fn what_can_not_be_printed_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let empty = shared(&folder);
    for name in ["booklet", "steps", "templates", "foundation", "cutting"] {
        let answer = send(&empty, get(&format!("/api/quilts/Tide/papers/{name}"))).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{name}: {}", answer.json);
        assert!(answer.json["error"]["message"].as_str().unwrap().contains("nothing on the table"), "{name}");
    }
    let folder = tempfile::tempdir().unwrap();
    let some = with_scraps(&folder);
    laid(&some).await;
    for (asked, status, told) in [
        ("booklet?paper=3x4", StatusCode::BAD_REQUEST, "5 1/2 by 8 inches"),
        ("booklet?paper=folio", StatusCode::BAD_REQUEST, "`folio` is no paper"),
        ("nonsense", StatusCode::NOT_FOUND, "`nonsense` is no paper"),
        ("binding", StatusCode::UNPROCESSABLE_ENTITY, "no binding"),
        ("booklet?cm=perhaps", StatusCode::BAD_REQUEST, ""),
        ("booklet?head=nowhere", StatusCode::NOT_FOUND, "nowhere"),
    ] {
        let answer = send(&some, get(&format!("/api/quilts/Tide/papers/{asked}"))).await;
        assert_eq!(answer.status, status, "{asked}: {}", answer.json);
        assert!(answer.json["error"]["message"].as_str().unwrap().contains(told), "{asked}: {}", answer.json);
    }
    let cards = send(&some, get("/api/cards.pdf?paper=3x4")).await;
    assert_eq!(cards.status, StatusCode::BAD_REQUEST, "{}", cards.json);
}

#[tokio::test]
async fn a_booklet_says_what_it_goes_without_and_takes_any_words() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    laid(&shared).await;
    let long = "\u{1f9f5}\u{5d2}\n\u{0}tide".repeat(12);
    let words = json!({ "title": long, "maker": long, "cover": long, "papers": { "steps": long } });
    let put = |words: &Value| {
        let request = Request::put("/api/quilts/Tide/words").header(header::HOST, "localhost:7117");
        request.header(header::CONTENT_TYPE, "application/json").body(Body::from(words.to_string())).unwrap()
    };
    let kept = send(&shared, put(&words)).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.json);
    let refused =
        send(&shared, put(&json!({ "title": "w".repeat(500), "maker": "", "cover": "", "papers": {} })))
            .await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", refused.json);
    let (heads, bytes) = file(&shared, "/api/quilts/Tide/papers/booklet?paper=18x24").await;
    assert!(bytes.starts_with(b"%PDF"));
    let left: Vec<&str> = heads["ragbag-left-out"].to_str().unwrap().split(',').collect();
    assert!(left.contains(&"binding") && !left.contains(&"templates"), "{left:?}");
    assert_eq!(heads["ragbag-lost-pictures"], "0");
}

#[tokio::test]
async fn pictures_that_are_gone_are_counted() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("room");
    let mut room = Workroom::create(&path).unwrap();
    let picture = Picture {
        hash: "ab".repeat(32),
        format: "png".to_owned(),
        pixels_per_in: 100.0,
        top_left: Point::new(0.0, 8.0),
        size_px: [800, 800],
    };
    let look = Look::plain(Lab { l: 50.0, a: 10.0, b: 20.0 });
    let scrap = NewCloth::scrap("rust", Region::rectangle(8.0, 8.0), look);
    let cloth = room.enter(vec![NewCloth { picture: Some(picture), ..scrap }]).unwrap()[0].1;
    let head = room.new_quilt("Tide", &Wish::default()).unwrap();
    let cut = Region::rectangle(4.0, 4.0).outer;
    let lay = Entry { mark: Mark(1), run: None, step: Step::Lay { cloth, at: plane::Pose::STAY, cut } };
    room.append(&head.at(), &[lay]).unwrap();
    let shared = Shared::new(room, Workroom::open(&path).unwrap());
    let (heads, bytes) = file(&shared, "/api/quilts/Tide/papers/overview").await;
    assert!(bytes.starts_with(b"%PDF"));
    assert_eq!(heads["ragbag-lost-pictures"], "1");
}
