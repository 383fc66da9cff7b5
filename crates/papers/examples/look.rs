//! Draws a small piece every way there is, to be looked at:
//! `cargo run -p papers --example look -- FOLDER [FOLDER OF TYPE]`.

mod small;

use drawing::svg::{Pictures, SvgOptions};
use drawing::{
    Accent, ClothOptions, Drawing, FrontOptions, PlannedCut, Proposal, ProposedPatch, back, cloth_drawing,
    front, overlay, proposal_drawing, table_drawing,
};
use papers::{Fonts, paint};
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::cloth::{Cloth, ClothId, Picture};
use quilt::eye::EyeMark;
use quilt::log::Mark;
use quilt::table::Table;
use small::{Fallible, heap, wedge, wedges};
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

fn main() -> Fallible<()> {
    let mut arguments = std::env::args().skip(1).map(PathBuf::from);
    let folder = arguments.next().ok_or("name a folder to draw into")?;
    let fonts = match arguments.next() {
        Some(place) => Fonts::in_folder(&place)?,
        None => Fonts::none(),
    };
    std::fs::create_dir_all(&folder)?;
    let (cloths, pictures) = heap()?;
    let table = wedges(46)?;
    let (piece, top) = table.piece().ok_or("nothing was sewn")?;
    let plain = FrontOptions { ground: true, ..FrontOptions::default() };
    let last = *table.patches().keys().last().ok_or("no patches")?;
    let side = top.sides().iter().find_map(quilt::table::Side::name);
    let chalk: BTreeSet<Mark> = (0..76).map(Mark).collect();
    let all = FrontOptions { labels: true, measures: true, ..plain.clone() };
    let checked = front(&table, piece, &cloths, &plain)?;
    let marks = overlay(&eye(), checked.weight);
    let drawings = [
        ("front", front(&table, piece, &cloths, &plain)?),
        ("flat", front(&table, piece, &cloths, &FrontOptions { flat: true, ..all.clone() })?),
        ("measured", front(&table, piece, &cloths, &all)?),
        ("finished", front(&table, piece, &cloths, &FrontOptions { finished: true, ..all.clone() })?),
        (
            "planned",
            front(
                &table,
                piece,
                &cloths,
                &FrontOptions {
                    sewn: Some(chalk),
                    accent: side.map(Accent::Side),
                    highlights: vec![last],
                    ..plain.clone()
                },
            )?,
        ),
        ("back", back(&table, piece, &cloths, &plain)?),
        ("back-measured", back(&table, piece, &cloths, &all)?),
        ("table", table_drawing(&table, &cloths, &all)?),
        ("proposal", proposal_drawing(&table, piece, &cloths, &plain, &proposal(&table)?)?),
        ("eye", checked.with([marks])),
        ("cloth", cloth(&cloths)?),
    ];
    let find = |picture: &Picture| pictures.get(&picture.hash).cloned();
    for (name, drawing) in drawings {
        let svg = drawing.to_svg(&SvgOptions { pictures: Pictures::Inside(&find), ..SvgOptions::default() });
        let pixels_per_in = 1100.0 / drawing.width_in().max(drawing.height_in());
        std::fs::write(folder.join(format!("{name}.svg")), &svg)?;
        let start = std::time::Instant::now();
        std::fs::write(folder.join(format!("{name}.png")), paint(&drawing, pixels_per_in, &fonts, &find)?)?;
        println!("{name}: {:.0} ms", start.elapsed().as_secs_f64() * 1e3);
    }
    Ok(())
}

fn proposal(table: &Table) -> Fallible<Proposal> {
    let (_, top) = table.piece().ok_or("nothing was sewn")?;
    let side =
        top.sides().into_iter().max_by(|a, b| a.length_in().total_cmp(&b.length_in())).ok_or("no side")?;
    let line = top.line(side.bound).ok_or("no line")?.inward(0.25);
    let seam = [line.point_at(line.along(side.from)), line.point_at(line.along(side.to))];
    let outline = wedge(side.length_in() + 0.6, 2.2, 1.5);
    let turn = line.direction().opposite();
    let pose =
        Pose::carrying(turn, Point::new(side.length_in() / 2.0 + 0.3, 0.25), seam[0].midpoint(seam[1]));
    let at = Pose::new(Turn::from_degrees(20.0), Vec2::new(2.0, 1.0));
    let patch = ProposedPatch { cloth: ClothId(5), at, outline, pose };
    Ok(Proposal { patches: vec![patch], seams: vec![seam], trims: Vec::new() })
}

fn eye() -> Vec<EyeMark> {
    let shape = [(-3.0, -3.0), (-1.0, -3.0), (-2.0, -1.5)].map(|(x, y)| Point::new(x, y));
    let place = Point::new(0.4, 0.3);
    vec![EyeMark::Point(place), EyeMark::Line(place, Point::new(3.0, 2.0)), EyeMark::Polygon(shape.to_vec())]
}

fn cloth(cloths: &BTreeMap<ClothId, Cloth>) -> Fallible<Drawing> {
    let mut cloth = cloths.get(&ClothId(3)).cloned().ok_or("no cloth")?;
    let outer = [(0.4, 0.3), (9.0, 0.0), (11.5, 3.0), (10.4, 7.4), (6.0, 6.2), (1.2, 7.8)];
    cloth.outline.outer = outer.map(|(x, y)| Point::new(x, y)).to_vec();
    cloth.flaws = vec![Region {
        outer: [(8.0, 4.0), (8.9, 4.2), (8.4, 5.0)].map(|(x, y)| Point::new(x, y)).to_vec(),
        holes: Vec::new(),
    }];
    let cut = |x: f64, cut: bool, label: &str| PlannedCut {
        outline: Pose::new(Turn::from_degrees(12.0), Vec2::new(x, 1.2)).apply_all(&wedge(3.0, 2.0, 1.4)),
        label: label.to_owned(),
        cut,
    };
    let cuts = vec![cut(1.4, false, "12"), cut(5.0, true, "14")];
    let what = ClothOptions { labels: true, ground: true, cuts, ..ClothOptions::default() };
    Ok(cloth_drawing(&cloth, cloths, &what))
}
