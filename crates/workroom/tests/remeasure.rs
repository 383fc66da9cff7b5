//! A seen outline in the place of the planned one.

use ::grow::{Bend, Effort, Goal};
use plane::{Line, Point, Pose, Region, Turn, Vec2, polygon};
use quilt::cloth::Look;
use quilt::wish::Wish;
use workroom::Workroom;
use workroom::asks::{AskError, GrowAsk};
use workroom::quilts::At;
use workroom::stash::NewCloth;

fn grown(folder: &std::path::Path) -> (Workroom, At) {
    let mut room = Workroom::create(folder).unwrap();
    let cloths = ["red", "rust", "coral", "sand", "grey", "slate", "green", "navy"]
        .iter()
        .cycle()
        .take(32)
        .zip(0..)
        .map(|(word, i)| {
            let lab = colour::read_words(word).unwrap();
            let size = (4.0 + f64::from(i % 5), 5.0 + f64::from(i % 7));
            NewCloth::scrap(&format!("{word} {i}"), Region::rectangle(size.0, size.1), Look::plain(lab))
        })
        .collect();
    room.enter(cloths).unwrap();
    room.new_quilt("Test", &Wish { across_in: 9.0, ..Default::default() }).unwrap();
    let at = room.head("Test", "main").unwrap().at();
    let ask = GrowAsk { goal: Goal::Pieces(14), effort: Effort::QUICK, seed: 3, across_in: None };
    room.grow(&at, &ask, &mut ()).unwrap();
    room.true_up(&room.head("Test", "main").unwrap().at(), 6).unwrap();
    let at = room.head("Test", "main").unwrap().at();
    (room, at)
}

#[test]
fn what_was_sewn_replaces_what_was_planned_and_can_be_undone() {
    let folder = tempfile::tempdir().unwrap();
    let (mut room, at) = grown(&folder.path().join("w"));
    let planned = room.table("Test", "main").unwrap().piece().unwrap().1.outline_points();
    let lines: Vec<Line> = polygon::edges(&planned)
        .zip([0.0, 0.125, 0.0, -0.0625, 0.0, 0.1])
        .map(|((a, b), by)| Line::through(a, b).unwrap().inward(by))
        .collect();
    let truth: Vec<Point> = (0..6).map(|i| lines[(i + 5) % 6].crossing(lines[i]).unwrap()).collect();
    let seen = Pose::new(Turn::from_degrees(-77.0), Vec2::new(20.0, 11.0)).apply_all(&truth);
    let look = room.look_at_outline("Test", "main", &seen, Turn::from_degrees(77.0)).unwrap();
    assert!(!look.differences.is_empty());
    assert_eq!(room.head("Test", "main").unwrap().at(), at, "a look changes nothing");
    room.remeasure(&at, &seen, Turn::from_degrees(77.0)).unwrap();
    let now = room.table("Test", "main").unwrap().piece().unwrap().1.outline_points();
    for ((a, b), (c, d)) in polygon::edges(&now).zip(polygon::edges(&truth)) {
        assert!((a.distance(b) - c.distance(d)).abs() < 0.02, "{} {}", a.distance(b), c.distance(d));
    }
    assert!((polygon::area(&now) - polygon::area(&truth)).abs() < 0.1);
    let offers = room.propose("Test", "main", None, 3, &Bend::default()).unwrap();
    assert!(!offers.is_empty(), "the next pieces start from what is there");
    room.undo().unwrap();
    let back = room.table("Test", "main").unwrap().piece().unwrap().1.outline_points();
    assert_eq!(back, planned);
}

#[test]
fn another_pieces_outline_is_refused_and_nothing_changes() {
    let folder = tempfile::tempdir().unwrap();
    let (mut room, at) = grown(&folder.path().join("w"));
    let other = Region::rectangle(30.0, 20.0).outer;
    let refused = room.remeasure(&at, &other, Turn::NONE);
    assert!(matches!(refused, Err(AskError::CantBe { .. })), "{refused:?}");
    assert_eq!(room.head("Test", "main").unwrap().at(), at);
}
