//! One piece through everything, held against its truth.

use demo::scene::{Recipe, Scene, piece_scene};
use plane::{Point, Pose, Region, Turn, Vec2, intersection, polygon};
use vision::cards::pattern;
use vision::seams::{Known, grown};
use vision::{Look, Runs, Shade};

/// Pixels an inch of the flattened table, at most.
const PIXELS_PER_IN: f64 = 100.0;
/// Cloths in the stash, and new patches.
const CLOTHS: usize = 24;
const NEW: usize = 5;

/// What came of a piece.
#[derive(Debug, Default)]
pub(crate) struct Judged {
    /// Why no picture of it could be made.
    pub(crate) skipped: Option<&'static str>,
    /// Why it couldn't be read.
    pub(crate) refused: Option<String>,
    /// Root mean square distance of the outline from the true one, in inches.
    pub(crate) outline_off_in: Option<f64>,
    /// Whether the known piece was laid where it lies.
    pub(crate) laid: bool,
    /// Tilt of the camera in degrees, and blur with motion in pixels.
    pub(crate) tilt_deg: f64,
    pub(crate) blur_px: f64,
    /// Seams found, with how dark they are.
    pub(crate) ditches: Vec<f64>,
    /// New patches; those found; what was found that is none.
    pub(crate) there: usize,
    pub(crate) found: usize,
    pub(crate) false_ones: usize,
    /// Patches found whose cloth is the first guess; among the first three.
    pub(crate) first: usize,
    pub(crate) three: usize,
    /// The same when the true outline of each patch is given.
    pub(crate) known: [usize; 2],
}

pub(crate) fn judge(seed: u64) -> Judged {
    let mut judged = Judged::default();
    let sewn = demo::sewn(seed, 6 + NEW + (seed % 8) as usize, CLOTHS);
    let count = sewn.patches();
    if count < NEW + 3 {
        judged.skipped = Some("too few patches could be sewn");
        return judged;
    }
    let Some(scene) = piece_scene(&Recipe::NORMAL, seed, &pattern, &sewn.table(count), &sewn.heap) else {
        judged.skipped = Some("it can't be seen whole");
        return judged;
    };
    if let Err(why) = read(&sewn, &scene, &mut judged) {
        judged.refused = Some(why);
    }
    judged
}

fn read(sewn: &demo::Sewn, scene: &Scene, judged: &mut Judged) -> Result<(), String> {
    let truth = &scene.truth;
    let (table, before) = (sewn.table(sewn.patches()), sewn.table(sewn.patches() - NEW));
    let (_, top) = table.piece().ok_or("no piece")?;
    let (_, old) = before.piece().ok_or("no piece before")?;
    let new: Vec<usize> = top
        .faces()
        .values()
        .enumerate()
        .filter(|(_, face)| old.faces().values().all(|other| other.patch != face.patch))
        .map(|(i, _)| i)
        .collect();
    judged.there = new.len();
    (judged.tilt_deg, judged.blur_px) = (truth.shot.stand.tilt_deg, truth.shot.blurred_px());

    let jpeg = scene.to_jpeg().map_err(|problem| problem.to_string())?;
    let picture = vision::decode(&jpeg).map_err(|problem| problem.to_string())?;
    let cards = vision::find_cards(&picture);
    let map = vision::flatten(&cards, truth.card_side_in, [picture.width, picture.height])
        .map_err(|problem| problem.to_string())?;
    let [width, height] = [picture.width, picture.height].map(f64::from);
    let middle = map.pixels_per_in(Point::new(width / 2.0, height / 2.0));
    let mut flat = vision::resample(&picture, &map, map.field(), middle.clamp(40.0, PIXELS_PER_IN));
    if let Some(light) = vision::read_light(&picture, &map) {
        light.correct(&mut flat);
    }
    let paper: Vec<Vec<Point>> =
        cards.iter().map(|card| card.corners.map(|px| map.to_table(px)).to_vec()).collect();
    // From the true table to the found one, by what the cards' corners say.
    let pairs: Vec<(Point, Point)> = truth
        .cards
        .iter()
        .flat_map(|card| card.corners_px)
        .map(|px| (truth.camera.to_table(px), map.to_table(px)))
        .collect();
    let to_found = rigid(&pairs).ok_or("no cards")?;

    let rank = |seen: &Look, of: usize| -> usize {
        let seen = Look { runs: Runs::AnyWay, ..seen.clone() };
        let likely = |scrap: &demo::Scrap| vision::same_print(&seen, &kept(scrap, &seen));
        let own = likely(&sewn.heap.scraps[of]);
        sewn.heap.scraps.iter().filter(|scrap| likely(scrap) > own).count()
    };
    let cloth_of =
        |i: usize| sewn.heap.scraps.iter().position(|scrap| scrap.cloth.id == truth.cloths[i].cloth);
    let shown = |i: usize| truth.cloths[i].outline.moved(to_found);
    for &i in &new {
        let rank = rank(&vision::look(&flat, &inner(&shown(i).outer)), cloth_of(i).ok_or("no such cloth")?);
        judged.known[0] += usize::from(rank == 0);
        judged.known[1] += usize::from(rank < 3);
    }

    let there = truth.piece.as_ref().ok_or("no piece in the truth")?.moved(to_found);
    let found = vision::find_piece(&flat, &paper).ok_or("no piece found")?;
    judged.outline_off_in = Some(distance(&there.outer, &found.outline.outer));

    let colours = old
        .faces()
        .values()
        .filter_map(|face| {
            let patch = before.patches().get(&face.patch)?;
            let scrap = sewn.heap.scraps.iter().find(|scrap| scrap.cloth.id == patch.cloth)?;
            Some((polygon::centroid(&old.face_points(face))?, scrap.cloth.look.mean()))
        })
        .collect();
    let known = Known { outline: old.outline_points(), colours };
    let grown = grown(&flat, &found.outline.outer, &known, 0.25).ok_or("no way back to the known outline")?;
    judged.ditches = grown.patches.iter().map(|patch| (patch.ditch * 1000.0).round() / 1000.0).collect();
    // The true pose: a corner of a face of the new top that is in the old one.
    let face = top
        .faces()
        .values()
        .position(|face| face.patch == old.faces().values().next().map_or(face.patch, |f| f.patch));
    let face_old = old.faces().values().next().ok_or("no face")?;
    let in_new = polygon::centroid(&shown(face.ok_or("no such face")?).outer).unwrap_or_default();
    let in_old = grown.pose.apply(polygon::centroid(&old.face_points(face_old)).unwrap_or_default());
    judged.laid = in_new.distance(in_old) < 0.5;
    let mut left = new.clone();
    for patch in &grown.patches {
        // What shows of it now: less what later seams took off.
        let mut shows = Region { outer: patch.outline.clone(), holes: Vec::new() };
        let after = grown.patches.iter().skip_while(|other| *other != patch).skip(1);
        for later in after {
            shows.outer = plane::clip_half_plane(&shows.outer, later.seam, 1e-6);
        }
        let share = |i: usize| {
            let other = shown(i);
            let both: f64 = intersection(&shows, &other).iter().map(Region::area).sum();
            both / (shows.area() + other.area() - both).max(1e-9)
        };
        let Some(at) = (0..left.len()).find(|&k| share(left[k]) > 0.8) else {
            judged.false_ones += 1;
            continue;
        };
        let i = left.swap_remove(at);
        judged.found += 1;
        let rank = rank(&vision::look(&flat, &inner(&shows.outer)), cloth_of(i).ok_or("no such cloth")?);
        judged.first += usize::from(rank == 0);
        judged.three += usize::from(rank < 3);
    }
    Ok(())
}

/// Without its edges, which show seams and threads.
fn inner(outline: &[Point]) -> Region {
    let lines = polygon::edges(outline).filter_map(|(a, b)| plane::Line::through(a, b));
    let outer =
        lines.fold(outline.to_vec(), |ring, line| plane::clip_half_plane(&ring, line.inward(0.05), 1e-9));
    Region { outer, holes: Vec::new() }
}

/// A cloth's look as the stash keeps it. The size of its motifs isn't kept, and how busy it is was told by another
/// measure than a picture's; of both what is seen is taken, so that colours and their shares decide.
fn kept(scrap: &demo::Scrap, seen: &Look) -> Look {
    let look = &scrap.cloth.look;
    let shades: Vec<Shade> =
        look.shades.iter().map(|shade| Shade { lab: shade.lab, share: shade.share }).collect();
    Look { lightness: look.mean().l, shades, runs: Runs::AnyWay, repeat_in: look.repeat_in, ..seen.clone() }
}

/// The motion with the least squares.
fn rigid(pairs: &[(Point, Point)]) -> Option<Pose> {
    let n = pairs.len() as f64;
    let sum = pairs
        .iter()
        .fold((Vec2::default(), Vec2::default()), |s, (a, b)| (s.0 + a.to_vec2(), s.1 + b.to_vec2()));
    let at = |v: Vec2| Point::new(v.x / n, v.y / n);
    let (here, there) = (at(sum.0), at(sum.1));
    let (cos, sin) = pairs.iter().fold((0.0, 0.0), |s, (a, b)| {
        let (u, v) = (*a - here, *b - there);
        (s.0 + u.dot(v), s.1 + u.cross(v))
    });
    Some(Pose::carrying(Turn::towards(Vec2::new(cos, sin))?, here, there))
}

/// Root of the mean square distance between two outlines in inches, along both.
fn distance(one: &[Point], other: &[Point]) -> f64 {
    let (mut sum, mut count) = (0.0, 0.0);
    for (from, to) in [(one, other), (other, one)] {
        for (a, b) in polygon::edges(from) {
            let steps = (a.distance(b) * 20.0).ceil().max(1.0) as usize;
            for k in 0..steps {
                let p = a.lerp(b, (k as f64 + 0.5) / steps as f64);
                let off = polygon::edges(to).map(|(a, b)| {
                    let side = b - a;
                    let t = (side.dot(p - a) / side.dot(side).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
                    p.distance(a.lerp(b, t))
                });
                sum += off.fold(f64::INFINITY, f64::min).powi(2);
                count += 1.0;
            }
        }
    }
    f64::sqrt(sum / count)
}
