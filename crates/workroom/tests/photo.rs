//! Photographs become cloth, and the piece on the table its measured outline. The pictures are rendered,
//! small, with a known truth.

use demo::scene::{Recipe, Scene, piece_scene, scene};
use demo::sewn;
use drawing::svg::{Pictures, SvgOptions};
use plane::{Point, Region, Turn, Vec2, polygon};
use quilt::cloth::{ClothId, Look};
use quilt::eye::{EyeCheck, Quality, Row, Shapes, eye_check};
use quilt::log::{Entry, Mark, Step};
use quilt::table::Table;
use quilt::wish::Wish;
use workroom::Workroom;
use workroom::asks::{AskError, DrawAsk};
use workroom::photo::{Kept, PhotoAsk, PhotoProblem, PhotoRead, PrintOf, card_patterns};
use workroom::stash::{CutAsk, NewCloth};

/// A small picture, with larger cards than usual, so that a cell is still many pixels wide.
const SMALL: &[[u32; 2]] = &[[1344, 1008]];

fn recipe() -> Recipe {
    Recipe {
        card_side_in: [2.4, 2.6],
        scraps: [4, 6],
        cut_off: 0.0,
        ravelled: 0.0,
        contrast: 25.0,
        tilt_deg: [0.0, 15.0],
        ..Recipe::NORMAL.in_size(SMALL)
    }
}

fn pattern(no: u16) -> Option<[[bool; 8]; 8]> {
    card_patterns().get(usize::from(no)).copied()
}

fn heap_scene(seed: u64) -> Scene {
    scene(&recipe(), seed, &pattern)
}

/// A picture with so many scraps at least.
fn heap_scene_of(count: usize) -> Scene {
    (3..30).map(heap_scene).find(|scene| scene.truth.cloths.len() >= count).unwrap()
}

/// A piece of five patches, and a picture of it on a mat from which every patch stands out.
fn piece() -> (Table, Scene) {
    let recipe = Recipe { least_pixels_per_in: 0.0, ..recipe() };
    let stands_out = |scene: &Scene| {
        let mat = scene.truth.mat.to_lab();
        let shades = scene.truth.cloths.iter().flat_map(|cloth| &cloth.look.shades);
        shades.filter(|shade| shade.share >= 0.2).all(|shade| colour::difference(shade.lab, mat) >= 12.0)
    };
    let taken = |seed| {
        let sewn = sewn(seed, 5, 24);
        let table = sewn.table(5);
        let scene = piece_scene(&recipe, seed, &pattern, &table, &sewn.heap)?;
        stands_out(&scene).then_some((table, scene))
    };
    (1..60).find_map(taken).unwrap()
}

fn room() -> (tempfile::TempDir, Workroom) {
    let folder = tempfile::tempdir().unwrap();
    let room = Workroom::create(&folder.path().join("w")).unwrap();
    (folder, room)
}

fn ask(scene: &Scene) -> PhotoAsk {
    PhotoAsk { side_in: Some(scene.truth.card_side_in), pixels_per_in: None }
}

fn all(read: &PhotoRead) -> Vec<Kept> {
    let kept =
        |which| Kept { which, name: format!("scrap {}", which + 1), outline: None, print: PrintOf::Own };
    (0..read.cloths.len()).map(kept).collect()
}

fn areas(areas: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut areas: Vec<f64> = areas.collect();
    areas.sort_by(f64::total_cmp);
    areas
}

#[test]
fn a_picture_fills_the_stash_with_cloth_of_its_size_and_look() {
    let scene = heap_scene(3);
    let jpeg = scene.to_jpeg().unwrap();
    let (_folder, mut room) = room();
    let read = room.read_photo("heap.jpg", &jpeg, &ask(&scene)).unwrap();
    assert_eq!(room.stash().unwrap().present().len(), 0, "a look changes nothing");
    assert_eq!(read.measured.cards.len(), 4);
    assert!(read.measured.residual_64ths < 1.0, "{}", read.measured.residual_64ths);
    assert!(read.measured.holds_share > 0.8 && read.measured.holds_px.len() > 3);
    let entered = room.enter_photo(&read, &all(&read)).unwrap();
    let stash = room.stash().unwrap();
    let cloths: Vec<_> = entered.iter().map(|(_, id)| stash.get(*id).unwrap().came.clone()).collect();
    let found = areas(cloths.iter().map(|cloth| cloth.outline.area()));
    let truth = areas(scene.truth.cloths.iter().map(|cloth| cloth.outline.area()));
    assert_eq!(found.len(), truth.len(), "{found:?} {truth:?}");
    for (found, truth) in found.iter().zip(&truth) {
        assert!((found / truth - 1.0).abs() < 0.02, "{found} {truth}");
    }
    for cloth in &cloths {
        let (low, _) = polygon::bounds(&cloth.outline.outer).unwrap();
        assert!(low.distance(Point::ORIGIN) < 1e-9, "each lies at its own origin");
        let picture = cloth.picture.as_ref().unwrap();
        let (bytes, format) = room.picture(&picture.hash).unwrap().unwrap();
        assert_eq!(format, "png");
        check_clip(&bytes, picture, &cloth.outline, &cloth.look);
    }
    assert_eq!(room.undo().unwrap(), "photograph");
    assert_eq!(room.stash().unwrap().present().len(), 0, "one deed");
}

/// The picture is there within the outline, clear outside, and has the colours of the look.
fn check_clip(png: &[u8], picture: &quilt::cloth::Picture, outline: &Region, look: &Look) {
    assert!((40.0..=150.0).contains(&picture.pixels_per_in));
    let [width, height] = picture.size_px;
    // Clear pixels come out white, laid on as they are.
    let seen = vision::decode(png).unwrap();
    assert_eq!([seen.width, seen.height], [width, height]);
    let place = |x: u32, y: u32| {
        let off = Vec2::new(f64::from(x) + 0.5, -f64::from(y) - 0.5);
        picture.top_left + off * (1.0 / picture.pixels_per_in)
    };
    let (mut sum, mut inside) = ([0.0; 3], 0.0);
    for y in (0..height).step_by(3) {
        for x in (0..width).step_by(3) {
            let at = place(x, y);
            let pixel = seen.at(i64::from(x), i64::from(y));
            if outline.contains(at) {
                inside += 1.0;
                sum.iter_mut().zip(pixel).for_each(|(sum, value)| *sum += f64::from(value));
            } else {
                assert_eq!(pixel, [255; 3], "clear at {at:?}");
            }
        }
    }
    let area = inside * 9.0 / picture.pixels_per_in.powi(2);
    assert!((area / outline.area() - 1.0).abs() < 0.02, "{area} {}", outline.area());
    let mean = sum.map(|sum| (sum / inside) as u8);
    let mean = colour::Srgb::new(mean[0], mean[1], mean[2]).to_lab();
    let off = colour::difference(mean, look.mean());
    assert!(off < 10.0, "the picture's mean is {off} from the look's");
}

#[test]
fn the_same_picture_twice_is_noticed_until_it_is_undone() {
    let scene = heap_scene(4);
    let jpeg = scene.to_jpeg().unwrap();
    let (_folder, mut room) = room();
    let read = room.read_photo("one.jpg", &jpeg, &ask(&scene)).unwrap();
    assert!(read.entered_before.is_empty());
    let entered = room.enter_photo(&read, &all(&read)[..2]).unwrap();
    let again = room.read_photo("copy of one.jpg", &jpeg, &ask(&scene)).unwrap();
    assert_eq!(again.entered_before, entered.iter().map(|(no, _)| *no).collect::<Vec<_>>());
    assert_eq!(again.measured.hash, read.measured.hash);
    // What is there already is the likest to itself.
    for (which, (no, _)) in entered.iter().enumerate() {
        let first = &again.cloths[which].candidates[0];
        assert_eq!((first.no, first.likeness > 0.9), (*no, true), "{first:?}");
    }
    room.undo().unwrap();
    let undone = room.read_photo("one.jpg", &jpeg, &ask(&scene)).unwrap();
    assert!(undone.entered_before.is_empty());
    assert!(undone.cloths.iter().all(|cloth| cloth.candidates.is_empty()));
}

#[test]
fn corrections_and_prints_are_kept_as_the_maker_says() {
    let scene = heap_scene_of(3);
    let (_folder, mut room) = room();
    let old = NewCloth::scrap("old", Region::rectangle(3.0, 3.0), workroom::intake::look_of("rust"));
    let old = room.enter(vec![old]).unwrap()[0].1;
    let print = room.stash().unwrap().get(old).unwrap().came.print.unwrap();
    let read = room.read_photo("one.jpg", &scene.to_jpeg().unwrap(), &ask(&scene)).unwrap();
    // The first corner goes a tenth of an inch outwards.
    let outline = &read.cloths[0].outline.outer;
    let middle = polygon::centroid(outline).unwrap();
    let out = outline[0] + (outline[0] - middle) * (0.1 / outline[0].distance(middle));
    let corrected = read.corrected(0, &[out]).unwrap();
    assert!(corrected.area() > read.cloths[0].outline.area());
    let mut kept = all(&read);
    kept.truncate(3);
    kept[0].outline = Some(corrected.clone());
    kept[0].print = PrintOf::Heap(print);
    kept[2].print = PrintOf::Found(1);
    let ids: Vec<ClothId> = room.enter_photo(&read, &kept).unwrap().into_iter().map(|(_, id)| id).collect();
    let stash = room.stash().unwrap();
    let came = |id: ClothId| stash.get(id).unwrap().came.clone();
    assert!((came(ids[0]).outline.area() - corrected.area()).abs() < 1e-9);
    assert_eq!(came(ids[0]).print, Some(print));
    assert_eq!(came(ids[1]).print, came(ids[2]).print);
    assert_ne!(came(ids[1]).print, Some(print));
    // Later, in the cloth's own inches.
    let corner = came(ids[1]).outline.outer[0];
    let (before, to) = (came(ids[1]).outline.area(), corner + Vec2::new(0.05, 0.05));
    room.correct_outline(ids[1], &[to]).unwrap();
    let now = room.stash().unwrap().get(ids[1]).unwrap().now.clone().unwrap();
    assert!(now.outline.outer.contains(&to));
    assert_ne!(now.outline.area(), before);
    room.undo().unwrap();
    assert_eq!(room.stash().unwrap().get(ids[1]).unwrap().came.outline.area(), before);
}

#[test]
fn what_can_not_be_kept_is_refused_and_changes_nothing() {
    let scene = heap_scene(4);
    let (_folder, mut room) = room();
    let read = room.read_photo("one.jpg", &scene.to_jpeg().unwrap(), &ask(&scene)).unwrap();
    let good = all(&read);
    let bent = |change: &dyn Fn(&mut Kept)| {
        let mut one = good[0].clone();
        change(&mut one);
        one
    };
    let bow = [(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y)).to_vec();
    let crossed = Region { outer: bow, holes: Vec::new() };
    let wrong = [
        (bent(&|one| one.which = 99), "there is no cloth 100"),
        (bent(&|_| ()), "cloth 1 is named twice"),
        (bent(&|one| one.print = PrintOf::Heap(5)), "no print of that number"),
        (bent(&|one| one.print = PrintOf::Found(98)), "no print of that number"),
        (bent(&|one| one.outline = Some(crossed.clone())), "the corrected outline can't be"),
    ];
    for (one, said) in wrong {
        let kept = if said.contains("twice") { vec![one.clone(), one] } else { vec![good[1].clone(), one] };
        let refused = room.enter_photo(&read, &kept).unwrap_err();
        assert!(refused.to_string().contains(said), "{refused}");
        assert!(refused.to_string().starts_with("one.jpg"), "{refused}");
        assert!(refused.hint().is_some(), "{refused}");
        assert_eq!(room.stash().unwrap().present().len(), 0);
    }
}

#[test]
fn bad_pictures_are_refused_by_name_and_reason() {
    let (_folder, mut room) = room();
    let scene = heap_scene(4);
    let jpeg = scene.to_jpeg().unwrap();
    let refused = |room: &mut Workroom, bytes: &[u8]| {
        let refused = room.read_photo("IMG_7.jpg", bytes, &ask(&scene)).unwrap_err();
        assert!(matches!(refused, AskError::Photo(_)), "{refused}");
        let said = refused.to_string();
        assert!(said.starts_with("IMG_7.jpg: "), "{said}");
        said
    };
    assert!(refused(&mut room, &[]).contains("empty"));
    assert!(refused(&mut room, b"name,width,height\n").contains("not a picture"));
    assert!(refused(&mut room, &jpeg[..jpeg.len() / 2]).contains("stops before its end"));
    let mat = Recipe { cards: [0, 0], ..recipe() };
    let bare = demo::scene::scene(&mat, 4, &pattern).to_jpeg().unwrap();
    assert!(refused(&mut room, &bare).contains("no measuring card"));
    let nothing = Recipe { scraps: [0, 0], ..recipe() };
    let nothing = demo::scene::scene(&nothing, 4, &pattern);
    let jpeg = nothing.to_jpeg().unwrap();
    let read = room.read_photo("mat.jpg", &jpeg, &ask(&nothing)).unwrap_err();
    assert!(matches!(read, AskError::Photo(PhotoProblem::NoCloth { .. })), "{read}");
    let large = vec![0_u8; workroom::photo::MOST_PHOTO_BYTES as usize + 1];
    assert!(refused(&mut room, &large).contains("65 megabytes; at most 64"));
    for side_in in [0.0, -1.0, f64::NAN, 90.0] {
        let ask = PhotoAsk { side_in: Some(side_in), pixels_per_in: None };
        assert!(matches!(room.read_photo("x", &jpeg, &ask), Err(AskError::Nonsense { .. })));
    }
    let ask = PhotoAsk { side_in: None, pixels_per_in: Some(4_000.0) };
    assert!(matches!(room.read_photo("x", &jpeg, &ask), Err(AskError::Nonsense { .. })));
    assert_eq!(room.stash().unwrap().present().len(), 0);
}

#[test]
fn the_side_of_a_card_is_told_once() {
    let (_folder, mut room) = room();
    assert_eq!(room.card_side().unwrap(), 2.0);
    assert!(room.set_card_side(-1.0).is_err());
    let scene = heap_scene(4);
    room.set_card_side(scene.truth.card_side_in).unwrap();
    let read = room.read_photo("one.jpg", &scene.to_jpeg().unwrap(), &PhotoAsk::default()).unwrap();
    assert_eq!(read.measured.side_in, scene.truth.card_side_in);
    assert_eq!(read.cloths.len(), scene.truth.cloths.len());
}

#[test]
fn the_piece_in_a_picture_replaces_the_planned_one() {
    let (table, scene) = piece();
    let truth = scene.truth.piece.clone().unwrap();
    let (_folder, mut room) = room();
    let at = planned(&mut room, &table);
    let jpeg = scene.to_jpeg().unwrap();
    let before = outline(&mut room);
    let turn = Turn::NONE;
    let look = room.look_at_photo("Piece", "main", ("table.jpg", &jpeg), &ask(&scene), turn).unwrap();
    assert_eq!(outline(&mut room), before, "a look changes nothing");
    assert!((look.outline.area() / truth.area() - 1.0).abs() < 0.02, "{}", look.outline.area());
    assert!(!look.remeasured.differences.is_empty());
    room.remeasure_photo(&at, ("table.jpg", &jpeg), &ask(&scene), turn).unwrap();
    let now = outline(&mut room);
    let (was, is) = (polygon::area(&before), polygon::area(&now));
    assert!((is / truth.area() - 1.0).abs() < 0.02, "{was} planned, {is} now, {} there", truth.area());
    let stale = room.remeasure_photo(&at, ("table.jpg", &jpeg), &ask(&scene), turn);
    assert!(matches!(stale, Err(AskError::Workroom(_))), "the head has moved");
    room.undo().unwrap();
    assert_eq!(outline(&mut room), before);
}

fn outline(room: &mut Workroom) -> Vec<Point> {
    room.table("Piece", "main").unwrap().piece().unwrap().1.outline_points()
}

/// The piece as one patch, planned by three in a hundred larger than it was sewn.
fn planned(room: &mut Workroom, table: &Table) -> workroom::quilts::At {
    let points = table.piece().unwrap().1.outline_points();
    let middle = polygon::centroid(&points).unwrap();
    let cut: Vec<Point> = points.iter().map(|p| middle + (*p - middle) * 1.03).collect();
    let cloth = NewCloth::scrap("large", Region::rectangle(60.0, 60.0), workroom::intake::look_of("rust"));
    let cloth = room.enter(vec![cloth]).unwrap()[0].1;
    room.new_quilt("Piece", &Wish::default()).unwrap();
    let at = room.head("Piece", "main").unwrap().at();
    room.lay(&at, cloth, &cut).unwrap();
    assert!(room.table("Piece", "main").unwrap().patches().contains_key(&Mark(1)));
    room.head("Piece", "main").unwrap().at()
}

#[test]
fn a_picture_of_scraps_is_no_picture_of_the_piece() {
    let scene = heap_scene(4);
    let (_folder, mut room) = room();
    let at = planned(&mut room, &sewn(3, 9, 24).table(9));
    let before = outline(&mut room);
    let jpeg = scene.to_jpeg().unwrap();
    let refused = room.remeasure_photo(&at, ("heap.jpg", &jpeg), &ask(&scene), Turn::NONE).unwrap_err();
    assert!(matches!(refused, AskError::CantBe { .. }), "{refused}");
    assert_eq!(outline(&mut room), before);
}

/// How far the outline that a kept photograph shows lies off the piece's, at most, in inches.
fn photograph_off(room: &mut Workroom, seen: &[Point]) -> f64 {
    let tip = room.head("Piece", "main").unwrap().tip.unwrap();
    let (_, photo) = room.photographed(tip).unwrap().unwrap();
    let table = room.table("Piece", "main").unwrap();
    let (_, top) = table.piece().unwrap();
    let face = top.faces().values().next().unwrap();
    let lies = photo.lies[&face.patch];
    let there: Vec<Point> = seen.iter().map(|p| face.pose.apply(lies.apply(*p))).collect();
    let from = |p: Point, (a, b): (Point, Point)| {
        let along = ((p - a).dot(b - a) / (b - a).dot(b - a)).clamp(0.0, 1.0);
        p.distance(a.lerp(b, along))
    };
    let outline = top.outline_points();
    let off = |p: &Point| polygon::edges(&outline).map(|side| from(*p, side)).fold(f64::INFINITY, f64::min);
    there.iter().map(off).fold(0.0, f64::max)
}

#[test]
fn the_photograph_of_the_piece_is_kept_and_lies_under_what_is_planned() {
    let (table, scene) = piece();
    let (folder, mut room) = room();
    let at = planned(&mut room, &table);
    let jpeg = scene.to_jpeg().unwrap();
    let photo = DrawAsk { photo: true, ..DrawAsk::default() };
    let svg = |room: &mut Workroom, ask: DrawAsk| {
        let tip = room.head("Piece", "main").unwrap().tip.unwrap();
        let linked = SvgOptions { pictures: Pictures::Linked("/pictures/"), id_prefix: "" };
        room.draw(tip, None, ask).unwrap().to_svg(&linked)
    };
    let before = svg(&mut room, photo);
    assert!(!before.contains("/pictures/"), "nothing is kept yet: the cloth shows");
    let ways = PhotoAsk { pixels_per_in: Some(40.0), ..ask(&scene) };
    let (head, look) = room.remeasure_photo(&at, ("table.jpg", &jpeg), &ways, Turn::NONE).unwrap();
    let seen = look.outline.outer.clone();
    // Three sixteenths: frays and rounded corners are no matter here.
    let off = photograph_off(&mut room, &seen);
    assert!(off < 0.1875, "{off}");
    let shown = svg(&mut room, photo);
    assert!(shown.contains("/pictures/") && shown.contains("photograph"));
    assert!(!svg(&mut room, DrawAsk::default()).contains("/pictures/"), "only when it is asked for");
    assert!(!svg(&mut room, DrawAsk { back: true, ..photo }).contains("/pictures/"), "it shows the front");

    // It goes with the piece when that is turned.
    let mark = room.next_mark("Piece", "main").unwrap();
    let turn = Step::Turn { top: Mark(1), by: Turn::from_degrees(37.0) };
    room.append(&head.at(), &[Entry { mark, run: None, step: turn }]).unwrap();
    // Three sixteenths: frays and rounded corners are no matter here.
    let off = photograph_off(&mut room, &seen);
    assert!(off < 0.1875, "{off}");

    // It travels with the quilt, and a file that lost its picture is refused.
    let bundle = room.export("Piece").unwrap();
    let mut other = Workroom::create(&folder.path().join("other")).unwrap();
    let report = other.import(&bundle, None).unwrap();
    assert_eq!(report.pictures, 1);
    assert_eq!(svg(&mut other, photo), svg(&mut room, photo));
    let tip = room.head("Piece", "main").unwrap().tip.unwrap();
    let hash = room.photographed(tip).unwrap().unwrap().1.picture.hash.clone();
    assert!(other.has_picture(&hash).unwrap());

    // Undone, it is gone; the plan is as it was to the letter.
    room.undo().unwrap();
    room.undo().unwrap();
    assert_eq!(svg(&mut room, photo), before);
    let tip = room.head("Piece", "main").unwrap().tip.unwrap();
    assert_eq!(room.photographed(tip).unwrap(), None);

    // A picture whose file is gone is known to be.
    std::fs::remove_file(other.picture_file(&hash).unwrap().unwrap()).unwrap();
    assert!(!other.has_picture(&hash).unwrap());
    assert!(other.export("Piece").unwrap_err().to_string().contains(&hash));
}

/// The planned eye check's number, and that from the picture alone.
fn both(planned: &EyeCheck, seen: &[Row], quality: Quality, name: &str) -> [f64; 2] {
    let value = |row: &Row| row.values.iter().find(|value| value.name == name).unwrap().value;
    [value(planned.row(quality).unwrap()), value(seen.iter().find(|row| row.quality == quality).unwrap())]
}

// Two ways to one number: from patches with their cloths' mean colours, and from pixels of a photograph of
// them. Roundness within .01, balance within .03 of the radius.
#[test]
fn the_eye_check_of_a_picture_agrees_with_that_of_the_plan() {
    let recipe = Recipe { least_pixels_per_in: 0.0, ..recipe() };
    let mut looked_at = 0;
    for seed in 1..60 {
        let sewn = sewn(seed, 8, 24);
        let table = sewn.table(8);
        let Some(scene) = piece_scene(&recipe, seed, &pattern, &table, &sewn.heap) else { continue };
        let mat = scene.truth.mat.to_lab();
        let shades = || scene.truth.cloths.iter().flat_map(|cloth| &cloth.look.shades);
        if shades().any(|shade| shade.share >= 0.2 && colour::difference(shade.lab, mat) < 12.0) {
            continue;
        }
        let cloths: std::collections::BTreeMap<ClothId, &Look> =
            sewn.heap.scraps.iter().map(|scrap| (scrap.cloth.id, &scrap.cloth.look)).collect();
        let (_, top) = table.piece().unwrap();
        let shapes = Shapes::of(top, 0.25, &|patch| {
            let cloth = table.patches().get(&patch)?.cloth;
            Some((cloths[&cloth].mean(), None, cloth))
        });
        let planned = eye_check(&shapes, &Wish::default());
        let (_folder, mut room) = room();
        let (_, eye) =
            room.look_by_eye(("wall.jpg", &scene.to_jpeg().unwrap()), &ask(&scene), None, 0.25).unwrap();
        let [plan, seen] = both(&planned, &eye.eye.rows, Quality::Round, "strays");
        assert!((plan - seen).abs() < 0.01, "seed {seed}: round {plan} planned, {seen} seen");
        let [plan, seen] = both(&planned, &eye.eye.rows, Quality::Balance, "off");
        assert!((plan - seen).abs() < 0.03, "seed {seed}: balance {plan} planned, {seen} seen");
        let across = 2.0 * (polygon::area(&shapes.outline) / std::f64::consts::PI).sqrt();
        assert!((eye.across_in / across - 1.0).abs() < 0.02, "{} {across}", eye.across_in);
        assert_eq!(eye.eye.rings.len(), 4);
        looked_at += 1;
        if looked_at == 4 {
            break;
        }
    }
    assert_eq!(looked_at, 4);
}

#[test]
fn an_edge_that_can_not_be_and_a_wish_of_no_quilt_are_refused() {
    let (_, scene) = piece();
    let (_folder, mut room) = room();
    let jpeg = scene.to_jpeg().unwrap();
    for edge_in in [-0.1, 5.0, f64::NAN] {
        let refused = room.look_by_eye(("wall.jpg", &jpeg), &ask(&scene), None, edge_in);
        assert!(matches!(refused, Err(AskError::Nonsense { .. })), "{refused:?}");
    }
    let refused = room.look_by_eye(("wall.jpg", &jpeg), &ask(&scene), Some("Ebb"), 0.25);
    assert!(matches!(refused, Err(AskError::Workroom(_))), "{refused:?}");
}

#[test]
fn a_whole_outline_is_set_anew_and_what_was_cut_out_stays_cut_out() {
    let (_folder, mut room) = room();
    let scrap = NewCloth::scrap("rust", Region::rectangle(6.0, 4.0), workroom::intake::look_of("rust"));
    let id = room.enter(vec![scrap]).unwrap()[0].1;
    let piece = Region::rectangle(2.0, 4.0).outer;
    room.cut(&CutAsk { cloth: id, piece, keep: false, anyway: false }).unwrap();
    let corners = [(0.0, 0.0), (7.0, 0.0), (6.5, 4.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y));
    room.set_outline(id, &corners).unwrap();
    let item = room.stash().unwrap().get(id).unwrap().clone();
    assert_eq!(item.came.outline.outer, corners);
    assert!((item.now.unwrap().outline.area() - (27.0 - 8.0)).abs() < 1e-9);
    let bow = [corners[0], corners[2], corners[1], corners[3]];
    let refused = room.set_outline(id, &bow).unwrap_err();
    assert!(matches!(refused, AskError::Workroom(_)), "{refused}");
    assert_eq!(room.stash().unwrap().get(id).unwrap().came.outline.outer, corners);
    room.undo().unwrap();
    assert_eq!(room.stash().unwrap().get(id).unwrap().came.outline, Region::rectangle(6.0, 4.0));
}
