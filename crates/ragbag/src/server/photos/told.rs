//! What was seen of a photograph, as it goes over the wire.

use super::shelf::Read;
use super::view::{AlikeView, FoundView, TabletopView};
use crate::server::view::ShadeView;
use plane::{Point, Region, polygon};
use quilt::cloth::Runs;
use workroom::photo::PhotoCloth;

/// All that was seen.
pub(super) fn tabletop(number: u64, read: &Read) -> TabletopView {
    let above = &read.from_above;
    let corrected = read.corrected();
    let found = read.read.cloths.iter().enumerate();
    TabletopView {
        flat_url: format!("/api/photos/{number}/from_above.png"),
        window_in: [above.low.x, above.low.y, above.high.x - above.low.x, above.high.y - above.low.y],
        words: read.read.measured.words(),
        entered_before: read.read.entered_before.clone(),
        cards: read.read.measured.cards_on_table().iter().map(|corners| ring(corners)).collect(),
        found: found.map(|(no, cloth)| self::found(no, cloth, corrected.get(&no))).collect(),
    }
}

/// One cloth, its outline as found or put right.
pub(super) fn found(no: usize, cloth: &PhotoCloth, corrected: Option<&Region>) -> FoundView {
    let outline = corrected.unwrap_or(&cloth.outline);
    let (low, high) = polygon::bounds(&outline.outer).unwrap_or_default();
    FoundView {
        no,
        outline: ring(&outline.outer),
        holes: outline.holes.iter().map(|hole| ring(hole)).collect(),
        corrected: corrected.is_some(),
        width_in: high.x - low.x,
        height_in: high.y - low.y,
        area_in2: outline.area(),
        cut_off: cloth.cut_off,
        doubts: cloth.doubts.clone(),
        name: name(cloth),
        colours: cloth
            .look
            .shades
            .iter()
            .map(|shade| ShadeView { hex: shade.lab.to_srgb().to_string(), share: shade.share })
            .collect(),
        runs: cloth.runs_words(),
        print: cloth.print_words(),
        alike: cloth
            .candidates
            .iter()
            .map(|one| AlikeView { print: format!("{:x}", one.print), no: one.no, name: one.name.clone() })
            .collect(),
        beside: cloth.alike.iter().map(|one| one.which).collect(),
    }
}

fn ring(points: &[Point]) -> Vec<[f64; 2]> {
    points.iter().map(|p| [p.x, p.y]).collect()
}

/// A name by its looks, for the maker to better.
pub(super) fn name(cloth: &PhotoCloth) -> String {
    let what = match cloth.look.runs {
        _ if cloth.motif_in <= 0.0 => return cloth.colour.clone(),
        Runs::BothWays(_) => "stripe",
        Runs::AnyWay | Runs::OneWay(_) => "print",
    };
    format!("{} {what}", cloth.colour)
}
