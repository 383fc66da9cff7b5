//! Times the drawing of a piece of 2,000 patches, bare and quilted, and says how large it comes out:
//! `cargo run -p drawing --example speed`.
//!
//! The piece is 40 strips of 50 squares of 2 1/2 inches, sewn into strips first and the strips to
//! each other after that. Clock and printing are fine here: an example is an edge.

use colour::Lab;
use drawing::svg::{Pictures, SvgOptions};
use drawing::{
    CALICO, DrawingProblem, FrontOptions, INK, Quilted, Stages, back, finished_back, finished_front, front,
};
use plane::fill::{Fill, Ground, RoundSpiral, Spacing, Wobble, round_spiral};
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Picture};
use quilt::log::{Mark, Name, Press, Sewing, Step};
use quilt::table::Table;
use std::collections::BTreeMap;
use std::time::Instant;

const SIDE_IN: f64 = 2.5;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let cloths = heap(30);
    let table = strips(40, 50)?;
    let (mark, top) = table.piece().ok_or("nothing was sewn")?;
    println!("{} patches, {} seams", top.faces().len(), top.seams().len());
    let plain = FrontOptions::default();
    let all = FrontOptions { labels: true, measures: true, ..FrontOptions::default() };
    time("front, drawing only", || Ok(front(&table, mark, &cloths, &plain)?.items.len()))?;
    time("front", || Ok(front(&table, mark, &cloths, &plain)?.to_svg(&SVG).len()))?;
    time("front, labels and measures", || Ok(front(&table, mark, &cloths, &all)?.to_svg(&SVG).len()))?;
    time("back", || Ok(back(&table, mark, &cloths, &plain)?.to_svg(&SVG).len()))?;
    let fill = quilting(&top.outline_points())?;
    println!("{:.0} in of quilting in {} strokes", fill.length(), fill.strokes.len());
    let quilted = Quilted { fill: &fill, front: CALICO, back: INK, stitch_in: 0.11 };
    let stages = Stages { quilting: Some(quilted), ..Stages::default() };
    let quilted = || finished_front(&table, mark, &cloths, &plain, &stages);
    time("finished front, drawing only", || Ok(quilted()?.items.len()))?;
    time("finished front", || Ok(quilted()?.to_svg(&SVG).len()))?;
    time("finished back", || Ok(finished_back(&table, mark, &cloths, &plain, &stages)?.to_svg(&SVG).len()))?;
    Ok(())
}

/// A spiral by hand, 46,000 inches long: no curve of quilting has more corners.
fn quilting(outline: &[Point]) -> Result<Fill, Box<dyn std::error::Error>> {
    let outline = Region::try_new(outline.to_vec(), Vec::new())?;
    let spacing_in = outline.area() / 46_000.0;
    let spiral = RoundSpiral {
        centre: plane::polygon::centroid(&outline.outer).unwrap_or_default(),
        spacing: Spacing::about(spacing_in),
        least_radius_in: 0.5,
        start_deg: 0.0,
        clockwise: false,
        wobble: Some(Wobble { amplitude_in: spacing_in / 16.0, wave_in: 1.0, seed: 7 }),
    };
    Ok(round_spiral(&Ground::try_new(&outline, &[])?, &spiral)?)
}

const SVG: SvgOptions<'_> = SvgOptions { pictures: Pictures::Linked("/pictures/"), id_prefix: "" };

/// Runs it 31 times and prints the times and what it returned, a size in bytes.
fn time(what: &str, mut run: impl FnMut() -> Result<usize, DrawingProblem>) -> Result<(), DrawingProblem> {
    let mut times = Vec::new();
    let mut size = 0;
    for _ in 0..31 {
        let start = Instant::now();
        size = run()?;
        times.push(start.elapsed().as_secs_f64() * 1e3);
    }
    report(what, &mut times, size);
    Ok(())
}

fn report(what: &str, times: &mut [f64], size: usize) {
    times.sort_by(f64::total_cmp);
    let at = |share: f64| times.get((times.len() as f64 * share) as usize).copied().unwrap_or(0.0);
    println!(
        "{what}: median {:.1} ms, 95th percentile {:.1} ms, {:.2} MB",
        at(0.5),
        at(0.95),
        size as f64 / 1e6
    );
}

/// Rectangles of cloth with pictures.
fn heap(many: u64) -> BTreeMap<ClothId, Cloth> {
    (0..many)
        .map(|i| {
            let id = ClothId(i);
            let hue = i as f64 / many as f64 * std::f64::consts::TAU;
            let cloth = Cloth {
                id,
                name: format!("cloth {i}"),
                kind: Kind::Length,
                outline: Region::rectangle(20.0, 12.0),
                flaws: Vec::new(),
                about: false,
                look: Look::plain(Lab::new(60.0, 30.0 * hue.cos(), 30.0 * hue.sin())),
                grain: Turn::QUARTER,
                print: Some(i),
                place: String::new(),
                facts: Facts::default(),
                picture: Some(Picture {
                    hash: format!("{i:064x}"),
                    format: "png".to_owned(),
                    pixels_per_in: 100.0,
                    top_left: Point::new(0.0, 12.0),
                    size_px: [2000, 1200],
                }),
                parts: Vec::new(),
                parent: None,
            };
            (id, cloth)
        })
        .collect()
}

/// Squares sewn into strips, strips sewn to each other.
fn strips(rows: u32, along: u32) -> Result<Table, quilt::Problem> {
    let mut table = Table::new();
    let mut next = 0;
    let mut apply = |step: Step| {
        next += 1;
        table.apply(Mark(next), &step).map(|()| Mark(next))
    };
    let sew = |onto, with| {
        Step::Sew(Sewing::Join {
            onto,
            with,
            slide_in: 0.0,
            allowance_in: 0.25,
            stop: None,
            flush: [true, true],
            press: Press::Over,
        })
    };
    let mut before = None;
    for row in 0..rows {
        let mut end: Option<Mark> = None;
        let mut first = Mark(0);
        for i in 0..along {
            let laid = apply(square(row * 7 + i))?;
            match end {
                None => first = laid,
                Some(last) => {
                    apply(sew(Name::new(last, 1), Name::new(laid, 3)))?;
                }
            }
            end = Some(laid);
        }
        // Sides 0 and 2 of the first square run along the whole strip.
        if let Some(above) = before {
            apply(sew(Name::new(above, 2), Name::new(first, 0)))?;
        }
        before = Some(first);
    }
    Ok(table)
}

fn square(i: u32) -> Step {
    let cut = Region::rectangle(SIDE_IN, SIDE_IN).outer;
    let by = Vec2::new(f64::from(i % 6) * 2.75 + 0.5, f64::from(i % 3) * 3.0 + 0.5);
    Step::Lay { cloth: ClothId(u64::from(i % 30)), at: Pose::new(Turn::NONE, by), cut }
}
