//! Offcuts as cloth: what a trim took off a top, with its seams.
//!
//! A trim through one patch gives plain cloth in the coordinates of the cloth that the patch was
//! cut from. A trim through several gives pieced cloth in the coordinates of the top as it lay.

use super::{Usable, portion};
use plane::{Point, Region, Turn, polygon};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Part, Runs, Shade};
use quilt::table::{Offcut, Table};
use std::collections::BTreeMap;

/// One connected part of an offcut.
#[derive(Clone, Debug, PartialEq)]
pub struct OffcutCloth {
    /// The cloth; its id is still to be given.
    pub cloth: Cloth,
    /// Whether it is worth keeping.
    pub usable: bool,
}

/// An offcut as cloths, one for each connected part. `known` looks up cloths of the ledger; parts
/// of unknown cloths are left out.
#[must_use]
pub fn offcut_cloth<'a>(
    offcut: &Offcut,
    table: &Table,
    known: impl Fn(ClothId) -> Option<&'a Cloth>,
    usable: Usable,
) -> Vec<OffcutCloth> {
    let mut parts: Vec<(&'a Cloth, Part)> = Vec::new();
    for part in &offcut.parts {
        let Some(patch) = table.patches().get(&part.patch) else { continue };
        let Some(cloth) = known(patch.cloth) else { continue };
        let pose = patch.at.inverse().then(part.pose);
        parts.push((cloth, Part { cloth: cloth.id, pose, shows: part.pose.apply_all(&part.piece) }));
    }
    let shapes: Vec<Region> = parts.iter().map(|(_, p)| region_of(&p.shows)).collect();
    let mut found = Vec::new();
    for outline in plane::union(&shapes) {
        let keep = usable.keeps(&outline);
        let inside = |part: &Part| {
            let area: f64 =
                plane::intersection(&region_of(&part.shows), &outline).iter().map(Region::area).sum();
            area > polygon::area(&part.shows) / 2.0
        };
        let here: Vec<(&Cloth, Part)> = parts.iter().filter(|(_, p)| inside(p)).cloned().collect();
        let cloth = match here.as_slice() {
            [] => continue,
            [(from, part)] => {
                let mut cloth = portion(from, outline.moved(part.pose.inverse()), ClothId(0));
                cloth.parent = Some(from.id);
                cloth
            }
            several => pieced(outline, several),
        };
        found.push(OffcutCloth { cloth, usable: keep });
    }
    found
}

fn region_of(points: &[Point]) -> Region {
    Region { outer: points.to_vec(), holes: Vec::new() }
}

/// One cloth sewn from several; its look and grain follow from theirs.
pub(super) fn pieced(outline: Region, parts: &[(&Cloth, Part)]) -> Cloth {
    let shares: Vec<(&Cloth, &Part, f64)> =
        parts.iter().map(|(cloth, part)| (*cloth, part, polygon::area(&part.shows))).collect();
    let most = shares.iter().max_by(|a, b| a.2.total_cmp(&b.2));
    let grain = most.map_or(Turn::QUARTER, |(cloth, part, _)| cloth.grain.then(part.pose.turn));
    let mut names: Vec<&str> = Vec::new();
    for (cloth, _, _) in &shares {
        if !names.contains(&cloth.name.as_str()) {
            names.push(&cloth.name);
        }
    }
    Cloth {
        id: ClothId(0),
        name: names.join(" and "),
        kind: Kind::Pieced,
        outline,
        flaws: Vec::new(),
        about: shares.iter().any(|(cloth, _, _)| cloth.about),
        look: mixed(&shares),
        grain,
        print: None,
        place: String::new(),
        facts: Facts::default(),
        picture: None,
        parts: parts.iter().map(|(_, part)| part.clone()).collect(),
        parent: None,
    }
}

/// The colours by area, and the strictest of the directions.
fn mixed(shares: &[(&Cloth, &Part, f64)]) -> Look {
    let total: f64 = shares.iter().map(|s| s.2).sum::<f64>().max(1e-12);
    let mut shades: BTreeMap<[u64; 3], Shade> = BTreeMap::new();
    for (cloth, _, area) in shares {
        for shade in &cloth.look.shades {
            let key = [shade.lab.l.to_bits(), shade.lab.a.to_bits(), shade.lab.b.to_bits()];
            shades.entry(key).or_insert(Shade { lab: shade.lab, share: 0.0 }).share +=
                shade.share * area / total;
        }
    }
    let mut shades: Vec<Shade> = shades.into_values().collect();
    shades.sort_by(|a, b| b.share.total_cmp(&a.share).then(b.lab.l.total_cmp(&a.lab.l)));
    let runs = |strict: fn(&Runs) -> bool, turned: fn(Turn) -> Runs| {
        let found = shares.iter().find(|(cloth, _, _)| strict(&cloth.look.runs))?;
        match found.0.look.runs {
            Runs::OneWay(turn) | Runs::BothWays(turn) => Some(turned(turn.then(found.1.pose.turn))),
            Runs::AnyWay => None,
        }
    };
    Look {
        shades,
        busy: shares.iter().map(|(cloth, _, area)| cloth.look.busy * area / total).sum(),
        runs: runs(|r| matches!(r, Runs::OneWay(_)), Runs::OneWay)
            .or_else(|| runs(|r| matches!(r, Runs::BothWays(_)), Runs::BothWays))
            .unwrap_or(Runs::AnyWay),
        repeat_in: None,
    }
}
