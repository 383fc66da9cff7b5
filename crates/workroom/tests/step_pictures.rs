//! The pictures of the step cards: edges to sew, cuts, dots and labels, on pieces worked out by hand.

mod common;

use common::{enter, join, lay, plain, workroom};
use drawing::{Drawing, Item, Shape, Stroke};
use papers::flow::{Block, Fit};
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::log::{Along, Entry, Keep, Mark, Name, Run, RunKind, Step};
use quilt::wish::Wish;
use std::sync::Arc;
use workroom::Workroom;
use workroom::papers::{PaperKind, PapersWish};
use workroom::quilts::Head;

/// A figure: the drawing, its caption, and how high it may be.
type Figure = (Arc<Drawing>, String, f64);

/// Everything on the cards, also what stands inside of something else.
fn walk(blocks: &[Block], figures: &mut Vec<Figure>, words: &mut Vec<String>) {
    for block in blocks {
        match block {
            Block::Figure { drawing, caption, fit, .. } => {
                let high = if let Fit::Filling { height_in } = fit { *height_in } else { 0.0 };
                figures.push((drawing.clone(), caption.clone(), high));
            }
            Block::Heading { words: said, .. } | Block::Words { words: said, .. } => words.push(said.clone()),
            Block::List { items, .. } => words.extend(items.iter().cloned()),
            Block::Beside(cells) => cells.iter().for_each(|(_, cell)| walk(cell, figures, words)),
            Block::Columns { items, .. } => items.iter().for_each(|item| walk(item, figures, words)),
            Block::Together(inner) | Block::Framed(inner) => walk(inner, figures, words),
            _ => {}
        }
    }
}

fn cards(room: &mut Workroom, head: &Head, wish: &PapersWish) -> (Vec<Figure>, Vec<String>) {
    let paper = room.paper(head, PaperKind::Steps, wish).unwrap();
    let (mut figures, mut words) = (Vec::new(), Vec::new());
    walk(&paper.blocks, &mut figures, &mut words);
    (figures, words)
}

/// Red lines from one point to another, and what is written.
fn marked(items: &[Item]) -> (Vec<[Point; 2]>, Vec<String>) {
    let (mut lines, mut words) = (Vec::new(), Vec::new());
    for item in items {
        match &item.shape {
            Shape::Line { points, closed: false, stroke: Stroke::Mark } => {
                if let [from, to] = points.as_slice() {
                    lines.push([*from, *to]);
                }
            }
            Shape::Text(text) => words.push(text.words.clone()),
            Shape::Group { items, .. } => {
                let (some, said) = marked(items);
                lines.extend(some);
                words.extend(said);
            }
            _ => {}
        }
    }
    (lines, words)
}

fn has_line(drawing: &Drawing, from: (f64, f64), to: (f64, f64)) -> bool {
    let near = |p: Point, (x, y): (f64, f64)| p.distance(Point::new(x, y)) < 1e-6;
    marked(&drawing.items).0.iter().any(|[a, b]| near(*a, from) && near(*b, to))
}

fn append(room: &mut Workroom, name: &str, steps: &[Entry]) -> Head {
    let head = room.new_quilt(name, &Wish::default()).unwrap();
    room.append(&head.at(), steps).unwrap()
}

/// Two squares of 4 from the corner of a cloth of 20 by 10, and three patches of other sizes as a unit on the side
/// of both.
fn with_a_unit(room: &mut Workroom) -> Head {
    let cloth = enter(room, 20.0, 10.0);
    let steps = [
        lay(1, cloth, (0.0, 0.0), (4.0, 4.0)),
        lay(2, cloth, (4.0, 0.0), (4.0, 4.0)),
        join(3, (1, 1), (2, 3), true),
        lay(4, cloth, (8.0, 0.0), (2.0, 2.0)),
        lay(5, cloth, (10.0, 0.0), (3.0, 2.0)),
        lay(6, cloth, (13.0, 0.0), (3.5, 2.0)),
        join(7, (4, 1), (5, 3), true),
        join(8, (5, 1), (6, 3), true),
        join(9, (1, 2), (4, 0), true),
    ];
    append(room, "unit", &steps)
}

#[test]
fn the_edge_to_sew_is_red_on_the_scrap_and_on_the_unit() {
    let (_folder, mut room) = workroom();
    let head = with_a_unit(&mut room);
    for small_cards in [false, true] {
        let (figures, _) = cards(&mut room, &head, &PapersWish { small_cards, ..PapersWish::default() });
        let scrap = |patch: u32| {
            let title = format!("patch {patch} is cut");
            figures.iter().find(|(drawing, ..)| drawing.title.contains(&title)).map(|(drawing, ..)| drawing)
        };
        // Equal squares of one cloth have one picture: the edge of 1 that 2 is sewn to lies at 4.
        assert!(has_line(scrap(1).unwrap(), (4.0, 0.0), (4.0, 4.0)), "{small_cards}");
        // Each patch of the unit, the edge by which it is first sewn.
        assert!(has_line(scrap(4).unwrap(), (10.0, 0.0), (10.0, 2.0)), "{small_cards}");
        assert!(has_line(scrap(5).unwrap(), (10.0, 2.0), (10.0, 0.0)), "{small_cards}");
        assert!(has_line(scrap(6).unwrap(), (13.0, 2.0), (13.0, 0.0)), "{small_cards}");
        // The unit is 2 + 3 + 3 1/2, less two seams of twice 1/4.
        let long = |drawing: &Drawing, inches: f64| {
            marked(&drawing.items).0.iter().any(|[a, b]| (a.distance(*b) - inches).abs() < 1e-6)
        };
        let unit = figures.iter().filter(|(drawing, ..)| long(drawing, 7.5)).count();
        assert!(unit >= 2, "on the piece and on the unit, both 7 1/2: {unit}");
    }
}

#[test]
fn many_scraps_have_a_page_of_their_own_with_letters_and_a_list_each() {
    let (_folder, mut room) = workroom();
    let head = with_a_unit(&mut room);
    for paper in [papers::Paper::A4, papers::Paper::Letter] {
        let (figures, words) = cards(&mut room, &head, &PapersWish { paper, ..PapersWish::default() });
        let at = |said: &str| words.iter().position(|words| words == said);
        let [cut, sew] = ["Step 2: cut", "Step 2: sew. Patches 4, 5, 6"].map(|said| at(said).unwrap());
        let between = &words[cut..sew];
        let lists = between.iter().filter(|words| words.starts_with("1: from ")).count();
        assert_eq!(lists, 3, "{between:?}");
        for patch in [4, 5, 6] {
            let title = format!("patch {patch} is cut");
            let (drawing, _, high) =
                figures.iter().find(|(drawing, ..)| drawing.title.contains(&title)).unwrap();
            assert!(*high >= 2.4, "{high}");
            let (_, written) = marked(&drawing.items);
            // The picture has the letters and numbers that the list has.
            let list = between.iter().filter(|words| words.starts_with("1: from ")).nth(patch - 4).unwrap();
            let letters = list.split(' ').filter(|word| word.chars().all(|c| c.is_ascii_uppercase()));
            for letter in letters {
                assert!(written.contains(&letter.to_owned()), "{letter}: {written:?}");
            }
            for no in 1..=list.lines().count() {
                assert!(written.contains(&no.to_string()), "{no}: {written:?}");
            }
        }
        assert!(words[sew..].iter().any(|words| words.contains("as the page before this one shows")));
    }
}

#[test]
fn small_cards_have_no_figures_on_their_scraps_and_say_why() {
    let (_folder, mut room) = workroom();
    let head = with_a_unit(&mut room);
    let (figures, words) =
        cards(&mut room, &head, &PapersWish { small_cards: true, ..PapersWish::default() });
    let mut seen = 0;
    for (drawing, ..) in figures.iter().filter(|(drawing, ..)| drawing.title.contains("is cut from it")) {
        seen += 1;
        assert_eq!(marked(&drawing.items).1, Vec::<String>::new());
    }
    assert_eq!(seen, 4);
    let all = words.join(" ");
    assert!(all.contains("Cut each patch at least as large as said; then trim as sewn."), "{all}");
    assert!(all.contains("at least 2 by 2"), "{all}");
}

#[test]
fn marks_are_made_before_the_first_cut_and_a_flaw_is_explained_where_there_is_one() {
    let (_folder, mut room) = workroom();
    let head = with_a_unit(&mut room);
    let (_, words) = cards(&mut room, &head, &PapersWish::default());
    let all = words.join(" ");
    assert!(all.contains("Make all marks along the edges before the first cut"), "{all}");
    assert!(!all.contains("flaw"), "{all}");
    let stained = Region { outer: common::rectangle(8.0, 8.0, 1.0, 1.0), holes: Vec::new() };
    let mut cloth = plain("stained", Region::rectangle(10.0, 10.0));
    cloth.flaws = vec![stained];
    let cloth = room.enter(vec![cloth]).unwrap()[0].1;
    let head = append(&mut room, "flawed", &[lay(1, cloth, (0.0, 0.0), (4.0, 4.0))]);
    let (_, words) = cards(&mut room, &head, &PapersWish::default());
    assert!(words.join(" ").contains("is a flaw of the cloth"), "{words:?}");
}

#[test]
fn cards_go_by_eye_where_templates_are_refused() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 100.0, 20.0);
    // 61 strips of 1 by 16, sewn side to side: 61 pieces, 16 high.
    let mut steps = vec![lay(1, cloth, (0.0, 0.0), (1.0, 16.0))];
    for i in 1..61_u32 {
        let by = if i == 1 { 1 } else { 2 * i - 2 };
        steps.push(lay(2 * i, cloth, (f64::from(i), 0.0), (1.0, 16.0)));
        steps.push(join(2 * i + 1, (by, 1), (2 * i, 3), true));
    }
    let head = append(&mut room, "strips", &steps);
    let told = |room: &mut Workroom, anyway: bool| {
        let wish = PapersWish { by_template: true, anyway, ..PapersWish::default() };
        cards(room, &head, &wish).1.join(" ")
    };
    let refused = told(&mut room, false);
    assert!(refused.contains("by eye or by ruler, not by template: templates of 61 pieces"), "{refused}");
    assert!(refused.contains("at least 16 by 1"), "sizes to cut by: {refused}");
    let made = told(&mut room, true);
    assert!(!made.contains("not by template") && !made.contains("at least 16 by 1"), "{made}");
}

#[test]
fn the_picture_of_a_cut_across_names_the_patches_that_its_words_name() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 20.0, 20.0);
    let along = Along::From { side: Name::new(Mark(1), 1), at_in: 3.0, turn: Turn::QUARTER };
    let steps = [
        lay(1, cloth, (0.0, 0.0), (6.0, 4.0)),
        lay(2, cloth, (6.0, 0.0), (6.0, 2.0)),
        join(3, (1, 0), (2, 2), true),
        Entry { mark: Mark(4), run: None, step: Step::Cut { top: Mark(1), along, keep: Keep::Both } },
    ];
    let head = append(&mut room, "slice", &steps);
    let (figures, _) = cards(&mut room, &head, &PapersWish::default());
    let so_far = figures.iter().find(|(_, caption, _)| caption == "The piece so far").unwrap();
    assert_eq!(marked(&so_far.0.items).1, ["1"], "both ends are told along patch 1");
}

#[test]
fn a_border_strip_that_is_cut_longer_than_its_edge_is_trimmed() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 40.0, 20.0);
    // The piece's sides lean by 1 in 2: sewn by 1/4, it is 5 3/4 wide at the seam, and so is the strip, whose ends go
    // on in line. As drawn nothing sticks out; cut as the card says, 7 1/2 by 2, its ends do.
    let shape = |corners: [(f64, f64); 4]| corners.map(|(x, y)| Point::new(x, y)).to_vec();
    let piece = shape([(0.0, 0.0), (6.0, 0.0), (4.0, 4.0), (2.0, 4.0)]);
    let cut = shape([(1.0, 0.0), (6.5, 0.0), (7.5, 2.0), (0.0, 2.0)]);
    let at = Pose::new(Turn::NONE, Vec2::new(0.0, 10.0));
    let run = Some(Run { first: Mark(4), kind: RunKind::Border, ask: None });
    let mut sewn = join(5, (1, 0), (4, 0), true);
    sewn.run.clone_from(&run);
    let steps = [
        Entry {
            mark: Mark(1),
            run: None,
            step: Step::Lay { cloth, at: Pose::new(Turn::NONE, Vec2::new(0.0, 0.0)), cut: piece },
        },
        lay(2, cloth, (20.0, 0.0), (3.0, 2.0)),
        join(3, (1, 2), (2, 0), true),
        Entry { mark: Mark(4), run, step: Step::Lay { cloth, at, cut } },
        sewn,
    ];
    let head = append(&mut room, "edged", &steps);
    let (_, words) = cards(&mut room, &head, &PapersWish::default());
    let trims = words.iter().filter(|words| words.starts_with("Trim what sticks out at its ends")).count();
    assert_eq!(trims, 1, "{words:?}");
}
