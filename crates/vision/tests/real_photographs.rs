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
    // Of the markers at least 25 pixels wide: how many there are, and how many we must find. Those
    // missing lie over an edge of their cube or have hardly any margin. The cards' own are larger.
    let names =
        [("33369213973_9d9bb4cc96_c", 6), ("34085369442_304b6bafd9_c", 0), ("34139872896_defdb2f8d9_c", 10)];
    let mut off = Vec::new();
    for (name, least) in names {
        let picture = decode(&std::fs::read(folder.join(format!("{name}.jpg"))).unwrap()).unwrap();
        let wanted = reference(&std::fs::read_to_string(folder.join(format!("{name}.txt"))).unwrap());
        assert!(wanted.len() >= 10, "the reference was not understood");
        let found = find_cards(&picture);
        let (mut large, mut large_found, mut all_found) = (0, 0, 0);
        for (no, corners) in &wanted {
            let middle = corners[0].midpoint(corners[2]);
            let side = (0..4).map(|i| corners[i].distance(corners[(i + 1) % 4])).sum::<f64>() / 4.0;
            large += usize::from(side >= 25.0);
            let near = found.iter().find(|card| card.middle().distance(middle) < 4.0);
            let Some(card) = near else { continue };
            assert_eq!(card.no, *no);
            all_found += 1;
            large_found += usize::from(side >= 25.0);
            // In the reference's own order: this holds the turn of the code against the published one.
            off.extend((0..4).map(|i| card.corners[i].distance(corners[i])));
        }
        println!(
            "{name}: {all_found} of {}, of the large {large_found} of {large}, {} in all",
            wanted.len(),
            found.len()
        );
        assert!(large_found >= least, "{name}: {large_found} of {large}");
    }
    off.sort_by(f64::total_cmp);
    println!(
        "corners off: median {:.2}, 9 of 10 {:.2}, most {:.2} px",
        off[off.len() / 2],
        off[off.len() * 9 / 10],
        off[off.len() - 1]
    );
    assert!(off[off.len() / 2] < 0.5 && off[off.len() * 9 / 10] < 1.2, "{off:?}");
}
