//! How long the plans of ring, border and square up take: medians of 21, on a nine-sided patch.
//! `cargo run --example stage_speed -p quilt`

use plane::{Point, Pose, Region, Turn};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Part, Runs};
use quilt::log::{Mark, Step};
use quilt::stage::border::{self, BorderChoice};
use quilt::stage::ring::{self, RingChoice};
use quilt::stage::square_up::{self, Goal, LargestKind, SquareUpChoice};
use quilt::stage::{Order, Piece};
use quilt::table::Table;
use std::time::Instant;

const S: f64 = 0.25;

fn cloth(wide: f64, high: f64, runs: Runs) -> Cloth {
    let look = Look { runs, ..Look::plain(colour::Lab { l: 50.0, a: 0.0, b: 0.0 }) };
    Cloth {
        id: ClothId(9),
        name: "cloth".to_owned(),
        kind: Kind::Length,
        outline: Region::rectangle(wide, high),
        flaws: Vec::new(),
        about: false,
        look,
        grain: Turn::QUARTER,
        print: None,
        place: String::new(),
        facts: Facts::default(),
        picture: None,
        parts: Vec::new(),
        parent: None,
    }
}

fn stripes(long: f64) -> Cloth {
    let part = |i: u32| {
        let (low, high) = (f64::from(i), f64::from(i) + 1.0);
        let shows = [(0.0, low), (long, low), (long, high), (0.0, high)].map(|(x, y)| Point::new(x, y));
        Part { cloth: ClothId(u64::from(i)), pose: Pose::STAY, shows: shows.to_vec() }
    };
    let parts = (0..7).map(part).collect();
    Cloth { kind: Kind::StripSet, parts, ..cloth(long, 7.0, Runs::AnyWay) }
}

fn median(what: &str, mut run: impl FnMut()) {
    let mut times: Vec<f64> = (0..21)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{what}: {:.2} ms", times[10]);
}

fn main() {
    let corners: Vec<Point> = (0..9)
        .map(|i| {
            let far = 30.0 + 3.0 * f64::from(i * 5 % 4);
            let at = Turn::from_degrees(f64::from(i) * 40.0 + f64::from(i % 3) * 4.0).vec() * far;
            Point::new(at.x, at.y)
        })
        .collect();
    let corners = plane::polygon::hull(&corners);
    let mut table = Table::new();
    let lay = Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut: corners.clone() };
    let (Ok(()), Ok(piece)) = (table.apply(Mark(1), &lay), Piece::of_outline(&corners)) else { return };
    println!("{} sides", piece.sides.len());
    let up = Runs::OneWay(Turn::QUARTER);
    let (plain, print) = (cloth(44.0, 72.0, Runs::AnyWay), cloth(44.0, 90.0, up));
    let Ok(mut choice) = serde_json::from_str::<BorderChoice>(r#"{"sewn_in":[4.25]}"#) else { return };
    median("border in every order, plain cloth", || {
        std::hint::black_box(border::every_order(&piece, &choice, Some(&plain), S));
    });
    choice.print = border::PrintLies::Outward;
    median("border in every order, one-way print outward", || {
        std::hint::black_box(border::every_order(&piece, &choice, Some(&print), S));
    });
    for (order, plan) in border::every_order(&piece, &choice, Some(&print), S) {
        let cutting = plan.ok().and_then(|plan| plan.cutting);
        println!("  {order:?}: {:?}", cutting.map(|c| (c.fits, c.joins, c.missing_in)));
    }
    let Ok(slices) = serde_json::from_str::<RingChoice>(r#"{"slice_in":3.0,"lean_deg":20.0}"#) else {
        return;
    };
    let set = stripes(400.0);
    median("ring", || {
        std::hint::black_box(ring::plan(&piece, &slices, &set, S)).ok();
    });
    choice.order = Order::Mitred;
    choice.print = border::PrintLies::ByGrain;
    if let Some(steps) = border::plan(&piece, &choice, Some(&plain), S).ok().and_then(|plan| {
        let on_table = Piece::of(Mark(1), table.top(Mark(1))?).ok()?;
        plan.steps(&on_table, &plain, Mark(2))
    }) {
        median("mitred border sewn on the table", || {
            let mut table = table.clone();
            for (i, step) in steps.iter().enumerate() {
                std::hint::black_box(table.apply(Mark(2 + i as u32), step)).ok();
            }
        });
    }
    for kind in [LargestKind::Rectangle, LargestKind::Square, LargestKind::Circle] {
        let choice = SquareUpChoice::to(Goal::Largest { kind });
        median(&format!("square up to the largest {kind:?}"), || {
            std::hint::black_box(square_up::plan(&table, Mark(1), &choice, None, S, Mark(2))).ok();
        });
    }
}
