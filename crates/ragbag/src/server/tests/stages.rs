//! Stages over HTTP: looked at, side by side, drawn, taken, unpicked, held against the heap.

use super::{Answer, get, post, send};
use crate::server::{Shared, router};
use axum::body::to_bytes;
use axum::http::StatusCode;
use plane::Region;
use quilt::cloth::Look;
use quilt::stage::enough::Shop;
use quilt::wish::Wish;
use serde_json::{Value, json};
use std::time::Duration;
use tower::ServiceExt;
use workroom::Workroom;
use workroom::stash::NewCloth;

const JSON: &str = "application/json";
const LOOKS: &str = "/api/quilts/Tide/looks";
const STAGES: &str = "/api/quilts/Tide/stages";

/// A workroom with a patch of 12 by 10 on the table, and lengths and a strip set in the heap.
fn with_a_piece(folder: &tempfile::TempDir) -> (Shared, String) {
    let path = folder.path().join("room");
    let mut room = Workroom::create(&path).unwrap();
    let length = |word: &str| {
        let look = Look::plain(colour::read_words(word).unwrap());
        NewCloth::scrap(&format!("{word}, a length"), Region::rectangle(44.0, 36.0), look)
    };
    let cloths = room.enter(["sand", "slate", "rust"].map(length).to_vec()).unwrap();
    room.sew_strips(&[(cloths[1].1, 2.0), (cloths[2].1, 2.0)], 40.0, 0.25).unwrap();
    room.new_quilt("Tide", &Wish::default()).unwrap();
    let at = room.head("Tide", "main").unwrap().at();
    room.lay(&at, cloths[0].1, &Region::rectangle(12.0, 10.0).outer).unwrap();
    let tip = room.head("Tide", "main").unwrap().tip.unwrap().to_string();
    (Shared::new(room, Workroom::open(&path).unwrap()), tip)
}

fn border(order: &str) -> Value {
    json!({ "border": { "cloth": "slate, a length", "sewn_in": ["2 1/2"], "order": order } })
}

async fn ask(shared: &Shared, path: &str, body: &Value) -> Answer {
    send(shared, post(path, &body.to_string(), JSON)).await
}

/// Looks at stages until they are there.
async fn looked(shared: &Shared, body: &Value) -> Value {
    let begun = ask(shared, LOOKS, body).await;
    assert!([StatusCode::OK, StatusCode::ACCEPTED].contains(&begun.status), "{}", begun.json);
    let look = begun.json["look"].as_u64().unwrap();
    for _ in 0..6000 {
        let seen = send(shared, get(&format!("/api/looks/{look}"))).await;
        assert_eq!(seen.status, StatusCode::OK, "{}", seen.json);
        if seen.json["ended"] == true {
            assert_eq!(seen.json["error"], Value::Null);
            return seen.json;
        }
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
    panic!("look {look} never ended");
}

async fn drawn(shared: &Shared, path: &Value) -> String {
    let response = router(shared.clone()).oneshot(get(path.as_str().unwrap())).await.unwrap();
    assert_eq!(response.status(), StatusCode::OK, "{path}");
    String::from_utf8(to_bytes(response.into_body(), 1 << 26).await.unwrap().to_vec()).unwrap()
}

fn steps(shared: &Shared) -> usize {
    shared.reading().log("Tide", "main").unwrap().steps.len()
}

#[tokio::test(flavor = "multi_thread")]
async fn every_stage_is_told_and_drawn_from_both_faces_and_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let stages = json!([
        { "ring": { "cloth": "strip set", "slice_in": "1 3/4" } },
        border("mitred"),
        { "square_up": { "goal": { "circle": { "diameter_in": "25 cm" } } } },
        { "layers": {} },
        { "quilting": { "design": "lines", "spacing_in": "1", "thread": "pale grey" } },
        { "binding": { "from": "rust, a length" } },
        { "sleeve": {} },
        { "figure": { "svg": "heron", "height_in": 5, "turn_under_in": 0.125 } },
    ]);
    let plain = drawn(&shared, &json!(format!("/api/at/{tip}/front.svg"))).await;
    let seen = looked(&shared, &json!({ "head": "main", "tip": tip, "stages": stages })).await;
    let seen = seen["seen"].as_array().unwrap();
    let names =
        ["Ring", "Border", "Squaring up", "Layers", "Quilting", "Binding", "Sleeve and label", "Figure"];
    assert_eq!(seen.len(), names.len());
    for (one, name) in seen.iter().zip(names) {
        let told = &one["told"];
        assert_eq!((&told["name"], &one["error"]), (&json!(name), &Value::Null), "{one}");
        assert!(told["sentence"].as_str().unwrap().len() > 20, "{told}");
        assert!(told["steps"].as_u64().unwrap() > 0 && told["report"].is_object(), "{told}");
        let front = drawn(&shared, &told["front_svg_url"]).await;
        let back = drawn(&shared, &told["back_svg_url"]).await;
        assert!(front.starts_with("<svg") && back.starts_with("<svg"), "{name}");
        assert_ne!(front, back, "{name}");
        // A back alone is seen from the back.
        if name != "Layers" && name != "Sleeve and label" {
            assert_ne!(front, plain, "{name}");
        }
    }
    assert_eq!(steps(&shared), 1);
}

#[tokio::test(flavor = "multi_thread")]
async fn several_orders_stand_side_by_side_and_what_is_refused_says_so_in_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let wide = json!({ "border": { "sewn_in": [30] } });
    let no_cloth = json!({ "ring": { "cloth": "brocade", "slice_in": 2 } });
    let stages = json!([border("apart_first"), wide, border("mitred"), no_cloth]);
    let seen = looked(&shared, &json!({ "head": "main", "tip": tip, "stages": stages })).await;
    for (place, refused) in [(0, false), (1, true), (2, false), (3, true)] {
        let one = &seen["seen"][place];
        assert_eq!(one["told"].is_null(), refused, "{one}");
        assert_eq!(one["error"]["message"].is_string(), refused, "{one}");
    }
    assert!(seen["seen"][3]["error"]["message"].as_str().unwrap().contains("brocade"));
    assert_ne!(seen["seen"][0]["told"]["list"], seen["seen"][2]["told"]["list"]);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_thread_is_asked_for_as_in_a_plan() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let thread = |word: &str| json!({ "quilting": { "design": "lines", "spacing_in": 1, "thread": word } });
    let spools = ["a spool of sand thread, 500 yards", "a spool of black thread, 500 yards"];
    for words in spools {
        shared.writing().supply(workroom::intake::read_supplies(words).unwrap().unwrap()).unwrap();
    }
    let stages = json!(["of the sea", "pale grey", "nearest", "contrasting"].map(thread));
    let seen = looked(&shared, &json!({ "head": "main", "tip": tip, "stages": stages })).await;
    let refused = &seen["seen"][0];
    assert!(refused["told"].is_null(), "{refused}");
    assert!(refused["error"]["message"].as_str().unwrap().contains("`of the sea`"), "{refused}");
    for (place, name) in [(1, "pale grey"), (2, "sand"), (3, "black")] {
        assert!(seen["seen"][place]["told"].is_object(), "{}", seen["seen"][place]);
        let front = drawn(&shared, &seen["seen"][place]["told"]["front_svg_url"]).await;
        let colour = colour::read_words(name).unwrap().to_srgb().to_string();
        assert!(front.contains(&colour), "{name}: no {colour}");
    }
    let stage = thread("nearest");
    ask(&shared, STAGES, &json!({ "head": "main", "tip": tip, "stage": stage })).await;
    let story = send(&shared, get("/api/quilts/Tide/log")).await.json;
    let last = story["entries"].as_array().unwrap().last().unwrap();
    assert!(last["sentence"].as_str().unwrap().ends_with(", in sand."), "{last}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_stage_is_taken_as_chalk_named_in_the_log_and_unpicked_whole() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let took = ask(&shared, STAGES, &json!({ "head": "main", "tip": tip, "stage": border("mitred") })).await;
    assert_eq!(took.status, StatusCode::OK, "{}", took.json);
    assert!(took.json["words"].as_str().unwrap().starts_with("Border: "), "{}", took.json);
    let bordered = took.json["tip"].clone();
    let stage = json!({ "quilting": { "design": "lines", "spacing_in": "1" } });
    let took = ask(&shared, STAGES, &json!({ "head": "main", "tip": bordered, "stage": stage })).await;
    assert_eq!(took.status, StatusCode::OK, "{}", took.json);
    let log = send(&shared, get("/api/quilts/Tide/log")).await.json;
    let entries = log["entries"].as_array().unwrap();
    assert_eq!(entries[1]["run"]["name"], "Border");
    let last = entries.last().unwrap();
    assert_eq!((&last["run"]["name"], &last["sewn"]), (&json!("Quilting"), &json!(false)));
    assert_eq!(last["sentence"], "Decide on the quilting: straight lines, rows 1 apart.");
    let unpick = |tip: &Value| json!({ "head": "main", "tip": tip, "ask": { "kind": "unpick" } });
    let back = ask(&shared, "/api/quilts/Tide/asks", &unpick(&took.json["tip"])).await;
    assert_eq!(back.json["tip"], bordered, "{}", back.json);
    let back = ask(&shared, "/api/quilts/Tide/asks", &unpick(&bordered)).await;
    assert_eq!(back.json["tip"], tip, "the border goes whole: {}", back.json);
}

#[tokio::test(flavor = "multi_thread")]
async fn what_cant_be_looked_at_or_taken_is_refused_and_the_log_stays() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let look = |stages: Value| json!({ "head": "main", "tip": tip, "stages": stages });
    let nine = Value::Array(vec![json!({ "sleeve": {} }); 9]);
    for (body, told) in [
        (look(json!([])), "0 stages"),
        (look(nine), "9 stages"),
        (look(json!([{ "hem": {} }])), "stage 1, hem"),
        (look(json!([{ "sleeve": {} }, { "ring": {}, "border": {} }])), "stage 2 names border and ring"),
        (look(json!([{ "quilting": { "spacng_in": 1 } }])), "doesn't know `spacng_in`"),
        (look(json!([{ "quilting": { "spacing_in": "half" } }])), "`spacing_in`"),
        (
            look(json!([{ "quilting": { "angle_deg": "steep" } }])),
            "`angle_deg` is \"steep\": it must be a number",
        ),
        (
            look(json!([{ "quilting": { "design": "zigzag" } }])),
            "`zigzag` is not known here; known are `round_spiral`",
        ),
        (look(json!([{ "ring": { "cloth": "strip set" } }])), "slice_in"),
        (look(json!([{ "border": { "sewn_in": [null] } }])), "a place of a list is empty"),
        (look(json!(["ring"])), "stage 1"),
        (look(json!({ "ring": {} })), ""),
        (json!({ "head": "main", "tip": tip }), "stages"),
    ] {
        let answer = ask(&shared, LOOKS, &body).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{body}: {}", answer.json);
        let message = answer.json["error"]["message"].as_str().unwrap();
        assert!(message.contains(told) && !message.is_empty(), "{body}: {message}");
    }
    let stale =
        json!({ "head": "main", "tip": null, "stages": [border("mitred")], "stage": border("mitred") });
    assert_eq!(ask(&shared, LOOKS, &stale).await.status, StatusCode::CONFLICT);
    assert_eq!(ask(&shared, STAGES, &stale).await.status, StatusCode::CONFLICT);
    let nobody =
        json!({ "head": "nobody", "tip": tip, "stages": [border("mitred")], "stage": border("mitred") });
    assert_eq!(ask(&shared, LOOKS, &nobody).await.status, StatusCode::NOT_FOUND);
    assert_eq!(ask(&shared, STAGES, &nobody).await.status, StatusCode::NOT_FOUND);
    for stage in [
        json!({ "border": { "sewn_in": [2] } }),
        json!({ "border": { "cloth": "brocade", "sewn_in": [2] } }),
        json!({ "square_up": { "goal": { "rectangle": { "width_in": 12, "height_in": 10 } } } }),
        json!({ "figure": { "svg": "heron", "height_in": 40 } }),
    ] {
        let answer = ask(&shared, STAGES, &json!({ "head": "main", "tip": tip, "stage": stage })).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{stage}: {}", answer.json);
        assert!(!answer.json["error"]["message"].as_str().unwrap().is_empty(), "{stage}");
    }
    let foreign = {
        let mut request = post(STAGES, &json!({ "head": "main", "tip": tip, "stage": {} }).to_string(), JSON);
        request.headers_mut().insert("origin", "http://example.org".parse().unwrap());
        request
    };
    assert_eq!(send(&shared, foreign).await.status, StatusCode::FORBIDDEN);
    for path in ["/api/looks/99", "/api/looks/99/1/front.svg", "/api/quilts/Nobody/enough"] {
        assert_eq!(send(&shared, get(path)).await.status, StatusCode::NOT_FOUND, "{path}");
    }
    assert_eq!(send(&shared, get("/api/looks/first")).await.status, StatusCode::BAD_REQUEST);
    assert_eq!(steps(&shared), 1);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_figure_comes_with_its_drawing_and_only_a_sound_one() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let leaf = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M1 1H9V9H1Z"/></svg>"#;
    let script = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><script>1</script></svg>"#;
    let large = format!("<svg>{}</svg>", " ".repeat(1 << 20));
    let body = |name: &str, svg: Option<&str>| {
        json!({ "head": "main", "tip": tip, "svg": svg,
            "stages": [{ "figure": { "svg": name, "width_in": "2", "cloth": "rust, a length" } }] })
    };
    for (name, svg, refused) in [
        ("leaf", Some(leaf), None),
        ("leaf", None, Some("no drawing was sent")),
        ("leaf", Some(script), Some("leaf")),
        ("leaf", Some("not a drawing"), Some("leaf")),
        ("leaf", Some(large.as_str()), Some("1048576")),
        ("../../etc/leaf", None, Some("no drawing was sent")),
    ] {
        let seen = looked(&shared, &body(name, svg)).await;
        let one = &seen["seen"][0];
        match refused {
            None => assert_eq!(one["told"]["name"], "Figure", "{one}"),
            Some(told) => {
                assert!(one["error"]["message"].as_str().unwrap_or_default().contains(told), "{one}");
            }
        }
    }
    let huge = "x".repeat(3 << 20);
    let answer = ask(&shared, LOOKS, &body("leaf", Some(&huge))).await;
    assert_eq!(answer.status, StatusCode::PAYLOAD_TOO_LARGE, "{}", answer.json);
    assert!(answer.json["error"]["message"].as_str().unwrap().contains("2 million"));
}

#[tokio::test(flavor = "multi_thread")]
async fn sizes_without_sense_are_refused_each_in_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let round: Vec<Value> = (0..20_000)
        .map(|i| f64::from(i) * std::f64::consts::TAU / 20_000.0)
        .map(|turn| json!({ "x": 6.0 + 4.0 * turn.cos(), "y": 5.0 + 4.0 * turn.sin() }))
        .collect();
    let stages = json!([
        { "quilting": { "design": "lines", "spacing_in": 0.000_001 } },
        { "quilting": { "design": "waves", "spacing_in": 1, "wave_length_in": 1e-9 } },
        { "border": { "cloth": "slate, a length", "sewn_in": [1e300] } },
        { "square_up": { "goal": { "circle": { "diameter_in": 1e18 } } } },
        { "square_up": { "goal": { "polygon": { "corners": round } } } },
        { "binding": { "strip_width_in": 1e12 } },
        { "figure": { "svg": "heron", "height_in": 1e15 } },
        { "ring": { "cloth": "strip set", "slice_in": 1e-12 } },
    ]);
    let seen = looked(&shared, &json!({ "head": "main", "tip": tip, "stages": stages })).await;
    for one in seen["seen"].as_array().unwrap() {
        let message = one["error"]["message"].as_str();
        assert!(message.is_some_and(|message| !message.is_empty()), "{}", one["stage"]);
    }
    assert_eq!(steps(&shared), 1);
}

#[tokio::test(flavor = "multi_thread")]
async fn only_the_last_looks_can_still_be_seen() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let body = json!({ "head": "main", "tip": tip, "stages": [{ "sleeve": {} }] });
    let first = looked(&shared, &body).await["look"].clone();
    for _ in 0..7 {
        looked(&shared, &body).await;
    }
    let gone = send(&shared, get(&format!("/api/looks/{first}"))).await;
    assert_eq!(gone.status, StatusCode::NOT_FOUND);
    let path = format!("/api/looks/{first}/1/front.svg");
    assert_eq!(send(&shared, get(&path)).await.status, StatusCode::NOT_FOUND);
}

#[tokio::test(flavor = "multi_thread")]
async fn enough_says_what_is_short_stage_by_stage_and_what_to_buy() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, tip) = with_a_piece(&folder);
    let before = send(&shared, get("/api/quilts/Tide/enough")).await;
    assert_eq!(before.status, StatusCode::OK, "{}", before.json);
    let stage = json!({ "quilting": { "design": "lines", "spacing_in": 1, "thread": "slate" } });
    ask(&shared, STAGES, &json!({ "head": "main", "tip": tip, "stage": stage })).await;
    let after = send(&shared, get("/api/quilts/Tide/enough?head=main")).await.json;
    assert_eq!(after["is_enough"], false, "{after}");
    let stages = after["stages"].as_array().unwrap();
    let quilting = stages.iter().find(|stage| stage["stage"] == "quilting").unwrap();
    assert!(quilting["short"][0].as_str().unwrap().contains("slate thread"), "{quilting}");
    assert!(after["buy"][0]["words"].as_str().is_some_and(|words| !words.is_empty()), "{after}");
    assert!(after["hours"].as_f64().unwrap() > 0.0);
    // By the maker's own minutes and her own shop, as on the command line.
    {
        let mut room = shared.writing();
        room.set_habits(&[("minutes_per_quilted_in".to_owned(), Some(60.0))]).unwrap();
        room.set_shop(&Shop { spool_m: 10.0, ..Shop::default() }).unwrap();
    }
    let own = send(&shared, get("/api/quilts/Tide/enough")).await.json;
    // Lines an inch apart on 12 by 10 are 120 inches: an hour an inch.
    assert!(own["hours"].as_f64().unwrap() > 110.0 && after["hours"].as_f64().unwrap() < 10.0, "{own}");
    assert_ne!(own["buy"], after["buy"], "spools of 10 metres");
    let nonsense = send(&shared, get("/api/quilts/Tide/enough?per_hour=-1")).await;
    assert_eq!(nonsense.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", nonsense.json);
    let words = send(&shared, get("/api/quilts/Tide/enough?per_hour=much")).await;
    assert_eq!(words.status, StatusCode::BAD_REQUEST, "{}", words.json);
}
