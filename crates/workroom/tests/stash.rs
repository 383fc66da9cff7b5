//! Cutting loses nothing, and the stash remembers where everything came from.

mod common;

use common::{Draw, enter, plain, rectangle, workroom};
use geo::{Area, BooleanOps};
use plane::{Point, Pose, Region, Turn, Vec2, polygon};
use quilt::cloth::{Kind, Look, Runs};
use workroom::WorkroomError;
use workroom::stash::{
    Across, By, Changes, CutAsk, Fact, Left, Stash, StripAsk, Usable, hole_free, portion, slices, take,
};

/// The same region for the second kernel, `geo`, which ours isn't built on.
fn to_geo(regions: &[Region]) -> geo::MultiPolygon<f64> {
    let ring = |points: &[Point]| -> geo::LineString<f64> { points.iter().map(|p| (p.x, p.y)).collect() };
    let polygons = regions.iter().map(|region| {
        geo::Polygon::new(ring(&region.outer), region.holes.iter().map(|hole| ring(hole)).collect())
    });
    geo::MultiPolygon::new(polygons.collect())
}

fn union(regions: &[Region]) -> geo::MultiPolygon<f64> {
    let none = geo::MultiPolygon::new(Vec::new());
    regions.iter().fold(none, |all, region| all.union(&to_geo(std::slice::from_ref(region))))
}

/// Piece, rest and waste are disjoint and their union is the cloth, by a second kernel (geo's
/// boolean operations, good to some 1e-5 square inch).
#[test]
fn pieces_rests_and_waste_are_disjoint_and_their_union_is_the_cloth() {
    const CLOSE: f64 = 1e-4;
    let mut draw = Draw(20);
    let (mut cut, mut with_holes, mut wasted) = (0, 0, 0);
    for case in 0..300 {
        let large = if case % 2 == 0 { 9.0 } else { 5.0 };
        let outer = draw.star(Point::ORIGIN, large / 3.0, large);
        let holes = if case % 3 == 0 { vec![draw.star(Point::ORIGIN, 0.3, 1.0)] } else { vec![] };
        let Ok(cloth) = Region::try_new(outer, holes) else { continue };
        let centre = Point::new(draw.between(-5.0, 5.0), draw.between(-5.0, 5.0));
        let Ok(piece) = Region::try_new(draw.star(centre, 0.5, 3.0), vec![]) else { continue };
        let cutting = take(&cloth, &piece.outer, Usable::default());
        let all: Vec<Region> =
            cutting.taken.iter().chain(&cutting.rest).chain(&cutting.waste).cloned().collect();
        let sum: f64 = all.iter().map(|region| to_geo(std::slice::from_ref(region)).unsigned_area()).sum();
        let whole = to_geo(std::slice::from_ref(&cloth));
        let together = union(&all);
        assert!((sum - together.unsigned_area()).abs() < CLOSE, "case {case}: they overlap");
        assert!(whole.xor(&together).unsigned_area() < CLOSE, "case {case}: they are not the cloth");
        // What sticks out is what the second kernel finds outside.
        let outside = to_geo(std::slice::from_ref(&piece)).difference(&whole).unsigned_area();
        let found = cutting.outside.map_or(0.0, |outside| outside.area_in2);
        assert!((outside - found).abs() < CLOSE, "case {case}: {outside} {found}");
        assert!(cutting.rest.iter().all(|region| Usable::default().keeps(region)));
        cut += usize::from(!cutting.taken.is_empty());
        with_holes += usize::from(cutting.rest.iter().any(|region| !region.holes.is_empty()));
        wasted += usize::from(!cutting.waste.is_empty());
    }
    assert!(cut > 200 && with_holes > 30 && wasted > 10, "{cut} {with_holes} {wasted}");
}

#[test]
fn nothing_is_lost_over_many_cuts_of_one_cloth() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 20.0, 16.0);
    let mut draw = Draw(5);
    let (mut taken, mut wasted, mut cuts) = (0.0, 0.0, 0);
    for _ in 0..60 {
        let centre = Point::new(draw.between(0.0, 20.0), draw.between(0.0, 16.0));
        let piece = draw.star(centre, 0.8, 2.0);
        let Ok(shape) = Region::try_new(piece.clone(), vec![]) else { continue };
        match room.cut(&CutAsk { cloth, piece, keep: false, anyway: false }) {
            Ok(report) => {
                taken += shape.area();
                wasted += report.waste_in2;
                cuts += 1;
            }
            Err(WorkroomError::NotThere { area_in2, .. }) => assert!(area_in2 > 0.0),
            Err(other) => panic!("{other}"),
        }
    }
    assert!(cuts > 8, "{cuts}");
    let stash = room.stash().unwrap();
    let there: Vec<Region> = stash.family(cloth).iter().map(|cloth| cloth.outline.clone()).collect();
    let sum: f64 = there.iter().map(Region::area).sum();
    assert!((sum + taken + wasted - 320.0).abs() < 1e-4, "{sum} {taken} {wasted}");
    assert!((union(&there).unsigned_area() - sum).abs() < 1e-4, "what is left overlaps");
    // Replaying the facts gives the same stash as keeping it up to date did.
    let kept = stash.clone();
    let folder = room.folder().to_owned();
    drop(room);
    assert_eq!(*workroom::Workroom::open(&folder).unwrap().stash().unwrap(), kept);
}

#[test]
fn cutting_what_isnt_there_is_refused_with_the_number_missing() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 5.0, 5.0);
    let ask = CutAsk { cloth, piece: rectangle(3.0, 3.0, 4.0, 1.0), keep: false, anyway: false };
    let error = room.cut(&ask).unwrap_err();
    let WorkroomError::NotThere { no: 1, area_in2, by_in } = error else { panic!("{error}") };
    assert!((area_in2 - 2.0).abs() < 1e-9 && (by_in - 2.0).abs() < 1e-9, "{area_in2} {by_in}");
    // As far as lengths are read to, it may run over the edge.
    let ask = CutAsk { piece: rectangle(0.0, 0.0, 5.0005, 2.0), ..ask };
    room.cut(&ask).unwrap();
    let error = room.cut(&ask).unwrap_err();
    assert!(matches!(error, WorkroomError::NotThere { .. }), "the same piece twice: {error}");
    let bow = [(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y)).to_vec();
    assert!(matches!(room.cut(&CutAsk { piece: bow, ..ask }), Err(WorkroomError::Intake(_))));
}

#[test]
fn a_cloth_whose_size_is_only_about_right_may_turn_out_larger() {
    let (_folder, mut room) = workroom();
    let mut scrap = plain("red stripe", Region::rectangle(3.0, 5.0));
    scrap.about = true;
    let cloth = room.enter(vec![scrap]).unwrap()[0].1;
    let ask = CutAsk { cloth, piece: rectangle(0.0, 0.0, 3.25, 5.0), keep: true, anyway: false };
    let report = room.cut(&ask).unwrap();
    assert!((report.beyond_in2 - 1.25).abs() < 1e-9);
    assert!(report.rest.is_empty());
}

#[test]
fn the_largest_rest_keeps_the_name_and_others_are_its_children() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 12.0, 4.0);
    let piece = rectangle(3.0, 0.0, 2.0, 4.0);
    let report = room.cut(&CutAsk { cloth, piece, keep: true, anyway: false }).unwrap();
    assert_eq!((report.rest.len(), report.rest[0]), (2, cloth));
    let stash = room.stash().unwrap();
    assert!((stash.get(cloth).unwrap().now.as_ref().unwrap().outline.area() - 28.0).abs() < 1e-6);
    assert_eq!(stash.lineage(report.rest[1]), [cloth]);
    assert_eq!(stash.lineage(report.kept.unwrap()), [cloth]);
    assert_eq!(stash.family(report.rest[1]).len(), 3);
    assert_eq!(stash.same_print(cloth).len(), 2, "rests are of the same print");
    assert_eq!(stash.present().iter().map(|(no, _)| *no).collect::<Vec<_>>(), [1, 2, 3]);
    assert_eq!(stash.by_number(1).unwrap().came.id, cloth);
    assert!(stash.by_number(0).is_none() && stash.by_number(9).is_none());
    // What is asked of the cloth is cut from the rest that has it.
    let piece = rectangle(0.5, 0.5, 2.0, 3.0);
    let again = room.cut(&CutAsk { cloth, piece, keep: false, anyway: false }).unwrap();
    assert_eq!(again.from, report.rest[1]);
}

#[test]
fn flaws_stay_on_the_part_they_are_on() {
    let (_folder, mut room) = workroom();
    let mut scrap = plain("stained", Region::rectangle(12.0, 4.0));
    scrap.flaws = vec![Region::rectangle(1.0, 1.0)];
    let cloth = room.enter(vec![scrap]).unwrap()[0].1;
    let ask = CutAsk { cloth, piece: rectangle(3.0, 0.0, 2.0, 4.0), keep: false, anyway: false };
    let report = room.cut(&ask).unwrap();
    let flaws = |room: &mut workroom::Workroom, id| {
        room.stash().unwrap().get(id).unwrap().now.as_ref().unwrap().flaws.len()
    };
    assert_eq!((flaws(&mut room, cloth), flaws(&mut room, report.rest[1])), (0, 1));
}

#[test]
fn scraps_of_one_print_know_each_other_and_can_be_told_to() {
    let (_folder, mut room) = workroom();
    let mut two = vec![plain("a", Region::rectangle(3.0, 3.0)), plain("b", Region::rectangle(4.0, 4.0))];
    two.iter_mut().for_each(|scrap| scrap.print_name = Some("ripple".to_owned()));
    let ids: Vec<_> = room.enter(two).unwrap().into_iter().map(|(_, id)| id).collect();
    let third = enter(&mut room, 5.0, 5.0);
    assert_eq!(room.stash().unwrap().same_print(ids[0]).len(), 1);
    room.same_print(&[ids[1], third]).unwrap();
    assert_eq!(room.stash().unwrap().same_print(third).len(), 2);
    let changes = Changes { place: Some("basket".to_owned()), about: Some(true), ..Changes::default() };
    room.change_cloth(third, changes).unwrap();
    let cloth = room.stash().unwrap().get(third).unwrap().now.clone().unwrap();
    assert_eq!((cloth.place.as_str(), cloth.about, cloth.name.as_str()), ("basket", true, "scrap"));
    room.give_away(third).unwrap();
    assert!(matches!(room.give_away(third), Err(WorkroomError::NothingLeft { no: 3 })));
    assert_eq!(room.stash().unwrap().same_print(ids[0]).len(), 1);
}

#[test]
fn an_outline_that_isnt_sound_enters_nothing() {
    let (_folder, mut room) = workroom();
    let bow = [(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y)).to_vec();
    let bow = Region { outer: bow, holes: vec![] };
    let error = room.enter(vec![plain("good", Region::rectangle(3.0, 3.0)), plain("bad", bow)]).unwrap_err();
    assert!(error.to_string().starts_with("scrap 2"), "{error}");
    assert!(room.stash().unwrap().present().is_empty());
}

#[test]
fn a_void_fact_and_a_void_void_leave_no_trace_but_the_numbers() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 9.0, 3.0);
    let came = room.stash().unwrap().get(cloth).unwrap().came.clone();
    let cut = Fact::Cut {
        from: cloth,
        by: By::Hand,
        taken: vec![Region::rectangle(3.0, 3.0)],
        kept: None,
        remainders: vec![],
        waste: vec![],
        beyond_in2: 0.0,
    };
    let facts = |voids: &[u64]| {
        let mut facts = vec![(1, Fact::Came { cloth: came.clone(), left: Left::Whole }), (2, cut.clone())];
        facts.extend(voids.iter().enumerate().map(|(i, at)| (3 + i as u64, Fact::Void(*at))));
        facts
    };
    let there = |voids: &[u64]| Stash::replay(&facts(voids)).present().len();
    assert_eq!((there(&[]), there(&[2]), there(&[2, 3]), there(&[1])), (0, 1, 0, 0));
}

/// Five strips: a whole set, as the ring of *Low Tide* wants it.
fn set(room: &mut workroom::Workroom) -> (Vec<quilt::cloth::ClothId>, quilt::cloth::ClothId) {
    let widths = [2.0, 1.5, 1.75, 1.5, 2.0];
    let cloths: Vec<_> = widths.iter().map(|_| enter(room, 30.0, 4.0)).collect();
    let at = Pose::new(Turn::NONE, Vec2::new(2.0, 1.0));
    let strips: Vec<StripAsk> =
        cloths.iter().zip(widths).map(|(&cloth, width_in)| StripAsk { cloth, width_in, at }).collect();
    let id = room.sew_strip_set(&strips, 24.0, 0.25).unwrap();
    (cloths, id)
}

#[test]
fn a_strip_set_shows_less_of_a_middle_strip_than_of_an_outer_one() {
    let (_folder, mut room) = workroom();
    let (cloths, id) = set(&mut room);
    let set = room.stash().unwrap().get(id).unwrap().now.clone().unwrap();
    assert_eq!(set.kind, Kind::StripSet);
    // 2 + 1.5 + 1.75 + 1.5 + 2 less 4 seams of half an inch (geometry).
    let (lo, hi) = polygon::bounds(&set.outline.outer).unwrap();
    assert_eq!((hi.x - lo.x, hi.y - lo.y), (24.0, 8.75 - 2.0));
    let shows: Vec<f64> = set.parts.iter().map(|part| polygon::area(&part.shows) / 24.0).collect();
    assert_eq!(shows, [1.75, 1.0, 1.25, 1.0, 1.75]);
    let parts: f64 = set.parts.iter().map(|part| polygon::area(&part.shows)).sum();
    assert_eq!(parts, set.outline.area());
    // Each part shows that of its cloth which was cut for it.
    for (part, cloth) in set.parts.iter().zip(&cloths) {
        assert_eq!(part.cloth, *cloth);
        let cut = Region { outer: rectangle(2.0, 1.0, 24.0, 2.0), holes: vec![] };
        let on_cloth = part.pose.inverse().apply_all(&part.shows);
        assert!(on_cloth.iter().all(|&p| plane::depth_inside(&cut, p) > -1e-9));
    }
    let share: f64 = set.look.shades.iter().map(|shade| shade.share).sum();
    assert!((share - 1.0).abs() < 1e-12);
}

#[test]
fn a_strip_set_of_one_or_of_strips_that_the_seams_use_up_is_refused() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 30.0, 10.0);
    let strip = |width_in, y| StripAsk { cloth, width_in, at: Pose::new(Turn::NONE, Vec2::new(0.0, y)) };
    assert!(room.sew_strip_set(&[strip(2.0, 0.0)], 10.0, 0.25).is_err());
    let thin = [strip(2.0, 0.0), strip(0.5, 3.0), strip(2.0, 6.0)];
    let error = room.sew_strip_set(&thin, 10.0, 0.25).unwrap_err();
    assert!(error.to_string().starts_with("strip 2 is 0.5 wide"), "{error}");
    // Two strips from the same place: the second is not there any more, and nothing was cut.
    let same = [strip(2.0, 0.0), strip(2.0, 1.0)];
    assert!(matches!(room.sew_strip_set(&same, 10.0, 0.25), Err(WorkroomError::NotThere { .. })));
    assert_eq!(room.stash().unwrap().present().len(), 1);
    assert!((room.stash().unwrap().present()[0].1.outline.area() - 300.0).abs() < 1e-9);
}

/// What is left between two cuts is narrower than leftovers are kept, and is cut all the same.
#[test]
fn strips_and_slices_are_cut_from_what_would_be_waste_between_the_cuts() {
    let (_folder, mut room) = workroom();
    // Three strips of 1 1/4 and a rest of 1/4: after the second cut 1 1/2 by 12 is left.
    let cloth = enter(&mut room, 12.0, 3.75);
    let set = room.sew_strips(&[(cloth, 1.25); 3], 12.0, 0.25).unwrap();
    assert!(room.stash().unwrap().get(cloth).unwrap().now.is_none(), "no waste stays in the heap");
    // Eleven slices of an inch, the last two of a set that is too narrow to keep.
    let across = Across { width_in: 1.0, lean_deg: 10.0, from_in: 0.0, count: None };
    let cut = room.slice(set, &across).unwrap();
    assert_eq!(cut.len(), 11);
    assert_eq!(room.stash().unwrap().present().len(), 11);
}

#[test]
fn slices_have_the_width_asked_for_square_or_slanted() {
    let set = Region::rectangle(24.0, 6.75);
    for lean_deg in [-45.0_f64, 0.0, 20.0, 45.0] {
        let across = Across { width_in: 2.5, lean_deg, from_in: 0.25, count: None };
        let found = slices(&set, &across).unwrap();
        // Geometry: each takes 2.5 / cos of the length, and the lean 6.75 tan once.
        let step = 2.5 / lean_deg.to_radians().cos();
        let room = 24.0 - 0.25 - 6.75 * lean_deg.to_radians().tan().abs();
        assert_eq!(found.len(), (room / step) as usize, "{lean_deg}");
        for slice in &found {
            assert!((polygon::area(slice) - step * 6.75).abs() < 1e-9);
            let (a, b) = (slice[0], slice[3]);
            let wide = (b - a).cross(slice[1] - a).abs() / a.distance(b);
            assert!((wide - 2.5).abs() < 1e-9, "{wide}");
        }
    }
    for (width_in, lean_deg, from_in) in
        [(0.0, 0.0, 0.0), (f64::NAN, 0.0, 0.0), (1.0, 80.0, 0.0), (1.0, 0.0, -1.0)]
    {
        assert!(slices(&set, &Across { width_in, lean_deg, from_in, count: None }).is_err());
    }
}

#[test]
fn slices_are_cloth_with_seams_and_come_apart_into_stripes_with_their_allowance() {
    let (_folder, mut room) = workroom();
    let (cloths, id) = set(&mut room);
    let across = Across { width_in: 2.5, lean_deg: 0.0, from_in: 0.0, count: Some(3) };
    let cut = room.slice(id, &across).unwrap();
    assert_eq!(cut.len(), 3);
    let slice = room.stash().unwrap().get(cut[1]).unwrap().now.clone().unwrap();
    assert_eq!((slice.kind, slice.parts.len()), (Kind::Pieced, 5));
    let rest = room.stash().unwrap().get(id).unwrap().now.clone().unwrap();
    assert!((rest.outline.area() - 16.5 * 6.75).abs() < 1e-6);
    let stripes = room.unpick_cloth(cut[1], 0.25).unwrap();
    assert_eq!(stripes.len(), 5);
    let widths = [2.0, 1.5, 1.75, 1.5, 2.0];
    for ((stripe, width), cloth) in stripes.iter().zip(widths).zip(&cloths) {
        let item = room.stash().unwrap().get(*stripe).unwrap().clone();
        assert!((item.came.outline.area() - 2.5 * width).abs() < 1e-6);
        assert_eq!(item.came.parent, Some(*cloth));
    }
    assert!(matches!(room.unpick_cloth(cut[1], 0.25), Err(WorkroomError::NothingLeft { .. })));
    assert!(matches!(room.unpick_cloth(stripes[0], 0.25), Err(WorkroomError::NotPieced(_))));
    room.undo().unwrap();
    assert!(room.stash().unwrap().get(cut[1]).unwrap().now.is_some());
}

#[test]
fn a_pieced_cloth_runs_the_way_of_its_strictest_part() {
    let (_folder, mut room) = workroom();
    let mut one_way = plain("ripple", Region::rectangle(12.0, 4.0));
    one_way.look.runs = Runs::OneWay(Turn::QUARTER);
    let ids = room.enter(vec![plain("a", Region::rectangle(12.0, 4.0)), one_way]).unwrap();
    let stay = StripAsk { cloth: ids[0].1, width_in: 2.0, at: Pose::STAY };
    let turned = StripAsk { cloth: ids[1].1, at: Pose::new(Turn::HALF, Vec2::new(12.0, 4.0)), ..stay };
    let set = room.sew_strip_set(&[stay, turned], 12.0, 0.25).unwrap();
    let look: Look = room.stash().unwrap().get(set).unwrap().came.look.clone();
    let Runs::OneWay(up) = look.runs else { panic!("{look:?}") };
    assert!((up.sin + 1.0).abs() < 1e-12, "its strip was turned upside down");
}

#[test]
fn a_part_with_a_hole_in_it_is_told_as_polygons_without() {
    let mut frame = Region::rectangle(10.0, 8.0);
    frame.holes = vec![rectangle(2.0, 2.0, 2.0, 3.0), rectangle(6.0, 2.0, 1.0, 4.0)]
        .into_iter()
        .map(|ring| ring.into_iter().rev().collect())
        .collect();
    let polygons = hole_free(frame.clone());
    let sum: f64 = polygons.iter().map(|ring| polygon::area(ring)).sum();
    assert!((sum - frame.area()).abs() < 1e-9 && polygons.len() > 1);
    let (_folder, mut room) = workroom();
    let id = enter(&mut room, 10.0, 8.0);
    let cloth = room.stash().unwrap().get(id).unwrap().came.clone();
    assert_eq!(portion(&cloth, frame.clone(), id).outline, frame);
}

#[test]
fn the_rule_for_leftovers_can_be_set() {
    let (_folder, mut room) = workroom();
    assert_eq!(room.usable().unwrap(), Usable::default());
    room.set_usable(Usable { least_width_in: 3.0, least_area_in2: 9.0 }).unwrap();
    let cloth = enter(&mut room, 8.0, 4.0);
    let ask = CutAsk { cloth, piece: rectangle(0.0, 0.0, 6.0, 4.0), keep: false, anyway: false };
    let report = room.cut(&ask).unwrap();
    assert!(report.rest.is_empty());
    assert!((report.waste_in2 - 8.0).abs() < 1e-6);
    assert!(room.set_usable(Usable { least_width_in: f64::NAN, least_area_in2: 0.0 }).is_err());
}

#[test]
fn a_cloth_measured_better_after_it_was_cut_is_still_without_what_was_cut_out() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 10.0, 6.0);
    room.cut(&CutAsk { cloth, piece: rectangle(0.0, 0.0, 4.0, 6.0), keep: false, anyway: false }).unwrap();
    let changes = Changes { outline: Some(Region::rectangle(10.5, 6.0)), ..Changes::default() };
    room.change_cloth(cloth, changes).unwrap();
    let item = room.stash().unwrap().get(cloth).unwrap().clone();
    assert!((item.came.outline.area() - 63.0).abs() < 1e-9);
    assert!((item.now.unwrap().outline.area() - 39.0).abs() < 1e-6);
    // A stain must be a sound outline, and comes counter-clockwise however it was drawn.
    let bow = [(5.0, 1.0), (6.0, 2.0), (6.0, 1.0), (5.0, 2.0)].map(|(x, y)| Point::new(x, y)).to_vec();
    let flawed = |outer| Changes { flaws: Some(vec![Region { outer, holes: vec![] }]), ..Changes::default() };
    assert!(matches!(room.change_cloth(cloth, flawed(bow)), Err(WorkroomError::Intake(_))));
    let clockwise = rectangle(5.0, 1.0, 1.0, 1.0).into_iter().rev().collect();
    room.change_cloth(cloth, flawed(clockwise)).unwrap();
    assert!(room.stash().unwrap().get(cloth).unwrap().came.flaws[0].area() > 0.0);
}
