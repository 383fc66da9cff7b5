//! One scene through everything, held against its truth.

use crate::looks::{LookJudged, judge_look};
use crate::matching::{lies_on, matched, outline_distance};
use crate::rigid::rigid;
use demo::scene::{ClothThere, Scene, Truth};
use plane::{Point, Pose, Region};
use serde::{Deserialize, Serialize};
use std::time::Instant;
use vision::{Card, Flat, Flattening, Found};

/// Pixels an inch of the flattened table, at most.
const PIXELS_PER_IN: f64 = 100.0;
/// Lengths shorter than this aren't measured for the length error, in inches.
const SHORTEST_IN: f64 = 3.0;
/// Places each way at which lengths over the whole picture start and end, and how much of its
/// width is left out along each edge.
const PLACES: usize = 7;
const EDGE: f64 = 0.04;

/// What came of a scene.
#[derive(Debug, Default, Serialize, Deserialize)]
pub(crate) struct Judged {
    pub(crate) seed: u64,
    pub(crate) tilt_deg: f64,
    pub(crate) blur_px: f64,
    pub(crate) bend: f64,
    pub(crate) second: f64,
    /// Why it was refused, if it was.
    pub(crate) refused: Option<String>,
    pub(crate) cards_there: usize,
    pub(crate) cards_found: usize,
    /// Cards found that aren't there.
    pub(crate) cards_false: usize,
    /// Distances of the corners of found cards, in pixels.
    pub(crate) corners_px: Vec<f64>,
    /// Lengths over the whole picture, and among what lies there.
    pub(crate) whole: Option<Lengths>,
    pub(crate) among: Option<Lengths>,
    /// Lengths where the map says that it holds, and in what share of the picture it says so.
    pub(crate) held: Option<Lengths>,
    pub(crate) holds_share: f64,
    /// Scraps wholly in the picture.
    pub(crate) there: usize,
    /// Those of them that were found.
    pub(crate) found: Vec<FoundScrap>,
    /// Scraps that leave the picture; those found of them; those of these marked as cut off.
    pub(crate) cut_off: [usize; 3],
    /// Outlines that lie on no scrap.
    pub(crate) false_ones: usize,
    /// Milliseconds of decoding, cards, flattening, drawing flat, outlines and looks.
    pub(crate) times_ms: [f64; 6],
}

/// Errors of lengths as shares of them.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
pub(crate) struct Lengths {
    pub(crate) rms: f64,
    pub(crate) worst: f64,
}

/// A scrap that was found, against the truth.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub(crate) struct FoundScrap {
    /// Root mean square distance of the outlines, in inches.
    pub(crate) off_in: f64,
    /// Found area over true area, less 1.
    pub(crate) area: f64,
    /// Whether it was marked as cut off, which it isn't.
    pub(crate) cut_off: bool,
    /// Whether it was marked doubtful.
    pub(crate) doubtful: bool,
    /// Its look against its print's; a piece has none.
    pub(crate) look: Option<LookJudged>,
}

/// An outline that is to be found.
struct Wanted<'a> {
    outline: &'a Region,
    cut_off: bool,
    cloth: Option<&'a ClothThere>,
}

/// What is to be found: a piece, or else each scrap.
fn wanted(truth: &Truth) -> Vec<Wanted<'_>> {
    match &truth.piece {
        Some(outline) => vec![Wanted { outline, cut_off: false, cloth: None }],
        None => truth
            .cloths
            .iter()
            .map(|cloth| Wanted { outline: &cloth.outline, cut_off: cloth.cut_off, cloth: Some(cloth) })
            .collect(),
    }
}

/// Takes a scene through everything, or as far as lengths.
pub(crate) fn judge(seed: u64, scene: &Scene, lengths_only: bool) -> Judged {
    let truth = &scene.truth;
    let wanted = wanted(truth);
    let whole_ones = wanted.iter().filter(|one| !one.cut_off).count();
    let mut judged = Judged {
        seed,
        tilt_deg: truth.shot.stand.tilt_deg,
        blur_px: truth.shot.blurred_px(),
        bend: truth.shot.stand.bend,
        second: truth.shot.stand.second,
        cards_there: truth.cards.len(),
        there: whole_ones,
        cut_off: [wanted.len() - whole_ones, 0, 0],
        ..Judged::default()
    };
    if let Err(why) = read(scene, lengths_only, &mut judged) {
        judged.refused = Some(why);
    }
    judged
}

fn read(scene: &Scene, lengths_only: bool, judged: &mut Judged) -> Result<(), String> {
    let truth = &scene.truth;
    let jpeg = scene.to_jpeg().map_err(|problem| problem.to_string())?;
    let mut clock = Clock(Instant::now());
    let picture = vision::decode(&jpeg).map_err(|problem| problem.to_string())?;
    judged.times_ms[0] = clock.lap_ms();
    let cards = vision::find_cards(&picture);
    judged.times_ms[1] = clock.lap_ms();
    judge_cards(truth, &cards, judged);
    clock.lap_ms();
    let map = vision::flatten(&cards, truth.card_side_in, [picture.width, picture.height])
        .map_err(|problem| problem.to_string())?;
    judged.times_ms[2] = clock.lap_ms();
    let lies = lengths(truth, &map, judged).ok_or("the cards lie in one place")?;
    if lengths_only {
        return Ok(());
    }
    clock.lap_ms();
    let [width, height] = [picture.width, picture.height].map(f64::from);
    let middle = map.pixels_per_in(Point::new(width / 2.0, height / 2.0));
    let mut flat = vision::resample(&picture, &map, map.field(), middle.clamp(40.0, PIXELS_PER_IN));
    if let Some(light) = vision::read_light(&picture, &map) {
        light.correct(&mut flat);
    }
    judged.times_ms[3] = clock.lap_ms();
    let corners = |card: &Card| card.corners.map(|px| map.to_table(px)).to_vec();
    let paper: Vec<Vec<Point>> = cards.iter().map(corners).collect();
    let found = match truth.piece {
        Some(_) => vision::find_piece(&flat, &paper).into_iter().collect(),
        None => vision::find_cloths(&flat, &paper),
    };
    judged.times_ms[4] = clock.lap_ms();
    judge_outlines(&wanted(truth), &flat, &found, lies, judged);
    Ok(())
}

/// Time since the last lap.
struct Clock(Instant);

impl Clock {
    fn lap_ms(&mut self) -> f64 {
        let lap = self.0.elapsed().as_secs_f64() * 1e3;
        self.0 = Instant::now();
        lap
    }
}

fn judge_cards(truth: &Truth, cards: &[Card], judged: &mut Judged) {
    for there in &truth.cards {
        if let Some(card) = cards.iter().find(|card| card.no == there.no) {
            judged.cards_found += 1;
            let pairs = card.corners.iter().zip(there.corners_px);
            judged.corners_px.extend(pairs.map(|(one, other)| one.distance(other)));
        }
    }
    judged.cards_false = cards.len() - judged.cards_found;
}

/// Judges lengths, and gives the move from the found table to the true one.
fn lengths(truth: &Truth, map: &Flattening, judged: &mut Judged) -> Option<Pose> {
    let on_both = |px: Point| (map.to_table(px), truth.camera.to_table(px));
    let pairs: Vec<_> = truth.cards.iter().flat_map(|card| card.corners_px).map(on_both).collect();
    let [width, height] = truth.shot.stand.size_px.map(f64::from);
    let at = |k: usize, length: f64| length * (EDGE + (1.0 - 2.0 * EDGE) * k as f64 / (PLACES - 1) as f64);
    let grid = (0..PLACES * PLACES).map(|i| Point::new(at(i % PLACES, width), at(i / PLACES, height)));
    let enough = |px: &Point| truth.camera.least_pixels_per_in(truth.camera.to_table(*px)) > 20.0;
    let grid: Vec<Point> = grid.filter(enough).collect();
    judged.whole = spread(&grid.iter().copied().map(on_both).collect::<Vec<_>>());
    let held = grid.into_iter().filter(|px| map.holds_at(*px));
    judged.held = spread(&held.map(on_both).collect::<Vec<_>>());
    judged.holds_share = map.share_that_holds();
    let corners = truth.cloths.iter().filter(|cloth| !cloth.cut_off).flat_map(|cloth| &cloth.outline.outer);
    let cloth = corners.map(|p| on_both(truth.camera.to_picture(*p)));
    judged.among = spread(&cloth.chain(pairs.iter().copied()).collect::<Vec<_>>());
    rigid(&pairs)
}

/// Errors of the lengths between all pairs of places that lie far enough apart.
fn spread(places: &[(Point, Point)]) -> Option<Lengths> {
    let (mut sum, mut count, mut worst) = (0.0, 0.0, 0.0_f64);
    for (i, (a, true_a)) in places.iter().enumerate() {
        for (b, true_b) in &places[..i] {
            let length = true_a.distance(*true_b);
            if length >= SHORTEST_IN {
                let off = (a.distance(*b) / length - 1.0).abs();
                (sum, count, worst) = (sum + off * off, count + 1.0, worst.max(off));
            }
        }
    }
    (count > 0.0).then(|| Lengths { rms: f64::sqrt(sum / count), worst })
}

fn judge_outlines(wanted: &[Wanted], flat: &Flat, found: &[Found], lies: Pose, judged: &mut Judged) {
    let outlines: Vec<Region> = found.iter().map(|one| one.outline.moved(lies)).collect();
    let there: Vec<Region> = wanted.iter().map(|one| one.outline.clone()).collect();
    let pairs = matched(&there, &outlines);
    let mut clock = Clock(Instant::now());
    let regions: Vec<&Region> = found.iter().map(|one| &one.outline).collect();
    let looks = vision::looks(flat, &regions);
    judged.times_ms[5] = clock.lap_ms();
    for &(i, j) in &pairs {
        let (wanted, one) = (&wanted[i], &found[j]);
        if wanted.cut_off {
            judged.cut_off[1] += 1;
            judged.cut_off[2] += usize::from(one.cut_off);
            continue;
        }
        judged.found.push(FoundScrap {
            off_in: outline_distance(wanted.outline, &outlines[j]),
            area: outlines[j].area() / wanted.outline.area() - 1.0,
            cut_off: one.cut_off,
            doubtful: !one.doubts.is_empty(),
            look: wanted.cloth.map(|cloth| judge_look(cloth, &looks[j], lies.turn)),
        });
    }
    let others = (0..found.len()).filter(|j| pairs.iter().all(|pair| pair.1 != *j));
    let cut: Vec<Region> = wanted.iter().filter(|one| one.cut_off).map(|one| one.outline.clone()).collect();
    for j in others {
        // What is seen of a scrap that leaves the picture may be less than half of it.
        if lies_on(&outlines[j], &cut) {
            judged.cut_off[1] += 1;
            judged.cut_off[2] += usize::from(found[j].cut_off);
        } else {
            judged.false_ones += 1;
        }
    }
}
