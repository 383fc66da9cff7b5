//! What was sewn since the last step is read from one picture and taken in. The pictures are rendered,
//! small, with a known truth.

use demo::Sewn;
use demo::scene::{Recipe, Scene, piece_scene};
use plane::{Point, Region, Turn, polygon};
use quilt::cloth::ClothId;
use quilt::log::{Entry, Step};
use quilt::wish::Wish;
use std::collections::BTreeMap;
use workroom::Workroom;
use workroom::asks::AskError;
use workroom::photo::{MadeOf, PhotoAsk, PhotoProblem, PhotoRead, card_patterns};
use workroom::quilts::At;
use workroom::stash::NewCloth;

/// Patches that are known of, and patches on the table.
const KNOWN: usize = 5;
const ALL: usize = 8;

/// A piece on a mat from which all of it stands out, held straight.
fn recipe() -> Recipe {
    Recipe {
        card_side_in: [2.0, 2.0],
        least_pixels_per_in: 0.0,
        tilt_deg: [0.0, 12.0],
        blur_px: [0.3, 0.6],
        ..Recipe::NORMAL.in_size(&[[2016, 1512]])
    }
}

fn pattern(no: u16) -> Option<[[bool; 8]; 8]> {
    card_patterns().get(usize::from(no)).copied()
}

const SEED: u64 = 3;

fn shown(sewn: &Sewn, patches: usize) -> Scene {
    piece_scene(&recipe(), SEED, &pattern, &sewn.table(patches), &sewn.heap).unwrap()
}

/// A workroom with the piece's cloths, under their own looks, and the piece as it is after so many
/// patches.
struct Bench {
    _folder: tempfile::TempDir,
    room: Workroom,
    sewn: Sewn,
    /// The cloths of the heap by those of the piece.
    own: BTreeMap<ClothId, ClothId>,
}

impl Bench {
    fn with(patches: usize) -> Self {
        let sewn = demo::sewn(SEED, ALL, 16);
        assert_eq!(sewn.patches(), ALL);
        let folder = tempfile::tempdir().unwrap();
        let mut room = Workroom::create(&folder.path().join("w")).unwrap();
        let new = |scrap: &demo::Scrap| {
            let cloth = &scrap.cloth;
            NewCloth::scrap(&cloth.name, cloth.outline.clone(), cloth.look.clone())
        };
        let entered = room.enter(sewn.heap.scraps.iter().map(new).collect()).unwrap();
        let own: BTreeMap<ClothId, ClothId> =
            sewn.heap.scraps.iter().zip(&entered).map(|(scrap, (_, id))| (scrap.cloth.id, *id)).collect();
        room.new_quilt("Tide", &Wish::default()).unwrap();
        let entries: Vec<Entry> = sewn.until(patches).iter().map(|entry| of_heap(entry, &own)).collect();
        let at = room.head("Tide", "main").unwrap().at();
        if !entries.is_empty() {
            room.append(&at, &entries).unwrap();
        }
        Self { _folder: folder, room, sewn, own }
    }

    fn at(&self) -> At {
        self.room.head("Tide", "main").unwrap().at()
    }

    fn read(&mut self, scene: &Scene) -> PhotoRead {
        let ask = PhotoAsk { side_in: Some(scene.truth.card_side_in), pixels_per_in: None };
        self.room.read_piece("table.jpg", &scene.to_jpeg().unwrap(), &ask).unwrap()
    }

    fn outline(&mut self) -> Vec<Point> {
        let table = self.room.table("Tide", "main").unwrap();
        table.piece().map(|(_, top)| top.outline_points()).unwrap_or_default()
    }

    /// The cloths of the patches that were sewn last, in order.
    fn truly(&self) -> Vec<ClothId> {
        let new = &self.sewn.until(ALL)[self.sewn.until(KNOWN).len()..];
        let lay = |entry: &Entry| match &entry.step {
            Step::Lay { cloth, .. } => Some(self.own[cloth]),
            _ => None,
        };
        new.iter().filter_map(lay).collect()
    }
}

fn of_heap(entry: &Entry, own: &BTreeMap<ClothId, ClothId>) -> Entry {
    let mut entry = entry.clone();
    if let Step::Lay { cloth, .. } = &mut entry.step {
        *cloth = own[cloth];
    }
    entry
}

fn areas(outline: &[Point], truth: &Region) -> f64 {
    polygon::area(outline) / truth.area() - 1.0
}

#[test]
fn new_patches_are_read_with_their_cloths_and_taken_in_as_sewn() {
    let mut bench = Bench::with(KNOWN);
    let scene = shown(&bench.sewn, ALL);
    let truth = scene.truth.piece.clone().unwrap();
    let read = bench.read(&scene);
    let before = bench.outline();
    let seen = bench.room.look_to_catch_up("Tide", "main", (&read, 0), None).unwrap();
    assert_eq!(bench.outline(), before, "a look changes nothing");
    assert_eq!(seen.patches.len(), ALL - KNOWN, "{:?}", seen.told());
    assert!(seen.off_in < 1.0 / 16.0, "{}", seen.off_in);
    // The order of patches on sides far apart can't be told: their cloths all the same.
    let place = |truly: &ClothId| {
        let among =
            |patch: &workroom::asks::PatchSeen| patch.guesses.iter().position(|one| one.cloth == *truly);
        seen.patches.iter().filter_map(among).min()
    };
    let places: Vec<Option<usize>> = bench.truly().iter().map(place).collect();
    assert!(places.iter().all(Option::is_some), "each is among the first three: {places:?}");
    assert!(places.iter().filter(|place| **place == Some(0)).count() >= 2, "{places:?}");
    for patch in &seen.patches {
        assert!(patch.size_in.iter().all(|size| (0.5..20.0).contains(size)), "{:?}", patch.size_in);
        assert!(patch.guesses.len() == 3, "{:?}", patch.guesses);
    }
    let made_of: Vec<MadeOf> =
        seen.patches.iter().map(|patch| MadeOf::Cloth(patch.guesses[0].cloth)).collect();
    let at = bench.at();
    let (head, _) = bench.room.catch_up(&at, &read, &seen, &made_of).unwrap();
    assert_eq!(head.tip, head.sewn, "what lies on the table is sewn");
    let off = areas(&bench.outline(), &truth);
    assert!(off.abs() < 0.01, "{off}");
    let table = bench.room.table("Tide", "main").unwrap();
    assert_eq!(table.piece().unwrap().1.faces().len(), ALL);
    // Once more, from where the head no longer is: refused, and nothing kept.
    let after = bench.outline();
    assert!(bench.room.catch_up(&at, &read, &seen, &made_of).is_err());
    assert_eq!(bench.outline(), after);
    assert_eq!(bench.room.undo().unwrap(), "caught up");
    assert_eq!(bench.outline(), before);
}

#[test]
fn what_can_not_be_told_stays_a_region_with_its_picture() {
    let mut bench = Bench::with(KNOWN);
    let scene = shown(&bench.sewn, ALL);
    let read = bench.read(&scene);
    let seen = bench.room.look_to_catch_up("Tide", "main", (&read, 0), None).unwrap();
    let mut made_of: Vec<MadeOf> = bench.truly().into_iter().map(MadeOf::Cloth).collect();
    made_of[1] = MadeOf::AsFound;
    let at = bench.at();
    bench.room.catch_up(&at, &read, &seen, &made_of).unwrap();
    let table = bench.room.table("Tide", "main").unwrap();
    let (_, top) = table.piece().unwrap();
    let stash = bench.room.stash().unwrap();
    let found: Vec<_> = top
        .faces()
        .values()
        .filter_map(|face| {
            let patch = &table.patches()[&face.patch];
            let cloth = &stash.get(patch.cloth)?.came;
            cloth.name.starts_with("as found").then_some((face, patch, cloth.clone()))
        })
        .collect();
    let [(face, patch, cloth)] = &found[..] else { panic!("{} of them", found.len()) };
    // The picture lies where the patch shows: its middle is inside the picture's outline, not clear.
    let picture = cloth.picture.as_ref().unwrap();
    let middle = polygon::centroid(&top.face_points(face)).unwrap();
    let own = patch.at.apply(face.pose.inverse().apply(middle));
    assert!(cloth.outline.contains(own), "{own:?} in {:?}", cloth.outline);
    let (png, _) = bench.room.picture(&picture.hash).unwrap().unwrap();
    let image = vision::decode(&png).unwrap();
    let px = [
        (own.x - picture.top_left.x) * picture.pixels_per_in,
        (picture.top_left.y - own.y) * picture.pixels_per_in,
    ];
    assert_ne!(image.at(px[0] as i64, px[1] as i64), [255; 3], "the picture shows it");
    // And its colour there is the patch's own.
    let patch_seen = &seen.patches[1];
    let off = (patch_seen.outline.iter().map(|p| p.distance(middle))).fold(f64::INFINITY, f64::min);
    assert!(off < polygon::diameter(&patch_seen.outline), "{off}");
}

#[test]
fn the_whole_piece_can_be_taken_as_it_was_found() {
    let mut bench = Bench::with(KNOWN);
    let scene = shown(&bench.sewn, ALL);
    let truth = scene.truth.piece.clone().unwrap();
    let read = bench.read(&scene);
    let at = bench.at();
    let head = bench.room.take_as_found(&at, (&read, 0), None, Turn::NONE).unwrap();
    assert_eq!(head.tip, head.sewn);
    let table = bench.room.table("Tide", "main").unwrap();
    assert_eq!((table.tops().len(), table.piece().unwrap().1.faces().len()), (1, 1));
    let off = areas(&bench.outline(), &truth);
    assert!(off.abs() < 0.01, "{off}");
    // It goes on from there: the next picture shows nothing new.
    let seen = bench.room.look_to_catch_up("Tide", "main", (&read, 0), None).unwrap();
    assert_eq!(seen.patches.len(), 0, "{:?}", seen.told());
    bench.room.undo().unwrap();
    assert_eq!(bench.room.table("Tide", "main").unwrap().piece().unwrap().1.faces().len(), KNOWN);
    // A quilt that was never planned here begins so.
    bench.room.new_quilt("Ebb", &Wish::default()).unwrap();
    let at = bench.room.head("Ebb", "main").unwrap().at();
    let none = bench.room.look_to_catch_up("Ebb", "main", (&read, 0), None);
    assert!(matches!(none, Err(AskError::NothingOnTable)), "{none:?}");
    bench.room.take_as_found(&at, (&read, 0), None, Turn::NONE).unwrap();
    let table = bench.room.table("Ebb", "main").unwrap();
    assert!(areas(&table.piece().unwrap().1.outline_points(), &truth).abs() < 0.01);
}

#[test]
fn a_picture_that_is_not_of_this_piece_is_refused_and_nothing_kept() {
    let mut bench = Bench::with(ALL);
    let before = bench.outline();
    let said = |bench: &mut Bench, scene: &Scene| {
        let read = bench.read(scene);
        let refused = bench.room.look_to_catch_up("Tide", "main", (&read, 0), None).unwrap_err();
        assert!(matches!(refused, AskError::CantBe { .. }), "{refused}");
        assert!(refused.hint().is_some());
        refused.to_string()
    };
    // The piece as it was before three patches were sewn on.
    let smaller = shown(&bench.sewn, KNOWN);
    let words = said(&mut bench, &smaller);
    assert!(words.contains("hidden, trimmed off or unpicked"), "{words}");
    // The very piece: nothing new, which is no trouble.
    let same = shown(&bench.sewn, ALL);
    let read = bench.read(&same);
    let seen = bench.room.look_to_catch_up("Tide", "main", (&read, 0), None).unwrap();
    assert_eq!(seen.patches.len(), 0, "{:?}", seen.told());
    let wrong = bench.room.catch_up(&bench.at(), &read, &seen, &[MadeOf::AsFound]).unwrap_err();
    assert!(matches!(wrong, AskError::Nonsense { .. }), "{wrong}");
    let gone = bench.room.look_to_catch_up("Tide", "main", (&read, 1), None).unwrap_err();
    assert!(matches!(gone, AskError::Photo(PhotoProblem::NoSuchFound { .. })), "{gone}");
    assert!(bench.room.look_to_catch_up("Ebb", "main", (&read, 0), None).is_err());
    // Another piece altogether.
    let other = demo::sewn(SEED + 4, ALL + 4, 16);
    let scene = piece_scene(&recipe(), 9, &pattern, &other.table(other.patches()), &other.heap).unwrap();
    let words = said(&mut bench, &scene);
    assert!(words.contains("no patches sewn to whole sides") || words.contains("another piece"), "{words}");
    assert_eq!(bench.outline(), before);
}
