//! A large piece for timing: strips round a square.

use plane::{Point, Pose, Turn};
use quilt::cloth::ClothId;
use quilt::log::{Mark, Name, Press, Sewing, Step};
use quilt::table::{Table, Top};

/// Units of four patches round a square, each on the next side.
pub(crate) fn strips(pieces: usize) -> Table {
    let mut table = Table::new();
    let mut mark = 0;
    let mut step = |table: &mut Table, step: Step| {
        mark += 1;
        table.apply(Mark(mark), &step).map(|()| Mark(mark)).ok()
    };
    step(&mut table, patch(2.0, 2.0));
    let directions = [Turn::NONE, Turn::QUARTER, Turn::HALF, Turn::HALF.then(Turn::QUARTER)];
    let mut sewn = 1;
    for direction in directions.iter().cycle() {
        if sewn >= pieces {
            break;
        }
        let Some((name, length)) = table.piece().and_then(|(_, top)| farthest(top, *direction)) else {
            break;
        };
        let parts = (length / 2.5).ceil().max(1.0);
        let Some(first) = step(&mut table, patch(length / parts + 1.0, 1.5)) else { break };
        let mut end = Name::new(first, 1);
        for _ in 1..parts as usize {
            let Some(next) = step(&mut table, patch(length / parts + 1.0, 1.5)) else { break };
            step(&mut table, seam(end, Name::new(next, 3)));
            end = Name::new(next, 1);
            sewn += 1;
        }
        if step(&mut table, seam(name, Name::new(first, 0))).is_none() {
            break;
        }
        sewn += 1;
    }
    table
}

fn patch(width: f64, height: f64) -> Step {
    let cut = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(|(x, y)| Point::new(x, y));
    Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut: cut.to_vec() }
}

fn seam(onto: Name, with: Name) -> Step {
    Step::Sew(Sewing::Join {
        onto,
        with,
        slide_in: 0.0,
        allowance_in: 0.25,
        stop: None,
        flush: [true, true],
        press: Press::Over,
    })
}

fn farthest(top: &Top, direction: Turn) -> Option<(Name, f64)> {
    let far = |p: Point| direction.vec().dot(p.to_vec2());
    let sides = top.sides();
    let side =
        sides.iter().max_by(|a, b| far(a.from.midpoint(a.to)).total_cmp(&far(b.from.midpoint(b.to))))?;
    side.name().map(|name| (name, side.length_in()))
}
