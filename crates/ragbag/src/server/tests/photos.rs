//! Photographs over HTTP: given, read, put right, entered; the piece held against its plan; everything
//! that is no photograph of cloth.

use super::{Answer, get, post, send, shared};
use crate::server::{Shared, router};
use ::demo::scene::{Recipe, Scene, piece_scene, scene};
use axum::body::{Body, to_bytes};
use axum::http::{Request, StatusCode, header};
use plane::Region;
use quilt::cloth::Look;
use serde_json::{Value, json};
use std::time::Duration;
use tower::ServiceExt;
use workroom::photo::{MOST_PHOTO_BYTES, card_patterns};
use workroom::stash::NewCloth;

pub(super) const JSON: &str = "application/json";

pub(super) fn pattern(no: u16) -> Option<[[bool; 8]; 8]> {
    card_patterns().get(usize::from(no)).copied()
}

pub(super) fn pictured(scene: &Scene) -> Vec<u8> {
    scene.to_jpeg().unwrap()
}

fn few_scraps() -> Scene {
    let scenes = (1..20).map(|seed| scene(&Recipe::SMALL, seed, &pattern));
    let mut few = scenes.filter(|scene| scene.truth.cloths.len() >= 3);
    few.next().unwrap()
}

fn bytes(path: &str, bytes: Vec<u8>) -> Request<Body> {
    Request::post(path)
        .header(header::HOST, "localhost:7117")
        .header(header::CONTENT_TYPE, "application/octet-stream")
        .body(Body::from(bytes))
        .unwrap()
}

pub(super) fn put(path: &str, body: &Value) -> Request<Body> {
    let request =
        Request::put(path).header(header::HOST, "localhost:7117").header(header::CONTENT_TYPE, JSON);
    request.body(Body::from(body.to_string())).unwrap()
}

fn delete(path: &str) -> Request<Body> {
    Request::delete(path).header(header::HOST, "localhost:7117").body(Body::empty()).unwrap()
}

/// Gives a picture and looks at it until it has been read; its number and how it looked then.
pub(super) async fn read(shared: &Shared, of: &str, picture: Vec<u8>) -> (u64, Value) {
    let begun = send(shared, bytes(&format!("/api/photos?name=heap.jpg&of={of}"), picture)).await;
    assert!([StatusCode::OK, StatusCode::ACCEPTED].contains(&begun.status), "{}", begun.json);
    let photo = begun.json["photo"].as_u64().unwrap();
    for _ in 0..6000 {
        let seen = send(shared, get(&format!("/api/photos/{photo}"))).await;
        assert_eq!(seen.status, StatusCode::OK, "{}", seen.json);
        if seen.json["ended"] == true {
            return (photo, seen.json);
        }
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
    panic!("picture {photo} was never read");
}

pub(super) async fn ask(shared: &Shared, path: &str, body: &Value) -> Answer {
    send(shared, post(path, &body.to_string(), JSON)).await
}

async fn heap(shared: &Shared) -> Vec<Value> {
    send(shared, get("/api/stash")).await.json["cloths"].as_array().unwrap().clone()
}

#[tokio::test(flavor = "multi_thread")]
async fn scraps_on_a_photograph_are_seen_put_right_and_entered_in_one_deed() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let scene = few_scraps();
    let (photo, seen) = read(&shared, "scraps", pictured(&scene)).await;
    assert_eq!((&seen["error"], &seen["name"]), (&Value::Null, &json!("heap.jpg")));
    let seen = &seen["seen"];
    let found = seen["found"].as_array().unwrap();
    assert_eq!(found.len(), scene.truth.cloths.len());
    // How exact outlines are is held by other tests, on larger pictures.
    for one in found {
        assert!(one["area_in2"].as_f64().unwrap() > 1.0);
        assert!(!one["name"].as_str().unwrap().is_empty() && !one["colours"].as_array().unwrap().is_empty());
    }
    assert_eq!(seen["cards"].as_array().unwrap().len(), scene.truth.cards.len());
    assert!(seen["words"][0].as_str().unwrap().contains("pixels an inch"), "{seen}");

    // The picture from above is as wide and high as its window says.
    let above = router(shared.clone()).oneshot(get(seen["flat_url"].as_str().unwrap())).await.unwrap();
    assert_eq!(above.headers()[header::CONTENT_TYPE], "image/png");
    let png = to_bytes(above.into_body(), 1 << 26).await.unwrap();
    let number = |at: usize| f64::from(u32::from_be_bytes(png[at..at + 4].try_into().unwrap()));
    let window: Vec<f64> =
        seen["window_in"].as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect();
    assert!((number(16) / number(20) - window[2] / window[3]).abs() < 1e-6, "width over height");

    // The first is said to be an inch square; one whose sides cross is refused and changes nothing.
    let place = format!("/api/photos/{photo}/found/0");
    let square = json!({ "outline": [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]] });
    let crossed = json!({ "outline": [[0.0, 0.0], [1.0, 1.0], [1.0, 0.0], [0.0, 1.0]] });
    let mended = send(&shared, put(&place, &square)).await;
    assert_eq!(mended.status, StatusCode::OK, "{}", mended.json);
    assert_eq!((&mended.json["corrected"], &mended.json["area_in2"]), (&json!(true), &json!(1.0)));
    let refused = send(&shared, put(&place, &crossed)).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", refused.json);
    assert!(refused.json["error"]["hint"].is_string());
    let again = send(&shared, get(&format!("/api/photos/{photo}"))).await;
    assert_eq!(again.json["seen"]["found"][0], mended.json);
    let back = send(&shared, put(&place, &json!({ "outline": null }))).await;
    assert_eq!(back.json, found[0]);
    send(&shared, put(&place, &square)).await;

    let kept = json!({ "kept": [
        { "no": 0, "name": "the square" },
        { "no": 1, "name": "", "same": { "kind": "beside", "no": 0 } },
    ] });
    let entered = ask(&shared, &format!("/api/photos/{photo}/kept"), &kept).await;
    assert_eq!(entered.status, StatusCode::CREATED, "{}", entered.json);
    assert!(entered.json["words"].as_str().unwrap().contains("the square"), "{}", entered.json);
    let cloths = heap(&shared).await;
    assert_eq!(cloths.len(), 2);
    let square = cloths.iter().find(|cloth| cloth["name"] == "the square").unwrap();
    assert_eq!(square["area_in2"], 1.0);
    assert_eq!(cloths[0]["print"], cloths[1]["print"]);
    let picture = send(&shared, get(square["picture_url"].as_str().unwrap())).await;
    assert_eq!(picture.status, StatusCode::OK);
    // It is done with: nothing is entered twice by pressing twice.
    let twice = ask(&shared, &format!("/api/photos/{photo}/kept"), &kept).await;
    assert_eq!(twice.status, StatusCode::NOT_FOUND, "{}", twice.json);
    // The same picture once more is noticed.
    let (_, seen) = read(&shared, "scraps", pictured(&scene)).await;
    assert_eq!(seen["seen"]["entered_before"].as_array().unwrap().len(), 2);
    assert_eq!(send(&shared, post("/api/undo", "", JSON)).await.status, StatusCode::OK);
    assert_eq!(heap(&shared).await.len(), 0, "one deed");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_no_photograph_of_cloth_is_told_with_what_to_do_and_nothing_changes() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let whole = pictured(&few_scraps());
    let bare = papers::packed([400, 300], vec![u8::MAX; 400 * 300 * 4]);
    let cases = [
        (Vec::new(), "empty"),
        (b"a letter, not a picture".to_vec(), "not a picture"),
        (whole[..whole.len() / 3].to_vec(), "only a part"),
        (bare.unwrap(), "no measuring card"),
        (pictured(&scene(&Recipe { scraps: [0, 0], ..Recipe::SMALL }, 5, &pattern)), "no cloth"),
    ];
    for (picture, told) in cases {
        let (photo, seen) = read(&shared, "scraps", picture).await;
        let message = seen["error"]["message"].as_str().unwrap_or_default();
        assert!(message.contains(told) && message.contains("heap.jpg"), "{told}: {seen}");
        assert_eq!(seen["seen"], Value::Null);
        let kept = json!({ "kept": [{ "no": 0, "name": "it" }] });
        let refused = ask(&shared, &format!("/api/photos/{photo}/kept"), &kept).await;
        assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", refused.json);
    }
    let large = vec![0; MOST_PHOTO_BYTES as usize + 1];
    let large = send(&shared, bytes("/api/photos?name=large.jpg", large)).await;
    assert_eq!(large.status, StatusCode::PAYLOAD_TOO_LARGE, "{}", large.json);
    assert!(large.json["error"]["hint"].as_str().unwrap().contains("smaller"), "{}", large.json);
    let what = send(&shared, bytes("/api/photos?of=cats", Vec::new())).await;
    assert_eq!(what.status, StatusCode::BAD_REQUEST, "{}", what.json);
    assert_eq!(heap(&shared).await.len(), 0);
}

#[tokio::test(flavor = "multi_thread")]
async fn what_can_not_be_kept_is_refused_and_the_photograph_stays() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let (photo, _) = read(&shared, "scraps", pictured(&few_scraps())).await;
    let path = format!("/api/photos/{photo}/kept");
    for kept in [
        json!([]),
        json!([{ "no": 99, "name": "none" }]),
        json!([{ "no": 0, "name": "one" }, { "no": 0, "name": "two" }]),
        json!([{ "no": 0, "name": "one", "same": { "kind": "heap", "print": "7" } }]),
        json!([{ "no": 0, "name": "one", "same": { "kind": "heap", "print": "rust" } }]),
        json!([{ "no": 0, "name": "one", "same": { "kind": "beside", "no": 1 } }]),
    ] {
        let refused = ask(&shared, &path, &json!({ "kept": kept })).await;
        assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{kept}: {}", refused.json);
        assert!(refused.json["error"]["message"].is_string());
    }
    assert_eq!(heap(&shared).await.len(), 0);
    let nowhere =
        send(&shared, put(&format!("/api/photos/{photo}/found/99"), &json!({ "outline": null }))).await;
    assert_eq!(nowhere.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", nowhere.json);
    assert_eq!(send(&shared, get(&format!("/api/photos/{photo}"))).await.status, StatusCode::OK);
    assert_eq!(send(&shared, delete(&format!("/api/photos/{photo}"))).await.status, StatusCode::NO_CONTENT);
    for gone in [get(&format!("/api/photos/{photo}")), get(&format!("/api/photos/{photo}/from_above.png"))] {
        assert_eq!(send(&shared, gone).await.status, StatusCode::NOT_FOUND);
    }
}

#[tokio::test]
async fn the_cards_are_measured_once_and_a_length_that_can_not_be_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let printed = send(&shared, get("/api/cards")).await;
    assert_eq!(printed.json["side_in"], 2.0, "{}", printed.json);
    let kept = send(&shared, put("/api/cards", &json!({ "side": "50.8 mm" }))).await;
    assert_eq!(kept.status, StatusCode::OK, "{}", kept.json);
    assert!((kept.json["side_in"].as_f64().unwrap() - 2.0).abs() < 1e-9);
    send(&shared, put("/api/cards", &json!({ "side": "1 31/32" }))).await;
    for side in ["a bit", "0", "40"] {
        let refused = send(&shared, put("/api/cards", &json!({ "side": side }))).await;
        assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{side}: {}", refused.json);
    }
    assert_eq!(send(&shared, get("/api/cards")).await.json["side_in"], 1.96875);
    for paper in ["a4", "letter"] {
        let printed = router(shared.clone()).oneshot(get(&format!("/api/cards.pdf?paper={paper}"))).await;
        let printed = printed.unwrap();
        assert_eq!(printed.headers()[header::CONTENT_TYPE], "application/pdf");
        assert!(to_bytes(printed.into_body(), 1 << 24).await.unwrap().starts_with(b"%PDF"));
    }
    assert_eq!(send(&shared, get("/api/cards.pdf?paper=wall")).await.status, StatusCode::BAD_REQUEST);
}

/// A quilt whose first patch is the first of a sewn piece, and a photograph of it. The tip.
fn laid(shared: &Shared) -> (String, Vec<u8>) {
    let sewn = ::demo::sewn(4, 1, 8);
    let table = sewn.table(1);
    let outline = table.piece().unwrap().1.outline_points();
    let picture = piece_scene(&Recipe::SMALL, 4, &pattern, &table, &sewn.heap).unwrap();
    let mut room = shared.writing();
    let look = Look::plain(colour::read_words("sand").unwrap());
    let cloths = room.enter(vec![NewCloth::scrap("sand", Region::rectangle(40.0, 40.0), look)]).unwrap();
    let at = room.head("Tide", "main").unwrap().at();
    room.lay(&at, cloths[0].1, &outline).unwrap();
    (room.head("Tide", "main").unwrap().tip.unwrap().to_string(), pictured(&picture))
}

#[tokio::test(flavor = "multi_thread")]
async fn the_piece_is_held_against_its_plan_laid_on_it_and_measured() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let (tip, picture) = laid(&shared);
    let (photo, seen) = read(&shared, "piece", picture).await;
    assert_eq!(seen["error"], Value::Null, "{seen}");
    assert_eq!(seen["seen"]["found"].as_array().unwrap().len(), 1);
    // The maker doesn't say how it is turned: of several ways the best is taken.
    let body = json!({ "quilt": "Tide", "head": "main", "tip": tip, "no": 0 });
    let held = ask(&shared, &format!("/api/photos/{photo}/piece"), &body).await;
    assert_eq!(held.status, StatusCode::OK, "{}", held.json);
    let planned = shared.reading().table("Tide", "main").unwrap().piece().unwrap().1.outline_points();
    assert_eq!(held.json["sides"].as_array().unwrap().len(), planned.len());
    assert!(held.json["square"].is_array());
    // What was seen lies along the plan when it is laid there, y down.
    let matrix: Vec<f64> =
        held.json["laid"].as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect();
    for corner in seen["seen"]["found"][0]["outline"].as_array().unwrap() {
        let (x, y) = (corner[0].as_f64().unwrap(), -corner[1].as_f64().unwrap());
        let at = plane::Point::new(
            matrix[0] * x + matrix[2] * y + matrix[4],
            -(matrix[1] * x + matrix[3] * y + matrix[5]),
        );
        let from_side = |(a, b): (plane::Point, plane::Point)| {
            let along = ((at - a).dot(b - a) / (b - a).dot(b - a)).clamp(0.0, 1.0);
            at.distance(a.lerp(b, along))
        };
        let off = plane::polygon::edges(&planned).map(from_side).fold(f64::INFINITY, f64::min);
        // Three sixteenths: frays and rounded corners are no matter here.
        assert!(off < 0.1875, "{off}");
    }
    assert_eq!(shared.reading().head("Tide", "main").unwrap().tip.unwrap().to_string(), tip);

    let stale = json!({ "quilt": "Tide", "head": "main", "tip": "00", "no": 0 });
    for way in ["piece", "measured"] {
        let refused = ask(&shared, &format!("/api/photos/{photo}/{way}"), &stale).await;
        assert_eq!(refused.status, StatusCode::CONFLICT, "{}", refused.json);
    }
    let spun = json!({ "quilt": "Tide", "head": "main", "tip": tip, "no": 0, "turned_deg": 1e9 });
    let refused = ask(&shared, &format!("/api/photos/{photo}/piece"), &spun).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", refused.json);

    // Put right by the maker: half of it is folded under. That is another piece.
    let corner = json!({ "outline": [[0.0, 0.0], [0.5, 0.0], [0.5, 0.5]] });
    send(&shared, put(&format!("/api/photos/{photo}/found/0"), &corner)).await;
    let other = ask(&shared, &format!("/api/photos/{photo}/piece"), &body).await;
    assert_eq!(other.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", other.json);
    send(&shared, put(&format!("/api/photos/{photo}/found/0"), &json!({ "outline": null }))).await;

    let taken = ask(&shared, &format!("/api/photos/{photo}/measured"), &body).await;
    assert_eq!((taken.status, &taken.json["problems"]), (StatusCode::OK, &Value::Null), "{}", taken.json);
    assert!(taken.json["words"].as_str().unwrap().starts_with("Measured"), "{}", taken.json);
    let head = shared.reading().head("Tide", "main").unwrap();
    assert_eq!(taken.json["tip"], head.tip.unwrap().to_string());
    assert_eq!(shared.reading().log("Tide", "main").unwrap().steps.len(), 2);

    // Its picture is kept, and shows under the plan when it is asked for.
    let log = send(&shared, get("/api/quilts/Tide/log")).await;
    let entries = log.json["entries"].as_array().unwrap();
    assert_eq!((&entries[0]["photo"], &entries[1]["photo"]), (&Value::Null, &json!("kept")));
    let tip = taken.json["tip"].as_str().unwrap();
    for (asked, shown) in [("?photo=true", true), ("", false), ("?photo=false", false)] {
        let front = router(shared.clone()).oneshot(get(&format!("/api/at/{tip}/front.svg{asked}"))).await;
        let svg = to_bytes(front.unwrap().into_body(), 1 << 24).await.unwrap();
        let svg = String::from_utf8(svg.to_vec()).unwrap();
        assert_eq!(svg.contains("/pictures/"), shown, "{asked}");
    }
    let pictures = folder.path().join("room").join("pictures");
    let pictures = if pictures.is_dir() { pictures } else { shared.reading().folder().join("pictures") };
    std::fs::remove_dir_all(pictures).unwrap();
    let log = send(&shared, get("/api/quilts/Tide/log")).await;
    assert_eq!(log.json["entries"][1]["photo"], "missing");
}

#[tokio::test(flavor = "multi_thread")]
async fn the_eye_sees_a_piece_on_a_photograph_that_no_log_knows() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let sewn = ::demo::sewn(4, 3, 8);
    let scene = piece_scene(&Recipe::SMALL, 4, &pattern, &sewn.table(3), &sewn.heap).unwrap();
    let (photo, _) = read(&shared, "piece", pictured(&scene)).await;
    let eye = |asked: &str| format!("/api/photos/{photo}/eye{asked}");
    let seen = send(&shared, get(&eye(""))).await;
    assert_eq!(seen.status, StatusCode::OK, "{}", seen.json);
    let rows: Vec<&str> =
        seen.json["rows"].as_array().unwrap().iter().map(|row| row["key"].as_str().unwrap()).collect();
    assert_eq!(rows, ["Round", "Balance", "Drift"]);
    assert!(seen.json["words"].as_str().unwrap().contains("needs a log"), "{}", seen.json);
    assert_eq!(send(&shared, get(&eye("?quilt=Tide&edge=0"))).await.status, StatusCode::OK);
    for (asked, status) in [
        ("?edge=40", StatusCode::UNPROCESSABLE_ENTITY),
        ("?edge=a%20bit", StatusCode::UNPROCESSABLE_ENTITY),
        ("?no=7", StatusCode::UNPROCESSABLE_ENTITY),
        ("?quilt=Ebb", StatusCode::NOT_FOUND),
    ] {
        let refused = send(&shared, get(&eye(asked))).await;
        assert_eq!(refused.status, status, "{asked}: {}", refused.json);
        assert!(refused.json["error"]["message"].is_string());
    }
}

#[tokio::test]
async fn the_outline_of_a_cloth_in_the_heap_is_put_right_and_undone() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let look = Look::plain(colour::read_words("sand").unwrap());
    let scrap = NewCloth::scrap("sand", Region::rectangle(6.0, 4.0), look);
    let id = shared.writing().enter(vec![scrap]).unwrap()[0].1;
    let path = format!("/api/stash/{id}/outline");
    let seen = send(&shared, get(&path)).await;
    assert_eq!(
        seen.json["outline"],
        json!([[0.0, 0.0], [6.0, 0.0], [6.0, 4.0], [0.0, 4.0]]),
        "{}",
        seen.json
    );
    assert_eq!((&seen.json["picture"], &seen.json["left"]), (&Value::Null, &Value::Null));
    let wider = json!({ "outline": [[0.0, 0.0], [6.5, 0.0], [6.0, 4.0], [0.0, 4.0]] });
    let mended = send(&shared, put(&path, &wider)).await;
    assert_eq!(mended.status, StatusCode::OK, "{}", mended.json);
    assert!(mended.json["words"].as_str().unwrap().contains("put right, 6 1/2 by 4"), "{}", mended.json);
    assert_eq!(heap(&shared).await[0]["area_in2"], 25.0);
    let crossed = json!({ "outline": [[0.0, 0.0], [6.0, 4.0], [6.0, 0.0], [0.0, 4.0]] });
    let refused = send(&shared, put(&path, &crossed)).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", refused.json);
    let many = json!({ "outline": vec![[0.0, 0.0]; 2001] });
    assert_eq!(send(&shared, put(&path, &many)).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    for (nobody, status) in [("00000000000000ff", StatusCode::NOT_FOUND), ("rust", StatusCode::BAD_REQUEST)] {
        let path = format!("/api/stash/{nobody}/outline");
        assert_eq!(send(&shared, get(&path)).await.status, status);
        assert_eq!(send(&shared, put(&path, &wider)).await.status, status);
    }
    assert_eq!(send(&shared, post("/api/undo", "", JSON)).await.status, StatusCode::OK);
    assert_eq!(heap(&shared).await[0]["area_in2"], 24.0);
}

#[tokio::test(flavor = "multi_thread")]
async fn not_too_many_pictures_are_read_at_once_and_the_oldest_are_forgotten() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let mut first = None;
    for _ in 0..5 {
        let (photo, _) = read(&shared, "scraps", b"no picture".to_vec()).await;
        first.get_or_insert(photo);
    }
    let gone = send(&shared, get(&format!("/api/photos/{}", first.unwrap()))).await;
    assert_eq!(gone.status, StatusCode::NOT_FOUND);
    let held: Vec<_> = (0..2).map(|_| shared.photos().begin("held").unwrap()).collect();
    let third = send(&shared, bytes("/api/photos", Vec::new())).await;
    assert_eq!(third.status, StatusCode::TOO_MANY_REQUESTS, "{}", third.json);
    // One that is being read can't be forgotten, and isn't asked for what it shows.
    let path = format!("/api/photos/{}", held[0].0);
    assert_eq!(send(&shared, delete(&path)).await.status, StatusCode::NOT_FOUND);
    let early = send(&shared, get(&format!("{path}/from_above.png"))).await;
    assert_eq!(early.status, StatusCode::CONFLICT, "{}", early.json);
}
