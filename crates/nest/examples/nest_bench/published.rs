//! Published instances: rough hides with holes and bad places, and strips.

use nest::{Answer, Ask, Cloth, Effort, Piece, Price, Room, Source, Spot, Turns, faults, nest};
use plane::{Point, Region, Turn, Vec2, difference, polygon};
use serde_json::Value;
use std::path::Path;
use std::time::{Instant, SystemTime, UNIX_EPOCH};

fn read(folder: &str, name: &str) -> Result<Value, String> {
    let path = Path::new(folder).join(name);
    let text = std::fs::read_to_string(&path).map_err(|_| {
        format!("{} can't be read: name the folder of the published instances", path.display())
    })?;
    serde_json::from_str(&text).map_err(|why| format!("{}: {why}", path.display()))
}

fn ring(value: &Value, scale: f64) -> Vec<Point> {
    let corners = value.as_array().into_iter().flatten();
    let at = |corner: &Value, i: usize| corner[i].as_f64().unwrap_or(f64::NAN) * scale;
    let mut points: Vec<Point> = corners.map(|corner| Point::new(at(corner, 0), at(corner, 1))).collect();
    if points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    points
}

/// An outline, sound or as near as its union with itself is.
fn region(shape: &Value, scale: f64) -> Region {
    let data = &shape["data"];
    let (outer, holes) = if shape["type"] == "polygon" {
        let holes = data["inner"].as_array().into_iter().flatten().map(|hole| ring(hole, scale));
        (ring(&data["outer"], scale), holes.collect())
    } else {
        (ring(data, scale), Vec::new())
    };
    Region::try_new(outer.clone(), holes.clone()).unwrap_or_else(|_| {
        let whole = Region { outer, holes: Vec::new() };
        let taken: Vec<Region> = holes.into_iter().map(|outer| Region { outer, holes: Vec::new() }).collect();
        let parts = difference(&whole, &taken);
        parts.into_iter().max_by(|a, b| a.area().total_cmp(&b.area())).unwrap_or_default()
    })
}

/// Pieces of an instance by their count, each with the turns that `turns` reads of it.
fn pieces(instance: &Value, scale: f64, cloths: usize, turns: &dyn Fn(&Value) -> Turns) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for item in instance["items"].as_array().into_iter().flatten() {
        let from = |cloth| Source { cloth, turns: turns(item), dislike: 0.0 };
        let one = Piece {
            name: item["id"].to_string(),
            outline: region(&item["shape"], scale).outer,
            from: (0..cloths).map(from).collect(),
            // None named: the best cloth alone will do.
            tolerates: item["min_quality"].as_u64().map_or(0, |least| BEST.saturating_sub(least as u8)),
        };
        pieces.extend(std::iter::repeat_n(one, item["demand"].as_u64().unwrap_or(1) as usize));
    }
    pieces
}

fn sound(ask: &Ask, answer: &Answer) -> String {
    match faults(ask, answer).len() {
        0 => "no fault".to_owned(),
        count => format!("{count} FAULTS"),
    }
}

/// Qualities of the instances go up to this.
const BEST: u8 = 10;

/// Six instances of irregular bins: a piece may lie over zones of the quality that it asks or better ones.
pub(crate) fn bins(folder: &str, seed: u64) -> Result<(), String> {
    for no in 1..=6 {
        let instance = read(folder, &format!("baldacci{no}.json"))?;
        let bins = instance["bins"].as_array().cloned().unwrap_or_default();
        let cloth = |bin: &Value| {
            let whole = region(&bin["shape"], 0.01);
            let spots = bin["zones"].as_array().into_iter().flatten().map(|zone| Spot {
                outline: region(&zone["shape"], 0.01).outer,
                badness: BEST.saturating_sub(zone["quality"].as_u64().unwrap_or(0) as u8),
            });
            Cloth {
                name: bin["id"].to_string(),
                spots: spots.collect(),
                grain: Turn::NONE,
                price: Price::Whole(whole.area()),
                parts: vec![whole],
            }
        };
        let cloths: Vec<Cloth> = bins.iter().map(cloth).collect();
        let pieces = pieces(&instance, 0.01, cloths.len(), &|_| Turns::Any);
        let effort = Effort { rounds: 1_500, samples: 300, seed };
        let ask = Ask { pieces, cloths, room: Room::default(), effort };
        let begun = Instant::now();
        let answer = nest(&ask, &mut |_| true).map_err(|why| why.to_string())?;
        println!(
            "baldacci{no}: {} of {} placed on {} of {} bins, {}, {:.1} s",
            answer.placed.len(),
            ask.pieces.len(),
            answer.opened().len(),
            ask.cloths.len(),
            sound(&ask, &answer),
            begun.elapsed().as_secs_f64()
        );
    }
    Ok(())
}

/// How long the processor has worked for this program, in seconds, where the system tells it; else the clock's.
fn worked() -> f64 {
    let told = std::fs::read_to_string("/proc/self/schedstat").ok();
    let nanoseconds = told.as_deref().and_then(|told| told.split_whitespace().next()?.parse::<f64>().ok());
    nanoseconds.map_or_else(
        || SystemTime::now().duration_since(UNIX_EPOCH).map_or(0.0, |since| since.as_secs_f64()),
        |nanoseconds| nanoseconds * 1e-9,
    )
}

/// Published strips: density after so many seconds of one core's work, three seeds.
pub(crate) fn strips(folder: &str, seconds: f64, only: Option<&str>) -> Result<(), String> {
    let all = ["swim", "shirts", "trousers", "marques", "albano", "jakobs1", "jakobs2"];
    if let Some(only) = only.filter(|only| !all.contains(only)) {
        return Err(format!("`{only}` is no strip; there are: {}", all.join(", ")));
    }
    for name in all.into_iter().filter(|name| only.is_none_or(|only| name == &only)) {
        let instance = read(folder, &format!("{name}.json"))?;
        let height = instance["strip_height"].as_f64().unwrap_or(1.0);
        let scale = 40.0 / height;
        let turns = |item: &Value| {
            let degrees = item["allowed_orientations"].as_array().into_iter().flatten();
            Turns::Only(degrees.filter_map(Value::as_f64).map(Turn::from_degrees).collect())
        };
        let pieces = pieces(&instance, scale, 1, &turns);
        let area: f64 = pieces.iter().map(|piece| polygon::area(&piece.outline)).sum();
        let strip = Region::rectangle(area / 40.0 * 2.5 + 40.0, 40.0);
        let cloth = Cloth {
            name: name.to_owned(),
            parts: vec![strip],
            spots: Vec::new(),
            grain: Turn::NONE,
            price: Price::ByLength(1.0),
        };
        let mut densities = Vec::new();
        for seed in 1..=3 {
            let effort = Effort { rounds: 1_000_000, samples: 400, seed };
            let ask =
                Ask { pieces: pieces.clone(), cloths: vec![cloth.clone()], room: Room::default(), effort };
            let begun = worked();
            let answer = nest(&ask, &mut |_| worked() - begun < seconds).map_err(|why| why.to_string())?;
            let reach = |at: &nest::Placed| {
                let placed = at.at.apply_all(&ask.pieces[at.piece].outline);
                placed.into_iter().map(|p| (p - Vec2::default()).x).fold(0.0, f64::max)
            };
            let long = answer.placed.iter().map(reach).fold(0.0, f64::max);
            let all = if answer.left_over.is_empty() { 100.0 * area / (40.0 * long) } else { 0.0 };
            densities.push(all);
            if !faults(&ask, &answer).is_empty() {
                println!("{name}: FAULTS");
            }
        }
        densities.sort_by(f64::total_cmp);
        println!("{name}: {:.2} % in the median of {densities:.2?}, {seconds} s", densities[1]);
    }
    Ok(())
}
