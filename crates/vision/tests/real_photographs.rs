//! Three real photographs full of markers of the cards' family, with the corners that the reference
//! detector finds (AprilRobotics/apriltag, `test/data/`). The pictures aren't ours to pass on: they
//! are read from `../shared/data/tags` beside the repository, or from `RAGBAG_TAGS`.

use plane::Point;
use std::path::PathBuf;
use vision::{decode, find_cards};

fn folder() -> Option<PathBuf> {
    let beside = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared/data/tags");
    let folder = std::env::var_os("RAGBAG_TAGS").map_or(beside, PathBuf::from);
    folder.is_dir().then_some(folder)
}

/// Number and corners of each line: `0, (277.9 327.4), …`.
fn reference(text: &str) -> Vec<(u16, [Point; 4])> {
    let numbers = |line: &str| -> Vec<f64> {
        line.split([',', '(', ')', ' ']).filter_map(|word| word.parse().ok()).collect()
    };
    let card = |n: Vec<f64>| {
        let corner = |i: usize| Point::new(n[1 + 2 * i], n[2 + 2 * i]);
        (n[0] as u16, [corner(0), corner(1), corner(2), corner(3)])
    };
    text.lines().map(numbers).filter(|n| n.len() == 9).map(card).collect()
}

#[test]
fn real_markers_are_found_where_the_reference_finds_them() {
    let Some(folder) = folder() else {
        println!("the photographs are not there: nothing was checked");
        return;
    };
    let names = ["33369213973_9d9bb4cc96_c", "34085369442_304b6bafd9_c", "34139872896_defdb2f8d9_c"];
    for name in names {
        let picture = decode(&std::fs::read(folder.join(format!("{name}.jpg"))).unwrap()).unwrap();
        let wanted = reference(&std::fs::read_to_string(folder.join(format!("{name}.txt"))).unwrap());
        let found = find_cards(&picture);
        let mut off = Vec::new();
        let mut matched = 0;
        for (no, corners) in &wanted {
            let middle = corners[0].midpoint(corners[2]);
            let near = found.iter().find(|card| card.middle().distance(middle) < 4.0);
            println!("{name} {no} at {middle:?}: {:?}", near.map(|c| (c.no, c.wrong_cells, c.side_px())));
            let Some(card) = near else { continue };
            matched += 1;
            off.extend((0..4).map(|i| card.corners[i].distance(corners[i])));
        }
        off.sort_by(f64::total_cmp);
        println!("{name}: {matched} of {}, {} found; corners off {:?}", wanted.len(), found.len(), off);
    }
}
